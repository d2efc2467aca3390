"""Beside a combination a visitor's own eyes are answered for with what its lens wears."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

TINTED = "combinations/dusk-on-the-terrace/index.html"
EXAMPLE = "#od=-1.25,-0.5,100&os=-1&pd=63"  # `Rx:` of content/combinations/dusk-on-the-terrace.md


@pytest.mark.parametrize("place", [TINTED, "combinations/index.html"])
def test_who_has_the_eyes_of_the_example_is_told_its_price(opened, site, place):
    """The example is the build's own answer, with its tint in the bill."""
    page = opened((site / TINTED).as_uri())
    for part in ("−1.25 −0.50 × 100", "−1.00 DS", "63"):
        expect(page.locator("main")).to_contain_text(part)
    assert "tint" in page.locator(".bill").inner_text().lower()
    total = page.locator(".bill tfoot td").inner_text()
    page = opened((site / place).as_uri() + EXAMPLE)
    expect(page.locator("[data-answer][data-frame-id][data-wishes]").first).to_contain_text(total)
    assert opened.wrong == []
