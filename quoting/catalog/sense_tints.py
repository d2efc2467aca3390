"""Sense of the tint book beside the lenses: mixes that no lens takes, and mixes behind which nobody may drive."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator

from quoting.catalog.shop import Catalog
from quoting.findings import Finding


def sense_of_tints(catalog: Catalog) -> Iterator[Finding]:
    """All that is odd about mixes."""
    most = max((material.tint_depth for material in catalog.materials.values()), default=0)
    least = catalog.shop.limits.driving_least
    for mix in catalog.tints.mixes.values():
        if mix.deepest > most:
            said = f"the mix `{mix.id}` takes {mix.deepest:g} percent of the light, and no material more than {most}"
            hint = "make it lighter, or say of a material that it takes so deep a tint (`tint_depth`)"
            yield Finding(mix.mark, "no-material-takes-it", said, hint, "warning")
        if 100 - mix.deepest <= least:
            said = f"the mix `{mix.id}` leaves {100 - mix.deepest:g} percent of the light: not for driving at any time"
            hint = "pages and commands say so wherever it is shown; see that whoever sells it does, too"
            yield Finding(mix.mark, "darker-than-8", said, hint, "warning")
