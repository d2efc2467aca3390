"""From a shop folder to a `Catalog`, or to everything that keeps it from being one, told at once and in order."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path

from quoting.catalog.files import Files
from quoting.catalog.model import Design, Frame, Material, Package
from quoting.catalog.read_frames import read_frames
from quoting.catalog.read_lenses import read_designs, read_materials
from quoting.catalog.read_packages import Tables, read_packages
from quoting.catalog.read_prices import read_prices
from quoting.catalog.read_shop import read_shop
from quoting.catalog.shop import Catalog, PriceList, Shop
from quoting.catalog.table import Table
from quoting.catalog.words import FRAME_WORDS, LENS_WORDS, PRICE_WORDS, SHOP_WORDS
from quoting.findings import Finding, errors, in_order
from quoting.nodes import Record, read


def load(folder: Path) -> tuple[Catalog | None, list[Finding]]:
    """The catalog in a folder with shop.yaml, frames/, lenses/ and prices/, and what was found.

    With any finding that is an error there is no catalog.  Nothing in the files raises.
    """
    files = Files(folder)
    if not files.there():
        return None, files.findings
    loader = _Loader(files)
    shop = loader.shop()
    frames = loader.frames()
    tables = loader.lenses()
    price_list = loader.prices()
    findings = in_order(dict.fromkeys(loader.findings()))
    if errors(findings) or shop is None or price_list is None:
        return None, findings
    return Catalog(
        shop, tables.materials.made, tables.designs.made, tables.packages.made, frames.made, price_list
    ), findings


class _Loader:
    """Reads file after file and keeps what is found in each."""

    def __init__(self, files: Files) -> None:
        self.files = files
        self.roots: list[Record] = []

    def findings(self) -> list[Finding]:
        """Of the folder, then of each file."""
        return self.files.findings + [finding for root in self.roots for finding in root.findings]

    def root(self, path: Path, words: dict[str, str]) -> Record:
        """The record of one file."""
        root = read(path, self.files.shown(path), words)
        self.roots.append(root)
        return root

    def shop(self) -> Shop | None:
        """The shop itself."""
        path = self.files.folder / "shop.yaml"
        other = path.with_suffix(".yml")
        if other.is_file() and not path.exists():
            self.files.wrong_ending(other)
            return None
        return read_shop(self.root(path, SHOP_WORDS)) if self.files.inside(path) else None

    def frames(self) -> Table[Frame]:
        """All frames of all makers."""
        frames: Table[Frame] = Table("frame")
        for path in self.files.listed("frames"):
            read_frames(self.root(path, FRAME_WORDS), frames)
        return frames

    def lenses(self) -> Tables:
        """Materials and designs of all files first: packages may refer to those of another file."""
        materials: Table[Material] = Table("material")
        designs: Table[Design] = Table("design")
        packages: Table[Package] = Table("package")
        tables = Tables(materials, designs, packages)
        roots = [self.root(path, LENS_WORDS) for path in self.files.listed("lenses")]
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

    def prices(self) -> PriceList | None:
        """The one price list."""
        paths = self.files.listed("prices")
        for path in paths[1:]:
            said = f"there is a price list already: {self.files.shown(paths[0])}"
            self.files.refuse(path, "second-price-list", said, "keep the one that holds, and move the other elsewhere")
        return read_prices(self.root(paths[0], PRICE_WORDS)) if paths else None
