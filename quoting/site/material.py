"""What the pages are made of: the catalog, the engine over it, and everything a template may ask for.

Templates get values and finished text from here; they decide nothing.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from markupsafe import Markup

from quoting.band import USUAL_ADD
from quoting.catalog.model import Colorway, Frame, Package, Size
from quoting.catalog.shop import Catalog
from quoting.findings import Finding
from quoting.languages import _
from quoting.light.lens_worn import LensWorn
from quoting.offers import Offers
from quoting.show import terms
from quoting.show.amounts import money
from quoting.show.brief import meanings
from quoting.show.cautions import matters
from quoting.show.cut import section_svg
from quoting.show.versions import other_lines, version_text
from quoting.site.ahead import NOBODY, Ahead
from quoting.site.album import Album
from quoting.site.board import Board
from quoting.site.boards import Boards, Watch
from quoting.site.cards import Cards, Preview, preview_of
from quoting.site.combinations import Combination, combination_of
from quoting.site.editions import Edition, editions
from quoting.site.fronts import Fronts
from quoting.site.home import some_of
from quoting.site.linked import article_text, block, frame_product, package_product
from quoting.site.on_top import on_board, on_package
from quoting.site.page_data import categories, frame_block
from quoting.site.paper_form import form, form_letter
from quoting.site.prose import Prose
from quoting.site.sorting import by_maker

# A list of more frames than this holds the fronts of the first ones alone: a front has 5 kB, and a window shows a dozen
MANY = 100
AT_ONCE = 24

Progress = Callable[[int, int, str], None]


@dataclass
class Material:
    """One build: what is rendered, what was found, how many pages came out."""

    offers: Offers
    progress: Progress
    prose: Prose
    findings: list[Finding] = field(default_factory=list)
    written: int = 0
    album: Album = field(default_factory=Album)
    cards: Cards = field(default_factory=Cards)
    watch: Watch | None = None  # is shown each board once
    ahead: Ahead = NOBODY  # who works out boards meanwhile
    outline: bool = False  # files with nothing in them but prose: enough to see what is wrong with that
    edition: Edition | None = None  # the one that is made; the shop's first where none is named

    @property
    def catalog(self) -> Catalog:
        return self.offers.catalog

    @cached_property
    def here(self) -> Edition:
        """The edition that is made."""
        return self.edition or editions(self.catalog.shop)[0]

    @cached_property
    def frames(self) -> list[Frame]:
        """All frames in the order of the catalog."""
        return list(self.catalog.frames.values())

    @cached_property
    def packages(self) -> list[Package]:
        """All packages in the order of the catalog."""
        return list(self.catalog.packages.values())

    @property
    def total(self) -> int:
        """How many pages of its own the plugin writes: home, two lists, quote, form, not found, tints, each thing."""
        return len(self.frames) + len(self.packages) + 6 + bool(self.catalog.tints.dyes)

    def step(self, what: str) -> None:
        """One page more."""
        self.written += 1
        self.progress(self.written, self.total, what)

    @cached_property
    def boards(self) -> Boards:
        """All boards of the shop."""
        return Boards(self.offers, self.watch, self.ahead)

    def board(self, frame: Frame, size: Size) -> Board:
        """The lens board of a frame in a size."""
        return self.boards.board(frame, size)

    def meanings(self, frame: Frame) -> list[tuple[str, str]]:
        """The short reasons that stand on a frame's boards, and what each means."""
        return meanings({code for size in frame.sizes for code in self.board(frame, size).codes})

    @cached_property
    def drawings(self) -> Fronts:
        """The fronts of the catalog."""
        return Fronts(self.catalog)

    @cached_property
    def apart(self) -> frozenset[str]:
        """The frames whose fronts in the list of all are files of their own, so that a long list comes soon: by id."""
        listed = [frame.id for _, frames in by_maker(self.frames) for frame in frames]
        return frozenset(listed[AT_ONCE:] if len(listed) > MANY else ())

    def versions(self, frame: Frame, color: Colorway) -> list[str]:
        """In which version a color is sold, and what the other one costs."""
        other = frame.other_version(color)
        return [version_text(color), *(other_lines(other, self.catalog.shop) if other is not None else [])]

    def section(self, combination: Combination, side: str) -> Markup:
        """The horizontal section of one lens of a combination."""
        return Markup(section_svg(combination.offer, combination.ask, side))

    @cached_property
    def some_frames(self) -> list[Frame]:
        """The frames on the first page."""
        return some_of(self.frames)

    def nav(self, articles: list[Any]) -> list[tuple[str, str]]:
        """The folders of the main navigation, those without pages left out."""
        folders = {article.folder for article in articles}
        prose = [(name, terms.part(name)) for name in ("combinations", "guides") if name in folders]
        tints = [("tints", _("Tints"))] if self.catalog.tints.dyes else []
        return [("frames", _("Frames")), ("lenses", _("Lenses")), *tints, *prose]

    @property
    def feed_title(self) -> str:
        """What the feed of combinations is called."""
        return f"{self.catalog.shop.name}: {terms.part('combinations').lower()}"

    @property
    def usual_add(self) -> float:
        """The add that boards are reckoned with."""
        return USUAL_ADD

    def on_top(self, thing: Frame | Package) -> list[str]:
        """The surcharges that can come on top of the prices on a page, in the words of the price list."""
        if isinstance(thing, Frame):
            return on_board(self.catalog, lambda: self.boards.cells(thing))
        return on_package(self.catalog, thing)

    def prices_differ(self, frame: Frame) -> bool:
        """Whether the colorways of a frame that are to be had have more than one price."""
        return len({color.price_cents for color in frame.to_be_had}) > 1

    def price_from(self, frame: Frame) -> str:
        """The least price of a frame's colorways that are to be had."""
        return self._written(min(color.price_cents for color in frame.to_be_had))

    def lens_from(self, package: Package) -> str:
        """The least price of a pair of lenses of a package."""
        return self._written(2 * min(band.lens_cents for band in package.prices))

    def _written(self, cents: int) -> str:
        return money(cents, self.catalog.shop.currency, self.catalog.shop.locale)

    @cached_property
    def form(self) -> dict[str, list[str]]:
        """What a form on paper asks."""
        return form()

    def form_letter(self, frame: Frame | None = None) -> str:
        """The same as a letter."""
        return form_letter(self.catalog.shop, frame)

    def takers(self, package: Package) -> list[tuple[Frame, list[tuple[Size, int]]]]:
        """The frames that take a package, with their sizes and in how many bands."""
        return self._takers[package.id]

    @cached_property
    def _takers(self) -> dict[str, list[tuple[Frame, list[tuple[Size, int]]]]]:
        return self.boards.takers(self.frames, self.packages)

    def preview(
        self, frame: Frame, size: Size | None = None, color: Colorway | None = None, lens: LensWorn | None = None
    ) -> Preview:
        """The picture that goes with a link; with ``lens``, where that is not the one of the colorway."""
        stops = self.drawings.worn(color or frame.shown_first, lens)
        return preview_of(self.cards, self.album, self.catalog.shop, frame, size or frame.sizes[0], color, stops)

    @property
    def _top(self) -> str:
        return self.here.address(self.catalog.shop)

    def linked_frame(self, frame: Frame) -> Markup:
        """A frame for machines."""
        pictures = self.album.addresses(frame) or ([self.preview(frame).address] if self._top else [])
        product = frame_product(frame, self.catalog.shop, pictures)
        return block(product, self._top, f"frames/{frame.id}/index.html")

    def linked_package(self, package: Package) -> Markup:
        """A lens package for machines."""
        return block(package_product(package, self.catalog.shop), self._top, f"lenses/{package.id}/index.html")

    def linked_article(self, article: Any) -> Markup:
        """An article for machines."""
        shop, day = self.catalog.shop, article.date.date().isoformat()
        summary = Markup(article.summary).striptags()
        return block(article_text(article.title, summary, day, shop), self._top, article.url)

    def frame_block(self, frame: Frame) -> Markup:
        """What the engine in the page needs to know of a frame."""
        return frame_block(frame)

    @property
    def cautions(self) -> list[str]:
        """All that the shop has to say beside a quote, whatever it is about."""
        shop = self.catalog.shop
        return [*shop.cautions, *(sentence for words in shop.cautions_for.values() for sentence in words)]

    @cached_property
    def categories(self) -> list[int]:
        """The filter categories of the shop's lenses."""
        return sorted({one for package in self.packages for one in categories(package)})

    def matters(self, package: Package) -> list[str]:
        """What a customer must read before buying this kind of lens."""
        return matters(self.catalog.shop, package)

    def combination(self, source: Path, words: dict[str, str]) -> Combination | None:
        """What an article's metadata name; faults go to the findings."""
        found, faults = combination_of(self.offers, source, words)
        self.findings.extend(faults)
        return found
