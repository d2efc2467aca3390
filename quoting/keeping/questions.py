"""What is asked about a new frame or package, in which order, and what is usual."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from quoting.catalog.checks import MULTIFOCAL
from quoting.catalog.model import FAMILIES, MOUNTINGS
from quoting.catalog.read_frames import STOCKS, VERSIONS
from quoting.catalog.read_packages import LIGHTS
from quoting.catalog.shop import Catalog
from quoting.keeping.entries import Entry, slug

Usual = Callable[[Entry], str]  # an answer to propose, from those there are; "": none


def _none(_: Entry) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class Question:
    """One value: its field, how it is asked for, what is known, what is usual."""

    name: str
    text: str
    known: tuple[str, ...] = ()
    usual: Usual = _none
    optional: bool = False
    inside: str = ""  # the field with names and values in which it lies


@dataclass(frozen=True, slots=True)
class Rows:
    """A list of rows, each with the same questions."""

    name: str
    row: str  # what one of them is called
    option: str  # the option that gives one
    questions: tuple[Question, ...]


def _by(field: str) -> Usual:
    return lambda entry: str(entry.get(field, ""))


def _id(entry: Entry) -> str:
    return slug(str(entry.get("name", "")))


def _fixed(text: str) -> Usual:
    return lambda _: text


# What is asked about a frame or package in one answer, and what the option says that gives it
ASKED = {
    "name": "Its name",
    "id": "Its id; it stands in links",
    "family": "Shape family",
    "mounting": "Mounting",
    "material": "Material",
    "curve": "Front curve, D",
    "wrap": "Face-form angle, degrees",
    "tilt": "Pantoscopic tilt, degrees",
    "design": "Design",
    "light": "Light treatment",
    "coating": "Coating",
    "finished": "From a drawer of finished powers, yes or no",
    "prism": "Most prescribed prism for one eye, in prism diopters",
    "about": "A sentence about it, or nothing",
}
# The words that are possible there, where no shop adds any
WORDS = {"family": FAMILIES, "mounting": MOUNTINGS, "light": LIGHTS}

NAME = Question("name", ASKED["name"])
ID = Question("id", ASKED["id"], usual=_id)
ABOUT = Question("about", ASKED["about"], optional=True)

SIZES = Rows("sizes", "size", "size", (
    Question("a", "Lens width A, mm"),
    Question("b", "Lens height B, mm"),
    Question("dbl", "Distance between lenses DBL, mm"),
    Question("ed", "Effective diameter ED, mm: twice the longest distance from the middle of the box to the edge"),
    Question("temple", "Temple length, mm"),
    Question("weight", "Weight of the empty frame in g, or nothing", optional=True),
))  # fmt: skip
COLORWAYS = Rows("colorways", "colorway", "colorway", (
    Question("name", "The color's name"),
    ID,
    Question("version", "Version", VERSIONS, _fixed("optical")),
    Question("price", "Price"),
    Question("front", "Color of the front for the drawing, such as #444a52"),
    Question("temples", "Color of the temples", usual=_by("front")),
    Question("stock", "In stock", STOCKS, _fixed("in-stock")),
))  # fmt: skip
RANGE = (
    Question("from", "Powers from"),
    Question("to", "Powers to"),
    Question("cylinder", "Largest cylinder"),
    Question("diameter", "Diameter of the blank, mm"),
)
ADD = (Question("from", "Addition from", inside="add"), Question("to", "Addition to", inside="add"))
SPAN = (Question("from", "Powers from"), Question("to", "Powers to"))
CENTERS = Rows("centers", "row of center thicknesses", "center", (
    *SPAN, Question("center", "Center thickness, mm"),
))  # fmt: skip
PRICES = Rows("prices", "price", "price", (
    *SPAN, Question("lens", "Price of one lens"),
))  # fmt: skip

# The fields of the rows that are asked for
FIELDS = {
    **{rows.name: tuple(one.name for one in rows.questions) for rows in (SIZES, COLORWAYS, CENTERS, PRICES)},
    "ranges": (*(one.name for one in RANGE), ADD[0].inside),
}


def frame_questions(catalog: Catalog, maker: str) -> list[Question | Rows]:
    """Those about a frame; what its maker's last one has is proposed for it."""
    frames = list(catalog.frames.values())
    last = next((one for one in reversed(frames) if one.maker == maker), None)

    def as_last(name: str) -> Usual:
        value = getattr(last, name, "")
        return _fixed(value if isinstance(value, str) else f"{value:g}")

    return [
        NAME, ID,
        Question("family", ASKED["family"], FAMILIES),
        Question("mounting", ASKED["mounting"], MOUNTINGS, as_last("mounting")),
        Question("material", ASKED["material"], _each(one.material for one in frames), as_last("material")),
        Question("curve", ASKED["curve"], usual=as_last("curve")),
        Question("wrap", ASKED["wrap"], usual=as_last("wrap")),
        Question("tilt", ASKED["tilt"], usual=as_last("tilt")),
        ABOUT, SIZES, COLORWAYS,
    ]  # fmt: skip


def package_questions(catalog: Catalog) -> list[Question]:
    """Those about a package, but for its rows."""
    coatings = _each(one.coating for one in catalog.packages.values())
    return [
        NAME, ID,
        Question("design", ASKED["design"], tuple(catalog.designs)),
        Question("material", ASKED["material"], tuple(catalog.materials)),
        Question("light", ASKED["light"], LIGHTS, _fixed("clear")),
        Question("coating", ASKED["coating"], coatings),
        ABOUT,
        Question("finished", ASKED["finished"], ("yes", "no"), _fixed("no")),
    ]  # fmt: skip


def package_rows(catalog: Catalog, entry: Entry) -> list[Question | Rows]:
    """Those that depend on what was answered: ranges, center thicknesses or prism, prices."""
    design = catalog.designs.get(str(entry.get("design", "")))
    add = ADD if design is not None and design.kind in MULTIFOCAL else ()
    finished = entry.get("finished") == "yes"
    return [
        Rows("ranges", "range of powers", "range", (*RANGE, *add)),
        CENTERS if finished else Question("prism", ASKED["prism"]),
        PRICES,
    ]


def _each(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


# The order in which fields stand in a file: names first, then what they are, then lists
ORDER = (
    "id", "name", "family", "mounting", "design", "material", "light", "coating", "finished", "curve", "wrap", "tilt",
    "about", "sizes", "colorways", "ranges", "centers", "prism", "prices",
)  # fmt: skip


def ordered(entry: Entry) -> Entry:
    """The entry as a person writes it: fields in order, ids first in rows, and without what is so anyway."""
    names = [*(name for name in ORDER if name in entry), *(name for name in entry if name not in ORDER)]
    found = {name: entry[name] for name in names if (name, entry[name]) != ("finished", "no")}
    for name, rows in found.items():
        if isinstance(rows, list):
            found[name] = [{key: row[key] for key in sorted(row, key=lambda key: key != "id")} for row in rows]
    return found
