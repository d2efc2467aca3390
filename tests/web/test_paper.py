"""Pages on paper: what belongs together stands on one sheet."""

import io
import re

import pypdfium2
import pytest

from tests.web.answered import answered

pytestmark = pytest.mark.browser

# The name of a design, as it stands above its lenses
DESIGN = re.compile(r"(single vision|progressive|bifocal|anti-fatigue), \w+$")


@pytest.fixture
def sheets(opened, site):
    """The text of each printed sheet of a page."""

    def printed(address, shown, paper):
        page = opened(site.as_uri() + f"/{address}")
        page.locator(shown).first.wait_for()
        if "#" in address:
            answered(page)
        document = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format=paper)))
        return [one.get_textpage().get_text_range().replace("\r", "").strip() for one in document]

    return printed


@pytest.mark.parametrize("paper", ["Letter", "A4"])
def test_a_total_stands_once_and_below_its_lines(sheets, paper):
    """A foot of a table is printed on each sheet of it, unless it is told not to (CSS 2.2, 17.2: it may be)."""
    found = sheets("combinations/no-rim-and-a-progressive/index.html", ".bill", paper)
    (sheet,) = [one for one in found if re.search(r"^Total", one, re.MULTILINE)]
    assert sheet.index("Drill mounting") < sheet.index("Tax on the frame") < sheet.index("Total")
    (foot,) = [one for one in found if "Write or call" in one]
    assert "bench@ottersea.example.org" in foot
    assert "This is an estimate" in foot


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize(
    ("address", "shown"), [("#od=-6.25,-1.25,10&os=-5.75", ".live-board .is-verdict"), ("", ".size-board")]
)
def test_no_design_is_named_at_the_foot_of_a_sheet(sheets, address, shown, paper):
    found = sheets(f"frames/cottering/index.html{address}", shown, paper)
    assert len(found) > 5
    named = sum(bool(DESIGN.search(line)) for one in found for line in one.splitlines())
    assert named > 10
    assert [one.splitlines()[-1] for one in found if DESIGN.search(one)] == []


def test_no_line_goes_through_the_foot_of_a_sheet_with_a_chosen_lens(opened, site):
    page = opened(site.as_uri() + "/frames/cottering/index.html#od=-6.25,-1.25,10&os=-5.75&lens=bench-159-ar")
    page.locator("#live-quote .bill").wait_for()
    page.emulate_media(media="print")
    lines = "all => all.map(one => [getComputedStyle(one).boxShadow, getComputedStyle(one).borderLeftWidth])"
    assert set(map(tuple, page.locator(".block dl > div").evaluate_all(lines))) == {("none", "0px")}


def test_the_title_of_a_board_stays_with_it_and_no_button_is_printed(opened, site):
    page = opened(site.as_uri() + "/frames/cottering/index.html#od=-6.25,-1.25,10&os=-5.75&color=smoke")
    answered(page)
    page.emulate_media(media="print")
    caption = page.locator(".live-board caption")
    assert caption.evaluate("one => getComputedStyle(one).breakAfter") == "avoid"
    assert page.locator("main button:visible").count() == 0
