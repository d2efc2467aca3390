"""Questions in a terminal: each answer is checked at once, and asked for again until it is good."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterator, Sequence

import click

from quoting.findings import Finding, printable


def in_terminal() -> bool:
    """Whether somebody is there to be asked."""
    return sys.stdin.isatty()


def answer(
    question: str,
    check: Callable[[str], Finding | None],
    default: str = "",
    known: Sequence[str] = (),
    empty: bool = False,
) -> str:
    """Ask until the answer is good.  Tab completes what is known; nothing may be answered where ``empty``."""
    usual = default if default or not empty else ""
    with completing(known):
        while True:
            told: str = click.prompt(question, default=usual if usual or empty else None, show_default=bool(usual))
            text = told.strip()
            if not text.isprintable():
                click.echo("  this holds a sign that cannot be printed: type it anew", err=True)
                continue
            fault = check(text) if text or not empty else None
            if fault is None:
                return text
            click.echo("\n".join(f"  {printable(line)}" for line in (fault.message, fault.hint) if line), err=True)


@contextlib.contextmanager
def completing(known: Sequence[str]) -> Iterator[None]:
    """Within it, the Tab key completes these words where the terminal can do that."""
    try:
        import readline
    except ImportError:  # Windows
        yield
        return

    def complete(text: str, state: int) -> str | None:
        fits = [word for word in known if word.casefold().startswith(text.casefold())]
        return fits[state] if state < len(fits) else None

    before, marks = readline.get_completer(), readline.get_completer_delims()
    readline.set_completer(complete)
    readline.set_completer_delims("")
    # macOS has another library under this name, with orders of its own (Python's manual of readline)
    readline.parse_and_bind("bind ^I rl_complete" if "libedit" in (readline.__doc__ or "") else "tab: complete")
    try:
        yield
    finally:
        readline.set_completer(before)
        readline.set_completer_delims(marks)
