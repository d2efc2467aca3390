"""What the kernel gets is what the shop wrote, field by field, and nothing else."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import get_args, get_origin, get_type_hints, is_typeddict

import pytest

from quoting import tables
from quoting.catalog.load import load
from quoting.catalog.model import FAMILIES
from quoting.kernel import outline, records
from quoting.prescription.model import EyeRx

CATALOG, FOUND = load(Path(__file__).parent / "shops" / "corner")
ALDER = CATALOG.frames["alder"]
REED = CATALOG.frames["reed"]
HERE, AWAY = CATALOG.price_list.regions
SPRING, TEACHER = CATALOG.price_list.discounts
QUIET_DAY = date(2026, 2, 1)


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


def frame_of(frame):
    return tables.frame_table(CATALOG.shop, frame, frame.sizes[0])


def test_the_shop_itself_is_without_fault():
    assert FOUND == []


@pytest.mark.parametrize("frame", CATALOG.frames.values(), ids=lambda frame: frame.id)
def test_a_frame_table_has_exactly_the_fields_and_types_the_kernel_reads(frame):
    assert untyped(frame_of(frame), records.Frame) == []


@pytest.mark.parametrize("package", CATALOG.packages.values(), ids=lambda package: package.id)
def test_a_package_table_has_exactly_the_fields_and_types_the_kernel_reads(package):
    assert untyped(tables.package_table(package), records.Package) == []


def test_limits_eyes_and_money_have_exactly_the_fields_and_types_the_kernel_reads():
    money = tables.money_table(CATALOG.price_list, 12000, HERE, date(2026, 4, 1), ("teacher",))
    assert untyped(tables.limits_table(CATALOG.shop.limits), records.Limits) == []
    assert untyped(tables.eye_table(EyeRx(-2.0, -1.0, 90, 2.0, 0.5, -0.5)), records.Eye) == []
    assert untyped(tables.eye_table(None), records.Eye) == []
    assert untyped(money, records.Money) == []


def test_the_check_of_types_is_no_rubber_stamp():
    limits = tables.limits_table(CATALOG.shop.limits)
    assert untyped(limits | {"pow_tilt": 12}, records.Limits) == ["table.pow_tilt: 12 is no float"]
    assert untyped(limits | {"more": 1.0}, records.Limits) == ["table: ['more']"]
    assert untyped(tables.package_table(CATALOG.packages["plain-150"]) | {"ranges": [{}]}, records.Package)


def test_a_frame_table_is_what_stands_in_the_file():
    """Alder in frames/bolderwood.yaml, its mounting in shop.yaml."""
    table = frame_of(ALDER)
    outline_apart = {name: value for name, value in table.items() if name not in ("xs", "ys")}
    assert outline_apart == {
        "a": 52.0,
        "b": 36.0,
        "dbl": 18.0,
        "ed": 55.5,
        "traced": False,
        "mounting": "full-rim-plastic",
        "min_edge": 1.0,
        "edge_caution": 8.0,
        "edge_no": 11.0,
        "curve": 4.0,
        "wrap": 5.0,
        "tilt": 8.0,
        "weight": 22.0,
    }


def test_limits_of_the_mounting_follow_the_frame():
    table = frame_of(REED)
    assert (table["mounting"], table["min_edge"], table["edge_caution"], table["edge_no"]) == ("drilled", 2.0, 6.0, 8.0)
    assert table["weight"] == 0.0, "not known"


@pytest.mark.parametrize("frame", CATALOG.frames.values(), ids=lambda frame: frame.id)
def test_the_outline_in_the_table_has_the_printed_box_and_effective_diameter(frame):
    table = frame_of(frame)
    half_a, half_b = table["a"] / 2, table["b"] / 2
    assert outline.box(table["xs"], table["ys"]) == pytest.approx([-half_a, half_a, -half_b, half_b], abs=1e-6)
    assert 2 * outline.farthest(table["xs"], table["ys"], 0.0, 0.0) == pytest.approx(table["ed"], abs=1e-4)


def test_outlines_are_kept_by_box_and_family_and_a_table_cannot_spoil_them():
    first = frame_of(ALDER)
    kept = first["xs"][3]
    first["xs"][3] = 0.0
    assert frame_of(ALDER)["xs"][3] == kept
    assert tables.outline_of(52.0, 36.0, 55.5, "rectangle") is tables.outline_of(52.0, 36.0, 55.5, "rectangle")


def test_each_family_has_an_outline_of_its_own():
    found = {tables.outline_of(50.0, 40.0, 54.0, family) for family in FAMILIES}
    assert len(found) == len(FAMILIES)


def test_a_package_table_is_what_stands_in_the_file():
    """Plain 1.50 in lenses/pennock.yaml, with its material and design."""
    assert tables.package_table(CATALOG.packages["plain-150"]) == {
        "kind": "single-vision",
        "index": 1.498,
        "density": 1.32,
        "drillable": False,
        "impact_resistant": False,
        "finished": True,
        "min_height": 0.0,
        "min_above": 0.0,
        "boost": 0.0,
        "conic": 0.0,
        "base_from": 0.5,
        "base_to": 8.0,
        "position_of_wear": False,
        "wrap": False,
        "ranges": [
            {"low": -4.0, "high": 2.0, "cylinder": 2.0, "add_from": 0.0, "add_to": 0.0, "diameter": 70.0},
        ],
        "curves": [],
        "centers": [
            {"low": -4.0, "high": 0.0, "value": 2.0},
            {"low": 0.25, "high": 2.0, "value": 3.2},
        ],
        "min_center": 2.0,
        "prism": 0.0,
        "prices": [{"low": -4.0, "high": 2.0, "cents": 2000}],
    }


def test_a_progressive_brings_its_heights_and_adds():
    table = tables.package_table(CATALOG.packages["flow-160"])
    assert (table["kind"], table["min_height"], table["min_above"], table["prism"]) == ("progressive", 18.0, 10.0, 3.0)
    assert [(part["add_from"], part["add_to"]) for part in table["ranges"]] == [(0.75, 3.5)]
    assert table["min_center"] == 1.3, "the material's, where the package states none"


def test_limits_are_the_shops():
    assert tables.limits_table(CATALOG.shop.limits) == {
        "edging_allowance": 2.0,
        "curve_difference": 2.0,
        "wrap_angle": 15.0,
        "wrap_curve": 7.0,
        "pow_tilt": 12.0,
        "pow_wrap": 10.0,
    }


def test_an_eye_keeps_every_number_and_its_axis_becomes_a_float():
    table = tables.eye_table(EyeRx(-2.25, 0.75, 95, 1.5, 0.5, -1.0))
    assert table == {
        "sphere": -2.25,
        "cylinder": 0.75,
        "axis": 95.0,
        "add": 1.5,
        "prism_in": 0.5,
        "prism_up": -1.0,
    }
    assert type(table["axis"]) is float


def test_an_eye_that_is_not_prescribed_is_plano():
    assert tables.eye_table(None) == tables.eye_table(EyeRx(0.0))


@pytest.mark.parametrize(
    ("day", "holds"),
    [
        (date(2026, 2, 28), False),
        (date(2026, 3, 1), True),  # from
        (date(2026, 5, 31), True),  # until
        (date(2026, 6, 1), False),
    ],
)
def test_a_discount_holds_from_its_first_day_to_its_last_both_included(day, holds):
    assert tables.in_force(SPRING, day, ()) is holds


@pytest.mark.parametrize(
    ("starts", "ends", "before", "between", "after"),
    [
        (None, None, True, True, True),
        (date(2026, 3, 1), None, False, True, True),
        (None, date(2026, 5, 31), True, True, False),
    ],
)
def test_a_discount_without_a_first_or_last_day_is_open_there(starts, ends, before, between, after):
    one = replace(SPRING, starts=starts, ends=ends)
    days = (date(2020, 1, 1), date(2026, 4, 1), date(2099, 12, 31))
    assert tuple(tables.in_force(one, day, ()) for day in days) == (before, between, after)


@pytest.mark.parametrize(
    ("asked", "holds"),
    [((), False), (("teacher",), True), (("spring", "teacher"), True), (("Teacher",), False), (("teach",), False)],
)
def test_a_discount_that_must_be_asked_for_is_given_to_who_names_it(asked, holds):
    assert tables.in_force(TEACHER, QUIET_DAY, asked) is holds


def test_asking_does_not_bring_back_what_is_over():
    assert not tables.in_force(SPRING, date(2026, 6, 1), ("spring",))
    assert not tables.in_force(replace(TEACHER, ends=date(2026, 1, 31)), QUIET_DAY, ("teacher",))


@pytest.mark.parametrize(
    ("day", "asked", "ids"),
    [
        (QUIET_DAY, (), []),
        (QUIET_DAY, ("teacher",), ["teacher"]),
        (date(2026, 4, 1), (), ["spring"]),
        (date(2026, 4, 1), ("teacher",), ["spring", "teacher"]),
    ],
)
def test_money_holds_the_discounts_of_the_day_in_the_order_of_the_list(day, asked, ids):
    money = tables.money_table(CATALOG.price_list, 12000, HERE, day, asked)
    assert [one["id"] for one in money["discounts"]] == ids


def test_names_may_come_once_only_as_from_a_generator():
    money = tables.money_table(CATALOG.price_list, 12000, HERE, QUIET_DAY, (name for name in ("nobody", "teacher")))
    assert [one["id"] for one in money["discounts"]] == ["teacher"]


def test_money_is_what_stands_in_the_file():
    """prices/2026-01.yaml: 12.00 is 1200 cents, 10 % are 1000 basis points, 8.25 % are 825."""
    money = tables.money_table(CATALOG.price_list, 19550, HERE, date(2026, 4, 1), ("teacher",))
    assert money == {
        "frame_cents": 19550,
        "surcharges": [
            {"id": "prism", "when": "prism", "over": 0.0, "mounting": "", "per_lens": True, "cents": 1200},
            {"id": "cylinder", "when": "cylinder", "over": 2.0, "mounting": "", "per_lens": True, "cents": 950},
            {
                "id": "drilling",
                "when": "mounting",
                "over": 0.0,
                "mounting": "drilled",
                "per_lens": False,
                "cents": 3500,
            },
        ],
        "discounts": [
            {"id": "spring", "on": "lenses", "basis_points": 1000, "cents": 0, "combinable": True},
            {"id": "teacher", "on": "goods", "basis_points": 0, "cents": 1500, "combinable": True},
        ],
        "region": {
            "shipping_cents": 500,
            "free_from_cents": 30000,
            "tax_frame": 825,
            "tax_lenses": 0,
            "tax_shipping": 0,
        },
        "tax_included": False,
    }


def test_each_region_brings_its_own_shipping_and_tax():
    money = tables.money_table(CATALOG.price_list, 12000, AWAY, QUIET_DAY)
    assert money["region"] == {
        "shipping_cents": 1400,
        "free_from_cents": 0,
        "tax_frame": 0,
        "tax_lenses": 0,
        "tax_shipping": 0,
    }


def test_prices_that_hold_the_tax_say_so():
    inside = replace(CATALOG.price_list, tax_included=True)
    assert tables.money_table(inside, 12000, HERE, QUIET_DAY)["tax_included"] is True
