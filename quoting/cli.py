"""The command ``bevelbook``.  Exit codes: 0 good, 1 findings, 2 misuse."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any, NoReturn

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

from quoting.catalog.load import load
from quoting.catalog.model import Catalog
from quoting.choosing import Unknown, choice_of, number, pair, pick, with_pd
from quoting.findings import Finding, errors, in_order
from quoting.offers import Ask, Measures, Offers
from quoting.places import shared
from quoting.prescription.file import read_file
from quoting.prescription.model import Prescription
from quoting.prescription.text import read_slip
from quoting.show.contract import asked_dict, offer_dict
from quoting.show.paper import paper_of, quote_dict
from quoting.show.text import fit_text, quote_text, ranked
from quoting.site.build import build as build_site
from quoting.site.serve import serve as serve_site

DAY = click.DateTime(formats=["%Y-%m-%d"])
FOLDER = click.Path(file_okay=False, path_type=Path)

# The customer of the demo: a strong minus prescription, as a mail would have it
DEMO_RX = "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 31/32"


def tell(findings: tuple[Finding, ...] | list[Finding], as_json: bool = False) -> None:
    """All findings in order: on standard output as JSON for programs, else on standard error for people."""
    ordered = in_order(findings)
    if as_json:
        click.echo(json.dumps({"findings": [finding.as_dict() for finding in ordered]}, indent=2, ensure_ascii=False))
        return
    for finding in ordered:
        click.echo(f"{finding}\n", err=True)


def misuse(message: object) -> NoReturn:
    """One sentence and exit code 2."""
    raise click.UsageError(str(message))


def shop_folder(given: Path | None) -> Path:
    """The shop that was named, or the one here, or, said aloud, the demo shop."""
    if given is not None:
        return given
    if Path("shop.yaml").exists():
        return Path()
    click.echo("There is no shop.yaml here: using the demo shop.", err=True)
    return shared("demo_catalog")


def loaded(folder: Path, as_json: bool = False) -> Catalog:
    """The catalog, or all its findings and exit code 1."""
    catalog, findings = load(folder)
    if catalog is None or errors(findings):
        tell(findings, as_json)
        sys.exit(1)
    return catalog


def prescription(catalog: Catalog, rx: str, rx_file: Path | None, day: date, as_json: bool) -> Prescription:
    """The prescription from words or from a file, its notes told.   Exit code 1 where it cannot be read."""
    months = catalog.shop.prescription_months
    if bool(rx) == bool(rx_file):
        misuse("give the prescription either with --rx or with --rx-file")
    if rx_file is None:
        reading = read_slip(rx, today=day, max_age_months=months)
    elif rx_file.is_file():
        reading = read_file(rx_file, today=day, max_age_months=months)
    else:
        misuse(f"--rx-file: there is no file {rx_file}")
    if reading.prescription is None or errors(reading.findings):
        tell(reading.findings, as_json)
        sys.exit(1)
    tell(reading.findings)
    return reading.prescription


def ask_of(catalog: Catalog, day: date, words: dict[str, Any], as_json: bool) -> Ask:
    """Prescription and measurements from the options of ``fit`` and ``quote``."""
    rx = with_pd(prescription(catalog, words["rx"], words["rx_file"], day, as_json), words["pd"])
    heights = pair(words["height"], "pupil height", 5, 45) if words["height"] else (None, None)
    tilt = number(words["tilt"], "tilt", 0, 30) if words["tilt"] else None
    wrap = number(words["wrap"], "wrap", 0, 35) if words["wrap"] else None
    regions = {region.id: region for region in catalog.price_list.regions}
    discounts = {one.id: one for one in catalog.price_list.discounts}
    region = pick("region", regions, words["region"]).id if words["region"] else ""
    named = tuple(pick("discount", discounts, name).id for name in words["discount"])
    return Ask(rx, Measures(heights[0], heights[1], tilt, wrap, words["child"]), region, named)


def asks(command: Callable[..., None]) -> Callable[..., None]:
    """The options that ``fit`` and ``quote`` share."""
    options = [
        click.option("--shop", type=FOLDER, help="The shop's folder.  [default: here, else the demo shop]"),
        click.option("--size", default="", help="Such as 52-18, or 52 where that is enough."),
        click.option("--color", default="", help="The colorway's id."),
        click.option("--rx", default="", help='The prescription in words: "OD -2.25 -0.75 x 090 / OS -2.50 DS / PD 63".'),
        click.option("--rx-file", type=click.Path(path_type=Path), help="A slip, a YAML file, or FHIR JSON."),
        click.option("--pd", default="", help="Measured PD: 63, or right/left 31.5/32."),
        click.option("--height", default="", help="Pupil heights above the lowest point of the lens: 21/21."),
        click.option("--tilt", default="", help="Pantoscopic tilt as worn, degrees.  [default: the frame's]"),
        click.option("--wrap", default="", help="Face-form angle as worn, degrees.  [default: the frame's]"),
        click.option("--child", is_flag=True, help="The wearer is under 18."),
        click.option("--region", default="", help="Where the parcel goes.  [default: the price list's first]"),
        click.option("--discount", multiple=True, help="A discount that must be asked for."),
        click.option("--on", type=DAY, help="The day to reckon with.  [default: today]"),
        click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md."),
    ]
    for option in reversed(options):
        command = option(command)
    return command


def day_of(on: datetime | None) -> date:
    """The day that was named, or today."""
    return on.date() if on else date.today()


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="bevelbook")
def main() -> None:
    """Keep a catalog of frames and lenses, see what fits whom, quote it, and build the shop's site."""


@main.command()
@click.argument("frame")
@asks
def fit(frame: str, shop: Path | None, size: str, color: str, on: datetime | None, as_json: bool, **words: Any) -> None:
    """Which lens packages fit FRAME for a prescription, how they come out, and what they cost."""
    catalog, day = loaded(shop_folder(shop), as_json), day_of(on)
    try:
        ask = ask_of(catalog, day, words, as_json)
        choices = [choice_of(catalog, frame, size, color, package) for package in catalog.packages.values()]
    except Unknown as unknown:
        misuse(unknown)
    offers = Offers(catalog, day)
    found = [offers.offer(choice, ask) for choice in choices]
    if as_json:
        packages = [offer_dict(offer, ask, offers) for offer in ranked(found)]
        click.echo(json.dumps({**asked_dict(found[0], ask, catalog), "packages": packages}, indent=2, ensure_ascii=False))
    else:
        click.echo(fit_text(found, ask, offers))


@main.command()
@click.argument("frame")
@click.argument("package")
@click.option("--site", default="", help="Where the site stands, for the link.  [default: the shop's url]")
@asks
def quote(
    frame: str, package: str, site: str, shop: Path | None, size: str, color: str,
    on: datetime | None, as_json: bool, **words: Any,
) -> None:  # fmt: skip
    """An itemized quote for FRAME with lens PACKAGE.  Exit code 1 where they do not fit."""
    catalog, day = loaded(shop_folder(shop), as_json), day_of(on)
    try:
        ask = ask_of(catalog, day, words, as_json)
        choice = choice_of(catalog, frame, size, color, pick("package", catalog.packages, package))
    except Unknown as unknown:
        misuse(unknown)
    offers = Offers(catalog, day)
    offer = offers.offer(choice, ask)
    paper = paper_of(offer, ask, offers, site or catalog.shop.url)
    if as_json:
        click.echo(json.dumps(quote_dict(offer, ask, offers, paper), indent=2, ensure_ascii=False))
    else:
        click.echo(quote_text(offer, ask, offers, paper))
    sys.exit(1 if offer.fit["verdict"] == "no" else 0)


@main.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option("--json", "as_json", is_flag=True, help="For programs: file, line, column, code, message, hint.")
def check(shop: Path | None, as_json: bool) -> None:
    """Read the shop's files and tell everything that is wrong with them, each with a place and a remedy."""
    folder = shop_folder(shop)
    catalog, findings = load(folder)
    tell(findings, as_json)
    if catalog is None or errors(findings):
        click.echo(f"{len(errors(findings))} to mend.", err=True)
        sys.exit(1)
    if not as_json:
        click.echo(summary(catalog))


def summary(catalog: Catalog) -> str:
    """What the catalog holds, in one line."""
    colors = sum(len(frame.colorways) for frame in catalog.frames.values())
    return (
        f"{catalog.shop.name}: {len(catalog.frames)} frames in {colors} colorways, {len(catalog.packages)} lens packages "
        f"over {len(catalog.materials)} materials, price list {catalog.price_list.version}."
    )


def built(shop: Path, output: Path, day: date) -> bool:
    """Build with a progress bar; tell what was found; True where a site stands."""
    columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.completed}/{task.total}"))
    with Progress(*columns, TimeElapsedColumn(), console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("building", total=None)

        def step(done: int, total: int, what: str) -> None:
            bar.update(task, completed=done, total=total, description=what)

        result = build_site(shop, output, day, progress=step)
    tell(result.findings)
    if errors(result.findings):
        click.echo(f"Nothing was changed in {output}.", err=True)
        return False
    click.echo(f"{result.pages} pages in {output}: open {output / 'index.html'}")
    return True


@main.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option("--to", "output", type=FOLDER, default=Path("site-out"), show_default=True, help="Where the site goes.")
@click.option("--on", type=DAY, help="The day to reckon with.  [default: today]")
def build(shop: Path | None, output: Path, on: datetime | None) -> None:
    """Build the site.  A failed build leaves the old one untouched."""
    sys.exit(0 if built(shop_folder(shop), output, day_of(on)) else 1)


@main.command()
@click.argument("shop", type=FOLDER, required=False)
@click.option("--to", "output", type=FOLDER, default=Path("site-out"), show_default=True, help="Where the site goes.")
@click.option("--port", type=click.IntRange(1, 65535), default=8765, show_default=True)
def serve(shop: Path | None, output: Path, port: int) -> None:
    """Build, show the site on this machine, rebuild on every save and reload the page.  Ctrl-C ends it."""
    folder = shop_folder(shop)
    if not built(folder, output, date.today()):
        sys.exit(1)
    serve_site(lambda: built(folder, output, date.today()), [folder], output, port, click.echo)


@main.command()
@click.option("--to", "output", type=FOLDER, default=Path("bevelbook-demo"), show_default=True, help="Where it goes.")
def demo(output: Path) -> None:
    """Check the demo shop, build its site, quote one customer, and say where everything is."""
    folder, day = shared("demo_catalog"), date.today()
    catalog = loaded(folder)
    click.echo(summary(catalog))
    if not built(folder, output, day):
        sys.exit(1)
    offers, ask = Offers(catalog, day), Ask(read_slip(DEMO_RX).prescription or misuse("the demo slip is unreadable"))
    frame = next(frame for frame in catalog.frames.values() if frame.mounting == "full-rim-plastic")
    found = ranked(offers.fitting(frame, frame.sizes[0], frame.colorways[0], ask))
    paper = paper_of(found[0], ask, offers, output.resolve().as_uri())
    click.echo(f"\nA customer writes: {DEMO_RX}\n")
    click.echo(quote_text(found[0], ask, offers, paper))
    click.echo(f"\nThe site: {output / 'index.html'}")
