"""A quote in words, from what its link holds and nothing else: the parts that text, sheet and letter put together."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from quoting.catalog.model import Frame
from quoting.catalog.shop import Catalog, Shop
from quoting.languages import _, decimals, marked
from quoting.quoted import records
from quoting.quoted.positional import day_of
from quoting.show.amounts import money
from quoting.show.lens_paint import Stops
from quoting.show.lines import LINE_TEXTS
from quoting.show.recorded import (
    box_line,
    cautions_of,
    figure_lines,
    frame_name,
    lens_line,
    measure_lines,
    prescription_of,
    reason_text,
)
from quoting.show.text import ESTIMATES, rx_lines
from quoting.show.tint_lines import brief_text, tint_lines
from quoting.show.tint_paint import own_paint, paint_of_quote

LETTERS = "ABCD"
# What a pair is called where an alternative has two
PAIRS = marked(("First pair", "Second pair"))


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a bill."""

    text: str
    short: str  # the same beside frame and lens, which it then need not name
    amount: str
    remark: str = ""  # why it differs from the list


@dataclass(frozen=True, slots=True)
class SeenPair:
    title: str  # "" where there is only one
    frame: records.Frame
    box: str
    lens: str
    tint: tuple[str, ...]  # nothing where it has none
    tint_brief: str  # the same in a few words, with what forbids driving
    paint: Stops  # of its lenses
    rx: tuple[str, ...]
    measures: tuple[str, ...]
    verdict: str
    reasons: tuple[str, ...]
    figures: tuple[str, ...]
    rows: tuple[Row, ...]
    total: str
    tax: str  # the tax that is inside, or ""
    estimates: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeenAlternative:
    letter: str  # "" where there is only one
    pairs: tuple[SeenPair, ...]
    total: str


@dataclass(frozen=True, slots=True)
class Seen:
    shop: Shop
    number: str
    issued: date
    expires: date
    price_list: str
    note: str
    alternatives: tuple[SeenAlternative, ...]
    cautions: tuple[str, ...]
    frames: Mapping[str, Frame] = field(default_factory=dict)  # that the shop sells, for their drawings


def seen(quote: records.Quote, shop: Shop, today: Catalog | None = None) -> Seen:
    """The whole quote; ``today`` is what the shop sells, by which its frames and lenses are drawn where it has them."""
    many = len(quote["alternatives"]) > 1
    return Seen(
        shop,
        quote["number"],
        day_of(quote["issued"]),
        day_of(quote["expires"]),
        quote["price_list"],
        quote["note"],
        tuple(
            SeenAlternative(
                LETTERS[at] if many else "",
                tuple(
                    _pair(quote, pair, _(PAIRS[which]) if len(pairs) > 1 else "", shop, today)
                    for which, pair in enumerate(pairs)
                ),
                _money(quote, sum(line["cents"] for pair in pairs for line in pair["lines"]), shop),
            )
            for at, pairs in enumerate(quote["alternatives"])
        ),
        tuple(cautions_of(quote, shop)),
        today.frames if today is not None else {},
    )


def _money(quote: records.Quote, cents: int, shop: Shop) -> str:
    return money(cents, quote["currency"], shop.locale)


def _pair(quote: records.Quote, pair: records.Pair, title: str, shop: Shop, today: Catalog | None) -> SeenPair:
    frame, lens = quote["frames"][pair["frame"]], quote["lenses"][pair["lens"]]
    rx = prescription_of(quote["prescriptions"][pair["prescription"]])
    inside = pair["tax_included"]
    return SeenPair(
        title,
        frame,
        box_line(frame),
        lens_line(lens),
        tuple(tint_lines(quote, pair)),
        brief_text(quote, pair),
        paint_of_quote(quote, pair) or own_paint(today, lens),
        tuple(rx_lines(rx)),
        tuple(measure_lines(pair)),
        pair["verdict"],
        tuple(reason_text(reason, lens["kind"]) for reason in pair["reasons"]),
        tuple(figure_lines(pair, frame)),
        tuple(_row(quote, line, frame, lens, shop) for line in pair["lines"]),
        _money(quote, sum(line["cents"] for line in pair["lines"]), shop),
        _("of which tax {amount}").format(amount=_money(quote, inside, shop)) if inside else "",
        tuple(_(ESTIMATES[name]) for name in pair["estimated"]),
    )


def _row(quote: records.Quote, line: records.Line, frame: records.Frame, lens: records.Lens, shop: Shop) -> Row:
    amount, listed = _money(quote, line["cents"], shop), line["listed"]
    text = _line_text(line, frame_name(frame), f"{lens['maker']} {lens['name']}")
    short = _line_text(line, _("Frame"), "").rstrip(": ")
    if listed is None:
        return Row(text, short, amount)
    said = _("{reason} (price list: {amount})").format(reason=line["reason"], amount=_money(quote, listed, shop))
    return Row(text, short, amount, said)


def _line_text(line: records.Line, frame: str, lens: str) -> str:
    words = line["text"]
    text = _(LINE_TEXTS.get(line["key"], "{name}"))
    return text.format(frame=frame, lens=lens, name=words, region=words, rate=decimals(words))
