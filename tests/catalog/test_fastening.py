"""Grooves and holes of frames: read, refused with their place, and compared by ``swap``."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.fastening import Groove, Hole
from quoting.catalog.load import load
from quoting.cli import main
from quoting.site.swaps import takers

CORNER = Path(__file__).parents[1] / "shops" / "corner"
FRAMES = """maker: Thornhallow
frames:
  - {{id: one, name: One, family: oval, mounting: {mounting}, material: steel, curve: 4.0, wrap: 4, tilt: 7, {one}
     sizes: [{{a: 50, b: 36, dbl: 18, ed: 51.5, temple: 140, {holes}}}],
     colorways: [{{id: gray, name: Gray, version: optical, price: 99.00, front: "#444a52", temples: "#444a52",
                  stock: in-stock}}]}}
  - {{id: two, name: Two, family: oval, mounting: {mounting}, material: steel, curve: 4.0, wrap: 4, tilt: 7, {two}
     sizes: [{{a: 50, b: 36, dbl: 19, ed: 51.5, temple: 140, {others}}}],
     colorways: [{{id: gray, name: Gray, version: optical, price: 99.00, front: "#444a52", temples: "#444a52",
                  stock: in-stock}}]}}
"""
TWO_HOLES = "holes: [{in: 22.0, up: 3.0, diameter: 1.4}, {in: -22.5, up: 4.0, diameter: 1.4}]"


@pytest.fixture
def shop(tmp_path):
    return Path(shutil.copytree(CORNER, tmp_path / "shop"))


def written(shop, mounting="drilled", one="", two="", holes="", others=""):
    text = FRAMES.format(mounting=mounting, one=one, two=two, holes=holes, others=others)
    (shop / "frames" / "thornhallow.yaml").write_text(text, encoding="utf-8")
    return load(shop)


def swapped(shop, *more):
    told = CliRunner().invoke(main, ["swap", "one", "two", "--shop", str(shop), *more], prog_name="bevelbook")
    assert told.exit_code in (0, 1), told.output
    return told.stdout


def taken(catalog):
    return [one.frame.id for one in takers(catalog.frames["one"], catalog) if one.frame.id == "two"]


def test_holes_and_grooves_are_read(shop):
    catalog, findings = written(shop, holes=TWO_HOLES)
    assert [one.code for one in findings if one.severity == "error"] == []
    assert catalog.frames["one"].sizes[0].holes == (Hole(22.0, 3.0, 1.4), Hole(-22.5, 4.0, 1.4))
    assert catalog.frames["two"].sizes[0].holes == ()
    catalog, _ = written(shop, "semi-rimless", one="groove: {width: 0.6, depth: 0.4},")
    assert catalog.frames["one"].groove == Groove(0.6, 0.4)
    assert catalog.frames["two"].groove is None


@pytest.mark.parametrize(
    ("mounting", "fields", "code", "said"),
    [
        ("full-rim-metal", {"one": "groove: {width: 0.6, depth: 0.4},"}, "does-not-belong", "semi-rimless frames only"),
        ("semi-rimless", {"holes": TWO_HOLES}, "does-not-belong", "sizes of drilled frames only"),
        ("drilled", {"holes": TWO_HOLES.replace("22.0", "25.0")}, "out-of-range", "25 mm from the middle of the box"),
        ("drilled", {"holes": TWO_HOLES.replace("up: 4.0", "up: -18")}, "out-of-range", "outside of the lens (`b` 36)"),
        ("drilled", {"holes": TWO_HOLES.replace("1.4", "14")}, "out-of-range", "diameter"),
        ("semi-rimless", {"one": "groove: {width: 0.6},"}, "missing", "depth"),
        ("semi-rimless", {"one": "groove: {wide: 0.6, depth: 0.4},"}, "unknown-key", "wide"),
    ],
)
def test_what_cannot_be_meant_is_told_at_its_place(shop, mounting, fields, code, said):
    catalog, findings = written(shop, mounting, **fields)
    assert catalog is None
    found = [one for one in findings if one.code == code]
    assert any(said in one.message for one in found), findings
    assert all(one.mark.file.endswith("thornhallow.yaml") for one in found)


@pytest.mark.parametrize(
    ("moved", "part", "listed"),
    [("22.0", "yes", True), ("22.1", "yes", True), ("22.2", "maybe", True), ("23.9", "no", False)],
)
def test_holes_are_compared_with_numbers(shop, moved, part, listed):
    catalog, _ = written(shop, holes=TWO_HOLES, others=TWO_HOLES.replace("22.0", moved))
    said = json.loads(swapped(shop, "--json"))
    assert said["parts"]["holes"] == part
    assert said["holes_mm"] == pytest.approx(float(moved) - 22.0, abs=0.02)
    assert said["parts"]["mounting"] == said["parts"]["hole diameter"] == "yes"
    assert said["verdict"] == ("no" if part == "no" else "maybe"), "not traced, so no yes"
    assert f"  {part:<5}  yes to 0.1 mm, no from more than 0.3" in swapped(shop)
    assert (taken(catalog) == ["two"]) == listed


def test_holes_that_are_not_stated_leave_it_open_and_a_hole_more_does_not_go(shop):
    catalog, _ = written(shop, holes=TWO_HOLES)
    assert "`holes` of a size are not stated" in swapped(shop)
    assert taken(catalog) == []
    written(shop, holes=TWO_HOLES, others=TWO_HOLES.replace("]", ", {in: 20.0, up: 1.0, diameter: 1.4}]"))
    told = swapped(shop)
    assert "not as many" in told
    assert "No:" in told


@pytest.mark.parametrize(
    ("depth", "part", "listed"), [("0.4", "yes", True), ("0.6", "maybe", True), ("0.8", "no", False)]
)
def test_grooves_are_compared_with_numbers(shop, depth, part, listed):
    grooves = {"one": "groove: {width: 0.6, depth: 0.4},", "two": f"groove: {{width: 0.6, depth: {depth}}},"}
    catalog, _ = written(shop, "semi-rimless", **grooves)
    said = json.loads(swapped(shop, "--json"))
    assert said["parts"]["groove"] == part
    assert said["groove_mm"] == pytest.approx(float(depth) - 0.4)
    assert said["verdict"] == ("no" if part == "no" else "maybe")
    assert (taken(catalog) == ["two"]) == listed


def test_grooves_that_are_not_stated_are_said_to_be(shop):
    written(shop, "semi-rimless")
    assert "The grooves were not compared" in swapped(shop)
    assert json.loads(swapped(shop, "--json"))["groove_mm"] is None
