"""Sense of what a shop says in several languages: words for texts that stand nowhere, and cautions without words."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator

from quoting.catalog.in_language import own_texts
from quoting.catalog.read_languages import FOLDER, of_language, short
from quoting.catalog.shop import Catalog
from quoting.findings import Finding
from quoting.written.kinds import nearest


def sense_of_languages(catalog: Catalog) -> Iterator[Finding]:
    """Texts that nothing in the shop's files is, and cautions that some visitors would read in another language."""
    yield from _nowhere(catalog)
    shop = catalog.shop
    cautions = [*shop.cautions, *(one for sentences in shop.cautions_for.values() for one in sentences)]
    for language in shop.languages[1:]:
        words = of_language(catalog.said, language)
        missing = [one for one in cautions if one not in words]
        if missing:
            rest = f" and {len(missing) - 1} more have" if len(missing) > 1 else " has"
            said = f"the caution `{short(missing[0])}`{rest} no words in `{language}`"
            hint = f"write it in {FOLDER}/{language}.yaml, under texts: `- {{text: as it stands, say: its words}}`"
            yield Finding(shop.mark, "not-translated", said, hint, "warning")


def _nowhere(catalog: Catalog) -> Iterator[Finding]:
    own = set(own_texts(catalog)) if catalog.said else set()
    for one in catalog.said:
        if one.text not in own:
            meant = nearest(one.text, sorted(own))
            hint = f"did you mean `{short(meant)}`?" if meant else "copy the text from the file where it stands"
            said = f"no text of the shop is `{short(one.text)}`, so nobody reads these words"
            yield Finding(one.mark, "unknown-text", said, hint, "warning")
