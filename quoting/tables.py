"""From what the shop keeps to the plain tables that kernel and page share.

Outlines are computed once per box and family, not per frame: makers share sizes, and the search for an outline is the
costliest step of all.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import lru_cache

from quoting.catalog.model import Frame, Package, Size
from quoting.catalog.shop import Discount, Limits, PriceList, Region, Shop, Surcharge
from quoting.kernel import records
from quoting.kernel.boxing import dimensions
from quoting.kernel.calculators import rounded
from quoting.outlines import from_box
from quoting.prescription.model import EyeRx
from quoting.prescription.wishes import Wishes

PLANO = EyeRx(0.0)


@lru_cache(maxsize=4096)
def outline_of(a: float, b: float, ed: float, family: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The estimated outline of a box, in the nasal frame: xs and ys."""
    return from_box(a, b, ed, family)


def size_outline(size: Size, family: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The outline of a size in the nasal frame: its trace where it has one, else the estimated one."""
    return outline_of(size.a, size.b, size.ed, family) if size.outline is None else size.outline


def true_ed(size: Size) -> float:
    """The effective diameter of a trace, mm, to 0.01; without one that which is stated."""
    return size.ed if size.outline is None else rounded(dimensions(*map(list, size.outline))[2], 2)


def frame_table(shop: Shop, frame: Frame, size: Size, drawn: bool = True) -> records.Frame:
    """One size of a frame with its mounting's limits; with its outline if it is traced, or ``drawn``."""
    xs, ys = size_outline(size, frame.family) if drawn or size.outline is not None else ((), ())
    mounting = shop.mountings[frame.mounting]
    return {
        "a": size.a,
        "b": size.b,
        "dbl": size.dbl,
        "ed": true_ed(size),
        "xs": list(xs),
        "ys": list(ys),
        "traced": size.outline is not None,
        "mounting": frame.mounting,
        "min_edge": mounting.min_edge,
        "edge_caution": mounting.edge_caution,
        "edge_no": mounting.edge_no,
        "curve": frame.curve,
        "wrap": frame.wrap,
        "tilt": frame.tilt,
        "weight": size.weight,
    }


def front_key(frame: records.Frame, family: str) -> tuple[object, ...]:
    """What a lens depends on in its frame: all but the weight.  An outline that is no trace follows from the rest."""
    outline = (tuple(frame["xs"]), tuple(frame["ys"])) if frame["traced"] else (family,)
    return (*outline, *(value for name, value in frame.items() if name not in ("xs", "ys", "weight")))


def package_table(package: Package) -> records.Package:
    """A lens package with its design and material in one table."""
    design, material = package.design, package.material
    return {
        "kind": design.kind,
        "index": material.index,
        "density": material.density,
        "drillable": material.drillable,
        "impact_resistant": material.impact_resistant,
        "finished": package.finished,
        "min_height": design.min_height,
        "min_above": design.min_above,
        "boost": design.boost,
        "conic": design.conic,
        "base_from": design.base_from,
        "base_to": design.base_to,
        "position_of_wear": design.position_of_wear,
        "wrap": design.wrap,
        "ranges": [
            {
                "low": part.low,
                "high": part.high,
                "cylinder": part.cylinder,
                "add_from": part.add_from,
                "add_to": part.add_to,
                "diameter": part.diameter,
                "near": part.near,
                "near_from": part.near_from,
                "near_to": part.near_to,
            }
            for part in package.ranges
        ],
        "curves": [{"low": step.low, "high": step.high, "value": step.value} for step in package.curves],
        "centers": [{"low": step.low, "high": step.high, "value": step.value} for step in package.centers],
        "min_center": package.min_center,
        "prism": package.prism,
        "prices": [{"low": band.low, "high": band.high, "cents": band.lens_cents} for band in package.prices],
        "light": package.light,
        "tint_depth": float(package.tint_depth),
        "tint_over": package.treatments.tint_over,
        "mirror": package.treatments.mirror,
        "back_ar": package.treatments.back_ar,
        "blue_filter": package.treatments.blue_filter,
        "double_use": package.treatments.double_use,
        "transmittance": package.treatments.transmittance,
        "darkened": package.treatments.darkened,
    }


def limits_table(limits: Limits) -> records.Limits:
    """The shop's own limits."""
    return {
        "edging_allowance": limits.edging_allowance,
        "curve_difference": limits.curve_difference,
        "wrap_angle": limits.wrap_angle,
        "wrap_curve": limits.wrap_curve,
        "pow_tilt": limits.pow_tilt,
        "pow_wrap": limits.pow_wrap,
        "curve_factor": limits.curve_factor,
        "boost_add": limits.boost_add,
        "reading_drop": limits.reading_drop,
        "reading_imbalance": limits.reading_imbalance,
        "image_difference": limits.image_difference,
        "gradient_height": limits.gradient_height,
        "driving_least": limits.driving_least,
        "night_least": limits.night_least,
    }


def eye_table(eye: EyeRx | None) -> records.Eye:
    """One eye of a prescription; plano where there is none (the job says whether the eye is glazed)."""
    one = eye or PLANO
    return {
        "sphere": one.sphere,
        "cylinder": one.cylinder,
        "axis": float(one.axis),
        "add": one.add,
        "prism_in": one.prism_in,
        "prism_up": one.prism_up,
    }


def options_table(wishes: Wishes) -> records.Options:
    """What is wished beyond the package."""
    return {
        "tint_depth": wishes.tint_depth,
        "tint_gradient": wishes.tint_gradient,
        "mirror": wishes.mirror,
        "blue_filter": wishes.blue_filter,
        "slab_off": wishes.slab_off,
        "rush": wishes.rush,
        "sport": wishes.sport,
        "one_eyed": wishes.one_eyed,
        "driving": wishes.driving,
        "night_driving": wishes.night_driving,
    }


def in_force(discount: Discount, day: date, asked: Iterable[str]) -> bool:
    """Whether a discount applies on this day to a customer who named those in ``asked``."""
    if discount.starts and day < discount.starts:
        return False
    if discount.ends and day > discount.ends:
        return False
    return not discount.asked or discount.id in set(asked)


def surcharge_table(one: Surcharge) -> records.Surcharge:
    """What is added, and when."""
    return {
        "id": one.id,
        "when": one.when,
        "over": one.over,
        "mounting": one.mounting,
        "per_lens": one.per == "lens",
        "cents": one.cents,
    }


def discount_table(one: Discount) -> records.Discount:
    """What is taken off, once it is known to apply."""
    return {
        "id": one.id,
        "on": one.on,
        "basis_points": one.basis_points,
        "cents": one.cents,
        "combinable": one.combinable,
    }


def region_table(region: Region) -> records.Region:
    """Shipping and tax."""
    return {
        "shipping_cents": region.shipping_cents,
        "free_from_cents": region.free_from_cents,
        "tax_frame": region.tax_frame,
        "tax_lenses": region.tax_lenses,
        "tax_shipping": region.tax_shipping,
    }


def money_table(
    prices: PriceList, frame_cents: int, region: Region, day: date, asked: Iterable[str] = ()
) -> records.Money:
    """What one quote on that day is priced by."""
    asked = tuple(asked)
    return {
        "frame_cents": frame_cents,
        "surcharges": [surcharge_table(one) for one in prices.surcharges],
        "discounts": [discount_table(one) for one in prices.discounts if in_force(one, day, asked)],
        "region": region_table(region),
        "tax_included": prices.tax_included,
    }
