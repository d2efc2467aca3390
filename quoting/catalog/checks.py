"""Sense beyond shape: what each field allows, but not all of them together.

Each check looks only at fields that were read soundly, and tells what it finds at the field to change.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from datetime import date
from functools import cache

from quoting.catalog.model import FAMILIES, Design, Size
from quoting.catalog.shop import Catalog, MountingLimits
from quoting.findings import Finding, Mark
from quoting.kernel.outline import effective_diameter_limits
from quoting.languages import languages as languages_there
from quoting.locales import currencies, currencies_of, currency_in_use, decimals, locale_exists, locale_meant
from quoting.nodes import Record
from quoting.written.figures import length
from quoting.written.kinds import meant_hint, nearest

COUNTED_DECIMALS = 2  # amounts are counted in hundredths (money.py)
DIAMETERS = (25, 105)  # mm: wider than any lens has it (practice)
MULTIFOCAL = ("progressive", "bifocal")  # the kinds that are made to an addition (ISO 13666)
TENTH = 0.05  # EDs are written to a tenth of a millimeter, so half a tenth is no contradiction
# Between these parts of the longer side and of the diagonal every family has an outline (tests/catalog/test_checks.py
# holds them against the kernel): most frames are spared the exact limits, which cost a drawing each.
SURELY_LEAST, SURELY_GREATEST = 1.06, 0.97


@cache
def _diameter_limits(a: float, b: float, family: str) -> tuple[float, float]:
    least, greatest = effective_diameter_limits(a, b, family)
    return least, greatest


def diameter_example(record: Record, a: float, b: float, family: str) -> str:
    """An ED to propose where none can be read: possible in this box for this family, or for any where it is not known.

    It lies a tenth of the way from the least to the greatest: most outlines keep well away from the corners of their
    box (practice).
    """
    if not record.sound("a", "b") or record.reads("ed", length(*DIAMETERS)):
        return "55.0"
    limits = [_diameter_limits(a, b, one) for one in ((family,) if family else FAMILIES)]
    least, greatest = max(low for low, _ in limits), min(high for _, high in limits)
    return f"{least + 0.1 * (greatest - least):.1f}"


def effective_diameter(record: Record, size: Size, family: str) -> None:
    """ED between the least and the greatest that an outline of this family can have in this box."""
    if not family or not record.sound("a", "b", "ed"):
        return
    if SURELY_LEAST * max(size.a, size.b) <= size.ed <= SURELY_GREATEST * math.hypot(size.a, size.b):
        return
    least, greatest = _diameter_limits(size.a, size.b, family)
    if least - TENTH <= size.ed <= greatest + TENTH:
        return
    said = f"no {family} outline in a box of {size.a:g} × {size.b:g} has an effective diameter `ed` of {size.ed:g} mm"
    hint = f"from {least + TENTH:.1f} to {greatest - TENTH:.1f} is possible: measure twice the longest radius again"
    record.fault("ed", "ed-impossible", said, hint)


def wider_than_tall(record: Record, size: Size) -> None:
    """Lenses are hardly ever taller than wide (practice): then width and height were probably exchanged."""
    if record.sound("a", "b") and size.b > size.a:
        said = f"this lens is taller (`b` {size.b:g}) than wide (`a` {size.a:g})"
        record.fault("b", "taller-than-wide", said, "see whether a and b were exchanged", "warning")


def distinct(records: Sequence[Record], keys: Sequence[object], tell: Callable[[Record, Mark], None]) -> None:
    """Tell each record whose key another one had before it, with the place of that one."""
    seen: dict[object, Mark] = {}
    for record, key in zip(records, keys, strict=True):
        if key in seen:
            tell(record, seen[key])
        seen.setdefault(key, record.mark())


def distinct_sizes(records: Sequence[Record], sizes: Sequence[Size]) -> None:
    """Lens width and distance between lenses name a size in links: no two sizes of a frame share both."""
    sound = [(record, size.key) for record, size in zip(records, sizes, strict=True) if record.sound("a", "dbl")]

    def tell(record: Record, first: Mark) -> None:
        said = f"this frame has a size of the same lens width `a` and distance `dbl` in line {first.line}"
        record.fault("a", "duplicate-size", said, "delete one of them, or correct it")

    distinct([record for record, _ in sound], [key for _, key in sound], tell)


def distinct_ids(records: Sequence[Record], ids: Sequence[str], noun: str, where: str) -> None:
    """No two parts of one whole share an id."""
    sound = [(record, key) for record, key in zip(records, ids, strict=True) if record.sound("id")]

    def tell(record: Record, first: Mark) -> None:
        said = f"another {noun} {where} has the same id in line {first.line}"
        record.fault("id", "duplicate-id", said, "give one of the two another id")

    distinct([record for record, _ in sound], [key for _, key in sound], tell)


def distinct_lists(roots: Sequence[Record]) -> None:
    """No two price lists share a version, which quotes name, or a day, from which one of them would have to hold."""
    for name, said in (("version", "has the same version"), ("effective", "holds from the same day on")):
        readable = [root for root in roots if root.has(name) and root.sound(name)]
        values = [root.text(name) for root in readable]

        def tell(root: Record, first: Mark, name: str = name, said: str = said) -> None:
            message = f"another price list {said}: {first.file}"
            root.fault(name, "second-price-list", message, f"give one of the two another `{name}`, or take it away")

        distinct(readable, values, tell)


def rising(record: Record, first: str, second: str, values: tuple[float, float], equal: bool = True) -> None:
    """The first field must lie below the second."""
    low, high = values
    if not record.sound(first, second) or low < high or (equal and low == high):
        return
    relation = "must not be above" if equal else "must be below"
    said = f"{record.called(first)} is {low:g} and {record.called(second)} {high:g}: the first {relation} the second"
    record.fault(first, "reversed", said, "exchange the two, or correct one")


def edges(record: Record, limits: MountingLimits) -> None:
    """Thinnest edge, then caution, then no."""
    rising(record, "min_edge", "edge_caution", (limits.min_edge, limits.edge_caution), equal=False)
    rising(record, "edge_caution", "edge_no", (limits.edge_caution, limits.edge_no))


def dates(record: Record, starts: date | None, ends: date | None, effective: date | None) -> None:
    """A discount ends after it began, and not before its price list holds."""
    if ends is None or not record.sound("from", "until"):
        return
    if starts is not None and starts > ends:
        said = f"the discount ends on {ends}, before it begins on {starts}"
        record.fault("until", "reversed", said, "write the later day as until")
    elif effective is not None and ends < effective:
        said = f"the discount ends on {ends}, before this price list holds (`effective` {effective})"
        record.fault("until", "discount-over", said, "delete the discount, or correct its last day", "warning")


def on_day(catalog: Catalog, day: date) -> list[Finding]:
    """What is odd about a whole catalog on the day that is reckoned with: a price list that does not hold yet."""
    prices = catalog.price_list
    if prices.effective <= day:
        return []
    said = f"this price list holds from {prices.effective} on (`effective`), but the day reckoned with is {day}"
    hint = "until it holds, keep the list before it in prices/ too, or reckon with a later day; or correct `effective`"
    return [Finding(prices.mark, "list-not-yet", said, hint, "warning")]


def absent(record: Record, name: str, owner: str) -> None:
    """A field that means nothing here must not be written, or its writer believes it does."""
    if record.has(name):
        said = f"{record.called(name)} belongs to {owner} only"
        record.fault(name, "does-not-belong", said, "delete it here")


def chart_within_design(records: Sequence[Record], bases: Sequence[float], design: Design) -> None:
    """A base curve chart names only curves that the design is made on."""
    for record, base in zip(records, bases, strict=True):
        if record.sound("base") and not design.base_from <= base <= design.base_to:
            said = f"the base curve {base:g} is not among those of the design `{design.id}`"
            hint = f"it is made from {design.base_from:g} to {design.base_to:g}; correct one of the two"
            record.fault("base", "base-not-made", said, hint)


def one_of_two(record: Record, one: str, other: str) -> bool:
    """Exactly one of two fields must be written."""
    if record.has(one) != record.has(other):
        return True
    if record.has(one):
        said = f"{record.noun} has both `{one}` and `{other}`; it takes one of them"
        record.fault(one, "one-of-two", said, "delete one of the two")
    elif record.complete:
        said = f"{record.noun} has neither `{one}` nor `{other}`; it takes one of them"
        record.fault("", "one-of-two", said, f"add {one} or {other}")
    return False


def worth_something(record: Record, name: str, value: int) -> None:
    """A discount of nothing is a slip."""
    if record.has(name) and record.sound(name) and value == 0:
        record.fault(
            name,
            "nothing-off",
            f"{record.called(name)} is 0: this discount takes nothing off",
            "write how much it takes off, or delete the discount",
        )


def locale(record: Record, name: str) -> None:
    """The locale must be one that can write numbers."""
    if record.sound("locale") and not locale_exists(name):
        meant = locale_meant(name)
        hint = f"did you mean `{meant}`?" if meant else "write language and country of the shop, such as en_US or de_AT"
        said = f"there is no locale `{name}`: no such language in such a country is known"
        record.fault("locale", "unknown-locale", said, hint)


def languages(record: Record, names: tuple[str, ...]) -> None:
    """Each language of the site has a catalog of texts, and stands there once."""
    if not record.sound("languages"):
        return
    known = languages_there()
    for name in names:
        if name not in known:
            said = f"`languages` must hold some of {', '.join(known)}, not `{name}`"
            record.fault("languages", "not-a-choice", said, meant_hint(name, known) or "take one of these")
    if len(set(names)) < len(names):
        record.fault("languages", "duplicate-id", "`languages` holds a language twice", "write each once")


def currency(record: Record, code: str, locale: str) -> None:
    """The currency must be in use, and have as many decimals as we count; the shop's country helps to guess."""
    if not record.sound("currency"):
        return
    if not currency_in_use(code):
        hint = _currency_meant(code, locale)
        record.fault("currency", "unknown-currency", f"no country pays with a currency `{code}`", hint)
    elif decimals(code) != COUNTED_DECIMALS:
        digits = decimals(code)
        said = f"amounts in `{code}` are written with {digits or 'no'} decimals, but prices here are counted with two"
        record.fault("currency", "currency-decimals", said, "take a currency with two decimals, such as EUR or USD")


def _currency_meant(code: str, locale: str) -> str:
    here = tuple(one for one in currencies_of(locale) if decimals(one) == COUNTED_DECIMALS)
    fitting = here if nearest(code, here) else tuple(one for one in currencies() if decimals(one) == COUNTED_DECIMALS)
    known = here[0] if here else "EUR or USD"
    return meant_hint(code, fitting) or f"write the three letters that stand on bank statements, such as {known}"
