"""From the catalog to the kernel's tables: nothing lost, nothing invented, discounts on their days."""

from dataclasses import fields, replace
from datetime import date
from pathlib import Path
from typing import get_args, get_origin, get_type_hints, is_typeddict

import pytest

from quoting.catalog import model, shop
from quoting.catalog.load import load
from quoting.kernel import lens, outline, price, records
from quoting.prescription.model import EyeRx
from quoting.tables import (
    eye_table,
    frame_table,
    in_force,
    limits_table,
    money_table,
    outline_of,
    package_table,
)
from tests.hand_built import CATALOG, DAY, FRAMES, PACKAGES, PRICES, SHOP, discount
from tests.kernel.jobs import eye, job, surcharge

FRAME = FRAMES["brackwater"]
SIZE = FRAME.sizes[0]


def keys(table):
    return get_type_hints(table).keys()


def test_a_frame_has_its_size_its_mounting_and_its_outline():
    table = frame_table(SHOP, FRAME, SIZE)
    assert table.keys() == keys(records.Frame)
    assert (table["a"], table["b"], table["dbl"], table["ed"], table["weight"]) == (48.0, 40.0, 20.0, 51.0, 22.0)
    assert (table["curve"], table["wrap"], table["tilt"]) == (5.0, 5.0, 8.0)
    assert (table["min_edge"], table["edge_caution"], table["edge_no"]) == (1.0, 6.0, 9.0)
    assert [table["xs"], table["ys"]] == outline.from_box(48.0, 40.0, 51.0, "panto")
    assert table["traced"] is False


def test_the_mounting_of_the_frame_decides_its_limits():
    metal = frame_table(SHOP, replace(FRAME, mounting="full-rim-metal"), SIZE)
    assert (metal["mounting"], metal["min_edge"], metal["edge_caution"], metal["edge_no"]) == (
        "full-rim-metal",
        1.0,
        4.0,
        6.0,
    )


def test_outlines_are_shared_by_frames_of_one_box_and_family_and_cannot_be_spoiled():
    assert outline_of(48.0, 40.0, 51.0, "panto") is outline_of(48.0, 40.0, 51.0, "panto")
    assert outline_of(48.0, 40.0, 51.0, "panto") != outline_of(48.0, 40.0, 51.0, "round")
    frame_table(SHOP, FRAME, SIZE)["xs"].clear()
    assert frame_table(SHOP, FRAME, SIZE)["xs"]


@pytest.mark.parametrize("package", PACKAGES.values(), ids=PACKAGES)
def test_a_package_has_everything_of_its_design_and_material(package):
    table = package_table(package)
    assert table.keys() == keys(records.Package)
    for part in (package, package.design, package.material):
        for field in fields(part):
            if field.name in table and field.name not in ("ranges", "curves", "centers", "prices", "min_center"):
                assert table[field.name] == getattr(part, field.name)
    assert table["min_center"] == package.min_center
    assert [one["cents"] for one in table["prices"]] == [one.lens_cents for one in package.prices]
    assert [one["diameter"] for one in table["ranges"]] == [one.diameter for one in package.ranges]
    assert [tuple(one.values()) for one in table["centers"]] == [(-4.0, 2.0, 2.2)] * len(package.centers)


def test_the_packages_own_center_goes_before_the_materials():
    thin = replace(PACKAGES["plain-150"], min_center=1.1)
    assert package_table(thin)["min_center"] == 1.1


def test_limits_keep_their_names():
    table = limits_table(SHOP.limits)
    assert table == {field.name: getattr(SHOP.limits, field.name) for field in fields(SHOP.limits)}
    assert table.keys() == keys(records.Limits)


def test_an_eye_is_written_as_the_kernel_reads_it():
    table = eye_table(EyeRx(-2.25, -0.75, 10, 2.0, 1.0, -0.5))
    assert table == {
        "sphere": -2.25,
        "cylinder": -0.75,
        "axis": 10.0,
        "add": 2.0,
        "prism_in": 1.0,
        "prism_up": -0.5,
    }
    assert type(table["axis"]) is float


def test_an_eye_that_is_not_there_is_plano():
    assert eye_table(None) == eye_table(EyeRx(0.0))


MARCH = (date(2026, 3, 1), date(2026, 3, 31))


@pytest.mark.parametrize(
    ("day", "starts", "ends", "there"),
    [
        (date(2026, 2, 28), *MARCH, False),
        (date(2026, 3, 1), *MARCH, True),
        (date(2026, 3, 31), *MARCH, True),
        (date(2026, 4, 1), *MARCH, False),
        (date(2030, 1, 1), date(2026, 3, 1), None, True),
        (date(2020, 1, 1), None, date(2026, 3, 31), True),
        (date(2020, 1, 1), None, None, True),
    ],
)
def test_a_discount_holds_from_its_first_day_to_its_last(day, starts, ends, there):
    assert in_force(discount(starts=starts, ends=ends), day, ()) is there


def test_a_discount_that_must_be_named_waits_for_its_name():
    club = discount("club", asked=True)
    assert not in_force(club, DAY, ())
    assert not in_force(club, DAY, ["spring"])
    assert in_force(club, DAY, ["spring", "club"])
    late = discount("club", date(2026, 4, 1), None, True)
    assert not in_force(late, DAY, ["club"]), "naming it does not bring its day"


def test_money_has_the_discounts_of_the_day_in_the_order_of_the_list():
    table = money_table(PRICES, 12000, PRICES.regions[0], DAY, ["club"])
    assert table.keys() == keys(records.Money)
    assert [one["id"] for one in table["discounts"]] == ["spring", "club"]
    later = money_table(PRICES, 12000, PRICES.regions[0], date(2026, 4, 1), ["club"])
    assert [one["id"] for one in later["discounts"]] == ["club"]


def test_money_may_be_asked_with_names_that_can_be_read_only_once():
    names = (name for name in ("club",))
    one, other = discount("club", asked=True), discount("again", asked=True)
    prices = replace(PRICES, discounts=(other, one))
    assert [each["id"] for each in money_table(prices, 1, PRICES.regions[0], DAY, names)["discounts"]] == ["club"]


def test_money_has_the_region_and_the_surcharges():
    table = money_table(PRICES, 12000, PRICES.regions[1], DAY)
    assert table["region"] == {
        "shipping_cents": 2500,
        "free_from_cents": 60000,
        "tax_frame": 0,
        "tax_lenses": 0,
        "tax_shipping": 0,
    }
    assert table["surcharges"] == [
        {"id": "prism", "when": "prism", "over": 0.0, "mounting": "", "per_lens": True, "cents": 1500}
    ]
    assert (table["frame_cents"], table["tax_included"]) == (12000, False)


def test_the_kernel_knows_every_word_of_the_catalog():
    """Families, and what surcharges and discounts may be on, are written twice: here they meet."""
    for family in model.FAMILIES:
        assert outline.lean(family)
    known = {"prism", "cylinder", "blank", "mounting", "wrap", "power", "tint", "mirror", "slab-off", "rush"}
    assert set(shop.When.__args__) == known
    for when in known:
        one = surcharge(when)
        assert price.applies(one, job(), eye(), lens.blank_lens()) in (True, False)
    assert set(shop.On.__args__) == {"frame", "lenses", "goods"}


def test_the_catalog_is_one_in_itself():
    assert set(CATALOG.frames) == {frame.id for frame in CATALOG.frames.values()}
    assert {package.material.id for package in CATALOG.packages.values()} == set(CATALOG.materials)


CORNER, FOUND = load(Path(__file__).parent / "shops" / "corner")


def untyped(value, kind, where="table"):
    """Every place at which a value is not what its TypedDict says; an int is no float, a bool no int."""
    if is_typeddict(kind):
        hints = get_type_hints(kind)
        if value.keys() != hints.keys():
            return [f"{where}: {sorted(value.keys() ^ hints.keys())}"]
        return [wrong for name, hint in hints.items() for wrong in untyped(value[name], hint, f"{where}.{name}")]
    if get_origin(kind) is list:
        if type(value) is not list:
            return [f"{where}: {value!r} is no list"]
        return [wrong for one in value for wrong in untyped(one, get_args(kind)[0], f"{where}[]")]
    return [] if type(value) is kind else [f"{where}: {value!r} is no {kind.__name__}"]


def test_tables_of_a_shop_read_from_files_have_the_very_types_the_kernel_reads():
    """``wrap: 5`` in a file is 5.0 in the table: another language tells whole numbers from others."""
    assert FOUND == []
    for frame in CORNER.frames.values():
        assert untyped(frame_table(CORNER.shop, frame, frame.sizes[0]), records.Frame) == []
    for package in CORNER.packages.values():
        assert untyped(package_table(package), records.Package) == []
    for region in CORNER.price_list.regions:
        money = money_table(CORNER.price_list, 12000, region, date(2026, 4, 1), ["teacher"])
        assert untyped(money, records.Money) == []
    assert untyped(limits_table(CORNER.shop.limits), records.Limits) == []
    assert untyped(eye_table(EyeRx(-2)), records.Eye) == ["table.sphere: -2 is no float"], "the check does bite"
    assert untyped(eye_table(None), records.Eye) == []


def test_amounts_and_percentages_of_a_file_become_whole_cents_and_basis_points():
    """prices/2026-01.yaml: 12.00, 9.50, 35.00; 10 %, 15.00; 5.00, 300.00, 8.25 %."""
    money = money_table(CORNER.price_list, 19550, CORNER.price_list.regions[0], date(2026, 4, 1), ["teacher"])
    assert [(one["when"], one["over"], one["per_lens"], one["cents"]) for one in money["surcharges"]] == [
        ("prism", 0.0, True, 1200),
        ("cylinder", 2.0, True, 950),
        ("mounting", 0.0, False, 3500),
    ]
    assert [(one["on"], one["basis_points"], one["cents"]) for one in money["discounts"]] == [
        ("lenses", 1000, 0),
        ("goods", 0, 1500),
    ]
    region = money["region"]
    assert (region["shipping_cents"], region["free_from_cents"], region["tax_frame"]) == (500, 30000, 825)


def test_prices_that_hold_their_tax_say_so():
    assert money_table(replace(PRICES, tax_included=True), 1, PRICES.regions[0], DAY)["tax_included"] is True
