"""How the kernel is asked about the lens as worn: inputs in, the same keys as expected out."""

import math

from quoting.kernel import astigmatic, chromatic, layout, magnify, ray, surfaces, thickness, worn


def magnification(inputs):
    shaped = surfaces.shape_factor(inputs["F1"], inputs["t_mm"], inputs["n"])
    power = magnify.power_factor(inputs["bvp"], inputs["h_mm"])
    whole = magnify.magnification(inputs["F1"], inputs["t_mm"], inputs["n"], inputs["bvp"], inputs["h_mm"])
    return {"shape": shaped, "power": power, "SM": whole}


def martin(inputs):
    sphere, cylinder = worn.martin(inputs["F"], inputs["tilt"], inputs["n"])
    sum_of_both = worn.tilted(inputs["F"], 0.0, 180.0, inputs["tilt"], 180.0, inputs["n"])
    across = sum_of_both[0] if cylinder < 0 else sum_of_both[0] + sum_of_both[1]
    assert abs(across - sphere) < 1e-9, "tilted() is Martin's formula for a sphere"
    return {"sph": sphere, "cyl": cylinder, "axis": 180}


def martin_other_cylinder(inputs):
    """The variant that multiplies the original sphere by the squared tangent: read out of Martin's two numbers."""
    sphere, cylinder = worn.martin(inputs["F"], inputs["tilt"], inputs["n"])
    return {"sph": sphere, "cyl": cylinder * inputs["F"] / sphere}


def martin_meridians(inputs):
    sphere, cylinder = worn.martin(inputs["F"], inputs["tilt_deg"], inputs["n"])
    return {"S": sphere, "T": sphere + cylinder}


def through_the_front_pole(front, back, center, index, tilt):
    """The traced lens and the chief ray that meets its front pole, so many degrees from its axis, in the y plane."""
    sphere = surfaces.back_vertex_power(front, back, center, index)
    lens = thickness.grind(sphere, 0.0, 180.0, front, 0.0, index)
    direction = [0.0, -math.sin(math.radians(tilt)), math.cos(math.radians(tilt))]
    path = ray.path_from_object(lens, center, [0.0, 0.0, 0.0], direction)
    return lens, path, astigmatic.crosswise(path["after"])


def traced_meridians(inputs):
    given = inputs["F1"], inputs["F2"], inputs["t_mm"], inputs["n"], inputs["tilt_deg"]
    lens, path, sides = through_the_front_pole(*given)
    power = astigmatic.power_along(lens, inputs["t_mm"], path, sides)
    assert abs(power[1]) < 1e-9, "the plane of the tilt is a principal one"
    return {"S": power[0], "T": power[2]}


def wrap_prism(inputs):
    center, index, tilt = inputs["t_mm"], inputs["n"], inputs["tilt"]
    back = -inputs["F1"] * surfaces.shape_factor(inputs["F1"], center, index)
    _, path, sides = through_the_front_pole(inputs["F1"], back, center, index, tilt)
    prism = astigmatic.deviation(path, sides)
    return {"exact": -prism[1], "thin": worn.tilt_prism(inputs["F1"], center, index, tilt)}


def compound_tilt(inputs):
    return {"angle": worn.compound_tilt(inputs["panto"], inputs["wrap"])[0]}


def drop(inputs):
    return {"drop": worn.center_drop(inputs["tilt"])}


def ordered_height(inputs):
    return {"height": layout.reference_height("single-vision", inputs["height"], worn.center_drop(inputs["tilt"]))}


def axial_color(inputs):
    return {"value": chromatic.axial_color(inputs["F"], inputs["V"])}


def prism_color(inputs):
    return {"value": chromatic.prism_color(inputs["prism"], inputs["V"])}


def clear_radius(inputs):
    assert inputs["threshold"] == chromatic.NOTICED
    radius = chromatic.clear_radius(inputs["F"], inputs["V"])
    there = chromatic.transverse_color(inputs["F"], 0.0, 180.0, 0.0, radius, inputs["V"])
    assert abs(abs(there[1]) - chromatic.NOTICED) < 1e-9, "there the spread is what wearers notice"
    return {"value": radius}


ASK = {
    "magnification": magnification,
    "martin": martin,
    "martin-other-cylinder": martin_other_cylinder,
    "martin-meridians": martin_meridians,
    "traced-meridians": traced_meridians,
    "wrap-prism": wrap_prism,
    "compound-tilt": compound_tilt,
    "drop": drop,
    "ordered-height": ordered_height,
    "axial-color": axial_color,
    "prism-color": prism_color,
    "clear-radius": clear_radius,
}
