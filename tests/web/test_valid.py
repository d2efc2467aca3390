"""What the scripts make of a page is valid HTML too, and text stays text in it."""

import pytest
from playwright.sync_api import expect

from quoting.quoted.sealing import unsigned
from tests.quoted.quotes import largest, ordinary, plain
from tests.site.test_valid import hostile  # noqa: F401
from tests.site.valid import faults
from tests.web.answered import answered, quoted
from tests.web.conftest import PAGES

RX = "#od=-2.25,-0.5,10&os=-1.75&pd=31,32"


def after_script(browser, site, names, folder):
    """Each page as it stands once everything on it has answered, a lens is picked, two are compared, a slip is read."""
    context, wrong = browser.new_context(), []
    for name in names:
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto((site / name).as_uri() + RX)
        answered(page)
        if page.locator("#live").count():
            page.locator("#live tr:is(.fits, .caution) input[type='radio']").first.check()
            for number in (0, 1):
                page.locator("#live .is-compare input").nth(number).check()
            page.locator("#live-compare table").wait_for()
            quoted(page)
        if page.locator("#rx").count():
            page.locator(".rx-paste summary").click()
            page.locator("#rx-slip").fill("OD -2.25 -0.75 x 90 <b id='x'>\nOS -2.50")
            page.locator("#rx-slip-pieces .unread").first.wait_for()
        text = page.evaluate("document.documentElement.outerHTML")
        assert page.locator("b[id='x']").count() == 0
        (folder / f"{name.replace('/', '-')}").write_text(f"<!DOCTYPE html>\n{text}\n", encoding="utf-8")
        page.close()
    context.close()
    assert wrong == []


def test_pages_are_valid_after_their_scripts(browser, site, tmp_path):
    after_script(browser, site, PAGES, tmp_path)
    assert faults(tmp_path) == []


def test_pages_whose_texts_look_like_markup_are_valid_after_their_scripts(browser, hostile, tmp_path):  # noqa: F811
    names = ["index.html", "frames/index.html", "frames/alder/index.html", "lenses/thin-160/index.html"]
    after_script(browser, hostile, [*names, "combinations/one/index.html"], tmp_path)
    assert faults(tmp_path) == []


@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_an_opened_quote_is_valid(opened, site, tmp_path, quote):
    page = opened((site / "quote/index.html").as_uri() + f"#{unsigned(quote())}")
    page.evaluate("bevelbook.quoteShown")
    expect(page.locator("#quote .bill").first).to_be_attached()
    text = page.evaluate("document.documentElement.outerHTML")
    (tmp_path / "quote.html").write_text(f"<!DOCTYPE html>\n{text}\n", encoding="utf-8")
    assert faults(tmp_path) == []
