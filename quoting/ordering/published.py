"""A combination for the site from an order, with nothing of the wearer in it: other powers, no PD, no name, no day."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from datetime import date

from quoting.kernel.power import spherical_equivalent
from quoting.orders.model import Order

# Powers of an example lie on whole diopters, the same for both eyes: nobody's prescription
STEP_D = 1.0
USUAL_ADD = "+2.00"


def example_rx(order: Order) -> str:
    """A prescription of nobody that shows about the same lens: the mean power of both, on whole diopters."""
    means = [spherical_equivalent(side.sphere, side.cylinder) for _, side in order.sides()]
    power = round(sum(means) / len(means) / STEP_D) * STEP_D
    written = f"{power:+.2f}" if power else "0.00"
    add = f" add {USUAL_ADD}" if order.lens.kind in ("progressive", "bifocal") else ""
    return f"OD {written} DS{add} / OS {written} DS{add}"


def combination(order: Order, name: str, colorway: str, day: date, tint: str = "") -> str:
    """The Markdown of a combination; its first sentences are for the owner to write anew.

    ``tint``: the mix of the tint book that it wears, "" for none.
    """
    frame, lens = order.frame, order.lens
    return "\n".join(
        [
            f"Title: {frame.name} with {lens.name}",
            f"Slug: {name}",
            f"Date: {day.isoformat()}",
            f"Summary: {frame.name} in {frame.color} with {lens.name}.",
            f"Frame: {frame.id}",
            f"Size: {frame.a:g}-{frame.dbl:g}",
            f"Colorway: {colorway}",
            f"Package: {lens.id}",
            *([f"Tint: {tint}"] if tint else []),
            f"Rx: {example_rx(order)}",
            "",
            f"{frame.name} in {frame.color}, with {lens.name}: {lens.design}, {lens.material}, {lens.coating}.",
            "",
        ]
    )
