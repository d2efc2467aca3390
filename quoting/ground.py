"""Lenses of a board that are ground alike are ground once: packages differ in coating, range and price far more often.

The answers are those of ``kernel.quote.fit``, to the last bit; a test compares them.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel import quote
from quoting.kernel.checked import frame_faults, package_faults, wearer_faults
from quoting.kernel.lens import NOT_MADE, finished_center, ground, laid_out, nasal
from quoting.kernel.power import on_step
from quoting.kernel.records import Eye, Fit, Job, Lens, Package, Reason, Seat
from quoting.kernel.seat import seat_for
from quoting.remembered import make_room

# Fronts whose seats are held: a build goes frame by frame
MOST_FRONTS = 8


class Ground:
    """What was ground and looked at for one shop."""

    def __init__(self) -> None:
        self._lenses: dict[tuple[object, ...], Lens] = {}
        self._sound: dict[tuple[object, ...], bool] = {}
        self._seats: dict[str, list[Seat]] = {}

    def fit(self, job: Job, front: str, package: str) -> Fit:
        """The answer to a job.

        ``front`` and ``package`` name all that it says of the frame, and of package and limits without prices.
        """
        right, left = nasal(job["right"], False), nasal(job["left"], True)
        both = job["has_right"] and job["has_left"]
        if not both or not quote.same_lens(job, right, left) or not self._is_sound(job, front, package):
            return quote.fit_among(job, self._seats_in(front))
        return judged_alike(job, right, self._lens(job, right, front))

    def _is_sound(self, job: Job, front: str, package: str) -> bool:
        """Whether every number of a job is possible."""
        faults: list[Reason] = []
        wearer_faults(job, faults)
        made = (package, job["measures"]["vertex"], job["options"]["tint_depth"])
        if (front,) not in self._sound:
            make_room(self._sound)
            of_frame: list[Reason] = []
            frame_faults(job["frame"], of_frame)
            self._sound[front,] = not of_frame
        if made not in self._sound:
            of_package: list[Reason] = []
            package_faults(job, of_package)
            self._sound[made] = not of_package
        return not faults and self._sound[front,] and self._sound[made]

    def _seats_in(self, front: str) -> list[Seat]:
        """The seats that were found in a frame."""
        if front not in self._seats and len(self._seats) >= MOST_FRONTS:
            self._seats.clear()
        return self._seats.setdefault(front, [])

    def _lens(self, job: Job, eye: Eye, front: str) -> Lens:
        """``kernel.lens.lens_for``, with what was ground before."""
        pd, height = job["measures"]["pd_right"], job["measures"]["height_right"]
        seat = seat_for(self._seats_in(front), job["frame"], job["package"]["kind"], pd, height)
        lens = laid_out(job, eye, seat)
        if lens["blank_largest"] == 0.0:
            lens["fault"] = NOT_MADE
            return lens
        key = (front, *eye.values(), lens["decentration_in"], lens["decentration_up"], *_cut(job["package"], lens))
        if key not in self._lenses:
            make_room(self._lenses)
            self._lenses[key] = ground(job, eye, seat, lens.copy())
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


def judged_alike(job: Job, eye: Eye, lens: Lens) -> Fit:
    """``kernel.quote.judged`` for one lens that both eyes get: what is found of the one is said of the other."""
    reasons: list[Reason] = []
    quote.eye_reasons(job, eye, lens, job["measures"]["height_right"], "R", reasons)
    reasons += [{**reason, "eye": "L"} for reason in reasons]
    quote.shared_reasons(job, eye, eye, lens, lens, reasons)
    return {"verdict": quote.verdict_of(reasons), "reasons": reasons, "right": lens, "left": lens}


def _cut(package: Package, lens: Lens) -> tuple[object, ...]:
    """What of a package and of a laid-out lens its surfaces, its thickness and its weight depend on."""
    finished = package["finished"]
    center = finished_center(package, on_step(lens["strongest"])) if finished else package["min_center"]
    return lens["front"], package["index"], package["conic"], package["density"], finished, center
