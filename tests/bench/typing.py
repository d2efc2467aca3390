"""What somebody waits for who types: from a key to the lens board that answers it, and to the list that is ranked anew.

    python -m tests.bench.typing --frames 2000

Chromium, slowed down four times (CDP, Emulation.setCPUThrottlingRate), on the synthetic shop of the bench of builds: 60
packages, with the first rows of the board in sight.  Told are milliseconds of wall clock: from a key to the end of the
script that fills the rows in sight, to the picture of them on the screen (Event Timing, W3C: in steps of 8; one below
16 counts as 16), until it is told how many fit, and until the last row is filled.  The longest task is that of the page
from one key to the next, what comes in its pauses included (Long Tasks API, W3C: from 50 ms on; 0 stands for less).
For the list: until all frames are ranked.  Other work on this machine counts, too: so the least and the median of many
keys, beside the worst.
"""

import argparse
import os
import tempfile
import threading
from contextlib import contextmanager
from functools import partial
from http.server import ThreadingHTTPServer
from itertools import chain
from pathlib import Path
from statistics import median

from playwright.sync_api import sync_playwright

from quoting.findings import errors
from quoting.site.build import build
from tests.bench.build import DAY, make_shop
from tests.web.conftest import CHROMIUM, SWITCHES, Quiet

SLOWER = 4
KEYS = 24
RX = "#od=-3.25,-0.75,20&os=-2.5,-1.25,165&pd=31,32"
# Before anything of the page runs: every long task, and each key with the time to its picture
WATCH = """
globalThis.tasks = [];
globalThis.keys = [];
globalThis.shown = new Map();
new PerformanceObserver((list) => tasks.push(...list.getEntries())).observe({ type: "longtask", buffered: true });
new PerformanceObserver((list) => {
  for (const one of list.getEntriesByName("keydown")) shown.set(one.startTime, one.duration);
}).observe({ type: "event", durationThreshold: 16, buffered: true });
addEventListener("keydown", (event) => keys.push({ start: event.timeStamp, filled: [], told: [] }), true);
"""
# When what says something of a lens was filled, and when the count was told, for the last key
FILLED = """() => {
  const told = (name) => () => keys.at(-1)?.[name].push(performance.now() - keys.at(-1).start);
  const cells = new MutationObserver((found) => {
    if (found.some(({ target }) => /is-(price|edge|center|weight)/.test(target.className))) told("filled")();
  });
  cells.observe(document.getElementById("live-table"), { childList: true, subtree: true });
  new MutationObserver(told("told")).observe(document.getElementById("live-status"), { childList: true });
  document.getElementById("rx-right-sphere").focus();
  document.getElementById("rx-right-sphere").scrollIntoView();
}"""
# One row a key: rows in sight filled, shown, told, all rows filled
TAKEN = """() => keys.map(({ start, filled, told }) =>
  [filled[0] ?? 0, shown.get(start) ?? 16, told[0] ?? 0, filled.at(-1) ?? 0])"""
LONGEST = """(from) => new Promise((done) => setTimeout(() => done(
  Math.max(0, ...tasks.filter((one) => one.startTime + one.duration > from).map((one) => one.duration))), 50))"""


@contextmanager
def served(folder):
    """The address of a folder on this machine alone."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder))) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_address[1]}"
        finally:
            server.shutdown()
            thread.join()


@contextmanager
def slow_page(browser, address):
    """A page that is slowed down before it loads."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    context.add_init_script(WATCH)
    page = context.new_page()
    page.goto(f"{address}/404.html")
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    try:
        yield page
    finally:
        context.close()


def board_rows(browser, address, pause):
    """Rows of the table: keys on the page of a frame, with so many milliseconds between two of them."""
    with slow_page(browser, address) as page:
        page.goto(f"{address}/frames/frame-0/index.html{RX}")
        page.wait_for_timeout(3000)
        loaded = page.evaluate(LONGEST, 0)
        page.evaluate(FILLED)
        page.wait_for_timeout(1500)
        longest = []
        for n in range(KEYS):
            before = page.evaluate("performance.now()")
            page.keyboard.press("ArrowUp" if n // 6 % 2 else "ArrowDown")
            page.wait_for_timeout(pause)
            longest.append(page.evaluate(LONGEST, before))
        page.wait_for_timeout(1500)
        taken = page.evaluate(TAKEN)
        what = f"board, {pause} ms between keys"
        yield f"{what}: longest task of loading", [loaded]
        for i, name in enumerate(("rows in sight filled", "shown", "told how many fit", "all rows")):
            yield f"{what}: {name}", [one[i] for one in taken]
        yield f"{what}: longest task", longest


def list_rows(browser, address, frames):
    """Rows of the table: keys on the list of all frames."""
    with slow_page(browser, address) as page:
        page.goto(f"{address}/frames/index.html{RX}")
        done = "() => !document.getElementById('ranking').classList.contains('reckoning')"
        page.wait_for_function(done, timeout=120_000)
        page.wait_for_timeout(1000)
        yield f"list of {frames:,}: longest task of loading", [page.evaluate(LONGEST, 0)]
        whole, longest = [], []
        for n in range(6):
            before = page.evaluate("performance.now()")
            page.locator("#rx-right-sphere").press("ArrowUp" if n % 2 else "ArrowDown")
            page.wait_for_function(done, timeout=120_000, polling=20)
            whole.append(page.evaluate("performance.now()") - before)
            page.wait_for_timeout(500)
            longest.append(page.evaluate(LONGEST, before))
        yield f"list of {frames:,}: key to all ranked", whole
        yield f"list of {frames:,}: longest task", longest


def main():
    """Print the table."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--frames", type=int, default=2000)
    options.add_argument("--site", type=Path, help="a site of that shop that was built before")
    given = options.parse_args()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        site = given.site or folder / "site"
        if not site.is_dir():
            os.environ["XDG_CACHE_HOME"] = str(folder / "cache")
            make_shop(folder / "shop", given.frames)
            assert errors(build(folder / "shop", site, DAY).findings) == []
        with served(site) as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=CHROMIUM, args=SWITCHES)
            print(f"{f'Chromium, {SLOWER} x slower, ms':60} {'least':>8} {'median':>8} {'worst':>8}")
            parts = [board_rows(browser, address, pause) for pause in (1500, 120)]
            for name, taken in chain(*parts, list_rows(browser, address, given.frames)):
                print(f"{name:60} {min(taken):8.1f} {median(taken):8.1f} {max(taken):8.1f}", flush=True)
            browser.close()


if __name__ == "__main__":
    main()
