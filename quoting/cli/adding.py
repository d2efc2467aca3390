"""``frame add`` and ``package add``: asked in a terminal, or given as options."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from quoting.catalog.load import load_written
from quoting.catalog.shop import Catalog
from quoting.cli.common import FOLDER, misuse, own_shop, tell
from quoting.cli.completing import KNOWN, frame_makers, frame_materials, lens_materials, package_makers
from quoting.cli.interview import Interview
from quoting.cli.prompting import answer, in_terminal
from quoting.findings import Finding, Mark, errors
from quoting.keeping.adding import FRAMES, PACKAGES, Addition, Kind, added, maker_fault, makers
from quoting.keeping.entries import Entry, entry_of
from quoting.keeping.questions import ASKED, FIELDS, WORDS, frame_questions, ordered, package_questions, package_rows
from quoting.keeping.whole import StaleError, write_all
from quoting.nodes import read_text

SCALARS = {
    FRAMES: ("name", "id", "family", "mounting", "material", "curve", "wrap", "tilt", "about"),
    PACKAGES: ("name", "id", "design", "material", "light", "coating", "finished", "prism", "about"),
}
ROWS = {
    FRAMES: {
        "size": ("sizes", "a: 52, b: 36, dbl: 18, ed: 55.5, temple: 145"),
        "colorway": ("colorways", 'name: Slate, id: slate, version: optical, price: 120.00, front: "#444a52", ...'),
    },
    PACKAGES: {
        "range": ("ranges", "from: -6.00, to: +4.00, cylinder: 2.00, diameter: 70"),
        "center": ("centers", "from: -6.00, to: +4.00, center: 2.0"),
        "price": ("prices", "from: -6.00, to: +4.00, lens: 30.00"),
    },
}


@click.group()
def frame() -> None:
    """Add frames to a shop: one that is asked for, or all of a maker's table."""


@click.group()
def package() -> None:
    """Add a lens package to a shop."""


def _help(name: str) -> str:
    words = f": {', '.join(WORDS[name])}" if name in WORDS else ""
    return f"{ASKED[name]}{words}."


def described(kind: Kind) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """An option for each question about a frame or package."""

    def with_options(command: Callable[..., None]) -> Callable[..., None]:
        frames = kind is FRAMES
        named, materials = (frame_makers, frame_materials) if frames else (package_makers, lens_materials)
        known = KNOWN | {"material": materials}
        about = "Its maker; one that is new gets a file of its own."
        options = [click.option("--maker", shell_complete=named, help=about)]
        options += [
            click.option(f"--{name}", shell_complete=known.get(name), help=_help(name)) for name in SCALARS[kind]
        ]
        options += [
            click.option(f"--{name}", multiple=True, help=f'A row of `{field}`, as in a file: "{example}".')
            for name, (field, example) in ROWS[kind].items()
        ]
        for option in reversed(options):
            command = option(command)
        return command

    return with_options


@frame.command("add")
@click.argument("shop", type=FOLDER, required=False)
@described(FRAMES)
def add_frame(shop: Path | None, **words: Any) -> None:
    """Add a frame to the file of its maker.  Asks what is not given as an option."""
    _add(FRAMES, own_shop(shop), words)


@package.command("add")
@click.argument("shop", type=FOLDER, required=False)
@described(PACKAGES)
def add_package(shop: Path | None, **words: Any) -> None:
    """Add a lens package to the file of its maker.  Asks what is not given as an option."""
    _add(PACKAGES, own_shop(shop), words)


def _add(kind: Kind, folder: Path, words: dict[str, Any]) -> None:
    catalog, findings = load_written(folder)
    if catalog is None:
        tell(findings)
        sys.exit(1)
    ask = in_terminal()
    given = _given(kind, words)
    maker = _maker(kind, catalog, words["maker"], ask)
    interview = Interview(kind, catalog, maker, ask)
    questions = frame_questions(catalog, maker) if kind is FRAMES else package_questions(catalog)
    entry = interview.filled({}, questions, given)
    if kind is PACKAGES:
        entry = interview.filled(entry, package_rows(catalog, entry), given)
    entry |= {name: value for name, value in given.items() if name not in entry and value}
    interview.refuse_faults(entry)
    addition = added(folder, catalog, kind, [(maker, ordered(entry))])
    tell(addition.findings)
    if errors(addition.findings):
        click.echo("Nothing was written.", err=True)
        sys.exit(1)
    save(folder, addition)
    click.echo(f"Written: {', '.join(path.as_posix() for path in addition.contents)}")


def save(folder: Path, addition: Addition) -> None:
    """Write all files or none.   Exit code 1 where somebody changed one meanwhile."""
    try:
        write_all(folder, dict(addition.contents), addition.before)
    except StaleError as fault:
        click.echo(f"{fault.filename}: {fault.strerror}.", err=True)
        sys.exit(1)


def _given(kind: Kind, words: dict[str, Any]) -> Entry:
    """What the options say; rows are written as in a file.   Exit code 1 for a row that cannot be read."""
    unprintable = [name for name in SCALARS[kind] if words[name] and not words[name].isprintable()]
    if unprintable:
        misuse(f"--{unprintable[0]} holds a sign that cannot be printed")
    given: Entry = {name: " ".join(words[name].split()) for name in SCALARS[kind] if words[name] is not None}
    faults = []
    for option, (field, _) in ROWS[kind].items():
        rows = []
        for number, text in enumerate(words[option], 1):
            inside = text.strip()
            root = read_text(inside if inside.startswith("{") else "{" + inside + "}", f"--{option} {number}")
            rows.append(entry_of(root, FIELDS[field]))
            faults += [_shifted(one, text) for one in root.findings]
        if rows:
            given[field] = rows
    if faults:
        tell(faults)
        sys.exit(1)
    return given


def _shifted(fault: Finding, text: str) -> Finding:
    """The fault of a row where it was typed: without the brace that was put before it."""
    column = fault.mark.column - (0 if text.strip().startswith("{") else 1)
    return replace(fault, mark=Mark(fault.mark.file, 1, max(1, column), text.strip(), fault.mark.length))


def _maker(kind: Kind, catalog: Catalog, given: str | None, ask: bool) -> str:
    there = makers(kind, catalog)
    if given is None and not ask:
        misuse("nobody is here to be asked: give --maker, and an option for each other question (see --help)")
    named = given if given is not None else answer("Maker", maker_fault, known=tuple(there))
    plain = " ".join(named.split())
    if not plain or not plain.isprintable():
        misuse("--maker: write a name in letters that can be printed")
    if (fault := maker_fault(plain)) is not None:
        misuse(f"--maker: {fault.message}")
    return next((one for one in there if one.casefold() == plain.casefold()), plain)
