"""The one Pelican plugin: it connects; what the pages say is decided in quoting.offers and quoting.show.

Pelican holds receivers weakly, so they are functions of this module.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from pelican import signals
from pelican.generators import ArticlesGenerator, Generator, PagesGenerator
from pelican.writers import Writer

from quoting.catalog.model import Colorway, Frame, Size
from quoting.show.front import alone
from quoting.site.assets import FRONT, sheet_of, write_assets
from quoting.site.editions import editions
from quoting.site.engine import engine_script, remedies_script
from quoting.site.feed import complete
from quoting.site.material import Material
from quoting.site.outline import OutlineWriter
from quoting.site.page_data import frames_script, shop_script, slip_script
from quoting.site.prose import unspoken, written_in
from quoting.site.quote_data import quote_tints_script, quotes_script
from quoting.site.tint_data import tints_script
from quoting.site.tint_page import TintPage
from quoting.site.views_data import views_script

SETTING = "BEVELBOOK"


class CatalogGenerator(Generator):  # type: ignore[misc]
    """Writes the pages that come from the catalog; prose is Pelican's own business."""

    def generate_output(self, writer: Writer) -> None:
        """Every page, then the files for machines."""
        self.writer = writer
        site: Material = self.settings[SETTING]
        articles = self.context.get("articles", [])
        combinations = [one for one in articles if getattr(one, "combination", None)]
        guides = sorted((one for one in articles if one.folder == "guides"), key=lambda one: one.date)
        style = sheet_of(Path(self.theme) / "static" / "css", FRONT)
        for frame in site.frames:  # first: lists draw what was drawn here
            self._page(f"frames/{frame.id}/index.html", "frame", frame=frame)
            folder, first, color = f"frames/{frame.id}", frame.sizes[0], frame.shown_first
            self._file(f"{folder}/fronts.js", site.drawings.script, frame)
            for size in frame.sizes if len(frame.sizes) > 1 else ():  # an only size is on the page itself
                self._file(f"{folder}/{size.key}.svg", alone_of, site, frame, size, color)
            if frame.id in site.apart:
                self._file(f"{folder}/card.svg", card_of, site, frame, first, color, style)
        self._page("index.html", "home", combinations=combinations, guides=guides)
        self._page("frames/index.html", "frames")
        self._page("lenses/index.html", "lenses")
        for package in site.packages:
            self._page(f"lenses/{package.id}/index.html", "lens", package=package)
        if articles and site.catalog.shop.url:
            self.writer.write_feed(combinations, self.context, "combinations/feed.atom.xml", feed_title=site.feed_title)
        if articles:
            self._prose_list("combinations", combinations)
            self._prose_list("guides", guides)
        if site.catalog.tints.dyes:
            self._page("tints/index.html", "tints", book=TintPage(site.catalog))
        self._page("quote/index.html", "quote")
        self._page("form/index.html", "form")
        self._page("404.html", "missing", SITEURL=site.here.from_anywhere(site.catalog.shop))
        if not site.here.folder:
            self._for_machines()
        write_assets(Path(self.theme) / "static", Path(self.output_path) / "theme")
        self._for_scripts()

    def _for_scripts(self) -> None:
        """The engine and the shop's tables, for the scripts of the pages."""
        site: Material = self.settings[SETTING]
        (Path(self.output_path) / "data").mkdir()
        self._file("data/engine.js", engine_script)
        self._file("data/remedies.js", remedies_script)
        self._file("data/shop.js", shop_script, site.catalog)
        self._file("data/views.js", views_script, site.catalog)
        self._file("data/slip-words.js", slip_script)
        if site.catalog.tints.dyes:
            self._file("data/light.js", tints_script, site.catalog)
        self._file("data/quotes.js", quotes_script, site.catalog)
        self._file("data/quote-tints.js", quote_tints_script, site.catalog)
        self._file("data/frames.js", frames_script, site.catalog)

    def _file(self, path: str, make: Callable[..., str], *of: Any) -> None:
        """A file of the site that no template makes; of an outline there is nothing in it."""
        text = "" if self.settings[SETTING].outline else make(*of)
        (Path(self.output_path) / path).write_text(text, encoding="utf-8")

    def _page(self, path: str, template: str, **values: Any) -> None:
        site: Material = self.settings[SETTING]
        self.writer.write_file(path, self.get_template(template), self.context, True, url=path, **values)
        site.step(path)

    def _prose_list(self, kind: str, articles: list[Any]) -> None:
        template = self.get_template("prose")
        self.writer.write_file(f"{kind}/index.html", template, self.context, True, kind=kind, found=articles)

    def _for_machines(self) -> None:
        """robots.txt, and where the site's address is known, sitemap.xml (its addresses must be absolute)."""
        site: Material = self.settings[SETTING]
        root = site.here.address(site.catalog.shop)
        output = Path(self.output_path)
        rules = "User-agent: *\nAllow: /\n"
        if root:
            rules += f"Sitemap: {root}/sitemap.xml\n"
            paths = (path for path in output.rglob("*.html") if path.name != "404.html" and path.parent.name != "quote")
            pages = sorted(path.relative_to(output).as_posix() for path in paths)
            rows = "".join(f"<url><loc>{escape(f'{root}/{page}')}</loc></url>\n" for page in pages)
            head = '<?xml version="1.0" encoding="utf-8"?>\n'
            head += '<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n'
            (output / "sitemap.xml").write_text(f"{head}{rows}</urlset>\n", encoding="utf-8")
        (output / "robots.txt").write_text(rules, encoding="utf-8")


def alone_of(site: Material, frame: Frame, size: Size, color: Colorway) -> str:
    """The drawing of a size as a file of its own, with its measures."""
    return alone(site.drawings.front(frame, size, color, True))


def card_of(site: Material, frame: Frame, size: Size, color: Colorway, style: str) -> str:
    """The drawing that comes to a card of a long list."""
    return alone(site.drawings.front(frame, size, color), style)


def look_up_combinations(generator: ArticlesGenerator) -> None:
    """Give each article of the folder ``combinations`` what its metadata name.  Drafts get no page at all."""
    site: Material = generator.settings[SETTING]
    generator.drafts, generator.drafts_translations = [], []
    only_here(generator)
    for article in generator.articles:
        if article.folder == "combinations":
            words = {key: str(value) for key, value in article.metadata.items()}
            article.combination = site.combination(site.prose.folder / article.get_relative_source_path(), words)


def only_here(generator: ArticlesGenerator | PagesGenerator) -> None:
    """Keep what is written in the language of this edition; prose that does not say is in the shop's first."""
    site: Material = generator.settings[SETTING]
    known = tuple(one.tongue.language for one in editions(site.catalog.shop))
    for name in ("articles", "hidden_articles", "pages", "hidden_pages"):
        found = getattr(generator, name, [])
        for one in found[:]:
            language = written_in(one, known)
            if language not in known:
                source = site.prose.folder / one.get_relative_source_path()
                site.findings.append(unspoken(source, language, known))
            if one.save_as:
                site.prose.written.setdefault(language, set()).add(one.save_as)
            if language != site.here.tongue.language:
                found.remove(one)


def settle(generators: list[Generator]) -> None:
    """Look at all prose before a page is written: each file of it must have a place of its own."""
    named = {type(one).__name__: one for one in generators}
    articles, pages = named["ArticlesGenerator"], named["PagesGenerator"]
    site: Material = articles.settings[SETTING]
    lists = (articles.articles, articles.hidden_articles, pages.pages, pages.hidden_pages)
    site.findings.extend(site.prose.settle(lists, named["StaticGenerator"].staticfiles))


def fill_feed(context: dict[str, Any], feed: Any) -> None:
    """Give the feed what a page shows beside an article's own words."""
    complete(context, feed, context[SETTING])


def hand_over(_: Any) -> type[CatalogGenerator]:
    """Tell Pelican of our generator."""
    return CatalogGenerator


def writer_for(pelican: Any) -> type[Writer] | None:
    """Tell Pelican what writes an outline; a whole site is written by its own."""
    return OutlineWriter if pelican.settings[SETTING].outline else None


def register() -> None:
    """Connect to Pelican; called by it for every build."""
    signals.get_generators.connect(hand_over)
    signals.get_writer.connect(writer_for)
    signals.article_generator_finalized.connect(look_up_combinations)
    signals.page_generator_finalized.connect(only_here)
    signals.all_generators_finalized.connect(settle)
    signals.feed_generated.connect(fill_feed)
