"""A column map proposed for a file that none fits: from its headings and codes, for its owner to read."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from quoting.catalog.shop import Catalog
from quoting.keeping.cells import Row, Sheet
from quoting.keeping.columns import likely_headings, plain

# How lists of English, German, French, Spanish and Italian makers head their columns (practice)
USUAL = {
    "code": r"code|article|item|product|package|ref|artikel|art|bestell|réf|código|articolo|sku|id",
    "price": r"price|net|list|preis|ek|netto|prix|tarif|precio|prezzo|lens|amount",
    "from": r"from|min|low|von|ab|de|desde|da",
    "to": r"to|max|high|bis|à|hasta|a",
}
PAIR = re.compile(r"pair|paar|paire|\bpar\b|paio")
MOST_CODES = 200
UNKNOWN = '"?"'
NO_SETTINGS: Mapping[str, str] = {}


def makers_in(sheet: Sheet, catalog: Catalog) -> list[str]:
    """The makers of packages whose ids stand in the file, the most frequent first."""
    found = Counter(
        catalog.packages[cell.text].maker for row in sheet.rows for cell in row.cells if cell.text in catalog.packages
    )
    return [maker for maker, _ in found.most_common()]


def proposed(sheet: Sheet, catalog: Catalog, maker: str, settings: Mapping[str, str] = NO_SETTINGS) -> str:
    """The map as YAML; what could not be found in the headings is a question mark, which is refused until answered.

    ``settings`` are those under which the file was read: tab, delimiter, encoding.
    """
    at = likely_headings(sheet)
    headings = [cell.text for cell in sheet.rows[at].cells] if sheet.rows else []
    found = _columns(headings)
    listed = ", ".join(text for text in headings if text)
    lines = [
        f"# Which column of {maker}'s price list is which. Proposed from its headings: read it before you rely on it.",
        f"# Its headings: {listed}",
        f"maker: {_quoted(maker)}",
        "columns:",
        f"  code: {_named(found, 'code')} # the package's id, or the maker's own code (see codes)",
        f"  price: {_named(found, 'price')}",
    ]
    if "from" in found and "to" in found:
        lines += [f"  from: {_named(found, 'from')} # powers, both ends", f"  to: {_named(found, 'to')}"]
    pair = PAIR.search(plain(found.get("price", ""))) is not None
    lines += [f"per: {'pair' if pair else 'lens'} # what a price is for: lens or pair"]
    lines += [f"{name}: {_quoted(value)}" for name, value in settings.items() if value]
    if "code" in found:
        place = [plain(text) for text in headings].index(plain(found["code"]))
        lines += _codes(sheet.rows[at + 1 :], place, catalog, maker)
    return "\n".join(lines) + "\n"


def _columns(headings: Sequence[str]) -> dict[str, str]:
    """By field the heading that means it: one that begins with a usual word before one that holds it."""
    found: dict[str, str] = {}
    for name, words in USUAL.items():
        left = [text for text in headings if text and text not in found.values()]
        for pattern in (
            rf"(?:{words})\b",
            rf".*\b(?:{words})\b",
            rf".*\b(?:{words})" if name in ("code", "price") else "$^",
        ):
            fits = [text for text in left if re.match(pattern, plain(text))]
            if fits:
                found[name] = fits[0]
                break
    return found


def _named(found: dict[str, str], name: str) -> str:
    return _quoted(found[name]) if name in found else f"{UNKNOWN} # write the heading here"


def _codes(rows: Iterable[Row], place: int, catalog: Catalog, maker: str) -> list[str]:
    """The codes that are no ids: a row with a package's name means that package, for others it is to be written."""
    named: dict[str, Row] = {}
    for row in rows:
        if row.cell(place).text:
            named.setdefault(row.cell(place).text, row)
    own = {plain(one.name): one.id for one in catalog.packages.values() if one.maker == maker}
    strange = [code for code in named if code not in catalog.packages][:MOST_CODES]
    meant = {code: _meant(named[code], own) for code in strange}
    if not strange:
        return []
    open_ones = [f"#   {_quoted(code)}: {UNKNOWN}" for code in strange if not meant[code]]
    lines = [f"# The maker's codes and the packages they mean. Packages of {maker}: {', '.join(own.values())}"]
    if open_ones:
        lines.append("# Take away the # before those you keep, and write the package.")
    known = [f"  {_quoted(code)}: {meant[code]}" for code in strange if meant[code]]
    return [*lines, "codes:" if known else "# codes:", *known, *open_ones]


def _meant(row: Row, own: Mapping[str, str]) -> str:
    """The package whose name stands in a row; nothing where none does, or several do."""
    found = {own[name] for cell in row.cells if (name := plain(cell.text)) in own}
    return found.pop() if len(found) == 1 else ""


def _quoted(text: str) -> str:
    """A text as YAML writes it in double quotes."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
