"""The worked example of the manual: one plain job, changed at the place that a page is about."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from quoting.kernel import outline
from quoting.kernel.records import Eye, Frame, Job, Limits, Package
from quoting.kernel.treatments import no_options

USUAL = (
    "A frame 50□18, B 40, ED 54 mm, curve 5 D, wrap 5°, tilt 8°, in plastic that takes edges from 1 to below 12 mm; a "
    "single-vision lens of index 1.60, surfaced, sphere −10.00 to +8.00, cylinder to 4.00, prism to 4 Δ, blank 75 mm; "
    "both eyes −2.00, PD 32/32, pupils 24 mm high."
)


def usual_frame() -> Frame:
    """Its outline is that of a panto."""
    xs, ys = outline.from_box(50.0, 40.0, 54.0, "panto")
    return {
        "a": 50.0, "b": 40.0, "dbl": 18.0, "ed": 54.0, "xs": xs, "ys": ys, "traced": False,
        "mounting": "full-rim-plastic", "min_edge": 1.0, "edge_caution": 8.0, "edge_no": 12.0,
        "curve": 5.0, "wrap": 5.0, "tilt": 8.0, "weight": 20.0,
    }  # fmt: skip


def usual_package() -> Package:
    """Progressive and bifocal examples change its kind and have adds from +0.75 to +3.50."""
    made = {
        "low": -10.0, "high": 8.0, "cylinder": 4.0, "add_from": 0.75, "add_to": 3.5, "diameter": 75.0,
        "near": False, "near_from": 0.0, "near_to": 0.0,
    }  # fmt: skip
    package: dict[str, Any] = {
        "kind": "single-vision", "index": 1.6, "density": 1.3, "drillable": True, "impact_resistant": True,
        "finished": False, "min_height": 0.0, "min_above": 0.0, "boost": 0.0, "conic": 0.0, "base_from": 0.5,
        "base_to": 9.0, "position_of_wear": False, "wrap": False, "ranges": [made], "curves": [],
        "centers": [{"low": -6.0, "high": 4.0, "value": 2.2}], "min_center": 1.5, "prism": 4.0,
        "prices": [{"low": -10.0, "high": 8.0, "cents": 9000}], "light": "clear", "tint_depth": 85.0,
        "tint_over": False, "mirror": False, "back_ar": False, "blue_filter": False, "double_use": False,
        "transmittance": 0.0, "darkened": 0.0,
    }  # fmt: skip
    return cast(Package, package)


def usual_limits() -> Limits:
    """The limits that are common practice."""
    return {
        "edging_allowance": 2.0, "curve_difference": 2.0, "wrap_angle": 15.0, "wrap_curve": 7.5, "pow_tilt": 12.0,
        "pow_wrap": 8.0, "curve_factor": 2.0, "boost_add": 1.25, "reading_drop": 10.0, "reading_imbalance": 1.5,
        "image_difference": 3.0, "gradient_height": 28.0, "driving_least": 8.0, "night_least": 75.0,
    }  # fmt: skip


def usual_job() -> Job:
    """The job that fits without a remark."""
    eye: Eye = {"sphere": -2.0, "cylinder": 0.0, "axis": 180.0, "add": 0.0, "prism_in": 0.0, "prism_up": 0.0}
    free = {"shipping_cents": 0, "free_from_cents": 0, "tax_frame": 0, "tax_lenses": 0, "tax_shipping": 0}
    money = {"frame_cents": 12000, "surcharges": [], "discounts": [], "region": free, "tax_included": False}
    job: dict[str, Any] = {
        "frame": usual_frame(), "package": usual_package(), "limits": usual_limits(), "right": eye, "left": {**eye},
        "has_right": True, "has_left": True,
        "measures": {
            "pd_right": 32.0, "pd_left": 32.0, "height_right": 24.0, "height_left": 24.0, "child": False,
            "vertex": 13.0,
        },
        "money": money, "options": no_options(),
    }  # fmt: skip
    return cast(Job, job)


def changed(changes: Mapping[str, object]) -> Job:
    """The usual job with values put at paths such as ``frame.b``; ``eyes`` means both, ``range`` the first."""
    job = cast(dict[str, Any], usual_job())
    for path, value in changes.items():
        part, name = path.split(".")
        for place in places(job, part):
            place[name] = value
    return cast(Job, job)


def places(job: dict[str, Any], part: str) -> list[dict[str, Any]]:
    """The tables that the first word of a path means."""
    if part == "eyes":
        return [job["right"], job["left"]]
    if part == "range":
        return [job["package"]["ranges"][0]]
    if part == "center":
        return [job["package"]["centers"][0]]
    return [job[part]]
