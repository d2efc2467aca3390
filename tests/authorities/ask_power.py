"""How the kernel is asked about powers, vertex distance and prism: inputs in, the same keys as expected out.

And what the checks of a prescription say to measures that a survey or a standard tells about.
"""

from quoting.findings import Mark
from quoting.kernel import elementary, forms, power, prism
from quoting.prescription.checks import plausible
from quoting.prescription.figures import axis as written_axis
from quoting.prescription.model import Distances, EyeRx, Prescription


def sphero_cylinder(inputs):
    return inputs["sph"], inputs["cyl"], inputs["axis"]


def named(form):
    return {"sph": form[0], "cyl": form[1], "axis": form[2]}


def transposition(inputs):
    return named(power.transposed(*sphero_cylinder(inputs)))


def toric_transposition(inputs, expected):
    """The published surfaces put together are the prescription, and the kernel's surfaces are the published ones.

    The kernel finds them from the base curve, and from the sphere curve of the other side as well.
    """
    lens = sphero_cylinder(inputs)
    keys = ("other_surface_sphere", "base_cyl", "base_axis", "cross_cyl", "cross_axis")
    curve, base, _, cross, cross_axis = (expected[key] for key in keys)
    prescribed = named(power.minus_form(*lens))
    wanted = prescribed | expected | {f"{key}_behind": expected[key] for key in keys}
    remade = named(forms.from_toric(curve, base, cross, cross_axis))
    made = dict(zip(keys, forms.toric(*lens, inputs["base"]), strict=True))
    behind = dict(zip((f"{key}_behind" for key in keys), forms.toric_behind(*lens, curve), strict=True))
    return remade | made | behind, wanted


def crossed_form(inputs, expected):
    """The published cylinders put together are the prescription, and the kernel's cylinders are the published ones."""
    lens = sphero_cylinder(inputs)
    keys = ("cyl_a", "axis_a", "cyl_b", "axis_b")
    remade = named(forms.from_crossed_form(*(expected[key] for key in keys)))
    made = dict(zip(keys, forms.crossed_form(*lens), strict=True))
    return remade | made, named(power.minus_form(*lens)) | expected


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
    return {"value": forms.axis_error_leaving(inputs["cyl"], inputs["residual"])}


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
    found = prism.decentration_for(inputs["F"], 0.0, 180.0, *prism.toward(inputs["prism_out"], "out"))
    return {"out_mm": -found[0]}


def resultant(inputs):
    amount, base = prism.base_360(inputs["eye"], inputs["base_in"], inputs["base_up"])
    return {"prism": amount, "base360": base}


def components(inputs):
    base_in, base_up = prism.from_base_360(inputs["eye"], inputs["prism"], inputs["base360"])
    return {"base_in": base_in, "base_up": base_up}


def prism_sum(inputs):
    parts = [prism.from_base_360("R", *inputs[one]) for one in ("a", "b")]
    amount, base = prism.base_360("R", *prism.combined(parts))
    return {"prism": amount, "base360": base}


def base_direction(_inputs):
    found = {
        f"{eye}_{word}": prism.base_360(eye, *prism.toward(1.0, word))[1] for eye in "RL" for word in ("in", "out")
    }
    return found | {word: prism.base_360("R", *prism.toward(1.0, word))[1] for word in ("up", "down")}


def flagged(*codes, right, left=None, pd=None):
    """1 where the checks of a prescription raise one of these flags, else 0."""
    found = plausible(Prescription(right, left or right, pd or Distances()), Mark("slip", 1, 1))
    return 1 if {finding.code for finding in found} & set(codes) else 0


def distances_flagged(inputs):
    """Which binocular pupillary distances, in mm, the checks ask about."""
    return {"value": [flagged("pd-range", right=EyeRx(-1.0), pd=Distances(binocular=mm)) for mm in inputs["pds_mm"]]}


def powers_flagged(inputs):
    """Which powers, in D, the checks say to be off their step, as sphere, as cylinder and as addition."""
    asked = [(EyeRx(value), EyeRx(0.0, value, 90), EyeRx(0.0, add=value)) for value in inputs["powers"]]
    return {"value": [max(flagged("off-step", right=eye) for eye in eyes) for eyes in asked]}


def axes_read(inputs):
    """Which written axes are read as an axis."""
    return {"value": [int(isinstance(written_axis(text), int)) for text in inputs["axes"]]}


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
    "distances-flagged": distances_flagged,
    "powers-flagged": powers_flagged,
    "axes-read": axes_read,
    "sine": lambda inputs: {"value": elementary.sin_deg(inputs["degrees"])},
    "cosine": lambda inputs: {"value": elementary.cos_deg(inputs["degrees"])},
    "exponential": lambda inputs: {"value": elementary.exp(inputs["x"])},
    "logarithm": lambda inputs: {"value": elementary.ln(inputs["x"])},
    "direction": lambda inputs: {"value": elementary.angle_deg(inputs["x"], inputs["y"])},
}

# Those whose published answer is a way of making the lens: asked both ways, from the lens and back to it
REMAKE = {"toric-transposition": toric_transposition, "crossed-form": crossed_form}
