"""The labels of the standard that are read and written here, and what each may hold.

ALL LABELS ARE FROM MEMORY of the Vision Council's Data Communication Standard (also ANSI Z80.24 and ISO 16284); only
its front matter and the reserved characters were read.  None of them is private (those begin with ``_``).
Powers D, prism in prism diopters, lengths mm, angles degrees.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Label:
    """One record: a value for each eye, right before left, or one for the job."""

    name: str
    meaning: str
    sides: bool = True
    low: float | None = None  # of numbers; None where it is text
    high: float = 0.0
    places: int = 2


def _number(name: str, meaning: str, low: float, high: float, places: int = 2, sides: bool = True) -> Label:
    return Label(name, meaning, sides, low, high, places)


TABLE = (
    Label("JOB", "the job's number", sides=False),
    Label("DO", "which eyes are made: R, L or B for both", sides=False),
    Label("CLIENT", "whose job it is; the shop's own number stands there, no name", sides=False),
    _number("SPH", "sphere", -40, 40),
    _number("CYL", "cylinder", -20, 20),
    _number("AX", "axis", 0, 180, 0),
    _number("ADD", "addition", 0, 6),
    _number("PRVM", "prescribed prism, amount", 0, 30),
    _number("PRVA", "its base, degrees from 0 to 360", 0, 360, 0),
    _number("IPD", "distance from the middle of the bridge to the pupil", 15, 50),
    _number("NPD", "the same for near", 12, 50),
    _number("OCHT", "height of the optical center above the bottom of the box", 1, 75),
    _number("SEGHT", "height of the segment or fitting cross above the bottom of the box", 1, 75),
    _number("BVD", "back vertex distance", 0, 40),
    _number("PANTO", "pantoscopic tilt", -10, 45, 1),
    _number("ZTILT", "face-form angle", 0, 45, 1),
    Label("LNAM", "the lens"),
    Label("LTYP", "the kind of lens"),
    _number("LIND", "index of the material", 1.3, 2.1, 3),
    Label("LMATTYPE", "the material's number"),
    Label("COLR", "color"),
    Label("TINT", "tint"),
    Label("ACOAT", "coating"),
    _number("MBASE", "marked base curve", 0, 20),
    _number("FRNT", "front curve", -20, 30),
    _number("BACK", "back curve", -40, 30),
    _number("DIA", "blank", 20, 100),
    _number("CTHICK", "center thickness", 0.2, 40),
    _number("MINCTR", "least center thickness", 0.2, 20),
    _number("MINEDG", "least edge thickness", 0, 20),
    _number("HBOX", "width of the box (A)", 15, 90),
    _number("VBOX", "height of the box (B)", 8, 90),
    _number("DBL", "distance between the lenses", 0, 50, sides=False),
    _number("FED", "effective diameter", 15, 110),
    _number("CIRC", "circumference", 40, 350),
    _number("FCRV", "curve of the frame", -2, 20),
    _number("FTYP", "frame: 1 plastic, 2 metal, 3 rimless (codes from memory)", 0, 20, 0, sides=False),
    _number("ETYP", "edge: 1 bevel, 2 rimless, 3 groove (codes from memory)", 0, 20, 0, sides=False),
    _number("GDEPTH", "depth of the groove", 0, 5),
    _number("GWIDTH", "width of the groove", 0, 5),
    Label("DRILLE", "holes, as the lab has them"),
    _number("POLISH", "edge polished: 1, not: 0", 0, 5, 0, sides=False),
)
LABELS = {one.name: one for one in TABLE}

# What makes up a trace: several lines of one name belong together
TRACED = ("TRCFMT", "R", "A")
# The depths of a trace: kept, and not read
DEPTHS = ("ZFMT", "Z")
