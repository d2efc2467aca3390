"""Rules about the wearer: who needs an impact-resistant lens, how the frame is worn, how far the eyes differ."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.imbalance import pair_at_near
from quoting.kernel.power import spherical_equivalent
from quoting.kernel.records import Eye, Job, Lens, Reason
from quoting.kernel.rules import grid, is_multifocal, say
from quoting.kernel.surfaces import shape_factor

# (practice) the eye's entrance pupil lies about 3 mm behind the cornea
PUPIL_BEHIND_CORNEA_MM = 3.0


def impact_rule(job: Job, reasons: list[Reason]) -> None:
    """Under 18, with one seeing eye, or at sport: only impact-resistant materials."""
    if job["package"]["impact_resistant"]:
        return
    if job["measures"]["child"]:
        say(reasons, "impact-needed", "no", "B", 1.0, 0.0)
    if job["options"]["one_eyed"]:
        say(reasons, "impact-one-eyed", "no", "B", 1.0, 0.0)
    if job["options"]["sport"]:
        say(reasons, "impact-sport", "no", "B", 1.0, 0.0)


def position_rule(job: Job, reasons: list[Reason]) -> None:
    """Strong tilt or wrap changes the power met by the eye unless the design is made for it."""
    if job["package"]["position_of_wear"]:
        return
    if job["frame"]["tilt"] > job["limits"]["pow_tilt"]:
        say(reasons, "tilt-not-compensated", "caution", "B", job["limits"]["pow_tilt"], job["frame"]["tilt"])
    if job["frame"]["wrap"] > job["limits"]["pow_wrap"]:
        say(reasons, "wrap-not-compensated", "caution", "B", job["limits"]["pow_wrap"], job["frame"]["wrap"])


def imbalance_rule(job: Job, right: Eye, left: Eye, reasons: list[Reason]) -> None:
    """Multifocals: vertical prism between the eyes where they read, by Prentice's rule on each lens.

    A slab-off evens it out.
    """
    if not is_multifocal(job["package"]["kind"]) or job["options"]["slab_off"]:
        return
    one = [right["sphere"], right["cylinder"], right["axis"]]
    other = [left["sphere"], left["cylinder"], left["axis"]]
    apart = grid(abs(pair_at_near(one, other, [0.0, 0.0], job["limits"]["reading_drop"])[1]))
    if apart >= job["limits"]["reading_imbalance"]:
        say(reasons, "reading-imbalance", "caution", "B", job["limits"]["reading_imbalance"], apart)


def magnified(job: Job, eye: Eye, lens: Lens) -> float:
    """Spectacle magnification by the mean power: 1 / (1 − (t/n)·F1) · 1 / (1 − h·F), h to the entrance pupil.

    0 where the lens has its focus before the pupil, and no image to be compared.   Source: Keating, Geometric,
    Physical and Visual Optics.
    """
    pupil = (job["measures"]["vertex"] + PUPIL_BEHIND_CORNEA_MM) / 1000.0
    left_over = 1.0 - pupil * spherical_equivalent(eye["sphere"], eye["cylinder"])
    if left_over <= 0.0:
        return 0.0
    return shape_factor(lens["front"], lens["center"], job["package"]["index"]) / left_over


def is_made(lens: Lens) -> bool:
    """Whether there is a lens with thicknesses."""
    return lens["fault"] == ""


def image_rule(job: Job, right: Eye, left: Eye, one: Lens, other: Lens, reasons: list[Reason]) -> None:
    """How unlike in size the two eyes' images are: the larger magnification over the smaller, in percent."""
    if not is_made(one) or not is_made(other):
        return
    large = magnified(job, right, one)
    small = magnified(job, left, other)
    if large < small:
        held = large
        large = small
        small = held
    if small <= 0.0:
        return
    apart = grid((large / small - 1.0) * 100.0)
    if apart >= job["limits"]["image_difference"]:
        say(reasons, "image-size", "caution", "B", job["limits"]["image_difference"], apart)
