"""Two records of builds compared."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator, Mapping

from quoting.show.amounts import mm
from quoting.show.differences import Changes, EdgeChange, LeadChange, PriceChange, Side, VerdictChange
from quoting.site.record import Cell, Record
from quoting.site.redirects import end_of, leads

# Frame, size, package, place of the band among those that both have, its powers, cell before, cell after
Pair = tuple[str, str, str, int, tuple[float, float], Cell, Cell]

RANKS = ("no", "partly", "caution", "fits")


def compare(before: Record, now: Record, since: str, name: str = "now") -> Changes:
    """What differs."""
    same_money = before["currency"] == now["currency"]
    pairs = list(_pairs(before, now))
    old, new = before["pages"], now["pages"]
    way = {page: lead[0] for page, lead in leads(before, now).items()}
    return Changes(
        before=_side(before, since),
        after=_side(now, name),
        currency=now["currency"],
        locale=now["locale"],
        pages_new=[page for page in new if page not in old],
        pages_changed=[page for page in new if page in old and new[page][0] != old[page][0]],
        pages_gone={page: way[page] for page in old if page not in new},
        leads=_leads(before, now, way),
        places_gone=_places_gone(before, now),
        bands_new=[band for band in now["bands"] if band not in before["bands"]],
        bands_gone=[band for band in before["bands"] if band not in now["bands"]],
        verdicts=_verdicts(pairs),
        lens_prices=_lens_prices(pairs) if same_money else [],
        frame_prices=_frame_prices(before, now) if same_money else [],
        combinations=_combinations(before, now) if same_money else [],
        edges=_edges(pairs),
        other_currency="" if same_money else before["currency"],
    )


def _leads(before: Record, now: Record, way: Mapping[str, str]) -> list[LeadChange]:
    """What leads elsewhere than it did, or begins or ceases to; pages that come and go are told as such."""
    steps = {page: lead[0] for page, lead in before["redirects"].items()}
    was = {page: end_of(page, steps) for page in steps}
    pages = before["pages"].keys() | now["pages"].keys()
    return [
        LeadChange(page, was.get(page), way.get(page))
        for page in sorted({*was, *way} - pages)
        if was.get(page) != way.get(page)
    ]


def _side(record: Record, name: str) -> Side:
    return Side(name, record["day"], record["price_list"], record["effective"])


def _pairs(before: Record, now: Record) -> Iterator[Pair]:
    """Every cell that both have and that is not the same."""
    bands = [band for band in now["bands"] if band in before["bands"]]
    places = [(before["bands"].index(band), now["bands"].index(band)) for band in bands]
    for frame, told in now["frames"].items():
        boards = before["frames"][frame]["boards"] if frame in before["frames"] else {}
        for size, board in told["boards"].items():
            old = boards.get(size, {})
            for package, cells in board.items():
                if package in old:
                    for at, (there, here) in enumerate(places):
                        if old[package][there] != cells[here]:
                            yield frame, size, package, at, bands[at], old[package][there], cells[here]


def _verdicts(pairs: list[Pair]) -> list[VerdictChange]:
    """Neighboring bands that change alike are one.  What fits no more comes first."""
    found: list[VerdictChange] = []
    last: tuple[object, ...] = ()
    for frame, size, package, at, (low, high), (old, *_), (new, *_) in pairs:
        if old == new:
            continue
        if last == (frame, size, package, old, new, at - 1):
            found[-1] = VerdictChange(frame, size, package, found[-1].low, high, old, new)
        else:
            found.append(VerdictChange(frame, size, package, low, high, old, new))
        last = (frame, size, package, old, new, at)
    return sorted(found, key=lambda one: RANKS.index(one.after) - RANKS.index(one.before))


def _lens_prices(pairs: list[Pair]) -> list[PriceChange]:
    """What changes alike in several frames is one, and so are neighboring bands.

    A lens that began or ceased to fit is told as a verdict.
    """
    where: dict[tuple[str, int | None, int | None, int], tuple[tuple[float, float], dict[str, None]]] = {}
    for frame, size, package, at, band, (old, cents, _), (new, later, _) in pairs:
        if cents != later and "no" not in (old, new) and "partly" not in (old, new):
            where.setdefault((package, cents, later, at), (band, {}))[1][f"{frame} {size}"] = None
    found: list[PriceChange] = []
    last: tuple[object, ...] = ()
    for package, cents, later, at in sorted(where, key=lambda one: (one[0], str(one[1:3]), one[3])):
        (low, high), places = where[package, cents, later, at]
        if last == (package, cents, later, at - 1):
            low, places = found[-1].low or 0.0, dict.fromkeys((*found.pop().where, *places))
        found.append(PriceChange("lens", package, "", low, high, cents, later, tuple(places)))
        last = (package, cents, later, at)
    return _largest_first(found)


def _frame_prices(before: Record, now: Record) -> list[PriceChange]:
    found = []
    for frame, told in now["frames"].items():
        old: Mapping[str, int] = before["frames"][frame]["prices"] if frame in before["frames"] else {}
        for color in dict.fromkeys((*old, *told["prices"])) if old else ():
            prices = old.get(color), told["prices"].get(color)
            if prices[0] != prices[1]:
                found.append(PriceChange("frame", frame, color, None, None, *prices))
    return _largest_first(found)


def _combinations(before: Record, now: Record) -> list[PriceChange]:
    found = []
    for page, (title, _, total) in now["combinations"].items():
        old = before["combinations"].get(page)
        if old is not None and old[2] != total:
            found.append(PriceChange("combination", page, title, None, None, old[2], total))
    return _largest_first(found)


def _largest_first(found: list[PriceChange]) -> list[PriceChange]:
    return sorted(found, key=lambda one: (-abs(one.cents), one.id, one.what, one.low or 0.0, one.before or 0))


def _edges(pairs: list[Pair]) -> list[EdgeChange]:
    """Of each package in each frame size the largest change."""
    most: dict[tuple[str, str, str], EdgeChange] = {}
    for frame, size, package, _, (low, high), (_, _, old), (_, _, new) in pairs:
        if old is not None and new is not None and mm(old / 100) != mm(new / 100):
            one = EdgeChange(frame, size, package, low, high, old / 100, new / 100)
            known = most.get((frame, size, package))
            if known is None or abs(one.after - one.before) > abs(known.after - known.before):
                most[frame, size, package] = one
    return sorted(most.values(), key=lambda one: (-abs(one.after - one.before), one.frame, one.size, one.package))


def _places_gone(before: Record, now: Record) -> list[str]:
    """Rows that links of quotes point to, gone from pages that stand."""
    found = []
    for frame, told in before["frames"].items():
        if frame in now["frames"]:
            boards = now["frames"][frame]["boards"]
            for size, board in told["boards"].items():
                for package in board:
                    if package not in boards.get(size, {}):
                        found.append(f"frames/{frame}/index.html#{size}-{package}")
    return found
