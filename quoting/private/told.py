"""Margins as a table for the owner, and what has no cost."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Sequence

from quoting.findings import printable
from quoting.private.margins import Margin
from quoting.private.model import Floor
from quoting.private.report import Report, counted
from quoting.private.till import Kind
from quoting.show.amounts import MINUS, band, money
from quoting.show.lines import rate_text

NAMED = 12  # of what has no cost; all of it is in the JSON
HEADS: dict[Kind, str] = {"lens": "Lenses, each", "frame": "Frames", "surcharge": "Surcharges"}
RIGHT = 2  # columns from here on are numbers


def report_text(report: Report, under: bool = False) -> str:
    """The tables with all that should be known beside them."""
    pairs = list(report.pairs(under))
    lines = [*_head(report), ""]
    for kind, head in HEADS.items():
        rows = [_row(report, now, later) for now, later in pairs if now.kind == kind]
        lines += [*_table([_heads(report, head), *rows]), ""] if rows else []
    lines += [] if under else _without_cost(report, [now for now, _ in pairs if now.cost is None])
    lines += _sum(report, pairs, under)
    return "\n".join(printable(line) for line in lines)


def _head(report: Report) -> list[str]:
    till, catalog = report.books.till, report.books.catalog
    prices = catalog.price_list
    lines = [f"{catalog.shop.name}: margins of {report.day}, price list {prices.version}"]
    if till.tax_included:
        rates = f"{rate_text(till.rate('frame'))} from frames, {rate_text(till.rate('lens'))} from lenses"
        lines.append(f"Prices hold tax; for {till.region.name} it is taken out: {rates}.")
    else:
        lines.append("Prices are without tax.")
    if report.offers:
        names = ", ".join(report.offers)
        used = till.offers is not None
        lines.append(
            f"Offers of the day: {names}. {'They are taken off.' if used else 'With --offers they are taken off.'}"
        )
    lens, frame = report.books.costs.lens_floor, report.books.costs.frame_floor
    said = [f"{noun} {_floor(report, one)}" for noun, one in (("lenses", lens), ("frames", frame)) if one is not None]
    lines.append(f"Floor: {'; '.join(said)}." if said else "No floor is written.")
    return lines


def _floor(report: Report, floor: Floor) -> str:
    parts = [rate_text(floor.basis_points)] if floor.basis_points else []
    parts += [f"{_money(report, floor.cents)} each"] if floor.cents or not parts else []
    return " and ".join(parts)


def _money(report: Report, cents: int) -> str:
    shop = report.books.catalog.shop
    return money(cents, shop.currency, shop.locale)


def percent(value: float | None) -> str:
    """A margin in percent.

    >>> percent(33.333), percent(-4.0), percent(None)
    ('33.3 %', '−4.0 %', '')
    """
    return "" if value is None else f"{MINUS if value < 0 else ''}{abs(value):.1f} %"


def _heads(report: Report, head: str) -> list[str]:
    net = ["net"] if report.taken_out else []
    return [head, "", "price", *net, "cost", "margin", "", ""]


def _row(report: Report, now: Margin, later: Margin) -> list[str]:
    net = [_arrow(_money(report, now.net), _money(report, later.net))] if report.taken_out else []
    cost = _money(report, now.cost.cents) if now.cost else "not known"
    left = [_money(report, one.cents) if one.cents is not None else "" for one in (now, later)]
    return [
        now.id, _what(report, now),
        _arrow(_money(report, now.price), _money(report, later.price)), *net, cost,
        _arrow(*left), _arrow(percent(now.percent), percent(later.percent)), _flag(report, later),
    ]  # fmt: skip


def _arrow(old: str, new: str) -> str:
    return old if old == new else f"{old} → {new}"


def _what(report: Report, one: Margin) -> str:
    if one.kind == "lens":
        return band(one.low, one.high)
    if one.kind == "frame":
        every = len(report.books.catalog.frames[one.id].sizes)
        return one.colorway if len(one.sizes) == every else f"{one.colorway} {', '.join(one.sizes)}"
    per = {surcharge.id: surcharge.per for surcharge in report.books.catalog.price_list.surcharges}
    return f"a {per[one.id]}"


def _flag(report: Report, one: Margin) -> str:
    if not one.under_floor:
        return "! at a loss" if one.at_loss else ""
    least = report.least(one)
    keeps = f": {_money(report, least)} would keep it" if least is not None else ""
    return f"! {'at a loss' if one.at_loss else 'under the floor'}{keeps}"


def _table(rows: Sequence[Sequence[str]]) -> list[str]:
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    cells = (
        (cell.rjust(width) if RIGHT <= at < len(widths) - 1 else cell.ljust(width))
        for row in rows
        for at, (cell, width) in enumerate(zip(row, widths, strict=True))
    )
    return ["  ".join(line).rstrip() for line in zip(*[cells] * len(widths), strict=True)]


def _without_cost(report: Report, missing: Sequence[Margin]) -> list[str]:
    if not missing:
        return []
    known = {(one.kind, one.id) for one in report.now if one.cost is not None}
    found: dict[str, dict[str, None]] = {}
    for one in missing:
        part = (one.kind, one.id) in known
        found.setdefault(_where(one), {})[f"{one.id} ({_what(report, one)})" if part else one.id] = None
    return ["No cost is written for", *(f"  {where}: {_some(names)}" for where, names in found.items()), ""]


def _where(one: Margin) -> str:
    if one.kind == "lens" and one.missing != ("package",):
        return f"{' and '.join(f'`{name}`' for name in one.missing)} (under options), which these lenses need"
    return {"lens": "lenses", "frame": "frames", "surcharge": "surcharges (under options)"}[one.kind]


def _some(names: Iterable[str]) -> str:
    shown = list(names)
    more = f" and {len(shown) - NAMED} more" if len(shown) > NAMED else ""
    return ", ".join(shown[:NAMED]) + more


def _sum(report: Report, pairs: Sequence[tuple[Margin, Margin]], under: bool) -> list[str]:
    known = sum(1 for one in report.now if one.cost is not None)
    (before, lost), (after, losing) = counted(report.now), counted(report.later)
    if report.wanted is None:
        said = f"{known} of {len(report.now)} margins are known; {before} under the floor, {lost} at a loss."
        return [f"{said} What has no cost is not among them." if under and known < len(report.now) else said]
    changed = len({(now.kind, now.id, now.colorway, now.mark) for now, later in report.pairs()})
    floor, loss = f"under the floor: {before} → {after}", f"at a loss: {lost} → {losing}"
    return [
        f"{changed} price{'' if changed == 1 else 's'} would change. Of all margins {floor}, {loss}.",
        f"Nothing was written; this does it:  {report.wanted.command}",
    ]
