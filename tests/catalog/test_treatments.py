"""What may be added to a package, near powers, and limits with defaults are read from an owner's files."""

import shutil
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.catalog.model import Treatments
from quoting.catalog.shop import Limits
from quoting.tables import limits_table, package_table

CORNER = Path(__file__).parents[1] / "shops" / "corner"


@pytest.fixture
def shop(tmp_path):
    """Loads the small shop after one text of one of its files was replaced by another."""
    folder = tmp_path / "shop"
    shutil.copytree(CORNER, folder)

    def loaded(pattern="", old="", new=""):
        if pattern:
            (path,) = folder.glob(pattern)
            text = path.read_text(encoding="utf-8")
            assert text.count(old) >= 1
            path.write_text(text.replace(old, new, 1), encoding="utf-8")
        return load(folder)

    return loaded


def test_where_nothing_is_written_nothing_is_offered_and_usual_limits_hold(shop):
    catalog, _ = shop()
    assert {one.treatments for one in catalog.packages.values()} == {Treatments()}
    assert limits_table(catalog.shop.limits) == limits_table(Limits(2.0, 2.0, 15.0, 7.0, 12.0, 10.0))
    assert limits_table(catalog.shop.limits)["gradient_height"] == 28.0


WRITTEN = (
    "light: polarized\n    treatments: {tint_over: yes, mirror: yes, back_ar: yes, blue_filter: yes, double_use: yes, "
    "transmittance: 15, darkened: 9}"
)


def test_what_is_offered_reaches_the_engine(shop):
    catalog, findings = shop("lenses/*.yaml", "light: clear", WRITTEN)
    assert catalog is not None, findings
    table = package_table(next(iter(catalog.packages.values())))
    names = ("light", "tint_over", "mirror", "back_ar", "blue_filter", "double_use", "transmittance", "darkened")
    assert [table[name] for name in names] == ["polarized", True, True, True, True, True, 15.0, 9.0]


@pytest.mark.parametrize(
    ("new", "code"),
    [
        ("light: clear\n    treatments: {mirrors: yes}", "unknown-key"),
        ("light: clear\n    treatments: {mirror: 3}", "not-yes-or-no"),
        ("light: clear\n    treatments: {transmittance: 101}", "out-of-range"),
        ("light: clear\n    treatments: yes", "wrong-shape"),
    ],
)
def test_a_slip_in_what_is_offered_is_told(shop, new, code):
    catalog, findings = shop("lenses/*.yaml", "light: clear", new)
    assert catalog is None
    assert code in {finding.code for finding in findings}


RANGE = "cylinder: 4.00, diameter: 75, add: {from: 0.75, to: 3.50}"


def test_near_powers_reach_the_engine(shop):
    catalog, findings = shop("lenses/*.yaml", RANGE, f"{RANGE}, near: {{from: -5.00, to: +6.00}}")
    assert catalog is not None, findings
    parts = [part for one in catalog.packages.values() for part in package_table(one)["ranges"]]
    assert [(part["near_from"], part["near_to"]) for part in parts if part["near"]] == [(-5.0, 6.0)]
    assert sum(not part["near"] for part in parts) == len(parts) - 1


def test_near_powers_the_wrong_way_around_are_told(shop):
    catalog, findings = shop("lenses/*.yaml", RANGE, f"{RANGE}, near: {{from: +6.00, to: -5.00}}")
    assert catalog is None
    assert "reversed" in {finding.code for finding in findings}


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("curve_factor", 1.5),
        ("boost_add", 1.0),
        ("reading_drop", 8.0),
        ("reading_imbalance", 2.0),
        ("image_difference", 5.0),
        ("gradient_height", 30.0),
        ("driving_least", 10.0),
        ("night_least", 80.0),
    ],
)
def test_a_shop_sets_its_own_limits(shop, name, value):
    catalog, findings = shop("shop.yaml", "pow_wrap: 10}", f"pow_wrap: 10, {name}: {value}}}")
    assert catalog is not None, findings
    assert limits_table(catalog.shop.limits)[name] == value


@pytest.mark.parametrize(
    ("written", "when", "over"),
    [
        ("when: power, over: 6.00", "power", 6.0),
        ("when: tint", "tint", 0.0),
        ("when: tint, over: 50", "tint", 50.0),
        ("when: mirror", "mirror", 0.0),
        ("when: slab-off", "slab-off", 0.0),
        ("when: rush", "rush", 0.0),
    ],
)
def test_surcharges_may_be_for_powers_and_wishes(shop, written, when, over):
    line = f"surcharges:\n  - {{id: added, text: Added, {written}, per: lens, price: 10.00}}"
    catalog, findings = shop("prices/*.yaml", "surcharges:", line)
    assert catalog is not None, findings
    added = next(one for one in catalog.price_list.surcharges if one.id == "added")
    assert (added.when, added.over, added.cents) == (when, over, 1000)


def test_a_surcharge_for_a_mirror_is_measured_by_nothing(shop):
    line = "surcharges:\n  - {id: added, text: Added, when: mirror, over: 2, per: lens, price: 10.00}"
    catalog, findings = shop("prices/*.yaml", "surcharges:", line)
    assert catalog is None
    assert "does-not-belong" in {finding.code for finding in findings}
