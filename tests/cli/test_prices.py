"""Prices from the command line: which list counts on which day, and how prices come in, go out and rise."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.cli import main

CORNER = Path(__file__).parents[1] / "shops" / "corner"
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
