"""What a build costs, beside a bare Jinja2 loop that writes pages of the same bytes.

    python -m tests.bench.build --frames 2000

A synthetic shop (seeded; 60 packages, 5 bands, one size a frame) is built twice: once with nothing remembered, once as
after a change of prices.  Printed: reading the files, the engine, drawing and joining pages, writing them, the whole,
ms a page and the most memory held; then a loop that renders one template with the bytes of each page already made, and
writes them: the least that any generator does.  Everything in one process and one run.
"""

import argparse
import os
import random
import resource
import shutil
import tempfile
import time
from collections import defaultdict
from datetime import date
from pathlib import Path

from jinja2 import Environment

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.kernel import quote
from quoting.site import build as building
from quoting.site.build import build
from tests.bench.load import FAMILIES

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DAY = date(2026, 2, 1)
BANDS = [(-8.0, -6.25), (-6.0, -4.25), (-4.0, -2.25), (-2.0, 2.0), (2.25, 4.0)]
MATERIALS = [(1.498, 1.32, 2.0), (1.555, 1.28, 1.8), (1.586, 1.2, 1.5), (1.597, 1.3, 1.3), (1.66, 1.36, 1.2)]
PAGES = 400
FRAME = """  - id: frame-{n}
    name: Frame {n}
    family: {family}
    mounting: {mounting}
    material: acetate
    curve: {curve}
    wrap: 5
    tilt: 8
    sizes:
      - {{a: {a}, b: {b}, dbl: 18, ed: {ed}, temple: 140, weight: 22.0}}
    colorways:
      - {{id: ash, name: Ash, version: optical, price: 129.00, front: "#444a52", temples: "#444a52", stock: in-stock}}
"""


def bands_text():
    """The five bands as YAML."""
    return "bands:\n" + "".join(f"  - {{from: {low:+.2f}, to: {high:+.2f}}}\n" for low, high in BANDS)


def packages_text():
    """Sixty packages: two designs for each of five materials in six coatings, all by order."""
    rows = ["maker: Benchmark\nmaterials:\n"]
    for n, (index, density, center) in enumerate(MATERIALS):
        rows.append(f"  - {{id: m{n}, name: Material {n}, index: {index}, abbe: 40, density: {density}, ")
        rows.append(f"min_center: {center}, impact_resistant: yes, drillable: yes, tint_depth: 80}}\n")
    rows.append("designs:\n  - {id: sv, name: One, kind: single-vision, base: {from: 0.5, to: 8.0}, about: One.}\n")
    rows.append("  - {id: prog, name: Many, kind: progressive, base: {from: 0.5, to: 8.0}, min_height: 18, ")
    rows.append("min_above: 10, about: Many.}\npackages:\n")
    for n in range(60):
        design, material, coating = ("sv", "prog")[n % 2], n // 2 % 5, n // 10
        add = ", add: {from: 0.75, to: 3.50}" if design == "prog" else ""
        rows.append(f"  - id: p{n}\n    name: Package {n}\n    design: {design}\n    material: m{material}\n")
        rows.append(f"    light: clear\n    coating: coating {coating}\n    ranges:\n")
        rows.append(
            f"      - {{from: -{8 - n % 3}.00, to: +4.00, cylinder: 4.00, diameter: 75{add}}}\n    prism: 3.0\n"
        )
        rows.append(f"    prices:\n      - {{from: -{8 - n % 3}.00, to: +4.00, lens: {40 + n}.00}}\n")
    return "".join(rows)


def make_shop(folder, count):
    """A shop with so many frames; sizes and curves vary as those of a real one do."""
    shutil.copytree(CORNER, folder)
    text = (folder / "shop.yaml").read_text(encoding="utf-8")
    start, end = text.index("bands:"), text.index("cautions:")
    (folder / "shop.yaml").write_text(text[:start] + bands_text() + text[end:], encoding="utf-8")
    for file in [*(folder / "lenses").iterdir(), *(folder / "frames").iterdir()]:
        file.unlink()
    (folder / "lenses" / "benchmark.yaml").write_text(packages_text(), encoding="utf-8")
    dice, rows = random.Random(20260201), []
    for n in range(count):
        a, b = dice.randrange(88, 116) / 2, dice.randrange(64, 88) / 2
        rows.append(
            FRAME.format(
                n=n,
                family=FAMILIES[n % len(FAMILIES)],
                mounting=dice.choice(["full-rim-plastic", "full-rim-metal"]),
                curve=dice.choice([4.0, 4.5, 5.0]),
                a=a,
                b=b,
                ed=round(max(a, b) + 4.5, 1),
            )
        )
    (folder / "frames" / "all.yaml").write_text("maker: Benchmark\nframes:\n" + "".join(rows), encoding="utf-8")


class Clock:
    """Processor time by part, measured by wrapping what does each."""

    def __init__(self):
        self.spent = defaultdict(float)
        self.calls = defaultdict(int)

    def wrap(self, name, work):
        """The same function, its time counted."""

        def timed(*args, **more):
            before = time.process_time()
            try:
                return work(*args, **more)
            finally:
                self.spent[name] += time.process_time() - before
                self.calls[name] += 1

        return timed


def one_build(shop, output):
    """Seconds by part of one build, and how many pages came."""
    clock, fit, read = Clock(), quote.fit, building.load
    quote.fit, building.load = clock.wrap("engine", fit), clock.wrap("load", read)
    before = time.process_time()
    try:
        result = build(shop, output, DAY)
    finally:
        quote.fit, building.load = fit, read
    assert errors(result.findings) == [], result.findings[:3]
    return time.process_time() - before, clock, result.pages


def memory():
    """The most memory this process has held, MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000


def bare_loop(site, folder):
    """Seconds to render and write the same bytes with one template that holds nothing but them."""
    pages = {path.relative_to(site): path.read_text(encoding="utf-8") for path in site.rglob("*.html")}
    template = Environment(autoescape=False).from_string("{{ page }}")  # bytes that are a page already
    before = time.process_time()
    for path, page in pages.items():
        place = folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(template.render(page=page), encoding="utf-8")
    return time.process_time() - before, len(pages)


def main():
    """Print the table."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--frames", type=int, default=200)
    count = options.parse_args().frames
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        os.environ["XDG_CACHE_HOME"] = str(folder / "cache")
        make_shop(folder / "shop", count)
        assert errors(load(folder / "shop", DAY)[1]) == []
        for name in ("nothing remembered", "after a change of prices"):
            whole, clock, pages = one_build(folder / "shop", folder / "site")
            rest = whole - clock.spent["engine"] - clock.spent["load"]
            print(f"{count} frames, 60 packages, 5 bands; {name}: {pages} pages")
            for part, seconds in (("load", clock.spent["load"]), ("engine", clock.spent["engine"]), ("pages", rest)):
                print(f"  {part:28} {seconds:8.2f} s")
            print(
                f"  {'the whole':28} {whole:8.2f} s   {whole / pages * 1000:6.2f} ms a page, {memory():.0f} MB at most"
            )
        seconds, pages = bare_loop(folder / "site", folder / "bare")
        print(f"  {'a bare loop, same bytes':28} {seconds:8.2f} s   {seconds / pages * 1000:6.2f} ms a page")


if __name__ == "__main__":
    main()
