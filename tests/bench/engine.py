"""What the engine costs: a cell of a lens board at build, and a whole board of one customer in CPython and in a page.

    python -m tests.bench.engine

One run prints one table.  Python's numbers are processor time; a page's and node's are the clock's, so let nothing else
run meanwhile.  A page's first board counts as much as its later ones: a visitor meets the engine cold.  Means and not
bests, since Chromium slows down by pausing, and a short round may slip through between two pauses.
"""

import gzip
import json
import random
import shutil
import subprocess
import sys
import tempfile
import time
from datetime import date
from itertools import product
from pathlib import Path
from statistics import mean

from playwright.sync_api import sync_playwright

from quoting.band import band_prescription
from quoting.catalog.load import load
from quoting.kernel.quote import answer
from quoting.offers import Ask, Choice, Offers
from quoting.places import shared
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.site.engine import engine_script
from tests.kernel.parity import sides
from tests.web.conftest import CHROMIUM, SWITCHES

DAY = date(2026, 11, 25)
PACKAGES = 60
ROUNDS = 20
SLOWER = 4
# Two eyes that ask for two lenses, a cylinder and an add
ASK = Ask(Prescription(EyeRx(-3.25, -0.75, 20, 1.5), EyeRx(-2.5, -1.25, 165, 1.5), Distances(right=31.0, left=32.0)))
# What the pages work at in their pauses before anybody asks, twice over: see warmUp in theme/static/js/offer.js
WARM = Ask(Prescription(EyeRx(-3.25, -0.75, 20, 1.5), EyeRx(2.5, -1.25, 165, 1.5), Distances(right=31.0, left=32.0)))

# Milliseconds of each round, as a script in node and in a page
ROUNDS_TAKEN = f"""
const rounds = (jobs) => Array.from({{ length: {ROUNDS} }}, () => {{
  const before = performance.now();
  for (const job of jobs) bevelKernel.quote.answer_among(job, []);
  return performance.now() - before;
}});
"""
NODE = "require('node:vm').runInThisContext(require('node:fs').readFileSync('kernel.js', 'utf8'));"
PAGE = """<!doctype html>
<meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'">
<title>Bench</title><script src="before.js"></script><script src="kernel.js"></script><script src="after.js"></script>
"""


def choices(catalog):
    """Every frame in every size and its first colorway, with every package."""
    return [
        Choice(frame, size, frame.colorways[0], package)
        for frame in catalog.frames.values()
        for size, package in product(frame.sizes, catalog.packages.values())
    ]


def cells(catalog):
    """Rows of the table: microseconds a cell, without and with what is remembered."""
    every = list(product(choices(catalog), catalog.shop.bands))
    engine = Offers(catalog, DAY)
    sample = random.Random(0).sample(every, min(len(every), 1500))
    for choice, _ in sample:
        engine.offer(choice, ASK)  # outlines belong to boxes and are made once, whoever asks
    before = time.process_time()
    for choice, band in sample:
        engine._fits.clear()
        engine.offer(choice, Ask(band_prescription(choice.package, band.strongest)))
    alone = (time.process_time() - before) / len(sample)
    yield f"a cell, nothing remembered ({len(sample):,} of them)", alone * 1e6, "µs"
    engine = Offers(catalog, DAY)
    for name in ("first time, each once", "remembered"):
        before = time.process_time()
        for choice, band in every:
            engine.cell(choice, band)
        yield f"a cell, {name} ({len(every):,} cells)", (time.process_time() - before) / len(every) * 1e6, "µs"


def jobs(catalog, ask=ASK):
    """One customer's jobs for a board of sixty packages."""
    engine, frame = Offers(catalog, DAY), next(iter(catalog.frames.values()))
    packages = list(catalog.packages.values())
    some = (packages * (PACKAGES // len(packages) + 1))[:PACKAGES]
    return [engine.job(Choice(frame, frame.sizes[0], frame.colorways[0], one), ask)[0] for one in some]


def in_python(asked):
    """Milliseconds of each round here."""
    taken = []
    for _ in range(ROUNDS):
        before = time.process_time()
        for job in asked:
            answer(job)
        taken.append((time.process_time() - before) * 1000)
    return taken


def in_node(folder):
    """The same in node."""
    program = shutil.which("node")
    if program is None:
        sys.exit("node is not installed")
    text = f"{NODE}{ROUNDS_TAKEN}const jobs = JSON.parse(require('node:fs').readFileSync('jobs.json', 'utf8'));"
    command = [program, "-e", f"{text}console.log(JSON.stringify(rounds(jobs)));"]
    return json.loads(subprocess.run(command, cwd=folder, capture_output=True, text=True, check=True).stdout)


def in_chromium(browser, folder, slower, warm=False):
    """In a page opened from disk: milliseconds to ready, and those of each round; ``warm``: after other jobs."""
    page = browser.new_page()
    page.goto((folder / "blank.html").as_uri())  # the page to come stays in this process, which is then slowed down
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
    page.goto((folder / "index.html").as_uri())
    ready = page.evaluate("ready")
    if warm:
        page.evaluate(
            "text => { const jobs = JSON.parse(text); for (const job of [...jobs, ...jobs]) "
            "bevelKernel.quote.answer_among(job, []); }",
            (folder / "warm.json").read_text(encoding="utf-8"),
        )
    taken = page.evaluate("text => rounds(JSON.parse(text))", (folder / "jobs.json").read_text(encoding="utf-8"))
    page.close()
    return ready, taken


def boards(taken, where):
    """Rows of the table."""
    yield f"{PACKAGES} packages x 2 eyes, {where}, first", taken[0], "ms"
    yield f"{PACKAGES} packages x 2 eyes, {where}, mean of the later {ROUNDS - 1}", mean(taken[1:]), "ms"


def pages(folder):
    """Rows of the table: Chromium at full speed and slowed down."""
    if CHROMIUM is None:
        sys.exit("no Chromium found")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=SWITCHES)
        for slower in (1, SLOWER):
            where = f"Chromium {slower} x slower" if slower > 1 else "Chromium"
            ready, taken = in_chromium(browser, folder, slower)
            yield f"ready, {where}: script read and run", ready, "ms"
            yield from boards(taken, where)
            first = in_chromium(browser, folder, slower, warm=True)[1][0]
            yield f"{PACKAGES} packages x 2 eyes, {where}, first after warming", first, "ms"
        browser.close()


def rows(folder):
    """The whole table."""
    catalog, findings = load(shared("demo_catalog"))
    assert catalog is not None, findings[0]
    yield from cells(catalog)
    asked, script = jobs(catalog), engine_script()
    for name, text in (
        ("kernel.js", script),
        ("jobs.json", json.dumps(asked)),
        ("warm.json", json.dumps(jobs(catalog, WARM))),
        ("index.html", PAGE),
        ("blank.html", "<!doctype html><title>Nothing</title>"),
        ("before.js", "const before = performance.now();"),
        ("after.js", f"const ready = performance.now() - before;{ROUNDS_TAKEN}"),
    ):
        (folder / name).write_text(text, encoding="utf-8")
    yield from boards(in_python(asked), "CPython")
    yield from boards(in_node(folder), "node")
    yield from pages(folder)
    for name, text in (("the script of the pages", script), ("all of the kernel as a script", sides.script())):
        yield name, len(text.encode()) / 1000, "kB"
        yield f"{name}, gzip", len(gzip.compress(text.encode(), 9, mtime=0)) / 1000, "kB"


def main():
    """Print the table."""
    with tempfile.TemporaryDirectory() as place:
        for name, value, unit in rows(Path(place)):
            print(f"{name:58} {value:9.2f} {unit}", flush=True)


if __name__ == "__main__":
    main()
