"""How the kernel is asked about boxes, blanks, segments and near PD: inputs in, the same keys as expected out."""

from quoting.kernel import boxing, layout, outline


def decentration(inputs):
    return {"value": layout.decentration_in(inputs["A"], inputs["DBL"], inputs["PD"] / 2)}


def blank_rule(inputs):
    inward = layout.decentration_in(inputs["A"], inputs["DBL"], inputs["PD"] / 2)
    return {"value": layout.blank_by_rule(inputs["ED"], inward, 0.0, inputs["allowance"])}


def shape(inputs):
    a, b = inputs["A"], inputs["B"]
    if inputs["shape"] == "ellipse":
        return outline.synthesized(a, b, "round", 2.0)
    return [[a / 2, -a / 2, -a / 2, a / 2], [b / 2, b / 2, -b / 2, -b / 2]]


def effective_diameter(inputs):
    return {"value": boxing.dimensions(*shape(inputs))[2]}


def blank_both(inputs):
    xs, ys = shape(inputs)
    place = inputs["dec_in"], inputs["dec_up"]
    return {
        "exact": layout.blank_exact(outline.farthest(xs, ys, *place), 0.0),
        "rule": layout.blank_by_rule(boxing.dimensions(xs, ys)[2], *place, 0.0),
    }


def segment_from_datum(inputs):
    return {"value": layout.decentration_up(inputs["B"], inputs["seg_height"])}


def segment_inset(inputs):
    return {
        "decentration": layout.decentration_in(inputs["A"], inputs["DBL"], inputs["DPD"] / 2),
        "seg_inset": layout.segment_inset(inputs["DPD"], inputs["NPD"]),
        "total_inset": layout.total_inset(inputs["A"], inputs["DBL"], inputs["NPD"]),
    }


def near_pd(inputs):
    assert inputs["stop_mm"] == layout.STOP_MM
    return {"value": layout.near_pd(inputs["DPD"], inputs["W_mm"], inputs["F"])}


ASK = {
    "decentration": decentration,
    "blank-rule": blank_rule,
    "effective-diameter": effective_diameter,
    "blank-both": blank_both,
    "segment-from-datum": segment_from_datum,
    "segment-inset": segment_inset,
    "near-pd": near_pd,
}
