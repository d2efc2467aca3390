"""What a change of prices would do, before it is written: as a table for people, as plain data for programs."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from quoting.findings import printable
from quoting.keeping.changing import Change, Watch, median_percent, unusual
from quoting.keeping.standing import Standing
from quoting.show.amounts import MINUS, band, money

NAMED = 12  # of codes that are not known; all of them are in the JSON


@dataclass(frozen=True, slots=True)
class Preview:
    """Changes, and what else a list said."""

    standing: Standing
    changes: Sequence[Change]
    unchanged: int
    watch: Watch
    said: Sequence[str] = ()
    unknown: Mapping[str, str] | None = None  # code: where it stands; None where there is no list
    missing: Sequence[str] = ()


def percent(value: float | None) -> str:
    """A change in percent.

    >>> percent(4.04), percent(-2.5), percent(None)
    ('+4.0 %', '−2.5 %', 'new')
    """
    if value is None:
        return "new"
    return f"{'+' if value > 0 else MINUS if value < 0 else ''}{abs(value):.1f} %"


def preview_text(preview: Preview) -> str:
    """The table with all that should be known before it is written."""
    middle = median_percent(preview.changes)
    count = len(preview.changes)
    head = f"Prices of {preview.standing.day}: {count} change{'' if count == 1 else 's'}, {preview.unchanged} unchanged"
    lines = [f"{head}, median {percent(middle)}." if middle is not None else f"{head}."]
    lines += [f"Decided: {one}." for one in preview.said]
    lines += ["", *_rows(preview)] if preview.changes else []
    lines += ["", *notes] if (notes := _notes(preview)) else []
    return printable_lines(lines)


def printable_lines(lines: Iterable[str]) -> str:
    """Lines without anything that a terminal would obey."""
    return "\n".join(printable(line) for line in lines)


def _rows(preview: Preview) -> list[str]:
    shop = preview.standing.catalog.shop
    why = unusual(preview.changes, preview.watch)
    cells = []
    for change in preview.changes:
        spot = change.spot
        what = band(spot.low, spot.high) if spot.kind == "lens" else spot.colorway
        old, new = (money(cents, shop.currency, shop.locale) for cents in (spot.cents, change.cents))
        cells.append((spot.id, what, old, new, percent(change.percent), why.get(spot.key, "")))
    widths = [max(len(row[at]) for row in cells) for at in range(5)]
    return [
        f"{row[0]:<{widths[0]}}  {row[1]:<{widths[1]}}  {row[2]:>{widths[2]}} → {row[3]:>{widths[3]}}  "
        f"{row[4]:>{widths[4]}}{f'  ! {row[5]}' if row[5] else ''}"
        for row in cells
    ]


def _notes(preview: Preview) -> list[str]:
    standing, lines = preview.standing, []
    flagged = len(unusual(preview.changes, preview.watch))
    if flagged:
        lines.append(f"{flagged} to look at twice (!).")
    if preview.unknown:
        shown = [f"{code} ({place})" for code, place in list(preview.unknown.items())[:NAMED]]
        more = f" and {len(preview.unknown) - NAMED} more" if len(preview.unknown) > NAMED else ""
        lines.append(f"In the file, not in the catalog: {', '.join(shown)}{more}.")
    if preview.missing:
        lines.append(f"In the catalog, not in the file: {', '.join(preview.missing)}.")
    later: dict[str, dict[str, None]] = {}
    for change in preview.changes:
        for version in standing.later(change.spot.kind, change.spot.id):
            later.setdefault(version, {})[change.spot.id] = None
    for version, ids in later.items():
        lines.append(f"The later list {version} has prices of its own for {', '.join(ids)}; they stay.")
    return lines


def preview_dict(preview: Preview) -> dict[str, object]:
    """The same for programs; its form is in DEVELOPERS.md."""
    why = unusual(preview.changes, preview.watch)
    middle = median_percent(preview.changes)
    return {
        "day": preview.standing.day.isoformat(),
        "currency": preview.standing.catalog.shop.currency,
        "decided": list(preview.said),
        "changes": [_change_dict(change, why) for change in preview.changes],
        "unchanged": preview.unchanged,
        "median_percent": None if middle is None else round(middle, 2),
        "unknown": [{"code": code, "cell": place} for code, place in (preview.unknown or {}).items()],
        "missing": list(preview.missing),
    }


def _change_dict(change: Change, why: Mapping[tuple[str, str, str, float], str]) -> dict[str, object]:
    spot, lens = change.spot, change.spot.kind == "lens"
    return {
        "kind": spot.kind,
        "id": spot.id,
        "colorway": None if lens else spot.colorway,
        "from": spot.low if lens else None,
        "to": spot.high if lens else None,
        "old_cents": spot.cents,
        "new_cents": change.cents,
        "percent": None if change.percent is None else round(change.percent, 2),
        "unusual": why.get(spot.key),
    }
