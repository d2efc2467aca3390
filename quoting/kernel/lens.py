"""One lens: where it sits, which front and blank it takes, how it comes out of the grinding.

Each eye is computed in its nasal frame (x toward the nose) and in minus-cylinder notation; so the two notations of a
prescription, and a prescription and its mirror image, are the same computation.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.center import NO_CENTER, finished_lens, not_settled, surfaced_lens
from quoting.kernel.layout import blank_by_rule, blank_exact
from quoting.kernel.power import axis_within, minus_form, on_step, spherical_equivalent, strongest
from quoting.kernel.records import Eye, Grind, Job, Lens, Package, Rim, Seat, Settled
from quoting.kernel.rules import is_wrap, largest_blank
from quoting.kernel.surfaces import base_by_rule, held, true_power
from quoting.kernel.thickness import grind, place, with_prism
from quoting.kernel.volume import volume

# What stands as a lens's fault: the package is not made in this power, or a surface would end inside the outline
NOT_MADE = "not-made"
NOT_GROUND = "cannot-be-ground"


def nasal(eye: Eye, mirrored: bool) -> Eye:
    """The eye's prescription in minus-cylinder notation, seen in the nasal frame."""
    axis = eye["axis"]
    if mirrored:
        axis = 180.0 - axis
    form = minus_form(eye["sphere"], eye["cylinder"], axis_within(axis))
    return {
        "sphere": form[0],
        "cylinder": form[1],
        "axis": form[2],
        "add": eye["add"],
        "prism_in": eye["prism_in"],
        "prism_up": eye["prism_up"],
    }


def base_curve(job: Job, eye: Eye) -> float:
    """Nominal base curve: the frame's for a wrap design in a wrap frame, else by chart, else by rule."""
    pack = job["package"]
    if pack["wrap"] and is_wrap(job):
        return held(job["frame"]["curve"], pack["base_from"], pack["base_to"])
    equivalent = spherical_equivalent(eye["sphere"], eye["cylinder"])
    on_chart = on_step(equivalent)
    for step in pack["curves"]:
        if on_chart >= step["low"] and on_chart <= step["high"]:
            return step["value"]
    return base_by_rule(equivalent, pack["base_from"], pack["base_to"], job["frame"]["curve"])


def finished_center(pack: Package, power: float) -> float:
    """Center thickness of a finished lens by its strongest power; NO_CENTER where the chart has none."""
    for step in pack["centers"]:
        if power >= step["low"] and power <= step["high"]:
            return step["value"]
    return NO_CENTER


def settled_for(job: Job, made: Grind, rim: Rim, power: float) -> Settled:
    """Center and edges: a finished lens has its own center, a surfaced one is made for this frame."""
    pack = job["package"]
    if not pack["finished"]:
        return surfaced_lens(made, rim, pack["min_center"], job["frame"]["min_edge"])
    center = finished_center(pack, on_step(power))
    if center == NO_CENTER:
        return not_settled()
    return finished_lens(made, rim, center)


def blank_lens() -> Lens:
    """A lens of which nothing is known yet."""
    return {
        "fault": "",
        "base_curve": 0.0,
        "front": 0.0,
        "center": 0.0,
        "edge_max": 0.0,
        "edge_max_at": "",
        "edge_min": 0.0,
        "edge_min_at": "",
        "weight": 0.0,
        "decentration_in": 0.0,
        "decentration_up": 0.0,
        "blank_exact": 0.0,
        "blank_rule": 0.0,
        "blank_largest": 0.0,
        "height": 0.0,
        "strongest": 0.0,
        "reach": 0.0,
    }


def laid_out(job: Job, eye: Eye, seat: Seat) -> Lens:
    """The lens at its seat, and which blank and front it takes."""
    lens = blank_lens()
    lens["height"] = seat["height"]
    lens["decentration_in"] = seat["decentration_in"]
    lens["decentration_up"] = seat["decentration_up"]
    allowance = job["limits"]["edging_allowance"]
    lens["blank_exact"] = blank_exact(seat["rim"]["reach"], allowance)
    lens["blank_rule"] = blank_by_rule(job["frame"]["ed"], seat["decentration_in"], seat["decentration_up"], allowance)
    lens["blank_largest"] = largest_blank(job["package"], eye)
    lens["strongest"] = strongest(eye["sphere"], eye["cylinder"])
    lens["base_curve"] = base_curve(job, eye)
    lens["front"] = true_power(lens["base_curve"], job["package"]["index"])
    return lens


def ground(job: Job, eye: Eye, seat: Seat, lens: Lens) -> Lens:
    """The laid-out lens with its thicknesses and weight, or with the fault that no such lens can be ground."""
    pack = job["package"]
    rim = seat["rim"]
    plain = grind(eye["sphere"], eye["cylinder"], eye["axis"], lens["front"], pack["conic"], pack["index"])
    made = with_prism(plain, eye["prism_in"], eye["prism_up"])
    lens["reach"] = rim["reach"]
    found = settled_for(job, made, rim, lens["strongest"])
    if found["center"] == NO_CENTER:
        lens["fault"] = NOT_GROUND
        return lens
    lens["center"] = found["center"]
    lens["edge_max"] = found["edge_max"][0]
    lens["edge_max_at"] = place(found["edge_max"][1], found["edge_max"][2])
    lens["edge_min"] = found["edge_min"][0]
    lens["edge_min_at"] = place(found["edge_min"][1], found["edge_min"][2])
    lens["weight"] = volume(made, rim, seat["sides"], found["center"]) * pack["density"] / 1000.0
    return lens


def lens_for(job: Job, eye: Eye, seat: Seat) -> Lens:
    """One lens, laid out and, where the package is made in this power, ground."""
    lens = laid_out(job, eye, seat)
    if lens["blank_largest"] == 0.0:
        lens["fault"] = NOT_MADE
        return lens
    return ground(job, eye, seat, lens)
