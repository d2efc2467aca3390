"""Bring all catalogs up to the texts that are marked:  python -m tests.languages.update

A new text comes in without a translation, and a test tells of it until it has one; what nobody says any more goes.
For a new language copy theme/languages/es.po under the language's name, empty its translations, and say in its head
how the language makes its plurals (Plural-Forms, see the manual of GNU gettext).
"""

import io
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from quoting.languages import folder
from tests.languages.texts import all_texts

# Of the head of a catalog what nobody reads, and what would differ from one machine to the next
NOISE = (
    b'"Project-Id',
    b'"Report-Msgid',
    b'"POT-Creation',
    b'"PO-Revision',
    b'"Last-Translator',
    b'"Language-Team',
    b'"Generated-By',
)


def template() -> Catalog:
    """All texts, each with the files in which it stands."""
    made = Catalog(fuzzy=False)
    for text in all_texts().values():
        both = (text.one, text.many) if text.many else text.one
        made.add(both, locations=[(text.place, 0)], context=text.context or None)
    return made


def updated(path: Path) -> bytes:
    """A catalog with the texts of today."""
    with path.open("rb") as file:
        catalog = read_po(file, abort_invalid=True)
    catalog.update(template(), no_fuzzy_matching=True, update_creation_date=False)
    catalog.fuzzy = False
    out = io.BytesIO()
    write_po(out, catalog, width=120, include_lineno=False, ignore_obsolete=True)
    return b"".join(line for line in out.getvalue().splitlines(keepends=True) if not line.startswith(NOISE))


def main() -> None:
    """Write what has changed, and say which."""
    for path in sorted(folder().glob("*.po")):
        text = updated(path)
        if text != path.read_bytes():
            path.write_bytes(text)
            print(f"changed: {path}")


if __name__ == "__main__":
    main()
