"""One lens: the same whoever writes its prescription, mirrored for the other eye, ground as the rules ask."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.kernel import lens, outline, power, quote, surfaces
from tests.kernel.jobs import eye, frame, hundredths, job, measures, package, part, quarters, random_jobs, steady

FORMS = st.tuples(hundredths(-9, 6), hundredths(-4, 4), st.integers(1, 180).map(float))


def written_otherwise(one):
    sphere, cylinder, axis = power.transposed(one["sphere"], one["cylinder"], one["axis"])
    return one | {"sphere": sphere, "cylinder": cylinder, "axis": axis}


def mirrored(one):
    """The prescription of the other eye of a face seen in a mirror: base in stays in, the axis leans the other way."""
    return one | {"axis": power.axis_within(180.0 - one["axis"])}


def swapped(one):
    given = one["measures"]
    return one | {
        "right": mirrored(one["left"]),
        "left": mirrored(one["right"]),
        "has_right": one["has_left"],
        "has_left": one["has_right"],
        "measures": given
        | {
            "pd_right": given["pd_left"],
            "pd_left": given["pd_right"],
            "height_right": given["height_left"],
            "height_left": given["height_right"],
        },
    }


@steady(120)
@given(random_jobs())
def test_the_two_notations_of_a_prescription_are_one_quote_to_the_bit(one):
    other = one | {"right": written_otherwise(one["right"]), "left": written_otherwise(one["left"])}
    assert quote.answer(other) == quote.answer(one)


@steady(120)
@given(FORMS)
def test_the_two_notations_are_one_quote_also_as_customers_write_them(form):
    """Transposed in decimals, by a person: -8.00 -0.12 x 90 and -8.12 +0.12 x 180."""
    sphere, cylinder, axis = form
    plus = eye(round(sphere + cylinder, 2), -cylinder, power.axis_within(axis + 90.0))
    if cylinder == 0.0:
        plus = eye(sphere)
    assert quote.answer(job(plus)) == quote.answer(job(eye(sphere, cylinder, axis)))


@steady(120)
@given(random_jobs())
def test_swapping_the_eyes_of_a_mirrored_prescription_swaps_the_lenses_to_the_bit(one):
    there, back = quote.fit(one), quote.fit(swapped(one))
    assert (back["right"], back["left"]) == (there["left"], there["right"])
    assert back["verdict"] == there["verdict"]
    turned = {"R": "L", "L": "R", "B": "B"}

    def told(fit):
        return sorted(
            (reason["code"], reason["verdict"], reason["eye"], reason["needed"], reason["given"])
            for reason in fit["reasons"]
        )

    assert told(back) == told(there | {"reasons": [one | {"eye": turned[one["eye"]]} for one in there["reasons"]]})


def test_a_symmetric_prescription_gets_two_equal_lenses():
    one = job() | {"right": eye(-3.0, -1.0, 20.0), "left": eye(-3.0, -1.0, 160.0)}
    assert quote.fit(one)["right"] == quote.fit(one)["left"]


@pytest.mark.parametrize("changed", [{"pd_left": 30.0}, {"height_left": 22.0}])
def test_a_pd_or_height_of_its_own_is_enough_for_a_lens_of_its_own(changed):
    """The left lens is never taken over from a right eye that sits elsewhere; it is that of a left eye alone."""
    one = job(eye(-3.0, -1.0, 90.0), measures=measures(**changed))
    there, alone = quote.fit(one), quote.fit(one | {"has_right": False})
    assert there["left"] == alone["left"] != there["right"]


def test_the_axis_matters():
    one = job() | {"right": eye(-3.0, -2.0, 20.0), "left": eye(-3.0, -2.0, 20.0)}
    assert quote.fit(one)["right"]["edge_max"] != quote.fit(one)["left"]["edge_max"]


@steady(80)
@given(FORMS, hundredths(26, 36), hundredths(18, 30), hundredths(0.8, 2.4))
def test_ground_lens_keeps_its_least_center_and_its_least_edge(form, pd, height, least_edge):
    one = job(
        eye(*form),
        frame=frame(min_edge=least_edge),
        measures=measures(pd_right=pd, pd_left=pd, height_right=height, height_left=height),
    )
    found = quote.fit(one)["right"]
    if found["fault"]:
        return
    assert found["center"] >= 1.5
    assert found["edge_min"] >= least_edge - 1e-8
    assert found["edge_max"] >= found["edge_min"]
    assert found["center"] == 1.5 or found["edge_min"] == pytest.approx(least_edge, abs=1e-8)


@steady(80)
@given(FORMS)
def test_front_and_back_of_the_answer_give_the_prescription(form):
    """From the answer's own front and center: the back powers that a lab would grind give both principal powers."""
    one = job(eye(*form))
    found = quote.fit(one)["right"]
    if found["fault"]:
        return
    sphere, cylinder, _axis = power.minus_form(*form)
    for wanted in (sphere, sphere + cylinder):
        back = surfaces.back_power(wanted, found["front"], found["center"], 1.6)
        met = surfaces.back_vertex_power(found["front"], back, found["center"], 1.6)
        assert met == pytest.approx(wanted, abs=1e-9)


@steady(60)
@given(quarters(-9.75, -0.5))
def test_edges_and_weights_grow_with_minus_power(sphere):
    weaker, stronger = quote.fit(job(eye(sphere)))["right"], quote.fit(job(eye(sphere - 0.25)))["right"]
    assert stronger["edge_max"] > weaker["edge_max"]
    assert stronger["weight"] > weaker["weight"]


@steady(60)
@given(quarters(1, 7.5))
def test_centers_grow_with_plus_power(sphere):
    weaker, stronger = quote.fit(job(eye(sphere)))["right"], quote.fit(job(eye(sphere + 0.25)))["right"]
    assert stronger["center"] > weaker["center"]


@steady(40)
@given(quarters(-9.75, -1), hundredths(1.5, 1.7))
def test_edges_fall_with_the_index(sphere, index):
    lower, higher = (quote.fit(job(eye(sphere), package=package(index=n)))["right"] for n in (index, index + 0.07))
    assert lower["center"] == higher["center"] == 1.5
    assert higher["edge_max"] < lower["edge_max"]


@steady(40)
@given(quarters(-9, 6), hundredths(1, 2.6))
def test_weight_is_in_proportion_to_density(sphere, density):
    one = quote.fit(job(eye(sphere)))["right"]
    other = quote.fit(job(eye(sphere), package=package(density=density)))["right"]
    assert other["weight"] == pytest.approx(one["weight"] * density / 1.3)


def test_weight_is_in_grams_of_the_plain_slab():
    """A plano lens on a plano front is a slab: area · center · density; 1 cm³ of density 1.3 weighs 1.3 g."""
    flat = package(base_from=0.0, base_to=0.0, density=1.3, min_center=2.0)
    one = frame(curve=0.0)
    made = quote.fit(job(eye(0.0), frame=one, package=flat))["right"]
    cubic_cm = outline.area(one["xs"], one["ys"]) / 100.0 * made["center"] / 10.0
    assert (made["center"], made["edge_max"]) == (2.0, pytest.approx(2.0, abs=1e-9))
    assert made["weight"] == pytest.approx(cubic_cm * 1.3, rel=1e-9)


def test_an_eye_without_a_lens_has_nothing_but_noughts():
    made = quote.fit(job(has_left=False))["left"]
    assert set(made.values()) == {0.0, ""}
    assert {name for name, value in made.items() if value == ""} == {"fault", "edge_max_at", "edge_min_at"}


def test_a_minus_lens_is_thickest_where_its_center_is_farthest_away():
    """Decentered inward and up, so the far edge is temporal and below."""
    one = quote.fit(job(eye(-6.0), measures=measures(pd_right=29.0, height_right=28.0)))["right"]
    assert one["decentration_in"] == 5.0
    assert one["decentration_up"] == 4.0  # 28 - 40/2, less 4 mm for 8° of tilt
    assert one["edge_max_at"] in ("temporal", "lower temporal")


def test_prism_thickens_the_side_of_its_base():
    plain = quote.fit(job(eye(0.0)))["right"]
    base_in = quote.fit(job(eye(0.0, prism_in=3.0)))["right"]
    base_up = quote.fit(job(eye(0.0, prism_up=3.0)))["right"]
    assert base_in["edge_max_at"] == "nasal"
    assert base_up["edge_max_at"] == "top"
    assert min(base_in["edge_max"], base_up["edge_max"]) > plain["edge_max"]


CHART = [{"low": -6.0, "high": 0.0, "value": 1.3}, {"low": 0.25, "high": 4.0, "value": 3.9}]


@pytest.mark.parametrize(
    ("sphere", "cylinder", "center"),
    [
        (-6.0, 0.0, 1.3),
        (0.0, 0.0, 1.3),
        (0.1, 0.0, 3.9),
        (0.25, 0.0, 3.9),
        (4.0, 0.0, 3.9),
        (3.0, -4.0, 3.9),
        (1.0, -3.0, 1.3),
    ],
)
def test_a_finished_lens_has_the_center_of_its_chart(sphere, cylinder, center):
    """By its strongest principal power, on the next quarter; a small frame does not make it thinner."""
    drawer = package(finished=True, centers=CHART)
    for one in (frame(), frame(42.0, 30.0, 18.0, 43.5, "oval", curve=5.0)):
        assert quote.fit(job(eye(sphere, cylinder), frame=one, package=drawer))["right"]["center"] == center


def test_a_finished_power_that_the_chart_forgot_is_not_guessed():
    drawer = package(finished=True, centers=CHART)
    one = quote.fit(job(eye(4.25), package=drawer))["right"]
    assert (one["fault"], one["center"], one["weight"]) == ("cannot-be-ground", 0.0, 0.0)


def test_a_finished_lens_whose_surface_ends_inside_the_outline_is_not_ground():
    steep = package(index=1.5, finished=True, centers=CHART, base_from=25.0, base_to=25.0)
    assert quote.fit(job(eye(-2.0), package=steep))["right"]["fault"] == lens.NOT_GROUND
    thick = [{"low": 0.0, "high": 8.0, "value": 4.0}]
    bulging = package(index=1.5, finished=True, centers=thick, base_from=19.0, base_to=19.0)
    made = quote.fit(job(eye(8.0), package=bulging))["right"]
    assert made["fault"] == lens.NOT_GROUND
    back = surfaces.back_power(8.0, made["front"], 4.0, 1.5)
    assert 500.0 / made["front"] < made["reach"] < 500.0 / abs(back), "here it is the front that ends, not the back"
    hollow = package(index=1.5, finished=True, centers=[{"low": -20.0, "high": 0.0, "value": 1.3}])
    hollow["ranges"] = [part(-20.0, 0.0, diameter=80.0)]
    assert quote.fit(job(eye(-20.0), package=hollow))["right"]["fault"] == lens.NOT_GROUND


def test_a_power_that_is_not_made_is_laid_out_but_not_ground():
    one = quote.fit(job(eye(-11.0)))["right"]
    assert one["fault"] == lens.NOT_MADE
    assert (one["center"], one["edge_max"], one["weight"]) == (0.0, 0.0, 0.0)
    assert one["blank_exact"] > 54.0
    assert one["strongest"] == -11.0
