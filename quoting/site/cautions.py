"""What must be read at the point where it matters: sentences that follow from what a lens is.

The shop's own cautions stand beside every price; these say which of them a lens package is about.  Common practice of
the trade; what is allowed where, local law says.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package

LIGHT = {
    "clear": (),
    "photochromic": (
        "It darkens less in heat and little behind a windshield, takes a minute or so to darken and longer to clear.",
        "While it is dark it is not for driving at night or twilight.",
    ),
    "polarized": ("A sun lens: not for driving at night or twilight. Some displays look dark through it.",),
}
KIND = {
    "single-vision": (),
    "anti-fatigue": ("The boost low down takes some days to get used to, and does not replace a reading addition.",),
    "progressive": (
        "It needs the PD of each eye and both heights measured in the frame you will wear.",
        "A first progressive, or another design, can take some days to get used to. Mind steps.",
    ),
    "bifocal": (
        "It needs the PD of each eye and the height of the segment measured in the frame you will wear.",
        "The line and the jump of the image can take some days to get used to. Mind steps.",
    ),
}
BREAKS = "Not impact-resistant: not for anyone under 18, anyone with one good eye, or sport."
HOLDS = "Impact-resistant, but no lens here makes ordinary spectacles into safety eyewear."


def matters(package: Package) -> list[str]:
    """All sentences about one package."""
    impact = HOLDS if package.material.impact_resistant else BREAKS
    return [*LIGHT[package.light], *KIND[package.design.kind], impact]
