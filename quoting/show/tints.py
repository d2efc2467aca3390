"""A tinted lens told in a terminal, and as JSON."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Sequence

from quoting.catalog.model import Package
from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Mix
from quoting.kernel import records
from quoting.kernel.consequences import consequences
from quoting.languages import _
from quoting.light.glass import CLEAR, takes
from quoting.light.told import Seen
from quoting.show.looks import hexed
from quoting.show.tint_words import REFUSED, SIGNALS, UNSTATED, percents, sentence

PLACES = ("at the top", "in the middle", "at the bottom")
Row = tuple[str, records.Filter]


def recipe(catalog: Catalog, mix: Mix) -> str:
    """Parts, and how much light they take."""
    counted = [(f"{share:g}", share == 1, catalog.tints.dyes[dye].name) for dye, share in mix.parts.items()]
    parts = ", ".join(f"{count} {'part' if one else 'parts'} {name}" for count, one, name in counted)
    if not mix.fades:
        return f"{parts}; takes {mix.top:g} % of the light"
    span = f"fading from {100 * mix.fade_from:g} to {100 * mix.fade_to:g} % of the height"
    return f"{parts}; takes {mix.top:g} % of the light at the top and {mix.bottom:g} % at the bottom, {span}"


def state_name(state: str) -> str:
    """A state in words."""
    return state if state == CLEAR else f"dark at {state} °C"


def rows(mix: Mix | None, seen: Sequence[Seen]) -> list[Row]:
    """What is told of each state: one row, or of a gradient three."""
    found: list[Row] = []
    for one in seen:
        name = state_name(one.stack.state)
        if mix is not None and mix.fades:
            found += [(f"{name}, {place}", at) for place, at in zip(PLACES, one.at, strict=True)]
        else:
            found.append((name, one.reference))
    return found


def consequences_of(catalog: Catalog, seen: Sequence[Seen]) -> list[records.Told]:
    """What follows: from the darkest place, or the only one, of each state."""
    clear, dark = seen[0].darkest, [one.darkest for one in seen[1:]]
    degrees, known = [int(one.stack.state) for one in seen[1:]], "material" not in seen[0].stack.unstated
    return consequences(clear, dark, degrees, catalog.shop.limits.driving_least, known)


def refusals(catalog: Catalog, mix: Mix) -> tuple[list[str], list[str]]:
    """Materials that take a mix, and those that do not, with why."""
    taken, refused = [], []
    for material in catalog.materials.values():
        if mix.deepest <= material.tint_depth:
            taken.append(material.name)
        else:
            refused.append(f"{material.name} ({material.tint_depth} %)")
    return taken, refused


def unstated(seen: Sequence[Seen]) -> list[str]:
    """What the figures do not rest on, but for the ultraviolet light, of which a sentence tells."""
    return [code for code in dict.fromkeys(code for one in seen for code in one.stack.unstated) if code in UNSTATED]


def why_not(package: Package, code: str) -> str:
    """Why a lens does not take a tint."""
    return _(REFUSED[code]).format(material=package.material.name, most=package.material.tint_depth)


def told(catalog: Catalog, mix: Mix | None, package: Package, seen: Sequence[Seen]) -> str:
    """Everything about one lens with one tint, as a terminal shows it."""
    lines = [f"on {package.name} ({package.id})"]
    if mix is not None:
        lines.insert(0, f"{mix.name}{f' ({mix.code})' if mix.code else ''}: {recipe(catalog, mix)}")
        code = takes(catalog, package, mix.deepest)
        lines += [f"This lens does not take it: {why_not(package, code)}."] if code else []
    lines += ["", f"{'':30}  light   cat  UV-A   driving      seen through  on white"]
    known = "material" not in seen[0].stack.unstated
    lines += [_row(name, at, known) for name, at in rows(mix, seen)]
    lines.append("")
    lines += [sentence(one) for one in consequences_of(catalog, seen)]
    lines += [_(UNSTATED[code]) for code in unstated(seen)]
    lines.append(_(SIGNALS))
    return "\n".join(lines)


def _row(name: str, at: records.Filter, uv_known: bool) -> str:
    driving = "day, night" if at["night"] else "day" if at["day"] else "never"
    light, uva = f"{percents(at['percent'])} %", f"{percents(at['uva'])} %" if uv_known else "–"
    colors = f"{hexed(at['through']):12}  {hexed(at['on_white'])}"
    return f"{name:30} {light:>7} {at['category']:4} {uva:>7}  {driving:11}  {colors}"


def book(catalog: Catalog) -> str:
    """All mixes: order code, name, recipe, materials."""
    lines = []
    for mix in catalog.tints.mixes.values():
        taken, refused = refusals(catalog, mix)
        lines.append(f"{mix.id:14} {mix.code:6} {mix.name}: {recipe(catalog, mix)}")
        lines.append(f"{'':21} taken by {', '.join(taken) or 'no material'}")
        lines += [f"{'':21} too deep for {', '.join(refused)}"] if refused else []
    return "\n".join(lines)


def as_dict(catalog: Catalog, mix: Mix | None, package: Package, seen: Sequence[Seen]) -> dict[str, object]:
    """The same for programs; its form is in DEVELOPERS.md."""
    said: dict[str, object] = {"package": package.id}
    if mix is not None:
        said |= {
            "mix": mix.id,
            "name": mix.name,
            "code": mix.code,
            "parts": mix.parts,
            "absorbs_top": mix.top,
            "absorbs_bottom": mix.bottom,
            "fade_from": mix.fade_from,
            "fade_to": mix.fade_to,
            "refused": takes(catalog, package, mix.deepest),
        }
    said["states"] = [
        {
            "state": one.stack.state,
            "unstated": list(one.stack.unstated),
            "top": filter_dict(one.at[0]),
            "reference": filter_dict(one.at[1]),
            "bottom": filter_dict(one.at[2]),
        }
        for one in seen
    ]
    said["consequences"] = [{**one, "text": sentence(one)} for one in consequences_of(catalog, seen)]
    return said


def filter_dict(at: records.Filter) -> dict[str, object]:
    """Figures at one place."""
    colors = {name: hexed(at[name]) for name in ("through", "on_white", "on_skin")}
    return {**at, **colors, "least_share": round(at["least_share"], 4)}
