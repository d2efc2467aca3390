"""A comparison of two frames for one lens, in words and as JSON."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.catalog.model import Frame, Size
from quoting.kernel import swap, swap_held
from quoting.swapping import Swap

ANSWERS = {
    "yes": "Yes: the lens goes from one into the other.",
    "maybe": "Maybe: try it, and look at what stands below as maybe.",
    "no": "No: the lens does not go into the other frame.",
}
HELD = {
    "yes": "both hold the lens in the same way",
    "maybe": "both are drilled: it goes only where the holes lie alike, and `holes` of a size are not stated",
    "no": "they hold the lens in different ways",
}


def swap_text(one: Frame, size: Size, other: Frame, other_size: Size, found: Swap) -> str:
    """All of it, a number a line with its limits."""
    parts = found.parts
    rows = [
        ("largest gap", f"{found.gap:.2f} mm", parts["gap"], _limits(swap.GAP_MM, swap.FAR_GAP_MM, "mm")),
        (
            "circumference", f"{found.longer:+.2f} mm", parts["circumference"],
            _limits(swap.CIRCUMFERENCE_MM, swap.FAR_CIRCUMFERENCE_MM, "mm"),
        ),
        ("frame curve", f"{found.curve:+.2f} D", parts["curve"], _limits(swap.CURVE_D, swap.FAR_CURVE_D, "D")),
        *_held(found),
    ]  # fmt: skip
    told = [
        f"Lens of {one.name} {size.label} in {other.name} {other_size.label}",
        ANSWERS[found.verdict],
        *(f"  {name:<14} {value:>11}  {part:<5}  {limits}" for name, value, part, limits in rows),
        f"  {'mounting':<14} {'':>11}  {parts['mounting']:<5}  {HELD[found.held]}",
    ]
    if found.groove is None and one.mounting == other.mounting == "semi-rimless":
        told.append("The grooves were not compared: `groove` is not stated of both frames.")
    if found.verdict != "no":
        across, upright = "in" if found.shift_in >= 0 else "out", "higher" if found.shift_up >= 0 else "lower"
        apart = found.dbl - 2 * found.shift_in
        told.append(
            f"The lens sits {abs(found.shift_in):.2f} mm farther {across} and {abs(found.shift_up):.2f} mm {upright} "
            f"in that rim;\nwith the other bridge the optical centers come {apart:+.2f} mm apart."
        )
    if not found.traced:
        said = "The outlines are estimated from A, B and ED"
        told.append(f"{said}, so there is no yes: trace both frames." if found.verdict == "maybe" else f"{said}.")
    return "\n".join(told)


def _held(found: Swap) -> list[tuple[str, str, str, str]]:
    """Groove and holes, where they were compared."""
    rows = []
    if found.groove is not None:
        limits = _limits(swap_held.GROOVE_MM, swap_held.FAR_GROOVE_MM, "mm")
        rows.append(("groove", f"{found.groove:.2f} mm", found.parts["groove"], limits))
    if found.holes is not None and found.bore is not None:
        limits = _limits(swap_held.HOLE_MM, swap_held.FAR_HOLE_MM, "mm")
        far = "not as many" if found.holes >= swap_held.NO_HOLE else f"{found.holes:.2f} mm"
        rows.append(("holes", far, found.parts["holes"], limits))
        rows.append(("hole diameter", f"{found.bore:.2f} mm", found.parts["hole diameter"], limits))
    return rows


def _limits(good: float, far: float, unit: str) -> str:
    return f"yes to {good:g} {unit}, no from more than {far:g}"


def swap_dict(one: Frame, size: Size, other: Frame, other_size: Size, found: Swap) -> dict[str, object]:
    """The same for programs."""
    return {
        "frame": one.id,
        "size": size.key,
        "other": other.id,
        "other_size": other_size.key,
        "verdict": found.verdict,
        "gap_mm": round(found.gap, 3),
        "circumference_mm": round(found.longer, 3),
        "curve_d": round(found.curve, 3),
        "dbl_mm": round(found.dbl, 3),
        "shift_in_mm": round(found.shift_in, 3),
        "shift_up_mm": round(found.shift_up, 3),
        "groove_mm": None if found.groove is None else round(found.groove, 3),
        "holes_mm": None if found.holes in (None, swap_held.NO_HOLE) else round(float(found.holes or 0), 3),
        "hole_diameter_mm": None if found.bore is None else round(found.bore, 3),
        "traced": found.traced,
        "parts": found.parts,
    }
