"""Workbooks written part by part, as no program would: the parts are those of ECMA-376, what they hold is not."""

import io
import zipfile

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
OVERRIDES = (("workbook", "sheet.main"), ("worksheets/sheet1", "worksheet"), ("styles", "styles"))
TYPES = "".join(f'<Override PartName="/xl/{part}.xml" ContentType="{KIND}.{kind}+xml"/>' for part, kind in OVERRIDES)
RELS = "application/vnd.openxmlformats-package.relationships+xml"
XF = '<xf numFmtId="0"/>'
PARTS = {
    "[Content_Types].xml": f'<Types xmlns="{PACKAGE}/content-types"><Default Extension="rels" ContentType="{RELS}"/>'
    f'<Override PartName="/xl/sharedStrings.xml" ContentType="{KIND}.sharedStrings+xml"/>{TYPES}</Types>',
    "_rels/.rels": f'<Relationships xmlns="{PACKAGE}/relationships">'
    f'<Relationship Id="rId1" Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}/relationships">'
    f'<Relationship Id="rId1" Type="{OFFICE}/worksheet" Target="worksheets/sheet1.xml"/>'
    f'<Relationship Id="rId2" Type="{OFFICE}/sharedStrings" Target="sharedStrings.xml"/>'
    f'<Relationship Id="rId3" Type="{OFFICE}/styles" Target="styles.xml"/></Relationships>',
    "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>'
    '<sheet name="Prices" sheetId="1" r:id="rId1"/></sheets></workbook>',
    "xl/styles.xml": f'<styleSheet xmlns="{MAIN}"><fonts><font/></fonts>'
    '<fills><fill><patternFill patternType="none"/></fill></fills><borders><border/></borders>'
    f"<cellStyleXfs>{XF}</cellStyleXfs>"
    f'<cellXfs>{XF}<xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>',
    "xl/sharedStrings.xml": f'<sst xmlns="{MAIN}"><si><t>x</t></si></sst>',
}
SHEET = "xl/worksheets/sheet1.xml"
DAY = 1  # the style under which a number is a day


def text(place, words):
    """A cell with its text in it."""
    return f'<c r="{place}" t="inlineStr"><is><t>{words}</t></is></c>'


def number(place, value, style=0, formula=""):
    """A cell with a number, or whatever stands in its place."""
    return f'<c r="{place}" s="{style}">{f"<f>{formula}</f>" if formula else ""}<v>{value}</v></c>'


HEADINGS = f'<row r="1">{text("A1", "Article")}{text("B1", "Price")}{text("C1", "From")}{text("D1", "To")}</row>'


def sheet(rows, before='<dimension ref="A1:D2"/>', after="", doctype=""):
    """The part of a tab."""
    return f'{doctype}<worksheet xmlns="{MAIN}">{before}<sheetData>{rows}</sheetData>{after}</worksheet>'


def list_with(price, low=None, after=""):
    """A price list of one row, with this cell as its price, and this as the lower of its powers."""
    low = low or text("C2", "-4.00")
    return sheet(f'{HEADINGS}<row r="2">{text("A2", "P-1")}{price}{low}{text("D2", "2.00")}</row>{after}')


def book(tab, **changed):
    """The workbook; a part by its name without folder and ending, `styles`, say."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in {**PARTS, SHEET: tab}.items():
            short = name.rsplit("/", 1)[-1].split(".")[0]
            packed.writestr(name, changed.get(short, content))
    return held.getvalue()


def bombs():
    """By name: workbooks that are small, and would take gigabytes or hours."""
    many = range(2, 100_000)
    styles, names = PARTS["xl/styles.xml"], PARTS["xl/workbook.xml"]
    tab = names[names.index("<sheet ") : names.index("</sheets>")]
    entities = "".join(f'<!ENTITY {two} "{f"&{one};" * 10}">' for one, two in zip("abcdefgh", "bcdefghi", strict=True))
    laughing = f'<!DOCTYPE x [<!ENTITY a "{"x" * 100}">{entities}]>'
    plain = list_with(number("B2", "21.5"))
    return {
        "far-to-the-right": book(sheet("".join(f'<row r="{at}"><c r="ALK{at}"><v>1</v></c></row>' for at in many))),
        "to-the-last-column": book(sheet("".join(f'<row r="{at}"><c r="XFD{at}"/></row>' for at in many))),
        "far-down": book(sheet(f'<row r="99999999999">{text("A99999999999", "P-1")}</row>')),
        "cells": book(sheet(f'<row r="1">{"<c><v>1</v></c>" * 3_000_000}</row>')),
        "texts": book(plain, sharedStrings=f'<sst xmlns="{MAIN}">{"<si><t>x</t></si>" * 3_000_000}</sst>'),
        "one-text": book(list_with(text("B2", "9" * 200_000_000))),
        "styles": book(plain, styles=styles.replace(XF, XF * 1_000_000, 1)),
        "tabs": book(plain, workbook=names.replace(tab, tab * 100_000)),
        "entities": book(plain.replace("<worksheet", f"{laughing}<worksheet").replace("21.5", "&i;")),
    }
