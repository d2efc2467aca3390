"""A bar on standard error while pages are made."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

from quoting.site import material


@contextmanager
def progress_bar(what: str) -> Iterator[material.Progress]:
    """It is gone afterwards, and not there at all where nobody looks: in a file, in a pipe."""
    console = Console(stderr=True)
    columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.completed}/{task.total}"))
    away = not console.is_terminal
    with Progress(*columns, TimeElapsedColumn(), console=console, transient=True, disable=away) as bar:
        task = bar.add_task(what, total=None)
        yield lambda done, total, page: bar.update(task, completed=done, total=total, description=page)
