"""One ``lensSpecification`` of a FHIR VisionPrescription."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from quoting.prescription.draft import SIDES, Draft
from quoting.prescription.figures import eighth, written
from quoting.prescription.json_marks import Json, JsonSheet, Path, shown
from quoting.written.kinds import Fault, nearest, quoted

# HL7 FHIR, VisionPrescription.lensSpecification: the elements, by what becomes of them here
ONLY_CONTACTS = ("power", "backCurve", "diameter", "duration")
UNUSED = ("color", "brand")
KNOWN = (
    "id", "extension", "modifierExtension", "product", "eye", "sphere", "cylinder", "axis", "prism", "add",
    *ONLY_CONTACTS, *UNUSED, "note",
)  # fmt: skip
BASES = ("in", "out", "up", "down")  # HL7 FHIR code system vision-base-codes
CONTACT, LENS = "contact", "lens"  # HL7 FHIR example code system ex-visionprescriptionproduct
MOST_POWER = 100  # no lens is stronger; beyond, the decimal point was lost
MOST_PRISM = 100
ASK = "ask the sender"


def read_lens(sheet: JsonSheet, draft: Draft, path: Path, lens: dict[str, Json]) -> None:
    """Read one lens; what is wrong with it is told, and contact lenses are refused."""
    if _is_contact(lens):
        said = "this prescribes contact lenses; glasses cannot be made from it"
        hint = "ask the prescriber for a prescription for glasses: its powers are different"
        draft.say(sheet.mark((*path, "product")), "contact-lenses", said, hint)
        return
    side = lens.get("eye")
    if not isinstance(side, str) or side not in SIDES:
        said = "has no `eye`" if side is None else f"is for {shown(side)}, which is neither right nor left"
        draft.say(sheet.mark((*path, "eye")), "eye-code", f"{_words(path)} {said}", "it must say right or left")
        return
    mark = sheet.mark((*path, "eye"))
    if side in draft.named:
        said = f"the {side} eye is given twice: see line {draft.named[side].line}"
        draft.say(mark, "eye-twice", said, "keep the one that is meant")
        return
    draft.name((side,), mark)
    draft.token(mark, side, f"{side} eye")
    for what, read in READERS.items():
        _field(sheet, draft, (*path, what), lens.get(what), side, read)
    _prisms(sheet, draft, (*path, "prism"), lens.get("prism"), side)
    _tell_rest(sheet, draft, path, lens)


def _is_contact(lens: dict[str, Json]) -> bool:
    """By its product code; where that says nothing, by what only contact lenses have."""
    words = _product_words(lens)
    if any(CONTACT in word for word in words):
        return True
    return LENS not in words and any(key in lens for key in ("power", "backCurve"))


def _product_words(lens: dict[str, Json]) -> set[str]:
    """Codes and texts of the product, which is a CodeableConcept, in lower case."""
    product = lens.get("product")
    if not isinstance(product, dict):
        return set()
    codings = product.get("coding")
    entries = [product, *(codings if isinstance(codings, list) else [])]
    words = (entry.get(key) for entry in entries if isinstance(entry, dict) for key in ("code", "display", "text"))
    return {word.lower() for word in words if isinstance(word, str)}


def _power(value: Decimal) -> float | Fault:
    if abs(value) >= MOST_POWER:
        return Fault("not-a-power", "is no power of a lens", "has the decimal point been lost?")
    return eighth(value)


def _addition(value: Decimal) -> float | Fault:
    if value < 0:
        return Fault("add-minus", "is minus, and an addition is always plus", "look again at the prescription")
    return _power(value)


def _axis(value: Decimal) -> float | Fault:
    if value != int(value):
        return Fault("axis-not-whole", "is not a whole number of degrees", ASK)
    if not 0 <= value <= 180:
        return Fault("axis-range", "is no axis: axes run from 1 to 180", "look again at the prescription")
    return int(value) or 180


READERS: dict[str, Callable[[Decimal], float | Fault]] = {
    "sphere": _power,
    "cylinder": _power,
    "axis": _axis,
    "add": _addition,
}


def _field(
    sheet: JsonSheet, draft: Draft, path: Path, given: Json, side: str, read: Callable[[Decimal], float | Fault]
) -> None:
    """One number of the lens."""
    what = str(path[-1])
    if given is None:
        return
    mark = sheet.mark(path)
    value = _number(given, read)
    if isinstance(value, Fault):
        draft.say(mark, value.code, f"`{what}` of the {side} eye, {shown(given)}, {value.said}", value.hint)
        draft.miss((side,), what, mark)
        return
    if what == "axis" and given == 0:
        draft.say(mark, "axis-zero", "axis 0 is read as 180: the same meridian", "write 180", "note")
    draft.put((side,), what, value, mark)
    meant = f"{value:g}°" if what == "axis" else f"{written(value)} D"
    draft.token(mark, str(given), f"{side} eye, {'addition' if what == 'add' else what} {meant}")


def _number(given: Json, read: Callable[[Decimal], float | Fault]) -> float | Fault:
    if not isinstance(given, Decimal):
        quotes = "a number stands without quotes: -2.25"
        return Fault("not-a-number", "is no number", quotes if isinstance(given, str) else ASK)
    return read(given)


def _prisms(sheet: JsonSheet, draft: Draft, path: Path, given: Json, side: str) -> None:
    """The prisms; an oblique one is a pair, in or out with up or down."""
    if given is None:
        return
    for at, prism in enumerate(given if isinstance(given, list) else [given]):
        mark = sheet.mark((*path, at))
        amount = prism.get("amount") if isinstance(prism, dict) else None
        base = prism.get("base") if isinstance(prism, dict) else None
        if not isinstance(amount, Decimal) or not 0 <= amount < MOST_PRISM or base not in BASES:
            said = f"a prism of the {side} eye has amount {shown(amount)} and base {shown(base)}"
            draft.say(mark, "prism-unreadable", said, "it needs a number from 0 on, and in, out, up or down")
        elif amount and draft.put_prism((side,), float(amount), str(base), mark):
            draft.token(mark, f"{amount} {base}", f"{side} eye, prism {amount:f}Δ base {base}")


def _tell_rest(sheet: JsonSheet, draft: Draft, path: Path, lens: dict[str, Json]) -> None:
    """What was not read, and whether it matters."""
    for key, value in lens.items():
        mark = sheet.mark((*path, key))
        if key == "modifierExtension":
            said = "`modifierExtension` changes what this lens means, in a way that is not known here"
            draft.say(mark, "modifier-unknown", said, "ask the sender what it says")
        elif key == "note":
            said = f"the prescriber left a note: {quoted(_note(value), 200)}"
            draft.say(mark, "prescriber-note", said, "read it: it may change what is to be made", "warning")
        elif key in ONLY_CONTACTS:
            said = f"`{key}` is about contact lenses and is not used for glasses"
            draft.say(mark, "not-used", said, "look whether the right product was prescribed", "warning")
        elif key in UNUSED:
            draft.say(mark, "not-used", f"`{key}` {shown(value)} is not used", "choose it with the lens", "note")
        elif key.lstrip("_") not in KNOWN:
            close = nearest(key, KNOWN)
            hint = f"did you mean `{close}`?" if close else ASK + " what it says"
            said = f"{quoted(key)} is no element of a lens specification: not read"
            draft.say(mark, "unknown-field", said, hint, "warning")
    if LENS not in _product_words(lens):
        said = f"{_words(path)} does not say that it is for glasses (product code `lens`)"
        draft.say(sheet.mark((*path, "product")), "product-unknown", said, "make sure that it is", "warning")


def _note(value: Json) -> str:
    notes = value if isinstance(value, list) else [value]
    texts = [note.get("text") if isinstance(note, dict) else note for note in notes]
    return " / ".join(str(text) for text in texts)


def _words(path: Path) -> str:
    """Which lens, for people who do not count from 0."""
    number = path[-1]
    return f"lens specification {number + 1 if isinstance(number, int) else number}"
