"""Build the site beside the old one, and put it in its place only when it is whole."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import contextlib
import io
import logging
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pelican import Pelican
from pelican.settings import read_settings

from quoting.catalog.load import load
from quoting.catalog.shop import Catalog
from quoting.findings import Finding, Mark, errors
from quoting.offers import Offers
from quoting.places import shared
from quoting.site.material import Material, Progress
from quoting.site.settings import settings_for

# A folder without this file is not ours to replace
MARKER = ".bevelbook-site"


@dataclass(frozen=True, slots=True)
class BuildResult:
    findings: tuple[Finding, ...]
    pages: int
    output: Path


class Heard(logging.Handler):
    """Pelican tells its faults to a log and goes on; we hear them as findings."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.findings: list[Finding] = []

    def emit(self, record: logging.LogRecord) -> None:
        severity = "error" if record.levelno >= logging.ERROR else "warning"
        mark = Mark("content", 1, 1)
        hint = "mend the Markdown file that is named"
        self.findings.append(Finding(mark, "prose", record.getMessage(), hint, severity))  # type: ignore[arg-type]


@contextlib.contextmanager
def heard() -> Iterator[Heard]:
    """Pelican's warnings and errors while it runs; what it prints goes nowhere."""
    handler, loggers = Heard(), [logging.getLogger(name) for name in ("pelican", "")]
    before = [(logger, logger.handlers[:], logger.level) for logger in loggers]
    for logger in loggers:
        logger.handlers = [handler] if logger.name == "root" else []
    try:
        with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
            yield handler
    finally:
        for logger, handlers, level in before:
            logger.handlers, logger.level = handlers, level


def nothing(_: int, __: int, ___: str) -> None:
    """Progress that nobody watches."""


def prose_of(shop: Path) -> Path | None:
    """The shop's own ``content``; the demo's lies beside it."""
    if (shop / "content").is_dir():
        return shop / "content"
    return shared("content") if shop.resolve() == shared("demo_catalog").resolve() else None


def refusal(output: Path) -> list[Finding]:
    """Why a folder may not be replaced; nothing where it may."""
    if output.is_dir() and any(output.iterdir()) and not (output / MARKER).exists():
        message = f"{output} holds files that are not a site of ours, and would be replaced"
        hint = "name an empty folder, or one that is not there"
        return [Finding(Mark(str(output), 1, 1), "not-a-site", message, hint)]
    if output.exists() and not output.is_dir():
        message = f"{output} is a file, not a folder"
        return [Finding(Mark(str(output), 1, 1), "not-a-site", message, "name a folder")]
    return []


def rendered(catalog: Catalog, content: Path, output: Path, day: date, progress: Progress) -> Material:
    """Everything in ``output``; what was found is in the result's findings."""
    site = Material(Offers(catalog, day), progress)
    with heard() as log:
        Pelican(read_settings(override=settings_for(site, content, output))).run()
    site.findings.extend(log.findings)
    if site.written != site.total:
        message = f"{site.written} of {site.total} pages were written"
        site.findings.append(Finding(Mark(str(output), 1, 1), "pages-missing", message, "build again, and tell us"))
    (output / MARKER).write_text("This folder is replaced as a whole by the next build.\n", encoding="utf-8")
    return site


def swap(new: Path, output: Path) -> None:
    """Put the new site in the place of the old one; the old one goes only when the new one stands."""
    old = output.with_name(f".{output.name}.old")
    shutil.rmtree(old, ignore_errors=True)
    if output.exists():
        output.replace(old)
    new.replace(output)
    shutil.rmtree(old, ignore_errors=True)


def recovered(output: Path) -> None:
    """After a crash between the two steps of a swap, the old site comes back."""
    old = output.with_name(f".{output.name}.old")
    if not output.exists() and (old / MARKER).exists():
        old.replace(output)


def build(
    shop_folder: Path, output: Path, day: date, progress: Progress | None = None, content: Path | None = None
) -> BuildResult:
    """Check the shop and build its site into ``output``.  Any error leaves what stands there as it was."""
    catalog, findings = load(shop_folder)
    output = output.absolute()
    recovered(output)
    findings = [*findings, *refusal(output)]
    if catalog is None or errors(findings):
        return BuildResult(tuple(findings), 0, output)
    output.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=f".{output.name}.", dir=output.parent) as side:
        prose = content or prose_of(shop_folder) or Path(side) / "no-prose"
        prose.mkdir(exist_ok=True)
        new = Path(side) / "site"
        new.mkdir()
        site = rendered(catalog, prose, new, day, progress or nothing)
        findings += site.findings
        if errors(findings):
            return BuildResult(tuple(findings), 0, output)
        pages = sum(1 for _ in new.rglob("*.html"))
        swap(new, output)
    return BuildResult(tuple(findings), pages, output)
