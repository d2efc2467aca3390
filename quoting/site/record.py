"""What a build is remembered by: its pages, and what they say of verdicts and prices.  Nothing that is not public.

It is computed from what the pages were made of, so that nothing is worked out twice.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import hashlib
import html
import json
import re
from datetime import date
from pathlib import Path
from typing import TypedDict, cast

from quoting.catalog.model import Frame, Size
from quoting.site.board import Board
from quoting.site.cells import Cell as Shown
from quoting.site.material import Material

FORMAT = 1
TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)
NO_PAGES = {"404.html"}  # nobody has a link to it

# Verdict; price of the pair in cents and thickest edge in hundredths of a mm, None where there is none
Cell = tuple[str, int | None, int | None]


class FrameRecord(TypedDict):
    name: str
    maker: str
    prices: dict[str, int]  # colorway: cents
    boards: dict[str, dict[str, list[Cell]]]  # size: package: a cell for each band


class Record(TypedDict):
    format: int
    day: str
    price_list: str
    effective: str
    currency: str
    locale: str
    bands: list[tuple[float, float]]
    packages: dict[str, tuple[str, str]]  # id: name and maker
    frames: dict[str, FrameRecord]
    combinations: dict[str, tuple[str, str, int | None]]  # page: title, verdict, total in cents
    pages: dict[str, tuple[str, str]]  # page: digest of what it says, title
    redirects: dict[str, tuple[str, str]]  # page that is gone: where it leads, and which maker's part of that page
    ours: dict[str, tuple[str, str]]  # the same where the owner says nothing of it


def record_of(site: Material, output: Path, boards: Boards) -> Record:
    """The record of what was just rendered into ``output``."""
    catalog = site.catalog
    redirects = {one.old: (one.new, "") for one in catalog.shop.redirects}
    return {
        "format": FORMAT,
        "day": site.offers.day.isoformat(),
        "price_list": catalog.price_list.version,
        "effective": catalog.price_list.effective.isoformat(),
        "currency": catalog.shop.currency,
        "locale": catalog.shop.locale,
        "bands": [(band.low, band.high) for band in catalog.shop.bands],
        "packages": {one.id: (one.name, one.maker) for one in site.packages},
        "frames": {frame.id: _frame(site, frame, boards) for frame in site.frames},
        "combinations": _combinations(site),
        "pages": _pages(output, site.offers.day, set(redirects) | NO_PAGES),
        "redirects": redirects,
        "ours": {},
    }


class Boards:
    """The cells of all boards, taken while each is made: verdicts as the page shows them, and figures."""

    def __init__(self) -> None:
        self.cells: dict[tuple[str, str], dict[str, list[Cell]]] = {}

    def watch(self, frame: Frame, size: Size, board: Board) -> None:
        """One board more."""
        found = {row.package.id: [_cell(cell) for cell in row.cells] for row in board.rows()}
        self.cells[frame.id, size.key] = dict(sorted(found.items()))

    def of(self, site: Material, frame: Frame, size: Size) -> dict[str, list[Cell]]:
        """The cells of one board, made now where no page had it."""
        if (frame.id, size.key) not in self.cells:
            self.watch(frame, size, site.board(frame, size))
        return self.cells[frame.id, size.key]


def _cell(shown: Shown) -> Cell:
    if shown.verdict == "no":
        return "partly" if shown.partly else "no", None, None
    return shown.verdict, shown.cents, shown.edge


def _frame(site: Material, frame: Frame, boards: Boards) -> FrameRecord:
    return {
        "name": frame.name,
        "maker": frame.maker,
        "prices": {color.id: color.price_cents for color in frame.colorways},
        "boards": {size.key: boards.of(site, frame, size) for size in frame.sizes},
    }


def _combinations(site: Material) -> dict[str, tuple[str, str, int | None]]:
    found: dict[str, tuple[str, str, int | None]] = {}
    for page in sorted(site.prose.pages, key=lambda one: str(one.save_as)):
        if made := getattr(page, "combination", None):
            bill = made.offer.bill
            total = bill["total_cents"] if bill["priced"] else None
            found[page.save_as] = (str(page.title), made.offer.fit["verdict"], total)
    return found


def dayless(text: str, day: str) -> str:
    """A file of a site without the day of its build, which changes nothing.

    >>> dayless('<time datetime="2026-11-30">30.11.2026</time>: 2026-11-30', "2026-11-30")
    ': '
    """
    return re.sub(f'<time datetime="{day}">[^<]*</time>|{day}', "", text)


def _pages(output: Path, day: date, without: set[str]) -> dict[str, tuple[str, str]]:
    """All pages; the day of the build stands on each."""
    found: dict[str, tuple[str, str]] = {}
    for path in sorted(output.rglob("*.html")):
        name = path.relative_to(output).as_posix()
        if name not in without:
            text = path.read_bytes().decode("utf-8", errors="replace")
            digest = hashlib.sha256(dayless(text, str(day)).encode()).hexdigest()[:16]
            title = TITLE.search(text)
            found[name] = (digest, html.unescape(title[1]).strip() if title else name)
    return found


def as_bytes(record: Record) -> bytes:
    """The same record gives the same bytes."""
    return json.dumps(record, ensure_ascii=False, separators=(",", ":"), sort_keys=True).encode() + b"\n"


def from_bytes(raw: bytes) -> Record:
    """A record as it was written.   Raises ValueError where it is none."""
    read = json.loads(raw)
    if isinstance(read, dict) and "ours" not in read:  # as written before an owner's word could be taken back
        read["ours"] = read.get("redirects")
    if not isinstance(read, dict) or read.get("format") != FORMAT or set(read) != set(Record.__annotations__):
        raise ValueError("this is no record of a build that this version of bevelbook reads")
    read["bands"] = [(low, high) for low, high in read["bands"]]
    for name in ("packages", "combinations", "pages", "redirects", "ours"):
        read[name] = {key: tuple(value) for key, value in read[name].items()}
    for frame in read["frames"].values():
        for board in frame["boards"].values():
            board.update({package: [tuple(cell) for cell in cells] for package, cells in board.items()})
    return cast(Record, read)
