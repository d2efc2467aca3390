"""Every code a finding about the commands `prices` can have, and what it means; tests/keeping shows each."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

SHEETS = {
    "sheet-unreadable": "A file is no spreadsheet that can be read, or too large to be one.",
    "sheet-encoding": "A file's letters are in none of the encodings that are usual.",
    "sheet-columns": "Nobody can tell by which sign the columns of a file are parted.",
    "sheet-tab": "A workbook has no tab of this name, or several and nobody said which.",
    "formula-not-computed": "A cell holds a formula whose result was not saved.",
}
MAPS = {
    "no-map": "No column map fits a file, so nobody knows which column is which.",
    "which-map": "Several column maps fit a file.",
    "no-such-heading": "A column map names a heading that the file does not have.",
    "heading-twice": "A heading that a column map names stands in the file more than once.",
}
CELLS = {
    "not-a-price": "A cell in the column of prices holds none.",
    "no-code": "A row has powers and a price, but no code: nothing says what they are for.",
    "no-price": "A row has a code and no price; what it names is left as it is.",
    "point-or-comma": "Nobody can tell which of the two parts whole amounts from hundredths.",
    "other-currency": "A price is in another currency than the shop's.",
    "not-a-band": "A cell in a column of powers holds none, or powers are not on quarter diopters.",
    "which-band": "A row names no powers, but the package has several prices.",
    "cuts-band": "A row holds a part of a price's powers only.",
    "two-prices": "Two rows give one price two different amounts.",
    "nothing-known": "No row of a file names anything that the catalog has.",
}
WRITING = {
    "follows-from-change": "A price follows from a change in percent, so that no number can be put in its place.",
    "not-plain": "A price is written so that no number can be put in its place.",
    "not-as-meant": "The files would give other prices than were meant; somebody changes them just now.",
    "other-version": "The file of a new price list is there already and holds another version.",
}
PRICE_CODES: dict[str, str] = {**SHEETS, **MAPS, **CELLS, **WRITING}
