"""Waiting for what the scripts of a page answer, on whatever kind of page."""

import time

from playwright.sync_api import expect

from tests.web.patient import SOON


def answered(page):
    """Wait until everything on the page that answers for a prescription has answered."""
    if page.locator("#live").count():  # the ranges come last, row by row
        page.locator("#live td.is-range small").last.wait_for()
        expect(page.locator("#live td.is-range:not(:has(small))")).to_have_count(0)
    if page.locator("#find").count():
        frames = page.locator("[data-frame]").count()
        expect(page.locator("[data-frame] .suits")).to_have_count(frames)
    expect(page.locator("[data-answer][hidden]")).to_have_count(0)


def quoted(page):
    """Wait until a chosen lens has all that comes late: its link, its drawings, what would make it fit, its sheets."""
    page.locator('#live-quote .share a[href*="quote%2Findex.html%23"]').wait_for()
    page.locator("#live-quote .seat > *").first.wait_for(state="attached")
    if page.locator("#live-quote .verdict:not(.fits)").count():
        page.locator("#live-quote .mend").wait_for(state="attached")
    styled(page, "views.css", "picked.css")


def styled(page, *names):
    """Wait for sheets that a script asks for."""
    until(
        page, "names => names.every(name => [...document.styleSheets].some(({ href }) => href?.endsWith(name)))", names
    )


def within(true, page=None):
    """Wait until something is true, without asking the page to evaluate text: its policy forbids that.

    What a page tells by itself, such as what it asks for, is heard only while something is asked of it.
    """
    end = time.monotonic() + SOON / 1000
    while not true():
        assert time.monotonic() < end, "it never came"
        if page is None:
            time.sleep(0.05)
        else:
            page.wait_for_timeout(50)


def until(page, expression, arg=None):
    """Wait until an expression is true in the page."""
    within(lambda: page.evaluate(expression, arg))


def becomes(ask, wanted):
    """Wait until what is asked for is what is wanted; what it was last is told where it never is."""
    end = time.monotonic() + SOON / 1000
    while (found := ask()) != wanted and time.monotonic() < end:
        time.sleep(0.05)
    assert found == wanted
