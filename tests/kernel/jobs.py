"""Jobs for the kernel: one that fits without a remark, changed at the place a test is about; and random ones."""

from functools import lru_cache

from hypothesis import settings
from hypothesis import strategies as st

from quoting.kernel import outline

FAMILIES = ("round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid")


def steady(examples=60):
    """The same examples on every machine, however slow it is."""
    return settings(max_examples=examples, deadline=None, derandomize=True, database=None)


@lru_cache(maxsize=4096)
def points(a, b, ed, family):
    return tuple(map(tuple, outline.from_box(a, b, ed, family)))


def frame(a=50.0, b=40.0, dbl=18.0, ed=54.0, family="panto", **changes):
    xs, ys = points(a, b, ed, family)
    return {
        "a": a,
        "b": b,
        "dbl": dbl,
        "ed": ed,
        "xs": list(xs),
        "ys": list(ys),
        "traced": False,
        "mounting": "full-rim-plastic",
        "min_edge": 1.0,
        "edge_caution": 8.0,
        "edge_no": 12.0,
        "curve": 5.0,
        "wrap": 5.0,
        "tilt": 8.0,
        "weight": 20.0,
    } | changes


def part(low=-10.0, high=8.0, cylinder=4.0, add_from=0.0, add_to=0.0, diameter=75.0):
    return {
        "low": low,
        "high": high,
        "cylinder": cylinder,
        "add_from": add_from,
        "add_to": add_to,
        "diameter": diameter,
        "near": False,
        "near_from": 0.0,
        "near_to": 0.0,
    }


def package(**changes):
    return {
        "kind": "single-vision",
        "index": 1.6,
        "density": 1.3,
        "drillable": True,
        "impact_resistant": True,
        "finished": False,
        "min_height": 0.0,
        "min_above": 0.0,
        "boost": 0.0,
        "conic": 0.0,
        "base_from": 0.5,
        "base_to": 9.0,
        "position_of_wear": False,
        "wrap": False,
        "ranges": [part()],
        "curves": [],
        "centers": [],
        "min_center": 1.5,
        "prism": 4.0,
        "prices": [{"low": -10.0, "high": 8.0, "cents": 9000}],
        "light": "clear",
        "tint_depth": 85.0,
        "tint_over": False,
        "mirror": False,
        "back_ar": False,
        "blue_filter": False,
        "double_use": False,
        "transmittance": 0.0,
        "darkened": 0.0,
    } | changes


def progressive(**changes):
    return package(**{"kind": "progressive", "ranges": [part(add_from=0.75, add_to=3.5)], **changes})


def eye(sphere=-2.0, cylinder=0.0, axis=180.0, add=0.0, prism_in=0.0, prism_up=0.0):
    return {
        "sphere": sphere,
        "cylinder": cylinder,
        "axis": axis,
        "add": add,
        "prism_in": prism_in,
        "prism_up": prism_up,
    }


def limits(**changes):
    return {
        "edging_allowance": 2.0,
        "curve_difference": 2.0,
        "wrap_angle": 15.0,
        "wrap_curve": 7.5,
        "pow_tilt": 12.0,
        "pow_wrap": 8.0,
        "curve_factor": 2.0,
        "boost_add": 1.25,
        "reading_drop": 10.0,
        "reading_imbalance": 1.5,
        "image_difference": 3.0,
        "gradient_height": 28.0,
        "driving_least": 8.0,
        "night_least": 75.0,
    } | changes


def measures(**changes):
    return {
        "pd_right": 32.0,
        "pd_left": 32.0,
        "height_right": 24.0,
        "height_left": 24.0,
        "child": False,
        "vertex": 13.0,
    } | changes


def options(**changes):
    return {
        "tint_depth": 0.0,
        "tint_gradient": False,
        "mirror": False,
        "blue_filter": False,
        "slab_off": False,
        "rush": False,
        "sport": False,
        "one_eyed": False,
        "driving": False,
        "night_driving": False,
    } | changes


def region(**changes):
    return {
        "shipping_cents": 0,
        "free_from_cents": 0,
        "tax_frame": 0,
        "tax_lenses": 0,
        "tax_shipping": 0,
    } | changes


def surcharge(when="prism", cents=500, over=0.0, mounting="", per_lens=True, name="extra"):
    return {"id": name, "when": when, "over": over, "mounting": mounting, "per_lens": per_lens, "cents": cents}


def discount(on="goods", basis_points=0, cents=0, combinable=True, name="less"):
    return {"id": name, "on": on, "basis_points": basis_points, "cents": cents, "combinable": combinable}


def money(**changes):
    return {
        "frame_cents": 12000,
        "surcharges": [],
        "discounts": [],
        "region": region(),
        "tax_included": False,
    } | changes


def job(both=None, **changes):
    """The job that fits; ``both`` is the prescription of both eyes."""
    same = both or eye()
    return {
        "frame": frame(),
        "package": package(),
        "limits": limits(),
        "right": dict(same),
        "left": dict(same),
        "has_right": True,
        "has_left": True,
        "measures": measures(),
        "money": money(),
        "options": options(),
    } | changes


def hundredths(low, high):
    """Decimal numbers with two places, as people write them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda whole: whole / 100)


def quarters(low, high):
    return st.integers(round(low * 4), round(high * 4)).map(lambda whole: whole / 4)


@st.composite
def frames(draw, least=30, most=70):
    """A frame of any family whose effective diameter is possible in its box."""
    a, b = float(draw(st.integers(least, most))), float(draw(st.integers(20, 55)))
    family = draw(st.sampled_from(FAMILIES))
    low, high = outline.effective_diameter_limits(a, b, family)
    ed = low + (high - low) * draw(st.integers(0, 8)) / 8
    return frame(
        a,
        b,
        float(draw(st.integers(10, 26))),
        ed,
        family,
        traced=draw(st.booleans()),
        mounting=draw(st.sampled_from(("full-rim-plastic", "drilled"))),
        min_edge=draw(hundredths(0.5, 2.5)),
        edge_caution=draw(hundredths(3, 8)),
        edge_no=draw(hundredths(4, 14)),
        curve=draw(quarters(0, 10)),
        wrap=draw(hundredths(0, 25)),
        tilt=draw(hundredths(-2, 20)),
    )


@st.composite
def parts(draw):
    low, high = draw(quarters(-14, 0)), draw(quarters(0, 10))
    add_from, add_to = draw(quarters(0.5, 2)), draw(quarters(2, 4))
    made = part(low, high, draw(quarters(0, 6)), add_from, add_to, float(draw(st.integers(45, 85))))
    return made | {"near": draw(st.booleans()), "near_from": draw(quarters(-14, 0)), "near_to": draw(quarters(0, 10))}


@st.composite
def packages(draw):
    """A package with one to three ranges; finished ones have a chart of centers with holes in it."""
    finished = draw(st.booleans())
    low, high = sorted((draw(quarters(0, 10)), draw(quarters(0, 10))))
    return package(
        kind=draw(st.sampled_from(("single-vision", "anti-fatigue", "progressive", "bifocal"))),
        index=draw(hundredths(1.48, 1.9)),
        density=draw(hundredths(1, 2.6)),
        drillable=draw(st.booleans()),
        impact_resistant=draw(st.booleans()),
        finished=finished,
        min_height=float(draw(st.integers(0, 22))),
        min_above=float(draw(st.integers(0, 14))),
        boost=draw(quarters(0, 1)),
        conic=draw(st.sampled_from((-2.0, -1.0, -0.5, 0.0, 0.5, 1.0))),
        base_from=low,
        base_to=high,
        position_of_wear=draw(st.booleans()),
        wrap=draw(st.booleans()),
        ranges=draw(st.lists(parts(), min_size=1, max_size=3)),
        curves=draw(st.sampled_from(([], [{"low": -4.0, "high": 4.0, "value": 5.5}]))),
        centers=[
            {"low": -12.0, "high": -2.25, "value": draw(hundredths(0.8, 2.2))},
            {"low": -1.75, "high": 6.0, "value": draw(hundredths(0.8, 7))},
        ]
        if finished
        else [],
        min_center=draw(hundredths(0.8, 2.5)),
        prism=float(draw(st.integers(0, 8))),
        prices=[{"low": -8.0, "high": 6.0, "cents": draw(st.integers(0, 90000))}],
        light=draw(st.sampled_from(("clear", "photochromic", "polarized"))),
        tint_depth=float(draw(st.integers(0, 90))),
        transmittance=draw(st.sampled_from((0.0, 7.5, 15.0, 80.0, 92.0))),
        darkened=draw(st.sampled_from((0.0, 7.5, 15.0))),
        **{name: draw(st.booleans()) for name in ("tint_over", "mirror", "back_ar", "blue_filter", "double_use")},
    )


@st.composite
def eyes(draw, sphere=16, cylinder=6):
    return eye(
        draw(hundredths(-sphere, sphere)),
        draw(hundredths(-cylinder, cylinder)),
        float(draw(st.integers(1, 180))),
        draw(st.sampled_from((0.0, 0.5, 0.75, 1.0, 1.25, 2.0, 2.5, 3.5, 4.5))),
        draw(st.sampled_from((0.0, 0.0, 0.5, -1.0, 3.0, -6.0))),
        draw(st.sampled_from((0.0, 0.0, 0.5, -1.0, 3.0, -6.0))),
    )


@st.composite
def moneys(draw):
    cents = st.integers(0, 80000)
    points_of = st.integers(0, 10000)
    kinds = st.sampled_from(("prism", "cylinder", "blank", "wrap", "mounting", "power", "tint", "mirror", "rush"))
    extra = st.builds(
        surcharge,
        kinds,
        cents,
        st.sampled_from((0.0, 2.0, 8.0, 65.0)),
        st.just("drilled"),
        st.booleans(),
    )
    less = st.builds(
        lambda on, share, fixed, both, by_share: discount(on, share if by_share else 0, 0 if by_share else fixed, both),
        st.sampled_from(("frame", "lenses", "goods")),
        points_of,
        cents,
        st.booleans(),
        st.booleans(),
    )
    rate = st.integers(0, 3000)
    return money(
        frame_cents=draw(cents),
        surcharges=draw(st.lists(extra, max_size=3)),
        discounts=draw(st.lists(less, max_size=3)),
        region=region(
            shipping_cents=draw(st.integers(0, 3000)),
            free_from_cents=draw(st.sampled_from((0, 10000, 50000))),
            tax_frame=draw(rate),
            tax_lenses=draw(rate),
            tax_shipping=draw(rate),
        ),
        tax_included=draw(st.booleans()),
    )


@st.composite
def wishes(draw):
    return options(
        tint_depth=draw(st.sampled_from((0.0, 0.0, 15.0, 50.0, 85.0, 90.0))),
        **{name: draw(st.booleans()) for name in options() if name != "tint_depth"},
    )


@st.composite
def random_jobs(draw):
    glasses = draw(frames())
    return job(
        frame=glasses,
        package=draw(packages()),
        limits=limits(
            edging_allowance=draw(hundredths(0, 3)),
            curve_difference=draw(hundredths(0.5, 4)),
            wrap_angle=draw(hundredths(8, 20)),
            wrap_curve=draw(hundredths(6, 9)),
        ),
        right=draw(eyes()),
        left=draw(eyes()),
        has_right=draw(st.booleans()),
        has_left=draw(st.booleans()),
        measures=measures(
            pd_right=draw(hundredths(20, 40)),
            pd_left=draw(hundredths(20, 40)),
            height_right=draw(hundredths(5, glasses["b"])),
            height_left=draw(hundredths(5, glasses["b"])),
            child=draw(st.booleans()),
            vertex=draw(hundredths(8, 18)),
        ),
        money=draw(moneys()),
        options=draw(st.sampled_from((options(), None))) or draw(wishes()),
    )
