"""Nothing that axe-core finds, on any kind of page, light and dark, wide and narrow, with and without a prescription.

Rules: axe-core (Deque, MPL-2.0), those tagged WCAG 2.0 to 2.2 A and AA and best practice.
"""

from pathlib import Path

import axe_playwright_python
import pytest

from tests.web.conftest import PAGES

AXE = next(Path(axe_playwright_python.__file__).parent.rglob("axe.min.js")).read_text(encoding="utf-8")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
RX = "#od=-6.25,-1.25,10&os=-5.75&pd=31,32"
RUN = """async tags => (await axe.run(document, {runOnly: tags})).violations.map(
  found => `${found.id}: ${found.nodes[0].html.slice(0, 160)}`)"""


def found_on(page):
    page.evaluate(AXE)
    return page.evaluate(RUN, TAGS)


@pytest.mark.parametrize("fragment", ["", RX], ids=["nothing asked", "a prescription"])
@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 360)])
def test_axe_finds_nothing(browser, site, scheme, width, fragment):
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme, bypass_csp=True)
    wrong = {}
    for name in PAGES:
        page = context.new_page()
        page.goto((site / name).as_uri() + fragment)
        if fragment and page.locator("#live").count():
            page.locator("#live tr[data-package]:last-child .is-range small").last.wait_for(timeout=60_000)
            page.locator('#live tr.fits input[type="radio"]').first.check()
            for number in (0, 1):
                page.locator("#live tr.fits .is-compare input").nth(number).check()
        if found := found_on(page):
            wrong[name] = found
        page.close()
    context.close()
    assert wrong == {}


def test_axe_is_awake(browser, site):
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    page.goto((site / "index.html").as_uri())
    page.evaluate("document.querySelector('nav a').innerHTML = ''")
    assert any(one.startswith("link-name") for one in found_on(page))
    context.close()
