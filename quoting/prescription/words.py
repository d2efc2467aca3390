"""What the words on a slip stand for.

Usage: abbreviations as opticians write them (practice); terms ISO 13666.

>>> [(lexeme.plain, lexeme.role) for lexeme in known(Slip("Right eye - 2.25, base-in"))]
[('Right eye', 'R'), ('-2.25', 'dash'), (',', ''), ('base-in', 'in')]
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from dataclasses import replace

from quoting.prescription.lexemes import Lexeme, Slip, lexemes

EYES = {"R": ("right",), "L": ("left",), "B": ("right", "left"), "B-LR": ("left", "right")}
BASES = ("in", "out", "up", "down")

# role -> how it is written; a role that ends in "?" counts only where the neighbors agree
WRITTEN: dict[str, str] = {
    "R": "od; right eye; r eye; oculus dexter",
    "L": "os; left eye; l eye; oculus sinister",
    "B": "ou; both eyes; each eye; oculi uterque; oculus uterque",
    "R?": "r; re; right",
    "L?": "l; le; left; og; oi",
    "B?": "both; each",
    "sphere": "sph; sphere; spherical; ds",
    "cylinder": "cyl; cylinder; dc",
    "axis": "axis; ax; axe; achse",
    "x": "x",
    "add": "add; addition; near add; reading add; near addition; reading addition",
    "prism": "prism; prisms; prismatic",
    "base": "base",
    "in": "bi; base in",
    "out": "bo; base out",
    "up": "bu; base up",
    "down": "bd; base down",
    "in?": "in",
    "out?": "out",
    "up?": "up",
    "down?": "down",
    "pd": "pd; pds; ipd; dpd; dp; pupillary distance; pupillary distances; pupil distance; interpupillary distance;"
    " distance pd; far pd; binocular pd; mono pd; monocular pd; monocular pds; mono pds",
    "near pd": "npd; near pd; reading pd; pd near; near pupillary distance",
    "near?": "near",
    "far?": "distance; far",
    "plano": "plano; pl; plo; sph plan; sphere plan",
    "none": "none; nil; no; without",
    "balance": "balance; bal",
    "diopter": "d; dpt; dptr; diopter; diopters; dioptre; dioptres",
    "mm": "mm; millimeters; millimetres",
    "degree": "deg; degree; degrees",
    "minus": "minus",
    "plus": "plus",
    "aside": "vertex; vertex distance; back vertex distance; bvd; va; visual acuity",
    "until": "expires; expiry; expiration; expiry date; expiration date; valid until; exp",
    "born": "dob; born; birth; date of birth; birth date; birthday",
    "numeral": "zero; one; two; three; four; five; six; seven; eight; nine; ten; twelve; fifteen; twenty; thirty;"
    " forty; fifty; sixty; seventy; eighty; ninety; hundred; half; quarter; quarters",
    "and?": "and",
    "is?": "is; are; was; of",
    "a?": "a",
}
# The same in Spanish; what opticians write there (practice)
SPANISH: dict[str, str] = {
    "R": "ojo derecho",
    "L": "ojo izquierdo",
    "B": "ambos ojos; ao",
    "R?": "derecho; dcho",
    "L?": "izquierdo; izq; izdo",
    "B?": "ambos",
    "sphere": "esf; esfera; esférica; esferica",
    "cylinder": "cil; cilindro; cilíndrica; cilindrica",
    "axis": "eje",
    "add": "ad; adición; adicion",
    "prism": "prisma; prismas",
    "in": "base interna; base nasal",
    "out": "base externa; base temporal",
    "up": "base superior",
    "down": "base inferior",
    "in?": "interna; interno",
    "out?": "externa; externo",
    "up?": "superior",
    "down?": "inferior",
    "pd": "dip; dnp; distancia interpupilar; distancia nasopupilar; distancias nasopupilares; dip de lejos; dip lejos",
    "near pd": "dip de cerca; dip cerca",
    "near?": "cerca",
    "far?": "lejos",
    "plano": "neutro; neutra",
    "none": "ninguno; ninguna; sin",
    "diopter": "dioptría; dioptrías; dioptria; dioptrias",
    "mm": "milímetros; milimetros",
    "degree": "grado; grados",
    "minus": "menos",
    "plus": "más; mas",
    "and?": "y",
    "is?": "es; de",
    "aside": "vértice; vertice; av; agudeza visual",
    "until": "caduca; válida hasta; valida hasta",
    "born": "nacimiento; fecha de nacimiento",
}
ROLES = {
    tuple(phrase.split()): role
    for vocabulary in (SPANISH, WRITTEN)
    for role, text in vocabulary.items()
    for phrase in text.split("; ")
}
LONGEST = max(len(phrase) for phrase in ROLES)
SYMBOLS = {"^": "prism", "@": "x", "°": "degree", "∞": "infinity"}
# These may touch a number without changing it; any other sign makes it unreadable ("$63", "63%", "63?")
HARMLESS = frozenset("/,;:|=()[]{}.\"'!&•·“”‘’«»")
LABELS = ("sphere", "cylinder", "axis", "add", "pd", "near pd", "prism")
OPPOSITE = {"R": "L", "R?": "L", "L": "R", "L?": "R"}


def known(slip: Slip) -> list[Lexeme]:
    """The pieces of a slip with their roles: phrases, pairs of eyes and loose signs put together."""
    return _spoilt(_labels(_pairs(_signs(_phrases(lexemes(slip), slip), slip), slip), slip), slip)


def word_of(lexeme: Lexeme) -> str:
    """The word as the vocabulary has it."""
    return lexeme.plain.lower().replace(".", "").replace("’", "'")


def joined(parts: list[Lexeme], slip: Slip, role: str, plain: str = "") -> Lexeme:
    """Neighboring pieces as one."""
    start, end = parts[0].start, parts[-1].end
    text = slip.text[start:end]
    return Lexeme(parts[-1].kind, text, plain or " ".join(text.split()), start, end, role)


def _phrases(pieces: list[Lexeme], slip: Slip) -> list[Lexeme]:
    """The longest phrase of the vocabulary at each place."""
    found: list[Lexeme] = []
    at = 0
    while at < len(pieces):
        run = _run(pieces, at)
        role, used = "", 1
        for count in range(min(LONGEST, len(run)), 0, -1):
            role = ROLES.get(tuple(word_of(piece) for piece in run[:count]), "")
            if role:
                used = pieces.index(run[count - 1], at) - at + 1
                break
        role = role or SYMBOLS.get(pieces[at].plain, "")
        parts = pieces[at : at + used]
        found.append(joined(parts, slip, role) if used > 1 else replace(pieces[at], role=role))
        at += used
    return found


def _run(pieces: list[Lexeme], at: int) -> list[Lexeme]:
    """The words from here on that may make a phrase: apart by spaces or one glued hyphen."""
    run: list[Lexeme] = []
    while at < len(pieces) and pieces[at].kind == "word" and len(run) < LONGEST:
        run.append(pieces[at])
        follows = pieces[at + 1 : at + 3]
        hyphen = len(follows) == 2 and follows[0].plain == "-" and follows[0].touches(pieces[at])
        at += 2 if hyphen and follows[1].touches(follows[0]) else 1
    return run


def _signs(pieces: list[Lexeme], slip: Slip) -> list[Lexeme]:
    """A sign apart from its number joins it.  Role ``dash``: it may as well be a dash and must not count as minus."""
    found: list[Lexeme] = []
    at = 0
    while at < len(pieces):
        here = pieces[at]
        after = pieces[at + 1] if at + 1 < len(pieces) else None
        loose = here.kind == "symbol" and here.plain in "+-"
        sign = here.plain if loose else {"minus": "-", "plus": "+"}.get(here.role, "")
        if not sign or after is None or after.kind != "number" or after.plain[0] in "+-":
            found.append(here)
            at += 1
            continue
        before = found[-1] if found else None
        role = "dash" if loose and sign == "-" and _dash_follows(before) else "apart"
        found.append(joined([here, after], slip, role, sign + after.plain))
        at += 2
    return found


def _dash_follows(before: Lexeme | None) -> bool:
    """Behind a number or a separator a loose minus is a minus; behind a word or at a line's start, who knows."""
    return before is None or not (before.kind == "number" or (before.kind == "symbol" and before.plain in ":=/|(,;"))


def _pairs(pieces: list[Lexeme], slip: Slip) -> list[Lexeme]:
    """``R/L``, ``OD & OS``, ``right and left`` as one: both eyes, in the order written."""
    found: list[Lexeme] = []
    at = 0
    while at < len(pieces):
        trio = pieces[at : at + 3]
        link = len(trio) == 3 and (trio[1].plain in "/&+" or trio[1].role == "and?")
        if link and trio[0].role in OPPOSITE and trio[2].role.rstrip("?") == OPPOSITE[trio[0].role]:
            sure = "" if "?" not in trio[0].role else "?"
            order = "B" if trio[0].role[0] == "R" else "B-LR"
            found.append(joined(trio, slip, order + sure))
            at += 3
        else:
            found.append(pieces[at])
            at += 1
    return found


def _labels(pieces: list[Lexeme], slip: Slip) -> list[Lexeme]:
    """``PD is 63``: the verb belongs to the label.  ``A 90``: an axis."""
    found: list[Lexeme] = []
    for at, piece in enumerate(pieces):
        after = pieces[at + 1] if at + 1 < len(pieces) else None
        number = after is not None and after.kind == "number"
        if piece.role == "is?" and number and found and found[-1].role in LABELS:
            found[-1] = joined([found[-1], piece], slip, found[-1].role)
        elif piece.role == "a?":
            found.append(replace(piece, role="x" if after is not None and after.plain.isdigit() else ""))
        else:
            found.append(piece)
    return found


def _spoilt(pieces: list[Lexeme], slip: Slip) -> list[Lexeme]:
    """A number that touches a strange sign or an unknown word is not readable, and both are one."""
    found: list[Lexeme] = []
    for piece in pieces:
        before = found[-1] if found else None
        if before is not None and piece.touches(before) and _spoil(before, piece):
            found[-1] = replace(joined([before, piece], slip, ""), kind="broken")
        else:
            found.append(piece)
    return found


def _spoil(before: Lexeme, piece: Lexeme) -> bool:
    if "break" in (before.kind, piece.kind):
        return False
    numbers = [one.kind in ("number", "broken") for one in (before, piece)]
    if all(numbers):
        return "broken" in (before.kind, piece.kind)
    other = piece if numbers[0] else before
    if not any(numbers) or other.role:
        return False
    return other.kind == "word" or (other.kind == "symbol" and other.plain not in HARMLESS)
