"""How the kernel is asked about tolerances: inputs in, the same keys as expected out."""

from quoting.kernel import tolerance, tolerance_ansi, tolerance_iso

ITEMS = {
    "base curve": tolerance.base_tolerance,
    "center thickness": tolerance.center_tolerance,
    "segment tilt": tolerance.segment_tilt_tolerance,
    "segment height each": tolerance.height_tolerance,
}


def power(inputs):
    return {"value": tolerance_ansi.power_within(inputs["F"], inputs.get("progressive", False))}


def power_limits(inputs):
    within = tolerance_ansi.power_within(inputs["F"], False)
    return {"value": [inputs["F"] - within, inputs["F"] + within]}


def cylinder(inputs):
    return {"value": tolerance_ansi.cylinder_within(inputs["cyl"], inputs.get("progressive", False))}


def axis(inputs):
    return {"value": tolerance_ansi.axis_within_ansi(inputs["cyl"])}


def add(inputs):
    return {"value": tolerance_ansi.add_within(inputs["add"])}


def breaks(inputs):
    assert inputs == {"item": "breaks"}
    return {"vertical": tolerance_ansi.VERTICAL_TO, "horizontal": tolerance_ansi.HORIZONTAL_TO}


def item(inputs):
    return {"value": ITEMS[inputs["item"]]()}


def iso(inputs):
    strongest, cyl = inputs["higher_principal_power"], inputs["cyl"]
    return {
        "A": tolerance_iso.meridian_within(strongest),
        "B": tolerance_iso.cylinder_within_iso(strongest, cyl),
    }


ASK = {
    "tolerance-power": power,
    "tolerance-power-limits": power_limits,
    "tolerance-cylinder": cylinder,
    "tolerance-axis": axis,
    "tolerance-add": add,
    "tolerance-breaks": breaks,
    "tolerance-item": item,
    "tolerance-iso": iso,
}
