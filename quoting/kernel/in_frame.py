"""Rules about the lens in its frame: blank, heights, curve, edge, mounting."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.layout import fitting_height
from quoting.kernel.records import Job, Lens, Reason
from quoting.kernel.rules import grid, is_wrap, say


def blank_rule(job: Job, lens: Lens, side: str, reasons: list[Reason]) -> None:
    """The blank must cover the outline where the optical center has to be.

    The exact size decides on a trace.  On an estimated outline it decides what is too small for certain; where only the
    rule of thumb, which is never below the exact size, asks for more, that is a caution.
    """
    if grid(lens["blank_exact"]) > lens["blank_largest"]:
        say(reasons, "blank-too-small", "no", side, lens["blank_exact"], lens["blank_largest"])
    elif not job["frame"]["traced"] and grid(lens["blank_rule"]) > lens["blank_largest"]:
        say(reasons, "blank-close", "caution", side, lens["blank_rule"], lens["blank_largest"])


def height_rule(job: Job, height: float, side: str, reasons: list[Reason]) -> None:
    """Enough lens below the cross or the segment's top, and enough above it."""
    pack = job["package"]
    fitting = fitting_height(pack["kind"], height)
    above = job["frame"]["b"] - fitting
    if grid(fitting) < pack["min_height"]:
        say(reasons, "height-too-low", "no", side, pack["min_height"], fitting)
    if grid(above) < pack["min_above"]:
        say(reasons, "above-too-low", "no", side, pack["min_above"], above)


def curve_rule(job: Job, lens: Lens, side: str, reasons: list[Reason]) -> None:
    """The lens's front curve near the frame's; a wrap frame wants a design made for it."""
    frame = job["frame"]
    limits = job["limits"]
    if is_wrap(job) and not job["package"]["wrap"]:
        say(reasons, "wrap-design-needed", "no", side, frame["curve"], lens["base_curve"])
        return
    apart = grid(abs(lens["base_curve"] - frame["curve"]))
    if apart > grid(limits["curve_difference"] * limits["curve_factor"]):
        say(reasons, "curve-too-far", "no", side, frame["curve"], lens["base_curve"])
    elif apart > limits["curve_difference"]:
        say(reasons, "curve-far", "caution", side, frame["curve"], lens["base_curve"])


def edge_rule(job: Job, lens: Lens, side: str, reasons: list[Reason]) -> None:
    """The edge neither thicker nor thinner than the mounting takes."""
    frame = job["frame"]
    if grid(lens["edge_max"]) >= frame["edge_no"]:
        say(reasons, "edge-too-thick", "no", side, frame["edge_no"], lens["edge_max"])
    elif grid(lens["edge_max"]) >= frame["edge_caution"]:
        say(reasons, "edge-thick", "caution", side, frame["edge_caution"], lens["edge_max"])
    if grid(lens["edge_min"]) < frame["min_edge"]:
        say(reasons, "edge-too-thin", "no", side, frame["min_edge"], lens["edge_min"])


def mounting_rule(job: Job, reasons: list[Reason]) -> None:
    """Drilled frames need a material that holds a hole."""
    if job["frame"]["mounting"] == "drilled" and not job["package"]["drillable"]:
        say(reasons, "not-drillable", "no", "B", 1.0, 0.0)
