"""``data/quotes.js``: what a page needs to open a quote: its form, public keys, what was withdrawn, the words."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import base64
from typing import Any

from quoting.catalog.shop import Catalog, QuoteKey
from quoting.light.glass import CLEAR
from quoting.light.lens_worn import LensWorn
from quoting.quoted.form import FORM, VERSION
from quoting.quoted.positional import day_number, packed
from quoting.quoted.sealing import DOMAIN
from quoting.quoted.squeezing import PRIMER
from quoting.show.lens_paint import paint_worn
from quoting.show.quote_words import QUOTE, TINTED
from quoting.show.tint_record import tint_record
from quoting.site.page_data import compact, said


def key_data(key: QuoteKey) -> dict[str, Any]:
    """A public key, and until when it signed."""
    return {
        "id": key.id,
        "key": base64.urlsafe_b64encode(key.public).decode().rstrip("="),
        "retired": day_number(key.retired) if key.retired is not None else None,
        "recalled": key.recalled,
    }


def quotes_script(catalog: Catalog) -> str:
    """The script; nothing of any quote stands in it but the hashes of withdrawn numbers."""
    data = {
        "version": VERSION,
        "domain": DOMAIN.decode(),
        "primer": PRIMER.decode(),
        "form": FORM,
        "keys": [key_data(key) for key in catalog.keys],
        "withdrawn": list(catalog.withdrawn),
        "cautions": list(catalog.shop.cautions),
        "words": said(QUOTE),
    }
    return f"globalThis.bevelQuotes={compact(data)};\n"


def quote_tints_script(catalog: Catalog) -> str:
    """``data/quote-tints.js``: what is said of tints, the tint book of today, and the lenses that have a color.

    Asked for by quotes that have one or the other.
    """
    mixes = [packed(FORM, "tint", tint_record(mix, catalog)) for mix in catalog.tints.mixes.values()]
    packages = catalog.packages.values()
    lenses = [[one.id, one.light, paint_worn(catalog, LensWorn(one))] for one in packages if one.light != CLEAR]
    return f"globalThis.bevelQuoteTints={compact({'words': said(TINTED), 'mixes': mixes, 'lenses': lenses})};\n"
