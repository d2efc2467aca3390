"""``check``, ``build``, ``serve`` and ``demo``: the owner's commands."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys
from datetime import date, datetime
from pathlib import Path

import click

from quoting.catalog.in_time import as_on
from quoting.catalog.load import load_sound
from quoting.catalog.photos import photo_findings
from quoting.catalog.placeholders import placeholders
from quoting.catalog.sound import FRAMES, LENSES
from quoting.choosing import choice_of
from quoting.cli.common import DAY, FOLDER, JOBS, day_of, loaded, misuse, own_shop, tell, tell_editor, to_mend
from quoting.cli.waiting import progress_bar
from quoting.findings import errors
from quoting.keeping.maps import maps_read
from quoting.offers import Ask, Offers
from quoting.places import shared
from quoting.prescription.text import read_slip
from quoting.private.sense import private_findings
from quoting.sense import MOST_ASKED, sound_sense, whole_sense
from quoting.show.paper import paper_of
from quoting.show.text import quote_text, ranked, summary
from quoting.site.build import End, prose_of
from quoting.site.build import build as build_site
from quoting.site.foretold import prose_findings
from quoting.site.serve import serve as serve_site

# The customer of the demo: a strong minus prescription, as a mail would have it
DEMO_RX = "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 31/32"
DEMO_FRAME = ("cottering", "52-18", "black")


@click.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option(
    "--format",
    "form",
    type=click.Choice(["people", "editor", "json"]),
    default="people",
    show_default=True,
    help="editor: a line `file:line:column: code message` for each finding, and nothing else.",
)
@click.option("--json", "as_json", is_flag=True, help="The same as --format json: for programs.")
@click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")
@click.option("--thorough", is_flag=True, help="See for every frame and package of a large shop what goes with it.")
def check(shop: Path | None, form: str, as_json: bool, on: datetime | None, thorough: bool) -> None:
    """Read the shop's data and tell everything that is wrong with it, each with a place and a remedy.

    Articles and pages are looked at once all else is sound, but for places (#...) in pages that build makes of the
    catalog.  Costs in private/ are read by check and margin alone.
    """
    if as_json and form == "editor":
        misuse("--json and --format editor: one of the two")
    form = "json" if as_json else form
    day = day_of(on)
    folder = own_shop(shop)
    written, findings, sound = load_sound(folder)
    catalog = as_on(written, day) if written is not None else None
    if sound is not None:
        packages = sound.catalog if LENSES in sound.whole else None
        findings += [*maps_read(folder, packages)[1], *placeholders(folder)]
        findings += photo_findings(folder, sound.photographed, FRAMES in sound.whole)
        most = sys.maxsize if thorough else MOST_ASKED
        findings += whole_sense(catalog, day, most) if catalog is not None else sound_sense(sound, day)
    if catalog is not None and not errors(findings):
        findings = [*findings, *prose_findings(catalog, folder, day)]
    findings = [*findings, *private_findings(folder, catalog, day)]
    tell_editor(findings) if form == "editor" else tell(findings, form == "json")
    if catalog is None or errors(findings):
        click.echo(to_mend(findings), err=True)
        sys.exit(1)
    if form == "people":
        click.echo(summary(catalog))


def built(shop: Path, output: Path, day: date, jobs: int | None = None) -> bool:
    """Build with a progress bar; tell what was found; True where a site stands."""
    with progress_bar("building") as progress:
        result = build_site(shop, output, day, progress, end=End(jobs=jobs or 0))
    tell(result.findings)
    if errors(result.findings):
        click.echo("The site was not touched.", err=True)
        return False
    click.echo(f"{result.pages} pages in {output}: open {output / 'index.html'}")
    return True


@click.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option("--to", "output", type=FOLDER, default=Path("site-out"), show_default=True, help="Where the site goes.")
@click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")
@JOBS
def build(shop: Path | None, output: Path, on: datetime | None, jobs: int | None) -> None:
    """Build the site.  A failed build leaves the old one untouched."""
    sys.exit(0 if built(own_shop(shop), output, day_of(on), jobs) else 1)


@click.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option("--to", "output", type=FOLDER, default=Path("site-out"), show_default=True, help="Where the site goes.")
@click.option("--port", type=click.IntRange(1, 65535), default=8765, show_default=True)
def serve(shop: Path | None, output: Path, port: int) -> None:
    """Build, show the site on this machine, rebuild on every save and reload the page.  Ctrl-C ends it."""
    folder = own_shop(shop)
    if not built(folder, output, date.today()):
        sys.exit(1)
    prose = prose_of(folder)
    watched = [folder, *([prose] if prose else [])]
    try:
        serve_site(lambda: built(folder, output, date.today()), watched, output, port, click.echo)
    except OSError as fault:
        misuse(f"port {port} cannot be used ({fault.strerror}): name another with --port")


@click.command()
@click.option("--to", "output", type=FOLDER, default=Path("bevelbook-demo"), show_default=True, help="Where it goes.")
def demo(output: Path) -> None:
    """Check the demo shop, build its site, quote one customer, and say where everything is."""
    folder, day = shared("demo_catalog"), date.today()
    catalog = loaded(folder, day)
    click.echo(summary(catalog))
    if not built(folder, output, day):
        sys.exit(1)
    rx = read_slip(DEMO_RX).prescription
    assert rx is not None, "a test reads this slip"
    offers, ask = Offers(catalog, day), Ask(rx)
    packages = [one for one in catalog.packages.values() if one.light == "clear"]
    found = ranked([offers.offer(choice_of(catalog, *DEMO_FRAME, one), ask) for one in packages])
    paper = paper_of(found[0], ask, offers, output.resolve().as_uri())
    click.echo(f"\nA customer writes: {DEMO_RX}\n")
    click.echo(quote_text(found[0], ask, offers, paper))
    click.echo(f"\nThe site: {output / 'index.html'}\nThe shop it is made from, to copy and change: {folder}")
