"""The questions about one frame or package, asked one after another; what options gave is not asked."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import click

from quoting.catalog.shop import Catalog
from quoting.cli.common import misuse, tell
from quoting.cli.prompting import answer
from quoting.findings import Finding, Mark, printable
from quoting.keeping.adding import Kind, reader
from quoting.keeping.entries import Entry, Value, findings
from quoting.keeping.entries import Path as Place
from quoting.keeping.questions import ID, Question, Rows

ROW, QUOTED = re.compile(r"\[\{(.*)\}\] \(a list\)"), r'"\1"'
OPTIONS = {"sizes": "size", "colorways": "colorway", "ranges": "range", "centers": "center", "prices": "price"}


@dataclass(frozen=True, slots=True)
class Interview:
    """Somebody who is asked about an entry; where nobody is there, what is missing ends the command."""

    kind: Kind
    catalog: Catalog
    maker: str
    ask: bool

    def told(self, entry: Entry) -> list[tuple[Place, Finding]]:
        """What the readers of the shop's files tell of it."""
        called = partial(_called, typed=self.ask)
        return findings(entry, reader(self.kind, self.catalog, self.maker), self.kind.words, called)

    def filled(self, entry: Entry, questions: Sequence[Question | Rows], given: Entry) -> Entry:
        """The entry with what was given, and with answers to the questions that are left."""
        for question in questions:
            if given.get(question.name) == "" and isinstance(question, Question) and question.optional:
                continue
            if question.name in given:
                entry = {**entry, question.name: _with_ids(question, given[question.name])}
            elif self.ask and isinstance(question, Rows):
                entry = {**entry, question.name: []}
                entry[question.name] = self._rows(entry, question)
            elif self.ask and isinstance(question, Question):
                entry = self._asked(entry, (), question, lambda entry: entry)
            elif question == ID and (usual := ID.usual(entry)):
                entry = {**entry, ID.name: usual}
        return entry

    def _rows(self, entry: Entry, rows: Rows) -> list[Entry]:
        """Rows until there are no more; those that do not go together are asked for again."""
        done: list[Entry] = []
        while True:
            click.echo(f"{rows.row.capitalize()} {len(done) + 1}:")
            row: Entry = {}
            for question in rows.questions:
                at = (rows.name, len(done))
                row = self._asked(row, at, question, partial(_with_row, entry, rows.name, tuple(done)))
            done.append(row)
            if click.confirm(f"Another {rows.row}", default=False):
                continue
            faults = [one for _, one in self.told({**entry, rows.name: done}) if one.code not in ("missing",)]
            if not (wrong := [one for one in faults if one.severity == "error"]):
                return done
            for one in wrong:
                click.echo(printable(f"  {one.message} ({one.hint})"), err=True)
            if not click.confirm(f"Enter these anew ({rows.name})", default=True):
                click.echo("Nothing was written.", err=True)
                sys.exit(1)
            done = []

    def _asked(self, part: Entry, at: Place, question: Question, whole: Callable[[Entry], Entry]) -> Entry:
        """A part of the entry with the answer to one question; ``whole`` puts the part into its place."""

        def put(text: str) -> Entry:
            if not question.inside:
                return {**part, question.name: text}
            before = part.get(question.inside)
            return {**part, question.inside: {**(before if isinstance(before, dict) else {}), question.name: text}}

        def check(text: str) -> Finding | None:
            field = (*at, question.inside, question.name) if question.inside else (*at, question.name)
            faults = [one for place, one in self.told(whole(put(text))) if place == field and one.code != "missing"]
            return next((one for one in faults if one.severity == "error"), None)

        usual = question.usual(part)
        text = answer(_with_known(question), check, usual, question.known, question.optional)
        return put(text) if text else part

    def refuse_faults(self, entry: Entry) -> None:
        """Tell each fault at its option and end with exit code 1; with 2 where something is missing only."""
        faults = [(place, one) for place, one in self.told(entry) if one.severity == "error"]
        if not faults:
            return
        missing = [(place, one) for place, one in faults if one.code == "missing"]
        wrong = [_at_option(place, one) for place, one in faults if one.code != "missing"]
        tell(wrong)
        if wrong:
            click.echo("Nothing was written.", err=True)
            sys.exit(1)
        misuse("nobody is here to be asked, and this is missing:\n" + "\n".join(map(_lacking, missing)))


def _with_ids(question: Question | Rows, given: Value) -> Value:
    """Rows of an option, each with the id that its name gives where it has none of its own."""
    if not isinstance(given, list) or not isinstance(question, Rows) or ID not in question.questions:
        return given
    return [row if "id" in row or not ID.usual(row) else {**row, "id": ID.usual(row)} for row in given]


def _with_row(entry: Entry, name: str, before: tuple[Entry, ...], row: Entry) -> Entry:
    return {**entry, name: [*before, row]}


def _with_known(question: Question) -> str:
    listed = ", ".join(question.known)
    return f"{question.text} ({listed})" if 0 < len(listed) <= 100 else question.text


def _lacking(missing: tuple[Place, Finding]) -> str:
    """The option that is missing with an example; for a row, what it has not."""
    place, fault = missing
    if len(place) > 1:
        return f"  in --{OPTIONS.get(str(place[0]), place[0])} {int(place[1]) + 1}: {fault.hint}"
    name, _, example = fault.hint.removeprefix("add ").partition(": ")
    return f"  --{OPTIONS.get(name, name)}, such as {ROW.sub(QUOTED, example)}"


def _called(place: Place, typed: bool) -> str:
    """A row of the entry as who wrote it knows it: by the question, or by the option that gave it."""
    name = OPTIONS.get(str(place[0]), str(place[0])) if place else ""
    row = f" {int(place[1]) + 1}" if len(place) > 1 else ""
    return f"{name}{row}" if typed else f"--{name}{row}"


def _at_option(place: Place, fault: Finding) -> Finding:
    """The fault at the option that gave the value."""
    name = str(place[0]) if place else ""
    option = OPTIONS.get(name, name)
    row = f" {int(place[1]) + 1}" if len(place) > 1 and isinstance(place[1], int) else ""
    text = fault.mark.text[fault.mark.column - 1 :][: fault.mark.length]
    hint = fault.hint if row else fault.hint.replace(f"write for example {name}: ", f"write for example --{option} ")
    return replace(fault, mark=Mark(f"--{option}{row}", 1, 1, text, max(1, len(text))), hint=hint)
