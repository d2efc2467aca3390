"""``calc`` and ``bench``: the calculators of the bench, in a terminal and as a page."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
from pathlib import Path

import click

from quoting.calculators.model import Calculator, UnfitError, shown
from quoting.calculators.table import CALCULATORS, TABLE
from quoting.choosing import UnknownError, pick
from quoting.cli.common import misuse
from quoting.site.bench_page import bench_page

# By this a page of ours is known before it is written anew
BENCH_MARK = "<title>The bench: calculators for spectacle lenses</title>"


def names(_context: click.Context, _: click.Parameter, typed: str) -> list[str]:
    """What the shell completes."""
    return [one for one in CALCULATORS if one.startswith(typed)]


@click.command(context_settings={"ignore_unknown_options": True})
@click.argument("name", required=False, shell_complete=names)
@click.argument("values", nargs=-1, metavar="[FIELD=VALUE]...")
@click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md.")
def calc(name: str | None, values: tuple[str, ...], as_json: bool) -> None:
    """Work out NAME, such as `calc vertex sphere=-10 from=12 to=0`; without NAME, list what there is.

    What is not said stands as in the example that the calculator shows. The bench page gives the same numbers.
    """
    if name is None:
        click.echo(_listed_json() if as_json else _listed())
        return
    try:
        one = pick("calculator", CALCULATORS, name)
        typed = _typed(one, values)
        given = one.values(typed)
        numbers = one.answer(given)
    except (UnknownError, UnfitError) as fault:
        misuse(fault)
    if as_json:
        fields = {field.id: value for field, value in zip(one.fields, given, strict=True)}
        results = [
            {"label": result.label, "value": number, "shown": text}
            for result, number, text in zip(one.results, numbers, one.told(numbers), strict=True)
        ]
        said = {"name": one.name, "fields": fields, "results": results, "formula": one.formula, "source": one.source}
        click.echo(json.dumps(said, indent=2, ensure_ascii=False))
    else:
        click.echo(_told(one, given, numbers, typed))


def _typed(one: Calculator, values: tuple[str, ...]) -> dict[str, str]:
    """Field -> what was typed.   Raises UnknownError."""
    known = {field.id: field for field in one.fields}
    typed: dict[str, str] = {}
    for text in values:
        name, sign, value = text.partition("=")
        if not sign:
            raise UnknownError(f"{text!r}: write FIELD=VALUE, such as {one.fields[0].id}={one.fields[0].default}")
        pick(f"field of {one.name}", known, name)
        if name in typed:
            raise UnknownError(f"{name} is given twice")
        typed[name] = value
    return typed


def _listed() -> str:
    width = max(len(one.name) for one in TABLE)
    lines = [f"{one.name:<{width}}  {one.title}: {' '.join(field.id for field in one.fields)}" for one in TABLE]
    return "\n".join(lines)


def _listed_json() -> str:
    return json.dumps({"calculators": [one.as_dict() for one in TABLE]}, indent=2, ensure_ascii=False)


def _told(one: Calculator, given: list[float | str], numbers: list[float], typed: dict[str, str]) -> str:
    rows = []
    for field, value in zip(one.fields, given, strict=True):
        text = value if isinstance(value, str) else shown(field.kind, value, unit=True)
        label = field.id if field.label == field.id.replace("-", " ") else f"{field.id}: {field.label}"
        rows.append((label, text + ("" if field.id in typed else "  (not said)")))
    found = list(zip((result.label for result in one.results), one.told(numbers), strict=True))
    width = max(len(label) for label, _ in rows + found)
    lines = [one.title, *(f"  {label:<{width}}  {text}" for label, text in rows), ""]
    lines += [f"  {label:<{width}}  {text}" for label, text in found]
    return "\n".join([*lines, "", f"Formula: {one.formula}", f"Source: {one.source}"])


@click.command()
@click.option(
    "--to", "target", type=click.Path(dir_okay=False, path_type=Path), default=Path("bench.html"), show_default=True,
    help="The file to write.",
)  # fmt: skip
@click.option("--force", is_flag=True, help="Also over a file that is not a bench page.")
def bench(target: Path, force: bool) -> None:
    """Write the calculators as one page that works without a network, with drawings, for the bench."""
    if target.exists() and not force and BENCH_MARK not in target.read_text(encoding="utf-8", errors="replace")[:2000]:
        misuse(f"{target} is there already and no bench page: name another file, or say --force")
    target.write_text(bench_page(), encoding="utf-8")
    click.echo(f"The bench page is {target}. Open it in any browser; it needs no network.")
