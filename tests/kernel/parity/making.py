"""Seeded jobs, made without any library whose choices could change: a chunk of so many, the same on every machine.

Most are what a shop meets: a frame, a package whose range holds the prescription, pupils near the middle of the lens.
The others draw every number from the whole range of what may be typed.
"""

import math
import random
from functools import lru_cache

from tests.kernel import jobs
from tests.kernel.parity.buying import MOUNTINGS, filters, money, options

FAMILIES = jobs.FAMILIES
KINDS = ("single-vision", "anti-fatigue", "progressive", "bifocal")
CONICS = (-2.0, -1.0, -0.5, 0.0, 0.0, 0.0, 0.5)
# index and density of the usual materials, g/cm³ (practice)
MATERIALS = ((1.498, 1.32), (1.53, 1.11), (1.59, 1.2), (1.6, 1.3), (1.67, 1.36), (1.74, 1.47), (1.9, 3.0))


def steps(seeded, low, high, each):
    """A decimal number on a step, as people write them."""
    return round(seeded.randint(round(low / each), round(high / each)) * each, 4)


@lru_cache(maxsize=1)
def boxes():
    """Three outlines of each family that is estimated from its box: they are costly, so jobs share them."""
    seeded = random.Random("boxes")
    made = []
    for family in FAMILIES * 3:
        a = float(seeded.randint(44, 60))
        b = float(seeded.randint(28, 44))
        low, high = jobs.outline.effective_diameter_limits(a, b, family)
        made.append((a, b, round(low + (high - low) * seeded.uniform(0.15, 0.7), 1), family))
    return made


def traced(seeded, easy):
    """A box and a trace of it, smooth and a little uneven; the wild ones have from three radii on."""
    a = steps(seeded, 44, 58, 0.5) if easy else steps(seeded, 28, 72, 0.1)
    b = steps(seeded, 30, 44, 0.5) if easy else steps(seeded, 18, 60, 0.1)
    count = seeded.choice((24, 36, 48)) if easy else seeded.choice((3, 4, 8, 20, 36, 60))
    lean, turn = seeded.uniform(0, 0.08), seeded.uniform(0, 6.28)
    xs, ys = [], []
    for i in range(count):
        angle = 2 * math.pi * i / count
        grow = 1 + lean * math.cos(3 * angle + turn)
        xs.append(grow * math.cos(angle))
        ys.append(grow * math.sin(angle))
    xs, ys = boxed(xs, a), boxed(ys, b)
    ed = round(2 * max(math.hypot(x, y) for x, y in zip(xs, ys, strict=True)), 1)
    return {"a": a, "b": b, "ed": ed, "xs": xs, "ys": ys, "traced": True}


def boxed(values, size):
    """One coordinate of an outline, stretched and moved so that its box is so large and about 0."""
    low, high = min(values), max(values)
    return [round((value - (low + high) / 2) / (high - low) * size, 2) for value in values]


def frame(seeded, easy):
    """One frame; its curve, wrap and mounting are drawn apart."""
    if seeded.random() < 0.1:
        a, b, ed, family = seeded.choice(boxes())
        made = jobs.frame(a, b, ed=ed, family=family)
    else:
        made = jobs.frame() | traced(seeded, easy)
    wide = {
        "dbl": steps(seeded, 15, 21, 1) if easy else steps(seeded, 8, 30, 0.5),
        "mounting": seeded.choice(MOUNTINGS),
        "min_edge": steps(seeded, 0.8, 1.5, 0.1) if easy else steps(seeded, 0.1, 3, 0.01),
        "edge_caution": steps(seeded, 5, 9, 0.5) if easy else steps(seeded, 1, 9, 0.01),
        "edge_no": steps(seeded, 9, 14, 0.5) if easy else steps(seeded, 1, 14, 0.01),
        "curve": steps(seeded, 3.5, 6, 0.5) if easy else steps(seeded, 0, 10, 0.25),
        "wrap": steps(seeded, 0, 9, 1) if easy else steps(seeded, 0, 30, 0.5),
        "tilt": steps(seeded, 2, 13, 1) if easy else steps(seeded, -5, 22, 0.5),
        "weight": steps(seeded, 8, 40, 0.5),
    }
    if seeded.random() < 0.08:
        wide |= {"curve": steps(seeded, 7.5, 8.5, 0.5), "wrap": steps(seeded, 15, 25, 1)}
    return made | wide


def part(seeded, easy):
    """One range of a package."""
    add_from = steps(seeded, 0.5, 1, 0.25)
    near = {"near": True, "near_from": steps(seeded, -9, 0, 0.25), "near_to": steps(seeded, 1, 9, 0.25)}
    made = jobs.part(
        steps(seeded, -10, -6, 0.25) if easy else steps(seeded, -14, 1, 0.25),
        steps(seeded, 4, 8, 0.25) if easy else steps(seeded, -1, 10, 0.25),
        steps(seeded, 2, 6, 0.25) if easy else steps(seeded, 0, 6, 0.25),
        add_from,
        add_from + (2.5 if easy else steps(seeded, 0, 2.5, 0.25)),
        float(seeded.choice((75, 80, 85))) if easy else steps(seeded, 45, 85, 5),
    )
    return made | near if seeded.random() < 0.1 else made


def charts(seeded, finished):
    """Base curve and center thickness charts; a finished lens's center has holes in it."""
    curves = [{"low": low, "high": low + 1.75, "value": 6 + low / 2} for low in (-8.0, -6.0, -4.0, -2.0, 0.0, 2.0)]
    centers = [{"low": -12.0, "high": -2.25, "value": steps(seeded, 1, 2.2, 0.1)}]
    centers += [{"low": -2.0, "high": 0.0, "value": steps(seeded, 1.5, 2.5, 0.1)}]
    centers += [{"low": 0.25, "high": 6.0, "value": steps(seeded, 3, 7, 0.1)}]
    return (curves if seeded.random() < 0.3 else []), (centers if finished else [])


def package(seeded, easy):
    """A package of any kind, finished or surfaced, in any material."""
    kind, finished = seeded.choice(KINDS), seeded.random() < 0.25
    index, density = seeded.choice(MATERIALS)
    curves, centers = charts(seeded, finished)
    tall = easy or kind in ("single-vision", "anti-fatigue")
    top = 8.0 if easy else seeded.choice((4.0, 5.0, 8.0))
    return jobs.package(
        kind=kind,
        index=index,
        density=density,
        drillable=easy or seeded.random() < 0.5,
        impact_resistant=easy or seeded.random() < 0.5,
        finished=finished,
        min_height=steps(seeded, 0, 16, 1) if tall else steps(seeded, 10, 24, 1),
        min_above=steps(seeded, 0, 8, 1) if tall else steps(seeded, 5, 14, 1),
        boost=seeded.choice((0.0, 0.5, 0.75)),
        conic=seeded.choice(CONICS),
        base_from=seeded.choice((0.5, 1.0, 2.0)),
        base_to=top,
        position_of_wear=seeded.random() < 0.4,
        wrap=seeded.random() < (0.5 if easy else 0.2),
        ranges=[part(seeded, easy) for _ in range(seeded.choice((1, 1, 2, 3)))],
        curves=curves,
        centers=centers,
        min_center=steps(seeded, 1, 2, 0.1),
        prism=seeded.choice((0.0, 2.0, 4.0, 6.0)) if not easy else 6.0,
        prices=prices(seeded, easy),
        **filters(seeded),
    )


def prices(seeded, easy):
    """Price bands; the wild ones leave holes."""
    bands = [{"low": -14.0, "high": -6.25, "cents": seeded.randint(4000, 40000)}]
    bands += [{"low": -6.0, "high": 4.0, "cents": seeded.randint(2500, 30000)}]
    bands += [{"low": 4.25, "high": 10.0, "cents": seeded.randint(4000, 40000)}] if easy else []
    return bands


def eye(seeded, easy, pack):
    """One eye in either notation; the easy ones mostly inside the package's first range."""
    low, high = pack["ranges"][0]["low"], pack["ranges"][0]["high"]
    prism = seeded.random() < 0.1
    near = pack["kind"] in ("progressive", "bifocal") if easy else seeded.random() < 0.5
    add = steps(seeded, 1, 2.5, 0.25) if near else 0.0
    if easy:
        sphere = seeded.choice((steps(seeded, -6, 3, 0.25), steps(seeded, low, high, 0.25)))
        cylinder = seeded.choice((0.0, -0.25, -0.75, -1.25, 0.5, 1.0))
        tenths = 0.5
    else:
        sphere, cylinder = steps(seeded, -16, 14, 0.01), steps(seeded, -6, 6, 0.01)
        if seeded.random() < 0.5:
            sphere, cylinder = steps(seeded, low, max(low, high), 0.01), steps(seeded, -2, 2, 0.01)
        add = seeded.choice((0.0, 0.5, add, 3.5, 4.5))
        tenths = 0.01
    in_, up = (steps(seeded, -3, 3, tenths), steps(seeded, -3, 3, tenths)) if prism else (0.0, 0.0)
    return jobs.eye(sphere, cylinder, float(seeded.randint(1, 180)), add, in_, up)


def job(seeded):
    """One whole job."""
    easy = seeded.random() < 0.8
    glasses, pack = frame(seeded, easy), package(seeded, easy)
    right = eye(seeded, easy, pack)
    left = dict(right) if seeded.random() < 0.15 else eye(seeded, easy, pack)
    seen = seeded.random()
    pd = (glasses["a"] + glasses["dbl"]) / 2 - steps(seeded, -1, 4, 0.5) if easy else steps(seeded, 20, 40, 0.1)
    height = glasses["b"] / 2 + steps(seeded, 1, 6, 0.5) if easy else steps(seeded, 2, glasses["b"] + 1, 0.1)
    apart = seeded.random() < 0.7
    return jobs.job(
        frame=glasses,
        package=pack,
        limits=jobs.limits(
            edging_allowance=2.0 if easy else steps(seeded, 0, 3, 0.01),
            curve_difference=3.0 if easy else steps(seeded, 0.5, 4, 0.01),
            wrap_angle=15.0 if easy else steps(seeded, 8, 20, 0.5),
        ),
        right=right,
        left=left,
        has_right=seen > 0.1,
        has_left=seen < 0.9,
        measures=jobs.measures(
            pd_right=pd,
            pd_left=pd + (0.5 if apart else 0.0),
            height_right=height,
            height_left=height - (0.5 if apart else 0.0),
            child=seeded.random() < 0.15,
            vertex=seeded.choice((11.0, 13.0, 14.5)),
        ),
        money=money(seeded),
        options=options(seeded),
    )


def chunk(number, count):
    """A chunk of jobs, each by its own number."""
    return [job(random.Random(f"job {number} {n}")) for n in range(count)]
