"""Quotes of the register, as rows for people and as JSON for programs."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from quoting.catalog.shop import Shop
from quoting.quoted import records
from quoting.quoted.positional import day_of
from quoting.quoted.register import Entry
from quoting.show.amounts import money
from quoting.show.recorded import size_key
from quoting.show.seen import LETTERS
from quoting.show.tint_lines import short_text, tint_dict


def total_of(pairs: Iterable[records.Pair]) -> int:
    """What an alternative comes to, cents."""
    return sum(line["cents"] for pair in pairs for line in pair["lines"])


def pair_dict(quote: records.Quote, pair: records.Pair) -> dict[str, object]:
    """One pair of glasses."""
    frame, lens = quote["frames"][pair["frame"]], quote["lenses"][pair["lens"]]
    return {
        "frame": frame["id"],
        "size": size_key(frame),
        "colorway": frame["color"],
        "package": lens["id"],
        **tint_dict(quote, pair),
        "verdict": pair["verdict"],
        "estimated": pair["estimated"],
        "lines": [
            {"key": line["key"], "text": line["text"], "cents": line["cents"]}
            | ({} if line["listed"] is None else {"listed_cents": line["listed"], "reason": line["reason"]})
            for line in pair["lines"]
        ],
        "total_cents": total_of([pair]),
        "tax_included_cents": pair["tax_included"],
    }


def entry_dict(entry: Entry, day: date) -> dict[str, object]:
    """A quote with what became of it."""
    quote = entry.quote
    return {
        "number": entry.number,
        "customer": entry.customer,
        "email": entry.email,
        "state": entry.state(day),
        "issued": day_of(quote["issued"]).isoformat(),
        "expires": day_of(quote["expires"]).isoformat(),
        "price_list": quote["price_list"],
        "currency": quote["currency"],
        "note": quote["note"],
        "link": entry.link,
        "alternatives": [
            {
                "letter": LETTERS[at],
                "total_cents": total_of(pairs),
                "pairs": [pair_dict(quote, pair) for pair in pairs],
            }
            for at, pairs in enumerate(quote["alternatives"])
        ],
        "events": list(entry.events),
    }


def choice_words(quote: records.Quote) -> str:
    """What is quoted, in short."""
    (first, *_rest), *others = quote["alternatives"]
    frame, lens = quote["frames"][first["frame"]], quote["lenses"][first["lens"]]
    more = f" +{len(_rest)} pair" if _rest else ""
    parts = (f"{frame['name']} {size_key(frame)}", lens["name"], short_text(quote, first))
    return ", ".join(part for part in parts if part) + more + (f", or {len(others)} more" if others else "")


def total_words(quote: records.Quote, shop: Shop) -> str:
    """What it comes to, the least to the most where there are alternatives."""
    sums = sorted({total_of(pairs) for pairs in quote["alternatives"]})
    ends = sums if len(sums) == 1 else [sums[0], sums[-1]]
    return " to ".join(money(cents, quote["currency"], shop.locale) for cents in ends)


def entries_text(entries: Iterable[Entry], shop: Shop, day: date) -> str:
    """A row each, the newest last: number, last day, state, total, customer, choice."""
    rows = [
        (
            entry.number,
            day_of(entry.quote["expires"]).isoformat(),
            entry.state(day),
            total_words(entry.quote, shop),
            entry.customer,
            choice_words(entry.quote),
        )
        for entry in entries
    ]
    if not rows:
        return "No quote was issued yet: see `bevelbook quote --help`."
    head = ("number", "holds until", "state", "total", "customer", "what")
    wide = [max(len(row[at]) for row in (head, *rows)) for at in range(len(head))]
    lines = (
        "  ".join(f"{cell:>{wide[at]}}" if at == 3 else f"{cell:{wide[at]}}" for at, cell in enumerate(row)).rstrip()
        for row in (head, *rows)
    )
    return "\n".join(lines)
