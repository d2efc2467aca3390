"""What would make a lens fit, in a line each: what is changed, and the verdict then."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.languages import _, decimals, marked
from quoting.remedies import Remedy
from quoting.show.reasons import number
from quoting.show.terms import mounting, verdict

# How the ends of the changed number are written, and what the change is called
UNITS = {
    "add": "D",
    "pupil-height": "mm",
    "lens-height": "mm",
    "lens-width": "mm",
    "frame-curve": "plain",
    "tint": "plain",
}
REMEDIES = marked({
    "tint": "A tint up to {high} %",
    "no-tint": "Without the tint",
    "even-tint": "A tint that does not fade",
    "no-mirror": "Without the mirror",
    "no-blue-filter": "Without the blue filter",
    "slab-off": "With a slab-off",
    "add": "With your addition, {low} to {high}",
    "size": "Size {size}",
    "package": "{package}, same design",
    "pupil-height": "Pupils measured {low} to {high} mm high",
    "package-in-size": "{package}, same design, in size {size}",
    "instead": "{package} instead",
    "mounting": "A frame of this shape, {mounting}",
    "lens-height": "A frame with lenses {low} mm high",
    "lens-width": "A frame of this shape, lenses about {low} mm wide",
    "frame-curve": "A frame of curve {low} to {high}",
})  # fmt: skip
LEFT = marked("other reasons stay")


def then(name: str) -> str:
    """The verdict with the change; "no" leaves reasons that the change is not about."""
    return _(LEFT) if name == "no" else verdict(name)


def change_text(one: Remedy) -> str:
    """What is changed."""
    unit = UNITS.get(one.what, "plain")
    return _(REMEDIES[one.what]).format(
        low=number(one.low, unit),
        high=number(one.high, unit),
        size=decimals(one.size.label) if one.size else "",
        package=one.package.name if one.package else "",
        mounting=mounting(one.mounting) if one.mounting else "",
    )


def remedy_text(one: Remedy) -> str:
    """What is changed, and the verdict then."""
    return f"{change_text(one)}: {then(one.verdict)}"


def remedy_dict(one: Remedy) -> dict[str, Any]:
    """The same for programs; what does not belong to it is left out."""
    numbers = {"low": one.low, "high": one.high} if one.what in UNITS else {}
    taken = {
        **({"size": one.size.key} if one.size else {}),
        **({"package": one.package.id} if one.package else {}),
        **({"mounting": one.mounting} if one.mounting else {}),
    }
    said = {"what": one.what, "clears": list(one.codes), "verdict": one.verdict, "text": remedy_text(one)}
    return said | numbers | taken
