"""Curves as instruments and owners write them."""

import shutil
from pathlib import Path

import pytest

from quoting.catalog.load import load

WHOLE = Path(__file__).parents[1] / "errors" / "whole"


@pytest.fixture
def read(tmp_path):
    """Reads a shop with a dye of this curve, and a file curves/a.csv of this text; gives the dye's curve and codes."""

    def reading(curve, text=""):
        shop = tmp_path / "shop"
        shutil.rmtree(shop, ignore_errors=True)
        shutil.copytree(WHOLE, shop)
        (shop / "curves").mkdir()
        (shop / "curves" / "a.csv").write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
        (shop / "tints.yaml").write_text(f"dyes:\n  - {{id: a, name: A, curve: {curve}}}\n", encoding="utf-8")
        catalog, findings = load(shop)
        return (catalog.tints.dyes["a"].passes if catalog else ()), [one.code for one in findings]

    return reading


def at(curve, nm):
    return curve[(nm - 280) // 5]


@pytest.mark.parametrize(
    "text",
    [
        "380;20\n480;40\n780;70\n",
        "nm;percent\r\n380;20,0\r\n480;40,0\r\n780;70,0\r\n",
        "\ufeff380,20\n480,40\n780,70",
        "# Instrument 4\nWavelength\tT\n\n380.0\t20 %\n480.0\t40 %\n780.0\t70 %\n\n",
        "380 20\n480 40\n780 70\n",
    ],
)
def test_a_table_may_be_written_in_many_ways(read, text):
    curve, codes = read("{file: curves/a.csv}", text)
    assert codes == []
    assert [at(curve, nm) for nm in (380, 430, 480, 630, 780)] == pytest.approx([0.2, 0.3, 0.4, 0.55, 0.7])


def test_what_was_not_measured_below_counts_as_clear(read):
    curve, _ = read("{from: 380, step: 100, values: [20, 30, 40, 50, 60]}")
    assert at(curve, 375) == 1.0
    assert at(curve, 380) == pytest.approx(0.2)


def test_a_curve_goes_on_as_it_ends(read):
    curve, codes = read("{from: 300, step: 100, values: [0, 30, 40, 50, 60]}")
    assert (at(curve, 700), at(curve, 780), codes) == (pytest.approx(0.6), pytest.approx(0.6), [])


@pytest.mark.parametrize(
    ("curve", "text", "code"),
    [
        ("{file: curves/b.csv}", "", "no-such-curve"),
        ("{file: ../a.csv}", "", "wrong-form"),
        ("{file: private/a.csv}", "", "no-such-curve"),
        ("{file: curves/a.csv}", "", "not-a-curve"),
        ("{file: curves/a.csv}", b"\xff\xfe3\x008\x00", "not-a-curve"),
        ("{file: curves/a.csv}", "380;20\n", "not-a-curve"),
        ("{file: curves/a.csv}", "380;20\n480;-1\n", "not-a-curve"),
        ("{file: curves/a.csv}", "380;20\n650;30\n", "not-a-curve"),
        ("{file: curves/a.csv}", "380;20\n380;30\n780;40\n", "not-a-curve"),
        ("{from: 380, step: 20}", "", "missing"),
        ("{from: 380, step: 20, values: [20, x]}", "", "not-a-number"),
        ("{from: 380, step: 20, values: 20}", "", "wrong-shape"),
        ("{from: 380, stepp: 20, values: [20, 30]}", "", "unknown-key"),
    ],
)
def test_what_is_no_curve_is_told_once(read, curve, text, code):
    assert read(curve, text) == ((), [code])


def test_a_link_out_of_the_shop_is_not_followed(read, tmp_path):
    read("{from: 380, step: 100, values: [20, 30, 40, 50, 60]}")
    outside = tmp_path / "outside.csv"
    outside.write_text("380;20\n780;30\n", encoding="utf-8")
    shop = tmp_path / "shop"
    (shop / "curves" / "b.csv").symlink_to(outside)
    (shop / "tints.yaml").write_text("dyes: [{id: a, name: A, curve: {file: curves/b.csv}}]\n", encoding="utf-8")
    assert [one.code for one in load(shop)[1]] == ["no-such-curve"]


def test_what_lies_in_private_is_not_read_through_a_link(read, tmp_path):
    read("{from: 380, step: 100, values: [20, 30, 40, 50, 60]}")
    shop = tmp_path / "shop"
    (shop / "private").mkdir()
    (shop / "private" / "a.csv").write_text("380;20\n780;30\n", encoding="utf-8")
    (shop / "curves" / "b.csv").symlink_to(shop / "private" / "a.csv")
    (shop / "tints.yaml").write_text("dyes: [{id: a, name: A, curve: {file: curves/b.csv}}]\n", encoding="utf-8")
    assert [one.code for one in load(shop)[1]] == ["no-such-curve"]
