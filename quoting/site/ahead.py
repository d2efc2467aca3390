"""The boards and drawings of a large shop, worked out ahead of its pages by several processes.

What they find goes into the memory of the build, where the pages look for it as ever: so the site is the same, byte for
byte, with any number of them, and what no process has brought is worked out here.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Iterator, Sequence
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from datetime import date
from multiprocessing import resource_tracker
from multiprocessing.connection import wait
from pathlib import Path

from quoting.catalog.model import Frame
from quoting.catalog.shop import Catalog
from quoting.choosing import in_words
from quoting.languages import Tongue, speaking
from quoting.offers import Offers
from quoting.remembered import Memory, remembering
from quoting.show.front import in_front
from quoting.site.editions import editions
from quoting.site.rows import Rows
from quoting.site.swaps import circumference

# A process takes about half a second to begin: so many rows of a board take about ten times as long
ROWS_EACH = 5000
# Frames that wait for each process, so that none waits for us; what they bring early is held in memory
WAITING = 8
# The system of Windows waits for no more
MOST = 60


class Ahead:
    """Frames whose boards are worked out elsewhere, and come when they are needed."""

    def __init__(self, pool: ProcessPoolExecutor | None, memory: Memory, frames: Sequence[Frame], most: int) -> None:
        self._pool = pool
        self._memory = memory
        self._due = {frame.id for frame in frames}
        self._next = iter(frames)
        self._most = most
        self._coming: dict[str, Future[list[tuple[str, bytes]]]] = {}

    def need(self, frame: Frame) -> None:
        """See to it that what is known of a frame's boards lies in the memory.   Raises what was raised over there."""
        if frame.id not in self._due or self._pool is None:
            return
        try:
            while len(self._coming) < self._most or frame.id not in self._coming:
                one = next(self._next, None)
                if one is None:
                    break
                with undisturbed():
                    self._coming[one.id] = self._pool.submit(worked, one.id)
            self._memory.take(self._coming.pop(frame.id).result())
        except BrokenExecutor:  # a process was ended from outside: the rest is worked out here
            self._pool = None
        self._due.discard(frame.id)


@contextmanager
def undisturbed() -> Iterator[None]:
    """Whatever begins meanwhile never hears Ctrl-C, not even at its very beginning; here it is heard afterwards."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    resource_tracker.ensure_running()  # else it begins with the first process, and lets Ctrl-C be heard again
    heard: list[int] = []
    usual = signal.getsignal(signal.SIGINT)
    ours = callable(usual) and threading.current_thread() is threading.main_thread()
    if ours:
        signal.signal(signal.SIGINT, lambda number, _: heard.append(number))  # another thread may be told of it
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
        if ours:
            signal.signal(signal.SIGINT, usual)
    if heard and callable(usual):
        usual(heard[0], None)


NOBODY = Ahead(None, Memory(None), (), 0)


@contextmanager
def ahead(offers: Offers, jobs: int) -> Iterator[Ahead]:
    """Begin with the boards of all frames that are not known; ``jobs``: how many processes, 0: as many as pay.

    They end with the build, however it ends.
    """
    frames = unknown(offers) if jobs != 1 and offers.memory.whole else []
    jobs = jobs or paying(offers.catalog, frames)
    if jobs < 2 or not frames:
        yield NOBODY
        return
    first = (offers.catalog, offers.day, offers.memory.file)
    count = min(jobs, MOST)
    context = multiprocessing.get_context("spawn")  # a fork of a process with threads may stand still for ever
    pool = ProcessPoolExecutor(count, context, initializer=begin, initargs=first)
    try:
        yield Ahead(pool, offers.memory, frames, count * WAITING)
    finally:
        pool.shutdown(cancel_futures=True)


def paying(catalog: Catalog, frames: Sequence[Frame]) -> int:
    """How many processes pay for the boards of these frames: a core for each, and enough for each to do."""
    rows = sum(len(frame.sizes) for frame in frames) * len(catalog.packages) * len(editions(catalog.shop))
    return min(cores(), rows // ROWS_EACH)


def cores() -> int:
    """On how many cores this process may run."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def tongues(offers: Offers) -> list[tuple[Tongue, Rows]]:
    """The languages of a site, and the rows of its boards in each."""
    spoken = [one.tongue for one in editions(offers.catalog.shop)]
    return [(tongue, Rows(in_words(offers, tongue.language))) for tongue in spoken]


def unknown(offers: Offers) -> list[Frame]:
    """The frames of which nothing is known in a language of the site, in the order of the catalog."""
    found = set()
    for tongue, rows in tongues(offers):
        with speaking(tongue):
            for frame in offers.catalog.frames.values():
                if not all(rows.knows(frame, size) for size in frame.sizes):
                    found.add(frame.id)
    return [frame for frame in offers.catalog.frames.values() if frame.id in found]


# What follows runs in the processes.


class Work:
    """What a process knows of its shop."""

    def __init__(self, offers: Offers) -> None:
        self.memory = offers.memory
        self.catalog = offers.catalog
        self.tongues = tongues(offers)


_work: list[Work] = []


def begin(catalog: Catalog, day: date, file: Path | None) -> None:
    """The beginning of a process: Ctrl-C is for the one that started it, and when that is gone this one ends, too."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    _work[:] = [Work(Offers(catalog, day, Memory(file, brings=True)))]


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)


def worked(frame_id: str) -> list[tuple[str, bytes]]:
    """The boards of a frame in every language, as they go into the memory."""
    (work,) = _work
    frame = work.catalog.frames[frame_id]
    for tongue, rows in work.tongues:
        with speaking(tongue):
            for size in frame.sizes:
                rows.board(frame, size)
    with remembering(work.memory):
        draw(work.catalog, frame)
    return work.memory.bring()


def draw(catalog: Catalog, frame: Frame) -> None:
    """What else takes long on a frame's page: its fronts, and how long its outlines are."""
    rim = catalog.shop.mountings[frame.mounting].rim
    for size in frame.sizes:
        circumference(size, frame.family)
        for sun in sorted({color.sun for color in frame.colorways}):
            in_front((frame.family, frame.mounting, sun), size, rim)
