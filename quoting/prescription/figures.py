"""Written numbers of a prescription: what each may be, and what it is.

A number that cannot be meant is a `Fault`; nothing is repaired in silence.

>>> power("-2,25"), power("+0.12"), axis("005"), axis("000"), pd("31.5")
(-2.25, 0.125, 5, 180, 31.5)
>>> fault = power("-225")
>>> fault.code, fault.hint
('point-missing', 'write -2.25 if that is meant')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from decimal import Decimal

from quoting.written.kinds import Fault

# (practice) eighths are written cut or rounded to two decimals
EIGHTHS = {"12": 0.125, "13": 0.125, "37": 0.375, "38": 0.375, "62": 0.625, "63": 0.625, "87": 0.875, "88": 0.875}
# (practice) whole powers above this are written with their decimals; without a point it has probably been lost
MOST_WITHOUT_POINT = 20
LEAST_PD_MM, MOST_PD_MM = 20.0, 90.0  # outside, it is no pupillary distance, of one eye or of two
# Dodgson, Proc. SPIE 5291 (2004) 36: children from five years on have at least about 40 mm between the pupils
LEAST_BINOCULAR_MM = 40.0
LONGEST = 12  # characters; no number of a prescription is longer


def power(plain: str, signed: bool = True) -> float | Fault:
    """Sphere or cylinder in diopters; ``signed``: a power other than zero must carry its sign."""
    said = plain.replace(",", ".")
    digits = said.lstrip("+-")
    if len(said) > LONGEST:
        return Fault("not-a-power", "is too long for a power", "write it like -2.25")
    if _point_missing(digits):
        return Fault("point-missing", "has no decimal point", _point_hint(said, digits, signed))
    value = _eighth(digits)
    if value >= 100:
        return Fault("not-a-power", "is no power of a lens", "write it like -2.25")
    if signed and value and said[0] not in "+-":
        return Fault("sign-missing", "has no sign", f"write -{digits} or +{digits}, as your slip has it")
    return -value if said[0] == "-" and value else value


def addition(plain: str) -> float | Fault:
    """Addition in diopters; it is always plus."""
    value = power(plain, signed=False)
    if isinstance(value, float) and value < 0:
        return Fault("add-minus", "is minus, and an addition is always plus", "look again at the slip")
    return value


def axis(plain: str) -> int | Fault:
    """Axis in whole degrees, 1 to 180; 0 and 180 are the same meridian."""
    if plain[0] in "+-":
        return Fault("axis-sign", "has a sign, and an axis has none", "write it like x 090")
    whole, _, part = plain.replace(",", ".").partition(".")
    if part.strip("0"):
        return Fault("axis-not-whole", "is not a whole number of degrees", "write it like x 090")
    if len(whole) > 4 or int(whole or "0") > 180:
        return Fault("axis-range", "is no axis: axes run from 1 to 180", "look again at the slip")
    return int(whole or "0") or 180


def prism(plain: str) -> float | Fault:
    """Prism in prism diopters, without sign: the base says the direction."""
    if plain[0] in "+-":
        return Fault("prism-sign", "has a sign; a prism has a base instead", "write it like 2 BI or 1.5 base up")
    value = power(plain, signed=False)
    if isinstance(value, Fault):
        return Fault(value.code, value.said, "write it like 0.5 BU")
    return value


def base_angle(plain: str) -> float | Fault:
    """Base direction in degrees, 0 to 360."""
    value = float(plain.replace(",", ".")) if len(plain) <= LONGEST else 999.0
    if plain[0] in "+-" or value > 360:
        return Fault("base-range", "is no base direction: they run from 0 to 360", "write BI, BO, BU or BD")
    return value


def pd(plain: str) -> float | Fault:
    """Pupillary distance in millimeters, of one eye or of both."""
    said = plain.replace(",", ".")
    part = said.partition(".")[2].rstrip("0")
    if len(said) > LONGEST or said[0] in "+-" or not LEAST_PD_MM <= float(said) <= MOST_PD_MM:
        hint = "write millimeters: 63, or 31.5/32 for each eye"
        return Fault("not-a-pd", "is no pupillary distance in millimeters", hint)
    if len(part) > 1 and part not in ("25", "75"):
        return Fault("not-a-pd", "is too fine for a pupillary distance", "two numbers stand apart: 31.5/32")
    return float(said)


def eighth(value: Decimal) -> float:
    """A number that was not written by hand, with two-decimal eighths as the eighths they are.

    >>> eighth(Decimal("-2.12")), eighth(Decimal("1.5"))
    (-2.125, 1.5)
    """
    size = _eighth(f"{abs(value):f}")
    return -size if value < 0 else size


def written(value: float) -> str:
    """A power as the trade writes it: signed, two decimals, three for eighths.

    >>> written(-2.25), written(0.125), written(0.0)
    ('-2.25', '+0.125', '0.00')
    """
    if value == 0:
        return "0.00"
    text = f"{value:+.3f}"
    return text[:-1] if text.endswith("0") else text


def _point_missing(digits: str) -> bool:
    if "." in digits:
        return False
    return len(digits) > 2 or (len(digits) == 2 and digits[0] == "0") or int(digits) > MOST_WITHOUT_POINT


def _point_hint(said: str, digits: str, signed: bool) -> str:
    """What was probably meant: the point before the last two digits."""
    if len(digits) > 4:
        return "write it like -2.25"
    padded = digits.zfill(3)
    meant = f"{int(padded[:-2])}.{padded[-2:]}"
    if said[0] in "+-":
        return f"write {said[0]}{meant} if that is meant"
    return f"write -{meant} or +{meant}, as your slip has it" if signed else f"write {meant} if that is meant"


def _eighth(digits: str) -> float:
    """The value of a number without sign, with two-decimal eighths as the eighths they are."""
    whole, _, part = digits.partition(".")
    part = part[:2] + part[2:].rstrip("0")
    return int(whole or "0") + EIGHTHS[part] if part in EIGHTHS else float(digits)
