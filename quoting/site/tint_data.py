"""``data/light.js``: the kernel of light, the shop's curves and the words for them, asked for where a tint is shown."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from typing import Any

from quoting.catalog.shop import Catalog
from quoting.catalog.tints import Curve, Mix
from quoting.kernel.coated import fresnel
from quoting.kernel.scene import scene
from quoting.kernel.spectrum import flat
from quoting.languages import _
from quoting.light.glass import photochromic_of, polarizer_of, takes
from quoting.show.street import street
from quoting.show.tint_words import PAGE, REFUSED, SENTENCES, SIGNALS
from quoting.site.engine import light_script
from quoting.site.page_data import compact, said


class _Curves:
    """Curves by number, each once."""

    def __init__(self) -> None:
        self.all: list[Curve] = []

    def number(self, curve: Curve | None) -> int:
        """Where it stands; -1 for none."""
        if curve is None:
            return -1
        if curve not in self.all:
            self.all.append(curve)
        return self.all.index(curve)


def light_data(catalog: Catalog) -> dict[str, Any]:
    """Everything of the shop that the page's kernel needs for light."""
    curves, book = _Curves(), catalog.tints
    lenses = [_lens(catalog, package.id, curves) for package in catalog.packages.values()]
    return {
        "dyes": [{"id": one.id, "name": one.name, "curve": curves.number(one.passes)} for one in book.dyes.values()],
        "mirrors": [
            {"id": one.id, "name": one.name, "curve": curves.number(one.reflects)} for one in book.mirrors.values()
        ],
        "mixes": [mix_data(one) for one in book.mixes.values()],
        "lenses": lenses,
        "limits": [catalog.shop.limits.driving_least, catalog.shop.limits.night_least],
        "street": street(scene(flat(1.0)), _(PAGE["street-plain"])),
        "words": {"told": said(SENTENCES), "refused": said(REFUSED), "page": said({**PAGE, "signals": SIGNALS})},
        "curves": curves.all,
    }


def _lens(catalog: Catalog, name: str, curves: _Curves) -> dict[str, Any]:
    package = catalog.packages[name]
    book = catalog.tints
    stated, film = photochromic_of(catalog, package), polarizer_of(catalog, package)
    states = (
        {"clear": curves.number(stated.clear)} if stated else {"clear": curves.number(film.passes if film else None)}
    )
    states |= {str(degrees): curves.number(curve) for degrees, curve in (stated.darkened if stated else {}).items()}
    front = next((one.reflects for one in reversed(book.coats) if package.coating in one.front), None)
    back = next((one.reflects for one in reversed(book.coats) if package.coating in one.back), None)
    return {
        "id": package.id,
        "name": package.name,
        "material": package.material.name,
        "depth": package.material.tint_depth,
        "coat": min((one.tint_depth for one in book.coats if package.coating in (*one.front, *one.back)), default=100),
        "over": takes(catalog, package, 0.0) == "over-filter",
        "bare": fresnel(package.material.index),
        "inside": curves.number(book.materials.get(package.material.id)),
        "front": curves.number(front),
        "back": curves.number(back),
        "states": states,
        "clear": package.light == "clear",
        "stated": package.light == "clear" or stated is not None or film is not None,
        "mirror": package.treatments.mirror,
    }


def mix_data(mix: Mix) -> dict[str, Any]:
    """A mix of the tint book."""
    ends = {"top": mix.top, "bottom": mix.bottom, "from": 100 * mix.fade_from, "to": 100 * mix.fade_to}
    return {"id": mix.id, "name": mix.name, "code": mix.code, "parts": mix.parts, **ends}


def tints_script(catalog: Catalog) -> str:
    """The whole script; it needs the engine before it."""
    return f"{light_script()}globalThis.bevelLight={compact(light_data(catalog))};\n"
