"""An order as a job for the lab, in the open standard; the wearer's name is not in it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from pathlib import Path

from quoting.catalog.read_traces import FOLDER
from quoting.kernel.prism import base_360
from quoting.lab.jobs import Item, Job, read_job
from quoting.lab.traces import Trace
from quoting.orders.model import Order, Side

# (from memory of the standard) the classes of frames and edges
FRAME_TYPES = {"full-rim-plastic": 1.0, "full-rim-metal": 2.0, "semi-rimless": 3.0, "drilled": 3.0}
EDGE_TYPES = {"full-rim-plastic": 1.0, "full-rim-metal": 1.0, "semi-rimless": 3.0, "drilled": 2.0}


def lab_job(order: Order, traces: tuple[Trace, ...] = ()) -> Job:
    """The job; what is not known stays unknown, and what is worked out here is left to the lab where it decides."""
    both = (order.right, order.left)
    eyes = "B" if all(both) else "R" if order.right else "L"
    frame, lens, tint = order.frame, order.lens, order.tint

    def each(value: object) -> tuple[Item, Item]:
        right, left = (None if side is None else getattr(side, str(value)) for side in both)
        return _item(right), _item(left)

    def same(value: Item) -> tuple[Item, Item]:
        return value if order.right else None, value if order.left else None

    multifocal = lens.kind in ("progressive", "bifocal")
    prism = [_prism(name, side) for name, side in (("R", order.right), ("L", order.left))]
    values: dict[str, tuple[Item, ...]] = {
        "JOB": (order.id,),
        "DO": (eyes,),
        "SPH": each("sphere"),
        "CYL": each("cylinder"),
        "AX": each("axis"),
        "ADD": each("add") if multifocal else (None, None),
        "PRVM": (prism[0][0], prism[1][0]),
        "PRVA": (prism[0][1], prism[1][1]) if any(amount for amount, _ in prism) else (None, None),
        "IPD": each("pd"),
        "OCHT": each("reference"),
        "SEGHT": each("fitting") if multifocal else (None, None),
        "BVD": same(order.measured.vertex),
        "PANTO": same(order.measured.tilt),
        "ZTILT": same(order.measured.wrap),
        "LNAM": same(f"{lens.maker} {lens.name}"),
        "LTYP": same(lens.kind),
        "LIND": same(lens.index),
        "TINT": same(_tint(order) if tint else None),
        "ACOAT": same(lens.coating),
        "MBASE": each("base"),
        "CTHICK": each("center"),
        "HBOX": same(frame.a),
        "VBOX": same(frame.b),
        "DBL": (frame.dbl,),
        "FED": same(frame.ed),
        "FCRV": same(frame.curve),
        "FTYP": (FRAME_TYPES[frame.mounting],),
        "ETYP": (EDGE_TYPES[frame.mounting],),
        "GDEPTH": same(None if frame.groove is None else frame.groove[1]),
        "GWIDTH": same(None if frame.groove is None else frame.groove[0]),
    }
    known = {name: items for name, items in values.items() if any(item is not None for item in items)}
    return Job(eyes, known, traces)


def _item(value: object) -> Item:
    return float(value) if isinstance(value, int | float) else value if isinstance(value, str) else None


def _prism(eye: str, side: Side | None) -> tuple[float | None, float | None]:
    """Amount and base of what was prescribed; 0 where there is none, which is known and no `?`."""
    if side is None:
        return None, None
    if side.prism_in == 0 and side.prism_up == 0:
        return 0.0, 0.0
    amount, base = base_360(eye, side.prism_in, side.prism_up)
    return round(amount, 2), float(round(base))


def _tint(order: Order) -> str:
    tint = order.tint
    assert tint is not None
    fading = " gradient" if tint.gradient else ""
    ends = f" to {min(tint.top, tint.bottom):g} %" if tint.gradient and tint.top != tint.bottom else ""
    name = f" {tint.name}" if tint.name else ""
    return f"{tint.depth:g} %{ends}{fading}{name}" + (f" recipe {tint.recipe}" if tint.recipe else "")


def traces_of(shop: Path, name: str) -> tuple[Trace, ...]:
    """The traces of a size's file; none where there is no such file or it cannot be read."""
    path = shop / FOLDER / name
    if not name or not path.is_file():
        return ()
    job, _ = read_job(path.read_bytes(), path.as_posix())
    return job.traces if job is not None else ()
