"""The same job with one thing of it changed: size, mounting or curve of the frame, heights of the pupils, wishes."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.outline import farthest
from quoting.kernel.records import Eye, Frame, Job, Measures, Mounting, Options
from quoting.kernel.surfaces import held


def rebuilt(job: Job, frame: Frame, right: Eye, left: Eye, measures: Measures, options: Options) -> Job:
    """The job with these parts in the place of its own."""
    return {
        "frame": frame,
        "package": job["package"],
        "limits": job["limits"],
        "right": right,
        "left": left,
        "has_right": job["has_right"],
        "has_left": job["has_left"],
        "measures": measures,
        "money": job["money"],
        "options": options,
    }


def with_frame(job: Job, frame: Frame) -> Job:
    """The job in another frame."""
    return rebuilt(job, frame, job["right"], job["left"], job["measures"], job["options"])


def with_eyes(job: Job, right: Eye, left: Eye) -> Job:
    """The job for other prescriptions."""
    return rebuilt(job, job["frame"], right, left, job["measures"], job["options"])


def add_instead(eye: Eye, add: float) -> Eye:
    """The eye with an add, D, where it has none."""
    if eye["add"] > 0.0:
        return eye
    return {
        "sphere": eye["sphere"],
        "cylinder": eye["cylinder"],
        "axis": eye["axis"],
        "add": add,
        "prism_in": eye["prism_in"],
        "prism_up": eye["prism_up"],
    }


def with_options(job: Job, options: Options) -> Job:
    """The job with other wishes."""
    return rebuilt(job, job["frame"], job["right"], job["left"], job["measures"], options)


def with_heights(job: Job, right: float, left: float) -> Job:
    """The job with pupils so high above the lowest point of the box, mm."""
    measures = job["measures"]
    heights: Measures = {
        "pd_right": measures["pd_right"],
        "pd_left": measures["pd_left"],
        "height_right": right,
        "height_left": left,
        "child": measures["child"],
        "vertex": measures["vertex"],
    }
    return rebuilt(job, job["frame"], job["right"], job["left"], heights, job["options"])


def heights_within(job: Job, low: float, high: float) -> Job:
    """The job with each pupil at the height nearest to its own that lies from ``low`` to ``high``, mm."""
    measures = job["measures"]
    return with_heights(job, held(measures["height_right"], low, high), held(measures["height_left"], low, high))


def frame_with(frame: Frame, mounting: Mounting, curve: float) -> Frame:
    """The frame with another mounting and front curve, D."""
    return {
        "a": frame["a"],
        "b": frame["b"],
        "dbl": frame["dbl"],
        "ed": frame["ed"],
        "xs": frame["xs"],
        "ys": frame["ys"],
        "traced": frame["traced"],
        "mounting": mounting["mounting"],
        "min_edge": mounting["min_edge"],
        "edge_caution": mounting["edge_caution"],
        "edge_no": mounting["edge_no"],
        "curve": curve,
        "wrap": frame["wrap"],
        "tilt": frame["tilt"],
        "weight": frame["weight"],
    }


def mounting_of(frame: Frame) -> Mounting:
    """What the frame's own mounting holds."""
    return {
        "mounting": frame["mounting"],
        "min_edge": frame["min_edge"],
        "edge_caution": frame["edge_caution"],
        "edge_no": frame["edge_no"],
    }


def scaled(values: list[float], factor: float) -> list[float]:
    """Every value so many times as large.

    >>> scaled([1.0, -2.0], 1.5)
    [1.5, -3.0]
    """
    found: list[float] = []
    for value in values:
        found.append(value * factor)
    return found


def stretched(job: Job, a: float, b: float) -> Job:
    """The job in the same shape with lenses of another width and height, mm.

    The bridge stays, and so does how far each pupil stands above the middle of the box.
    """
    frame = job["frame"]
    xs = scaled(frame["xs"], a / frame["a"])
    ys = scaled(frame["ys"], b / frame["b"])
    other = frame_with(frame, mounting_of(frame), frame["curve"])
    other["a"] = a
    other["b"] = b
    other["xs"] = xs
    other["ys"] = ys
    other["ed"] = 2.0 * farthest(xs, ys, 0.0, 0.0)
    higher = (b - frame["b"]) / 2.0
    measures = job["measures"]
    return with_heights(
        with_frame(job, other), measures["height_right"] + higher, measures["height_left"] + higher
    )


def options_with(options: Options, depth: float, gradient: bool, mirror: bool, blue: bool, slab_off: bool) -> Options:
    """The wishes with other treatments; what the glasses are for stays as it is."""
    return {
        "tint_depth": depth,
        "tint_gradient": gradient,
        "mirror": mirror,
        "blue_filter": blue,
        "slab_off": slab_off,
        "rush": options["rush"],
        "sport": options["sport"],
        "one_eyed": options["one_eyed"],
        "driving": options["driving"],
        "night_driving": options["night_driving"],
    }
