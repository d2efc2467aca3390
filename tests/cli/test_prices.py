"""Prices from the command line: which list counts on which day, and how prices come in, go out and rise."""

import json
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.cli import main

CORNER = Path(__file__).parents[1] / "shops" / "corner"
ROOT = Path(__file__).parents[2]
RX = "OD -1.00 DS / OS -1.00 DS / PD 63"


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


@pytest.fixture
def corner(tmp_path):
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


@pytest.fixture
def later(corner):
    """The corner shop with a second price list from 2027 on."""
    text = (corner / "prices/2026-01.yaml").read_text(encoding="utf-8").replace("2026-01", "2027-01")
    (corner / "prices/2027-01.yaml").write_text(
        text + "lenses: {plain-150: +10 %}\nframes: {alder: {slate: 131.37}}\n", encoding="utf-8"
    )
    return corner


@pytest.mark.parametrize(("day", "version", "frame", "lenses"), [
    ("2025-05-05", "2026-01", 12000, 4000),
    ("2026-12-31", "2026-01", 12000, 4000),
    ("2027-01-01", "2027-01", 13137, 4400),
])  # fmt: skip
def test_a_quote_is_made_from_the_list_in_force_and_names_it(later, day, version, frame, lenses):
    words = ("quote", "alder", "plain-150", "--shop", later, "--rx", RX, "--on", day, "--json")
    found = json.loads(bevelbook(*words).stdout)
    assert found["price_list"] == version
    assert [line["cents"] for line in found["offer"]["lines"][:2]] == [frame, lenses]
    words = ("fit", "alder", "--shop", later, "--rx", RX, "--on", day, "--json")
    found = json.loads(bevelbook(*words).stdout)
    by_id = {one["package"]: one for one in found["packages"]}
    assert [line["cents"] for line in by_id["plain-150"]["lines"][:2]] == [frame, lenses]


def test_a_site_is_built_from_the_list_in_force(later, tmp_path):
    pages = []
    for day in ("2026-12-31", "2027-01-01"):
        assert bevelbook("build", later, "--to", tmp_path / day, "--on", day).exit_code == 0
        pages.append((tmp_path / day / "frames/alder/index.html").read_text(encoding="utf-8"))
    assert ["$131.37" in page for page in pages] == [False, True]
    assert ["2027-01" in page for page in pages] == [False, True]


def test_check_reads_all_lists_and_tells_which_come(later):
    told = bevelbook("check", later)
    assert told.exit_code == 0
    assert "2026-01" in told.output
    assert "2027-01" in told.output
    path = later / "prices/2027-01.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("+10 %", "10"), encoding="utf-8")
    told = bevelbook("check", later)
    assert told.exit_code == 1
    assert "prices/2027-01.yaml:14" in told.output


MAP = """maker: Pennock
columns: {code: Artikel, price: Preis, from: von, to: bis}
per: lens
codes: {P-1: plain-150}
"""
LIST = "Artikel;von;bis;Preis\nP-1;-4,00;+2,00;21,00\nflow-160;-6,00;+4,00;190,00\nP-7;0,00;+1,00;1.030,00\n"


@pytest.fixture
def maker(corner):
    """The corner shop with a column map, beside a list in the German way with one outlier."""
    (corner / "imports").mkdir()
    (corner / "imports/pennock.yaml").write_text(MAP, encoding="utf-8")
    (corner.parent / "list.csv").write_bytes(LIST.encode("cp1252"))
    return corner


def files(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_list_is_shown_first_and_written_when_asked(maker):
    before, listed = files(maker), maker.parent / "list.csv"
    shown = bevelbook("prices", "import", listed, maker)
    assert shown.exit_code == 0
    rows = [" ".join(line.split()) for line in shown.stdout.splitlines()]
    assert "plain-150 −4.00 to +2.00 $20.00 → $21.00 +5.0 %" in rows
    assert "flow-160 −6.00 to +4.00 $150.00 → $190.00 +26.7 % ! more than 20 %" in rows
    for words in ("P-7 (A4)", "not in the file: thin-160", "a comma before hundredths", "1 to look at twice"):
        assert words in shown.stdout
    assert files(maker) == before
    assert bevelbook("prices", "import", listed, maker, "--dry-run").exit_code == 0
    assert files(maker) == before
    written = bevelbook("prices", "import", listed, maker, "--write")
    assert written.exit_code == 0
    name = "lenses/pennock.yaml"
    new = before[name].replace(b"lens: 20.00}", b"lens: 21.00}").replace(b"lens: 150.00}", b"lens: 190.00}")
    assert files(maker) == {**before, name: new}
    again = bevelbook("prices", "import", listed, maker)
    assert "0 changes, 2 unchanged" in again.stdout
    assert "Nothing to write." in again.stdout


def test_the_limits_of_what_is_flagged_are_options(maker):
    shown = bevelbook("prices", "import", maker.parent / "list.csv", maker, "--outlier", "30", "--from-median", "50")
    assert "!" not in shown.stdout


def test_json_tells_the_same(maker):
    found = json.loads(bevelbook("prices", "import", maker.parent / "list.csv", maker, "--json").stdout)
    assert (found["unchanged"], found["missing"]) == (0, ["thin-160"])
    assert found["unknown"] == [{"code": "P-7", "cell": "A4"}]
    assert (found["written"], found["findings"]) == (False, [])
    assert [Path(name).name for name in found["files"]] == ["pennock.yaml"]
    assert found["changes"][0] == {
        "kind": "lens", "id": "plain-150", "colorway": None, "from": -4.0, "to": 2.0,
        "old_cents": 2000, "new_cents": 2100, "percent": 5.0, "unusual": None,
    }  # fmt: skip
    assert found["changes"][1]["unusual"] == "more than 20 %"
    done = json.loads(bevelbook("prices", "raise", "all", "+4%", maker, "--write", "--json").stdout)
    assert done["written"]


def test_a_map_is_proposed_written_once_and_then_used(corner):
    listed = corner.parent / "list.csv"
    listed.write_text(LIST.replace("P-1", "plain-150"), encoding="utf-8")
    asked = bevelbook("prices", "import", listed, corner)
    assert asked.exit_code == 1
    assert "[no-map]" in asked.stderr
    assert 'code: "Artikel"' in asked.stderr
    assert not (corner / "imports").exists()
    assert bevelbook("prices", "import", listed, corner, "--write-map").exit_code == 0
    assert (corner / "imports/pennock.yaml").exists()
    assert bevelbook("prices", "import", listed, corner, "--write-map").exit_code == 2
    assert "2 changes" in bevelbook("prices", "import", listed, corner).stdout


def test_what_a_file_was_read_with_is_written_into_its_map(corner):
    listed = corner.parent / "list.csv"
    listed.write_text("Artikel^Preis\nplain-150^21,00\n", encoding="utf-8")
    assert bevelbook("prices", "import", listed, corner, "--delimiter", "^", "--write-map").exit_code == 0
    assert 'delimiter: "^"' in (corner / "imports/pennock.yaml").read_text(encoding="utf-8")
    assert "1 change," in bevelbook("prices", "import", listed, corner).stdout


def test_a_map_with_faults_is_to_be_mended_and_no_other_proposed(maker):
    path = maker / "imports/pennock.yaml"
    path.write_text(MAP.replace("plain-150", "plain-105"), encoding="utf-8")
    told = bevelbook("prices", "import", maker.parent / "list.csv", maker)
    assert told.exit_code == 1
    assert "[unknown-id]" in told.stderr
    assert "no-map" not in told.stderr


def test_a_change_that_would_break_the_shop_is_refused_with_its_findings(maker):
    path = maker / "lenses/pennock.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("lens: 20.00", "lens: 99000.00"), encoding="utf-8")
    before = files(maker)
    told = bevelbook("prices", "raise", "package=plain-150", "+4%", maker, "--write")
    assert told.exit_code == 1
    assert "[out-of-range]" in told.stderr
    assert "Nothing was written." in told.stderr
    assert files(maker) == before
    assert bevelbook("check", maker).exit_code == 0


def test_prices_are_raised_by_a_rule_or_lowered(corner):
    told = bevelbook(
        "prices", "raise", "maker=pennock material=r160", "+4%", "--round", "up-to", "5", corner, "--write"
    )
    assert told.exit_code == 0
    text = (corner / "lenses/pennock.yaml").read_text(encoding="utf-8")
    assert [line.split("lens: ")[1] for line in text.splitlines() if "lens: " in line] == [
        "20.00}", "80.00}", "65.00}", "80.00}", "160.00}",
    ]  # fmt: skip
    told = bevelbook("prices", "raise", "frames maker=bolderwood", "-10%", corner, "--write")
    assert told.exit_code == 0
    text = (corner / "frames/bolderwood.yaml").read_text(encoding="utf-8")
    assert all(f"price: {price}," in text for price in ("108.00", "162.00", "175.95"))


def test_a_raise_goes_into_a_list_that_holds_from_a_day_on(corner):
    words = ("prices", "raise", "package=plain-150", "+10%", corner, "--into", "2027-01", "--effective", "2027-01-01")
    assert bevelbook(*words, "--write").exit_code == 0
    for day, cents in (("2026-12-31", 4000), ("2027-01-01", 4400)):
        words = ("quote", "alder", "plain-150", "--shop", corner, "--rx", RX, "--on", day, "--json")
        assert json.loads(bevelbook(*words).stdout)["offer"]["lines"][1]["cents"] == cents
    told = bevelbook("prices", "raise", "package=plain-150", "+5%", corner)
    assert "later list 2027-01" in told.stdout
    assert "$22.00 →  $23.10" in bevelbook("prices", "raise", "all", "+5%", corner, "--into", "2027-01").stdout


def test_a_list_goes_into_a_price_list_that_holds_from_a_day_on(maker):
    before = files(maker)
    words = ("prices", "import", maker.parent / "list.csv", maker, "--into", "2027-01")
    assert bevelbook(*words, "--effective", "2027-01-01", "--write").exit_code == 0
    now = files(maker)
    text = now.pop("prices/2027-01.yaml").decode()
    assert now == before
    assert "  plain-150:\n    - {from: -4.00, to: +2.00, lens: 21.00}\n" in text
    assert "0 changes, 2 unchanged" in bevelbook(*words).stdout
    assert (
        "2 changes, 0 unchanged"
        in bevelbook("prices", "import", maker.parent / "list.csv", maker, "--on", "2026-12-31").stdout
    )


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_an_export_imported_changes_nothing_and_a_changed_number_comes_back(later, tmp_path, ending):
    out = tmp_path / f"out.{ending}"
    assert bevelbook("prices", "export", later, "--to", out, "--frames", "--on", "2026-06-01").exit_code == 0
    told = bevelbook("prices", "import", out, later, "--on", "2026-06-01")
    assert told.exit_code == 0
    assert "0 changes, 8 unchanged" in told.stdout
    assert bevelbook("prices", "export", later, "--to", out).exit_code == 2
    before = files(later)
    if ending == "csv":
        out.write_bytes(out.read_bytes().replace(b",72.50\r\n", b",74.25\r\n"))
        assert bevelbook("prices", "import", out, later, "--on", "2026-06-01", "--write").exit_code == 0
        assert files(later)["lenses/pennock.yaml"] == before["lenses/pennock.yaml"].replace(b"72.50}", b"74.25}")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("import", "none.csv"), "there is no file none.csv"),
        (("raise", "makr=pennock", "+4%"), "did you mean maker=pennock?"),
        (("raise", "all", "4"), "is no change such as +4%"),
        (("raise", "all", "+4%", "--round", "upto", "5"), "did you mean `up-to`?"),
        (("raise", "all", "+4%", "--into", "2027-01"), "say from which day it holds"),
        (("raise", "all", "+4%", "--effective", "2027-01-01"), "--effective belongs to --into"),
        (("raise", "all", "+4%", "--into", "2026-01", "--effective", "2027-01-01"), "holds from 2026-01-01 on"),
        (("raise", "all", "+4%", "--into", "a/b", "--effective", "2027-01-01"), "cannot name a file"),
        (("raise", "all", "+4%", "--into", "2026-01", "--on", "2027-01-01"), "do not go together"),
        (("export", "--to", "out.pdf"), "must end in .csv or .xlsx"),
    ],
)
def test_misuse_is_told_in_one_sentence(corner, monkeypatch, words, sentence):
    monkeypatch.chdir(corner)
    told = bevelbook("prices", *words)
    assert told.exit_code == 2
    assert sentence in " ".join(told.stderr.split())


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system has no fork")
def test_a_raise_that_is_killed_at_any_step_is_whole_or_undone_at_the_next_command(tmp_path):
    whole = Path(shutil.copytree(CORNER, tmp_path / "whole"))
    (whole / "lenses/second.yaml").write_text(
        (whole / "lenses/pennock.yaml").read_text(encoding="utf-8").split("packages:")[0].split("materials:")[0]
        + "packages:\n"
        + "  - {id: more, name: More, design: sv, material: r160, light: clear, coating: none, prism: 1,\n"
        + "     ranges: [{from: -2.00, to: +2.00, cylinder: 2.00, diameter: 70}],\n"
        + "     prices: [{from: -2.00, to: +2.00, lens: 40.00}]}\n",
        encoding="utf-8",
    )
    new = Path(shutil.copytree(whole, tmp_path / "new"))
    words = ("prices", "raise", "all", "+4%")
    assert bevelbook(*words, new, "--write").exit_code == 0
    seen = []
    for step in range(60):
        shop = Path(shutil.copytree(whole, tmp_path / f"{step}"))
        ended = killed_at(step, lambda shop=shop: bevelbook(*words, shop, "--write"))
        assert bevelbook("check", shop).exit_code == 0
        now = files(shop)
        seen.append("old" if now == files(whole) else "new" if now == files(new) else now)
        if ended == 0:
            break
        assert ended == signal.SIGKILL
    assert ended == 0
    assert seen == ["old"] * seen.count("old") + ["new"] * seen.count("new")
    assert min(seen.count("old"), seen.count("new")) > 4


def killed_at(step, run):
    """Run in a process of its own that is killed at its step-th write to the disk: the signal, or 0."""
    child = os.fork()
    if child == 0:
        left = [step]

        def deadly(call):
            def counted(*words, **more):
                left[0] -= 1
                if left[0] < 0:
                    os.kill(os.getpid(), signal.SIGKILL)
                return call(*words, **more)

            return counted

        os.fsync, Path.replace, Path.unlink = deadly(os.fsync), deadly(Path.replace), deadly(Path.unlink)
        os._exit(0 if run().exit_code == 0 else 1)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) * -1


SMALL = """
import resource, sys
from quoting.cli import run
resource.setrlimit(resource.RLIMIT_FSIZE, (300, 300))
run()
"""


def test_where_the_system_takes_no_more_everything_stays_as_it_was(corner):
    """A bound on the size of files stands for a full disk: the file that is written meets it halfway."""
    pytest.importorskip("resource", reason="this system sets no bound for a process")
    before = {path: path.read_bytes() for path in corner.rglob("*") if path.is_file()}
    command = [sys.executable, "-c", SMALL, "prices", "raise", "all", "+10%", str(corner), "--write"]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=ROOT)
    assert done.returncode == 1
    assert "File too large; nothing was written" in done.stderr
    assert "Traceback" not in done.stderr
    assert {path: path.read_bytes() for path in corner.rglob("*") if path.is_file()} == before
