"""New frames and packages: read by the readers of the shop's files, put into the file of their maker, checked whole."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from quoting.catalog.files import ENDING, Files
from quoting.catalog.load import load_written
from quoting.catalog.model import Design, Frame, Material, Package
from quoting.catalog.read_frames import read_frame
from quoting.catalog.read_packages import Tables, read_package
from quoting.catalog.shop import Catalog
from quoting.catalog.table import Table
from quoting.catalog.words import FRAME_WORDS, LENS_WORDS
from quoting.findings import Finding, Mark, errors
from quoting.keeping.entries import Entry, Reader, slug
from quoting.keeping.writing import NoPlaceError, appended, whole_file
from quoting.nodes import Record, read
from quoting.written.kinds import text as words_for_people

T = TypeVar("T", Frame, Package, Material, Design)


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """Frames or packages: where they lie, what they are called, how they are read."""

    folder: str  # of the shop
    name: str  # of the list in a file
    words: Mapping[str, str]


FRAMES = Kind("frames", "frames", FRAME_WORDS)
PACKAGES = Kind("lenses", "packages", LENS_WORDS)


def known(kind: Kind, catalog: Catalog) -> Mapping[str, Frame] | Mapping[str, Package]:
    """What of it the shop has."""
    return catalog.frames if kind is FRAMES else catalog.packages


def makers(kind: Kind, catalog: Catalog) -> dict[str, str]:
    """The makers the shop has, each with the file in which it comes last, as messages name it."""
    return {one.maker: one.mark.file for one in known(kind, catalog).values()}


def reader(kind: Kind, catalog: Catalog, maker: str) -> Reader:
    """The reader of one entry beside all that the shop has."""
    return _frame_reader(catalog, maker) if kind is FRAMES else _package_reader(catalog, maker)


def _frame_reader(catalog: Catalog, maker: str) -> Reader:
    def read(root: Record) -> None:
        frames = _table("frame", catalog.frames)
        frame = read_frame(root, maker)
        frames.enter(root, frame.id, frame)

    return read


def _package_reader(catalog: Catalog, maker: str) -> Reader:
    def read(root: Record) -> None:
        materials = _table("material", catalog.materials)
        designs = _table("design", catalog.designs)
        packages = _table("package", catalog.packages)
        package = read_package(root, maker, Tables(materials, designs, packages))
        packages.enter(root, package.id, package)

    return read


def _table(noun: str, there: Mapping[str, T]) -> Table[T]:
    table: Table[T] = Table(noun)
    for key, value in there.items():
        table.keep(key, value, value.mark)
    return table


def maker_fault(name: str) -> Finding | None:
    """What is wrong with a maker's name."""
    value = words_for_people(80).read(name)
    if isinstance(value, str):
        return None
    return Finding(Mark("maker", 1, 1), value.code, f"the maker {value.said}", value.hint)


@dataclass(frozen=True, slots=True)
class Addition:
    """The files that would hold new entries, what each held before, and what is wrong with that."""

    contents: dict[Path, bytes]
    before: dict[Path, bytes | None]
    findings: list[Finding]


def added(folder: Path, catalog: Catalog, kind: Kind, entries: Sequence[tuple[str, Entry]]) -> Addition:
    """The files of a shop with new entries, each with its maker, and what a check of all of them tells."""
    contents: dict[Path, bytes] = {}
    before: dict[Path, bytes | None] = {}
    files = {Files(folder).shown(path): path for path in sorted((folder / kind.folder).glob(f"*{ENDING}"))}
    places = {maker.casefold(): files[file] for maker, file in makers(kind, catalog).items() if file in files}
    by_maker: dict[str, list[tuple[str, Entry]]] = {}
    for maker, entry in entries:
        by_maker.setdefault(maker.casefold(), []).append((maker, entry))
    for folded, group in by_maker.items():
        new = [entry for _, entry in group]
        path = places.get(folded) or _of_maker(files.values(), folded)
        if path is None:
            path = _new_path(folder / kind.folder, group[0][0], contents)
            before[path], contents[path] = None, whole_file({"maker": group[0][0]}, kind.name, *new)
            continue
        raw = path.read_bytes()
        try:
            before[path], contents[path] = raw, appended(raw, kind.name, *new)
        except NoPlaceError as fault:
            return Addition({}, {}, [_no_place(path, fault.mark, raw)])
    return Addition(contents, before, checked(folder, catalog, kind, contents, [entry for _, entry in entries]))


def _of_maker(paths: Iterable[Path], folded: str) -> Path | None:
    """The first file that names the maker: one with materials and designs, say, and no package yet."""
    roots = ((path, read(path)) for path in paths)
    return next((path for path, root in roots if root.has("maker") and root.text("maker").casefold() == folded), None)


def _new_path(place: Path, maker: str, contents: Mapping[Path, bytes]) -> Path:
    """A file that is not there yet, named after the maker."""
    name = slug(maker) or "maker"
    tries = (place / f"{name}{end}{ENDING}" for end in ("", *(f"-{number}" for number in range(2, 1000))))
    return next(path for path in tries if not path.exists() and path not in contents)


def _no_place(path: Path, mark: Mark, raw: bytes) -> Finding:
    lines = raw.decode("utf-8-sig").splitlines()
    text = lines[mark.line - 1] if mark.line <= len(lines) else ""
    said = "this list is written so that no entry can be put behind its last one"
    hint = "write it as lines, each entry beginning with a dash on a line of its own"
    return Finding(Mark(path.as_posix(), mark.line, mark.column, text), "no-place", said, hint)


def checked(
    folder: Path, catalog: Catalog, kind: Kind, contents: Mapping[Path, bytes], entries: Sequence[Entry]
) -> list[Finding]:
    """What would be wrong with the shop once the files held this: faults, or something else that reads otherwise."""
    found, findings = load_written(folder, contents)
    if found is None:
        return errors(findings)
    new = {str(entry["id"]) for entry in entries}
    rest = {key: one for key, one in known(kind, found).items() if key not in new}
    as_before = replace(found, frames=rest) if kind is FRAMES else replace(found, packages=rest)  # type: ignore[arg-type]
    if as_before != catalog or not new <= known(kind, found).keys():
        mark = Mark(str(folder), 1, 1)
        said = "with the new entries in their files, something else of the shop would read otherwise"
        hint = "see whether somebody changes the files just now, then try again; else write it by hand"
        return [Finding(mark, "not-only-new", said, hint)]
    files = {path.as_posix() for path in contents}
    return [one for one in findings if one.mark.file in files]
