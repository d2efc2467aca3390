"""What changes between two builds, as text."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.findings import printable
from quoting.show.amounts import band, mm, money
from quoting.show.differences import Changes, PriceChange, Side
from quoting.show.pricing import percent

NAMED = 10  # rows of each part, where not all are asked for
WORDS = {"fits": "fits", "caution": "caution", "no": "does not fit", "partly": "fits partly"}
Row = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """One kind of change; the heads are those of the page's table."""

    title: str
    heads: Row
    rows: list[Row]


def changes_text(changes: Changes, every: bool = False) -> str:
    """All parts that hold anything, each of at most `NAMED` rows; ``every``: all rows."""
    lines = [f"From {side_text(changes.before)}", f"to {side_text(changes.after)}."]
    if changes.none:
        return "\n".join([*lines, "", "Nothing changes."])
    for part in parts(changes):
        lines += ["", f"{part.title}: {len(part.rows)}", *_table(part.rows, every)]
    return "\n".join(printable(line) for line in lines)


def brief_text(changes: Changes) -> str:
    """The short form: how many there are of each."""
    if changes.none:
        return "Nothing changes."
    return printable("; ".join(f"{part.title}: {len(part.rows)}" for part in parts(changes)) + ".")


def side_text(side: Side) -> str:
    """One build in words."""
    return f"{side.name} ({side.day}, price list {side.price_list} in force from {side.effective})"


def parts(changes: Changes) -> list[Part]:
    """Every part that holds anything, in the order in which an owner should look at them."""
    return [part for part in (*_of_pages(changes), *_of_figures(changes)) if part.rows]


def _of_pages(changes: Changes) -> list[Part]:
    gone: list[Row] = [(old, "→", new) for old, new in changes.pages_gone.items()]
    leads: list[Row] = [(one.page, one.before or "nowhere", "→", one.after or "nowhere") for one in changes.leads]
    money_gone: list[Row] = [(changes.other_currency, "→", changes.currency)] if changes.other_currency else []
    return [
        Part("Other currency, so no price is compared", ("Before", "", "After"), money_gone),
        Part("Pages that disappear", ("Page", "", "Where its links will lead"), gone),
        Part("Other addresses that lead elsewhere", ("Address", "Before", "", "After"), leads),
        Part("Links to a lens in a frame that is there no more", ("Link",), [(one,) for one in changes.places_gone]),
        Part("Pages that appear", ("Page",), [(one,) for one in changes.pages_new]),
        Part("Columns of the boards that disappear", ("Powers",), [(band(*one),) for one in changes.bands_gone]),
        Part("Columns of the boards that appear", ("Powers",), [(band(*one),) for one in changes.bands_new]),
    ]


def _of_figures(changes: Changes) -> list[Part]:
    frames: list[Row] = [(one.id, one.what, *_amounts(one, changes)) for one in changes.frame_prices]
    totals: list[Row] = [(one.what, *_amounts(one, changes)) for one in changes.combinations]
    amounts = ("Before", "", "After", "Change", "Percent")
    sides = ("Before", "", "After")
    lens = ("Frame", "Size", "Lens", "Powers")
    return [
        Part("Verdicts that change", (*lens, *sides), verdict_rows(changes)),
        Part("Lens prices, a pair", ("Lens", "Powers", *amounts, "Frames"), lens_rows(changes)),
        Part("Frame prices", ("Frame", "Colorway", *amounts), frames),
        Part("Totals of combinations", ("Combination", *amounts), totals),
        Part("Thickest edges", (*lens, *sides), edge_rows(changes)),
        Part("Pages that say something else", ("Page",), [(one,) for one in changes.pages_changed]),
    ]


def verdict_rows(changes: Changes) -> list[Row]:
    """Frame, size, package, powers, before and after."""
    return [
        (one.frame, one.size, one.package, band(one.low, one.high), WORDS[one.before], "→", WORDS[one.after])
        for one in changes.verdicts
    ]


def lens_rows(changes: Changes) -> list[Row]:
    """Package, powers, amounts, and in which frames.

    A lens that changes by as much in all its frames is one row, whatever comes on it in some: the most usual amounts.
    """
    alike: dict[tuple[object, ...], list[PriceChange]] = {}
    for at, one in enumerate(changes.lens_prices):
        apart = at if one.before is None or one.after is None else ""  # a price that comes or goes is a row of its own
        alike.setdefault((one.id, one.low, one.high, one.cents, apart), []).append(one)
    rows: list[Row] = []
    for found in alike.values():
        usual = max(found, key=lambda one: len(one.where))
        count, others = sum(len(one.where) for one in found), sum(len(one.where) for one in found if one is not usual)
        where = usual.where[0] if count == 1 else f"{usual.where[0]} and {count - 1} more"
        where += f", {others} of them at other prices" if others else ""
        rows.append((usual.id, band(usual.low or 0.0, usual.high or 0.0), *_amounts(usual, changes), where))
    return rows


def edge_rows(changes: Changes) -> list[Row]:
    """Frame, size, package, powers, and the edges where the change is largest."""
    return [
        (one.frame, one.size, one.package, band(one.low, one.high), f"{mm(one.before)} mm", "→", f"{mm(one.after)} mm")
        for one in changes.edges
    ]


def _amounts(one: PriceChange, changes: Changes) -> Row:
    def written(cents: int | None) -> str:
        return "no price" if cents is None else money(cents, changes.currency, changes.locale)

    if one.before is None or one.after is None:
        return written(one.before), "→", written(one.after), "", ""
    by = f"{'+' if one.cents > 0 else ''}{money(one.cents, changes.currency, changes.locale)}"
    return written(one.before), "→", written(one.after), by, percent(one.percent) if one.before else ""


def _table(rows: Sequence[Row], every: bool) -> list[str]:
    shown = rows if every else rows[:NAMED]
    widths = [max(len(row[at]) for row in shown) for at in range(len(shown[0]))] if shown else []
    lines = [
        "  " + "  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)).rstrip() for row in shown
    ]
    return lines if len(shown) == len(rows) else [*lines, f"  and {len(rows) - len(shown)} more; --all tells them"]
