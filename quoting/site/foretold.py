"""What a build would tell of a shop's prose and redirects, without building."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

from quoting.catalog.shop import Catalog
from quoting.findings import Finding
from quoting.offers import Offers
from quoting.site.build import nothing, prose_of, rendered
from quoting.site.place import unwritten
from quoting.site.prose import mingled


def prose_findings(catalog: Catalog, shop_folder: Path, day: date) -> list[Finding]:
    """All of it, but for places (#...) in pages that show the catalog.

    The catalog must be sound: prose is looked up in it.
    """
    content = prose_of(shop_folder)
    if content is not None and (wrong := mingled(content, shop_folder)):
        return wrong
    try:
        with tempfile.TemporaryDirectory() as side:
            new, empty = Path(side) / "site", Path(side) / "no-prose"
            new.mkdir()
            empty.mkdir()
            return rendered(Offers(catalog, day), shop_folder, content or empty, new, nothing, outline=True).findings
    except OSError as error:
        return [unwritten(error, Path(tempfile.gettempdir()))]
