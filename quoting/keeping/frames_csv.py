"""Frames from a table as a maker has it: a row for each size and colorway, rows of one model together one frame."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from quoting.catalog.shop import Catalog
from quoting.findings import Finding, Mark, errors
from quoting.keeping.adding import FRAMES, maker_fault, reader
from quoting.keeping.cells import Row, Sheet
from quoting.keeping.columns import ColumnMap
from quoting.keeping.entries import Entry, Path, findings, slug
from quoting.keeping.frame_columns import columns, headings, id_in_version, meant, plain
from quoting.keeping.frames_lacking import NEEDED, field_to_add, for_options, lacking, no_columns
from quoting.keeping.prices_in import PriceColumn
from quoting.money import written
from quoting.written.kinds import quoted

FRAME = ("id", "name", "family", "mounting", "material", "curve", "wrap", "tilt", "about")
SIZE = ("a", "b", "dbl", "ed", "temple", "weight")
COLOR = ("id", "name", "version", "price", "front", "temples", "stock")
COLUMN = {("colorways", "id"): "code", ("colorways", "name"): "color"}  # others are called like the field
ALL = (*NEEDED, "id", "about", "weight", "code", "size")
UNIT = re.compile(r"(?P<number>[-+]?[0-9]+(?:[.,][0-9]+)?)\s*(?:mm|°|deg|g|d|dpt)?", re.IGNORECASE)
NUMBERS = frozenset({*SIZE, "curve", "wrap", "tilt"})
# As printed on temples (ISO 8624 box system, practice): 52□18 145
PRINTED = re.compile(r"(?P<a>[0-9.,]+)(?:\s*[□/x×\- ]\s*(?P<dbl>[0-9.,]+))?(?:\s*[-/ ]\s*(?P<temple>[0-9.,]+))?")


@dataclass(slots=True)
class Taken:
    """What a table gives."""

    frames: list[tuple[str, Entry]] = field(default_factory=list)  # each with its maker
    columns: dict[str, str] = field(default_factory=dict)  # field: the heading it was taken from
    unused: list[str] = field(default_factory=list)  # headings
    missing: list[str] = field(default_factory=list)  # fields that no column and no option holds
    said: list[str] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


@dataclass(slots=True)
class _Frame:
    """One frame while its rows are read, with the column (of a row) in which each value stands."""

    maker: str
    row: Row
    entry: Entry = field(default_factory=dict)
    places: dict[Path, tuple[Row, str]] = field(default_factory=dict)


def taken(sheet: Sheet, catalog: Catalog, named: Mapping[str, str], fixed: Mapping[str, str], decimal: str) -> Taken:
    """The frames of a table; ``named`` are headings of fields, ``fixed`` values that hold for all rows."""
    result = Taken(said=list(sheet.said), findings=list(sheet.findings))
    if result.findings:
        return result
    at = headings(sheet)
    if at is None:
        said = "no row of this file names columns of frames, such as model, A, DBL and color"
        hint = "write headings above the rows, in the words of the trade"
        result.findings.append(Finding(Mark(sheet.shown, 1, 1), "no-headings", said, hint))
        return result
    head, rows = sheet.rows[at], sheet.rows[at + 1 :]
    found, faults = columns(sheet, head, named)
    result.columns = {name: head.cell(column).text for name, column in sorted(found.items(), key=lambda one: one[1])}
    result.unused = [cell.text for column, cell in enumerate(head.cells) if cell.text and column not in found.values()]
    result.missing = [] if faults else lacking(found, fixed)
    result.findings += faults or no_columns(result.missing, head.mark(sheet.shown, 0), result.unused, catalog)
    if not result.findings:
        _Reader(sheet, catalog, found, fixed, decimal, result).all(rows)
    return result


class _Reader:
    """Reads row after row; what is wrong goes to the findings of the result."""

    def __init__(
        self, sheet: Sheet, catalog: Catalog, found: Mapping[str, int], fixed: Mapping[str, str], decimal: str,
        result: Taken,
    ) -> None:  # fmt: skip
        self.sheet, self.catalog, self.found, self.fixed, self.result = sheet, catalog, found, fixed, result
        used = ColumnMap("", {}, False, False, decimal, "", "", "", {}, Mark(sheet.shown, 1, 1))
        self.prices = PriceColumn(catalog.shop, sheet, found.get("price", 0), used)
        self.words: dict[str, None] = {}
        self.refused: set[tuple[int, str]] = set()  # row and field of a cell that was told already

    def all(self, rows: Sequence[Row]) -> None:
        """All rows, then what the readers of the shop's files say of each frame."""
        if "price" in self.found:
            self.result.findings += map(for_options, self.prices.decide(rows))
        if errors(self.result.findings):
            return
        frames: dict[tuple[str, str], _Frame] = {}
        for row in rows:
            self._unfinished(row)
            values = self._values(row)
            key = (values["maker"].casefold(), values["name"].casefold())
            self._enter(frames.setdefault(key, _Frame(values["maker"], row)), row, values)
        self.result.said += [*self.prices.said, *self.words]
        self._finish(frames.values())

    def _unfinished(self, row: Row) -> None:
        for name, at in self.found.items():
            if row.cell(at).unfinished:
                said = f"the cell {row.place(at)} holds a formula whose result was not saved"
                hint = "open the file where it was made and save it"
                self.result.findings.append(Finding(row.mark(self.sheet.shown, at), "formula-not-computed", said, hint))
                self.refused.add((row.number, name))

    def _values(self, row: Row) -> dict[str, str]:
        """Each field as the catalog writes it; "" where nothing stands."""
        cells = {name: self._shown(row, name) if name in self.found else "" for name in ALL}
        printed = PRINTED.fullmatch(cells["size"])
        if cells["size"] and printed is None:
            said = f"a size as on temples belongs here, not {quoted(cells['size'])}"
            self._tell(row, "size", "not-a-size", said, "write for example 52□18 145")
            self.refused |= {(row.number, name) for name in ("a", "dbl", "temple")}
        cells |= {name: cells[name] or (printed[name] or "" if printed else "") for name in ("a", "dbl", "temple")}
        cells |= {name: cells[name] or value for name, value in self.fixed.items()}
        for name in ("family", "mounting", "version", "stock"):
            word = meant(name, cells[name], cells["material"])
            if plain(word) != plain(cells[name]):
                self.words[f"{name} `{cells[name]}`: {word}"] = None
            cells[name] = word
        for name in NUMBERS:
            number = UNIT.fullmatch(cells[name])
            cells[name] = number["number"].replace(",", ".") if number else cells[name]
        return cells | {"price": self._price(row, cells["price"])}

    def _shown(self, row: Row, name: str) -> str:
        """A cell's text; what cannot be shown is told, and left out."""
        text = row.cell(self.found[name]).text
        if text.isprintable():
            return text
        said = f"the cell {row.place(self.found[name])} holds a character that cannot be seen"
        self._tell(row, name, "invisible-character", said, "type the cell anew")
        self.refused.add((row.number, name))
        return ""

    def _price(self, row: Row, text: str) -> str:
        if "price" not in self.found or not self.prices.holds_figures(row):
            return text
        read = self.prices.read(row)
        if isinstance(read, int):
            return written(read)
        self.result.findings.append(for_options(read))
        self.refused.add((row.number, "price"))
        return ""

    def _enter(self, frame: _Frame, row: Row, values: Mapping[str, str]) -> None:
        """What a row says, beside what rows before it said of the same frame."""
        own = {name: values[name] for name in FRAME} | {"id": values["id"] or slug(values["name"])}
        self._agree(frame, frame.entry, own, (), row)
        size = {name: values[name] for name in SIZE if values[name]}
        color = {name: values[COLUMN.get(("colorways", name), name)] for name in COLOR}
        color["id"] = (color["id"] and slug(color["id"])) or slug(color["name"])
        color["id"] = id_in_version(color, frame.entry.get("colorways", []))
        if size:
            self._row(frame, "sizes", ("a", "dbl"), size, row)
        if color["id"] or color["name"]:
            self._row(frame, "colorways", ("id",), color, row)

    def _row(self, frame: _Frame, name: str, key: tuple[str, ...], new: dict[str, str], row: Row) -> None:
        there = frame.entry.setdefault(name, [])
        assert isinstance(there, list), "sizes and colorways are lists"
        same = [at for at, one in enumerate(there) if all(one.get(part) == new.get(part) for part in key)]
        if not same:
            there.append({})
        at = same[0] if same else len(there) - 1
        self._agree(frame, there[at], new, (name, at), row)

    def _agree(self, frame: _Frame, part: Entry, new: Mapping[str, str], at: Path, row: Row) -> None:
        """Take over what is new; what another row says otherwise is told."""
        for name, text in new.items():
            column = _column(at, name)
            before = part.get(name, "")
            if text and before and before != text:
                first = frame.places[(*at, name)][0].number
                said = f"`{name}` is `{text}` here and `{before}` in row {first}, of the same frame"
                hint = "correct one of the two, or give them different names"
                self.result.findings.append(Finding(self._mark(row, column), "rows-differ", said, hint))
            elif text and not before:
                part[name] = text
                frame.places[(*at, name)] = (row, column)

    def _mark(self, row: Row, column: str) -> Mark:
        """The cell of a row; for a value that holds for all rows, the option."""
        for name in (column, *{"code": ("color",), "id": ("name",)}.get(column, ()), "size"):
            if name in self.found and row.cell(self.found[name]).text:
                return row.mark(self.sheet.shown, self.found[name])
        if column in self.fixed:
            return Mark(f"--set {column}", 1, 1, self.fixed[column], len(self.fixed[column]))
        return row.mark(self.sheet.shown, 0)

    def _finish(self, frames: Iterable[_Frame]) -> None:
        """Frames that the shop has are left out; the rest is read as the shop's files are."""
        there = {(one.maker.casefold(), one.name.casefold()) for one in self.catalog.frames.values()}
        ids: dict[str, Row] = {}
        for frame in frames:
            name, key = str(frame.entry.get("name", "")), str(frame.entry.get("id", ""))
            if (frame.maker.casefold(), name.casefold()) in there:
                said = f"the shop has {frame.maker} {name} already; its rows are left out"
                hint = "add sizes and colorways to it by hand"
                self._tell(frame.row, "name", "already-there", said, hint, warning=True)
                continue
            if key in ids:
                said = f"the id `{key}` would be that of the frame in row {ids[key].number} as well"
                self._tell(frame.row, "name", "same-id", said, "write an id for each into a column headed id")
                continue
            ids[key] = frame.row
            self._judge(frame)
            self.result.frames.append((frame.maker, frame.entry))

    def _judge(self, frame: _Frame) -> None:
        fault = maker_fault(frame.maker) if frame.maker else Finding(Mark("", 1, 1), "missing", "the maker is missing")
        if fault is not None:
            self._tell(frame.row, "maker", fault.code, fault.message, fault.hint or "write it into its column")

        def row_of(place: Path) -> Row:
            return next((row for path, (row, _) in frame.places.items() if path[: len(place)] == place), frame.row)

        def called(place: Path) -> str:
            return f"row {row_of(place).number}"

        for place, one in findings(frame.entry, reader(FRAMES, self.catalog, frame.maker), FRAMES.words, called):
            row, column = frame.places.get(place, (frame.row, "name"))
            if one.code == "missing" and place and len(place) == 2:
                row = row_of(place)
            if one.code == "missing" and (row.number, _column(place, field_to_add(one))) in self.refused:
                continue
            said = one.message.replace("this file has", "this frame has", 1)
            mark = self._mark(row, column)
            self.result.findings.append(replace(one, mark=mark, message=said))

    def _tell(self, row: Row, name: str, code: str, said: str, hint: str, warning: bool = False) -> None:
        severity = "warning" if warning else "error"
        self.result.findings.append(Finding(self._mark(row, name), code, said, hint, severity))  # type: ignore[arg-type]


def _column(place: Path, name: str) -> str:
    """The column that holds a field of a frame, of a size or of a colorway."""
    return COLUMN.get((str(place[0]) if place else "", name), name)
