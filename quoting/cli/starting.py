"""``new`` and ``completion``: a shop to begin with, and a shell that knows its ids."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import click
from click.shell_completion import get_completion_class

from quoting.cli.common import FOLDER, misuse, tell
from quoting.cli.prompting import answer, in_terminal
from quoting.findings import Finding, Mark
from quoting.keeping.starter import Answers, faults, free, lay_out, usual_currency

# The question, and the option that answers it
QUESTIONS = {
    "name": "The shop's name",
    "email": "E-mail address for customers",
    "locale": "Language and country, such as en_US or de_AT",
    "currency": "Currency",
    "shipping": "What a parcel costs (may be mended later)",
    "tax": "Tax in percent (may be mended later)",
    "tax_included": "Do the prices you write hold the tax already, yes or no",
}
USUAL = Answers("", "", "en_US", "USD")


@click.command()
@click.argument("folder", type=FOLDER)
@click.option("--name", help="The shop's name.")
@click.option("--email", help="Where customers write to.")
@click.option("--locale", help="Language and country, such as en_US or de_AT.  [default: en_US]")
@click.option("--currency", help="Three letters (ISO 4217).  [default: that of the country]")
@click.option("--region", default=USUAL.region, show_default=True, help="Where most parcels go.")
@click.option("--shipping", help="What a parcel costs.  [default: 0.00]")
@click.option("--tax", help="Percent, on frame, lenses and shipping alike.  [default: 0]")
@click.option("--tax-included", type=click.Choice(["yes", "no"]), help="Whether prices hold the tax.  [default: no]")
@click.option(
    "--examples",
    type=click.Choice(["few", "more"]),
    help="Lenses to start from: one finished, or three.  [default: more]",
)
@click.option("--yes", is_flag=True, help="Ask nothing: take the defaults for what is not named.")
def new(folder: Path, region: str, examples: str | None, yes: bool, **words: str | None) -> None:
    """Lay out a new shop in FOLDER: commented files to change, with an example frame and example lenses.

    Asks what is not given as an option.  It checks clean and can be built at once.
    """
    _refuse_taken(folder)
    ask = in_terminal() and not yes
    needed = ("name", "email") if yes else tuple(QUESTIONS)
    missing = [_option(name) for name in needed if words[name] is None]
    if missing and not ask:
        more = "" if yes else ", or --name, --email and --yes to take the defaults for the rest"
        misuse(f"nobody is here to be asked: give {', '.join(missing)}{more}")
    day = date.today()
    answers = replace(_answers(words, ask, day), region=region, more=_more(examples, ask))
    wrong = _faults(answers, day)
    tell(_at_option(fault, name, answers) for name, fault in wrong.items())
    findings = [] if wrong else lay_out(folder, answers, day)
    tell(findings)
    if wrong or findings:
        click.echo("Nothing was written.", err=True)
        sys.exit(1)
    click.echo(_farewell(folder, day))


def _refuse_taken(folder: Path) -> None:
    try:
        if free(folder):
            return
    except ValueError as fault:
        misuse(fault)
    misuse(f"{folder} is there already and not empty: name another folder")


def _faults(answers: Answers, day: date) -> dict[str, Finding]:
    try:
        return faults(answers, day)
    except ValueError as fault:
        misuse(fault)


def _option(name: str) -> str:
    return f"--{name.replace('_', '-')}"


def _answers(words: dict[str, str | None], ask: bool, day: date) -> Answers:
    """Options first, then questions, then what is usual."""
    answers = USUAL
    for name, question in QUESTIONS.items():
        usual = usual_currency(answers.locale) if name == "currency" else getattr(USUAL, name)
        given = words[name]
        if given is None:
            given = answer(question, _checking(answers, name, day), usual) if ask else usual
        changes: dict[str, Any] = {name: " ".join(given.split())}
        answers = replace(answers, **changes)
    return answers


def _checking(answers: Answers, name: str, day: date) -> Callable[[str], Finding | None]:
    def check(text: str) -> Finding | None:
        changes: dict[str, Any] = {name: text}
        if name == "locale":
            changes["currency"] = usual_currency(text) or "USD"
        return faults(replace(answers, **changes), day).get(name)

    return check


def _more(examples: str | None, ask: bool) -> bool:
    if examples is None and ask:
        return click.confirm("Examples of a lens made to order and of a progressive, too", default=True)
    return examples != "few"


def _at_option(fault: Finding, name: str, answers: Answers) -> Finding:
    """The same fault, where it was typed."""
    text = str(getattr(answers, name))
    return replace(fault, mark=Mark(_option(name), 1, 1, text, max(1, len(text))))


def _farewell(folder: Path, day: date) -> str:
    return f"""{folder} is a shop now; it checks clean.
  lines marked MEND in shop.yaml and prices/{day:%Y-%m}.yaml hold placeholders: write what is true of yours
  bevelbook frame add {folder}      your first frame
  bevelbook package add {folder}    your first lens package
  bevelbook serve {folder}          look at it
frames/example.yaml and lenses/example.yaml are examples with invented prices:
delete both once yours are there, before you publish."""


@click.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def completion(context: click.Context, shell: str) -> None:
    """Print what makes SHELL complete commands, options and ids, to be read by it when it starts."""
    found = get_completion_class(shell)
    assert found is not None, "click knows all three"
    root = context.find_root()
    click.echo(found(root.command, {}, "bevelbook", "_BEVELBOOK_COMPLETE").source())
