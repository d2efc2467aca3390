"""An order in words: the same parts make the sheet as text and as a page.  Each part is a title with rows.

A row is a label with one value, or with one for each eye, right before left.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from quoting.catalog.shop import Shop
from quoting.kernel.lens_calculators import category
from quoting.orders.model import Order, Side
from quoting.orders.verifying import through_of
from quoting.prescription.model import EyeRx
from quoting.show.amounts import axis, mm, power
from quoting.show.terms import kind, light, mounting, place

NONE = "–"
# Never left out of a sheet (section 11 of what a shop must say: an estimate until a licensed person has checked it)
CHECKED = (
    "Figures of thickness and blank are worked out; what is ground is the lab's. A licensed optician checks the order."
)


@dataclass(frozen=True, slots=True)
class Row:
    label: str
    values: tuple[str, ...]  # one, or right and left


@dataclass(frozen=True, slots=True)
class Part:
    title: str
    rows: tuple[Row, ...]

    @property
    def both(self) -> bool:
        """Whether its rows have a value for each eye."""
        return any(len(row.values) > 1 for row in self.rows)


def eye_rx(side: Side) -> EyeRx:
    """The prescription of a side as the rest of the house has it."""
    return EyeRx(side.sphere, side.cylinder, side.axis, side.add, side.prism_in, side.prism_up)


def as_power(value: tuple[float, float, float] | None) -> str:
    """A power on one line."""
    if value is None:
        return NONE
    sphere, cylinder, at = value
    return f"{power(sphere)}\u00a0{power(cylinder)}\u00a0×\u00a0{axis(at)}" if cylinder else f"{power(sphere)}\u00a0DS"


def parts(order: Order) -> list[Part]:
    """The whole sheet."""
    return [
        _prescription(order),
        _centration(order),
        _worked_out(order),
        Part("Lens", tuple(_lens(order))),
        Part("Frame", tuple(_frame(order))),
        Part("As worn", tuple(_worn(order))),
        *([tint_part(order)] if order.tint else []),
        *_remarks(order),
    ]


def _each(order: Order, say: Callable[[Side], str]) -> tuple[str, str]:
    right, left = (NONE if side is None else say(side) for side in (order.right, order.left))
    return right, left


def _prescription(order: Order) -> Part:
    rows = [
        Row("Sphere", _each(order, lambda one: power(one.sphere))),
        Row("Cylinder", _each(order, lambda one: power(one.cylinder) if one.cylinder else NONE)),
        Row("Axis", _each(order, lambda one: axis(one.axis) if one.cylinder else NONE)),
        Row("Addition", _each(order, lambda one: power(one.add) if one.add else NONE)),
        Row("Prism", _each(order, _prism)),
    ]
    dated = f" of {order.written}" if order.written else ", undated"
    return Part(f"Prescription as ordered{dated}", tuple(rows))


def _prism(one: Side) -> str:
    across = f"{mm(abs(one.prism_in), 2)}Δ {'in' if one.prism_in > 0 else 'out'}" if one.prism_in else ""
    upright = f"{mm(abs(one.prism_up), 2)}Δ {'up' if one.prism_up > 0 else 'down'}" if one.prism_up else ""
    return " ".join(part for part in (across, upright) if part) or NONE


FITTING = {"progressive": "Fitting cross height", "bifocal": "Segment height"}


def _centration(order: Order) -> Part:
    point = "Reference point height" if order.lens.kind == "progressive" else "Optical center height"
    rows = [Row("Monocular PD", _each(order, lambda one: f"{mm(one.pd)} mm"))]
    if order.lens.kind in FITTING:
        rows.append(Row(FITTING[order.lens.kind], _each(order, lambda one: f"{mm(one.fitting)} mm")))
    rows += [
        Row(point, _each(order, lambda one: f"{mm(one.reference)} mm")),
        Row("Decentration", _each(order, _decentration)),
    ]
    usual = f"; usual, not measured: {', '.join(order.measured.usual)}" if order.measured.usual else ""
    return Part(f"Centration, measured by {order.measured.by}{usual}", tuple(rows))


def _decentration(one: Side) -> str:
    across, upright = ("in" if one.decentration_in >= 0 else "out"), ("up" if one.decentration_up >= 0 else "down")
    return f"{mm(abs(one.decentration_in))} {across}, {mm(abs(one.decentration_up))} {upright}"


def _worked_out(order: Order) -> Part:
    return Part(
        "Worked out",
        (
            Row("Base curve at 1.530", _each(order, lambda one: mm(one.base, 2))),
            Row("Least blank", _each(order, lambda one: f"{mm(one.blank)} of {mm(one.blank_largest)} mm")),
            Row("Center thickness", _each(order, lambda one: f"{mm(one.center, 2)} mm")),
            Row(
                "Thickest edge",
                _each(order, lambda one: f"{mm(one.edge_max, 2)} mm {place(one.edge_max_at)}"),
            ),
            Row(
                "Thinnest edge",
                _each(order, lambda one: f"{mm(one.edge_min, 2)} mm {place(one.edge_min_at)}"),
            ),
            Row("Weight", _each(order, lambda one: f"{mm(one.weight)} g")),
        ),
    )


def _lens(order: Order) -> list[Row]:
    lens = order.lens
    made = "finished" if lens.finished else "surfaced to order"
    return [
        Row("Lens", (f"{lens.maker} {lens.name} [{lens.id}]",)),
        Row("Design", (f"{lens.design}, {kind(lens.kind)}",)),
        Row("Material", (f"{lens.material}, index {lens.index:g}, {made}",)),
        Row("Light and coating", (f"{light(lens.light)}, {lens.coating}",)),
        *([Row("Also", (", ".join(order.wishes),))] if order.wishes else []),
    ]


def _frame(order: Order) -> list[Row]:
    frame = order.frame
    outline = "traced" if frame.traced else "outline not traced: send the frame, or trace it"
    return [
        Row("Frame", (f"{frame.maker} {frame.name} {frame.size}, {frame.color} [{frame.id}]",)),
        Row("Mounting", (f"{mounting(frame.mounting)}, {frame.material}, curve {frame.curve:g}",)),
        Row("Box", (f"A {frame.a:g}  B {frame.b:g}  DBL {frame.dbl:g}  ED {frame.ed:g} mm; {outline}",)),
    ]


def _worn(order: Order) -> list[Row]:
    worn = order.measured
    made_for = "is made" if order.lens.position_of_wear else "is not made"
    return [
        Row("Tilt, wrap, vertex", (f"{worn.tilt:g}°, {worn.wrap:g}°, {worn.vertex:g} mm",)),
        Row("The eye meets", _each(order, lambda one: as_power(one.worn))),
        Row("Would have to be ground", _each(order, lambda one: as_power(one.compensated))),
        Row("Design", (f"{made_for} for the position of wear",)),
    ]


def tint_part(order: Order) -> Part:
    """The recipe card of a tint."""
    tint = order.tint
    assert tint is not None
    through = through_of(order)
    fading = "gradient, darkest at the top and fading" if tint.gradient else "one depth all over"
    number = category(through)
    return Part(
        "Tint recipe card",
        (
            Row("Takes", (f"{tint.depth:g} % of the light at its darkest",)),
            Row("Lets through", (f"{mm(through)} % with the lens: " + (
                f"filter category {number:g}" if number < 5 else "darker than any filter category"
            ),)),
            Row("Kind", (fading,)),
            Row("Recipe code", (tint.recipe or "to be written by the dyer: ________________",)),
            *([Row("Dyes", (tint.mix,))] if tint.mix else []),
            Row("Driving", ("not for driving" if number >= 4 else "not for driving at night or twilight"
                            if through < 75 else "see the lens's own limits",)),
        ),
    )  # fmt: skip


def _remarks(order: Order) -> list[Part]:
    rows = [Row(f"{told.verdict}, {told.eye}", (told.text,)) for told in order.reasons]
    if order.overruled:
        rows.append(Row("Made all the same", (order.overruled,)))
    if order.remake_of:
        rows.append(Row(f"Remake of {order.remake_of}", (order.remake_reason,)))
    if order.note:
        rows.append(Row("Note", (order.note,)))
    found = [Part("To be seen to", tuple(rows))] if rows else []
    changed = [Row(one.what, (f"{one.quoted} → {one.ordered}",)) for one in order.changes]
    return found + ([Part("Changed since the quote", tuple(changed))] if changed else [])


def text_of(found: list[Part]) -> list[str]:
    """Parts as lines of text, columns under R and L."""
    lines: list[str] = []
    for part in found:
        wide = max(len(row.label) for row in part.rows)
        first = max((len(row.values[0]) for row in part.rows if len(row.values) > 1), default=0)
        head = f"{part.title}"
        lines += ["", head + (f"\n  {'':<{wide}}  {'R':<{first}}  L" if part.both else "")]
        for row in part.rows:
            values = [f"{row.values[0]:<{first}}", *row.values[1:]] if len(row.values) > 1 else list(row.values)
            lines.append(f"  {row.label:<{wide}}  {'  '.join(values)}".rstrip())
    return lines


def sheet_text(order: Order, shop: Shop) -> str:
    """The order sheet."""
    which = f"quote {order.quote}" + (f", alternative {order.letter}, pair {order.pair}")
    head = [f"{shop.name}: order {order.id}", f"{order.day}, {which}", f"For {order.customer}"]
    return "\n".join([*head, *text_of(parts(order)), "", CHECKED, ""])
