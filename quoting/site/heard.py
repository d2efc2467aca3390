"""What Pelican says while it runs, as findings: it tells its faults to a log and goes on, and we do not."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import contextlib
import logging
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pelican.log import LimitLogger, console

from quoting.findings import Finding, Mark, Severity
from quoting.site.said import HINT, known


class Heard(logging.Handler):
    """Collects warnings and errors, each with the file it is about where one is named."""

    def __init__(self, content: Path) -> None:
        super().__init__(logging.WARNING)
        self.content = content
        self.findings: list[Finding] = []

    def emit(self, record: logging.LogRecord) -> None:
        """One message; what was raised meanwhile is part of it, since Pelican keeps that to itself."""
        source, words, cause = self._source(record.args), self._words(record.args), sys.exc_info()[1]
        is_known, say = known(str(record.msg))
        if is_known and (source or say is None):
            if say is not None and source is not None:
                self.findings.append(say(source, words, cause))
            return
        severity: Severity = "error" if record.levelno >= logging.ERROR else "warning"
        said = f"{record.getMessage()}: {cause}" if cause else record.getMessage()
        self.findings.append(Finding(Mark(str(source or self.content), 1, 1), "prose", said, HINT, severity))

    def _words(self, arguments: Any) -> tuple[str, ...]:
        return tuple(str(argument) for argument in arguments) if isinstance(arguments, tuple) else ()

    def _source(self, arguments: Any) -> Path | None:
        """The first of the message's arguments that is a file of prose."""
        for argument in arguments if isinstance(arguments, tuple) else ():
            named = getattr(argument, "source_path", argument)
            if isinstance(named, str) and named and (self.content / named).is_file():
                return self.content / os.path.relpath(self.content / named, self.content)
        return None


def limited() -> list[LimitLogger]:
    """Pelican's loggers: each tells a fault once in the life of a process, and that is too seldom for two builds."""
    known = [logging.getLogger(name) for name in list(logging.root.manager.loggerDict) if name.startswith("pelican")]
    return [logger for logger in [logging.getLogger(), *known] if isinstance(logger, LimitLogger)]


@contextlib.contextmanager
def heard(content: Path) -> Iterator[Heard]:
    """Pelican's warnings and errors while it runs; what it prints goes nowhere, and the process is left as it was."""
    handler, root, own = Heard(content), logging.getLogger(), logging.getLogger("pelican")
    before = (root.handlers[:], root.level, own.handlers[:], console.quiet, sys.path[:])
    loggers = limited()
    for logger in loggers:
        logger.disable_filter()
    root.handlers, own.handlers, console.quiet = [handler], [], True
    root.setLevel(logging.WARNING)
    try:
        yield handler
    finally:
        root.handlers, own.handlers, console.quiet, sys.path[:] = before[0], before[2], before[3], before[4]
        root.setLevel(before[1])
        for logger in loggers:
            logger.enable_filter()
