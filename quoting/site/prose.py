"""Prose in its place: each file of it one page, none in the place of another, none beyond the folder of the prose."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from posixpath import normpath
from typing import Any

from quoting.findings import Finding, Mark
from quoting.site.place import PRIVATE, within
from quoting.site.source import mark_of

# Folders and files of the site that are never prose
OURS = ("frames", "lenses", "theme", "photos", "cards", "data")
OUR_FILES = (
    "index.html",
    "404.html",
    "robots.txt",
    "sitemap.xml",
    "combinations/index.html",
    "combinations/feed.atom.xml",
    "guides/index.html",
    "quote/index.html",
    "form/index.html",
)
OURS_BY_PATH = dict.fromkeys(OUR_FILES, "a page that every build writes")
OURS_BY_PATH["tints/index.html"] = "the tint book, which every build writes once there are dyes"
SLUG = "give it a `Slug:` of its own"
HERE = "put the file itself here"


@dataclass
class Places:
    """Who has which path of the site; two that differ in capitals only are one on some disks."""

    taken: dict[str, str] = field(default_factory=OURS_BY_PATH.copy)
    folders: tuple[str, ...] = OURS

    def owner(self, path: str) -> str:
        """Who has this path, a folder above it, or something below it; "" where nobody has."""
        parts = PurePosixPath(normpath(path.casefold()))
        if parts.parts[0] in self.folders:
            return f"the folder `{parts.parts[0]}`, which every build writes"
        above = (self.taken.get(str(one), "") for one in (parts, *parts.parents))
        below = (who for one, who in self.taken.items() if one.startswith(f"{parts}/"))
        return next((who for who in (*above, *below) if who), "")

    def take(self, path: str, who: str) -> str:
        """Take a path; who had it before, or "" where nobody had."""
        owner = self.owner(path)
        if not owner:
            self.taken[normpath(path.casefold())] = who
        return owner


def refused(content: Any, source: Path) -> list[Finding]:
    """Metadata that reroute a page.  They are taken off it, so that everything else about it can be told as well."""
    folder = PurePosixPath(content.get_relative_source_path()).parts[0]
    written = [key for key in ("save_as", "url", "template") if key in content.metadata]
    written += ["folder"] if content.folder != folder else []
    for name in ("override_save_as", "override_url"):
        if hasattr(content, name):
            delattr(content, name)
    content.template = content.default_template
    content.folder = content.metadata["folder"] = folder
    said = "`{}:` would take this page from the place where the site's links look for it"
    hint = "delete this line; `Slug:` names the page in its address"
    return [Finding(mark_of(source, key), "prose-moved", said.format(key.capitalize()), hint) for key in written]


@dataclass
class Prose:
    """What of the prose comes into the site."""

    folder: Path
    pages: list[Any] = field(default_factory=list)  # articles, too
    statics: list[Any] = field(default_factory=list)
    folders: tuple[str, ...] = ()  # of the site, where other editions of it stand
    written: dict[str, set[str]] = field(default_factory=dict)  # by language, its pages

    def settle(self, lists: Iterable[list[Any]], statics: list[Any]) -> list[Finding]:
        """Keep in Pelican's lists what has a place of its own; what is wrong with the rest."""
        lists = [one for one in lists if one]
        found = self._take([content for one in lists for content in one if content.save_as])
        for one in lists:
            one[:] = [content for content in one if content in self.pages or not content.save_as]
        statics[:] = [static for static in statics if in_reach(static, self.folder)]
        self.statics = statics
        return found

    def _take(self, contents: list[Any]) -> list[Finding]:
        places, found = Places(folders=OURS + self.folders), []
        for content in sorted(contents, key=lambda one: str(one.source_path)):
            source = self.folder / content.get_relative_source_path()
            if not within(source, self.folder):
                said = "this file is reached by a link that leads out of the prose"
                found.append(Finding(Mark(str(source), 1, 1), "outside-folder", said, HERE))
                continue
            found += refused(content, source)
            owner = places.take(content.save_as, f"`{content.get_relative_source_path()}`")
            if owner:
                said = f"this page would stand at `{content.save_as}`, the place of {owner}"
                found.append(Finding(mark_of(source, "slug", "title"), "same-place", said, SLUG))
            else:
                self.pages.append(content)
        return found

    def clashes(self) -> list[Finding]:
        """Pictures and papers in the place of a page; where they go is known only once every link was followed."""
        places, found = Places(folders=OURS + self.folders), []
        for page in self.pages:
            places.take(page.save_as, f"`{page.get_relative_source_path()}`")
        for static in sorted(self.statics, key=lambda one: str(one.source_path)):
            if owner := places.take(static.save_as, f"`{static.get_relative_source_path()}`"):
                mark = Mark(str(self.folder / static.get_relative_source_path()), 1, 1)
                said = f"this file would stand at `{static.save_as}`, the place of {owner}"
                found.append(Finding(mark, "same-place", said, "give it another name"))
        return found


def written_in(content: Any, known: tuple[str, ...]) -> str:
    """The language of a piece of prose, by its metadata; the first that is known where it does not say.

    A country that no language is named with counts for nothing: ``en-GB`` is English.
    """
    said = str(content.metadata.get("lang", known[0])).strip().replace("-", "_")
    language = said.partition("_")[0].lower()
    return said if said in known or language not in known else language


def unspoken(source: Path, language: str, known: tuple[str, ...]) -> Finding:
    """Prose in a language that the site does not speak."""
    said = f"this page is written in `{language}`, which the site does not speak, so it gets no page"
    hint = f"the site speaks {', '.join(known)}: `languages` in shop.yaml"
    return Finding(mark_of(source, "lang"), "prose-language", said, hint, "warning")


def in_reach(static: Any, folder: Path) -> bool:
    """Whether a picture or paper that prose names is there, and in the folder of the prose."""
    source = folder / str(static.source_path)
    return source.is_file() and within(source, folder)


def mingled(content: Path, shop: Path) -> list[Finding]:
    """What is wrong where the prose is, holds, or lies in the folder of what is private: by a link, that is."""
    private = shop / PRIVATE
    if not within(content, private) and not within(private, content):
        return []
    said = f"prose in {content} would be read together with {private}, of which nothing may come into a site"
    return [Finding(Mark(str(content), 1, 1), "outside-folder", said, "let the prose have a folder of its own")]
