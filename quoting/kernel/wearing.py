"""One lens of a job where it is worn: what the eye meets, how far that is from the prescription, what to order instead.

The trace of the real lens (``sight``) decides; Martin's formulas stand beside it as the rule of thumb, and know nothing
of thickness, form, or an optical center that was dropped for the tilt.
Sources: as in ``sight``; compensated powers, the powers to order so that the wearer gets the prescribed ones, as in
ISO 13666 (verification power), from memory.  Powers D, prism Δ, lengths mm, angles degrees.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.astigmatic import as_power
from quoting.kernel.layout import reference_height
from quoting.kernel.magnify import PUPIL_BEHIND_CORNEA_MM, power_factor
from quoting.kernel.power import matrix, prentice
from quoting.kernel.records import Eye, Frame, Grind, Job, Lens, Package, Worn
from quoting.kernel.sight import met, order_for, worn_axes
from quoting.kernel.surfaces import shape_factor
from quoting.kernel.thickness import grind, with_prism
from quoting.kernel.worn import center_drop, tilted_both

# What stands as a flag: there is no such lens; its numbers are beyond any spectacle lens; no ray comes through it to
# the eye; no order was found that gives what was prescribed
NO_LENS = "no-lens"
OUT_OF_RANGE = "out-of-range"
NO_RAY = "no-ray"
NOT_CONVERGED = "not-converged"

# Beyond any spectacle lens or frame; the formulas hold farther than this, but not everywhere
MOST_ANGLE = 45.0
MOST_POWER = 30.0
MOST_PRISM = 30.0
MOST_CENTER = 30.0
MOST_VERTEX = 30.0
MOST_CONIC = 40.0
LEAST_INDEX = 1.2
MOST_INDEX = 2.5


def between(value: float, low: float, high: float) -> bool:
    """Whether a number lies from ``low`` to ``high``; what is no number does not.

    >>> between(2.0, -2.0, 2.0), between(2.1, -2.0, 2.0), between(float("nan"), -2.0, 2.0)
    (True, False, False)
    """
    return value >= low and value <= high


def is_eye(eye: Eye) -> bool:
    """Whether these are the numbers of a spectacle prescription."""
    if not between(eye["sphere"], 0.0 - MOST_POWER, MOST_POWER) or not between(eye["axis"], 0.0, 180.0):
        return False
    if not between(eye["cylinder"], 0.0 - MOST_POWER, MOST_POWER):
        return False
    return between(eye["prism_in"], 0.0 - MOST_PRISM, MOST_PRISM) and between(
        eye["prism_up"], 0.0 - MOST_PRISM, MOST_PRISM
    )


def is_lens(lens: Lens, pack: Package) -> bool:
    """Whether these are the numbers of a lens that can be made; its center must be above 0."""
    if not between(pack["index"], LEAST_INDEX, MOST_INDEX) or not between(pack["conic"], 0.0 - MOST_CONIC, MOST_CONIC):
        return False
    if not between(lens["front"], 0.0 - MOST_POWER, MOST_POWER):
        return False
    return lens["center"] > 0.0 and lens["center"] <= MOST_CENTER


def is_worn(frame: Frame, vertex: float) -> bool:
    """Whether a frame can sit on a face like this."""
    if not between(frame["tilt"], 0.0 - MOST_ANGLE, MOST_ANGLE) or not between(vertex, 0.0, MOST_VERTEX):
        return False
    return between(frame["wrap"], 0.0 - MOST_ANGLE, MOST_ANGLE)


def nothing_worn(eye: Eye, flag: str) -> Worn:
    """What stands where nothing is known: the prescription as the order, and the flag that says why."""
    return {
        "flag": flag,
        "sphere": 0.0,
        "cylinder": 0.0,
        "axis": 180.0,
        "prism_in": 0.0,
        "prism_up": 0.0,
        "magnification": 1.0,
        "shape_factor": 1.0,
        "power_factor": 1.0,
        "error_sphere": 0.0,
        "error_cylinder": 0.0,
        "error_axis": 180.0,
        "error_in": 0.0,
        "error_up": 0.0,
        "converged": False,
        "order_sphere": eye["sphere"],
        "order_cylinder": eye["cylinder"],
        "order_axis": eye["axis"],
        "order_in": eye["prism_in"],
        "order_up": eye["prism_up"],
        "martin_sphere": 0.0,
        "martin_cylinder": 0.0,
        "martin_axis": 180.0,
    }


def above_reference(kind: str, tilt: float) -> float:
    """How far above the reference point of its lens the pupil stands, mm, as lenses are laid out.

    >>> above_reference("single-vision", 8.0), above_reference("progressive", 8.0)
    (4.0, 4.0)
    """
    return 0.0 - reference_height(kind, 0.0, center_drop(tilt))


def wanted_of(eye: Eye, up: float) -> list[float]:
    """What the eye should meet, [power xx, xy, yy, prism in, prism up]: what is prescribed, at the pupil.

    The prism has in it what a center ``up`` mm below the pupil gives by Prentice's rule: it was put there on purpose.

    >>> eye = {"sphere": -5.0, "cylinder": 0.0, "axis": 180.0, "add": 0.0, "prism_in": 1.0, "prism_up": 0.0}
    >>> wanted_of(eye, 4.0)
    [-5.0, 0.0, -5.0, 1.0, 2.0]
    """
    f = matrix(eye["sphere"], eye["cylinder"], eye["axis"])
    p = prentice(eye["sphere"], eye["cylinder"], eye["axis"], 0.0, 0.0 - up)
    return [f[0], f[1], f[2], eye["prism_in"] + p[0], eye["prism_up"] + p[1]]


def seen(worn: Worn, found: list[float], wanted: list[float]) -> None:
    """Writes down what the eye meets, and how far that is from what it should."""
    form = as_power(found)
    worn["sphere"] = form[0]
    worn["cylinder"] = form[1]
    worn["axis"] = form[2]
    worn["prism_in"] = found[3]
    worn["prism_up"] = found[4]
    form = as_power([found[0] - wanted[0], found[1] - wanted[1], found[2] - wanted[2]])
    worn["error_sphere"] = form[0]
    worn["error_cylinder"] = form[1]
    worn["error_axis"] = form[2]
    worn["error_in"] = found[3] - wanted[3]
    worn["error_up"] = found[4] - wanted[4]


def order(worn: Worn, asked: list[float]) -> None:
    """Writes down what to order."""
    form = as_power(asked)
    worn["converged"] = True
    worn["order_sphere"] = form[0]
    worn["order_cylinder"] = form[1]
    worn["order_axis"] = form[2]
    worn["order_in"] = asked[3]
    worn["order_up"] = asked[4]


def enlarge(worn: Worn, shape: float, power: float, pupil_mm: float) -> bool:
    """Writes down how much larger the eye sees; False where the image would fall into the pupil or before it."""
    if pupil_mm / 1000.0 * power >= 1.0:
        return False
    worn["shape_factor"] = shape
    worn["power_factor"] = power_factor(power, pupil_mm)
    worn["magnification"] = worn["shape_factor"] * worn["power_factor"]
    return True


def rule_of_thumb(worn: Worn, frame: Frame, eye: Eye, index: float) -> None:
    """Writes down what Martin's formulas say."""
    form = tilted_both(eye["sphere"], eye["cylinder"], eye["axis"], frame["tilt"], frame["wrap"], index)
    worn["martin_sphere"] = form[0]
    worn["martin_cylinder"] = form[1]
    worn["martin_axis"] = form[2]


def as_worn(job: Job, eye: Eye, lens: Lens) -> Worn:
    """What this lens does where this frame holds it; ``eye`` in its nasal frame, as ``lens_for`` takes it.

    For the distance power.  The order keeps front and center of the lens.  What stops it stands as a flag.
    """
    frame = job["frame"]
    pack = job["package"]
    vertex = job["measures"]["vertex"]
    if lens["fault"] != "":
        return nothing_worn(eye, NO_LENS)
    if not is_eye(eye) or not is_lens(lens, pack) or not is_worn(frame, vertex):
        return nothing_worn(eye, OUT_OF_RANGE)
    plain = grind(eye["sphere"], eye["cylinder"], eye["axis"], lens["front"], pack["conic"], pack["index"])
    made = with_prism(plain, eye["prism_in"], eye["prism_up"])
    return traced(made, lens["center"], job, eye)


def traced(made: Grind, center: float, job: Job, eye: Eye) -> Worn:
    """The same, once everything is known to be within its range."""
    frame = job["frame"]
    worn = nothing_worn(eye, "")
    up = above_reference(job["package"]["kind"], frame["tilt"])
    axes = worn_axes(frame["tilt"], frame["wrap"])
    wanted = wanted_of(eye, up)
    found = met(made, center, up, axes)
    if len(found) == 0:
        return nothing_worn(eye, NO_RAY)
    shape = shape_factor(made["front"], center, made["index"])
    pupil_mm = job["measures"]["vertex"] + PUPIL_BEHIND_CORNEA_MM
    if not enlarge(worn, shape, (found[0] + found[2]) / 2.0, pupil_mm):
        return nothing_worn(eye, OUT_OF_RANGE)
    seen(worn, found, wanted)
    rule_of_thumb(worn, frame, eye, made["index"])
    asked = order_for(made, center, up, axes, wanted)
    if len(asked) == 0:
        worn["flag"] = NOT_CONVERGED
    else:
        order(worn, asked)
    return worn
