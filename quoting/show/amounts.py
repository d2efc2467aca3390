"""Money, powers and lengths as people read them."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date
from functools import lru_cache

from quoting.kernel.power import on_step
from quoting.languages import _, decimals, pgettext, spoken, spoken_locale
from quoting.locales import written_amount, written_day
from quoting.prescription.model import EyeRx

MINUS = "−"


def money(cents: int, currency: str, locale: str) -> str:
    """An amount in the shop's currency, as the locale that is spoken, else the shop's, writes it (CLDR).

    >>> money(-12990, "USD", "en_US")
    '-$129.90'
    """
    return _money(cents, currency, spoken_locale(locale))


@lru_cache(maxsize=8192)
def _money(cents: int, currency: str, locale: str) -> str:
    return written_amount(cents, currency, locale)


def day(date_: date) -> str:
    """A day as it is written where the language is spoken.

    >>> day(date(2026, 11, 25))
    'Nov 25, 2026'
    """
    return written_day(date_, spoken().locale)


def power(value: float) -> str:
    """A power with its sign and two decimals, three where an eighth needs them.

    >>> power(-6.25), power(0.0), power(0.125)
    ('−6.25', '0.00', '+0.125')
    """
    if value == 0:
        return "0.00"
    written = f"{abs(value):.3f}" if round(abs(value) * 1000) % 10 else f"{abs(value):.2f}"
    return f"{MINUS if value < 0 else '+'}{decimals(written)}"


def mm(value: float, places: int = 1) -> str:
    """A length in millimeters without its unit; never a signed zero.

    >>> mm(5.04), mm(-0.04), mm(-1.5)
    ('5.0', '0.0', '−1.5')
    """
    text = f"{abs(value):.{places}f}"
    return decimals(f"{MINUS}{text}" if value < 0 and float(text) else text)


def plain(value: float) -> str:
    """A number without needless zeros.

    >>> plain(31.5), plain(64.0)
    ('31.5', '64')
    """
    return decimals(f"{value:g}")


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
    parts.append(f"{power(rx.cylinder)} × {axis(rx.axis)}" if rx.cylinder else pgettext("no cylinder", "DS"))
    if rx.add:
        parts.append(_("add {power}").format(power=power(rx.add)))
    if rx.prism_in:
        said = _("prism {amount} in") if rx.prism_in > 0 else _("prism {amount} out")
        parts.append(said.format(amount=mm(abs(rx.prism_in), 2)))
    if rx.prism_up:
        said = _("prism {amount} up") if rx.prism_up > 0 else _("prism {amount} down")
        parts.append(said.format(amount=mm(abs(rx.prism_up), 2)))
    return " ".join(parts)


def band(low: float, high: float) -> str:
    """A range of powers.

    >>> band(-8.0, -6.25)
    '−8.00 to −6.25'
    """
    return _("{low} to {high}").format(low=power(low), high=power(high))


def quarter(value: float) -> str:
    """A power on the step that a list holds it under."""
    return power(on_step(value))
