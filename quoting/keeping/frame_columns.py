"""Which column of a table of frames is which, by its heading, and the trade's words for what stands in it.

>>> [field_of(text) for text in ("Lens width A (mm)", "Eye size", "Bridge", "Vorneigung (°)", "Wholesale")]
['a', 'a', 'dbl', 'tilt', '']
>>> meant("family", "Rectangular", ""), meant("mounting", "Full rim", "Acetate"), meant("mounting", "Full rim", "bone")
('rectangle', 'full-rim-plastic', 'Full rim')
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Mapping

from quoting.findings import Finding, Mark
from quoting.keeping.cells import Row, Sheet, letters
from quoting.keeping.frame_words import CHOICES, FULL_RIM, METALS, PLASTICS, WORDS


def plain(text: str) -> str:
    """Words only: without what stands in brackets, signs, and upper case."""
    return " ".join(re.findall(r"[^\W_]+", re.sub(r"\(.*?\)|\[.*?\]", " ", text).casefold()))


# How tables of English, German, French, Spanish and Italian makers head their columns (practice)
HEADINGS = {
    "maker": "maker, manufacturer, brand, supplier, hersteller, marke, fabricant, marque, marca, produttore",
    "name": "model, model name, style, style name, frame, frame name, name, modell, modèle, modelo, modello",
    "id": "id, frame id",
    "family": "shape, lens shape, frame shape, shape family, family, form, scheibenform, forme, forma",
    "mounting": "mounting, rim, rim type, frame type, fassungsart, montage, montura, montatura",
    "material": "material, frame material, front material, matériau, matière, materiale",
    "curve": "curve, base curve, front curve, frame curve, base, kurve, courbe, curva",
    "wrap": "wrap, wrap angle, face form, face form angle, fassungsscheibenwinkel, fsw, galbe, angle de galbe, "
    "ángulo facial, angolo di avvolgimento",
    "tilt": "tilt, panto, pantoscopic tilt, pantoscopic angle, vorneigung, vorneigungswinkel, inklination, "
    "angle pantoscopique, ángulo pantoscópico, angolo pantoscopico",
    "about": "about, description, beschreibung",
    "size": "size, sizes, größe, taille, talla, calibro",
    "a": "a, eye, eye size, eyesize, lens width, width, glasbreite, scheibenbreite, scheibenlänge, calibre",
    "b": "b, lens height, height, depth, glashöhe, scheibenhöhe, hauteur, altura, altezza",
    "dbl": "dbl, bridge, bridge size, bridge width, distance between lenses, steg, stegweite, pont, nez, puente, ponte",
    "ed": "ed, effective diameter",
    "temple": "temple, temple length, arm, arm length, bügel, bügellänge, branche, varilla, asta",
    "weight": "weight, frame weight, gewicht, poids, peso",
    "color": "color, colour, color name, colour name, colorway, farbe, farbname, couleur, colore",
    "code": "color code, colour code, color id, colour id, color no, colour no, farbcode, farbnummer, code couleur",
    "version": "version, optical sun, sun optical, ausführung, versión, versione",
    "price": "price, retail, retail price, sales price, rrp, preis, verkaufspreis, vk, prix, precio, prezzo",
    "front": "front, front color, front colour, front hex, hex",
    "temples": "temples, temple color, temple colour, temples color, temples colour, temples hex, temple hex",
    "stock": "stock, stock state, availability, lager, lagerstatus, verfügbarkeit, disponibilité, "
    "existencias, giacenza",
}
ALIASES = {plain(alias): name for name, listed in HEADINGS.items() for alias in listed.split(", ")}
FIRST_ROWS = 30  # headings stand among these


def field_of(heading: str) -> str:
    """The field that a heading means, or nothing; the longest of our words in it decides."""
    words = plain(heading)
    if words in ALIASES:
        return ALIASES[words]
    held = [alias for alias in ALIASES if len(alias) > 2 and " " in alias and f" {alias} " in f" {words} "]
    return ALIASES[max(held, key=len)] if held else ""


def _is(text: str, listed: str) -> bool:
    return text in listed.split(", ")


def meant(name: str, text: str, material: str) -> str:
    """The catalog's word for what stands in a column; what is not known stays as it is."""
    words = plain(text)
    if name == "mounting" and _is(words, FULL_RIM):
        known = {"full-rim-plastic": PLASTICS, "full-rim-metal": METALS}
        return next((one for one, listed in known.items() if _is(plain(material), listed)), text)
    for one in CHOICES.get(name, ()):
        if words == plain(one) or _is(words, WORDS[name].get(one, "")):
            return one
    return text


def id_in_version(color: Mapping[str, str], before: object) -> str:
    """The id of a colorway; of a color that came in another version before, with the version behind it.

    >>> id_in_version({"id": "gold", "version": "sun"}, [{"id": "gold", "version": "optical"}])
    'gold-sun'
    """
    rows = before if isinstance(before, list) else []
    version = next((row.get("version", "") for row in rows if row.get("id") == color["id"]), "")
    differs = version and color["version"] and version != color["version"]
    return f"{color['id']}-{color['version']}" if differs else color["id"]


def headings(sheet: Sheet) -> int | None:
    """The place among the rows of the one with the most headings that are known; None where none has two."""
    counts = [len({field_of(cell.text) for cell in row.cells} - {""}) for row in sheet.rows[:FIRST_ROWS]]
    best = max(counts, default=0)
    return counts.index(best) if best >= 2 else None


def columns(sheet: Sheet, row: Row, named: Mapping[str, str]) -> tuple[dict[str, int], list[Finding]]:
    """The column of each field, counted from 0; ``named`` are headings that somebody chose."""
    found: dict[str, int] = {}
    faults: list[Finding] = []
    texts = [plain(cell.text) for cell in row.cells]
    for name, heading in named.items():
        if plain(heading) in texts:
            found[name] = texts.index(plain(heading))
        else:
            known = ", ".join(cell.text for cell in row.cells if cell.text)
            said = f"no column of {sheet.shown} is headed `{heading}`"
            mark = Mark(f"--column {name}", 1, 1, heading, len(heading))
            faults.append(Finding(mark, "no-such-column", said, f"its headings: {known}"))
    chosen = set(found.values())
    for at, cell in enumerate(row.cells):
        name = field_of(cell.text)
        if not name or at in chosen or name in named:
            continue
        if name in found:
            both = f"the columns {letters(found[name])} and {letters(at)} could both hold `{name}`"
            hint = f"say which: --column {name}=HEADING"
            faults.append(Finding(row.mark(sheet.shown, at), "two-headings", both, hint))
        found.setdefault(name, at)
    return found, faults
