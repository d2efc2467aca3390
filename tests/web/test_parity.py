"""The kernel in Chromium, as a page loads it, agrees with CPython on every bit of every answer."""

import threading
from functools import partial
from http.server import ThreadingHTTPServer

import pytest

from tests.kernel.parity import gate, record, sides, spelling
from tests.web.conftest import Quiet

pytestmark = pytest.mark.browser

POLICY = "default-src 'none'; script-src 'self'; connect-src 'self'; img-src data:"
PAGE = f"""<!doctype html>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{POLICY}">
<link rel="icon" href="data:,">
<title>Both sides</title>
<script src="kernel.js"></script>
<script src="page.js"></script>
"""
# With no server and no fetch: what the page answers to one job stands in its title
ALONE = """
document.title = JSON.stringify(bevelKernel.quote.answer(JSON.parse(job)));
"""


@pytest.fixture(scope="module")
def folder():
    place = gate.recorded()
    record.write(place / "index.html", PAGE)
    record.write(place / "page.js", sides.PAGE)
    return place


@pytest.fixture(scope="module")
def address(folder):
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder))) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}/index.html"
        server.shutdown()
        thread.join()


def test_chromium_and_cpython_agree_on_every_bit(folder, address, opened):
    page = opened(address)
    for number in record.CHUNKS:
        answers = page.evaluate("address => answered(address)", f"{number}.calls.json")
        record.write(folder / f"{number}.chromium.json", answers)
    found = gate.compared(folder, "chromium", record.CHUNKS)
    assert found.different == [], f"{len(found.different)} differ, such as\n" + "\n".join(found.different[:5])
    assert found.jobs >= 20_000
    assert found.tints >= 2_000
    assert found.raised > 100
    assert opened.wrong == []


def test_the_kernel_answers_in_a_page_opened_from_disk_that_allows_its_own_scripts_only(folder, tmp_path, opened):
    """No server, no module, no eval: `script-src 'self'` of a page under file://."""
    call = spelling.read((folder / "1.calls.json").read_text(encoding="utf-8"))[0]
    ours = spelling.read((folder / "1.python.json").read_text(encoding="utf-8"))[0]["value"]
    record.write(tmp_path / "index.html", PAGE)
    record.write(tmp_path / "kernel.js", (folder / "kernel.js").read_text(encoding="utf-8"))
    record.write(tmp_path / "page.js", f"const job = {spelling.write(spelling.write(call[2][0]))};{ALONE}")
    page = opened((tmp_path / "index.html").as_uri())
    assert spelling.same(ours, spelling.read(page.title()))
    assert opened.wrong == []
