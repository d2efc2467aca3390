"""Margins as plain data for programs; the form is in DEVELOPERS.md."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.private.margins import Margin
from quoting.private.model import Floor
from quoting.private.report import Report


def report_dict(report: Report, under: bool = False) -> dict[str, object]:
    """Everything that the text says, nothing cut short."""
    catalog, till, costs = report.books.catalog, report.books.till, report.books.costs
    wanted = report.wanted
    return {
        "day": report.day.isoformat(),
        "currency": catalog.shop.currency,
        "price_list": catalog.price_list.version,
        "region": till.region.id,
        "tax_included": till.tax_included,
        "tax_percent": {"frames": till.rate("frame") / 100, "lenses": till.rate("lens") / 100},
        "offers": report.offers if till.offers is not None else [],
        "floor": {"lenses": _floor(costs.lens_floor), "frames": _floor(costs.frame_floor)},
        "raise": {"which": wanted.which, "change": wanted.change} if wanted else None,
        "margins": [_margin(report, now, later) for now, later in report.pairs(under)],
        "counts": {"now": _counts(report.now), **({"raised": _counts(report.later)} if wanted else {})},
    }


def _floor(floor: Floor | None) -> dict[str, object] | None:
    return None if floor is None else {"percent": floor.basis_points / 100, "cents": floor.cents}


def _counts(margins: list[Margin]) -> dict[str, int]:
    return {
        "margins": len(margins),
        "under_floor": sum(1 for one in margins if one.under_floor),
        "at_loss": sum(1 for one in margins if one.at_loss),
        "without_cost": sum(1 for one in margins if one.cost is None),
    }


def _margin(report: Report, now: Margin, later: Margin) -> dict[str, object]:
    lens = now.kind == "lens"
    return {
        "kind": now.kind,
        "id": now.id,
        "colorway": now.colorway or None,
        "sizes": list(now.sizes) or None,
        "from": now.low if lens else None,
        "to": now.high if lens else None,
        "cost_cents": now.cost.cents if now.cost else None,
        "missing": list(now.missing),
        **_left(report, now),
        "raised": _left(report, later) if report.wanted else None,
    }


def _left(report: Report, one: Margin) -> dict[str, object]:
    return {
        "price_cents": one.price,
        "net_cents": one.net,
        "margin_cents": one.cents,
        "percent": None if one.percent is None else round(one.percent, 2),
        "under_floor": one.under_floor,
        "at_loss": one.at_loss,
        "least_cents": report.least(one),
    }
