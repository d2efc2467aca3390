"""How the kernel is asked about surfaces and thickness: inputs in, the same keys as expected out."""

from quoting.kernel import curves, estimates, outline, surfaces, thickness
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
    return {
        "radius": curves.radius(inputs["F"], inputs["n"]),
        "exact": surfaces.sag(curvature, 0.0, inputs["semi_diameter"] ** 2),
    }


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
    """By the rule itself, and by a lens that has the prism."""
    plano = thickness.grind(0.0, 0.0, 180.0, 0.0, 0.0, inputs["n"])
    lens = thickness.with_prism(plano, inputs["prism"], 0.0)
    half = inputs["diameter"] / 2
    ground = thickness.thickness_at(lens, 5.0, half, 0.0) - thickness.thickness_at(lens, 5.0, -half, 0.0)
    rule = estimates.prism_thickness(inputs["prism"], inputs["diameter"], inputs["n"])
    assert abs(ground - rule) < 1e-12
    return {"value": rule}


def prism_by_apex(inputs):
    given = inputs["apex_deg"], inputs["n"]
    return {"thin": estimates.prism_by_apex(*given), "exact": estimates.prism_exact(*given)}


def approximate_thickness(inputs):
    given = inputs["minimum"], inputs["F"], inputs["diameter"], inputs["n"]
    return {"value": estimates.approximate_thickness(*given)}


def shape_factor(inputs):
    return {"value": estimates.bending(inputs["c1"], inputs["c2"])}


def volume(inputs):
    lens = thickness.grind(inputs["bvp"], 0.0, 180.0, inputs["F1"], 0.0, inputs["n"])
    rim = round_rim(inputs["diameter"], CIRCLE_POINTS)
    center = inputs["ct"] if "ct" in inputs else solved_center(lens, rim, 0.1, inputs["edge"])
    cubic_cm = volume_of.volume(lens, rim, volume_of.sides_of(rim), center) / 1000.0
    return {"volume_cm3": cubic_cm, "mass_g": cubic_cm * inputs["density_g_cm3"]}


def vertex_powers(inputs):
    given = inputs["F1"], inputs["F2"], inputs["t_mm"], inputs["n"]
    return {
        "nominal": surfaces.back_vertex_power(inputs["F1"], inputs["F2"], 0.0, inputs["n"]),
        "front": surfaces.front_vertex_power(*given),
        "back": surfaces.back_vertex_power(*given),
    }


def nominal_power(inputs):
    """Front and back from their radii, 0 for a flat one; a back curves the other way."""
    radii = inputs["r1_mm"], -inputs["r2_mm"]
    front, back = (curves.power_of_radius(radius, inputs["n"]) if radius else 0.0 for radius in radii)
    return {"value": surfaces.equivalent_power(front, back, 0.0, inputs["n"])}


def lens_clock(inputs):
    return {"value": sum(curves.power_at_index(one, inputs["n_clock"], inputs["n"]) for one in inputs["reads"])}


def clocked_index(inputs):
    return {"value": curves.index_by_clock(inputs["clock_sum"], inputs["n_clock"], inputs["power"])}


def tool_index(inputs):
    true = surfaces.true_power(inputs["curve_153"], inputs["n"])
    assert abs(curves.nominal_curve(true, inputs["n"]) - inputs["curve_153"]) < 1e-12
    return {"value": true}


def curve_variation(inputs):
    return {"value": estimates.curve_variation_factor(inputs["n"], inputs["n_crown"])}


ASK = {
    "edge-from-curvatures": edge_from_curvatures,
    "sagitta": sagitta,
    "plus-center": plus_center,
    "minus-edge": minus_edge,
    "meridional-edges": meridional_edges,
    "prism-difference": prism_difference,
    "prism-by-apex": prism_by_apex,
    "approximate-thickness": approximate_thickness,
    "shape-factor": shape_factor,
    "volume": volume,
    "vertex-powers": vertex_powers,
    "nominal-power": nominal_power,
    "lens-clock": lens_clock,
    "clocked-index": clocked_index,
    "tool-index": tool_index,
    "curve-variation": curve_variation,
}
