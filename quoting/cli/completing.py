"""What the shell completes: the ids of the shop that is named, else of the one here, else of the demo shop."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

import click

from quoting.catalog.load import load_written
from quoting.catalog.model import FAMILIES, MOUNTINGS, Frame
from quoting.catalog.read_packages import LIGHTS
from quoting.catalog.shop import Catalog
from quoting.places import shared

SHOP = "shop.yaml"
Completer = Callable[[click.Context, click.Parameter, str], list[str]]


def completer(find: Callable[[Catalog, click.Context], Iterable[str]]) -> Completer:
    """What begins with what was typed.  A shop with faults completes nothing: `check` tells of them."""

    def complete(context: click.Context, _: click.Parameter, typed: str) -> list[str]:
        # where an option lacks its value, arguments are not sorted yet
        named = context.params.get("shop") or next((one for one in context.args if (Path(one) / SHOP).is_file()), None)
        here = Path() if Path(SHOP).exists() else shared("demo_catalog")
        catalog, _findings = load_written(Path(named) if named is not None else here)
        found = find(catalog, context) if catalog is not None else ()
        return [one for one in dict.fromkeys(found) if one.startswith(typed)]

    return complete


def _frames(catalog: Catalog, context: click.Context) -> list[Frame]:
    """The frame that is named already, else all."""
    named = {context.params.get("frame"), *context.args}
    return [one for one in catalog.frames.values() if one.id in named] or list(catalog.frames.values())


frame_ids = completer(lambda catalog, _: catalog.frames)
package_ids = completer(lambda catalog, _: catalog.packages)
colorway_ids = completer(lambda catalog, context: (c.id for f in _frames(catalog, context) for c in f.colorways))
size_keys = completer(lambda catalog, context: (s.key for f in _frames(catalog, context) for s in f.sizes))
region_ids = completer(lambda catalog, _: (one.id for one in catalog.price_list.regions))
discount_ids = completer(lambda catalog, _: (one.id for one in catalog.price_list.discounts))


KNOWN: dict[str, Completer] = {
    "family": completer(lambda catalog, _: FAMILIES),
    "mounting": completer(lambda catalog, _: MOUNTINGS),
    "light": completer(lambda catalog, _: LIGHTS),
    "design": completer(lambda catalog, _: catalog.designs),
    "coating": completer(lambda catalog, _: (one.coating for one in catalog.packages.values())),
}
frame_makers = completer(lambda catalog, _: (one.maker for one in catalog.frames.values()))
frame_materials = completer(lambda catalog, _: (one.material for one in catalog.frames.values()))
package_makers = completer(lambda catalog, _: (one.maker for one in catalog.packages.values()))
lens_materials = completer(lambda catalog, _: catalog.materials)
