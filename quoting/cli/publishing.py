"""``changes`` and ``publish``: what another look at the site would show, and the site put where the public sees it."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import NoReturn

import click

from quoting.catalog.placeholders import placeholders
from quoting.cli.common import DAY, FOLDER, JOBS, day_of, misuse, own_shop, tell
from quoting.cli.waiting import progress_bar
from quoting.findings import errors
from quoting.show.changes import brief_text, changes_text
from quoting.show.differences import Changes
from quoting.site import publish as publishing
from quoting.site.alone import BusyError
from quoting.site.build import prose_of
from quoting.site.changes import compare
from quoting.site.changes_page import changes_page
from quoting.site.past import NothingError, build_at
from quoting.site.publish import stands_in
from quoting.site.record import Record
from quoting.site.revision import RevisionError, at_revision

TO = click.option(
    "--to", "output", type=FOLDER, default=Path("www"), show_default=True, help="Where the published site stands."
)
ON = click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")


@click.command()
@click.argument("shop", type=FOLDER, required=False)
@TO
@click.option("--since", default="last", show_default=True, help="A build's number, a git revision, or a folder.")
@click.option("--all", "every", is_flag=True, help="All rows of each part, not the first ten.")
@click.option("--json", "as_json", is_flag=True, help="For programs.")
@click.option("--html", "page", type=click.Path(dir_okay=False, path_type=Path), help="Write a page to look at.")
@ON
def changes(
    shop: Path | None, output: Path, since: str, every: bool, as_json: bool, page: Path | None, on: datetime | None
) -> None:
    """What would change if the site were published now: pages, verdicts, prices, links.  Nothing is published.

    It is compared with the build that stands in --to, or with --since: an earlier build by its number, a revision of
    the shop folder's git repository, another shop folder, or another folder with a published site.
    """
    folder, day = own_shop(shop), day_of(on)
    before, name = _earlier(folder, output, since, day)
    found = compare(before, _record(folder, day), name)
    if page is not None:
        page.write_text(changes_page(found), encoding="utf-8")
        click.echo(f"A page to look at: {page}", err=True)
    if as_json:
        click.echo(json.dumps(found.as_dict(), indent=2, ensure_ascii=False))
    elif page is None or every:
        click.echo(changes_text(found, every))
    else:
        click.echo(brief_text(found))


def _earlier(shop: Path, output: Path, since: str, day: date) -> tuple[Record, str]:
    """What is compared with, and what it is called."""
    try:
        if since == "last" or since.isdecimal():
            return _published(output, since)
        if Path(since).is_dir():
            if (Path(since) / "shop.yaml").is_file():
                return _record(Path(since), day), since
            return _published(Path(since), "last")
        with at_revision(shop, since) as folder:
            prose = prose_of(shop)
            outside = prose if prose and not prose.resolve().is_relative_to(shop.resolve()) else None
            return _record(folder, day, outside), f"revision {since}"
    except NothingError as fault:
        misuse(fault)
    except RevisionError as fault:
        misuse(f"--since {since}: {fault}. It may be a build's number, a folder, or a revision of git")
    except BusyError as busy:
        tell([busy.finding(output)])
        sys.exit(1)
    except ValueError as fault:
        _unreadable(output, fault)


def _published(output: Path, since: str) -> tuple[Record, str]:
    place = output.resolve()
    found = stands_in(place) if since == "last" else build_at(place, int(since))
    if found is None:
        raise NothingError(f"nothing was published to {output} yet: publish it, or name another folder with --to")
    return found.record, f"build {found.number}"


def _record(folder: Path, day: date, content: Path | None = None) -> Record:
    """What a shop's site would say, or its findings and exit code 1."""
    with progress_bar(str(folder)) as progress:
        result, record = publishing.recorded(folder, day, progress, content)
    if record is None:
        tell(result.findings)
        sys.exit(1)
    tell(errors(result.findings))
    return record


def _unreadable(output: Path, fault: Exception) -> NoReturn:
    tell([publishing.refused(output, fault)])
    sys.exit(1)


@click.command()
@click.argument("shop", type=FOLDER, required=False)
@TO
@click.option("--dry-run", is_flag=True, help="Build and compare, and put nothing there.")
@click.option("--back", is_flag=True, help="Put the build that stood before in place again; this one goes.")
@ON
@JOBS
def publish(shop: Path | None, output: Path, dry_run: bool, back: bool, on: datetime | None, jobs: int | None) -> None:
    """Build the site and put it in place of the one in --to, as a whole or not at all; say what changes.

    The last three builds before it are kept in a hidden folder beside --to, such as .www.bevelbook-past: --back puts
    the one before in place, and again the one before that.  A page that is gone leads on to the nearest that stands,
    or to the one that `redirects` in shop.yaml names.  `changes` tells beforehand, and in full, what changes.
    """
    if back:
        if dry_run or on or shop or jobs:
            misuse("--back takes --to alone: it brings back a build as it was")
        _back(output)
        return
    folder, day = own_shop(shop), day_of(on)
    try:
        with progress_bar(str(folder)) as progress:
            done = publishing.publish(folder, output, day, progress, dry_run, jobs or 0)
    except ValueError as fault:
        _unreadable(output, fault)
    unmended = [replace(one, severity="warning") for one in placeholders(folder)]  # the public is about to see them
    tell([*done.result.findings, *unmended])
    if errors(done.result.findings):
        click.echo("The site was not touched.", err=True)
        sys.exit(1)
    _said(done, output, dry_run)


def _said(done: publishing.Published, output: Path, dry_run: bool) -> None:
    """The short form of what changed, and what was done."""
    known: Changes | None = done.changes
    since = f"Since {known.before.name} of {known.before.day}:\n" if known else ""
    said = brief_text(known) if known else f"{done.result.pages} pages, the first that are published here."
    click.echo(f"{since}{said}")
    if dry_run:
        click.echo(f"Nothing was published; without --dry-run it goes to {output}.")
    else:
        again = known is not None and known.before.name == f"build {done.number}"
        said = f"It stands as build {done.number} still" if again else f"Published as build {done.number}"
        click.echo(f"{said}: {output / 'index.html'}")


def _back(output: Path) -> None:
    try:
        number, found = publishing.back(output)
    except NothingError as fault:
        misuse(fault)
    tell(found)
    if found:
        click.echo("The site was not touched.", err=True)
        sys.exit(1)
    click.echo(
        f"Build {number} stands in {output} again. The shop's files are as they were: mend them before you publish."
    )
