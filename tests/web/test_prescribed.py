"""The list looks for the kind of lens that was prescribed, until somebody says which."""

import pytest
from playwright.sync_api import expect

from tests.web.answered import answered, within

NEAR = "#od=-2,0,180,2&os=-2,0,180,2&pd=31,32"
FAR = "#od=-2&os=-2&pd=31,32"


@pytest.fixture
def listed(opened, site):
    """The list of frames, opened from disk with this fragment."""
    return lambda fragment: opened((site / "frames/index.html").as_uri() + fragment)


def test_an_addition_asks_for_progressives_and_without_it_for_single_vision(listed):
    page = listed(NEAR)
    answered(page)
    expect(page.locator("#find-kind")).to_have_value("progressive")
    assert "kind=" not in page.url
    for side in ("right", "left"):
        page.locator(f"#rx-{side}-add").fill("")
    expect(page.locator("#find-kind")).to_have_value("single-vision")


def test_who_says_which_lens_is_believed_and_a_link_says_it_again(listed):
    page = listed(NEAR)
    answered(page)
    page.locator("#find-kind").select_option("single-vision")
    within(lambda: "kind=single-vision" in page.url, page)
    page.locator("#rx-right-sphere").fill("-3")
    answered(page)
    expect(page.locator("#find-kind")).to_have_value("single-vision")
    again = listed("#" + page.url.partition("#")[2])
    answered(again)
    expect(again.locator("#find-kind")).to_have_value("single-vision")
    again.locator("#find button[type=reset]").click()
    expect(again.locator("#find-kind")).to_have_value("progressive")


def test_a_link_that_names_a_lens_outlives_another_prescription(listed):
    page = listed(FAR + "&kind=bifocal")
    answered(page)
    expect(page.locator("#find-kind")).to_have_value("bifocal")
