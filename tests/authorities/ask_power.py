"""How the kernel is asked about powers, vertex distance and prism: inputs in, the same keys as expected out."""

from quoting.kernel import elementary, power


def sphero_cylinder(inputs):
    return inputs["sph"], inputs["cyl"], inputs["axis"]


def named(form):
    return {"sph": form[0], "cyl": form[1], "axis": form[2]}


def transposition(inputs):
    return named(power.transposed(*sphero_cylinder(inputs)))


def toric_transposition(inputs, expected):
    """The published surfaces, put together again, are the prescription; given back in the terms of the answer."""
    surfaces = [
        [expected["other_surface_sphere"], 0.0, 180.0],
        [0.0, expected["base_cyl"], expected["base_axis"]],
        [0.0, expected["cross_cyl"], expected["cross_axis"]],
    ]
    whole = power.crossed(power.crossed(surfaces[0], surfaces[1]), surfaces[2])
    return named(power.minus_form(*whole)), named(power.minus_form(*sphero_cylinder(inputs)))


def crossed_form(inputs, expected):
    whole = power.crossed([0.0, expected["cyl_a"], expected["axis_a"]], [0.0, expected["cyl_b"], expected["axis_b"]])
    return named(whole), named(power.minus_form(*sphero_cylinder(inputs)))


def spherical_equivalent(inputs):
    return {"value": power.spherical_equivalent(inputs["sph"], inputs["cyl"])}


def in_meridian(inputs):
    return {"value": power.in_meridian(*sphero_cylinder(inputs), inputs["meridian"])}


def share_of_cylinder(inputs):
    return {"value": [100.0 * power.in_meridian(0.0, 1.0, 0.0, offset) for offset in inputs["offsets_deg"]]}


def vector(inputs):
    m, j0, j45 = power.vector(*sphero_cylinder(inputs))
    return {"M": m, "J0": j0, "J45": j45, "B": (m * m + j0 * j0 + j45 * j45) ** 0.5}


def crossed(inputs):
    return named(power.crossed(inputs["a"], inputs["b"]))


def axis_error(inputs):
    """The axis error, to whole degrees, at which the cylinder left over comes nearest to the stated one."""
    cylinder = inputs["cyl"]

    def left_over(error):
        both = power.crossed([0.0, cylinder, 90.0 + error], [0.0, -cylinder, 90.0])
        return abs(both[1])

    return {"value": min(range(1, 46), key=lambda error: abs(left_over(float(error)) - inputs["residual"]))}


def vertex(inputs):
    return {"value": power.at_vertex(inputs["F"], inputs["from_mm"] - inputs["to_mm"])}


def vertex_both(inputs):
    return named(power.at_vertex_both(*sphero_cylinder(inputs), inputs["from_mm"] - inputs["to_mm"]))


def nasal_axis(inputs):
    """The axis in the nasal frame: the left eye's is mirrored."""
    return 180.0 - inputs["axis"] if inputs["eye"] == "L" else inputs["axis"]


def prentice(inputs):
    found = power.prentice(inputs["sph"], inputs["cyl"], nasal_axis(inputs), inputs["oc_in_mm"], inputs["oc_up_mm"])
    return {"base_in": found[0], "base_up": found[1]}


def decentration_for_prism(inputs):
    """Prism grows evenly with decentration, so that of one millimeter tells how many are needed."""
    out_of_one = -power.prentice(inputs["F"], 0.0, 180.0, -1.0, 0.0)[0]
    return {"out_mm": inputs["prism_out"] / out_of_one}


def observed(eye, base):
    """A base direction as seen facing the wearer, from one in the nasal frame, and back: the left eye is mirrored."""
    return (180.0 - base) % 360.0 if eye == "L" else base


def resultant(inputs):
    amount, base = power.resultant(inputs["base_in"], inputs["base_up"])
    return {"prism": amount, "base360": observed(inputs["eye"], base)}


def components(inputs):
    base_in, base_up = power.components(inputs["prism"], observed(inputs["eye"], inputs["base360"]))
    return {"base_in": base_in, "base_up": base_up}


def prism_sum(inputs):
    one, other = power.components(*inputs["a"]), power.components(*inputs["b"])
    amount, base = power.resultant(one[0] + other[0], one[1] + other[1])
    return {"prism": amount, "base360": base}


def base_direction(_inputs):
    return {
        "R_in": observed("R", power.resultant(1.0, 0.0)[1]),
        "L_in": observed("L", power.resultant(1.0, 0.0)[1]),
        "R_out": observed("R", power.resultant(-1.0, 0.0)[1]),
        "L_out": observed("L", power.resultant(-1.0, 0.0)[1]),
        "up": power.resultant(0.0, 1.0)[1],
        "down": power.resultant(0.0, -1.0)[1],
    }


def deviation(inputs):
    return {"value": elementary.angle_deg(100.0, inputs["prism"])}


ASK = {
    "transposition": transposition,
    "spherical-equivalent": spherical_equivalent,
    "in-meridian": in_meridian,
    "share-of-cylinder": share_of_cylinder,
    "vector": vector,
    "crossed": crossed,
    "axis-error": axis_error,
    "vertex": vertex,
    "vertex-both": vertex_both,
    "prentice": prentice,
    "decentration-for-prism": decentration_for_prism,
    "resultant": resultant,
    "components": components,
    "sum": prism_sum,
    "base-direction": base_direction,
    "deviation": deviation,
    "sine": lambda inputs: {"value": elementary.sin_deg(inputs["degrees"])},
    "cosine": lambda inputs: {"value": elementary.cos_deg(inputs["degrees"])},
    "exponential": lambda inputs: {"value": elementary.exp(inputs["x"])},
    "logarithm": lambda inputs: {"value": elementary.ln(inputs["x"])},
    "direction": lambda inputs: {"value": elementary.angle_deg(inputs["x"], inputs["y"])},
}

# Those whose published answer is a way of making the lens: put together again it must be the prescription
REMAKE = {"toric-transposition": toric_transposition, "crossed-form": crossed_form}
