"""Margins from the command line: what is shown, what a raise would do, and what ends with which code."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.cli import main

SHOPS = Path(__file__).parents[1] / "shops"
DAY = ("--on", "2026-02-01")


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


@pytest.fixture
def wharf(tmp_path):
    return Path(shutil.copytree(SHOPS / "wharf", tmp_path / "wharf"))


def as_json(*words):
    told = bevelbook("margin", *words, "--json")
    assert told.exit_code == 0, told.output
    return json.loads(told.stdout)


def test_the_json_keeps_its_contract(wharf):
    found = as_json(wharf, *DAY)
    about = {name: value for name, value in found.items() if name != "margins"}
    assert about == {
        "day": "2026-02-01",
        "currency": "EUR",
        "price_list": "2026-01",
        "region": "here",
        "tax_included": True,
        "tax_percent": {"frames": 23.0, "lenses": 13.5},
        "offers": [],
        "floor": {"lenses": {"percent": 41.37, "cents": 983}, "frames": {"percent": 57.31, "cents": 0}},
        "raise": None,
        "counts": {"now": {"margins": 15, "under_floor": 6, "at_loss": 1, "without_cost": 4}},
    }
    assert found["margins"][0] == {
        "kind": "lens",
        "id": "plain-150",
        "colorway": None,
        "sizes": None,
        "from": -6.0,
        "to": -4.25,
        "cost_cents": 2671,
        "missing": [],
        "price_cents": 3900,
        "net_cents": 3436,
        "margin_cents": 765,
        "percent": 22.26,
        "under_floor": True,
        "at_loss": False,
        "least_cents": 5171,
        "raised": None,
    }
    tin = next(one for one in found["margins"] if one["colorway"] == "tin")
    assert (tin["kind"], tin["sizes"], tin["from"], tin["cost_cents"], tin["missing"]) == (
        "frame",
        ["48-19"],
        None,
        None,
        ["frame"],
    )


def test_under_leaves_what_falls_under_the_floor_and_says_what_is_not_known(wharf):
    found = as_json(wharf, *DAY, "--under")
    assert len(found["margins"]) == 6
    assert all(one["under_floor"] or one["at_loss"] for one in found["margins"])
    told = bevelbook("margin", wharf, *DAY, "--under").output
    assert "11 of 15 margins are known; 5 under the floor, 1 at a loss. What has no cost is not among them." in told
    assert "not known" not in told


@pytest.mark.parametrize(
    "words", [("material=r150", "+4%"), ("all", "-2.5 %", "--round", "ending", "0.90"), ("frames", "+9%")]
)
def test_a_raise_shows_what_prices_raise_makes_of_it(wharf, words):
    """Once the prices are written, the margins are those that were shown; nothing was written before."""
    before = {path: path.read_bytes() for path in wharf.rglob("*") if path.is_file()}
    which, change, *rounding = words
    tried = as_json(wharf, *DAY, "--raise", which, change, *rounding)
    assert {path: path.read_bytes() for path in wharf.rglob("*") if path.is_file()} == before
    assert tried["margins"]
    told = bevelbook("prices", "raise", which, change, wharf, *rounding, *DAY, "--write", "--json")
    assert told.exit_code == 0, told.output
    now = as_json(wharf, *DAY)
    by_key = {(one["id"], one["colorway"], str(one["sizes"]), one["from"]): one for one in now["margins"]}
    for one in tried["margins"]:
        found = by_key[one["id"], one["colorway"], str(one["sizes"]), one["from"]]
        assert one["raised"] == {name: found[name] for name in one["raised"]}
        assert one["raised"]["price_cents"] != one["price_cents"]
    assert tried["counts"]["raised"] == now["counts"]["now"]
    changed = {(one["id"], one["colorway"], one["from"]) for one in json.loads(told.stdout)["changes"]}
    assert {(one["id"], one["colorway"]) for one in tried["margins"]} == {(name, color) for name, color, _ in changed}


def test_a_raise_names_the_command_that_does_it(wharf):
    told = bevelbook(
        "margin", wharf, *DAY, "--raise", "maker=lowlight material=r150", "+4%", "--round", "up-to", "0.50"
    )
    line = told.stdout.splitlines()[-1]
    assert line == (
        "Nothing was written; this does it:  bevelbook prices raise 'maker=lowlight material=r150' +4% "
        f"{wharf} --round up-to 0.50 --on 2026-02-01 --write"
    )
    assert "€39.00 → €41.00" in told.stdout


def test_prices_of_a_list_that_holds_later_count_from_its_day_on(wharf):
    text = (wharf / "prices/2026-01.yaml").read_text(encoding="utf-8").replace("2026-01", "2026-07")
    text = text.replace("tax_included: yes", "tax_included: no") + "lenses: {thin-160: +50 %}\n"
    (wharf / "prices/2026-07.yaml").write_text(text, encoding="utf-8")
    for day, cents, net in (("2026-06-30", 8400, 7401), ("2026-07-01", 12600, 12600)):
        found = as_json(wharf, "--on", day)
        thin = next(one for one in found["margins"] if one["id"] == "thin-160")
        assert (thin["price_cents"], thin["net_cents"]) == (cents, net)


def test_the_region_decides_which_tax_is_in_a_price(wharf):
    away = as_json(wharf, *DAY, "--region", "away")
    assert all(one["net_cents"] == one["price_cents"] for one in away["margins"])
    told = bevelbook("margin", wharf, "--region", "her")
    assert (told.exit_code, "did you mean here?" in told.output) == (2, True)


def test_offers_are_named_and_taken_off_where_asked(wharf):
    told = bevelbook("margin", wharf, "--on", "2026-04-01").stdout
    assert "Offers of the day: spring. With --offers they are taken off." in told
    assert as_json(wharf, "--on", "2026-04-01", "--offers")["offers"] == ["spring"]
    assert "Offers" not in bevelbook("margin", wharf, *DAY).stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--round", "up-to", "5"), "--round belongs to --raise"),
        (("--raise", "all", "4%"), "'4%' is no change such as +4% or -2.5%"),
        (("--raise", "maker=lowlihgt", "+4%"), "did you mean lowlight?"),
        (("--raise", "all", "+4%", "--round", "upto", "1"), "did you mean `up-to`?"),
        (("--raise", "all"), "requires 2 arguments"),
        (("--jsn",), "No such option"),
    ],
)
def test_misuse(wharf, words, said):
    told = bevelbook("margin", wharf, *words)
    assert told.exit_code == 2
    assert said in told.output
    assert told.stdout == ""


def test_without_costs_there_is_no_margin_and_it_is_said_what_to_write():
    told = bevelbook("margin", SHOPS / "corner")
    assert (told.exit_code, told.stdout) == (1, "")
    assert "no folder of costs" in told.stderr
    assert "private/costs.yaml" in told.stderr
    assert bevelbook("check", SHOPS / "corner").exit_code == 0


def test_all_faults_of_shop_and_costs_are_told_at_once(wharf):
    (wharf / "private/costs.yaml").write_text("packages: {plain-150: 12 EUR}\n", encoding="utf-8")
    for command in ("check", "margin"):
        told = bevelbook(command, wharf, *DAY, "--json")
        assert told.exit_code == 1
        assert [one["code"] for one in json.loads(told.stdout)["findings"]] == ["not-an-amount"]
    path = wharf / "frames/tidewell.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("a: 50", "a: fifty"), encoding="utf-8")
    for command in ("check", "margin"):
        told = bevelbook(command, wharf)
        assert told.exit_code == 1
        assert {"[not-a-length]", "[not-an-amount]"} <= set(told.stderr.split())


def test_check_warns_and_ends_well(wharf):
    told = bevelbook("check", wharf, *DAY, "--format", "editor")
    assert told.exit_code == 0
    codes = [line.split()[1] for line in told.stdout.splitlines()]
    assert codes.count("under-floor") == 3
    assert codes.count("cost-over-price") == 1


def test_a_build_does_not_look_at_costs_that_are_faulty(wharf, tmp_path):
    (wharf / "private/costs.yaml").write_text("packages: {nobody: [", encoding="utf-8")
    told = bevelbook("build", wharf, "--to", tmp_path / "site", *DAY)
    assert told.exit_code == 0, told.output
    assert "private" not in told.output
