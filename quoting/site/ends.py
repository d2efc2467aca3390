"""The weaker powers of a band: a cell is worked out at its strongest, and the truth about the rest is asked here.

A lens that fits at a band's strongest power can be too thin at the rim, too far from the frame's curve or too small at
another one, above all where a band runs from minus to plus.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass

from quoting.catalog.model import Package
from quoting.catalog.shop import Band
from quoting.kernel.lens import NOT_MADE
from quoting.kernel.records import Fit, Reason
from quoting.offers import Choice, Offers
from quoting.show.reasons import told_once

# These come from frame, mounting and design alone: whom they forbid one power they forbid every power
WHATEVER_POWER = {"not-drillable", "impact-needed", "wrap-design-needed", "height-too-low", "above-too-low"}


@dataclass(frozen=True, slots=True)
class End:
    """Another power of a band, and the engine's answer there."""

    power: float
    fit: Fit

    @property
    def verdict(self) -> str:
        return self.fit["verdict"]


def is_made(fit: Fit) -> bool:
    """Whether the package is made in this power, whatever else speaks against it."""
    return NOT_MADE not in (fit["right"]["fault"], fit["left"]["fault"])


def can_matter(strongest: Fit, band: Band) -> bool:
    """Whether another power of the band could change what a cell says."""
    if band.low == band.high or not is_made(strongest):
        return False
    return not any(forbids_all(reason) for reason in strongest["reasons"])


def forbids_all(reason: Reason) -> bool:
    """Whether a reason forbids every power of the package in this frame."""
    return reason["code"] in WHATEVER_POWER and reason["verdict"] == "no"


def thin_powers(package: Package, band: Band) -> list[float]:
    """The powers inside a band at which a finished lens is thinner at the rim than at those beside it.

    A finished lens has one center thickness for a step of powers; its rim is thinnest at the most positive of them.
    """
    return [step.high for step in package.centers if band.low < step.high < band.high]


def other_end(offers: Offers, choice: Choice, band: Band, strongest: Fit) -> End | None:
    """The power of the band that fits least of all but the strongest; None where no other power can matter.

    Where the strongest does not fit, it is the band's other end that tells whether anything does.
    """
    if not can_matter(strongest, band):
        return None
    end = End(band.other, offers.fit_at(choice, band.other))
    if "no" in (strongest["verdict"], end.verdict):
        return end
    for power in thin_powers(choice.package, band):
        inner = End(power, offers.fit_at(choice, power))
        if inner.verdict == "no":
            return inner
    return end


def only_there(end: End, strongest: Fit) -> Reason | None:
    """The first reason at another power that the strongest has not, or less badly; None where there is none."""
    known = {(reason["code"], reason["verdict"]) for reason in strongest["reasons"]}
    reasons = [one for one in told_once(end.fit["reasons"]) if (one["code"], one["verdict"]) not in known]
    return reasons[0] if reasons else None
