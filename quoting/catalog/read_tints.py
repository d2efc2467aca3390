"""``tints.yaml``: dyes, curves of what else is in a lens, and the mixes of the tint book."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import NamedTuple

from quoting.catalog.files import Files
from quoting.catalog.model import Material, Package
from quoting.catalog.read_curves import EXAMPLE as CURVE
from quoting.catalog.read_curves import read_curve
from quoting.catalog.table import Table, listing
from quoting.catalog.tints import (
    NO_TINTS,
    TEMPERATURES,
    USUAL_TEMPERATURE,
    Coat,
    Curve,
    Dye,
    Mirror,
    Mix,
    Photochromic,
    Polarizer,
    TintBook,
)
from quoting.kernel.luminous import luminous
from quoting.kernel.spectrum import layer, mixed
from quoting.kernel.tinting import depth_for
from quoting.nodes import Record
from quoting.written.kinds import meant_hint

TINTS = "tints.yaml"
DYE = "{id: brown, name: Brown, curve: " + CURVE + "}"
PHOTOCHROMIC = "{id: grays, name: Gray, packages: [plain-150-photo], clear: ..., at_23: ...}"
COAT = "{id: ar, name: Anti-reflective, front: [hard coat], back: [hard coat], curve: ...}"
MIX = '{id: harbor, name: Harbor brown, code: "H 2", parts: {brown: 2, gray: 1}, absorbs: 75}'
# (practice) a dye that is taken up this many times as deeply as its own curve is not dyed any more, but painted
DEEPEST = 40.0
# How far a mix may stay from what it asks and still be called that dark, in shares of light
CLOSE = 0.001


class Read(NamedTuple):
    """The book, and what colorways may name of it."""

    book: TintBook
    mixes: Table[Mix]
    mirrors: Table[Mirror]


def nothing() -> Read:
    """Of a shop that has no such file."""
    return Read(NO_TINTS, Table("mix"), Table("mirror"))


def read_tints(root: Record, materials: Table[Material], packages: Table[Package], files: Files) -> Read:
    """The whole file."""
    dyes: Table[Dye] = Table("dye")
    for record in dyes.listed(root, "dyes", DYE):
        dye = Dye(*_named(record, "brown", "Brown"), read_curve(record, "curve", files), record.mark("id"))
        dyes.enter(record, dye.id, dye)
    passed = _materials(root, materials, files)
    photochromics = _photochromics(root, packages, files)
    polarizers = _polarizers(root, packages, files)
    coats = _coats(root, packages, files)
    mirrors: Table[Mirror] = Table("mirror")
    for record in mirrors.listed(root, "mirrors", "{id: silver, name: Silver, curve: " + CURVE + "}"):
        curve = read_curve(record, "curve", files, reflects=True)
        mirror = Mirror(*_named(record, "silver", "Silver"), curve, record.mark("id"))
        mirrors.enter(record, mirror.id, mirror)
    mixes = _mixes(root, dyes)
    root.close()
    book = TintBook(dyes.made, passed, photochromics, polarizers, coats, mirrors.made, mixes.made)
    return Read(book, mixes, mirrors)


def _named(record: Record, key: str, name: str) -> tuple[str, str]:
    return record.word("id", example=key), record.text("name", most=60, example=name)


def _ids(packages: Iterable[Package]) -> tuple[str, ...]:
    return tuple(package.id for package in packages)


def _materials(root: Record, materials: Table[Material], files: Files) -> dict[str, Curve]:
    """What each material passes between its surfaces, which the index alone does not say: the ultraviolet light."""
    found: dict[str, Curve] = {}
    for record in root.records("materials", "this material", False, "{material: r150, curve: " + CURVE + "}"):
        material = materials.named(record, "material", "r150")
        curve = read_curve(record, "curve", files)
        if record.close() and material is not None:
            if material.id in found:
                said = f"the material `{material.id}` has a curve already"
                record.fault("material", "duplicate-id", said, "delete one of the two")
            found[material.id] = curve
    return found


def _photochromics(root: Record, packages: Table[Package], files: Files) -> tuple[Photochromic, ...]:
    table: Table[Photochromic] = Table("photochromic")
    for record in table.listed(root, "photochromics", PHOTOCHROMIC):
        made = Photochromic(
            *_named(record, "grays", "Gray photochromic"),
            _ids(packages.all_named(record, "packages", "plain-150-photo")),
            read_curve(record, "clear", files),
            {
                degrees: read_curve(record, f"at_{degrees}", files)
                for degrees in TEMPERATURES
                if record.has(f"at_{degrees}") or degrees == USUAL_TEMPERATURE
            },
            record.mark("id"),
        )
        table.enter(record, made.id, made)
    return tuple(table.made.values())


def _polarizers(root: Record, packages: Table[Package], files: Files) -> tuple[Polarizer, ...]:
    table: Table[Polarizer] = Table("polarizer")
    for record in table.listed(root, "polarizers", "{id: film, name: Gray, packages: [...], curve: ...}"):
        listed = _ids(packages.all_named(record, "packages", "plain-150-polar"))
        name = _named(record, "film", "Gray film")
        made = Polarizer(*name, listed, read_curve(record, "curve", files), record.mark("id"))
        table.enter(record, made.id, made)
    return tuple(table.made.values())


def _coats(root: Record, packages: Table[Package], files: Files) -> tuple[Coat, ...]:
    table: Table[Coat] = Table("coat")
    for record in table.listed(root, "coats", COAT):
        made = Coat(
            *_named(record, "ar", "Anti-reflective"),
            read_curve(record, "curve", files, reflects=True),
            _coatings(record, "front", packages),
            _coatings(record, "back", packages),
            record.whole("tint_depth", 0, 100, default=100, example="80"),
            record.mark("id"),
        )
        table.enter(record, made.id, made)
    return tuple(table.made.values())


def _coatings(record: Record, name: str, packages: Table[Package]) -> tuple[str, ...]:
    """Coatings as packages say them; one that no package has is told."""
    found = record.texts(name, default=(), most=80, example="hard coat and anti-reflective")
    known = {package.coating for package in packages.made.values()}
    for text in found if packages.complete else ():
        if text not in known:
            hint = meant_hint(text, tuple(known)) or listing(sorted(known))
            record.fault(name, "unknown-id", f"no package has the coating `{text}`", hint)
    return found


def _mixes(root: Record, dyes: Table[Dye]) -> Table[Mix]:
    """The tint book itself."""
    mixes: Table[Mix] = Table("mix")
    codes: dict[str, str] = {}
    for record in mixes.listed(root, "mixes", MIX):
        mix = _mix(record, dyes)
        if mix.code in codes and record.sound("code"):
            said = f"the order code `{mix.code}` is that of `{codes[mix.code]}`, too"
            record.fault("code", "duplicate-code", said, "give one of the two another code")
        codes.setdefault(mix.code, mix.id)
        if record.sound():
            _dark_enough(record, mix, dyes.made)
        mixes.enter(record, mix.id, mix)
    return mixes


def _mix(record: Record, dyes: Table[Dye]) -> Mix:
    top, bottom, fade_from, fade_to = _ends(record)
    return Mix(
        *_named(record, "harbor", "Harbor brown"),
        record.text("code", most=30, example="H 2"),
        _parts(record, dyes),
        top,
        bottom,
        fade_from,
        fade_to,
        record.prose("about", default="", most=300),
        record.mark("id"),
    )


def _parts(record: Record, dyes: Table[Dye]) -> dict[str, float]:
    """Parts of each dye; only their proportion counts."""
    part = record.record("parts", "`parts`", example="{brown: 2, gray: 1}")
    found = {}
    for name in part.names():
        share = part.number(name, 0.1, 1000, example="2")
        if dyes.keyed(part, name) is not None:
            found[name] = share
    part.close()
    if part.sound() and not found:
        record.fault("parts", "empty-value", "`parts` names no dye", "write for example {brown: 2, gray: 1}")
    return found


def _ends(record: Record) -> tuple[float, float, float, float]:
    """Percent of light taken at the top and below, and where the fade begins and ends, as shares of the box."""
    if not record.is_mapping("absorbs"):
        absorbs = record.number("absorbs", 1, 99, example="75")
        return absorbs, absorbs, 0.0, 1.0
    record.has("absorbs")
    part = record.record("absorbs", "`absorbs`", example="{top: 75, bottom: 10, from: 20, to: 80}")
    top = part.number("top", 0, 99, example="75")
    bottom = part.number("bottom", 0, 99, example="10")
    first = part.number("from", 0, 100, default=0.0, example="20")
    last = part.number("to", 0, 100, default=100.0, example="80")
    if part.sound("from", "to") and first >= last:
        said = f"the fade begins at {first:g} percent of the height and ends at {last:g}"
        part.fault("to", "reversed", said, "both count from the top of the lens; the end lies further down")
    part.close()
    return top, bottom, first / 100, last / 100


def _dark_enough(record: Record, mix: Mix, dyes: dict[str, Dye]) -> None:
    """Whether these dyes can be as dark at all."""
    densities = mixed([list(dyes[one].passes) for one in mix.parts], list(mix.parts.values()))
    depth = depth_for(densities, mix.deepest)
    left = luminous(layer(densities, min(depth, DEEPEST)))
    if abs(left - (1 - mix.deepest / 100)) > CLOSE:
        said = f"these dyes take {100 * (1 - left):.0f} percent of the light at most, not {mix.deepest:g}"
        record.fault("absorbs", "never-so-dark", said, "ask less of them, or add a darker dye")


def under_coats(packages: dict[str, Package], book: TintBook) -> None:
    """Tell each package how deep a tint may lie under its coat."""
    for name, package in packages.items():
        coats = [one.tint_depth for one in book.coats if package.coating in (*one.front, *one.back)]
        if coats:
            packages[name] = replace(package, coat_depth=min(coats))
