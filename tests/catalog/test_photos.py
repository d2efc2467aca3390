"""Photos as a shop names them: only files of its own folder, told where they are named, and never in a quote's way."""

import os
import shutil
import sys
import unicodedata
from pathlib import Path

import pytest
from PIL import Image

from quoting.catalog import photos
from quoting.catalog.load import load
from quoting.catalog.photos import Photos, photo_findings
from tests.site.conftest import CORNER, DAY


class Shop:
    """The small shop, with photos at its frame Alder."""

    def __init__(self, folder):
        self.folder = folder

    def names(self, field):
        """Photos of the frame, as YAML."""
        path = self.folder / "frames" / "bolderwood.yaml"
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("{id: slate,", f"{{id: slate, {field},"), encoding="utf-8")
        return self

    def has(self, *names, width=800):
        """Pictures of these names."""
        for name in names:
            path = self.folder / "photos" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            Image.new("RGB", (width, width // 2), (90, 100, 110)).save(path)
        return self

    def found(self):
        catalog, findings = load(self.folder, DAY)
        assert findings == []
        return photo_findings(self.folder, catalog.frames.values())

    def told(self):
        return [(one.code, one.severity) for one in self.found()]


@pytest.fixture
def shop(tmp_path):
    return Shop(Path(shutil.copytree(CORNER, tmp_path / "corner")))


ODD = [
    "tärn slate.jpg",
    "a%23b.jpg",
    "what?.jpg",
    "#1 'front'.jpg",
    "&lt;b&gt;.jpg",
    "日本.webp",
    "x.JPEG",
    "sub/dir/x.png",
]


@pytest.mark.parametrize("name", ODD)
def test_any_name_that_is_one_is_taken_as_it_is_written(shop, name):
    shop.names(f'photo: "{name}"').has(name)
    assert shop.told() == []
    (photo,) = load(shop.folder, DAY)[0].frames["alder"].colorways[0].photos
    assert photo.file == name


@pytest.mark.parametrize(
    "name",
    ["../secret.jpg", "a/../../x.jpg", "/etc/x.jpg", "https://example.org/x.jpg", "..\\x.jpg", "C:x.jpg", ".hidden.jpg",
     "a//b.jpg", "a/", "./x.jpg", "x" * 201],
)  # fmt: skip
def test_a_name_that_leads_elsewhere_is_refused_before_anybody_looks(shop, name):
    shop.names(f"photo: '{name}'")
    catalog, findings = load(shop.folder, DAY)
    assert catalog is None
    assert [one.code for one in findings] == ["wrong-form"]
    assert findings[0].mark.line == 14


def test_two_ways_to_name_photos_do_not_stand_together(shop):
    shop.names("photo: a.jpg, photos: [{file: b.jpg}]")
    assert [one.code for one in load(shop.folder, DAY)[1]] == ["one-of-two"]


def test_a_quote_does_not_wait_for_a_photo(shop):
    """A catalog whose photos are gone can be reckoned with; only who shows or checks it looks for them."""
    shop.names("photo: gone.jpg")
    assert load(shop.folder, DAY)[0] is not None
    assert shop.told() == [("no-such-photo", "error")]


@pytest.mark.parametrize("form", ["NFC", "NFD"])
def test_an_umlaut_is_one_whether_the_system_writes_it_as_one_character_or_two(shop, form):
    name = "Tärn.jpg"
    shop.names(f"photo: {unicodedata.normalize('NFC', name)}").has(unicodedata.normalize(form, name))
    assert shop.told() == []


def test_upper_case_and_lower_count_as_on_the_machine_that_serves_the_site(shop):
    shop.names("photo: Tarn.jpg").has("tarn.jpg")
    assert ("no-such-photo", "error") in shop.told()


@pytest.fixture
def outside(tmp_path):
    path = tmp_path / "outside.jpg"
    Image.new("RGB", (800, 400)).save(path)
    return path


def test_a_link_may_lead_about_in_the_shop_and_nowhere_else(shop, outside):
    private = shop.folder / "private"
    private.mkdir()
    Image.new("RGB", (800, 400)).save(private / "costs.jpg")
    shop.has("real.jpg")
    top = shop.folder / "photos"
    links = {
        "good.jpg": "real.jpg",
        "out.jpg": str(outside),
        "private.jpg": "../private/costs.jpg",
        "nowhere.jpg": "gone.jpg",
        "circle.jpg": "circle.jpg",
    }
    for name, target in links.items():
        (top / name).symlink_to(target)
    (top / "folder").symlink_to("../private")
    names = [*links, "folder/costs.jpg"]
    shop.names(f"photos: [{', '.join(f'{{file: {name}}}' for name in names)}]")
    catalog, _ = load(shop.folder, DAY)
    found = {
        one.mark.text[one.mark.column - 1 :][: one.mark.length]: one
        for one in photo_findings(shop.folder, catalog.frames.values())
    }
    assert {name for name, one in found.items() if one.code == "outside-folder"} == set(names) - {"good.jpg"}
    known = Photos(shop.folder)
    shown = [photo.file for photo in catalog.frames["alder"].colorways[0].photos if known.seen(photo)]
    assert shown == ["good.jpg"]


def test_a_folder_of_photos_that_lies_elsewhere_is_none_of_the_shop(shop, outside, tmp_path):
    (shop.folder / "photos").symlink_to(tmp_path)
    shop.names(f"photo: {outside.name}")
    assert ("outside-folder", "error") in shop.told()


def test_private_in_a_circle_keeps_no_photo_from_being_shown(shop):
    shop.names("photo: tarn.jpg").has("tarn.jpg")
    (shop.folder / "private").symlink_to("private")
    assert shop.told() == []


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no named pipes in folders")
def test_a_pipe_is_no_photo_and_nobody_waits_for_it(shop):
    shop.names("photo: pipe.jpg")
    (shop.folder / "photos").mkdir()
    os.mkfifo(shop.folder / "photos" / "pipe.jpg")
    assert shop.told() == [("not-a-photo", "error")]


def test_two_hundred_megabytes_are_refused_unread(shop, monkeypatch):
    shop.names("photo: large.jpg").has("large.jpg")
    with (shop.folder / "photos" / "large.jpg").open("r+b") as file:
        file.truncate(200_000_000)
    monkeypatch.setattr(photos, "look", lambda _: pytest.fail("it was looked into"))
    assert shop.told() == [("photo-too-large", "error")]
    assert "200,000,000 bytes" in shop.found()[0].message


def test_a_file_that_may_not_be_read_is_told(shop, monkeypatch):
    shop.names("photo: mine.jpg").has("mine.jpg")

    def denied(_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(photos, "look", denied)
    assert shop.told() == [("unreadable-file", "error")]


def test_the_limits_of_width_are_on_either_side(shop):
    shop.names("photos: [{file: small.jpg}, {file: enough.jpg}]")
    shop.has("small.jpg", width=399).has("enough.jpg", width=400)
    assert shop.told() == [("photo-small", "warning")]


def test_hidden_files_and_other_things_in_the_folder_are_let_be(shop):
    shop.has("used.jpg", ".trash.jpg", ".thumbs/one.jpg").names("photo: used.jpg")
    (shop.folder / "photos" / "notes.txt").write_text("who took which", encoding="utf-8")
    assert shop.told() == []
