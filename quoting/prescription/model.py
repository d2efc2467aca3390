"""A prescription as it was written: two eyes, the distances between them, and how each token was read.

Terms: ISO 13666.  Powers in diopters, axis in degrees 1-180 (TABO, seen facing the wearer),
prism in prism diopters, distances in millimeters.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from quoting.findings import Finding, Mark


@dataclass(frozen=True, slots=True)
class EyeRx:
    """One eye.  Plus- and minus-cylinder notations are the same lens; what was written is kept."""

    sphere: float
    cylinder: float = 0.0
    axis: int = 180  # without a cylinder it means nothing and stays 180
    add: float = 0.0
    prism_in: float = 0.0  # positive: base in; negative: base out
    prism_up: float = 0.0  # positive: base up; negative: base down


@dataclass(frozen=True, slots=True)
class Distances:
    """Pupillary distance, binocular or monocular; None where nobody measured."""

    binocular: float | None = None
    right: float | None = None
    left: float | None = None
    near: float | None = None  # binocular near PD


@dataclass(frozen=True, slots=True)
class Prescription:
    """What the lenses must do.  An eye that is None is not to be glazed by this prescription."""

    right: EyeRx | None
    left: EyeRx | None
    pd: Distances = field(default_factory=Distances)
    written: date | None = None
    source: str = ""  # where it came from, in words: "slip", "rx.yaml", "FHIR VisionPrescription/33123"


@dataclass(frozen=True, slots=True)
class Token:
    """How one part of the text was read, for people to check before anything is computed from it."""

    mark: Mark
    text: str  # as written
    meaning: str  # in words: "right eye, sphere -2.25 D"


@dataclass(frozen=True, slots=True)
class Reading:
    """The result of reading: a prescription when nothing forbids it, every token, every finding."""

    prescription: Prescription | None
    tokens: tuple[Token, ...]
    findings: tuple[Finding, ...]
