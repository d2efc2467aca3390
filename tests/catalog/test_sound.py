"""A fault of shape keeps nobody from telling what is odd about the rest, wherever what that needs is whole."""

import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load, load_sound
from quoting.catalog.sense import CHECKS, sense
from quoting.catalog.sound import ALL, FRAMES, LENSES, PRICES, SHOP
from quoting.cli import main
from quoting.sense import sound_sense
from tests.errors.gallery import WHOLE

DAY = date(2027, 3, 1)  # after the end of the discount of the whole shop
FRAME = "frames/pellbridge.yaml"
LENS = "lenses/hallstrand.yaml"
PRICE = "prices/2026-09.yaml"


@pytest.fixture
def shop(tmp_path):
    """Changes a file of the smallest shop: text for text."""

    class Shop:
        folder = Path(shutil.copytree(WHOLE, tmp_path / "shop"))

        def with_(self, name, old, new):
            path = self.folder / name
            text = path.read_text(encoding="utf-8")
            assert old in text
            path.write_text(text.replace(old, new, 1), encoding="utf-8")
            return self

        def told(self):
            catalog, findings, sound = load_sound(self.folder)
            assert catalog is None
            return sorted(one.code for one in [*findings, *sound_sense(sound, DAY)])

        def checked(self):
            words = ["check", str(self.folder), "--on", str(DAY), "--format", "editor"]
            told = CliRunner().invoke(main, words, prog_name="bevelbook")
            assert told.exit_code == 1
            return sorted(line.split(" ")[1] for line in told.stdout.splitlines())

    return Shop()


def test_a_fault_in_a_frame_hides_nothing_that_is_odd_about_prices_and_packages(shop):
    shop.with_(FRAME, "curve: 4.0", "curve: flat").with_(LENS, "lens: 29.00", "lens: 2.90")
    assert shop.told() == ["discount-past", "not-a-number", "price-apart"]
    assert shop.checked() == shop.told()


def test_a_fault_in_a_package_hides_nothing_that_is_odd_about_frames(shop):
    shop.with_(LENS, "diameter: 70", "diameter: wide").with_(FRAME, "temple: 145", "temple: 90")
    assert shop.told() == ["discount-past", "implausible", "not-a-length"]


def test_where_a_price_list_is_faulty_no_price_is_compared(shop):
    shop.with_(PRICE, "percent: 10,", "percent: ten,").with_(LENS, "lens: 29.00", "lens: 2.90")
    assert shop.told() == ["not-a-percentage"]


def test_a_list_that_names_a_package_with_a_fault_is_not_whole_though_nothing_of_it_is_told(shop):
    shop.with_(LENS, "lens: 29.00", "lens: dear").with_(PRICE, "regions:", "lenses: {plain-150: +4 %}\nregions:")
    _, findings, sound = load_sound(shop.folder)
    assert [one.mark.file.rpartition("/")[2] for one in findings] == ["hallstrand.yaml"]
    assert sound.whole == ALL - {LENSES, PRICES}


def test_what_only_the_whole_can_show_waits_for_it(shop):
    """A frame that cannot be read may be the one with drilled lenses, and the tallest."""
    surcharge = "  - {id: drill, text: Drilling, when: mounting, mounting: drilled, per: pair, price: 35.00}\n"
    shop.with_(PRICE, "surcharges:\n", "surcharges:\n" + surcharge)
    assert "never-due" in {one.code for one in sense(load(shop.folder, DAY)[0], DAY)}
    shop.with_(FRAME, "curve: 4.0", "curve: flat")
    assert shop.told() == ["discount-past", "not-a-number"]


def test_a_missing_photo_is_told_beside_a_fault_of_the_same_frame(shop):
    shop.with_(FRAME, "curve: 4.0", "curve: flat\n    photo: tarn.jpg")
    assert shop.checked() == ["discount-past", "no-such-photo", "not-a-number"]


def test_a_photo_that_a_frame_without_its_name_may_have_named_is_not_called_unused(shop):
    (shop.folder / "photos").mkdir()
    (shop.folder / "photos" / "tarn.jpg").write_bytes(b"")
    shop.with_(FRAME, "curve: 4.0", "curve: {")
    assert shop.checked() == ["discount-past", "unclosed-bracket"]


@pytest.mark.parametrize("kind", sorted(ALL))
def test_no_check_asks_for_what_it_does_not_say_it_needs(kind):
    """Run without that kind, as where nothing of it could be read."""
    sound = load_sound(WHOLE)[2]
    emptied = {
        SHOP: {"shop": None},
        FRAMES: {"frames": {}},
        LENSES: {"packages": {}, "designs": {}, "materials": {}},
        PRICES: {"price_list": None, "price_lists": ()},
    }.get(kind, {"said": ()})
    without = replace(sound.catalog, **emptied)
    for check, needed in CHECKS:
        if kind not in needed:
            assert [one.code for one in check(without, DAY) if one.severity == "error"] == []


def test_of_a_whole_shop_the_same_is_told_as_ever():
    catalog, findings, sound = load_sound(WHOLE)
    assert (findings, sound.whole) == ([], ALL)
    assert [one.code for one in sense(catalog, DAY)] == [one.code for one in sound_sense(sound, DAY)]
