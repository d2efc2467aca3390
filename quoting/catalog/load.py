"""From a shop folder to a `Catalog`, or to everything that keeps it from being one, told at once and in order."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import gc
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from quoting.catalog import checks
from quoting.catalog.files import ENDING, Files
from quoting.catalog.in_time import as_on
from quoting.catalog.model import Design, Frame, Material, Package
from quoting.catalog.read_frames import read_frames
from quoting.catalog.read_languages import FOLDER as LANGUAGES
from quoting.catalog.read_languages import read_said
from quoting.catalog.read_lenses import read_designs, read_materials
from quoting.catalog.read_packages import Tables, read_packages
from quoting.catalog.read_prices import read_prices
from quoting.catalog.read_quotes import QUOTES, read_quotes
from quoting.catalog.read_shop import read_shop
from quoting.catalog.read_tints import TINTS, Read, nothing, read_tints, under_coats
from quoting.catalog.read_traces import Traces
from quoting.catalog.read_wears import Worn
from quoting.catalog.shop import Catalog, PriceList, QuoteKey, Said, Shop
from quoting.catalog.sound import ALL, Sound, sound_of
from quoting.catalog.table import Table
from quoting.catalog.words import FRAME_WORDS, LENS_WORDS, PRICE_WORDS, SHOP_WORDS, TINT_WORDS
from quoting.findings import Finding, errors, in_order
from quoting.nodes import Record, read, read_text

NOTHING_INSTEAD: Mapping[Path, bytes] = {}


def load(folder: Path, day: date | None = None) -> tuple[Catalog | None, list[Finding]]:
    """The catalog in a folder with shop.yaml, frames/, lenses/ and prices/, and what was found.

    Prices are those of the day, today where none is named.  All price lists are checked.  With any finding that is an
    error there is no catalog.  Nothing in the files raises.
    """
    catalog, findings = load_written(folder)
    return (as_on(catalog, day or date.today()) if catalog is not None else None), findings


def load_written(folder: Path, instead: Mapping[Path, bytes] = NOTHING_INSTEAD) -> tuple[Catalog | None, list[Finding]]:
    """The same with each price as it stands beside its package or colorway, before any list of its own day.

    ``instead`` holds contents to read in place of those of files (UTF-8), new files included: what a change would make
    of the shop, before it is written.
    """
    with collecting_nothing():
        catalog, findings, _ = _read(folder, instead)
        return catalog, findings


def load_sound(folder: Path) -> tuple[Catalog | None, list[Finding], Sound | None]:
    """The same, and whatever could be read; None where there is no such folder."""
    with collecting_nothing():
        return _read(folder, NOTHING_INSTEAD)


@contextmanager
def collecting_nothing() -> Iterator[None]:
    """The collector of circles rests: it would go through all that was read again and again, and find nothing.

    Reading makes no circles; in a shop of 10,000 frames the collector takes more than a third of the time.
    """
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _read(folder: Path, instead: Mapping[Path, bytes]) -> tuple[Catalog | None, list[Finding], Sound | None]:
    files = Files(folder)
    if not files.there():
        return None, files.findings, None
    loader = _Loader(files, instead)
    shop = loader.shop()
    tables = loader.lenses()
    tints = loader.tints(tables)
    under_coats(tables.packages.made, tints.book)
    frames = loader.frames(Worn(tints, tables.packages))
    lists = loader.prices(tables.packages, frames)
    keys, withdrawn = loader.quotes()
    said = loader.said()
    findings = in_order(dict.fromkeys(loader.findings()))
    faulty = {one.mark.file for one in errors(findings)}
    whole = frozenset(kind for kind in ALL if not files.touched(kind, faulty))
    sound = sound_of(shop, frames, tables, (lists, loader.all_lists), said, tints.book, whole)
    if faulty or shop is None or not lists:
        return None, findings, sound
    made = tables.materials.made, tables.designs.made, tables.packages.made, frames.made
    return Catalog(shop, *made, lists[0], lists, keys, withdrawn, said, tints.book), findings, sound


class _Loader:
    """Reads file after file and keeps what is found in each."""

    def __init__(self, files: Files, instead: Mapping[Path, bytes]) -> None:
        self.files = files
        self.instead = instead
        self.roots: list[Record] = []
        self.all_lists = True  # whether every price list could be made

    def findings(self) -> list[Finding]:
        """Of the folder, then of each file."""
        return self.files.findings + [finding for root in self.roots for finding in root.findings]

    def root(self, path: Path, words: dict[str, str]) -> Record:
        """The record of one file."""
        shown = self.files.shown(path)
        new = self.instead.get(path)
        root = read(path, shown, words) if new is None else read_text(new.decode("utf-8"), shown, words)
        self.roots.append(root)
        return root

    def listed(self, name: str) -> list[Path]:
        """The files of a folder, and those that a change would put there."""
        paths = self.files.listed(name)
        new = {path for path in self.instead if path.parent == self.files.folder / name and path.suffix == ENDING}
        return sorted({*paths, *new})

    def shop(self) -> Shop | None:
        """The shop itself."""
        path = self.files.folder / "shop.yaml"
        other = path.with_suffix(".yml")
        if other.is_file() and not path.exists():
            self.files.wrong_ending(other)
            return None
        return read_shop(self.root(path, SHOP_WORDS)) if self.files.inside(path) else None

    def frames(self, worn: Worn) -> Table[Frame]:
        """All frames of all makers."""
        frames: Table[Frame] = Table("frame")
        traces = Traces(self.files, self.instead)
        for path in self.listed("frames"):
            read_frames(self.root(path, FRAME_WORDS), frames, traces, worn)
        return frames

    def lenses(self) -> Tables:
        """Materials and designs of all files first: packages may refer to those of another file."""
        materials: Table[Material] = Table("material")
        designs: Table[Design] = Table("design")
        packages: Table[Package] = Table("package")
        tables = Tables(materials, designs, packages)
        roots = [self.root(path, LENS_WORDS) for path in self.listed("lenses")]
        for root in roots:
            read_materials(root, materials)
            read_designs(root, designs)
        for root in roots:
            read_packages(root, tables)
        if roots and packages.empty and not errors(finding for root in roots for finding in root.findings):
            folder = self.files.folder / "lenses"
            said = "no file in this folder holds a lens package, so there is nothing to quote"
            self.files.refuse(folder, "nothing-there", said, "write at least one under packages")
        return tables

    def prices(self, packages: Table[Package], frames: Table[Frame]) -> tuple[PriceList, ...]:
        """All price lists that could be read, in order of the days they hold from."""
        roots = [self.root(path, PRICE_WORDS) for path in self.listed("prices")]
        lists = [read_prices(root, packages, frames) for root in roots]
        checks.distinct_lists(roots)
        self.all_lists = None not in lists
        return tuple(sorted((one for one in lists if one is not None), key=lambda one: one.effective))

    def said(self) -> tuple[Said, ...]:
        """The owner's texts in other languages; a shop need not have any."""
        paths = self.files.beside(LANGUAGES)
        return tuple(one for path in paths for one in read_said(self.root(path, {}), path))

    def tints(self, tables: Tables) -> Read:
        """The dyes and mixes; a shop may tint nothing of its own."""
        path = self.files.folder / TINTS
        there = path in self.instead or path.is_symlink() or path.exists()
        if not there or not self.files.inside(path):
            return nothing()
        return read_tints(self.root(path, TINT_WORDS), tables.materials, tables.packages, self.files)

    def quotes(self) -> tuple[tuple[QuoteKey, ...], tuple[str, ...]]:
        """What is public of the quotes; a shop may have none of it."""
        path = self.files.folder / QUOTES
        there = path in self.instead or path.is_symlink() or path.exists()
        if not there or not self.files.inside(path):
            return (), ()
        return read_quotes(self.root(path, {}))
