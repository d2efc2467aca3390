"""Money, powers and lengths as people read them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from functools import lru_cache

from quoting.kernel.power import on_step
from quoting.locales import written_amount
from quoting.prescription.model import EyeRx

MINUS = "−"


@lru_cache(maxsize=8192)
def money(cents: int, currency: str, locale: str) -> str:
    """An amount in the shop's currency, written as its locale writes it (Unicode CLDR).

    >>> money(-12990, "USD", "en_US")
    '-$129.90'
    """
    return written_amount(cents, currency, locale)


def power(value: float) -> str:
    """A power with its sign and two decimals, three where an eighth needs them.

    >>> power(-6.25), power(0.0), power(0.125)
    ('−6.25', '0.00', '+0.125')
    """
    if value == 0:
        return "0.00"
    written = f"{abs(value):.3f}" if round(abs(value) * 1000) % 10 else f"{abs(value):.2f}"
    return f"{MINUS if value < 0 else '+'}{written}"


def mm(value: float, places: int = 1) -> str:
    """A length in millimeters without its unit; never a signed zero.

    >>> mm(5.04), mm(-0.04), mm(-1.5)
    ('5.0', '0.0', '−1.5')
    """
    text = f"{abs(value):.{places}f}"
    return f"{MINUS}{text}" if value < 0 and float(text) else text


def axis(degrees: float) -> str:
    """An axis in three figures, as prescriptions are written.

    >>> axis(5)
    '005'
    """
    return f"{round(degrees):03d}"


def eye(rx: EyeRx) -> str:
    """One eye of a prescription on one line.

    >>> eye(EyeRx(-2.25, -0.75, 10, add=2.0, prism_in=-0.5))
    '−2.25 −0.75 × 010 add +2.00 prism 0.50 out'
    """
    parts = [power(rx.sphere)]
    parts.append(f"{power(rx.cylinder)} × {axis(rx.axis)}" if rx.cylinder else "DS")
    if rx.add:
        parts.append(f"add {power(rx.add)}")
    for amount, plus, minus in ((rx.prism_in, "in", "out"), (rx.prism_up, "up", "down")):
        if amount:
            parts.append(f"prism {abs(amount):.2f} {plus if amount > 0 else minus}")
    return " ".join(parts)


def band(low: float, high: float) -> str:
    """A range of powers.

    >>> band(-8.0, -6.25)
    '−8.00 to −6.25'
    """
    return f"{power(low)} to {power(high)}"


def quarter(value: float) -> str:
    """A power on the step that a list holds it under."""
    return power(on_step(value))
