"""The tint of a quote in words and figures, from what its link holds: recipe, light, category, driving."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.languages import _
from quoting.light.glass import CLEAR, takes
from quoting.offers import Ask
from quoting.quoted import records
from quoting.show import amounts
from quoting.show.quote_words import TINTED
from quoting.show.tint_record import ALWAYS, BY_DAY, mirror_record, passed_records, tint_record
from quoting.show.tint_words import PAGE, percents
from quoting.show.tints import why_not

# From this filter category on a lens is for the sun; past the last one it is darker than any.   Source: ISO 12312-1
SUN, DARKER_THAN_ANY = 2, 5


def plain(hundredths: int) -> str:
    """A percentage or a part without needless decimals."""
    return amounts.plain(hundredths / 100)


def tint_dict(quote: records.Quote, pair: records.Pair) -> dict[str, object]:
    """The tint and mirror of a pair for programs, as the link holds them; nothing where it has none."""
    if pair["tint"] is None and pair["mirror"] is None:
        return {}
    return {"tint": tint_of(quote, pair), "mirror": pair["mirror"], "passed": pair["passed"]}


def ask_dict(ask: Ask, package: Package, catalog: Catalog) -> dict[str, object]:
    """The same of what is asked for."""
    if ask.mix is None and not ask.mirror:
        return {}
    tint = None if ask.mix is None else tint_record(ask.mix, catalog)
    passed = passed_records(catalog, package, ask.mix, ask.mirror)
    return {"tint": tint, "mirror": mirror_record(ask.mirror, catalog), "passed": passed}


def tint_of(quote: records.Quote, pair: records.Pair) -> records.Tint | None:
    """The tint of a pair."""
    return None if pair["tint"] is None else quote["tints"][pair["tint"]]


def recipe_text(tint: records.Tint) -> str:
    """Parts of dyes, and how much light they take."""
    parts = ", ".join(f"{plain(dye['share'])} {dye['name']}" for dye in tint["dyes"])
    bottom = tint["bottom"]
    if bottom is None or bottom == tint["top"]:
        return _(PAGE["recipe"]).format(parts=parts, top=plain(tint["top"]))
    ends = {"first": plain(tint["fade_from"]), "last": plain(tint["fade_to"])}
    return _(PAGE["recipe-fading"]).format(parts=parts, top=plain(tint["top"]), bottom=plain(bottom), **ends)


def name_text(tint: records.Tint) -> str:
    """Name, order code and recipe."""
    said = {"name": tint["name"], "code": tint["code"], "recipe": recipe_text(tint)}
    key = "tint-book" if tint["code"] else "tint-named" if tint["name"] else "tint-own"
    return _(TINTED[key]).format(**said)


def short_text(quote: records.Quote, pair: records.Pair) -> str:
    """What tells the tint from another one in a list; "" where there is none."""
    tint = tint_of(quote, pair)
    if tint is None:
        return ""
    return _(TINTED["tint-short" if tint["name"] else "tint-short-own"]).format(name=tint["name"])


def brief_text(quote: records.Quote, pair: records.Pair) -> str:
    """The same, and what forbids driving even by day."""
    never = min((one["driving"] for one in pair["passed"]), default=ALWAYS)
    said = [short_text(quote, pair), _(TINTED[f"tint-driving-{never}"]) if never < BY_DAY else ""]
    return ". ".join(part for part in said if part)


def tint_lines(quote: records.Quote, pair: records.Pair) -> list[str]:
    """Everything about the tint of a pair; nothing where it has none."""
    return _lines(tint_of(quote, pair), pair["mirror"], pair["passed"], bool(pair["measures"]["child"]))


def ask_lines(ask: Ask, package: Package, catalog: Catalog) -> list[str]:
    """The same of what is asked for, before it is a quote; and why the lens does not take it, where it does not."""
    tint = None if ask.mix is None else tint_record(ask.mix, catalog)
    passed = passed_records(catalog, package, ask.mix, ask.mirror)
    told = _lines(tint, mirror_record(ask.mirror, catalog), passed, ask.measures.child)
    code = takes(catalog, package, ask.mix.deepest) if ask.mix is not None else ""
    return [*told, _(PAGE["not-taken"]).format(why=why_not(package, code))] if code else told


def _lines(
    tint: records.Tint | None, mirror: records.Mirror | None, passed: list[records.Passed], child: bool
) -> list[str]:
    told = []
    if tint is not None:
        told.append(name_text(tint))
    if mirror is not None:
        told.append(_(TINTED["tint-mirror"]).format(name=mirror["name"]))
    for state in dict.fromkeys(one["state"] for one in passed):
        told.append(_light([one for one in passed if one["state"] == state], state))
    if passed:
        told.append(_(TINTED[f"tint-driving-{min(one['driving'] for one in passed)}"]))
    if child and any(one["category"] >= SUN for one in passed):
        told.append(_(TINTED["tint-child"]))
    return told


def _light(at: list[records.Passed], state: str) -> str:
    """What passes in one state: of a gradient at the top, in the middle and at the bottom."""
    category = max(one["category"] for one in at)
    darker = "-5" if category == DARKER_THAN_ANY else ""
    values = [percents(one["percent"] / 100) for one in at]
    least = percents(min(one["percent"] for one in at) / 100)
    said = {"category": category, "degrees": state, "percent": least}
    if state != CLEAR:
        return _(TINTED[f"tint-dark{darker}"]).format(**said)
    if len(values) == 3:
        places = dict(zip(("top", "middle", "bottom"), values, strict=True))
        return _(TINTED[f"tint-fading{darker}"]).format(**said, **places)
    return _(TINTED[f"tint-light{darker}"]).format(**said)
