"""A maker's list against the catalog: which prices it changes, which it leaves, and what in it cannot be understood."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass, field

from quoting.catalog.steps import power as power_text
from quoting.findings import Finding, Mark
from quoting.keeping import decimals
from quoting.keeping.cells import Cell, Row, Sheet
from quoting.keeping.changing import Change
from quoting.keeping.columns import ColumnMap, heading_faults, places
from quoting.keeping.prices_in import FIGURE, PriceColumn
from quoting.keeping.standing import Spot, Standing
from quoting.written.kinds import quoted

Key = tuple[str, str, str, float]


@dataclass(slots=True)
class Imported:
    """What a list says of the catalog."""

    changes: list[Change] = field(default_factory=list)
    unchanged: int = 0
    unknown: dict[str, str] = field(default_factory=dict)  # code: the first cell it stands in
    missing: list[str] = field(default_factory=list)  # ids of the maker's that no row names
    said: list[str] = field(default_factory=list)  # what was decided
    findings: list[Finding] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Said:
    """What one row says of one price."""

    spot: Spot
    cents: int
    mark: Mark
    place: str


def imported(standing: Standing, sheet: Sheet, used: ColumnMap) -> Imported:
    """The list, understood with this map."""
    result = Imported(said=list(sheet.said), findings=list(sheet.findings))
    result.findings += heading_faults(sheet, used)
    where = places(sheet, used.columns)
    if result.findings or where is None:
        return result
    columns, rows = where
    result.findings += [
        _unfinished(sheet, row, at) for row in rows for at in sorted(columns.values()) if row.cell(at).unfinished
    ]
    if result.findings:
        return result
    reader = _Reader(standing, sheet, used, columns, result)
    found = reader.all(rows)
    result.said += reader.prices.said
    _settle(standing, used, found, result)
    return result


def _unfinished(sheet: Sheet, row: Row, place: int) -> Finding:
    said = f"the cell {row.place(place)} holds a formula whose result was not saved"
    hint = "open the file where it was made and save it"
    return Finding(row.mark(sheet.shown, place), "formula-not-computed", said, hint)


class _Reader:
    """Reads row after row; what cannot be read goes to the findings of the result."""

    def __init__(
        self, standing: Standing, sheet: Sheet, used: ColumnMap, columns: dict[str, int], result: Imported
    ) -> None:
        self.standing, self.sheet, self.used, self.columns, self.result = standing, sheet, used, columns, result
        self.prices = PriceColumn(standing.catalog.shop, sheet, columns["price"], used)
        self.by_code = self._codes()

    def _codes(self) -> dict[tuple[str, str], list[str]]:
        """Kind and code: the ids that are meant."""
        known: dict[tuple[str, str], list[str]] = {}
        for spot in self.standing.spots:
            own = spot.maker == self.used.maker or not self.used.maker
            if own and (spot.kind == "lens" or "kind" in self.columns):
                known[spot.kind, spot.id] = [spot.id]
        return known | {("lens", code): list(ids) for code, ids in self.used.codes.items()}

    def all(self, rows: Sequence[Row]) -> list[_Said]:
        """What the rows say, one after the other."""
        named = [(row, ids) for row in rows if (ids := self._ids(row)) is not None]
        if not named:
            said = f"no row of this file names a package of the catalog in the column `{self.used.columns['code']}`"
            hint = "write the maker's codes and what they mean under `codes` in the column map"
            mark = rows[0].mark(self.sheet.shown, self.columns["code"]) if rows else Mark(self.sheet.shown, 1, 1)
            self.result.findings.append(Finding(mark, "nothing-known", said, hint))
        undecided = self.prices.decide([row for row, _ in named])
        self.result.findings += undecided
        if undecided:
            return []
        return [said for row, ids in named for said in self._row(row, ids)]

    def _ids(self, row: Row) -> list[str] | None:
        """What a row names, in the catalog's ids; None where it names nothing that is there, which is noted."""
        code = self._cell(row, "code").text
        ids = self.by_code.get((self._kind(row), code))
        if ids is None and code and self.prices.holds_figures(row):
            self.result.unknown.setdefault(code, row.place(self.columns["code"]))
        if not code and self.prices.holds_figures(row) and self._has_band(row):
            said = "powers and a price stand in this row, but no code: it is left out"
            mark = row.mark(self.sheet.shown, self.columns["price"])
            hint = "write the code into each row; in a workbook, cells that are merged downward count for all of theirs"
            self.result.findings.append(Finding(mark, "no-code", said, hint, "warning"))
        return ids

    def _has_band(self, row: Row) -> bool:
        return all(name in self.columns and FIGURE.search(self._cell(row, name).text) for name in ("from", "to"))

    def _kind(self, row: Row) -> str:
        return self._cell(row, "kind").text if "kind" in self.columns else "lens"

    def _cell(self, row: Row, name: str) -> Cell:
        return row.cell(self.columns[name])

    def _tell(self, row: Row, name: str, code: str, message: str, hint: str) -> None:
        mark = row.mark(self.sheet.shown, self.columns[name])
        self.result.findings.append(Finding(mark, code, message, hint))

    def _row(self, row: Row, ids: Iterable[str]) -> list[_Said]:
        """What one row says of prices that stand."""
        read = self.prices.read(row)
        if isinstance(read, Finding):
            self.result.findings.append(read)
            return []
        mark, place = row.mark(self.sheet.shown, self.columns["price"]), row.place(self.columns["price"])
        return [_Said(spot, read, mark, place) for one in ids for spot in self._spots(row, one)]

    def _spots(self, row: Row, one: str) -> list[Spot]:
        """The prices of a package (or the colorway of a frame) that a row is for."""
        kind = self._kind(row)
        spots = self.standing.of(kind, one)
        if kind == "frame":
            color = self._cell(row, "colorway").text
            found = [spot for spot in spots if spot.colorway == color]
            if not found:
                self.result.unknown.setdefault(f"{one} {color}".strip(), row.place(self.columns["code"]))
            return found
        if "from" not in self.columns:
            return self._only(row, spots)
        band = self._band(row)
        return [] if band is None else self._within(row, spots, band)

    def _only(self, row: Row, spots: list[Spot]) -> list[Spot]:
        if len(spots) == 1 or self.used.all_powers:
            return spots
        said = f"`{spots[0].id}` has {len(spots)} prices by power, but this list has no column of powers"
        hint = "name the columns of powers as `from` and `to` in the column map, or write `all_powers: yes` there"
        self._tell(row, "code", "which-band", said, hint)
        return []

    def _band(self, row: Row) -> tuple[float, float] | None:
        """The powers of a row, the lower one first; None where they cannot be read, which is told."""
        ends = []
        for name in ("from", "to"):
            try:
                ends.append(decimals.power(self._cell(row, name).text))
            except ValueError:
                said = f"a power on quarter diopters belongs here, not {quoted(self._cell(row, name).text)}"
                self._tell(row, name, "not-a-band", said, "write for example -6.00")
        return (min(ends), max(ends)) if len(ends) == 2 else None

    def _within(self, row: Row, spots: list[Spot], band: tuple[float, float]) -> list[Spot]:
        """The prices whose powers all lie in the row's."""
        low, high = band
        for spot in spots:
            if low <= spot.high and spot.low <= high and not low <= spot.low <= spot.high <= high:
                said = (
                    f"this row is for {power_text(low)} to {power_text(high)}, but `{spot.id}` has one price "
                    f"for {power_text(spot.low)} to {power_text(spot.high)}"
                )
                self._tell(row, "from", "cuts-band", said, "part the row of the package, or join those of the list")
        return [spot for spot in spots if low <= spot.low <= spot.high <= high]


def _settle(standing: Standing, used: ColumnMap, found: Sequence[_Said], result: Imported) -> None:
    """One amount for each price, and what the maker has beside."""
    first: dict[Key, _Said] = {}
    for said in found:
        before = first.setdefault(said.spot.key, said)
        if before.cents != said.cents:
            text = f"`{said.spot.id}` has another price already in {before.place}"
            result.findings.append(Finding(said.mark, "two-prices", text, "delete one of the two rows"))
    for spot in standing.spots:
        one = first.get(spot.key)
        if one is not None and one.cents != spot.cents:
            result.changes.append(Change(spot, one.cents))
        elif one is not None:
            result.unchanged += 1
    named = {(said.spot.kind, said.spot.id) for said in found}
    kinds = {kind for kind, _ in named}
    makers = {used.maker} if used.maker else {said.spot.maker for said in found}
    absent = {
        _absent(spot, named): None
        for spot in standing.spots
        if spot.maker in makers and spot.kind in kinds and spot.key not in first
    }
    result.missing = list(absent)


def _absent(spot: Spot, named: Container[tuple[str, str]]) -> str:
    """What no row names: a package; of one that rows name in part, the powers; a colorway."""
    if spot.kind != "lens":
        return f"{spot.id} {spot.colorway}"
    powers = f" from {power_text(spot.low)} to {power_text(spot.high)}" if ("lens", spot.id) in named else ""
    return f"{spot.id}{powers}"
