"""Every cell of both tables at its edge, just inside and just outside; and what holds between cells.

The cells are written here a second time, as the sources print them (tests/authorities/SOURCES.md), so that a slip in
one of the two shows.
"""

import pytest

from quoting.kernel import tolerance, tolerance_ansi, tolerance_iso
from quoting.kernel.tolerance_ansi import NO_AXIS, NO_LIMIT

STEP = 0.001  # finer than any power is written

# (function of the value, [(from, to, tolerance), ...]); where it is a text, that share of the value holds
ANSI = {
    "power": (lambda v: tolerance_ansi.power_within(v, False), [(0.0, 6.5, 0.13), (6.5, 30.0, "2 %")]),
    "power of progressives": (lambda v: tolerance_ansi.power_within(v, True), [(0.0, 8.0, 0.16), (8.0, 30.0, "2 %")]),
    "cylinder": (
        lambda v: tolerance_ansi.cylinder_within(v, False),
        [(0.0, 2.0, 0.13), (2.0, 4.5, 0.15), (4.5, 12.0, "4 %")],
    ),
    "cylinder of progressives": (
        lambda v: tolerance_ansi.cylinder_within(v, True),
        [(0.0, 2.0, 0.16), (2.0, 3.5, 0.18), (3.5, 12.0, "5 %")],
    ),
    "axis": (
        tolerance_ansi.axis_within_ansi,
        [(0.12 - STEP, 0.25, 14), (0.25, 0.5, 7), (0.5, 0.75, 5), (0.75, 1.5, 3), (1.5, 12.0, 2)],
    ),
    "add": (tolerance_ansi.add_within, [(0.0, 4.0, 0.12), (4.0, 6.0, 0.18)]),
    "vertical prism": (tolerance_ansi.vertical_within, [(0.0, 3.375, 0.33), (3.375, 20.0, "10 %")]),
    "horizontal prism": (
        lambda v: tolerance_ansi.horizontal_within(v, False),
        [(0.0, 2.75, 0.67), (2.75, 20.0, "25 %")],
    ),
    "horizontal prism of progressives": (
        lambda v: tolerance_ansi.horizontal_within(v, True),
        [(0.0, 3.375, 0.67), (3.375, 20.0, "20 %")],
    ),
}
ISO_POWERS = [(0, 3), (3, 6), (6, 9), (9, 12), (12, 20), (20, 40)]
ISO_A = [0.12, 0.12, 0.12, 0.18, 0.25, 0.37]
ISO_CYLINDERS = [(0.0, 0.75), (0.75, 4.0), (4.0, 6.0), (6.0, 10.0)]
ISO_B = [
    [0.09, 0.12, 0.18, 0.18],
    [0.12, 0.12, 0.18, 0.25],
    [0.12, 0.18, 0.18, 0.25],
    [0.12, 0.18, 0.25, 0.25],
    [0.18, 0.25, 0.25, 0.25],
    [0.25, 0.25, 0.37, 0.37],
]
ISO = {
    "axis": (
        tolerance_iso.axis_within_iso,
        [(0.125 - STEP, 0.25, 16), (0.25, 0.5, 9), (0.5, 0.75, 6), (0.75, 1.5, 4), (1.5, 2.5, 3), (2.5, 10.0, 2)],
    ),
    "add": (tolerance_iso.add_within_iso, [(0.0, 4.0, 0.12), (4.0, 6.0, 0.18)]),
    "prism across": (
        lambda v: tolerance_iso.prism_within_iso(v, 4.0, 0.1),
        [(0.0, 2.0, 0.65), (2.0, 10.0, 0.77), (10.0, 20.0, 0.9)],
    ),
    "prism upright": (
        lambda v: tolerance_iso.prism_within_iso(v, 4.0, 0.05),
        [(0.0, 2.0, 0.45), (2.0, 10.0, 0.57), (10.0, 20.0, 0.7)],
    ),
}
CELLS = [
    (f"{standard}, {name}, above {low} to {high}", asked, low, high, wanted)
    for standard, table in (("ansi", ANSI), ("iso", ISO))
    for name, (asked, rows) in table.items()
    for low, high, wanted in rows
]


def printed(wanted, value):
    return float(wanted.split()[0]) / 100 * value if isinstance(wanted, str) else wanted


@pytest.mark.parametrize(("asked", "low", "high", "wanted"), [cell[1:] for cell in CELLS], ids=[c[0] for c in CELLS])
def test_a_cell_holds_from_just_above_its_lower_edge_to_its_upper_edge(asked, low, high, wanted):
    signs = (1.0,) if asked in (tolerance_ansi.add_within, tolerance_iso.add_within_iso) else (1.0, -1.0)
    for value in (low + STEP, (low + high) / 2, high - STEP, high):
        for sign in signs:
            assert asked(sign * value) == pytest.approx(printed(wanted, value), abs=1e-12)


@pytest.mark.parametrize(("asked", "low", "high", "wanted"), [cell[1:] for cell in CELLS], ids=[c[0] for c in CELLS])
def test_just_outside_its_edges_another_cell_holds(asked, low, high, wanted):
    every = [cell for cell in CELLS if cell[1] is asked]
    after = next((cell for cell in every if cell[2] == high), None)
    if after is not None:
        assert asked(high + STEP) == pytest.approx(printed(after[4], high + STEP), abs=1e-12)
        if not isinstance(after[4], str):
            assert asked(high + STEP) != asked(high)
    before = next((cell for cell in every if cell[3] == low), None)
    if before is not None:
        assert asked(low) == pytest.approx(printed(before[4], low), abs=1e-12)


@pytest.mark.parametrize("row", range(6))
@pytest.mark.parametrize("column", range(4))
def test_each_cell_of_the_iso_lens_table_at_and_around_its_edges(row, column):
    (low, high), (thin, thick) = ISO_POWERS[row], ISO_CYLINDERS[column]
    for power in (low + STEP, high - STEP, high):
        for cylinder in (thin + STEP, thick - STEP, thick):
            for sign in (1.0, -1.0):
                assert tolerance_iso.meridian_within(sign * power) == ISO_A[row]
                assert tolerance_iso.cylinder_within_iso(sign * power, -sign * cylinder) == ISO_B[row][column]
    if row < 5:
        assert tolerance_iso.cylinder_within_iso(high + STEP, thick) == ISO_B[row + 1][column]
        assert tolerance_iso.meridian_within(high + STEP) == ISO_A[row + 1]
    if column < 3:
        assert tolerance_iso.cylinder_within_iso(high, thick + STEP) == ISO_B[row][column + 1]


def test_an_axis_of_next_to_no_cylinder_is_not_held():
    assert tolerance_ansi.axis_within_ansi(0.119) == NO_AXIS
    assert tolerance_ansi.axis_within_ansi(0.12) == 14
    assert tolerance_iso.axis_within_iso(-0.124) == NO_AXIS
    assert tolerance_iso.axis_within_iso(-0.125) == 16
    assert tolerance_ansi.axis_within_ansi(0.0) == NO_AXIS


@pytest.mark.parametrize(
    ("kind", "power", "wanted"),
    [
        ("single-vision", 2.75, 0.67 * 10 / 2.75), ("single-vision", 2.751, 2.5), ("single-vision", -9.0, 2.5),
        ("single-vision", 1.0, 6.7), ("single-vision", 0.0, NO_LIMIT), ("bifocal", 0.0, 2.5), ("bifocal", 9.0, 2.5),
        ("progressive", 0.0, 2.0), ("progressive", 9.0, 2.0),
    ],
)  # fmt: skip
def test_how_far_the_centers_may_be_apart_by_ansi(kind, power, wanted):
    assert tolerance_ansi.distance_within(kind, power) == pytest.approx(wanted)


def test_single_vision_centers_by_iso_are_as_far_as_their_prism_says():
    assert tolerance_iso.distance_within_iso("single-vision", -5.0) == pytest.approx((0.25 + 0.5) * 10 / 5)
    assert tolerance_iso.distance_within_iso("single-vision", 0.0) == NO_LIMIT
    assert tolerance_iso.distance_within_iso("bifocal", 0.0) == 2.0


@pytest.mark.parametrize("kind", ["single-vision", "bifocal", "progressive", "occupational", "anti-fatigue"])
@pytest.mark.parametrize("standard", ["ansi", "iso"])
def test_the_door_gives_the_rows_of_the_design(standard, kind):
    wide = kind in ("progressive", "occupational")
    found = tolerance.lens_tolerances(standard, kind, -4.5, -2.5, 2.0)
    ansi = [0.16, 0.18, 2.0, 0.12] if wide else [0.14, 0.15, 2.0, 0.12]  # the highest power is -7.00: 2 % are 0.14
    assert found == pytest.approx(ansi if standard == "ansi" else [0.12, 0.18, 3.0, 0.12])


def test_another_standard_is_refused():
    with pytest.raises(ValueError, match="ansi or iso"):
        tolerance.lens_tolerances("din", "bifocal", 1.0, 0.0, 0.0)
    with pytest.raises(ValueError, match="ansi or iso"):
        tolerance.pair_tolerances("din", "bifocal", 1.0, 0.0, [0.0, 0.0])
