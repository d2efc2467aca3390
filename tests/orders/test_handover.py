"""What goes with a pair: the card in four forms, the parcel, a combination with nobody in it, and forgetting."""

import json
import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from fhir.resources.R4B.visionprescription import VisionPrescription as OfR4B
from fhir.resources.visionprescription import VisionPrescription as OfR5

from quoting.findings import errors
from quoting.orders.fhir import vision_prescription
from quoting.prescription.file import read_file
from quoting.site.build import build
from tests.orders.shops import (
    CUSTOMER,
    DAY,
    MEASURED,
    PROGRESSIVE,
    bevelbook,
    book,
    good,
    marked,
    ordered,
    quoted,
    shop_in,
)
from tests.orders.test_crash import each_cut
from tests.orders.test_orders import READ

# FH-04: the elements of a lens in their order, R4B as R5 (elements_sequence of fhir.resources 8.3.0)
ELEMENTS = [
    "product", "eye", "sphere", "cylinder", "axis", "prism", "add", "power", "backCurve", "diameter", "duration",
    "color", "brand", "note",
]  # fmt: skip
RIGHT = "OD -2.00 DS prism 1.5 in 0.5 up add +2.00"
PRISM = f"{RIGHT} / OS -1.00 -0.50 x 180 prism 0.5 down add +2.00 / PD 63 / 2026-05-04"


@pytest.fixture
def shop(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return shop_in(tmp_path)


@pytest.fixture
def finished(shop):
    """A verified order of a tinted pair."""
    one = ordered(shop, "--tint-recipe", "SMOKE-7", number=quoted(shop, "--tint", "50"))
    marked(shop, one, "sent", "received")
    good("verify", one, *READ, "--tint", "51", "--shop", shop, *DAY)
    return one


def test_the_card_says_what_was_ordered_made_and_measured(shop, finished):
    told = good("order", "card", finished, "--shop", shop, *DAY).stdout
    for words in (
        CUSTOMER, "−6.25", "Cottering 52□18 145, Black", "Benchground polycarbonate [bench-159-ar]", "SMOKE-7",
        "R power in the strongest meridian  −7.50 D", "not for driving at night", "Getting used to them",
        "no prescription",
    ):  # fmt: skip
        assert words in told.replace("\u00a0", " "), words
    folder = shop / "private/orders" / finished
    assert (folder / "record.txt").read_text(encoding="utf-8").strip() in told
    page = (folder / "record.html").read_text(encoding="utf-8")
    assert "SMOKE-7" in page
    assert "<script" not in page
    said = json.loads((folder / "record.json").read_text(encoding="utf-8"))
    assert said["right"]["sphere"] == -6.25
    assert said["verified"]["checks"][0]["verdict"] == "pass"
    assert said["packing"][-1] == "the record card"
    parcel = (folder / "parcel.txt").read_text(encoding="utf-8")
    assert parcel.startswith(f"{CUSTOMER},\n")
    assert "night" in parcel


def test_the_card_holds_what_was_read_and_nothing_of_the_bench_or_of_ordering(shop):
    package, rx = PROGRESSIVE
    measured = ("--pd", "31/32", "--height", "22/22", "--by", "K")
    one = ordered(shop, number=quoted(shop, package=package, rx=rx), measured=measured)
    marked(shop, one, "sent", "received")
    right = "+1.22 -.75 x 171 add=2.06 pd=31 height=22"
    told = good("verify", one, "--right", right, "--left", "+1.50 add=2 pd=32 height=22", "--shop", shop, *DAY)
    assert "Not read: R prism, L prism." in told.stdout
    text = good("order", "card", one, "--shop", shop, *DAY).stdout
    assert re.search(r"R lens as read +\+1.22\s−0.75\s×\s171 add \+2.06\n +L lens as read +\+1.50\sDS add", text)
    folder = shop / "private/orders" / one
    for name in ("record.txt", "record.html", "parcel.txt", "packing.txt"):
        said = (folder / name).read_text(encoding="utf-8")
        assert "traced" not in said, name
        assert "It needs the PD" not in said, name
    assert "or call" in (folder / "parcel.txt").read_text(encoding="utf-8")
    verified = json.loads((folder / "record.json").read_text(encoding="utf-8"))["verified"]
    assert verified["found"]["R"]["add"] == 2.06
    assert verified["found"]["R"]["center"] is None


def test_the_card_speaks_the_language_of_the_wearer(shop, finished):
    """What we say is Spanish, numbers have a comma; what the shop and its makers wrote stays as it is."""
    path = shop / "shop.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("locale: en_US", "locale: es_ES"), encoding="utf-8")
    told = good("order", "card", finished, "--language", "es", "--shop", shop, *DAY).stdout.replace("\u00a0", " ")
    for words in (
        "Esfera",
        "−6,25",
        "Graduación",
        "Montura",
        "−7,50 D (encargado −7,50 D, ± 0,15 D)",
        "Ficha del tinte",
    ):
        assert words in told, words
    for words in ("Sphere", "Getting used", "Please read", "Bring this card", "ordered", "Decentration", "measured"):
        assert words not in told, words
    folder = shop / "private/orders" / finished
    assert '<html lang="es">' in (folder / "record.html").read_text(encoding="utf-8")
    assert "aquí tiene sus gafas Cottering" in (folder / "parcel.txt").read_text(encoding="utf-8")
    assert "estuche" in (folder / "packing.txt").read_text(encoding="utf-8")
    assert "Sphere" in (folder / "sheet.txt").read_text(encoding="utf-8")  # the sheet is for lab and bench


def test_a_sun_version_takes_its_own_lenses_along(shop):
    words = ("quote", "ossgill", "bench-153", "--rx", "OD -1.00 DS / OS -1.00 DS / PD 63")
    sun = next((frame, size, color) for frame, size, color in sun_versions(shop))
    listed = json.loads(
        good("fit", sun[0], "--size", sun[1], "--color", sun[2], *words[3:], "--shop", shop, "--json").stdout
    )
    package = next(
        one["package"] for one in listed["packages"] if one["verdict"] != "no" and "progressive" not in one["kind"]
    )
    told = good(
        "quote",
        sun[0],
        package,
        "--size",
        sun[1],
        "--color",
        sun[2],
        *words[3:],
        "--shop",
        shop,
        "--for",
        "Mr. Quill",
        "--json",
    )
    number = json.loads(told.stdout)["number"]
    good("quotes", "accept", number, "--shop", shop)
    told = good("order", "from", number, "--shop", shop, *MEASURED, "--json", "--overrule", "for this test")
    one = json.loads(told.stdout)["id"]
    good("order", "card", one, "--unverified", "--shop", shop)
    assert "original plano sun lenses" in (shop / f"private/orders/{one}/packing.txt").read_text(encoding="utf-8")


def sun_versions(shop):
    from quoting.catalog.load import load

    for frame in load(shop)[0].frames.values():
        for color in frame.colorways:
            if color.sun and color.stock != "sold-out" and frame.wrap < 10:
                yield frame.id, frame.sizes[0].key, color.id


def test_what_was_not_verified_gets_no_card_unless_that_is_said(shop):
    one = ordered(shop)
    told = bevelbook("order", "card", one, "--shop", shop, *DAY)
    assert told.exit_code == 2
    assert "not verified" in told.output
    assert "Measured on" not in good("order", "card", one, "--unverified", "--shop", shop, *DAY).stdout


@pytest.mark.parametrize(
    ("package", "rx"),
    [("bench-159-ar", "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 63"), PROGRESSIVE, ("path18-153-ar", PRISM)],
)
@pytest.mark.parametrize("version", [OfR4B, OfR5], ids=["R4B", "R5"])
def test_the_resource_is_valid_fhir_and_reads_back_as_ordered(shop, package, rx, version):
    """Validated by fhir.resources, which knows its structure; read back by our own reader of others' files."""
    one = ordered(
        shop, number=quoted(shop, package=package, rx=rx), measured=("--pd", "31/32", "--height", "22/22", "--by", "K")
    )
    order = book(shop).read(one)
    found = vision_prescription(order, "Ottersea")
    version.model_validate_json(json.dumps(found))
    for lens in found["lensSpecification"]:
        assert list(lens) == [name for name in ELEMENTS if name in lens]
    path = shop.parent / "record.json"
    path.write_text(json.dumps(found), encoding="utf-8")
    reading = read_file(path)
    assert errors(reading.findings) == []
    for side, eye in ((order.right, reading.prescription.right), (order.left, reading.prescription.left)):
        assert (eye.sphere, eye.cylinder, eye.axis, eye.add) == (side.sphere, side.cylinder, side.axis, side.add)
        assert (eye.prism_in, eye.prism_up) == (side.prism_in, side.prism_up)


def test_the_official_example_is_written_as_its_publisher_writes_it(shop):
    """FH-01 and FH-02: the lenses of HL7's example VisionPrescription/33123."""
    package, rx = PROGRESSIVE
    order = book(shop).read(ordered(shop, number=quoted(shop, package=package, rx=rx)))
    right = replace(order.right, sphere=-2.0, cylinder=0.0, axis=180, add=2.0, prism_in=0.0, prism_up=-0.5)
    left = replace(order.left, sphere=-1.0, cylinder=-0.5, axis=180, add=2.0, prism_in=0.0, prism_up=0.5)
    found = vision_prescription(replace(order, right=right, left=left), "Ottersea")
    official = json.loads((Path(__file__).parents[1] / "prescription/fhir/33123.json").read_text(encoding="utf-8"))
    names = ("eye", "sphere", "cylinder", "axis", "prism", "add")
    for ours, theirs in zip(found["lensSpecification"], official["lensSpecification"], strict=True):
        assert {name: ours[name] for name in names if name in ours} == {n: theirs[n] for n in names if n in theirs}


def test_a_combination_has_nothing_of_its_wearer(shop, finished):
    good("order", "publish", finished, "--name", "black-for-the-water", "--shop", shop, *DAY)
    path = shop / "content/combinations/black-for-the-water.md"
    text = path.read_text(encoding="utf-8")
    order = json.loads((shop / f"private/orders/{finished}/order.json").read_bytes())
    for words in (CUSTOMER, "rrable", finished, order["quote"], "6.25", "5.75", "31.5", "SMOKE-7", "Alder"):
        assert words not in text, words
    assert "Rx: OD -6.00 DS / OS -6.00 DS" in text
    told = bevelbook("order", "publish", finished, "--name", "black-for-the-water", "--shop", shop, *DAY)
    assert told.exit_code == 2
    assert bevelbook("order", "publish", finished, "--name", "../out", "--shop", shop, *DAY).exit_code == 2
    built = build(shop, shop.parent / "www", date(2026, 11, 26))
    assert errors(built.findings) == []
    page = (shop.parent / "www/combinations/black-for-the-water/index.html").read_text(encoding="utf-8")
    assert "Cottering" in page


def everything(shop):
    """All bytes of all files that a shop keeps."""
    return {path: path.read_bytes() for path in shop.rglob("*") if path.is_file()}


def test_a_customer_is_forgotten_everywhere_and_others_are_not(shop, finished):
    good("order", "card", finished, "--shop", shop, *DAY)
    letter = shop / "private/outbox"
    letter.mkdir()
    (letter / f"{finished[:-2]}-12ab34cd.eml").write_text(f"Dear {CUSTOMER}", encoding="utf-8")
    other = ordered(shop, number=quoted(shop, customer="Mr. Quill"))
    (letter / f"{other[:-2]}-12ab34cd.eml").write_text("Dear Mr. Quill", encoding="utf-8")
    before = everything(shop)
    shown = good("forget", "ms.  MÁRRABLE", "--shop", shop).stdout
    assert f"order {finished}, its folder" in shown
    assert "Nothing was removed" in shown
    assert everything(shop) == before
    told = good("forget", "ms.  MÁRRABLE", "--yes", "--shop", shop).stdout
    assert re.search(rf"quote {finished[:-2]} of .*, and \d later entries", told)
    assert f"letter {finished[:-2]}-12ab34cd.eml" in told
    for path, raw in everything(shop).items():
        assert CUSTOMER.encode() not in raw, path
        assert finished[:-2].encode() not in raw, path
        assert finished[:-2] not in path.name
    assert list(book(shop).orders()) == [other]
    assert book(shop).read(other).customer == "Mr. Quill"
    assert (letter / f"{other[:-2]}-12ab34cd.eml").exists()
    told = bevelbook("forget", CUSTOMER, "--yes", "--shop", shop)
    assert told.exit_code == 2
    assert "knows nobody" in told.output


def test_what_a_crash_left_of_an_order_is_forgotten_too(shop):
    number = quoted(shop)
    orders = shop / "private/orders"
    orders.mkdir()
    for name in (f"{number}-1", f".{number}-1.new", f".{number}-2.gone", "261125-OTHER-1"):
        (orders / name).mkdir()
        (orders / name / "order.json").write_text(CUSTOMER, encoding="utf-8")
    told = good("forget", CUSTOMER, "--yes", "--shop", shop).stdout
    assert f"what a command left in .{number}-1.new" in told
    assert "Not known here" in told
    assert [path.name for path in orders.iterdir()] == ["261125-OTHER-1"]


def test_two_people_of_one_name_are_told_apart(shop):
    one, two = (quoted(shop, "--to", f"{name}@example.org", "--note", name) for name in ("a", "b"))
    told = bevelbook("forget", CUSTOMER, "--yes", "--shop", shop)
    assert told.exit_code == 2
    assert "a@example.org, b@example.org" in told.output
    good("forget", CUSTOMER, "--email", "A@example.org", "--yes", "--shop", shop)
    assert list(book(shop).register.entries()) == [two] != [one]
    good("forget", "b@example.org", "--yes", "--shop", shop)
    assert book(shop).register.entries() == {}


def test_forgetting_that_was_cut_short_is_done_by_the_same_command(shop):
    ordered(shop)
    other = quoted(shop, customer="Mr. Quill")
    words = ("forget", CUSTOMER, "--yes", "--shop", shop)

    def check():
        if len(book(shop).register.entries()) == 2:
            good(*words)
        assert list(book(shop).register.entries()) == [other]
        assert all(CUSTOMER.encode() not in raw for raw in everything(shop).values())

    each_cut(shop, words, check)
