"""How the kernel is asked about surfaces and thickness: inputs in, the same keys as expected out."""

import math

from quoting.kernel import outline, surfaces, thickness
from quoting.kernel import volume as volume_of
from quoting.kernel.center import solved_center

# So fine that the polygon's area falls short of the circle's by 2 in 10⁸
CIRCLE_POINTS = 20000


def edge_from_curvatures(inputs):
    """The curvatures as a lens: the index is free, for it only scales the powers."""
    index = 1.5
    front = inputs["c1"] / surfaces.front_curvature(1.0, index)
    back = inputs["c2"] / surfaces.back_curvature(1.0, index)
    sphere = surfaces.back_vertex_power(front, back, inputs["ct"], index)
    lens = thickness.grind(sphere, 0.0, 180.0, front, 0.0, index)
    return {"value": thickness.thickness_at(lens, inputs["ct"], inputs["y"], 0.0)}


def sagitta(inputs):
    curvature = surfaces.front_curvature(inputs["F"], inputs["n"])
    return {"radius": 1.0 / curvature, "exact": surfaces.sag(curvature, 0.0, inputs["semi_diameter"] ** 2)}


def round_rim(diameter, points=360):
    return thickness.rim_around(*outline.from_radii([diameter / 2] * points), 0.0, 0.0)


def plus_center(inputs):
    lens = thickness.grind(inputs["bvp"], 0.0, 180.0, inputs["base_true_power"], 0.0, inputs["n"])
    center = solved_center(lens, round_rim(inputs["diameter"]), 0.1, inputs["edge"])
    return {"ct": center, "F2": surfaces.back_power(inputs["bvp"], inputs["base_true_power"], center, inputs["n"])}


def minus_edge(inputs):
    lens = thickness.grind(inputs["bvp"], 0.0, 180.0, inputs["base_true_power"], 0.0, inputs["n"])
    back = surfaces.back_power(inputs["bvp"], inputs["base_true_power"], inputs["ct"], inputs["n"])
    return {"et": thickness.thickness_at(lens, inputs["ct"], inputs["diameter"] / 2, 0.0), "F2": back}


def meridional_edges(inputs):
    lens = thickness.grind(inputs["sph"], inputs["cyl"], inputs["axis"], inputs["F1"], 0.0, inputs["n"])
    half = inputs["diameter"] / 2
    return {
        "edge_at_180": thickness.thickness_at(lens, inputs["ct"], half, 0.0),
        "edge_at_90": thickness.thickness_at(lens, inputs["ct"], 0.0, half),
    }


def prism_difference(inputs):
    plano = thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, inputs["n"])
    lens = thickness.with_prism(plano, inputs["prism"], 0.0)
    half = inputs["diameter"] / 2
    return {"value": thickness.thickness_at(lens, 5.0, half, 0.0) - thickness.thickness_at(lens, 5.0, -half, 0.0)}


def prism_rule(inputs):
    """The prism whose wedge has this apex angle."""
    of_one = thickness.with_prism(thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, inputs["n"]), 1.0, 0.0)["wedge_x"]
    return {"thin": math.tan(math.radians(inputs["apex_deg"])) / of_one}


def volume(inputs):
    lens = thickness.grind(inputs["bvp"], 0.0, 180.0, inputs["F1"], 0.0, inputs["n"])
    rim = round_rim(inputs["diameter"], CIRCLE_POINTS)
    center = inputs["ct"] if "ct" in inputs else solved_center(lens, rim, 0.1, inputs["edge"])
    cubic_cm = volume_of.volume(lens, rim, center) / 1000.0
    return {"volume_cm3": cubic_cm, "mass_g": cubic_cm * inputs["density_g_cm3"]}


def vertex_powers(inputs):
    given = inputs["F1"], inputs["F2"], inputs["t_mm"], inputs["n"]
    return {
        "nominal": surfaces.back_vertex_power(inputs["F1"], inputs["F2"], 0.0, inputs["n"]),
        "front": surfaces.front_vertex_power(*given),
        "back": surfaces.back_vertex_power(*given),
    }


def nominal_power(inputs):
    index = inputs["n"]
    front = 0.0 if inputs["r1_mm"] == 0 else 1.0 / inputs["r1_mm"] / surfaces.front_curvature(1.0, index)
    back = 0.0 if inputs["r2_mm"] == 0 else 1.0 / inputs["r2_mm"] / surfaces.back_curvature(1.0, index)
    return {"value": surfaces.back_vertex_power(front, back, 0.0, index)}


def lens_clock(inputs):
    """A clock shows a curvature as the power it would have at the clock's index."""
    shown = [surfaces.front_curvature(reading, inputs["n_clock"]) for reading in inputs["reads"]]
    return {"value": sum(shown) / surfaces.front_curvature(1.0, inputs["n"])}


def clocked_index(inputs):
    """The index at which the clocked curvatures have the power, found by halving."""
    shown = surfaces.front_curvature(inputs["clock_sum"], inputs["n_clock"])
    low, high = 1.3, 2.5
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if surfaces.front_curvature(inputs["power"], middle) > shown else (low, middle)
    return {"value": low}


def tool_index(inputs):
    return {"value": surfaces.true_power(inputs["curve_153"], inputs["n"])}


def curve_variation(inputs):
    """How flat a surface may be for the same power, beside crown glass."""
    flat, crown = (surfaces.front_curvature(1.0, inputs[key]) for key in ("n", "n_crown"))
    return {"value": flat / crown}


ASK = {
    "edge-from-curvatures": edge_from_curvatures,
    "sagitta": sagitta,
    "plus-center": plus_center,
    "minus-edge": minus_edge,
    "meridional-edges": meridional_edges,
    "prism-difference": prism_difference,
    "prism-rule": prism_rule,
    "volume": volume,
    "vertex-powers": vertex_powers,
    "nominal-power": nominal_power,
    "lens-clock": lens_clock,
    "clocked-index": clocked_index,
    "tool-index": tool_index,
    "curve-variation": curve_variation,
}
