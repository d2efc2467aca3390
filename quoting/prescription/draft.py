"""What was read so far about two eyes, whatever it was read from; at the end, what is missing or said twice."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Generic, TypeVar

from quoting.findings import Finding, Mark, Severity, errors, in_order
from quoting.prescription.checks import plausible
from quoting.prescription.figures import written as signed
from quoting.prescription.model import Distances, EyeRx, Prescription, Reading, Token
from quoting.written.kinds import quoted

T = TypeVar("T")

SIDES = ("right", "left")
DIRECTIONS = {"in": ("in", 1), "out": ("in", -1), "up": ("up", 1), "down": ("up", -1)}


@dataclass(frozen=True, slots=True)
class Given(Generic[T]):
    """A value and where it stands."""

    value: T
    mark: Mark


@dataclass(slots=True)
class Draft:
    """Collects values, tokens and findings; `reading` makes the prescription of them.

    The fields of an eye: sphere, cylinder, axis, add, prism in, prism up.
    """

    start: Mark  # stands for the whole, where a finding is about nothing in particular
    source: str
    eyes: dict[str, dict[str, Given[float]]] = field(default_factory=lambda: {side: {} for side in SIDES})
    named: dict[str, Mark] = field(default_factory=dict)
    distances: dict[str, Given[float]] = field(default_factory=dict)
    shared_add: Given[float] | None = None
    written: Given[date] | None = None
    tokens: list[Token] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    instead: dict[str, tuple[Mark, str]] = field(default_factory=dict)  # what stands where an eye's sphere belongs
    unread: set[tuple[str, str]] = field(default_factory=set)  # (eye, field): there, but not readable; told

    def token(self, mark: Mark, text: str, meaning: str) -> None:
        """Tell how a part was read."""
        self.tokens.append(Token(mark, text, meaning))

    def reword(self, mark: Mark, meaning: str) -> None:
        """Correct how a part was read, once more is known."""
        self.tokens = [replace(token, meaning=meaning) if token.mark == mark else token for token in self.tokens]

    def say(self, mark: Mark, code: str, message: str, hint: str = "", severity: Severity = "error") -> None:
        """Tell what is wrong."""
        self.findings.append(Finding(mark, code, message, hint, severity))

    def name(self, sides: Iterable[str], mark: Mark) -> None:
        """Remember where an eye was first spoken of."""
        for side in sides:
            self.named.setdefault(side, mark)

    def miss(self, sides: Iterable[str], what: str, mark: Mark) -> None:
        """Remember that a field is there but was not readable, so that nobody also calls it missing."""
        for side in sides:
            self.name((side,), mark)
            self.unread.add((side, what))

    def put(self, sides: Iterable[str], what: str, value: float, mark: Mark) -> bool:
        """Give a field its value; False, and told, where it has one already."""
        good = True
        for side in sides:
            self.name((side,), mark)
            before = self.eyes[side].get(what)
            if before is None:
                self.eyes[side][what] = Given(value, mark)
                continue
            good = False
            self.unread.add((side, what))
            whole = what == "sphere"
            said = f"the {side} eye is given twice" if whole else f"the {side} eye has {_article(what)} already"
            hint = "keep the one that is meant" + ("; the left eye is OS or L" if whole else "")
            self.say(mark, "eye-twice" if whole else "given-twice", f"{said}: {place(before.mark)}", hint)
        return good

    def put_prism(self, sides: Iterable[str], amount: float, base: str, mark: Mark) -> bool:
        """Give a prism by amount and base: in, out, up or down."""
        what, sign = DIRECTIONS[base]
        return self.put(sides, f"prism {what}", sign * amount + 0.0, mark)

    def put_distance(self, which: str, value: float, mark: Mark) -> None:
        """Give a pupillary distance: binocular, right, left or near; the same again does no harm."""
        before = self.distances.setdefault(which, Given(value, mark))
        if before.value != value:
            said = f"the {_distance_name(which)} is given twice: {before.value:g} and {value:g} mm"
            self.say(mark, "given-twice", said, "keep the one that is meant")

    def put_date(self, value: date, mark: Mark) -> None:
        """Give the day it was written."""
        if self.written is not None and self.written.value != value:
            said = f"there are two dates, {self.written.value} and {value}"
            self.say(mark, "given-twice", said, "keep the day the prescription was written")
        self.written = self.written or Given(value, mark)

    def reading(self, today: date | None, max_age_months: int | None, child: bool = False) -> Reading:
        """Everything that was read, and the prescription if nothing forbids it."""
        if self.shared_add is not None:
            self.put(tuple(self.named) or SIDES, "add", self.shared_add.value, self.shared_add.mark)
        eyes = {side: self._eye(side) for side in SIDES}
        self._tell_absent()
        distances = Distances(**{which: given.value for which, given in self.distances.items()})
        written = self.written.value if self.written else None
        made = Prescription(eyes["right"], eyes["left"], distances, written, self.source)
        if any(eyes.values()):
            told = {"undated"} & {finding.code for finding in self.findings}  # by the reader, who knows more of it
            unlikely = plausible(made, self.start, today, max_age_months, self._places(), child)
            self.findings.extend(finding for finding in unlikely if finding.code not in told)
        good = not errors(self.findings)
        tokens = sorted(self.tokens, key=lambda token: token.mark)
        return Reading(made if good else None, tuple(tokens), tuple(in_order(self.findings)))

    def _tell_absent(self) -> None:
        """Tell that no eye, or only one, is spoken of; in silence where something could not be read anyway."""
        if errors(self.findings):
            return
        absent = [side for side in SIDES if side not in self.named]
        if len(absent) == len(SIDES):
            hint = "write it like OD -2.25 -0.75 x 090 / OS -2.50 DS"
            self.say(self.start, "nothing-read", "there is no prescription in this", hint)
        elif absent:
            said = f"the {absent[0]} eye is not in this prescription: it gets no lens"
            self.say(self.start, "one-eye", said, "write its power too if it gets one, plano for zero", "warning")

    def _eye(self, side: str) -> EyeRx | None:
        """The eye; None where it is not spoken of, or where what was read of it cannot be relied on."""
        given = self.eyes[side]
        if side not in self.named or not self._complete(side, given):
            return None
        values = {what: one.value for what, one in given.items()}
        cylinder = values.get("cylinder", 0.0)
        return EyeRx(
            values["sphere"],
            cylinder,
            int(values.get("axis", 180)) if cylinder else 180,
            values.get("add", 0.0),
            values.get("prism in", 0.0),
            values.get("prism up", 0.0),
        )

    def _complete(self, side: str, given: dict[str, Given[float]]) -> bool:
        """Whether an eye can be relied on; tell what it lacks."""
        lost = {what for eye, what in self.unread if eye == side}
        whole = not lost
        if "sphere" not in given and "sphere" not in lost:
            self._tell_no_sphere(side)
            whole = False
        if "cylinder" in given and given["cylinder"].value and "axis" not in lost | given.keys():
            said = f"the {side} eye has a cylinder, {signed(given['cylinder'].value)} D, but no axis"
            self.say(given["cylinder"].mark, "axis-missing", said, "write the axis behind it, such as x 090")
            whole = False
        if "axis" in given and "cylinder" not in lost | given.keys():
            said = f"the {side} eye has an axis, {given['axis'].value:g}, but no cylinder: the axis is not used"
            self.say(given["axis"].mark, "axis-alone", said, "look whether the cylinder was forgotten", "warning")
        return whole

    def _tell_no_sphere(self, side: str) -> None:
        hint = "write it, plano where it is zero; leave the eye out if it gets no lens"
        mark, said = self.named[side], f"the sphere of the {side} eye is not given"
        if side in self.instead:
            mark, text = self.instead[side]
            said = f"{quoted(text)} stands where the sphere of the {side} eye belongs, and is no power"
        self.say(mark, "sphere-missing", said, hint)

    def _places(self) -> dict[str, Mark]:
        places = {f"{side} {what}": one.mark for side in SIDES for what, one in self.eyes[side].items()}
        places |= {f"pd {which}": given.mark for which, given in self.distances.items()}
        if self.written is not None:
            places["written"] = self.written.mark
        return places


def place(mark: Mark) -> str:
    """A place in words."""
    return f"see line {mark.line}, column {mark.column}"


def _article(what: str) -> str:
    names = {"prism in": "a horizontal prism", "prism up": "a vertical prism", "axis": "an axis", "add": "an addition"}
    return names.get(what, f"a {what}")


def _distance_name(which: str) -> str:
    names = {"binocular": "pupillary distance", "near": "near pupillary distance"}
    return names.get(which, f"{which} eye's pupillary distance")
