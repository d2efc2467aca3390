"""``tint``: what the mixes of the tint book come to, a mix that is tried, and the recipe of a color."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import click

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.choosing import UnknownError, pick
from quoting.cli.common import FOLDER, any_shop, loaded, misuse
from quoting.findings import Mark
from quoting.kernel.coated import transmitted
from quoting.kernel.colors import from_srgb, lab
from quoting.kernel.luminous import luminous
from quoting.kernel.recipes import MOST_OFFERED, at_lightness
from quoting.kernel.recipes import match as matched
from quoting.kernel.spectrum import flat, layer, mixed
from quoting.light.glass import glass_of, takes
from quoting.light.told import all_states, usual_package
from quoting.show.tints import as_dict, book, told, why_not

PARTS = re.compile(r"\s*(?:([0-9]+(?:[.,][0-9]+)?)\s*(?:x|parts?)?\s+)?([a-z0-9]+(?:-[a-z0-9]+)*)\s*")
SRGB = re.compile(r"#?([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})", re.IGNORECASE)
TRIED = Mark("", 1, 1)
# CIEDE2000 from which two colors differ side by side; around 1 (practice)
VISIBLE = 1.0


def shared(command: Callable[..., None]) -> Callable[..., None]:
    """What all three take."""
    for option in (
        click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md."),
        click.option("--shop", "folder", type=FOLDER, help="The shop's folder."),
        click.option("--mirror", default="", help="With this mirror of the shop on the front."),
        click.option("--on", "lens", default="", help="The lens package; else the first clear one that takes it."),
    ):
        command = option(command)
    return command


@click.group()
def tint() -> None:
    """What a tint looks like and comes to: its light, its category, driving, its color."""


@tint.command()
@click.argument("mix", required=False, default="")
@shared
def show(mix: str, lens: str, mirror: str, folder: Path | None, as_json: bool) -> None:
    """Tell of MIX of the tint book on a lens; without MIX list the book, or tell of the lens named by --on alone."""
    catalog = _catalog(folder, as_json)
    if not mix and not lens:
        click.echo(json.dumps(_book_dict(catalog), indent=2, ensure_ascii=False) if as_json else _book(catalog))
        return
    try:
        chosen = pick("mix", catalog.tints.mixes, mix) if mix else None
        _tell(catalog, chosen, lens, mirror, as_json)
    except UnknownError as fault:
        misuse(fault)


@tint.command()
@click.argument("parts")
@click.argument("absorbs", type=click.FloatRange(0, 99))
@click.option("--down-to", type=click.FloatRange(0, 99), help="Percent of light that it takes at the bottom.")
@click.option("--from", "first", type=click.FloatRange(0, 100), default=0.0, help="Where it begins to fade, in %.")
@click.option("--until", "last", type=click.FloatRange(0, 100), default=100.0, help="Where it ends to fade.")
@shared
def mix(parts: str, absorbs: float, down_to: float | None, first: float, last: float, **more: Any) -> None:
    """Try PARTS, such as "2 brown, 1 gray", that take ABSORBS percent of the light."""
    catalog = _catalog(more["folder"], more["as_json"])
    if first >= last:
        misuse("the fade must begin above where it ends: --from is less than --until")
    try:
        shares = _shares(catalog, parts)
        bottom = absorbs if down_to is None else down_to
        name = "Tried: " + ", ".join(shares)
        made = Mix("tried", name, "", shares, absorbs, bottom, first / 100, last / 100, "", TRIED)
        _tell(catalog, made, more["lens"], more["mirror"], more["as_json"])
    except UnknownError as fault:
        misuse(fault)


@tint.command()
@click.argument("color")
@click.argument("passes", type=click.FloatRange(1, 95))
@click.option("--dyes", default="", help="Only these dyes, such as brown,gray.")
@shared
def match(color: str, passes: float, dyes: str, lens: str, mirror: str, folder: Path | None, as_json: bool) -> None:
    """Look for the recipe whose color seen through is nearest to COLOR, where the lens passes PASSES percent of light.

    COLOR is sRGB such as "#8a5a2b", or CIE L*, a*, b* such as "45 12 30". Its chromaticity counts; how light it is, is
    decided by PASSES.
    """
    catalog = _catalog(folder, as_json)
    try:
        names = [one.strip() for one in dyes.split(",") if one.strip()] or list(catalog.tints.dyes)
        offered = [pick("dye", catalog.tints.dyes, one) for one in names]
        if not 0 < len(offered) <= MOST_OFFERED:
            raise UnknownError(f"name one to {MOST_OFFERED} dyes: --dyes brown,gray")
        package = _package(catalog, lens, 100 - passes)
        glass = glass_of(catalog, package, mirror=_mirror(catalog, mirror)).glass
        wanted = at_lightness(_color(color), passes / 100)
    except UnknownError as fault:
        misuse(fault)
    clear = luminous(transmitted(glass, flat(1.0)))
    if passes / 100 > clear:
        misuse(f"{package.name} passes {100 * clear:.1f} % without any dye: ask for less")
    found = matched(glass, [list(dye.passes) for dye in offered], passes / 100, wanted)
    shared_by = math.gcd(*(int(part) for part in found["parts"]))
    shares = {dye.id: part / shared_by for dye, part in zip(offered, found["parts"], strict=True) if part}
    absorbs = _absorbed(catalog, shares, found["depth"])
    if as_json:
        said = {"package": package.id, "parts": shares, "absorbs": absorbs, "difference": found["difference"]}
        click.echo(json.dumps({**said, "lab": found["lab"], "wanted": wanted}, indent=2))
        return
    parts = ", ".join(f"{part:g} {dye}" for dye, part in shares.items())
    click.echo(f'bevelbook tint mix "{parts}" {absorbs:.1f} --on {package.id}')
    left = f"CIEDE2000 from the wanted color {found['difference']:.2f}"
    click.echo(f"passes {100 * found['passed']:.1f} % of the light; {left}")
    code = takes(catalog, package, absorbs)
    if code:
        click.echo(f"{package.name} does not take it: {why_not(package, code)}.")
    if found["difference"] >= VISIBLE:
        click.echo("That difference can be seen side by side: these dyes come no nearer at this darkness.")


def _catalog(folder: Path | None, as_json: bool) -> Catalog:
    catalog = loaded(any_shop(folder), date.today(), as_json)
    if not catalog.tints.dyes:
        misuse("this shop has no dyes: write them in tints.yaml, as in the demo shop")
    return catalog


def _book(catalog: Catalog) -> str:
    return book(catalog) or "There is no mix in tints.yaml yet."


def _book_dict(catalog: Catalog) -> dict[str, object]:
    found = []
    for one in catalog.tints.mixes.values():
        package = usual_package(catalog, one.deepest)
        if package is not None:
            found.append(as_dict(catalog, one, package, all_states(catalog, package, one)))
    return {"mixes": found}


def _package(catalog: Catalog, wanted: str, depth: float) -> Package:
    if wanted:
        return pick("lens package", catalog.packages, wanted)
    package = usual_package(catalog, depth)
    if package is None:
        raise UnknownError("this shop has no clear lens: name one with --on")
    return package


def _mirror(catalog: Catalog, wanted: str) -> str:
    if wanted:
        pick("mirror", catalog.tints.mirrors, wanted)
    return wanted


def _tell(catalog: Catalog, mix: Mix | None, lens: str, mirror: str, as_json: bool) -> None:
    package = _package(catalog, lens, mix.deepest if mix else 0.0)
    found = all_states(catalog, package, mix, _mirror(catalog, mirror))
    if as_json:
        click.echo(json.dumps(as_dict(catalog, mix, package, found), indent=2, ensure_ascii=False))
    else:
        click.echo(told(catalog, mix, package, found))


def _absorbed(catalog: Catalog, shares: dict[str, float], depth: float) -> float:
    """Percent of light that the dye alone takes."""
    densities = mixed([list(catalog.tints.dyes[dye].passes) for dye in shares], list(shares.values()))
    return 100 * (1 - luminous(layer(densities, depth)))


def _shares(catalog: Catalog, written: str) -> dict[str, float]:
    """ "2 brown, 1 gray" by dye.   Raises UnknownError."""
    found: dict[str, float] = {}
    for piece in re.split(r"[,+;]|\band\b", written):
        match = PARTS.fullmatch(piece)
        if match is None or float((match[1] or "1").replace(",", ".")) <= 0:
            raise UnknownError(f'{piece.strip()!r} is no part of a dye: write for example "2 brown, 1 gray"')
        dye = pick("dye", catalog.tints.dyes, match[2])
        found[dye.id] = found.get(dye.id, 0.0) + float((match[1] or "1").replace(",", "."))
    return found


def _color(written: str) -> list[float]:
    """L*, a*, b* of what was typed.   Raises UnknownError."""
    match = SRGB.fullmatch(written.strip())
    if match is not None:
        return lab(from_srgb([int(part, 16) / 255 for part in match.groups()]))
    try:
        values = [float(part) for part in re.split(r"[\s;]+", written.strip())]
    except ValueError:
        values = []
    if len(values) != 3 or not (0 < values[0] <= 100 and max(map(abs, values[1:])) <= 150):
        raise UnknownError(f'{written!r} is no color: write "#8a5a2b", or L*, a*, b* such as "45 12 30"')
    return values
