"""Costs are read whole or told why not; what is private is no business of who has none."""

import re
import shutil
from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.places import shared
from quoting.private.model import Floor
from quoting.private.read import read_costs
from quoting.private.sense import private_findings
from tests.private.conftest import WHARF


def codes(findings):
    return [finding.code for finding in findings]


def lens_rows(costs, package):
    return [(row.low, row.high, row.cost.cents) for row in costs.packages[package]]


def test_all_kinds_of_cost(costs_of):
    costs, findings = costs_of(
        "packages: {plain-150: 12.47,\n"
        "  thin-160: [{from: 0.25, to: +4.00, cost: 31}, {from: -6.00, to: 0.00, cost: 30}]}\n"
        "materials: {r150: 7.43}\noptions: {hard coat: 3, photochromic: 17.8, prism: 4.87}\n"
    )
    assert findings == []
    assert [cents for *_, cents in lens_rows(costs, "plain-150")] == [1247]
    assert lens_rows(costs, "thin-160") == [(-6.0, 0.0, 3000), (0.25, 4.0, 3100)]
    assert {name: cost.cents for name, cost in costs.options.items()} == {
        "hard coat": 300,
        "photochromic": 1780,
        "prism": 487,
    }
    assert costs.materials["r150"].cents == 743


@pytest.mark.parametrize(
    ("written", "cents"),
    [
        ("40", {40_00}),
        ("{tar: 40, rope: 41}", {40_00, 41_00}),
        ("{50-18: 40, 53-18: 41}", {40_00, 41_00}),
        ("{tar: {50-18: 40, 53-18: 42}, rope: 41}", {40_00, 41_00, 42_00}),
        ("{50-18: {tar: 40, rope: 41}, 53-18: 42}", {40_00, 41_00, 42_00}),
    ],
)
def test_a_frame_by_colorway_and_by_size(costs_of, written, cents):
    costs, findings = costs_of(f"frames: {{bollard: {written}}}\n")
    assert findings == []
    found = {
        (color, size): costs.of_frame("bollard", color, size).cents
        for color in ("tar", "rope")
        for size in ("50-18", "53-18")
    }
    assert set(found.values()) == cents
    assert found["tar", "50-18"] == 40_00
    if written.count("{") > 1:
        assert len(set(found.values())) == 3


def test_what_is_not_written_is_not_known(costs_of):
    costs, _ = costs_of("frames: {bollard: {tar: {50-18: 40}}}\n")
    assert costs.of_frame("bollard", "tar", "53-18") is None
    assert costs.of_frame("bollard", "rope", "50-18") is None
    assert costs.of_frame("cleat", "tin", "48-19") is None


@pytest.mark.parametrize(
    ("written", "lens", "frame"),
    [
        ("{percent: 40}", Floor(4000, 0), Floor(4000, 0)),
        ("{amount: 8}", Floor(0, 800), Floor(0, 800)),
        ("{percent: 40.5, amount: 8, frames: {percent: 55}}", Floor(4050, 800), Floor(5500, 0)),
        ("{lenses: {amount: 8}}", Floor(0, 800), None),
    ],
)
def test_the_floor(costs_of, written, lens, frame):
    costs, findings = costs_of(f"floor: {written}\n")
    assert findings == []
    assert (costs.lens_floor, costs.frame_floor) == (lens, frame)


def test_several_files_are_one_and_nothing_may_stand_twice(costs_of):
    costs, findings = costs_of("packages: {plain-150: 12}\n", "packages: {thin-160: 31}\nfloor: {percent: 40}\n")
    assert (findings, set(costs.packages)) == ([], {"plain-150", "thin-160"})
    everything = "floor: {percent: 40}\npackages: {plain-150: 12}\nmaterials: {r150: 7}\noptions: {prism: 4}\n"
    everything += "frames: {cleat: 40}\n"
    costs, findings = costs_of(everything, everything)
    assert costs is None
    assert codes(findings) == ["second-cost"] * 5
    assert {finding.mark.file.rpartition("/")[2] for finding in findings} == {"1.yaml"}


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("packages: {plain-151: 12}", "unknown-id"),
        ("materials: {r155: 12}", "unknown-id"),
        ("options: {hard-coat: 12}", "unknown-id"),
        ("frames: {bolard: 12}", "unknown-id"),
        ("frames: {bollard: {tarr: 12}}", "unknown-id"),
        ("frames: {bollard: {tar: {50-19: 12}}}", "unknown-id"),
        ("frames: {bollard: {tar: 12, 50-18: 12}}", "does-not-belong"),
        ("frames: {bollard: {tar: {rope: 12}}}", "does-not-belong"),
        ("frames: {bollard: {tar: {}}}", "empty-value"),
        ("frames: {bollard: [12]}", "wrong-shape"),
        ("packages: {plain-150: 12 EUR}", "not-an-amount"),
        ("packages: {plain-150: -1}", "out-of-range"),
        ("packages: {plain-150: {cost: 12}}", "wrong-shape"),
        ("packages: {plain-150: [{from: -6.00, to: 0.00, cost: 1}, {from: 0.00, to: 4.00, cost: 1}]}", "overlap"),
        ("packages: {plain-150: [{from: -6.00, to: 0.00, cost: 1}, {from: 0.50, to: 4.00, cost: 1}]}", "gap"),
        ("packages: {plain-150: [{from: -6.00, to: 3.00, cost: 1}]}", "not-covered"),
        ("packages: {plain-150: [{from: -6.00, to: 4.00, lens: 1}]}", "unknown-key"),
        ("floor: 40", "wrong-shape"),
        ("floor: {}", "empty-value"),
        ("floor: {frames: {}}", "empty-value"),
        ("floor: {percent: 100}", "out-of-range"),
        ("floor: {percent: 40 %}", "not-a-percentage"),
        ("costs: {plain-150: 12}", "unknown-key"),
    ],
)
def test_each_fault_is_told_at_its_place_and_no_cost_is_taken(costs_of, text, code):
    costs, findings = costs_of(text + "\n")
    assert costs is None
    assert code in codes(findings)
    assert all(finding.hint and finding.mark.line == 1 for finding in findings)


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("packages: {plain-151: 12}", "plain-151"),
        ("materials: {r155: 12}", "r155"),
        ("options: {hard-coat: 12}", "hard-coat"),
        ("frames: {bolard: 12}", "bolard"),
        ("frames: {bollard: {tar: {50-19: 12}}}", "50-19"),
        ("frames: {bollard: {tar: {rope: 12}}}", "rope"),
    ],
)
def test_what_stands_as_a_name_and_is_none_is_underlined_itself(costs_of, text, key):
    mark = costs_of(text + "\n")[1][0].mark
    assert mark.text[mark.column - 1 :][: mark.length] == key


def test_without_a_catalog_the_form_is_looked_at_and_no_name_is_refused(costs_of):
    _, findings = costs_of(
        "packages: {nobody: 12}\noptions: {nothing: 1}\nframes: {x: {y: {z: 1}}}", with_catalog=False
    )
    assert findings == []
    _, findings = costs_of("packages: {nobody: twelve}\n", with_catalog=False)
    assert codes(findings) == ["not-an-amount"]


def test_a_shop_without_costs_is_as_good_as_any(wharf):
    shutil.rmtree(wharf / "private")
    assert read_costs(wharf, load(wharf)[0]) == (None, [])
    assert codes(read_costs(wharf, None, needed=True)[1]) == ["no-such-folder"]
    (wharf / "private").mkdir()
    assert read_costs(wharf, None) == (None, [])
    assert codes(read_costs(wharf, None, needed=True)[1]) == ["nothing-there"]


def test_other_things_may_lie_among_them(wharf):
    """Keys, lists as makers send them, notes."""
    (wharf / "private/keys").mkdir()
    for name in ("keys/one.yaml", "list.xlsx", "key.json", ".costs.yaml.swp", "note.md"):
        (wharf / "private" / name).write_text("]", encoding="utf-8")
    costs, findings = read_costs(wharf, load(wharf)[0])
    assert findings == []
    assert costs is not None
    (wharf / "private/more.yml").write_text("floor: {percent: 3}\n", encoding="utf-8")
    assert codes(read_costs(wharf, None)[1]) == ["wrong-ending"]


def test_costs_stay_in_the_shop(wharf, tmp_path):
    (tmp_path / "costs.yaml").write_text("packages: {plain-150: 12}\n", encoding="utf-8")
    (wharf / "private/out.yaml").symlink_to(tmp_path / "costs.yaml")
    (wharf / "private/round.yaml").symlink_to("round.yaml")
    assert codes(read_costs(wharf, None)[1]) == ["outside-folder", "outside-folder"]
    shutil.rmtree(wharf / "private")
    (wharf / "private").symlink_to(tmp_path)
    assert codes(read_costs(wharf, None)[1]) == ["outside-folder"]
    (wharf / "private").unlink()
    (wharf / "private").write_text("packages:", encoding="utf-8")
    assert codes(read_costs(wharf, None)[1]) == ["not-a-folder"]


@pytest.mark.parametrize("text", [b"\xef\xbb\xbfpackages: {plain-150: 12}\r\n", b"packages: {plain-150: 12}"])
def test_as_editors_save_it(wharf, text):
    (wharf / "private/costs.yaml").write_bytes(text)
    costs, findings = read_costs(wharf, load(wharf)[0])
    assert errors(findings) == []
    assert costs.packages["plain-150"][0].cost.cents == 1200


def test_the_costs_shown_in_the_readme_are_as_they_are_read(costs_of):
    readme = (WHARF.parents[2] / "README.md").read_text(encoding="utf-8")
    (text,) = [block for block in re.findall(r"```yaml\n(.*?)```", readme, re.DOTALL) if "floor:" in block]
    costs, findings = costs_of(text, with_catalog=False)
    assert findings == []
    assert costs.frame_floor == Floor(5500, 0)
    assert costs.of_frame("merlin", "moss", "54-18").cents == 5300


def test_the_costs_of_the_demo_are_sound_and_leave_what_they_must():
    folder = shared("demo_catalog")
    for day in (date(2026, 9, 1), date(2027, 12, 1)):
        assert private_findings(folder, load(folder, day)[0], day) == []
