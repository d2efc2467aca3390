"""Lenses of a board that are ground alike are ground once: packages differ in coating, range and price far more often.

The answers are those of ``kernel.quote.fit``, to the last bit; a test compares them.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel import quote
from quoting.kernel.checked import shop_faults, wearer_faults
from quoting.kernel.lens import finished_center, ground, laid_out, lens_for, nasal
from quoting.kernel.power import on_step
from quoting.kernel.records import Eye, Fit, Job, Lens, Package, Reason
from quoting.remembered import make_room


class Ground:
    """What was ground and looked at for one shop."""

    def __init__(self) -> None:
        self._lenses: dict[tuple[object, ...], Lens] = {}
        self._sound: dict[tuple[object, ...], bool] = {}

    def fit(self, job: Job, front: str, package: str) -> Fit:
        """The answer to a job.

        ``front`` and ``package`` name all that it says of the frame, and of package and limits without prices.
        """
        right, left = nasal(job["right"], False), nasal(job["left"], True)
        both = job["has_right"] and job["has_left"]
        if not both or not quote.same_lens(job, right, left) or not self._is_sound(job, front, package):
            return quote.fit(job)
        lens = self._lens(job, right, front)
        return quote.judged(job, right, left, lens, lens)

    def _is_sound(self, job: Job, front: str, package: str) -> bool:
        """Whether every number of a job is possible."""
        key = (front, package, job["measures"]["vertex"], job["options"]["tint_depth"])
        reasons: list[Reason] = []
        wearer_faults(job, reasons)
        if key not in self._sound:
            found: list[Reason] = []
            shop_faults(job, found)
            make_room(self._sound)
            self._sound[key] = not found
        return not reasons and self._sound[key]

    def _lens(self, job: Job, eye: Eye, front: str) -> Lens:
        """``kernel.lens.lens_for``, with what was ground before."""
        pd, height = job["measures"]["pd_right"], job["measures"]["height_right"]
        lens = laid_out(job, eye, pd, height)
        if lens["blank_largest"] == 0.0:
            return lens_for(job, eye, pd, height)
        key = (front, *eye.values(), lens["decentration_in"], lens["decentration_up"], *_cut(job["package"], lens))
        if key not in self._lenses:
            make_room(self._lenses)
            self._lenses[key] = ground(job, eye, lens.copy())
        known = self._lenses[key]
        lens["fault"] = known["fault"]
        lens["reach"] = known["reach"]
        lens["center"] = known["center"]
        lens["edge_max"] = known["edge_max"]
        lens["edge_max_at"] = known["edge_max_at"]
        lens["edge_min"] = known["edge_min"]
        lens["edge_min_at"] = known["edge_min_at"]
        lens["weight"] = known["weight"]
        return lens


def _cut(package: Package, lens: Lens) -> tuple[object, ...]:
    """What of a package and of a laid-out lens its surfaces, its thickness and its weight depend on."""
    finished = package["finished"]
    center = finished_center(package, on_step(lens["strongest"])) if finished else package["min_center"]
    return lens["front"], package["index"], package["conic"], package["density"], finished, center
