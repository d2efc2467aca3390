"""The words that scripts say, in a language that brackets every text: none stands without."""

import threading
from functools import partial
from http.server import ThreadingHTTPServer

import pytest

from tests.languages.pseudo import build_bracketed, own_words, said, unsaid
from tests.web.answered import answered, quoted
from tests.web.conftest import Quiet

pytestmark = pytest.mark.browser

RX = "#od=-6.25,-1.25,10,1.5,0.5&os=-5.75,0,180,1.5,0,1&pd=31,32&h=21,21"
PAGES = [
    "index.html",
    "frames/index.html",
    "frames/cottering/index.html",
    "frames/garrowe/index.html",
    "lenses/path18-153-ar/index.html",
    "combinations/index.html",
    "combinations/no-rim-and-a-progressive/index.html",
]


@pytest.fixture(scope="module")
def bracketed(tmp_path_factory):
    """The address of the demo's site in that language."""
    site = build_bracketed(tmp_path_factory.mktemp("bracketed") / "site")
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(site))) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()
        thread.join()


@pytest.mark.parametrize("name", PAGES)
def test_no_script_says_a_word_that_is_not_in_the_catalogs(bracketed, opened, name):
    """With a prescription, everything opened that opens, two lenses beside each other and one chosen."""
    page = opened(f"{bracketed}/{name}{RX}")
    answered(page)
    page.evaluate("document.querySelectorAll('details').forEach((one) => (one.open = true))")
    if page.locator("#live").count():
        for late in (".life-front", "#tinted .tint"):  # their scripts come once they are opened
            page.locator(late).first.wait_for(state="attached")
        for number in (0, 1):
            page.locator("#live .is-compare input").nth(number).check()
        page.locator("#live-compare table").wait_for()
        page.locator("#live input[name=chosen]").first.check()
        quoted(page)
    if page.locator("#rx").count():
        page.fill("#rx-slip", "OD -2.25 -0.75 x 90 prism 2 bi OS -2.50 what PD 63 ?? axis")
        page.wait_for_selector("#rx-slip-pieces li", state="attached")
        page.fill("#rx-right-axis", "x")
        page.wait_for_selector("#rx-note-right:not(:empty)", state="attached")
    pasted = ["OD", "OS", "prism", "bi", "what", "PD", "axis"]
    own = own_words()
    found = {word: text[:60] for text in said(page.content()) for word in unsaid(text, own) if word not in pasted}
    assert found == {}
