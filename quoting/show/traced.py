"""A trace beside what was estimated: its measures in words, and what a lens comes to with either."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date

from quoting.band import band_prescription
from quoting.catalog.model import Frame, Package, Size
from quoting.catalog.read_traces import chosen, outline_of_trace
from quoting.catalog.shop import Catalog
from quoting.findings import Finding
from quoting.kernel import swap
from quoting.kernel.trace_faults import BOX_TOLERANCE_MM
from quoting.lab.jobs import Job
from quoting.lab.traces import Trace, measured
from quoting.offers import Ask, Choice, Offers
from quoting.tables import size_outline

# The power for which a lens is compared: middling, and thick enough at the edge to show what an outline does
EXAMPLE_D = -4.0
SIDES = {"R": "right", "L": "left"}
# (practice) a tracer is good to a few hundredths; more than this between the sides is a bent front
SIDES_MM = 0.3


def trace_text(one: Trace, source: str) -> str:
    """One side on one line."""
    found = measured(*one.outline())
    angles = "equal" if one.equal else "unequal"
    return (
        f"trace, {SIDES[one.side]} side of {source}: {len(one.radii)} radii at {angles} angles; A {found.a:.2f} "
        f"B {found.b:.2f} ED {found.ed:.2f} circumference {found.circumference:.2f} mm"
    )


def trace_findings(job: Job, frame: Frame, size: Size) -> list[Finding]:
    """What does not go together: the trace and the size, the sides, the curves."""
    one = chosen(job)
    outline = outline_of_trace(one)
    found = measured(*outline)
    told = []
    for name, stated, given in (("A", size.a, found.a), ("B", size.b, found.b)):
        if abs(given - stated) > BOX_TOLERANCE_MM + 0.005:
            said = f"this trace has {name} {given:.1f} mm, and {frame.name} {size.label} has {stated:g}"
            told.append(Finding(one.mark, "trace-box", said, "name the size it is of, or mend the size first"))
    if len(job.traces) == 2:
        other = outline_of_trace(next(trace for trace in job.traces if trace is not one))
        gap = swap.aligned(*map(list, outline), *map(list, other))[0]
        if gap > SIDES_MM:
            said = f"the two sides differ by up to {gap:.2f} mm; the right one is taken for both"
            hint = "see whether the front is bent, and trace it again"
            told.append(Finding(one.mark, "trace-sides-differ", said, hint, "warning"))
    curve = job.number("FCRV", one.side)
    if curve is not None and abs(curve - frame.curve) > swap.CURVE_D:
        said = f"the job says a frame curve of {curve:g} D, and the catalog {frame.curve:g}"
        told.append(Finding(one.mark, "trace-curve", said, f"see which is right: `curve` of {frame.id}", "warning"))
    if size.trace:
        said = f"{frame.name} {size.label} has a trace already, {size.trace}: this one takes its place"
        told.append(Finding(one.mark, "trace-there", said, "leave it, where that one is better", "note"))
    return told


def compared_rows(
    catalog: Catalog, frame: Frame, before: Size, after: Size, package: str, day: date
) -> list[tuple[str, str, str]]:
    """What is measured, and what a lens comes to: with the estimate and with the trace."""
    old, new = (measured(*size_outline(size, frame.family)) for size in (before, after))
    rows = [
        ("A", f"{old.a:.2f} mm", f"{new.a:.2f} mm"),
        ("B", f"{old.b:.2f} mm", f"{new.b:.2f} mm"),
        ("ED", f"{old.ed:.2f} mm", f"{new.ed:.2f} mm"),
        ("circumference", f"{old.circumference:.2f} mm", f"{new.circumference:.2f} mm"),
    ]
    offers = Offers(catalog, day)
    for one in [catalog.packages[package]] if package else catalog.packages.values():
        found = [_lens(offers, frame, size, one) for size in (before, after)]
        if found[0] is not None and found[1] is not None:
            head = f"{one.id} at {EXAMPLE_D:+.2f} D: "
            names = ("minimum blank", "thickest edge", "center", "weight of a lens")
            lines = zip(names, found[0], found[1], strict=True)
            return rows + [(head + name if name == names[0] else name, was, now) for name, was, now in lines]
    return rows


def _lens(offers: Offers, frame: Frame, size: Size, package: Package) -> tuple[str, str, str, str] | None:
    choice = Choice(frame, size, frame.colorways[0], package)
    fit = offers.offer(choice, Ask(band_prescription(package, EXAMPLE_D))).fit
    lens = fit["right"]
    if lens["fault"]:
        return None
    return (
        f"{lens['blank_exact']:.2f} mm",
        f"{lens['edge_max']:.2f} mm",
        f"{lens['center']:.2f} mm",
        f"{lens['weight']:.2f} g",
    )
