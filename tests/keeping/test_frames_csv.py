"""Frames from a maker's table: columns by their headings, rows of one model one frame, each fault at its cell."""

import ast
from decimal import Decimal
from pathlib import Path

import pytest

import quoting
from quoting.catalog.load import load_written
from quoting.findings import errors
from quoting.keeping.adding import FRAMES, added
from quoting.keeping.entry_codes import ENTRY_CODES
from quoting.keeping.frame_columns import HEADINGS, field_of, meant, plain
from quoting.keeping.frame_words import METALS, PLASTICS, WORDS
from quoting.keeping.frames_csv import ALL, taken
from quoting.keeping.frames_lacking import NEEDED, options
from quoting.keeping.questions import ordered
from quoting.keeping.sheet import read_sheet, workbook

HEAD = "Brand;Model;Shape;Rim type;Frame material;Size;B (mm);ED;Base curve;Colour name;Colour code;Retail price;Net"
ROWS = [
    "Quern Lane;Teasel;Rectangular;Full rim;Acetate;52□18-145;36,5;55,5;4;Black;C1;129,00;40",
    "Quern Lane;Teasel;Rectangular;Full rim;Acetate;54□18-145;37,5;57,5 mm;4;Black;C1;129,00;40",
    "Quern Lane;Teasel;Rectangular;Full rim;Acetate;52□18-145;36,5;55,5;4;Dark honey;C2;1.129,00;40",
    "Bolderwood;Elm;Aviator;Rimless;Titanium;56□16-140;46;61;6;Gold;;189,50;60",
]
REST = {
    "wrap": "5",
    "tilt": "8",
    "version": "Sunglasses",
    "stock": "to-order",
    "front": "#17171a",
    "temples": "#17171a",
}


@pytest.fixture
def take(corner):
    def of(*rows, head=HEAD, fixed=REST, named=(), decimal=""):
        path = corner / "list.csv"
        path.write_text("\n".join([head, *rows, ""]), encoding="utf-8")
        return taken(read_sheet(path), load_written(corner)[0], dict(named), fixed, decimal)

    return of


def codes(found):
    return [
        (one.code, one.mark.line, one.mark.text[one.mark.column - 1 :][: one.mark.length]) for one in found.findings
    ]


def test_the_fields_of_our_own_files_are_headings_too():
    """But `code`, which heads the codes of models as often as those of colors."""
    assert [name for name in HEADINGS if field_of(name) != name] == ["code"]


def test_rows_of_one_model_become_one_frame_and_the_shop_checks_clean_with_it(corner, take):
    found = take(*ROWS)
    assert found.findings == []
    assert found.columns["dbl" if "dbl" in found.columns else "size"] == "Size"
    assert found.unused == ["Net"]
    assert {
        "family `Rectangular`: rectangle",
        "mounting `Full rim`: full-rim-plastic",
        "mounting `Rimless`: drilled",
    } <= {*found.said}
    catalog, _ = load_written(corner)
    addition = added(corner, catalog, FRAMES, [(maker, ordered(entry)) for maker, entry in found.frames])
    assert addition.findings == []
    assert {path.name for path in addition.contents} == {"quern-lane.yaml", "bolderwood.yaml"}
    frames = load_written(corner, addition.contents)[0].frames
    teasel, elm = frames["teasel"], frames["elm"]
    assert [(one.a, one.b, one.dbl, one.ed, one.temple) for one in teasel.sizes] == [
        (52, 36.5, 18, 55.5, 145), (54, 37.5, 18, 57.5, 145),
    ]  # fmt: skip
    assert [(one.id, one.name, one.price_cents) for one in teasel.colorways] == [
        ("c1", "Black", 12900), ("c2", "Dark honey", 112900),
    ]  # fmt: skip
    assert (teasel.family, teasel.mounting, elm.family, elm.mounting) == (
        "rectangle", "full-rim-plastic", "pilot", "drilled",
    )  # fmt: skip
    assert (elm.colorways[0].id, elm.colorways[0].version, elm.tilt) == ("gold", "sun", 8)


@pytest.mark.parametrize(
    ("versions", "ids"),
    [
        (("Rx", "Sunglass"), ["gold", "gold-sun"]),
        (("Sunglass", "Rx"), ["gold", "gold-optical"]),
        (("Rx", "sun only"), ["gold", "gold-sun-only"]),
        (("Rx", "Rx"), ["gold"]),
    ],
)
def test_a_color_in_two_versions_becomes_two_colorways_of_one_name(take, versions, ids):
    """Makers list both under one color, often without a code; the rows of another size say the same again."""
    fixed = {name: text for name, text in REST.items() if name != "version"}
    rows = [f"{ROWS[3].replace('56□16', size)};{version}" for size in ("56□16", "54□16") for version in versions]
    found = take(*rows, head=f"{HEAD};Version", fixed=fixed)
    assert found.findings == []
    ((_, entry),) = found.frames
    assert [one["id"] for one in entry["colorways"]] == ids
    assert {one["name"] for one in entry["colorways"]} == {"Gold"}
    assert len(entry["sizes"]) == 2


@pytest.mark.parametrize(
    ("old", "new", "code", "cell"),
    [
        ("Aviator", "Aviatr", "not-a-choice", "Aviatr"),
        (";61;", ";73;", "ed-impossible", "73"),
        (";46;", ";4.6;", "out-of-range", "4.6"),
        (";46;", ";;", "missing", "56□16-140"),
        ("56□16-140", "big", "not-a-size", "big"),
        ("189,50", "on request", "not-an-amount", "on request"),
        ("189,50", "€ 189,50", "other-currency", "€ 189,50"),
        ("Gold", "G" * 81, "too-long", "G" * 81),
        ("Bolderwood", "", "missing", ""),
        ("Elm", "Teasel", "same-id", "Teasel"),
        ("Gold", "Go\x1bld", "invisible-character", "Go\x1bld"),
    ],
)
def test_a_fault_is_told_at_its_cell_in_the_words_of_the_shops_files(take, old, new, code, cell):
    found = take(*ROWS[:3], ROWS[3].replace(old, new, 1))
    assert (code, 5, cell) in [(one, line, text[: len(cell)]) for one, line, text in codes(found)]
    assert all(one.hint for one in found.findings)


def test_rows_that_differ_about_one_frame_size_or_colorway_are_told(take):
    for old, new, cell in (("Acetate", "Horn", "Horn"), (";36,5;", ";37,5;", "37,5"), ("1.129,00", "139,00", "139,00")):
        row = ROWS[2].replace(old, new).replace("Dark honey;C2", "Black;C1" if cell == "139,00" else "Dark honey;C2")
        assert codes(take(ROWS[0], row)) == [("rows-differ", 3, cell)]


def test_what_no_column_holds_is_told_once_before_any_row(take):
    found = take(*ROWS, fixed={name: text for name, text in REST.items() if name != "tilt"})
    said = "no column holds the pantoscopic tilt `tilt`"
    assert [(one.code, one.message) for one in found.findings] == [("no-column", said)]
    assert "--set tilt=8" in found.findings[0].hint
    assert "not used yet: Net" in found.findings[0].hint
    assert (found.frames, found.missing) == ([], ["tilt"])


def test_of_a_bare_table_the_values_are_told_that_are_possible_or_that_the_shop_has(take):
    found = take("Elm;52", head="Model;A", fixed={})
    hints = {name: one.hint for name, one in zip(found.missing, found.findings, strict=True)}
    assert len(found.missing) == len(NEEDED) - 2
    assert hints["mounting"].endswith("VALUE, one of full-rim-plastic, full-rim-metal, semi-rimless, drilled")
    assert "; the shop has Bolderwood" in hints["maker"]
    assert "(not used yet" not in hints["maker"]


def test_what_is_missing_becomes_options_with_what_is_usual_where_that_is_known(corner):
    catalog, _ = load_written(corner)
    last = next(one for one in reversed(list(catalog.frames.values())) if one.maker == "Bolderwood")
    words = options(["mounting", "ed", "stock"], catalog, "Bolderwood")
    assert words == ["--set", f"mounting={last.mounting}", "--set", "ed=...", "--set", "stock=in-stock"]
    assert options(["mounting"], catalog, "")[1] == "mounting=..."


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("189,50", "18x,50", "not-a-price"),
        ("56□16-140", "big", "not-a-size"),
        (";46;", ";4\x076;", "invisible-character"),
    ],
)
def test_a_cell_that_cannot_be_read_is_told_once_and_not_as_missing_too(take, old, new, code):
    assert [one.code for one in take(*ROWS[:3], ROWS[3].replace(old, new)).findings] == [code]


def test_a_frame_that_the_shop_has_is_left_out_and_said(take):
    found = take(*ROWS, ROWS[3].replace("Elm", "ALDER"))
    assert [(one.code, one.severity) for one in found.findings] == [("already-there", "warning")]
    assert [entry["id"] for _, entry in found.frames] == ["teasel", "elm"]


def test_a_column_is_named_where_two_could_be_meant(take):
    head = HEAD.replace(";Net", ";Price")
    assert [(one.code, one.hint) for one in take(*ROWS, head=head).findings] == [
        ("two-headings", "say which: --column price=HEADING")
    ]
    found = take(*ROWS, head=head, named={"price": "price"})
    assert found.findings == []
    assert {entry["colorways"][0]["price"] for _, entry in found.frames} == {"40.00", "60.00"}
    assert [one.code for one in take(*ROWS, named={"price": "Prise"}).findings] == ["no-such-column"]


def test_a_table_without_headings_is_refused(take):
    assert [one.code for one in take(*ROWS, head="a shop;of ours;;;;;;;;;;;").findings] == ["no-headings"]


def test_what_parts_hundredths_can_be_said(take):
    rows = [row.replace("129,00", "1.129").replace("1.1.129", "1.129").replace("189,50", "1.189") for row in ROWS[::3]]
    assert [one.code for one in take(*rows).findings] == ["point-or-comma"]
    assert "--decimal comma" in take(*rows).findings[0].hint
    assert take(*rows, decimal=",").frames[0][1]["colorways"][0]["price"] == "1129.00"


def test_a_workbook_is_read_alike(corner, take):
    by_text = take(*ROWS).frames
    rows = [
        [Decimal(cell.replace(",", ".")) if at in (6, 8) else cell for at, cell in enumerate(row.split(";"))]
        for row in ROWS
    ]
    path = corner / "list.xlsx"
    path.write_bytes(workbook([HEAD.split(";"), *rows], "frames"))
    found = taken(read_sheet(path), load_written(corner)[0], {}, REST, "")
    assert found.findings == []
    assert found.frames == by_text


def test_every_heading_means_one_field_and_every_field_can_be_given():
    aliases = [alias for listed in HEADINGS.values() for alias in listed.split(", ")]
    assert sorted(aliases) == sorted(set(aliases))
    assert HEADINGS.keys() == set(ALL)
    assert all(field_of(alias.upper()) == name for name, listed in HEADINGS.items() for alias in listed.split(", "))


def test_every_code_is_used():
    room = Path(quoting.__file__).parent / "keeping"
    texts = {
        node.value
        for path in room.glob("*.py")
        if path.name != "entry_codes.py"
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert ENTRY_CODES.keys() <= texts


def test_errors_alone_keep_frames_back(take):
    assert errors(take(*ROWS).findings) == []


@pytest.mark.parametrize(
    ("name", "words", "material", "ours"),
    [
        ("family", "Rechteck", "", "rectangle"),
        ("family", "Œil de chat", "", "cat-eye"),
        ("family", "cuadrada", "", "square"),
        ("mounting", "Vollrand", "Acetat", "full-rim-plastic"),
        ("mounting", "Vollrand", "Metall", "full-rim-metal"),
        ("mounting", "Vollrand", "Stein", "Vollrand"),
        ("mounting", "cerchiata", "titanio", "full-rim-metal"),
        ("mounting", "Nylor", "métal", "semi-rimless"),
        ("mounting", "randlos", "Titan", "drilled"),
        ("stock", "auf Bestellung", "", "to-order"),
        ("stock", "Épuisé", "", "sold-out"),
        ("version", "solaire", "", "sun"),
    ],
)
def test_words_of_the_languages_whose_headings_are_known_are_known_too(name, words, material, ours):
    assert meant(name, words, material) == ours


def test_no_word_means_two_things():
    for name, known in WORDS.items():
        listed = [word for words in known.values() for word in words.split(", ")]
        assert len(listed) == len(set(listed)), name
        assert all(plain(word) == word for word in listed), "words are compared without signs and capitals"
    assert not set(PLASTICS.split(", ")) & set(METALS.split(", "))
