"""How long 2,000 frames take to load, beside what yaml's own quickest load takes for the same files.

    python -m tests.bench.load [FRAMES]

Both sides read the same files in one run, turn about, and the best of five counts.  The plain load only parses;
ours also decides types, keeps places and checks each field, and is therefore shown a second time for reading alone.
"""

import shutil
import sys
import tempfile
import time
from pathlib import Path

import yaml

from quoting.catalog.load import load
from quoting.nodes import read

WHOLE = Path(__file__).parent.parent / "errors" / "whole"
PER_FILE = 100
ROUNDS = 5
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
      - {{id: dusk, name: Dusk, version: sun, price: 149.00, front: "#3b2a1e", temples: "#2b1c12", stock: in-stock}}
"""
FAMILIES = ("round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid")


def frame(n):
    """One frame; boxes vary as those of a real shop do."""
    a, b = 44 + n % 23 * 0.5, 34 + n % 17 * 0.5
    sizes = {"a": a, "b": b, "ed": a + 5, "a2": a + 2, "b2": b + 1, "ed2": a + 7}
    return FRAME.format(n=n, family=FAMILIES[n % len(FAMILIES)], **sizes)


def make_shop(folder, count):
    """The whole shop of the error gallery, with so many frames."""
    shutil.copytree(WHOLE, folder)
    for first in range(0, count, PER_FILE):
        text = "maker: Fellmark\nframes:\n" + "".join(frame(n) for n in range(first, min(first + PER_FILE, count)))
        (folder / "frames" / f"file-{first:06}.yaml").write_text(text, encoding="utf-8")


def seconds(work):
    """How long one round takes, and what it gives."""
    before = time.perf_counter()
    result = work()
    return time.perf_counter() - before, result


def main():
    """Print both sides."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    if not hasattr(yaml, "CSafeLoader"):
        sys.exit("this PyYAML was built without libyaml: there is nothing to compare with")
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "shop"
        make_shop(folder, count)
        paths = sorted(folder.rglob("*.yaml"))
        sides = {
            "yaml.load with CSafeLoader": lambda: [
                yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader) for path in paths
            ],
            "reading alone, as nodes": lambda: [read(path) for path in paths],
            "load: types, places, checks": lambda: load(folder),
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
        print(f"{len(catalog.frames):,} frames in {len(paths)} files, {kilobytes:,.0f} kB, best of {ROUNDS} (first)")
        for name, taken in best.items():
            print(f"{name:30} {taken:6.2f} s  ({first[name]:.2f} s)")


if __name__ == "__main__":
    main()
