"""What the README shows is what the commands print, and its two lines are whole commands."""

import re
from datetime import datetime
from pathlib import Path

from click.testing import CliRunner

from quoting.cli import main
from quoting.cli.owning import DEMO_RX

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
QUOTED = re.compile(r"```text\n(Ottersea .*?)\n```", re.DOTALL)


def line_after(marker):
    """The one command below a marker."""
    lines = README.split(f"<!-- {marker} -->\n```sh\n")[1].split("\n```")[0].splitlines()
    assert len(lines) == 1
    return lines[0]


def test_the_quote_shown_is_the_quote_printed():
    shown = QUOTED.search(README)[1]
    issued = datetime.strptime(re.search(r"issued (\w+ \d+, \d+),", shown)[1], "%b %d, %Y").date().isoformat()
    package = re.search(r"Page: .*#52-18-(\S+)$", shown, re.MULTILINE)[1]
    words = ["quote", "cottering", package, "--size", "52", "--color", "black", "--rx", DEMO_RX, "--on", issued]
    result = CliRunner().invoke(main, [*words, "--shop", str(ROOT / "demo_catalog")])
    assert result.exit_code == 0
    assert result.stdout.rstrip() == shown


def test_the_finding_shown_is_one_of_the_gallery():
    gallery = [path.read_text(encoding="utf-8") for path in (ROOT / "tests" / "errors").glob("*/expected.txt")]
    blocks = re.findall(r"```text\n(.*?)\n```", README, re.DOTALL)
    finding = next(block for block in blocks if re.search(r"^\S+:\d+:\d+: error: ", block))
    assert any(finding in text for text in gallery)


def test_both_lines_make_an_environment_install_and_run():
    demo, test = line_after("demo command"), line_after("test command")
    for line in (demo, test):
        assert line.startswith("python3 -m venv .venv && .venv/bin/pip install")
    assert demo.endswith("bevelbook demo")
    assert ".[test]" in test
    assert "pytest" in test


def test_license_is_said_plainly():
    assert "AGPL-3.0-or-later" in README
    assert "What a shop builds with it, its pages, quotes and data, is the shop's own." in README
