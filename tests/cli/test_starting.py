"""From nothing to a shop: by questions, by options, and never half."""

import os
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main, starting

FLAGS = ("--name", "Fenwick Eyes", "--email", "post@example.org")


def bevelbook(*words, typed=None):
    return CliRunner().invoke(main, [str(word) for word in words], input=typed, prog_name="bevelbook")


@pytest.fixture
def terminal(monkeypatch):
    """Somebody is there to be asked."""
    monkeypatch.setattr(starting, "in_terminal", lambda: True)


def test_options_alone_make_a_shop_that_builds(tmp_path):
    told = bevelbook("new", tmp_path / "shop", *FLAGS, "--yes")
    assert told.exit_code == 0, told.output
    assert bevelbook("check", tmp_path / "shop").exit_code == 0
    built = bevelbook("build", tmp_path / "shop", "--to", tmp_path / "site")
    assert built.exit_code == 0, built.output
    page = (tmp_path / "site/frames/example-frame/index.html").read_text(encoding="utf-8")
    assert "Fenwick Eyes" in page
    assert "An example to copy. It is not for sale." in page


def test_questions_make_one_and_a_wrong_answer_is_asked_again(tmp_path, terminal):
    typed = "Fenwick Eyes\npost.example.org\npost@example.org\nde_AT\n\n4,90\n4.90\n20\nyes\nn\n"
    told = bevelbook("new", tmp_path / "shop", typed=typed)
    assert told.exit_code == 0, told.output
    for words in (
        "must be an e-mail address, not `post.example.org`",
        "Currency [EUR]",
        "a decimal point, not a comma: 4.90",
    ):
        assert words in told.output
    catalog, findings = load(tmp_path / "shop", date.today())
    assert findings == []
    assert (catalog.shop.email, catalog.shop.currency) == ("post@example.org", "EUR")
    assert catalog.price_list.regions[0].shipping_cents == 490
    assert len(catalog.packages) == 1


def test_without_a_terminal_it_says_what_is_missing(tmp_path):
    told = bevelbook("new", tmp_path / "shop", "--name", "Fenwick Eyes")
    assert told.exit_code == 2
    assert "--email, --locale, --currency, --shipping, --tax, --tax-included" in " ".join(told.output.split())
    told = bevelbook("new", tmp_path / "shop", "--yes")
    assert told.exit_code == 2
    assert "give --name, --email" in told.output
    assert not (tmp_path / "shop").exists()


def test_a_wrong_option_is_told_at_the_option_and_nothing_is_written(tmp_path):
    told = bevelbook("new", tmp_path / "shop", *FLAGS, "--yes", "--tax", "8,25", "--currency", "USX")
    assert told.exit_code == 1
    assert "--tax:1:1: error" in told.output
    assert "--currency:1:1: error: no country pays with a currency `USX`" in told.output
    assert not (tmp_path / "shop").exists()


def test_a_folder_that_is_not_empty_is_refused(tmp_path):
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    told = bevelbook("new", tmp_path, *FLAGS, "--yes")
    assert told.exit_code == 2
    assert "not empty" in told.output
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_a_folder_in_which_a_command_was_cut_short_is_settled_first(tmp_path):
    (tmp_path / ".bevelbook-writing.json").write_text(
        '{"state": "begun", "files": {"shop.yaml": true}}', encoding="utf-8"
    )
    (tmp_path / ".shop.yaml.bevelbook-new").write_text("half", encoding="utf-8")
    told = bevelbook("new", tmp_path, *FLAGS, "--yes")
    assert told.exit_code == 0, told.output
    assert bevelbook("check", tmp_path).exit_code == 0


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_prints_what_the_shell_can_read(shell, tmp_path):
    told = bevelbook("completion", shell)
    assert told.exit_code == 0
    assert "_BEVELBOOK_COMPLETE" in told.output
    if shutil.which(shell):
        script = tmp_path / "script"
        script.write_text(told.output, encoding="utf-8")
        assert subprocess.run([shell, "-n", script], env=os.environ, capture_output=True).returncode == 0


CORNER = str(Path(__file__).parents[1] / "shops" / "corner")


def completed(*words):
    """What the shell would offer in place of the last word."""
    found = ShellComplete(main, {}, "bevelbook", "_BEVELBOOK_COMPLETE").get_completions(list(words[:-1]), words[-1])
    return [one.value for one in found]


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (("fi",), ["fit"]),
        (("fit", "--shop", CORNER, ""), ["alder", "reed"]),
        (("fit", "--shop", CORNER, "re"), ["reed"]),
        (("quote", "--shop", CORNER, "reed", ""), ["plain-150", "thin-160", "flow-160"]),
        (("quote", "--shop", CORNER, "reed", "--color", ""), ["gray", "dusk"]),
        (("quote", "--shop", CORNER, "alder", "--size", "5"), ["52-18"]),
        (("quote", "--shop", CORNER, "--region", "a"), ["away"]),
        (("quote", "--shop", CORNER, "--discount", ""), ["spring", "teacher"]),
        (("frame", "add", CORNER, "--maker", "B"), ["Bolderwood"]),
        (("frame", "add", CORNER, "--material", ""), ["acetate", "titanium"]),
        (("frame", "add", "--family", "pan"), ["panto"]),
        (("package", "add", CORNER, "--material", ""), ["r150", "r160"]),
        (("package", "add", CORNER, "--design", "p"), ["prog"]),
        (("explain", "height-too"), ["height-too-low"]),
    ],
)
def test_the_shell_completes_commands_and_the_ids_of_the_shop(words, offered):
    assert completed(*words) == offered


def test_ids_complete_from_the_demo_shop_where_none_is_here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert completed("fit", "cotter") == ["cottering"]


def test_a_shop_with_faults_completes_nothing_and_raises_nothing(tmp_path):
    assert completed("fit", "--shop", str(tmp_path / "none"), "") == []


@pytest.mark.skipif(not shutil.which("bash"), reason="there is no bash here")
def test_bash_itself_offers_the_ids(tmp_path):
    """The script asks the command by its name, so one of that name is put into the path."""
    command = tmp_path / "bevelbook"
    command.write_text(f"#!{sys.executable}\nfrom quoting.cli import run\nrun()\n", encoding="utf-8")
    command.chmod(0o755)
    script = tmp_path / "script"
    script.write_text(bevelbook("completion", "bash").output, encoding="utf-8")
    asked = f"source {script}; COMP_WORDS=(bevelbook quote --shop {CORNER} re); COMP_CWORD=4"
    path = f"{tmp_path}{os.pathsep}{os.environ['PATH']}"
    words = ["bash", "-c", f'{asked}; _bevelbook_completion bevelbook; echo "${{COMPREPLY[@]}}"']
    env = {**os.environ, "PATH": path, "PYTHONPATH": str(Path(__file__).parents[2])}
    told = subprocess.run(words, env=env, capture_output=True, text=True, timeout=600)
    assert told.stdout.split() == ["reed"], told.stderr
