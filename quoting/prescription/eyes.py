"""Sphere, cylinder and axis of the eye that was named last: by label, by mark, or by their order."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import dataclass, field

from quoting.prescription import figures
from quoting.prescription.cursor import Cursor
from quoting.prescription.figures import written
from quoting.prescription.lexemes import Lexeme
from quoting.prescription.words import EYES
from quoting.written.kinds import Fault

BASE_ROLES = ("in", "out", "up", "down", "base")
# what may follow R, L, right, left, re, le for them to mean an eye; elsewhere they are ordinary words
FOLLOWS_EYE = frozenset(
    ("sphere", "cylinder", "axis", "x", "add", "prism", "pd", "near pd", "plano", "infinity", "balance", *BASE_ROLES)
)
BELONGS_TO_EYE = frozenset(("sphere", "cylinder", "axis", "x", "plano", "prism", "diopter", "degree", *BASE_ROLES))
STRAY = Fault("unreadable", "cannot be read here", "name what it is, or delete it if it is not of the prescription")
# A bare whole number of this size is no power; Dodgson, Proc. SPIE 5291 (2004) 36: nearly all adults have 45 to 80 mm
PERHAPS_PD = range(45, 81)
MAYBE_PD = Fault("unreadable", "cannot be read here", "write PD before it, if it is the pupillary distance")
NO_VALUE = Fault("unreadable", "has no value", "write its number behind it, or delete the word")
# (practice) some write it for a lens without power, some for the distance at which it is worn
INFINITY = Fault("unreadable", "is no power", "write plano where it is zero; delete it if it means distance")
DASH = "may be a minus or a dash"
EYE_BEHIND = Fault("eye-behind", "stands behind a value", "write each eye before what is meant for it")
NO_AXIS_YET = Fault("unreadable", "stands where the axis belongs", "write the axis behind the cylinder, such as x 090")
DEFAULT_ADD = "write add before it, if it is one"


@dataclass(slots=True)
class Eyes:
    """The eye being spoken of, and what of it was filled since it was named."""

    cursor: Cursor
    sides: tuple[str, ...] = ()
    filled: list[str] = field(default_factory=list)
    spherical: bool = False  # "sph" or "DS" stood behind the sphere: a cylinder must show itself
    muted: bool = False  # the eye was given before: told once, the rest is only listed
    loose_adds: list[tuple[str, bool]] = field(default_factory=list)  # (eye, whether it stood apart)

    @property
    def name(self) -> str:
        """The eye in words."""
        return "both eyes" if len(self.sides) > 1 else f"{self.sides[0]} eye"

    def eye(self, lexeme: Lexeme) -> None:
        """An eye is named."""
        cursor = self.cursor
        follows = follows_eye(cursor)
        if not follows and _stands_behind_value(cursor):
            cursor.refuse([lexeme], EYE_BEHIND)
        elif lexeme.role.endswith("?") and not follows:
            cursor.prose(lexeme)
        else:
            self.begin(lexeme)

    def begin(self, lexeme: Lexeme) -> None:
        """From here on this eye is spoken of."""
        cursor = self.cursor
        self.sides = EYES[lexeme.role.rstrip("?")]
        self.filled, self.spherical, self.muted = [], False, False
        if len(self.sides) == 1 and not cursor.is_role("pd", "near pd"):
            cursor.draft.name(self.sides, cursor.mark([lexeme]))
        cursor.tell([lexeme], self.name)
        after = cursor.peek(line=True)
        if after is not None and after.kind in ("word", "symbol") and not after.role:
            cursor.draft.instead |= dict.fromkeys(self.sides, (cursor.mark([after]), after.text))

    def infinity(self, lexeme: Lexeme) -> None:
        """``∞``: for some it means far, for some no power; as a power it is asked for."""
        self.cursor.refuse([lexeme], INFINITY)
        if "sphere" not in self.filled:
            self.put([lexeme], "sphere", None, "")

    def put(self, parts: list[Lexeme], what: str, value: float | None, meaning: str) -> None:
        """Give the eye a value that was read, and say so."""
        mark = self.cursor.mark(parts)
        self.filled.append(what)
        if value is None:
            self.cursor.draft.miss(self.sides, what, mark)
        elif self.muted or not self.cursor.draft.put(self.sides, what, value, mark):
            self.muted = self.muted or what == "sphere"
            self.cursor.tell(parts, f"not used: {self.name}, {meaning}, given twice")
        else:
            self.cursor.tell(parts, f"{self.name}, {meaning}")

    def power(self, parts: list[Lexeme], what: str) -> None:
        """A sphere or cylinder whose number is the last of these pieces."""
        number = parts[-1]
        parts = parts + self._unit("diopter")
        value = self._power_value(parts, number)
        shown = "" if value is None else f"{what} {written(value)} D"
        self.put(parts, what, value, "plano (sphere 0.00 D)" if value == 0 and what == "sphere" else shown)

    def degrees(self, parts: list[Lexeme]) -> None:
        """An axis whose number is the last of these pieces."""
        plain = parts[-1].plain
        parts = parts + self._unit("degree")
        value = self.cursor.value(parts, figures.axis, plain)
        if value == 180 and plain.strip("0.,") == "":
            said = f"axis {plain} is read as 180: the same meridian"
            self.cursor.draft.say(self.cursor.mark(parts), "axis-zero", said, "write 180", "note")
        self.put(parts, "axis", value, "" if value is None else f"axis {value:g}°")

    def _power_value(self, parts: list[Lexeme], number: Lexeme) -> float | None:
        if number.role == "plano":
            return 0.0
        if number.role == "dash":
            hint = f"write {number.plain} if minus is meant, else a colon"
            self.cursor.refuse(parts, Fault("dash-or-minus", DASH, hint))
            return None
        return self.cursor.value(parts, figures.power, number.plain)

    def _unit(self, role: str) -> list[Lexeme]:
        at = self.cursor.at
        here = self.cursor.pieces[at : at + 1]
        return [self.cursor.take()] if here and here[0].role == role else []

    # --- one piece of an eye ---

    def label(self, lexeme: Lexeme) -> None:
        """``sph``, ``DS``, ``cyl``: before its number, or behind it."""
        cursor, what = self.cursor, lexeme.role
        if self.sides and self.filled[-1:] == [what]:
            self.spherical = self.spherical or what == "sphere"
            cursor.tell([lexeme], "diopters sphere" if what == "sphere" else "diopters cylinder")
        elif self.sides and (number := cursor.accept_number() or cursor.accept("plano")):
            self.power([lexeme, *number], what)
        elif self.sides and what == "cylinder" and (empty := cursor.accept_nothing() or cursor.accept("sphere")):
            self.filled.append(what)
            cursor.tell([lexeme, *empty], f"{self.name}, no cylinder")
        elif not self.sides and cursor.is_number():
            self.homeless(lexeme)
        else:
            cursor.refuse([lexeme], NO_VALUE)

    def axis(self, lexeme: Lexeme) -> None:
        """``x``, ``@``, ``axis`` before a number."""
        cursor = self.cursor
        if lexeme.role == "axis" and self.filled[-1:] == ["axis"]:
            cursor.tell([lexeme], "degrees of axis")
        elif self.sides and (number := cursor.accept_number()):
            self.degrees([lexeme, *number])
        elif cursor.is_number():
            self.homeless(lexeme)
        elif lexeme.role == "axis" and (empty := cursor.accept_nothing()):
            cursor.tell([lexeme, *empty], "no axis")
        elif lexeme.role == "axis" or self.filled[-1:] == ["cylinder"]:
            cursor.refuse([lexeme], Fault("unreadable", "has no number behind it", "write the axis, such as x 090"))
        else:
            cursor.prose(lexeme)

    def number(self, lexeme: Lexeme) -> None:
        """A number without a label: what it is follows from what the eye has already."""
        cursor = self.cursor
        slot = self._slot(lexeme) if self.sides else "none"
        if slot == "none":
            self.homeless(lexeme)
        elif slot == "axis":
            self.degrees([lexeme])
        elif lexeme.plain.isdigit() and int(lexeme.plain[:3]) in PERHAPS_PD:
            cursor.refuse([lexeme], MAYBE_PD)
        elif slot == "add":
            self._add_by_place(lexeme)
        elif slot:
            self.power([lexeme], slot)
        else:
            lacks_axis = "cylinder" in self.filled and "axis" not in self.filled
            cursor.refuse([lexeme], NO_AXIS_YET if lacks_axis else STRAY)

    def _slot(self, lexeme: Lexeme) -> str:
        """The field a bare number is for, by the usual order; empty where it has no place."""
        plus = lexeme.plain[0] == "+"
        if "sphere" not in self.filled:
            return "sphere"
        if "cylinder" not in self.filled and "axis" not in self.filled:
            if not self.spherical or self._shows_cylinder():
                return "cylinder"
            return "add" if plus else ""
        if "axis" not in self.filled and lexeme.plain.isdigit():
            return "axis"
        complete = "axis" in self.filled or self._no_cylinder()
        return "add" if plus and complete and "add" not in self.filled else ""

    def _shows_cylinder(self) -> bool:
        """Behind ``-2.50 DS``: whether what follows a number makes it a cylinder."""
        after = self.cursor.peek(line=True)
        return after is not None and (after.role in ("cylinder", "axis", "x") or after.plain.isdigit())

    def _no_cylinder(self) -> bool:
        given = [self.cursor.draft.eyes[side].get("cylinder") for side in self.sides]
        return all(one is None or one.value == 0 for one in given)

    def _add_by_place(self, lexeme: Lexeme) -> None:
        value = self.cursor.value([lexeme], figures.addition)
        if value is not None:
            said = f"`{lexeme.text}` stands behind a complete power and is read as the addition"
            self.cursor.draft.say(self.cursor.mark([lexeme]), "add-by-place", said, DEFAULT_ADD, "warning")
        self.put([lexeme], "add", value, f"addition {written(value or 0.0)} D")

    def homeless(self, first: Lexeme) -> None:
        """Numbers before any eye was named: one error for the whole stretch."""
        cursor, parts = self.cursor, [first]
        while (after := cursor.peek(line=True)) is not None:
            if after.kind not in ("number", "broken") and after.role not in BELONGS_TO_EYE:
                break
            parts.append(cursor.skip_to())
        if len(parts) == 1 and first.plain[0] not in "+-":
            cursor.refuse(parts, STRAY)
            return
        said = "is given for no eye"
        cursor.refuse(parts, Fault("eye-missing", said, "write OD for the right eye or OS for the left eye before it"))


def _stands_behind_value(cursor: Cursor) -> bool:
    """``2 BI OD``: whether the piece just taken follows a value, with nothing but a bracket between."""
    before = cursor.before()
    if before is not None and before.plain == "(":
        before = cursor.before(2)
    return before is not None and (before.kind == "number" or before.role in BELONGS_TO_EYE)


def follows_eye(cursor: Cursor, ahead: int = 0) -> bool:
    """Whether something of an eye comes next."""
    after = cursor.peek(ahead)
    return after is not None and (after.kind in ("number", "broken") or after.role in FOLLOWS_EYE)
