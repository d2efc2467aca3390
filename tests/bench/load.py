"""How long a large shop takes to load and check, beside what yaml's own quickest load takes for the same files.

    python -m tests.bench.load [FRAMES [PACKAGES]]

10,000 frames and 500 packages where nothing is named, drawn with a seed.  All sides read the same files in one run,
turn about, and the best of three counts.  The plain load only parses; ours also decides types, keeps places and checks
each field, and is therefore shown a second time for reading alone.  What `check` says of the shop as a whole comes on
top.
"""

import random
import shutil
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

import yaml

from quoting.catalog.load import collecting_nothing, load
from quoting.catalog.sense import sense
from quoting.nodes import read
from quoting.offers import Offers
from quoting.sense import MOST_ASKED, alone

WHOLE = Path(__file__).parent.parent / "errors" / "whole"
PER_FILE = 100
ROUNDS = 3
SEED = 20261125
DAY = date(2026, 10, 1)
FRAME = """  - id: frame-{n}
    name: Frame {n}
    family: {family}
    mounting: full-rim-plastic
    material: acetate
    curve: 4.0
    wrap: 5
    tilt: 8
    about: A frame among {n} others, made to be read quickly.
    sizes:
      - {{a: {a}, b: {b}, dbl: 19, ed: {ed}, temple: 140, weight: 22.0}}
      - {{a: {a2}, b: {b2}, dbl: 20, ed: {ed2}, temple: 145, weight: 23.5}}
    colorways:
      - {{id: ash, name: Ash, version: optical, price: 129.00, front: "#444a52", temples: "#444a52", stock: sold-out}}
      - {{id: moss, name: Moss, version: optical, price: 129.00, front: "#4f5d3a", temples: "#2c3320", stock: to-order}}
      - {{id: dusk, name: Dusk, version: sun-only, price: 149, front: "#3b2a1e", temples: "#2b1c12", stock: in-stock}}
"""
FAMILIES = ("round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid")


PACKAGE = """  - id: package-{n}
    name: Package {n}
    design: {design}
    material: r150
    light: clear
    coating: hard coat and anti-reflective
    prism: 3.0
    about: A package among others, made to be read quickly.
    ranges:
      - {{from: {low:.2f}, to: +{high:.2f}, cylinder: 4.00, diameter: {blank}{add}}}
    prices:
      - {{from: {low:.2f}, to: -2.25, lens: {strong}.00}}
      - {{from: -2.00, to: +{high:.2f}, lens: {weak}.00}}
"""


def frame(n, draw):
    """One frame; boxes vary as those of a real shop do."""
    a, b = draw.randrange(88, 112) / 2, draw.randrange(68, 86) / 2
    sizes = {"a": a, "b": b, "ed": a + 5, "a2": a + 2, "b2": b + 1, "ed2": a + 7}
    return FRAME.format(n=n, family=draw.choice(FAMILIES), **sizes)


def package(n, draw):
    """One package made to order."""
    design = draw.choice(("sv", "prog"))
    weak = draw.randrange(40, 90)
    return PACKAGE.format(
        n=n,
        design=design,
        low=-draw.randrange(12, 40) / 4,
        high=draw.randrange(8, 24) / 4,
        blank=draw.randrange(70, 81),
        add=", add: {from: 0.75, to: 3.50}" if design == "prog" else "",
        weak=weak,
        strong=weak + draw.randrange(0, 30),
    )


def make_shop(folder, frames, packages):
    """The whole shop of the error gallery, with so many frames and packages."""
    shutil.copytree(WHOLE, folder)
    draw = random.Random(SEED)
    for kind, name, one, count in (("frames", "frames", frame, frames), ("lenses", "packages", package, packages)):
        for first in range(0, count, PER_FILE):
            rows = "".join(one(n, draw) for n in range(first, min(first + PER_FILE, count)))
            path = folder / kind / f"file-{first:06}.yaml"
            path.write_text(f"maker: Fellmark\n{name}:\n{rows}", encoding="utf-8")


def seconds(work):
    """How long one round takes, and what it gives."""
    before = time.perf_counter()
    result = work()
    return time.perf_counter() - before, result


def plain_load(paths):
    """The plain load under the same conditions as ours, which lets the collector of circles rest."""
    with collecting_nothing():
        return [yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader) for path in paths]


def nodes(paths):
    """The files as nodes with places, nothing decided."""
    with collecting_nothing():
        return [read(path) for path in paths]


def main():
    """Print both sides."""
    count, packages = (*map(int, sys.argv[1:]), *(10_000, 500)[len(sys.argv) - 1 :])
    if not hasattr(yaml, "CSafeLoader"):
        sys.exit("this PyYAML was built without libyaml: there is nothing to compare with")
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        make_shop(folder, count, packages)
        paths = sorted(folder.rglob("*.yaml"))
        sides = {
            "yaml.load with CSafeLoader": lambda: [
                yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader) for path in paths
            ],
            "the same, collector resting": lambda: plain_load(paths),
            "reading alone, as nodes": lambda: nodes(paths),
            "load: types, places, checks": lambda: load(folder, DAY),
        }
        best = dict.fromkeys(sides, float("inf"))
        first = {}
        for _ in range(ROUNDS):
            for name, work in sides.items():
                taken, result = seconds(work)
                best[name] = min(best[name], taken)
                first.setdefault(name, taken)
        catalog, findings = result
        assert catalog is not None, findings[0]
        kilobytes = sum(path.stat().st_size for path in paths) / 1000
        print(
            f"{len(catalog.frames):,} frames, {len(catalog.packages)} packages in {len(paths)} files, "
            f"{kilobytes:,.0f} kB, best of {ROUNDS} (first)"
        )
        plain = best["the same, collector resting"]
        for name, taken in best.items():
            print(f"{name:30} {taken:6.2f} s  ({first[name]:.2f} s)  {taken / plain:.2f} x")
        whole_shop(catalog)


def whole_shop(catalog):
    """What `check` says beyond single files: without the engine and with it."""
    taken, found = seconds(lambda: sense(catalog, DAY))
    print(f"{'the shop as a whole':30} {taken:6.2f} s  {len(found)} findings")
    taken, found = seconds(lambda: alone(Offers(catalog, DAY)))
    print(
        f"{'with the engine':30} {taken:6.2f} s  asked {MOST_ASKED:,} times at most: {[one.message for one in found]}"
    )


if __name__ == "__main__":
    main()
