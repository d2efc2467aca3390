"""Sections show the very lens the offer was computed with, to scale, and say what they show."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quoting.catalog.load import load
from quoting.kernel.lens import nasal
from quoting.kernel.thickness import grind, thickness_at, with_prism
from quoting.offers import Ask, Choice, Measures, Offers
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.show.amounts import mm
from quoting.show.cut import section_of, section_svg
from quoting.tables import eye_table
from tests.kernel.jobs import quarters

CATALOG, _ = load(Path(__file__).parents[1] / "shops" / "corner")
OFFERS = Offers(CATALOG, date(2026, 2, 1))
FRAME = next(iter(CATALOG.frames.values()))
SINGLE = next(one for one in CATALOG.packages.values() if one.design.kind == "single-vision" and not one.finished)
SIDES = st.sampled_from(["R", "L"])


def choice(package=SINGLE, size=FRAME.sizes[0]):
    return Choice(FRAME, size, FRAME.colorways[0], package)


def asked(right, left=None, pd=None, **measures):
    return Ask(Prescription(right, left, pd or Distances(62.0)), Measures(**measures))


def offered(ask, one=None):
    return OFFERS.offer(one or choice(), ask)


def lens_of(offer, side):
    return offer.fit["right" if side == "R" else "left"]


def outline_drawn(svg):
    """The corners of the lens, turned so that y points up."""
    path = next(one for one in ET.fromstring(svg).iter("path") if one.get("class") == "cut")
    numbers = [float(part) for part in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", path.get("d"))]
    points, x, y = [], 0.0, 0.0
    for dx, dy in zip(numbers[::2], numbers[1::2], strict=True):
        x, y = x + dx, y + dy
        points.append((x, -y))
    return points


def words_of(svg):
    return ["".join(one.itertext()) for one in ET.fromstring(svg).iter("text")]


eyes = st.builds(
    EyeRx, quarters(-8, 6), quarters(-3, 3), st.integers(1, 180), st.just(0.0), quarters(-3, 3), quarters(-2, 2)
)


@given(eyes, SIDES, st.integers(54, 70))
def test_thickness_in_the_middle_and_at_both_ends_is_that_of_the_lens(eye, side, pd):
    ask = asked(eye, eye, Distances(float(pd)))
    offer = offered(ask)
    cut = section_of(offer, ask, side)
    lens = lens_of(offer, side)
    assert (cut is None) == bool(lens["fault"])
    assume(cut is not None)
    made = nasal(eye_table(eye), side == "L")
    plain = grind(made["sphere"], made["cylinder"], made["axis"], lens["front"], 0.0, SINGLE.material.index)
    ground = with_prism(plain, made["prism_in"], made["prism_up"])
    assert cut.center == lens["center"]
    assert cut.temporal == pytest.approx(thickness_at(ground, cut.center, cut.xs[0], 0.0), abs=1e-9)
    assert cut.nasal == pytest.approx(thickness_at(ground, cut.center, cut.xs[-1], 0.0), abs=1e-9)
    # the ends may lie between two points of the outline
    assert lens["edge_min"] - 0.05 <= min(cut.temporal, cut.nasal) <= max(cut.temporal, cut.nasal)
    assert max(cut.temporal, cut.nasal) <= lens["edge_max"] + 0.05


def test_the_package_in_these_tests_has_a_spherical_front():
    assert SINGLE.design.conic == 0.0


@given(st.integers(54, 70))
def test_the_section_ends_where_the_lens_does(pd):
    """With the reference point at half height, nasal and temporal width are A/2 less and more the decentration."""
    ask = asked(EyeRx(-3.0), None, Distances(float(pd)))
    size = replace(FRAME.sizes[0], a=50.0, b=50.0, dbl=18.0, ed=50.0)
    round_frame = replace(FRAME, family="round")
    one = Choice(round_frame, size, FRAME.colorways[0], SINGLE)
    offer = offered(replace(ask, measures=Measures(height_right=25.0 + center_drop_of(one, ask))), one)
    cut = section_of(offer, ask, "R")
    inward = (50.0 + 18.0) / 2 - pd / 2
    assert cut.xs[-1] == pytest.approx(25.0 - inward, abs=0.02)
    assert cut.xs[0] == pytest.approx(-25.0 - inward, abs=0.02)


def center_drop_of(one, ask):
    """How far below the pupil the engine sets the optical center of this lens."""
    offer = offered(replace(ask, measures=Measures(height_right=25.0)), one)
    return 25.0 - offer.fit["right"]["height"]


def test_a_spherical_minus_lens_is_as_deep_as_its_radii_say():
    """Sag r − √(r² − y²) of both radii, and the back power of a thick lens.

    Both formulas from memory, as in Jalie, Ophthalmic Lenses and Dispensing.
    """
    ask = asked(EyeRx(-4.0))
    offer = offered(ask)
    cut, lens = section_of(offer, ask, "R"), offer.fit["right"]
    n = SINGLE.material.index
    front_power = lens["front"]
    back_power = -4.0 - front_power / (1 - cut.center / 1000 / n * front_power)
    front_radius, back_radius = 1000 * (n - 1) / front_power, 1000 * (1 - n) / back_power
    for x, front, back in zip(cut.xs, cut.fronts, cut.backs, strict=True):
        assert front == pytest.approx(front_radius - math.sqrt(front_radius**2 - x * x), abs=1e-6)
        assert back - cut.center == pytest.approx(back_radius - math.sqrt(back_radius**2 - x * x), abs=1e-6)


@pytest.mark.parametrize("side", ["R", "L"])
def test_the_drawing_is_to_scale_and_its_figures_are_the_thicknesses(side):
    eye = EyeRx(-4.0, -1.0, 30, prism_in=1.5)
    ask = asked(eye, eye)
    offer = offered(ask)
    cut, svg = section_of(offer, ask, side), section_svg(offer, ask, side)
    turn = 1 if side == "R" else -1
    points = outline_drawn(svg)
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    assert wide == pytest.approx(cut.xs[-1] - cut.xs[0], abs=0.011)
    for x, front, back in ((cut.xs[0], cut.fronts[0], cut.backs[0]), (cut.xs[-1], cut.fronts[-1], cut.backs[-1])):
        at_end = [y for at, y in points if at == pytest.approx(turn * x, abs=0.011)]
        assert (min(at_end), max(at_end)) == (pytest.approx(front, abs=0.011), pytest.approx(back, abs=0.011))
    assert words_of(svg) == [mm(cut.temporal), "temporal", mm(cut.nasal), "nasal", mm(cut.center), "center"]


def test_left_is_the_mirror_image_of_right():
    right, left = EyeRx(-5.0, -1.5, 20), EyeRx(-5.0, -1.5, 160)
    ask = asked(right, left)
    offer = offered(ask)
    one, other = (outline_drawn(section_svg(offer, ask, side)) for side in "RL")
    assert [(round(-x, 2), round(y, 2)) for x, y in other] == [(round(x, 2), round(y, 2)) for x, y in one]


@pytest.mark.parametrize(("side", "eye", "sign"), [("R", "right", 1), ("L", "left", -1)])
def test_base_in_makes_the_side_of_the_nose_thick_and_the_name_says_where_that_is(side, eye, sign):
    rx = EyeRx(0.0, prism_in=3.0)
    ask = asked(rx, rx)
    svg = section_svg(offered(ask), ask, side)
    root = ET.fromstring(svg)
    name = root.get("aria-label")
    assert root.get("role") == "img"
    assert f"{eye} lens" in name
    assert f"nose at the {eye}" in name
    points = outline_drawn(svg)
    ends = {end: [y for x, y in points if x == end] for end in (min(points)[0], max(points)[0])}
    thick = max(ends, key=lambda end: max(ends[end]) - min(ends[end]))
    assert math.copysign(1, thick) == sign


def test_nothing_leaves_the_window():
    for sphere in (-8.0, -0.25, 6.0):
        ask = asked(EyeRx(sphere), EyeRx(sphere))
        svg = section_svg(offered(ask), ask, "R")
        left, top, width, height = (float(part) for part in ET.fromstring(svg).get("viewBox").split())
        for x, y in outline_drawn(svg):
            assert left < x < left + width
            assert top < -y < top + height


def test_an_eye_without_a_lens_has_no_section():
    ask = asked(EyeRx(-2.0))
    assert section_svg(offered(ask), ask, "R")
    assert section_svg(offered(ask), ask, "L") == ""


def test_a_lens_that_is_not_made_has_no_section():
    ask = asked(EyeRx(-20.0))
    offer = offered(ask)
    assert offer.fit["right"]["fault"]
    assert section_svg(offer, ask, "R") == ""


def test_a_reference_point_below_the_lens_has_no_section():
    """A pupil 2 mm above the lowest point, and a tilt that asks for the optical center below it."""
    ask = asked(EyeRx(-2.0), height_right=2.0)
    offer = offered(ask)
    assert not offer.fit["right"]["fault"]
    assert section_svg(offer, ask, "R") == ""


def test_another_prescription_than_the_offers_is_refused():
    offer = offered(asked(EyeRx(-2.0)))
    with pytest.raises(ValueError, match="another prescription"):
        section_svg(offer, asked(EyeRx(-3.0)), "R")


def test_the_same_section_is_the_same_text():
    ask = asked(EyeRx(-2.0))
    assert section_svg(offered(ask), ask, "R") == section_svg(offered(ask), ask, "R")
