"""How the kernel is asked about filters and colors: inputs in, the same keys as expected out."""

import math

from quoting.kernel import coated, color_difference, filters, luminous, spectrum, treatments

NANOMETERS = [280 + 5 * n for n in range(101)]


def category(inputs):
    return {"value": treatments.filter_category(luminous.percent_of(inputs["percent"] / 100))}


def may_drive(inputs):
    """A filter that passes so much, with one wavelength of little weight at the given share of it."""
    glass = {"internal": spectrum.flat(1.0), "front": spectrum.flat(0.0), "back": spectrum.flat(0.0)}
    passed = spectrum.flat(inputs["percent"] / 100)
    for _ in range(20):  # that one wavelength counts in the whole as well
        passed[74] = inputs["share"] * luminous.luminous(passed)
        factor = inputs["percent"] / 100 / luminous.luminous(passed)
        passed = [one * factor for one in passed]
    found = filters.filter_of(glass, passed, 8.0, 75.0)
    return {"day": int(found["day"]), "night": int(found["night"])}


def curve(inputs):
    """One of the analytic test filters."""
    if "neutral" in inputs:
        return spectrum.flat(inputs["neutral"])
    if "ramp" in inputs:
        first, last = inputs["ramp"]
        return [max(0.0, (nm - first) / (last - first)) for nm in NANOMETERS]
    if "bell" in inputs:
        low, high, center, wide = inputs["bell"]
        return [low + (high - low) * math.exp(-4 * math.log(2) * ((nm - center) / wide) ** 2) for nm in NANOMETERS]
    low, high, center, slope = inputs["edge"]
    return [low + (high - low) / (1 + math.exp((center - nm) / slope)) for nm in NANOMETERS]


def luminous_of(inputs):
    passed = curve(inputs)
    tau = luminous.luminous(passed)
    kind = treatments.filter_category(luminous.percent_of(tau))
    return {"tau": tau, "least": luminous.least_share(passed) * tau, "category": kind}


def two_layers(inputs):
    passed = spectrum.product([spectrum.flat(inputs["one"]), spectrum.flat(inputs["other"])])
    density = spectrum.density(inputs["one"]) + spectrum.density(inputs["other"])
    return {"passed": luminous.luminous(passed), "density": density / math.log(10)}


def thicker(inputs):
    surfaces = (1 - coated.fresnel(inputs["index"])) ** 2
    once = spectrum.mixed([spectrum.flat(inputs["passed"] / surfaces)], [1.0])
    return {"value": surfaces * spectrum.layer(once, inputs["factor"])[40]}


def clear_lens(inputs):
    surface = spectrum.flat(coated.fresnel(inputs["index"]))
    glass = {"internal": spectrum.flat(1.0), "front": surface, "back": surface}
    return {"value": 100 * luminous.luminous(coated.transmitted(glass, spectrum.flat(1.0)))}


ASK = {
    "category": category,
    "may-drive": may_drive,
    "luminous": luminous_of,
    "two-layers": two_layers,
    "thicker": thicker,
    "clear-lens": clear_lens,
    "color-difference": lambda inputs: {"value": color_difference.difference(inputs["one"], inputs["other"])},
}
