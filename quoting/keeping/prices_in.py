"""The column of prices in a list as it comes: what parts hundredths there, and each cell in cents."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

from quoting.catalog.shop import Shop
from quoting.findings import Finding
from quoting.keeping import decimals
from quoting.keeping.cells import Row, Sheet
from quoting.keeping.columns import ColumnMap
from quoting.locales import currencies, signs
from quoting.written.kinds import quoted

FIGURE = re.compile(r"[0-9]")
# (practice) how lists write a currency, beside its code and the signs that CLDR has for it
ALSO = {"CHF": ("fr.", "fr", "sfr.")}
MOST_CENTS = 10_000_000  # as in the catalog's own fields


class PriceColumn:
    """Reads the prices of rows once `decide` has seen them all."""

    def __init__(self, shop: Shop, sheet: Sheet, column: int, used: ColumnMap) -> None:
        self.shop, self.sheet, self.column, self.used = shop, sheet, column, used
        self.signs = {sign.casefold() for sign in signs(shop.currency, shop.locale)} | {*ALSO.get(shop.currency, ())}
        self.sign = used.decimal
        self.said: list[str] = []
        self._rounded = 0

    def holds_figures(self, row: Row) -> bool:
        """Whether there is any figure in the cell."""
        return FIGURE.search(row.cell(self.column).text) is not None

    def decide(self, rows: Sequence[Row]) -> list[Finding]:
        """Find what parts hundredths in these rows; what speaks against it."""
        texts = [row for row in rows if row.cell(self.column).number is None and self.holds_figures(row)]
        numbers = {row: apart.number for row in texts if (apart := decimals.apart(row.cell(self.column).text))}
        if self.sign or not numbers:
            return []
        try:
            self.sign = decimals.separator(numbers.values())
        except ValueError:
            return [self._conflict(numbers)]
        if self.sign == "?":
            row = next(one for one, number in numbers.items() if decimals.separator([number]) == "?")
            said = f"nobody can tell whether {quoted(numbers[row])} is a thousand or has three decimals"
            return [self._finding(row, "point-or-comma", said, "write `decimal: point` or `comma` in the column map")]
        if self.sign:
            self.said.append(f"a {decimals.NAMES[self.sign]} before hundredths")
        return []

    def _conflict(self, numbers: dict[Row, str]) -> Finding:
        by_sign = {decimals.separator([number]): row for row, number in reversed(numbers.items())}
        comma, point = by_sign[","], by_sign["."]
        said = f"in {comma.place(self.column)} a comma parts hundredths, in {point.place(self.column)} a point"
        first = min(comma, point, key=lambda row: row.number)
        return self._finding(first, "point-or-comma", said, "correct one of the two cells")

    def read(self, row: Row) -> int | Finding:
        """The price of one lens in cents, or why there is none."""
        cell = row.cell(self.column)
        if not self.holds_figures(row):
            said = (
                f"no price stands here{f', but {quoted(cell.text)}' if cell.text else ''}; nothing changes by this row"
            )
            return self._finding(row, "no-price", said, "ask the maker, or leave it", warning=True)
        if cell.number is not None:
            cents, rounded = decimals.whole_cents(cell.number)
            if rounded:
                self._note_rounded(row)
        else:
            apart = decimals.apart(cell.text)
            foreign = self._foreign(apart.around) if apart else ""
            if foreign:
                said = f"this price is in {quoted(foreign)}, but the shop's prices are in {self.shop.currency}"
                return self._finding(row, "other-currency", said, "ask the maker for prices in your currency")
            try:
                cents = decimals.cents(cell.text, self.sign)
            except ValueError:
                return self._not_a_price(row)
            beside = [part for part in apart.around if part.casefold() not in self.signs] if apart else []
            if beside and len(beside[0]) > 1:  # a letter alone was typed for a figure
                said = f"{quoted(beside[0])} stands beside this amount, and is no known sign of {self.shop.currency}"
                return self._finding(row, "not-a-price", said, f"take it out, or write {self.shop.currency} there")
            if beside:
                return self._not_a_price(row)
        if not 0 <= cents <= MOST_CENTS:
            return self._not_a_price(row)
        return self._per_lens(row, cents)

    def _per_lens(self, row: Row, cents: int) -> int:
        if self.used.per_pair and cents % 2:
            self._note_rounded(row)
        return (cents + 1) // 2 if self.used.per_pair else cents

    def _foreign(self, around: Sequence[str]) -> str:
        """What names another currency than the shop's."""
        for part in around:
            names = part.upper() in currencies() or any(unicodedata.category(letter) == "Sc" for letter in part)
            if names and part.casefold() not in self.signs:
                return part
        return ""

    def _note_rounded(self, row: Row) -> None:
        """Say once where amounts were rounded, with their count."""
        self._rounded += 1
        self.said = [one for one in self.said if "rounded" not in one]
        self.said.append(f"{self._rounded} rounded half up to the cent, the last in row {row.number}")

    def _not_a_price(self, row: Row) -> Finding:
        said = f"an amount of money with at most two decimals belongs here, not {quoted(row.cell(self.column).text)}"
        return self._finding(row, "not-a-price", said, "correct the cell, or name another column in the column map")

    def _finding(self, row: Row, code: str, message: str, hint: str, warning: bool = False) -> Finding:
        mark = row.mark(self.sheet.shown, self.column)
        return Finding(mark, code, message, hint, "warning" if warning else "error")
