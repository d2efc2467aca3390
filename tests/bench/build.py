"""What a build costs, beside a bare Jinja2 loop that writes pages of the same bytes.

    python -m tests.bench.build --frames 2000

A synthetic shop (seeded; 60 packages, 5 bands, one size a frame) is built each time by a process of its own: with
nothing remembered, by one process and by as many as pay; after nothing has changed; and after one price of one package
has.  Printed in processor time: reading the files, the engine, the rest of the boards, joining pages, all else (files,
links, scripts), what other processes took; the whole also by the clock; ms a page; and the most memory that the first
process and any other one held.  Then a loop that renders one template with the bytes of each page already made, and
writes them: the least that any generator does.
"""

import argparse
import json
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from datetime import date
from pathlib import Path

from jinja2 import Environment, Template

from quoting.findings import errors
from quoting.ground import Ground
from quoting.site import build as building
from quoting.site.ahead import cores
from quoting.site.rows import Rows
from tests.bench.load import FAMILIES

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DAY = date(2026, 2, 1)
BANDS = [(-8.0, -6.25), (-6.0, -4.25), (-4.0, -2.25), (-2.0, 2.0), (2.25, 4.0)]
MATERIALS = [(1.498, 1.32, 2.0), (1.555, 1.28, 1.8), (1.586, 1.2, 1.5), (1.597, 1.3, 1.3), (1.66, 1.36, 1.2)]
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
    """Processor time by part, measured by wrapping what does each; a part within another is not counted twice."""

    def __init__(self):
        self.spent = defaultdict(float)
        self._within = [0.0]

    def wrap(self, holder, name, part):
        """Count the time of a function."""
        work = getattr(holder, name)

        def timed(*args, **more):
            before = time.process_time()
            self._within.append(0.0)
            try:
                return work(*args, **more)
            finally:
                whole = time.process_time() - before
                self.spent[part] += whole - self._within.pop()
                self._within[-1] += whole

        setattr(holder, name, timed)


PARTS = ("load", "engine", "boards", "pages", "all else", "other processes")


def one_build(shop, output, jobs):
    """One build in this process, as plain numbers."""
    clock = Clock()
    clock.wrap(building, "load", "load")
    clock.wrap(Ground, "fit", "engine")
    clock.wrap(Rows, "board", "boards")
    clock.wrap(Template, "render", "pages")
    before, began = time.process_time(), time.monotonic()
    result = building.build(shop, output, DAY, end=building.End(jobs=jobs))
    whole = time.process_time() - before
    assert errors(result.findings) == [], result.findings[:3]
    return clock.spent | {
        "all else": whole - sum(clock.spent.values()),
        "other processes": sum(os.times()[2:4]),
        "clock": time.monotonic() - began,
        "pages made": result.pages,
        "memory": held(resource.RUSAGE_SELF),
        "memory of another": held(resource.RUSAGE_CHILDREN),
    }


def held(who):
    """The most memory that this process, or any that it has started, has held, MB."""
    return resource.getrusage(who).ru_maxrss / 1000


def bare_loop(site, folder):
    """The same numbers for a loop that renders and writes the same bytes with one template that holds nothing else."""
    template = Environment(autoescape=False).from_string("{{ page }}")  # bytes that are a page already
    spent, began, count = 0.0, time.monotonic(), 0
    for path in site.rglob("*.html"):
        page = path.read_text(encoding="utf-8")
        before = time.process_time()
        place = folder / path.relative_to(site)
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(template.render(page=page), encoding="utf-8")
        spent += time.process_time() - before
        count += 1
    return {
        "all else": spent,
        "clock": time.monotonic() - began,
        "pages made": count,
        "memory": held(resource.RUSAGE_SELF),
    }


def alone(what, *words):
    """What a process of its own measures."""
    command = [sys.executable, "-m", "tests.bench.build", what, *map(str, words)]
    return json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)


def tell(name, found):
    """One block of the table."""
    pages, whole = found["pages made"], sum(found.get(part, 0.0) for part in PARTS)
    print(f"{name}: {pages} pages")
    for part in PARTS:
        if found.get(part):
            print(f"  {part:20} {found[part]:8.2f} s   {found[part] / pages * 1000:6.2f} ms a page")
    clock = f"{found['clock']:.2f} s by the clock"
    print(f"  {'the whole':20} {whole:8.2f} s   {whole / pages * 1000:6.2f} ms a page, {clock}")
    other = f", another {found['memory of another']:.0f} MB" if found.get("other processes") else ""
    print(f"  memory at most {found['memory']:.0f} MB{other}", flush=True)


def main():
    """Print the table."""
    options = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    options.add_argument("--frames", type=int, default=200)
    count = options.parse_args().frames
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        make_shop(folder / "shop", count)
        print(f"{count} frames, 60 packages, 5 bands; {cores()} cores, load {os.getloadavg()[0]:.1f}")
        for name, cache, jobs in (
            ("nothing remembered, one process", "one", 1),
            ("nothing remembered, as many processes as pay", "many", 0),
            ("nothing changed", "many", 0),
            ("one price of one package changed", "many", 0),
        ):
            if name.startswith("one price"):
                path = folder / "shop" / "lenses" / "benchmark.yaml"
                path.write_text(
                    path.read_text(encoding="utf-8").replace("lens: 40.00", "lens: 41.00"), encoding="utf-8"
                )
            os.environ["XDG_CACHE_HOME"] = str(folder / cache)
            tell(name, alone("--build", folder / "shop", folder / f"site of {cache}", jobs))
        tell("a bare loop, same bytes", alone("--bare", folder / "site of many", folder / "bare"))


if __name__ == "__main__":
    if sys.argv[1:2] == ["--build"]:
        print(json.dumps(one_build(Path(sys.argv[2]), Path(sys.argv[3]), int(sys.argv[4]))))
    elif sys.argv[1:2] == ["--bare"]:
        print(json.dumps(bare_loop(Path(sys.argv[2]), Path(sys.argv[3]))))
    else:
        main()
