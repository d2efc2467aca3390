"""What the sun lenses of a colorway are: ids that lead somewhere, lenses that take it, each fault at its place."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load, load_sound
from quoting.catalog.model import Wears
from quoting.places import shared

DAY = date(2026, 11, 25)
SUN = "{id: bottle-green, name: Bottle green, version: sun-only"


@pytest.fixture
def shop(tmp_path):
    """Loads the demo after a colorway was given other words; ``more`` replaces texts of the tint book."""
    folder = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    frames, tints = folder / "frames" / "pellbridge.yaml", folder / "tints.yaml"

    def loaded(wears, color=SUN, more=()):
        text = frames.read_text(encoding="utf-8").replace("wears: {tint: kelp}", "", 1)
        lines = [f"{line[:-1]}, wears: {wears}}}" if color in line else line for line in text.splitlines()]
        frames.write_text("\n".join(lines).replace(", ,", ",") + "\n", encoding="utf-8")
        book = tints.read_text(encoding="utf-8")
        for old, new in more:
            assert old in book
            book = book.replace(old, new)
        tints.write_text(book, encoding="utf-8")
        return load(folder, DAY)

    loaded.folder = folder
    return loaded


def worn(catalog):
    return next(one for one in catalog.frames["cottering"].colorways if one.id == "bottle-green").wears


SOUND = {
    "{tint: dusk}": Wears("dusk"),
    "{tint: dusk, mirror: silver}": Wears("dusk", mirror="silver"),
    "{mirror: ember}": Wears(mirror="ember"),
    "{lens: plain-156-photo, state: 23}": Wears(lens="plain-156-photo", state="23"),
    "{lens: plain-156-photo, state: clear}": Wears(lens="plain-156-photo"),
    "{lens: shade-159-polar, mirror: silver}": Wears(lens="shade-159-polar", mirror="silver"),
    "{tint: slate-water, lens: plain-150-ar}": Wears("slate-water", "plain-150-ar"),
}


@pytest.mark.parametrize("written", SOUND)
def test_what_is_sound_is_kept(shop, written):
    catalog, findings = shop(written)
    assert findings == []
    assert worn(catalog) == SOUND[written]


FAULTS = {
    "{tint: duks}": [("unknown-id", "there is no mix `duks`")],
    "{lens: nothing-150}": [("unknown-id", "there is no package `nothing-150`")],
    "{tint: dusk, mirror: gold}": [("unknown-id", "there is no mirror `gold`")],
    "{tint: Dusk}": [("not-an-id", "`tint` must be")],
    "{tint: dusk, state: 23}": [("does-not-belong", "no photochromic lens is named here")],
    "{lens: plain-150-ar, state: 23}": [("does-not-belong", "no photochromic lens is named here")],
    "{lens: plain-156-photo, state: 20}": [("not-a-choice", "`state` must be one of")],
    "{tint: slate-water, lens: plain-156-ar}": [("not-taken", "its material takes 75 percent")],
    "{tint: dusk, lens: plain-156-photo}": [("not-taken", "it is photochromic")],
    "{tint: dusk, lens: plain-150-ar, mirror: silver}": [("not-taken", "has no mirror on it")],
    "{}": [("empty-value", "`wears` names no tint")],
    "{state: clear}": [("empty-value", "`wears` names no tint")],
    "{tnit: dusk}": [("unknown-key", "tnit")],
    "dusk": [("wrong-shape", "`wears` must be")],
    "{tint: duks, lens: nothing-150, mirror: gold, state: 20}": [
        ("unknown-id", "mix"), ("unknown-id", "package"), ("unknown-id", "mirror"), ("not-a-choice", "state"),
    ],
}  # fmt: skip


@pytest.mark.parametrize("written", FAULTS)
def test_what_is_wrong_is_told_once_at_its_place_and_nothing_else(shop, written):
    catalog, findings = shop(written)
    assert catalog is None
    told = [(one.code, one.message) for one in findings]
    assert [code for code, _ in told] == [code for code, _ in FAULTS[written]]
    for (_, message), (_, wanted) in zip(told, FAULTS[written], strict=True):
        assert wanted in message
    assert {one.mark.line for one in findings} == {findings[0].mark.line}
    assert all(one.hint for one in findings)


def test_an_optical_version_wears_nothing(shop):
    _, findings = shop("{tint: dusk}", color="{id: smoke, name: Smoke crystal")
    assert [one.code for one in findings] == ["does-not-belong"]
    assert "clear demo lenses" in findings[0].message


def test_a_mix_that_is_faulty_itself_is_told_where_it_stands_alone(shop):
    """Frames that wear it stay silent, and what they say beside it is not lost."""
    catalog, findings = shop("{tint: dusk}", more=[("parts: {brown: 2, rose: 1}", "parts: {brown: 2, roes: 1}")])
    assert catalog is None
    assert [(one.code, Path(one.mark.file).name) for one in findings] == [("unknown-id", "tints.yaml")]
    _, _, sound = load_sound(shop.folder)
    assert "garrowe" in sound.catalog.frames
    assert any(frame.id == "cottering" for frame in sound.photographed)


def test_a_shop_without_a_tint_book_says_so_for_each_name(shop):
    (shop.folder / "tints.yaml").unlink()
    _, findings = load(shop.folder, DAY)
    assert {one.code for one in findings} == {"unknown-id"}
    assert all("none is written yet" in one.hint for one in findings)
    texts = [path.read_text(encoding="utf-8") for path in (shop.folder / "frames").iterdir()]
    said = [line.split(", wears: ")[1] for text in texts for line in text.splitlines() if ", wears: " in line]
    named = sum(words.count("tint:") + words.count("mirror:") for words in said)
    assert len(findings) == len({(one.mark.file, one.mark.line, one.mark.column) for one in findings}) == named > 5
