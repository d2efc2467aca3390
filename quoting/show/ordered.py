"""An order in words: the same parts make the sheet as text and as a page.  Each part is a title with rows.

A row is a label with one value, or with one for each eye, right before left.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Callable

from quoting.catalog.shop import Shop
from quoting.languages import _, decimals, marked
from quoting.orders.model import Order, Side
from quoting.prescription.model import EyeRx
from quoting.show.amounts import axis, mm, plain, power
from quoting.show.order_parts import CENTRATION, FRAME, LENS, PRESCRIPTION, Part, Row
from quoting.show.terms import kind, light, mounting, place
from quoting.show.tint_card import tint_part

NONE = "–"
# Never left out of a sheet (section 11 of what a shop must say: an estimate until a licensed person has checked it)
CHECKED = (
    "Figures of thickness and blank are worked out; what is ground is the lab's. A licensed optician checks the order."
)


def eye_rx(side: Side) -> EyeRx:
    """The prescription of a side as the rest of the house has it."""
    return EyeRx(side.sphere, side.cylinder, side.axis, side.add, side.prism_in, side.prism_up)


def as_power(value: tuple[float, float, float] | None) -> str:
    """A power on one line."""
    if value is None:
        return NONE
    sphere, cylinder, at = value
    return f"{power(sphere)}\u00a0{power(cylinder)}\u00a0×\u00a0{axis(at)}" if cylinder else f"{power(sphere)}\u00a0DS"


def shared_parts(order: Order) -> list[Part]:
    """What sheet and card have alike."""
    return [
        _prescription(order),
        _centration(order),
        _lens(order),
        _frame(order),
        *([tint_part(order)] if order.tint else []),
    ]


def parts(order: Order) -> list[Part]:
    """The whole sheet."""
    return [
        _prescription(order),
        _centration(order),
        _worked_out(order),
        _lens(order),
        _with(_frame(order), *_bench(order)),
        Part("As worn", tuple(_worn(order))),
        *([tint_part(order)] if order.tint else []),
        *_remarks(order),
    ]


def _with(part: Part, *rows: Row) -> Part:
    return Part(part.title, (*part.rows, *rows), part.what)


def _each(order: Order, say: Callable[[Side], str]) -> tuple[str, str]:
    right, left = (NONE if side is None else say(side) for side in (order.right, order.left))
    return right, left


def _prescription(order: Order) -> Part:
    rows = [
        Row(_("Sphere"), _each(order, lambda one: power(one.sphere))),
        Row(_("Cylinder"), _each(order, lambda one: power(one.cylinder) if one.cylinder else NONE)),
        Row(_("Axis"), _each(order, lambda one: axis(one.axis) if one.cylinder else NONE)),
        Row(_("Addition"), _each(order, lambda one: power(one.add) if one.add else NONE)),
        Row(_("Prism"), _each(order, _prism)),
    ]
    title = _("Prescription of {day}").format(day=order.written) if order.written else _("Prescription, undated")
    return Part(title, tuple(rows), PRESCRIPTION)


def _prism(one: Side) -> str:
    across = _("{amount}Δ in") if one.prism_in > 0 else _("{amount}Δ out")
    upright = _("{amount}Δ up") if one.prism_up > 0 else _("{amount}Δ down")
    both = ((across, one.prism_in), (upright, one.prism_up))
    return " ".join(said.format(amount=mm(abs(amount), 2)) for said, amount in both if amount) or NONE


FITTING = marked({"progressive": "Fitting cross height", "bifocal": "Segment height"})
MEASURES = marked({"vertex": "vertex distance", "tilt": "pantoscopic tilt", "wrap": "face-form angle"})


def _centration(order: Order) -> Part:
    point = _("Reference point height") if order.lens.kind == "progressive" else _("Optical center height")
    rows = [Row(_("Monocular PD"), _each(order, lambda one: f"{mm(one.pd)} mm"))]
    if order.lens.kind in FITTING:
        rows.append(Row(_(FITTING[order.lens.kind]), _each(order, lambda one: f"{mm(one.fitting)} mm")))
    rows += [
        Row(point, _each(order, lambda one: f"{mm(one.reference)} mm")),
        Row(_("Decentration, mm"), _each(order, _decentration)),
    ]
    title = _("Centration, measured by {name}").format(name=order.measured.by)
    if order.measured.usual:
        usual = ", ".join(_(MEASURES[name]) for name in order.measured.usual)
        title = _("{centration}; usual, not measured: {values}").format(centration=title, values=usual)
    return Part(title, tuple(rows), CENTRATION)


def _decentration(one: Side) -> str:
    across = _("{mm} in") if one.decentration_in >= 0 else _("{mm} out")
    upright = _("{mm} up") if one.decentration_up >= 0 else _("{mm} down")
    values = (abs(one.decentration_in), abs(one.decentration_up))
    each = zip((across, upright), values, strict=True)
    return ", ".join(said.format(mm=mm(value)).replace(" ", "\u00a0") for said, value in each)


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


def _lens(order: Order) -> Part:
    lens = order.lens
    made = _("{material}, index {index}, finished") if lens.finished else _("{material}, index {index}, made to order")
    rows = [
        Row(_("Lens"), (f"{lens.maker} {lens.name} [{lens.id}]",)),
        Row(_("Design"), (lens.design if lens.design == kind(lens.kind) else f"{lens.design}, {kind(lens.kind)}",)),
        Row(_("Material"), (made.format(material=lens.material, index=plain(lens.index)),)),
        Row(_("Light and coating"), (f"{light(lens.light)}, {lens.coating}",)),
        *([Row(_("Also"), (", ".join(order.wishes),))] if order.wishes else []),
    ]
    return Part(_("Lens"), tuple(rows), LENS)


def _frame(order: Order) -> Part:
    frame = order.frame
    held = _("{mounting}, {material}, curve {curve}")
    box = f"A {plain(frame.a)}  B {plain(frame.b)}  DBL {plain(frame.dbl)}  ED {plain(frame.ed)} mm"
    rows = (
        Row(_("Frame"), (f"{frame.maker} {frame.name} {decimals(frame.size)}, {frame.color} [{frame.id}]",)),
        Row(
            _("Mounting"),
            (held.format(mounting=mounting(frame.mounting), material=frame.material, curve=plain(frame.curve)),),
        ),
        Row(_("Box"), (box,)),
    )
    return Part(_("Frame"), rows, FRAME)


def _bench(order: Order) -> list[Row]:
    """What of the frame only lab and bench need."""
    frame = order.frame
    rows = [Row("Outline", ("traced" if frame.traced else "not traced: send the frame, or trace it",))]
    if frame.groove is not None:
        rows.append(Row("Groove", (f"{mm(frame.groove[0], 2)} mm wide, {mm(frame.groove[1], 2)} mm deep",)))
    if frame.holes:
        rows.append(Row("Holes, from the middle", ("; ".join(_hole(*one) for one in frame.holes),)))
    if frame.sun:
        rows.append(Row("Original lenses", ("plano sun lenses: keep them for the parcel",)))
    return rows


def _hole(inward: float, up: float, diameter: float) -> str:
    across, upright = "in" if inward >= 0 else "out", "up" if up >= 0 else "down"
    return f"{mm(abs(inward), 2)} {across}, {mm(abs(up), 2)} {upright}, ⌀ {mm(diameter, 2)} mm"


def _worn(order: Order) -> list[Row]:
    worn = order.measured
    made_for = "is made" if order.lens.position_of_wear else "is not made"
    return [
        Row("Tilt, wrap, vertex", (f"{worn.tilt:g}°, {worn.wrap:g}°, {worn.vertex:g} mm",)),
        Row("The eye meets", _each(order, lambda one: as_power(one.worn))),
        Row("Would have to be ground", _each(order, lambda one: as_power(one.compensated))),
        Row("Design", (f"{made_for} for the position of wear",)),
    ]


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
