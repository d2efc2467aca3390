"""Photos in a browser: their room is kept while they load, they are the site's own, and nobody is left out."""

import shutil
from datetime import date

import pytest

from quoting.findings import errors
from quoting.site.build import build
from tests.site.conftest import CORNER
from tests.site.test_photos import picture
from tests.site.valid import faults
from tests.web.answered import until, within
from tests.web.test_access import found_on, free  # noqa: F401

PLACES = (
    "[...document.querySelectorAll('.card, img.photo, h2, footer')].map(one => one.getBoundingClientRect().toJSON())"
)
SHOWN = "[...document.images].every(image => image.complete && image.naturalWidth > 0)"
NAMES = ["frames/index.html", "frames/alder/index.html", "index.html"]


@pytest.fixture(scope="module")
def pictured(tmp_path_factory):
    """The small shop with photos of each kind."""
    place = tmp_path_factory.mktemp("photos")
    shop = shutil.copytree(CORNER, place / "corner")
    for name in ("a lder.jpg", "b.png", "c.webp"):
        picture(shop / "photos" / name, (1200, 900))
    frames = shop / "frames" / "bolderwood.yaml"
    text = frames.read_text(encoding="utf-8")
    photos = "photos: [{file: a lder.jpg, alt: From the front}, {file: b.png, alt: From the side}]"
    text = text.replace("{id: slate,", f"{{id: slate, {photos},").replace(
        "name: Alder\n", "name: Alder\n    photo: c.webp\n"
    )
    frames.write_text(text, encoding="utf-8")
    assert errors(build(shop, place / "site", date(2026, 11, 25)).findings) == []
    return place / "site"


@pytest.mark.parametrize("width", [1280, 360])
@pytest.mark.parametrize("name", NAMES)
def test_nothing_moves_when_a_photo_arrives(browser, pictured, name, width):
    """Everything is where it will be while the photos are still on their way."""
    context, held = browser.new_context(viewport={"width": width, "height": 4000}), []
    page = context.new_page()
    page.route("**/photos/**", lambda route: held.append(route))
    page.goto((pictured / name).as_uri(), wait_until="domcontentloaded")
    within(lambda: held, page)
    assert not page.evaluate(SHOWN)
    before = page.evaluate(PLACES)
    for route in held:
        route.continue_()
    until(page, SHOWN)
    assert page.evaluate(PLACES) == before
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


def test_photos_are_the_sites_own(opened, pictured):
    for name in NAMES:
        page = opened((pictured / name).as_uri())
        page.evaluate("document.querySelectorAll('img.photo').forEach(image => image.scrollIntoView())")
        until(page, SHOWN)
    assert opened.wrong == []
    assert all(address.startswith("file:") for address in opened.asked)
    assert any("/photos/" in address for address in opened.asked)


def test_a_small_card_does_not_load_the_largest_copy(opened, pictured):
    until(opened((pictured / "frames/index.html").as_uri()), "document.images[0].complete")
    assert {address.rpartition("-")[2] for address in opened.asked if "/photos/" in address} == {"480.jpg"}


def test_a_photo_opens_its_largest_copy_from_the_keyboard_without_script(browser, pictured):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((pictured / "frames/alder/index.html").as_uri())
    page.get_by_role("link", name="From the front").press("Enter")
    page.wait_for_url("**/photos/alder-slate-*-1200.jpg")
    context.close()


def test_pages_with_photos_are_valid_and_left_open_to_everybody(free, pictured):  # noqa: F811
    assert faults(pictured) == []
    for name in NAMES:
        page = free().new_page()
        page.goto((pictured / name).as_uri())
        assert found_on(page) == []
