"""One lens of a job as it is worn: its figures are those of the trace, its flags have edges, nothing raises."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import lens, magnify, power, sight, surfaces, thickness, wearing, worn
from quoting.kernel.seat import seat_for
from tests.kernel.jobs import eye, eyes, frame, job, measures, package, quarters, random_jobs, steady

# Numbers that no spectacle lens has, and some that are none
WILD = st.one_of(
    st.floats(allow_nan=True, allow_infinity=True),
    st.sampled_from((0.0, -0.0, 1e308, -1e308, 1e-308, 90.0, -90.0, 180.0, 1.0, float("nan"), float("inf"))),
)


def made_lens(**changes):
    return lens.blank_lens() | {"front": 4.0, "center": 2.0} | changes


def as_worn(one=None, glass=None, **changes):
    return wearing.as_worn(job(one, **changes), one or eye(), glass or made_lens())


def power_of(worn_lens, prefix=""):
    return [worn_lens[f"{prefix}{part}"] for part in ("sphere", "cylinder", "axis")]


def test_what_is_met_is_what_the_trace_says():
    """-4.00 -1.00 x 30, 1 base in, tilted by 10 and wrapped by 12 degrees; the pupil stands 5 mm above the center."""
    one = eye(-4.0, -1.0, 30.0, prism_in=1.0, prism_up=-0.5)
    found = as_worn(one, frame=frame(tilt=10.0, wrap=12.0), package=package(conic=-0.5))
    made = thickness.with_prism(thickness.grind(-4.0, -1.0, 30.0, 4.0, -0.5, 1.6), 1.0, -0.5)
    axes = sight.worn_axes(10.0, 12.0)
    xx, xy, yy, prism_in, prism_up = sight.met(made, 2.0, 5.0, axes)
    assert found["flag"] == ""
    assert found["converged"]
    assert power.matrix(*power_of(found)) == pytest.approx([xx, xy, yy])
    assert (found["prism_in"], found["prism_up"]) == (prism_in, prism_up)
    drop = power.prentice(-4.0, -1.0, 30.0, 0.0, -5.0)
    assert found["error_in"] == pytest.approx(prism_in - 1.0 - drop[0])
    assert found["error_up"] == pytest.approx(prism_up + 0.5 - drop[1])
    asked = power.matrix(-4.0, -1.0, 30.0)
    error = power.matrix(*power_of(found, "error_"))
    assert error == pytest.approx([xx - asked[0], xy - asked[1], yy - asked[2]])
    assert power_of(found, "martin_") == worn.tilted_both(-4.0, -1.0, 30.0, 10.0, 12.0, 1.6)
    wanted = [*asked, 1.0 + drop[0], -0.5 + drop[1]]
    order = [*power.matrix(*power_of(found, "order_")), found["order_in"], found["order_up"]]
    assert order == pytest.approx(sight.order_for(made, 2.0, 5.0, axes, wanted))
    assert sight.met(sight.ordered(made, order), 2.0, 5.0, axes) == pytest.approx(wanted, abs=2e-7)


@pytest.mark.parametrize(("vertex", "pupil_mm"), [(13.0, 16.0), (9.5, 12.5)])
def test_magnification_is_shape_times_power_at_the_entrance_pupil(vertex, pupil_mm):
    """By the power the eye meets, its mean; 3 mm behind the cornea."""
    found = as_worn(eye(3.0, -1.0, 20.0), frame=frame(tilt=0.0, wrap=0.0), measures=measures(vertex=vertex))
    assert found["shape_factor"] == pytest.approx(surfaces.shape_factor(4.0, 2.0, 1.6))
    assert found["power_factor"] == pytest.approx(magnify.power_factor(2.5, pupil_mm))
    assert found["magnification"] == pytest.approx(magnify.magnification(4.0, 2.0, 1.6, 2.5, pupil_mm))


@steady(60)
@given(quarters(-10, 8), quarters(-4, 4), st.integers(1, 180).map(float), st.floats(0, 6))
def test_a_single_vision_lens_that_is_not_tilted_gives_what_was_prescribed(sphere, cylinder, axis, prism):
    """Exactly the prescription as met, as ordered and by Martin; a prescribed prism bends light as a thick one does."""
    found = as_worn(eye(sphere, cylinder, axis), frame=frame(tilt=0.0, wrap=0.0))
    wanted = power.matrix(sphere, cylinder, axis)
    for prefix in ("", "order_", "martin_"):
        assert power.matrix(*power_of(found, prefix)) == pytest.approx(wanted, abs=1e-7)
    assert [found["error_sphere"], found["error_cylinder"]] == pytest.approx([0.0, 0.0], abs=1e-9)
    assert [found["prism_in"], found["prism_up"], found["error_in"], found["error_up"]] == [0.0, 0.0, 0.0, 0.0]
    with_prism = as_worn(eye(sphere, 0.0, 180.0, prism_up=prism), frame=frame(tilt=0.0, wrap=0.0))
    assert with_prism["prism_up"] == pytest.approx(prism, rel=0.08, abs=0.001)


@pytest.mark.parametrize(
    ("kind", "tilt", "up"),
    [("single-vision", 8.0, 4.0), ("single-vision", -3.0, -1.5), ("bifocal", 8.0, 4.0), ("progressive", 0.0, 4.0)],
)
def test_the_pupil_stands_above_the_reference_point_by_the_drop_or_by_the_designs_own(kind, tilt, up):
    assert wearing.above_reference(kind, tilt) == up
    found = as_worn(eye(-5.0), frame=frame(tilt=tilt, wrap=0.0), package=package(kind=kind))
    made = thickness.grind(-5.0, 0.0, 180.0, 4.0, 0.0, 1.6)
    assert found["prism_up"] == sight.met(made, 2.0, up, sight.worn_axes(tilt, 0.0))[4]


def test_the_drop_of_the_optical_center_is_no_error():
    """-5.00 with its center 4 mm low: 2 base up (Prentice, 0.4 · 5) are meant; the trace is some hundredths off."""
    found = as_worn(eye(-5.0), frame=frame(tilt=8.0, wrap=0.0))
    assert found["prism_up"] == pytest.approx(1.937, abs=0.001)
    assert found["error_up"] == pytest.approx(-0.063, abs=0.001)
    assert found["error_in"] == 0.0


def test_two_mirrored_eyes_of_a_job_are_worn_alike():
    """Each eye comes in its nasal frame; so the same numbers come out."""
    right = eye(-4.0, -2.0, 30.0, prism_in=1.0, prism_up=2.0)
    left = eye(-4.0, -2.0, 150.0, prism_in=1.0, prism_up=2.0)
    one = job(frame=frame(tilt=9.0, wrap=14.0), right=right, left=left)
    glass = made_lens()
    assert wearing.as_worn(one, lens.nasal(right, False), glass) == wearing.as_worn(one, lens.nasal(left, True), glass)


@steady(60)
@given(random_jobs())
def test_every_lens_of_a_job_is_worn_and_its_order_gives_the_prescription(one):
    """As it comes from the layout and the grinding, for any frame, package and prescription."""
    given_eye = lens.nasal(one["right"], False)
    pupil = one["measures"]["pd_right"], one["measures"]["height_right"]
    glass = lens.lens_for(one, given_eye, seat_for([], one["frame"], one["package"]["kind"], *pupil))
    found = wearing.as_worn(one, given_eye, glass)
    if glass["fault"]:
        assert found["flag"] == "no-lens"
    if found["flag"]:
        return
    made = thickness.grind(0.0, 0.0, 180.0, glass["front"], one["package"]["conic"], one["package"]["index"])
    order = [*power.matrix(*power_of(found, "order_")), found["order_in"], found["order_up"]]
    up = wearing.above_reference(one["package"]["kind"], one["frame"]["tilt"])
    axes = sight.worn_axes(one["frame"]["tilt"], one["frame"]["wrap"])
    got = sight.met(sight.ordered(made, order), glass["center"], up, axes)
    assert got == pytest.approx(wearing.wanted_of(given_eye, up), abs=5e-7)


NOTHING = {
    "sphere": 0.0,
    "cylinder": 0.0,
    "axis": 180.0,
    "prism_in": 0.0,
    "prism_up": 0.0,
    "magnification": 1.0,
    "shape_factor": 1.0,
    "power_factor": 1.0,
    "error_sphere": 0.0,
    "error_cylinder": 0.0,
    "error_axis": 180.0,
    "error_in": 0.0,
    "error_up": 0.0,
    "converged": False,
    "order_sphere": -4.0,
    "order_cylinder": -1.0,
    "order_axis": 30.0,
    "order_in": 1.0,
    "order_up": -2.0,
    "martin_sphere": 0.0,
    "martin_cylinder": 0.0,
    "martin_axis": 180.0,
}
ONE = eye(-4.0, -1.0, 30.0, prism_in=1.0, prism_up=-2.0)


@pytest.mark.parametrize("fault", ["not-made", "cannot-be-ground"])
def test_where_there_is_no_lens_the_prescription_stands_and_the_flag(fault):
    assert as_worn(ONE, made_lens(fault=fault)) == NOTHING | {"flag": "no-lens"}


def test_where_no_ray_comes_through_that_is_told():
    """A back of radius 10 mm cannot reach the pupil, 11 mm above its vertex."""
    deep = made_lens(front=0.5, center=1.0)
    tall = frame(tilt=22.0, wrap=0.0)
    one = eye(-30.0)
    found = wearing.as_worn(job(one, frame=tall, package=package(index=1.3)), one, deep)
    assert found["flag"] == "no-ray"
    assert (found["order_sphere"], found["converged"], found["martin_sphere"]) == (-30.0, False, 0.0)


def test_where_no_order_helps_the_rest_still_stands():
    """-30.00 tilted by 20 degrees, the center dropped by 10 mm: what would make up for it is beyond any lens."""
    one = eye(-30.0)
    found = wearing.as_worn(job(one, frame=frame(tilt=20.0, wrap=0.0), package=package(index=1.5)), one, made_lens())
    assert found["flag"] == "not-converged"
    assert not found["converged"]
    assert found["sphere"] == pytest.approx(-31.3, abs=0.1)
    assert found["error_sphere"] == pytest.approx(found["sphere"] + 30.0)
    assert found["martin_sphere"] < -31.0
    assert found["magnification"] < 0.8
    assert power_of(found, "order_") == [-30.0, 0.0, 180.0]
    assert [found["order_in"], found["order_up"]] == [0.0, 0.0]


@steady(150)
@given(
    quarters(-12, 8),
    quarters(-4, 0),
    st.integers(1, 180).map(float),
    st.sampled_from((-4.0, 0.0, 3.0)),
    st.floats(0, 20),
    st.floats(0, 25),
    st.sampled_from((1.5, 1.6, 1.74)),
)
def test_an_order_is_found_for_every_lens_that_people_wear(sphere, cylinder, axis, prism, tilt, wrap, index):
    base = surfaces.true_power(surfaces.base_by_rule(sphere + cylinder / 2, 0.5, 9.0, 5.0), index)
    one = eye(sphere, cylinder, axis, prism_in=prism)
    glass = made_lens(front=base, center=2.0 + max(0.0, sphere) * 0.6)
    found = wearing.as_worn(job(one, frame=frame(tilt=tilt, wrap=wrap), package=package(index=index)), one, glass)
    assert found["converged"]


def changed(**changes):
    """A job at whose edges one number stands: in the frame, the package, the measures, the eye or the lens."""
    parts = {"frame": frame(tilt=0.0, wrap=0.0), "package": package(), "measures": measures()}
    one, glass = eye(), made_lens()
    for name, value in changes.items():
        if name in one:
            one = one | {name: value}
        elif name in ("front", "center"):
            glass = glass | {name: value}
        else:
            part = next(key for key in parts if name in parts[key])
            parts[part] = parts[part] | {name: value}
    return wearing.as_worn(job(one, **parts), one, glass)


@pytest.mark.parametrize(
    ("name", "last", "beyond"),
    [
        ("tilt", 45.0, 45.01),
        ("tilt", -45.0, -45.01),
        ("wrap", 45.0, 45.01),
        ("wrap", -45.0, -45.01),
        ("sphere", -30.0, -30.01),
        ("cylinder", -30.0, -30.01),
        ("cylinder", 30.0, 30.01),
        ("axis", 0.0, -0.01),
        ("axis", 180.0, 180.01),
        ("prism_in", 30.0, 30.01),
        ("prism_in", -30.0, -30.01),
        ("prism_up", 30.0, 30.01),
        ("prism_up", -30.0, -30.01),
        ("front", 30.0, 30.01),
        ("front", -30.0, -30.01),
        ("center", 0.01, 0.0),
        ("center", 30.0, 30.01),
        ("index", 1.2, 1.19),
        ("index", 2.5, 2.51),
        ("conic", -40.0, -40.01),
        ("conic", 40.0, 40.01),
        ("vertex", 0.0, -0.01),
        ("vertex", 30.0, 30.01),
    ],
)
def test_beyond_any_spectacle_lens_is_told_and_the_last_one_is_not(name, last, beyond):
    assert changed(**{name: last})["flag"] != "out-of-range"
    assert changed(**{name: beyond})["flag"] == "out-of-range"
    assert changed(**{name: math.nan})["flag"] == "out-of-range"


def test_an_image_that_falls_into_the_pupil_or_before_it_has_no_size():
    """+30.00 at 30 mm: 33 mm to the pupil, the focus at 33.3 mm.  With a cylinder of the same the mean is +37.50."""
    found = changed(sphere=30.0, vertex=30.0, front=12.0)
    assert found["power_factor"] == pytest.approx(100.0, rel=0.01)
    found = changed(sphere=30.0, cylinder=15.0, vertex=30.0, front=12.0)
    assert found["flag"] == "out-of-range"
    assert found["sphere"] == 0.0


@pytest.mark.parametrize(("straight", "there"), [(62.4, True), (62.5, False), (62.6, False)])
def test_the_pupil_is_the_end_of_all_magnification(straight, there):
    found = wearing.nothing_worn(ONE, "")
    assert wearing.enlarge(found, 1.01, straight, 16.0) == there
    assert (found["magnification"] > 100.0) == there
    if there:
        assert found["magnification"] == pytest.approx(1.01 * found["power_factor"])


@steady(300)
@given(st.data())
def test_wild_numbers_raise_nothing(data):
    """Every number of the eye, the lens, the frame, the package and the vertex distance may be anything at all."""
    one = data.draw(eyes())
    parts = {"frame": frame(), "package": package(), "measures": measures()}
    glass = made_lens()
    places = [
        *((one, name) for name in ("sphere", "cylinder", "axis", "prism_in", "prism_up")),
        *((glass, name) for name in ("front", "center")),
        *((parts["frame"], name) for name in ("tilt", "wrap")),
        *((parts["package"], name) for name in ("index", "conic")),
        (parts["measures"], "vertex"),
    ]
    for record, name in data.draw(st.lists(st.sampled_from(places), min_size=1, max_size=4)):
        record[name] = data.draw(WILD)
    found = wearing.as_worn(job(one, **parts), one, glass)
    assert found["flag"] in ("", "out-of-range", "no-ray", "not-converged")


@steady(300)
@given(
    st.fixed_dictionaries(
        {
            "sphere": st.floats(-30, 30),
            "cylinder": st.floats(-30, 30),
            "axis": st.floats(0, 180),
            "prism_in": st.floats(-30, 30),
            "prism_up": st.floats(-30, 30),
            "front": st.floats(-30, 30),
            "center": st.floats(0.001, 30),
            "tilt": st.floats(-45, 45),
            "wrap": st.floats(-45, 45),
            "index": st.floats(1.2, 2.5),
            "conic": st.floats(-40, 40),
            "vertex": st.floats(0, 30),
        }
    )
)
def test_whatever_is_within_range_raises_nothing(numbers):
    found = changed(**numbers)
    assert found["flag"] in ("", "out-of-range", "no-ray", "not-converged")
    assert all(math.isfinite(value) for name, value in found.items() if name not in ("flag", "converged"))
