"""Photos in a built site: copies of the shop's own files beside the drawings, and nothing else of them."""

import json
import os
import shutil
from io import BytesIO
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from quoting.findings import errors
from quoting.remembered import cache_folder
from quoting.site import copies as kept_copies
from quoting.site.build import build
from quoting.site.publish import recorded
from tests.site.conftest import COMBINATION, DAY
from tests.site.test_build import codes, contents
from tests.site.test_linked import faults

PLACE = "where I live"


def picture(path, size=(2400, 1500), color=(90, 100, 110), **save):
    path.parent.mkdir(parents=True, exist_ok=True)
    image = Image.new("RGB", size, color)
    image.paste((200, 180, 60), (size[0] // 4, size[1] // 3, size[0] // 2, size[1] // 2))
    image.save(path, **save)


@pytest.fixture
def shop(corner, rewrite):
    """The small shop with photos: two of a colorway, one on its side and telling a place; one of a frame."""
    exif = Image.Exif()
    exif[0x0112] = 6
    exif.get_ifd(0x8825)[1] = "N"
    exif[0x010E] = PLACE
    picture(corner / "photos/ä lder%23.jpg", exif=exif)
    picture(corner / "photos/side/alder.png", (700, 500))
    picture(corner / "photos/hinge.webp", (500, 300))
    both = '[{file: "ä lder%23.jpg", alt: "<b>\\"Alder\\"</b>"}, {file: side/alder.png}]'
    rewrite("frames/bolderwood.yaml", "{id: slate,", f"{{id: slate, photos: {both},")
    rewrite("frames/bolderwood.yaml", "    name: Reed\n", "    name: Reed\n    photo: hinge.webp\n")
    return corner


@pytest.fixture
def made(shop, tmp_path):
    def again(name="site"):
        result = build(shop, tmp_path / name, DAY)
        assert errors(result.findings) == []
        return tmp_path / name

    return again


def opened(path):
    """An image; its file is not kept open."""
    return Image.open(BytesIO(path.read_bytes()))


def page(site, name):
    return BeautifulSoup((site / name).read_text(encoding="utf-8"), "html.parser")


def photos_in(soup):
    return soup.select("img.photo")


def test_a_colorways_photos_stand_beside_its_drawing_with_their_room_kept(made):
    site = made()
    (card,) = page(site, "frames/alder/index.html").select("section[aria-labelledby=colors] .card")
    first, second = photos_in(card)
    assert card.select_one("svg.drawing") is not None
    assert first["alt"] == '<b>"Alder"</b>'
    assert second["alt"] == "Photo of Alder in Slate"
    for image, ratio in ((first, 2400 / 1500), (second, 500 / 700)):
        assert int(image["height"]) / int(image["width"]) == pytest.approx(ratio, abs=0.002)  # the first stands upright
        assert image["loading"] == "lazy"
        for address, width in (entry.split() for entry in image["srcset"].split(", ")):
            file = (site / "frames/alder" / address).resolve()
            assert file.is_relative_to(site.resolve())
            assert opened(file).width == int(width.removesuffix("w"))
        assert opened(site / "frames/alder" / image["src"]).size == (int(image["width"]), int(image["height"]))
        assert opened(site / "frames/alder" / image.parent["href"]).width == max(
            int(entry.split()[1][:-1]) for entry in image["srcset"].split(", ")
        )


def test_lists_and_frame_pages_show_what_there_is_and_draw_the_rest(made):
    site = made()
    cards = {card["data-frame"]: card for card in page(site, "frames/index.html").select(".card")}
    assert len(photos_in(cards["alder"])) == 1
    assert photos_in(cards["reed"]) == []  # it has a photo of its hinge, and none of a colorway
    assert all(card.select_one("svg.drawing") for card in cards.values())
    (hinge,) = photos_in(page(site, "frames/reed/index.html"))
    assert hinge["alt"] == "Photo of Reed"


def test_machines_are_told_of_the_photos(made, rewrite):
    rewrite("shop.yaml", "currency: USD", "url: https://corner.example.org/shop/\n  currency: USD")
    site = made()
    soup = page(site, "frames/alder/index.html")
    (said,) = [json.loads(one.string) for one in soup.select("script[type='application/ld+json']")]
    root = "https://corner.example.org/shop/"
    assert faults(said, ["Product"]) == []
    assert len(said["image"]) == 2
    assert all((site / one.removeprefix(root)).is_file() for one in said["image"])
    assert soup.select_one("meta[property='og:image']")["content"] == said["image"][0]


def test_a_combination_shows_the_photos_of_its_colorway(made, rewrite, article):
    rewrite("shop.yaml", "currency: USD", "url: https://corner.example.org\n  currency: USD")
    article("combinations/one.md", Slug="one", **COMBINATION)
    soup = page(made(), "combinations/one/index.html")
    assert len(photos_in(soup)) == 2
    assert soup.select_one("figure svg.drawing") is not None
    shown = soup.select_one("meta[property='og:image']")["content"]
    assert shown.startswith("https://corner.example.org/photos/alder-slate-")


def test_without_an_address_of_the_site_nothing_absolute_is_said(made):
    soup = page(made(), "frames/alder/index.html")
    (said,) = [json.loads(one.string) for one in soup.select("script[type='application/ld+json']")]
    assert "image" not in said  # it must be a whole address
    assert soup.select_one("meta[property='og:image']") is None


def test_nothing_but_pixels_comes_into_the_site(made, shop):
    site = made()
    assert PLACE.encode() in (shop / "photos/ä lder%23.jpg").read_bytes()
    files = sorted((site / "photos").iterdir())
    assert len(files) == 3 + 2 + 2  # widths of each: up to 1500, up to 700, up to 500
    assert all(path.name.isascii() and " " not in path.name and "%" not in path.name for path in files)
    for path in site.rglob("*"):
        assert not path.is_file() or PLACE.encode() not in path.read_bytes()
    for path in files:
        assert dict(opened(path).getexif()) == {}


def test_the_site_is_the_same_whether_copies_are_made_or_remembered(made, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    first = contents(made("one"))
    monkeypatch.setattr("quoting.site.album.copies", lambda *_: pytest.fail("made again"))
    assert contents(made("two")) == first


def test_a_damaged_copy_is_made_again_and_an_old_one_goes(made, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    first = contents(made("one"))
    remembered = sorted((cache_folder() / "photos").iterdir())
    assert len(remembered) == 7
    remembered[0].write_bytes(remembered[1].read_bytes())
    remembered[2].write_bytes(b"")
    old = cache_folder() / "photos" / "0123-old.jpg"
    old.write_bytes(b"x")
    os.utime(old, (0, 0))
    assert contents(made("two")) == first
    assert not old.exists()


def test_a_cache_that_cannot_be_written_costs_time_and_nothing_else(made, monkeypatch, tmp_path):
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    first = contents(made("one"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    assert contents(made("two")) == first


def test_another_way_to_make_copies_does_not_take_those_of_the_old_one(made, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    made("one")
    monkeypatch.setattr(kept_copies, "PILLOW", "another")
    seen = []
    real = kept_copies.Kept.put
    monkeypatch.setattr(kept_copies.Kept, "put", lambda self, *words: (seen.append(words[0]), real(self, *words)))
    made("two")
    assert len(seen) == 3


@pytest.mark.parametrize("spoil", [lambda raw: raw[: len(raw) // 2], lambda _: b"", lambda _: b"no photo"])
def test_a_photo_that_cannot_be_shown_leaves_the_old_site_as_it_was(made, shop, spoil):
    site = made()
    before = contents(site)
    path = shop / "photos/ä lder%23.jpg"
    path.write_bytes(spoil(path.read_bytes()))
    result = build(shop, site, DAY)
    assert codes(result) == ["not-a-photo"]
    assert errors(result.findings)[0].mark.line == 14
    assert contents(site) == before


def test_a_photo_that_is_exchanged_during_a_build_is_noticed(shop, tmp_path):
    def meanwhile(done, *_):
        if done == 1:
            picture(shop / "photos/side/alder.png", (900, 500))

    assert codes(build(shop, tmp_path / "site", DAY, progress=meanwhile)) == ["changed-meanwhile"]


def test_what_links_lead_to_outside_is_in_no_site(shop, tmp_path):
    (shop / "private").mkdir()
    picture(shop / "private/costs.png", (800, 400), (1, 2, 3))
    path = shop / "photos/side/alder.png"
    path.unlink()
    path.symlink_to("../../private/costs.png")
    assert codes(build(shop, tmp_path / "site", DAY)) == ["outside-folder"]
    assert not (tmp_path / "site").exists()


def test_the_same_photo_at_two_places_is_one_and_another_photo_another_address(made, shop, rewrite):
    def addresses():
        return {path.name for path in (made() / "photos").iterdir() if "reed" in path.name}

    rewrite("frames/bolderwood.yaml", "{id: dusk,", "{id: dusk, photo: hinge.webp,")
    before = addresses()
    assert len(before) == 2  # in two widths, named after the colorway, which comes first
    picture(shop / "photos/hinge.webp", (500, 300), (7, 7, 7))
    assert len(addresses()) == 2
    assert not addresses() & before


def test_a_file_of_the_owners_is_never_written_over(shop, made):
    names = [path.name for path in (made() / "photos").iterdir()]
    (shop / "content/root/photos").mkdir(parents=True)
    (shop / "content/root/photos" / names[0]).write_text("mine", encoding="utf-8")
    assert codes(build(shop, Path(shop.parent / "site"), DAY)) == ["same-place"]


def test_what_a_record_says_of_pages_changes_with_their_photos(shop):
    def record():
        result, found = recorded(shop, DAY, None)
        assert errors(result.findings) == []
        return found["pages"]

    before = record()
    picture(shop / "photos/hinge.webp", (600, 300))
    assert {name for name, one in record().items() if before[name] != one} == {"frames/reed/index.html"}


def test_many_pixels_take_little_room(shop, made):
    """A photo as a camera makes it, noise and all, comes to less than a tenth of its bytes in the card's copy."""
    path = shop / "photos/side/alder.png"
    noise = Image.effect_noise((2400, 1600), 40).convert("RGB")
    out = BytesIO()
    noise.save(out, "JPEG", quality=95)
    path.write_bytes(out.getvalue())
    shutil.rmtree(cache_folder() / "photos", ignore_errors=True)
    sizes = [(one.stat().st_size, one.name) for one in (made() / "photos").iterdir() if "alder-slate" in one.name]
    small = [size for size, name in sizes if name.endswith("-480.jpg")]
    assert max(small) < len(out.getvalue()) / 10
