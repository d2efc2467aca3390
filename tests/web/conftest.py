"""Chromium, the demo site on disk, and the same site in a subfolder of a server."""

import os
import shutil
import threading
from datetime import date
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer

import pytest
from playwright.sync_api import sync_playwright

from quoting.findings import errors
from quoting.places import shared
from quoting.site.build import build
from tests.web.patient import launched

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
SWITCHES = [
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# One page of each kind that a visitor is led to; what is shown for the others is looked at in test_missing.py
PAGES = [
    "index.html",
    "frames/index.html",
    "frames/cottering/index.html",
    "frames/ossgill/index.html",
    "lenses/index.html",
    "lenses/path18-153-ar/index.html",
    "combinations/index.html",
    "combinations/no-rim-and-a-progressive/index.html",
    "guides/index.html",
    "guides/reading-your-prescription/index.html",
    "tints/index.html",
    "quote/index.html",
    "form/index.html",
    "about/index.html",
]


@pytest.fixture(scope="session")
def browser():
    """Chromium; without one the test fails where browser tests are required, and is skipped, saying so, elsewhere."""
    if CHROMIUM is None:
        said = "no Chromium found: browser test not run"
        if os.environ.get("BEVELBOOK_REQUIRE_BROWSER") == "1":
            pytest.fail(said)
        pytest.skip(said)
    with sync_playwright() as playwright:
        chromium = launched(playwright.chromium, CHROMIUM, SWITCHES)
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def site(tmp_path_factory):
    output = tmp_path_factory.mktemp("web") / "some shop" / "site"
    assert errors(build(shared("demo_catalog"), output, date(2026, 11, 25)).findings) == []
    return output


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_):
        """Nothing to say."""


@pytest.fixture(scope="session")
def address(site):
    """The site in a subfolder of a loopback server."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(site.parents[1]))) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}/some%20shop/site"
        server.shutdown()
        thread.join()


class Opener:
    """Opens pages in windows of their own; keeps what each asked for and what went wrong with it."""

    def __init__(self, browser):
        self.browser, self.contexts, self.asked, self.wrong = browser, [], [], []

    def __call__(self, address, width=1280, scheme="light"):
        context = self.browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme)
        self.contexts.append(context)
        page = context.new_page()
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("console", lambda message: self.wrong.append(message.text))
        page.on("pageerror", lambda error: self.wrong.append(str(error)))
        page.on("requestfailed", lambda request: self.wrong.append(f"{request.url}: {request.failure}"))
        page.on("response", lambda answer: self.wrong.extend([answer.url] if answer.status >= 400 else []))
        page.goto(address)
        return page


@pytest.fixture
def opened(browser):
    opener = Opener(browser)
    yield opener
    for context in opener.contexts:
        context.close()
