"""A pair against its order: at each tolerance, just beyond it, in both notations, and what is left out."""

import itertools

import pytest

from quoting.kernel.power import transposed
from quoting.kernel.verified import NOT_READ, axis_off, lacking, lens_checks, nothing_read
from quoting.kernel.verified_pair import alone_checks, overall, pair_checks, tint_check


def lens(**values):
    return nothing_read() | values


def power(sphere, cylinder=0.0, axis=180.0, **more):
    return lens(sphere=sphere, cylinder=cylinder, axis=axis, **more)


def failed(checks):
    return [one["code"] for one in checks if one["verdict"] == "fail"]


def judged(ordered, found, standard="ansi", kind="single-vision"):
    return failed(lens_checks(standard, kind, "R", ordered, found))


@pytest.mark.parametrize(
    ("ordered", "at", "beyond", "code"),
    [
        (power(-3.0), power(-3.13), power(-3.14), "power"),  # TO-01: -3.13 to -2.87
        (power(-3.0), power(-2.87), power(-2.86), "power"),
        (power(12.0), power(12.24), power(12.25), "power"),
        (power(-1.0, -2.0, 30.0), power(-1.0, -2.13, 30.0), power(-0.9, -2.14, 30.0), "cylinder"),
        (power(-2.0, -0.25, 90.0), power(-2.0, -0.25, 104.0), power(-2.0, -0.25, 105.0), "axis"),
        (power(-2.0, -1.0, 2.0), power(-2.0, -1.0, 179.0), power(-2.0, -1.0, 178.0), "axis"),
        (power(1.0, add=2.0), power(1.0, add=2.12), power(1.0, add=2.13), "add"),
        (lens(center=2.0), lens(center=2.3), lens(center=2.31), "center"),
        (lens(base=6.0), lens(base=6.75), lens(base=6.76), "base"),
    ],
)
def test_a_value_passes_at_its_edge_and_fails_beyond(ordered, at, beyond, code):
    assert judged(ordered, at) == []
    assert judged(ordered, beyond) == [code]


@pytest.mark.parametrize("kind", ["progressive", "occupational"])
def test_progressives_have_their_own_rows(kind):
    assert judged(power(-3.0), power(-3.16), kind=kind) == []
    assert judged(power(-3.0), power(-3.17), kind=kind) == ["power"]
    assert judged(lens(pd=31.0), lens(pd=32.0), kind=kind) == []
    assert judged(lens(pd=31.0), lens(pd=32.01), kind=kind) == ["cross-pd"]
    assert judged(lens(pd=31.0), lens(pd=35.0)) == []  # of single vision the distance of both is held
    assert judged(lens(height=20.0), lens(height=21.01), kind=kind) == ["height"]


def test_the_line_of_a_bifocal_lies_level():
    assert judged(power(1.0), power(1.0, segment_tilt=2.0), kind="bifocal") == []
    assert judged(power(1.0), power(1.0, segment_tilt=-2.1), kind="bifocal") == ["segment-tilt"]
    assert judged(power(1.0), power(1.0, segment_tilt=9.0)) == []  # single vision has no line


def test_iso_holds_both_meridians_and_no_base_curve():
    ordered = power(-2.0, -1.0, 90.0)
    assert judged(ordered, power(-2.12, -0.88, 90.0), "iso") == []
    assert judged(ordered, power(-2.13, -0.87, 90.0), "iso") == ["power-flatter", "cylinder"]
    assert judged(ordered, power(-2.0, -1.13, 90.0), "iso") == ["power-steeper", "cylinder"]
    assert judged(lens(base=6.0), lens(base=9.0), "iso") == []


@pytest.mark.parametrize(("turn_ordered", "turn_found"), list(itertools.product([False, True], repeat=2)))
@pytest.mark.parametrize("standard", ["ansi", "iso"])
def test_the_notation_of_neither_side_matters(standard, turn_ordered, turn_found):
    cases = itertools.product(
        (-6.25, 0.5, 4.0), (-2.25, -0.5, 1.75), (5.0, 90.0, 176.0), (-0.14, 0.0, 0.11), (-4.0, 2.0)
    )
    for sphere, cylinder, axis, off, turned in cases:
        one, other = (sphere, cylinder, axis), (sphere + off, cylinder - off, (axis + turned) % 180 or 180.0)
        plain = lens_checks(standard, "single-vision", "L", power(*one), power(*other))
        again = lens_checks(
            standard, "single-vision", "L",
            power(*(transposed(*one) if turn_ordered else one)), power(*(transposed(*other) if turn_found else other)),
        )  # fmt: skip
        assert [(c["code"], c["verdict"]) for c in again] == [(c["code"], c["verdict"]) for c in plain]
        assert [c["off"] for c in again] == pytest.approx([c["off"] for c in plain])


def test_no_axis_is_held_where_there_is_no_cylinder():
    assert judged(power(-2.0), power(-2.0, -0.06, 33.0)) == []
    assert judged(power(-2.0, -0.12, 90.0), power(-2.0)) == []  # nobody can read the axis of a sphere


@pytest.mark.parametrize(("one", "other", "off"), [(178, 3, 5), (180, 1, 1), (10, 100, 90), (1, 180, 1), (45, 45, 0)])
def test_axes_differ_by_the_shorter_way(one, other, off):
    assert axis_off(float(one), float(other)) == axis_off(float(other), float(one)) == off


def test_what_was_not_read_is_not_held():
    assert lens_checks("ansi", "progressive", "R", power(-2.0, add=2.0, pd=31.0), nothing_read()) == []
    assert pair_checks("ansi", "progressive", power(-2.0), power(-2.0), [nothing_read()] * 2) == []
    assert tint_check(20.0, NOT_READ) == []


def pair(ordered, right, left, standard="ansi", kind="single-vision"):
    both = (ordered, ordered) if isinstance(ordered, dict) else ordered
    return failed(pair_checks(standard, kind, *both, [right, left]))


def test_vertical_prism_of_the_pair():
    none = power(-2.0, prism_in=0.0, prism_up=0.0)
    assert pair(none, lens(prism_in=0.0, prism_up=0.33), lens(prism_in=0.0, prism_up=0.0)) == []
    assert pair(none, lens(prism_in=0.0, prism_up=0.2), lens(prism_in=0.0, prism_up=-0.14)) == ["prism-up"]
    assert pair(none, lens(prism_in=0.0, prism_up=0.5), lens(prism_in=0.0, prism_up=0.5)) == []
    strong = power(-5.0, prism_in=0.0, prism_up=0.0)
    assert pair(strong, lens(prism_in=0.0, prism_up=0.5), lens(prism_in=0.0, prism_up=0.0)) == []
    assert pair(strong, lens(prism_in=0.0, prism_up=0.51), lens(prism_in=0.0, prism_up=0.0)) == ["prism-up"]


def test_prescribed_prism_is_no_fault():
    right, left = power(-2.0, prism_in=-1.0, prism_up=1.0), power(-2.0, prism_in=-1.0, prism_up=-1.0)
    assert pair((right, left), lens(prism_in=-1.0, prism_up=1.0), lens(prism_in=-1.0, prism_up=-1.0)) == []
    assert pair((right, left), lens(prism_in=0.0, prism_up=0.0), lens(prism_in=0.0, prism_up=0.0)) == [
        "prism-up", "prism-across",
    ]  # fmt: skip


@pytest.mark.parametrize(("standard", "at", "beyond"), [("ansi", 2.5, 2.6), ("iso", 1.625, 1.65)])
def test_the_distance_of_the_centers_of_a_strong_pair(standard, at, beyond):
    ordered = (power(-4.0, pd=31.0), power(-4.0, pd=32.0))
    assert pair(ordered, lens(pd=31.0 + at), lens(pd=32.0), standard) == []
    assert pair(ordered, lens(pd=31.0 + beyond), lens(pd=32.0), standard) == ["distance"]
    assert pair(ordered, lens(pd=31.0 + beyond), lens(pd=32.0 - beyond), standard) == []


@pytest.mark.parametrize(
    ("ordered", "at", "beyond", "code"),
    [
        # One lens: 0.33 prism diopters, or what 1.0 mm makes from 3.375 D on (TO-25), across as upright
        (power(-2.0, prism_in=2.0), lens(prism_in=2.33), lens(prism_in=2.34), "alone-across"),
        (power(-2.0, prism_up=-1.0), lens(prism_up=-0.67), lens(prism_up=-0.66), "alone-up"),
        (power(-5.0, prism_in=0.0), lens(prism_in=-0.5), lens(prism_in=-0.51), "alone-across"),
        (power(-5.0, pd=31.0), lens(pd=32.0), lens(pd=32.1), "center-across"),
        (power(-5.0, height=20.0), lens(height=19.0), lens(height=18.9), "center-up"),
        (power(-3.0, -2.0, 180.0, height=20.0), lens(height=21.0), lens(height=21.1), "center-up"),
    ],
)
def test_one_lens_alone(ordered, at, beyond, code):
    assert failed(alone_checks("ansi", "single-vision", "R", ordered, at)) == []
    assert failed(alone_checks("ansi", "single-vision", "R", ordered, beyond)) == [code]


def test_what_has_to_be_read_before_a_lens_passes():
    ordered = power(-3.0, add=2.0, pd=31.0, height=20.0, prism_in=0.0, prism_up=0.5)
    assert lacking("progressive", ordered, nothing_read()) == ["sphere", "add", "prism_up", "pd", "height"]
    assert lacking("single-vision", ordered | {"add": 0.0}, lens(sphere=-3.0, prism_up=0.5)) == []


def test_heights_stand_for_prism_that_nobody_read():
    """1.0 mm at 5.00 D is 0.50 prism diopters, which ANSI allows; a bifocal's segments may differ by 1 mm anyway."""
    ordered = power(-5.0, height=18.0)
    assert pair(ordered, lens(height=19.0), lens(height=18.0)) == []
    assert pair(ordered, lens(height=19.1), lens(height=18.0)) == ["heights-prism"]
    assert pair(ordered, lens(height=19.1), lens(height=18.0), kind="bifocal") == ["heights"]
    assert pair(power(-1.0, height=18.0), lens(height=21.0), lens(height=18.0)) == []


def test_one_fault_fails_all():
    assert overall([]) == "nothing"
    good = lens_checks("ansi", "single-vision", "R", power(-2.0), power(-2.0))
    assert overall(good) == "pass"
    assert overall([*good, *tint_check(20.0, 26.0)]) == "fail"
