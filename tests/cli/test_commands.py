"""The commands as people and programs use them."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.cli import main

ROOT = Path(__file__).parents[2]
CORNER = str(ROOT / "tests" / "shops" / "corner")
RX = "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 31/32"


def bevelbook(*words):
    return CliRunner().invoke(main, words, prog_name="bevelbook")


@pytest.mark.parametrize("command", main.commands.values(), ids=lambda command: command.name)
def test_readme_tells_every_command_and_every_command_helps(command):
    assert f"bevelbook {command.name}" in (ROOT / "README.md").read_text(encoding="utf-8")
    told = bevelbook(command.name, "--help")
    assert told.exit_code == 0
    assert command.help.split(".")[0] in " ".join(told.output.split())


def test_check_tells_what_is_wrong_with_prose_once_the_catalog_is_sound(tmp_path):
    shop = Path(shutil.copytree(CORNER, tmp_path / "shop"))
    article = shop / "content" / "combinations" / "one.md"
    article.parent.mkdir(parents=True)
    words = "Frame: alder\nSize: 52-18\nColorway: slate\nPackage: thin-160\nRx: OD -2 DS / OS -2 DS / PD 63\n"
    article.write_text(f"Title: One\nDate: 2026-01-05\nFilm: http://x.example.org A film\n{words}\nWords.\n", "utf-8")
    told = bevelbook("check", str(shop), "--on", "2026-02-01")
    assert told.exit_code == 1
    assert f"{article}:3:7: error: `http://x.example.org` is no address that begins with https://" in told.output
    assert "1 to mend." in told.output
    sheet = next((shop / "frames").iterdir())
    sheet.write_text(sheet.read_text("utf-8").replace("    - {a: ", "    - {a: x", 1), "utf-8")
    assert "combination-film" not in bevelbook("check", str(shop), "--on", "2026-02-01").output


def test_fit_json_keeps_its_contract():
    result = bevelbook("fit", "alder", "--shop", CORNER, "--rx", RX, "--on", "2026-02-01", "--json")
    assert result.exit_code == 0
    found = json.loads(result.stdout)
    by_id = {one["package"]: one for one in found["packages"]}
    assert by_id.keys() == {"plain-150", "thin-160", "flow-160"}
    thin = by_id["thin-160"]
    assert thin["verdict"] == "fits"
    assert thin["eyes"].keys() == {"R", "L"}
    right = thin["eyes"]["R"]
    assert {"edge_max_mm", "edge_max_at", "edge_min_mm", "center_mm", "weight_g", "blank_min_mm"} <= right.keys()
    assert {"decentration_in_mm", "base_curve"} <= right.keys()
    assert sum(line["cents"] for line in thin["lines"]) == thin["total_cents"]
    refused = by_id["plain-150"]
    assert refused["verdict"] == "no"
    assert refused["total_cents"] is None
    assert refused["reasons"][0].keys() == {"code", "verdict", "eye", "needed", "given", "text", "exact"}


def test_both_notations_of_one_prescription_cost_and_look_the_same():
    minus = bevelbook("fit", "alder", "--shop", CORNER, "--rx", "OD -2.25 -0.75 x 090 / OS -2.50 -1.00 x 5", "--json")
    plus = bevelbook("fit", "alder", "--shop", CORNER, "--rx", "OD -3.00 +0.75 x 180 / OS -3.50 +1.00 x 95", "--json")
    assert json.loads(minus.stdout)["packages"] == json.loads(plus.stdout)["packages"]


def test_quote_carries_number_dates_and_price_list():
    words = ("quote", "alder", "thin-160", "--shop", CORNER, "--rx", RX, "--on", "2026-02-01", "--json")
    found = json.loads(bevelbook(*words).stdout)
    assert (found["issued"], found["expires"], found["price_list"]) == ("2026-02-01", "2026-02-15", "2026-01")
    assert found["number"].startswith("260201-")
    again = json.loads(bevelbook(*words).stdout)
    assert again["number"] == found["number"]
    other = json.loads(bevelbook(*words, "--region", "away").stdout)
    assert other["number"] != found["number"]


def test_a_quote_that_does_not_fit_ends_with_one_and_names_the_reason():
    result = bevelbook("quote", "alder", "plain-150", "--shop", CORNER, "--rx", RX)
    assert result.exit_code == 1
    assert "made down to −4.00; your prescription needs −7.50." in " ".join(result.output.split())


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("fit", "aldr", "--rx", RX), "did you mean alder?"),
        (("quote", "alder", "thin-106", "--rx", RX), "did you mean thin-160?"),
        (("fit", "alder", "--rx", RX, "--size", "54-18"), "no size of Alder '54-18'"),
        (("fit", "reed", "--rx", RX), "comes in 2 colorways, say which: gray, dusk"),
        (("fit", "alder"), "either with --rx or with --rx-file"),
        (("fit", "alder", "--rx", RX, "--pd", "sixty"), "PD: 'sixty' is not a number"),
        (("fit", "alder", "--rx", RX, "--pd", "31/32/33"), "is not one number nor right/left"),
        (("fit", "alder", "--rx", RX, "--height", "210"), "pupil height: 210 is not between 5 and 45"),
        (("fit", "alder", "--rx", RX, "--region", "her"), "did you mean here?"),
        (("fit", "alder", "--rx-file", "nowhere.txt"), "there is no file nowhere.txt"),
        (("fit", "alder", "--rx", RX, "--on", "2026-02-30"), "does not match the format"),
        (("fit", "alder", "--rx", RX, "--on", "9999-12-31"), "9999-12-31 is not a day of this or the next century"),
    ],
    ids=lambda part: part if isinstance(part, str) else " ".join(part[:4]),
)
def test_misuse_is_one_sentence_and_exit_code_two(words, sentence):
    result = bevelbook(*words, "--shop", CORNER)
    assert result.exit_code == 2
    assert sentence in " ".join(result.output.split())
    assert "Traceback" not in result.output


def test_an_unreadable_token_is_quoted_with_its_place_and_ends_with_one():
    result = bevelbook("fit", "alder", "--shop", CORNER, "--rx", "OD -225 DS / OS -2.50 DS")
    assert result.exit_code == 1
    assert "slip:1:4: error: `-225` has no decimal point" in result.output


def test_a_pd_that_differs_from_the_slip_is_said():
    result = bevelbook("fit", "alder", "--shop", CORNER, "--rx", "OD -2.00 DS / OS -2.00 DS / PD 63", "--pd", "60")
    assert "The prescription says PD 63; reckoned with PD 60 as measured." in result.output
    result = bevelbook("fit", "alder", "--shop", CORNER, "--rx", "OD -2.00 DS / OS -2.00 DS", "--pd", "60")
    assert "The prescription says" not in result.output


def test_measurements_that_are_unlikely_are_told_as_those_of_a_slip():
    words = ("fit", "alder", "--shop", CORNER, "--rx", "OD -2.00 DS / OS -2.00 DS / PD 64")
    told = bevelbook(*words, "--pd", "28/33", "--height", "18/24").stderr
    for code in ("pd-sum", "pd-uneven"):
        assert re.search(rf"^--pd:1:1: warning: .* \[{code}\]\n1 \| 28/33\n  \| \^{{5}}\n", told, re.MULTILINE), code
    assert re.search(r"^--height:1:1: warning: .* \[height-uneven\]\n1 \| 18/24\n", told, re.MULTILINE)
    assert "warning" not in bevelbook(*words, "--pd", "31.5/32.5", "--height", "20/21").stderr
    assert "pd-range" in bevelbook(*words[:4], "--rx", "OD -2.00 DS / OS -2.00 DS", "--pd", "50").stderr
    assert "pd-range" not in bevelbook(*words[:4], "--rx", "OD -2.00 DS / OS -2.00 DS", "--pd", "50", "--child").stderr
    slip = (*words[:4], "--rx", "OD -2.00 DS / OS -2.00 DS / PD 50")
    assert "pd-range" in bevelbook(*slip).stderr
    assert "pd-range" not in bevelbook(*slip, "--child").stderr


@pytest.mark.parametrize(
    "wrong",
    [
        ("--size", "99-18"),
        ("--color", "pink"),
        ("--pd", "sixty"),
        ("--height", "x"),
        ("--tilt", "x"),
        ("--region", "x"),
    ],
    ids=lambda words: words[0],
)
@pytest.mark.parametrize("command", [("fit", "alder"), ("quote", "alder", "thin-160")], ids=lambda words: words[0])
def test_misuse_is_told_before_anything_about_the_prescription(command, wrong):
    result = bevelbook(*command, "--shop", CORNER, "--rx", "OD -2.00 DS / OS -2.00 DS", *wrong)
    assert result.exit_code == 2
    assert "undated" not in result.output


def test_a_multifocal_without_an_add_is_not_called_unmade_and_has_no_weight_and_no_price():
    rx = ("--shop", CORNER, "--rx", "OD -2.00 DS / OS -2.00 DS", "--on", "2026-02-01")
    told = bevelbook("fit", "alder", *rx).stdout
    block = told[told.index("[flow-160]") :].split("\n\n")[0].splitlines()
    assert block[0] == "[flow-160]"
    assert [line.strip() for line in block[1:]] == [
        "! This lens needs a reading addition, and the prescription has none.",
        "→ With your addition, +0.75 to +3.50: fits",
    ]
    paper = bevelbook("quote", "alder", "flow-160", *rx).stdout
    assert re.search(r"^R  not worked out without its addition\nL  not worked", paper, re.MULTILINE)
    assert "\nTotal: no price\n" in paper
    for absent in ("not made", " g\n", "with the frame", "$", "Each share"):
        assert absent not in paper.split("Note:")[0], absent
    found = json.loads(bevelbook("quote", "alder", "flow-160", *rx, "--json").stdout)["offer"]
    assert (found["weight_pair_g"], found["total_cents"], found["lines"]) == (None, None, [])
    assert [one["fault"] for one in found["eyes"].values()] == ["needs-add", "needs-add"]


def test_the_weight_of_a_pair_is_not_that_of_the_one_lens_that_can_be_made():
    rx = ("--shop", CORNER, "--rx", "OD -2.00 DS / OS -9.00 DS", "--on", "2026-02-01")
    found = json.loads(bevelbook("quote", "alder", "plain-150", *rx, "--json").stdout)["offer"]
    assert found["eyes"]["R"]["weight_g"] > 0
    assert found["eyes"]["L"]["fault"] == "not-made"
    assert found["weight_pair_g"] is None
    assert "lenses together" not in bevelbook("quote", "alder", "plain-150", *rx).stdout
    told = bevelbook("fit", "alder", *rx).stdout
    block = told[told.index("[plain-150]") :].split("\n        !")[0]
    assert "R  edge" in block
    assert "L  not made in this power" in block
    assert "lenses together" not in block


def test_a_near_pd_is_told_beside_the_one_for_distance():
    words = ("quote", "alder", "thin-160", "--shop", CORNER, "--rx", "OD -2.00 DS / OS -2.00 DS / PD 64/61")
    assert "\nPD 64, near 61\n" in bevelbook(*words).stdout
    found = json.loads(bevelbook(*words, "--json").stdout)["prescription"]["pd"]
    assert found == {"binocular": 64, "right": None, "left": None, "near": 61}


def test_a_named_discount_that_is_not_taken_off_is_said():
    words = ("quote", "alder", "thin-160", "--shop", CORNER, "--rx", RX, "--on", "2026-02-01")
    assert "Teachers is not taken off" not in bevelbook(*words, "--discount", "teacher").output
    spring = bevelbook(*words, "--discount", "spring").output
    assert "Spring offer, 10 % on lenses is not taken off: it is not in force." in spring


@pytest.mark.parametrize("command", ["check", "build", "serve"])
def test_the_owners_commands_never_take_another_shop(command, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = bevelbook(command)
    assert result.exit_code == 2
    assert "there is no shop.yaml here: name the shop's folder" in result.output
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_is_one_sentence():
    command = [sys.executable, "-c", "from quoting.cli import run; run()", "check", CORNER, "--on", "2026-04-01"]
    with Path("/dev/full").open("w") as full:
        ended = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert ended.returncode == 1
    assert ended.stderr == "bevelbook: No space left on device\n"


@pytest.mark.parametrize("command", [("check",), ("build", "--to", "out")], ids=lambda words: words[0])
def test_a_shop_that_is_not_there_is_a_finding(command, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = bevelbook(command[0], "no-such-folder", *command[1:])
    assert result.exit_code == 1
    assert "no-such-folder" in result.output
    assert not (tmp_path / "out").exists()


def test_check_json_is_for_programs(tmp_path):
    result = bevelbook("check", str(tmp_path), "--json")
    assert result.exit_code == 1
    finding = json.loads(result.stdout)["findings"][0]
    assert finding.keys() == {"file", "line", "column", "severity", "code", "message", "hint", "unchecked"}


def test_the_last_line_of_check_says_where_there_may_be_more(tmp_path):
    shop = Path(shutil.copytree(CORNER, tmp_path / "corner"))
    first, second = sorted((shop / "frames").glob("*.yaml"))[:1], sorted((shop / "lenses").glob("*.yaml"))[:1]
    first[0].write_text(first[0].read_text(encoding="utf-8").replace("    name:", "\tname:", 1), encoding="utf-8")
    told = bevelbook("check", str(shop)).stderr.splitlines()[-1]
    assert told == "1 to mend, and there may be more in 1 entry that cannot be read yet."
    second[0].write_bytes(second[0].read_bytes() + b"# caf\xe9\n")
    told = bevelbook("check", str(shop)).stderr.splitlines()[-1]
    assert told == "2 to mend, and there may be more in 1 file and 1 entry that cannot be read yet."
    first[0].write_text("maker: 7\nframes: 7\n", encoding="utf-8")
    second[0].write_text("maker: 7\npackages: 7\n", encoding="utf-8")
    assert bevelbook("check", str(shop)).stderr.splitlines()[-1].endswith(" to mend.")


def test_check_for_editors_is_a_line_for_each_finding_and_nothing_else(tmp_path):
    result = bevelbook("check", str(tmp_path), "--format", "editor")
    told = json.loads(bevelbook("check", str(tmp_path), "--format", "json").stdout)["findings"]
    lines = [f"{one['file']}:{one['line']}:{one['column']}: {one['code']} {one['message']}" for one in told]
    assert result.exit_code == 1
    assert result.stdout.splitlines() == lines
    assert lines


def test_check_for_editors_writes_nothing_where_nothing_is_wrong():
    whole = str(Path(__file__).parent.parent / "errors" / "whole")
    result = bevelbook("check", whole, "--format", "editor", "--on", "2026-10-01")
    assert (result.exit_code, result.stdout) == (0, "")


def test_check_takes_one_format():
    assert bevelbook("check", CORNER, "--json", "--format", "editor").exit_code == 2


def test_demo_checks_builds_quotes_and_says_where_everything_is(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    result = bevelbook("demo")
    assert result.exit_code == 0
    assert (tmp_path / "bevelbook-demo" / "index.html").is_file()
    page = re.search(r"Page: file://(\S+)#(\S+)", result.output)
    assert f'id="{page[2]}"' in Path(page[1]).read_text(encoding="utf-8")
    shop = re.search(r"to copy and change: (.+)$", result.output, re.MULTILINE)[1]
    assert (Path(shop) / "shop.yaml").is_file()


def test_a_price_list_that_does_not_hold_yet_is_said():
    result = bevelbook("fit", "alder", "--shop", CORNER, "--rx", RX, "--on", "2025-12-31")
    assert result.exit_code == 0
    assert "list-not-yet" in result.output
    assert "2026-01-01" in result.output


def keys_of(value):
    """All keys of a JSON value, however deep."""
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    own = set(value) if isinstance(value, dict) else set()
    return own.union(*(keys_of(one) for one in inner))


def test_a_photo_that_is_not_there_keeps_nobody_from_a_quote(tmp_path):
    shop = Path(shutil.copytree(CORNER, tmp_path / "corner"))
    frames = shop / "frames" / "bolderwood.yaml"
    text = frames.read_text(encoding="utf-8")
    frames.write_text(text.replace("{id: slate,", "{id: slate, photo: gone.jpg,"), encoding="utf-8")
    rx = ("--rx", "OD -2.00 DS / OS -2.00 DS / PD 64", "--on", "2026-02-01")
    assert bevelbook("quote", "alder", "thin-160", "--shop", str(shop), *rx).exit_code == 0
    checked = bevelbook("check", str(shop), "--format", "editor")
    assert checked.exit_code == 1
    assert f"{frames.as_posix()}:14:28: no-such-photo there is no `gone.jpg` in photos/" in checked.stdout
    built = bevelbook("build", str(shop), "--to", str(tmp_path / "site"))
    assert (built.exit_code, (tmp_path / "site").exists()) == (1, False)
    assert "no-such-photo" in built.stderr


def test_every_key_of_the_json_is_named_for_developers():
    part = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## The JSON of `fit` and `quote`")[1]
    named = set(re.findall(r"`([^`]+)`", part.split("`prices import --json`")[0]))
    rx = ("--shop", CORNER, "--rx", "OD -2.00 DS / OS -9.00 DS / PD 64/61", "--on", "2026-02-01", "--json")
    fit = json.loads(bevelbook("fit", "alder", *rx, "--range", "--tint", "50").stdout)
    quote = json.loads(bevelbook("quote", "alder", "thin-160", *rx).stdout)
    assert keys_of(fit.pop("wishes")) - named  # told as a whole, in prescription/wishes.py
    assert (keys_of(fit) | keys_of(quote)) - named == set()
