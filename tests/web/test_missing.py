"""The page that a host shows for what is not there: in its style, with links that hold, at an address of any depth."""

import shutil
import threading
from datetime import date
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import expect

from quoting.findings import errors
from quoting.site.build import build
from tests.web.conftest import Quiet
from tests.web.test_access import found_on, free  # noqa: F401
from tests.web.test_site import CONTRAST

pytestmark = pytest.mark.browser

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DEEP = "frames/nobody/has/this.html"
RX = "#od=-2&os=-2.25&pd=31,32"


class Host(Quiet):
    """A host that answers with one page wherever there is none, under the address that was asked."""

    def __init__(self, *args, missing, **words):
        self.missing = missing
        super().__init__(*args, **words)

    def send_error(self, code, message=None, explain=None):
        body = self.missing.read_bytes()
        self.send_response(code)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


@pytest.fixture(scope="module", params=["", "/shops/of mine"], ids=["at a root", "in a subfolder"])
def hosted(request, tmp_path_factory):
    """The small shop where its address says, on a loopback server."""
    folder, path = tmp_path_factory.mktemp("host"), request.param
    shop = Path(shutil.copytree(CORNER, folder / "corner"))
    text = (shop / "shop.yaml").read_text(encoding="utf-8")
    url = f"https://www.example.org{path.replace(' ', '%20')}"
    (shop / "shop.yaml").write_text(text.replace("  locale: en_US", f"  locale: en_US\n  url: {url}"), encoding="utf-8")
    site = folder / f"host{path}"
    assert errors(build(shop, site, date(2026, 11, 25)).findings) == []
    handler = partial(Host, directory=str(folder / "host"), missing=site / "404.html")
    with ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}{path.replace(' ', '%20')}"
        server.shutdown()
        thread.join()


def test_it_has_its_style_at_any_depth_and_leads_home(hosted, opened):
    page = opened(f"{hosted}/{DEEP}{RX}", width=360)
    page.wait_for_load_state("networkidle")
    # The one thing that is not there, as the browser says it, is the page that was asked for
    assert {said for said in opened.wrong if "404 (" not in said} == {f"{hosted}/{DEEP}"}
    assert len(opened.wrong) == 2
    assert page.evaluate("getComputedStyle(document.body).maxWidth") == "1280px"
    for width in (320, 360, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.get_by_role("link", name="all frames").click()
    expect(page).to_have_url(f"{hosted}/frames/index.html{RX}")
    expect(page.locator("#rx-read")).to_contain_text("−2.00")


def test_axe_finds_nothing_and_its_text_stands_out(hosted, free):  # noqa: F811
    page = free(1280).new_page()
    page.goto(f"{hosted}/{DEEP}")
    grounds = set()
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert found_on(page) == []
        assert page.evaluate(CONTRAST) == []
        grounds.add(page.evaluate("getComputedStyle(document.body).backgroundColor"))
    assert len(grounds) == 2
