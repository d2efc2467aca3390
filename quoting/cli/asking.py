"""``fit`` and ``quote``: one customer, answered."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from quoting.catalog.shop import Catalog
from quoting.choosing import UnknownError, choice_of, in_words, number, pair, pick, same_choice, with_pd
from quoting.cli.common import DAY, FOLDER, any_shop, day_of, loaded, misuse, tell
from quoting.cli.completing import colorway_ids, discount_ids, frame_ids, package_ids, region_ids, size_keys
from quoting.cli.issuing import issue_quote, issues, refuse_without_customer
from quoting.dyeing import in_book, tinted
from quoting.findings import Finding, Mark, errors
from quoting.languages import languages, speaking
from quoting.offers import Ask, Measures, Offers
from quoting.prescription.distances import height_flags, measured_flags
from quoting.prescription.file import read_file
from quoting.prescription.model import Distances, Prescription
from quoting.prescription.text import read_slip
from quoting.prescription.wishes import Wishes
from quoting.show.contract import answer_dict, asked_dict
from quoting.show.paper import paper_of, quote_dict
from quoting.show.text import fit_text, pd_text, quote_text, ranked
from quoting.show.versions import version_dict
from quoting.site.editions import address_in, tongue_of

TINT = (
    'A mix by id or order code: dusk; a recipe: brown~2+rose~1,75; or percent of the light it takes: 80, "80 gradient".'
)
WISHED = tuple(field.name for field in fields(Wishes) if not field.name.startswith("tint"))


def prescription(catalog: Catalog, words: dict[str, Any], day: date, as_json: bool) -> Prescription:
    """The prescription from words or from a file, its notes told.   Exit code 1 where it cannot be read."""
    rx, rx_file = words["rx"], words["rx_file"]
    known = {"today": day, "max_age_months": catalog.shop.prescription_months, "child": words["child"]}
    if bool(rx) == bool(rx_file):
        misuse("give the prescription either with --rx or with --rx-file")
    if rx_file is None:
        reading = read_slip(rx, **known)
    elif rx_file.is_file():
        reading = read_file(rx_file, **known)
    else:
        misuse(f"--rx-file: there is no file {rx_file}")
    if reading.prescription is None or errors(reading.findings):
        tell(reading.findings, as_json)
        sys.exit(1)
    tell(reading.findings)
    return reading.prescription


def doubts(words: dict[str, Any], read: Distances, used: Distances, heights: tuple[float, float] | None) -> None:
    """Tell what is unlikely about measurements that were given as options, as it is told of those on a slip."""
    given = {"--pd": list(measured_flags(used, read, words["child"])) if words["pd"] else []}
    if words["pd"] and read not in (used, Distances()):
        click.echo(f"The prescription says {pd_text(read)}; reckoned with {pd_text(used)} as measured.", err=True)
    given["--height"] = list(height_flags(*heights)) if heights else []
    for option, flags in given.items():
        text = words[option.removeprefix("--")]
        mark = Mark(option, 1, 1, text, len(text))
        tell(Finding(mark, flag.code, flag.message, flag.hint, flag.severity) for flag in flags)


def ask_of(catalog: Catalog, day: date, words: dict[str, Any], as_json: bool) -> Ask:
    """Prescription and measurements from the options of ``fit`` and ``quote``.

    Misuse of any other option is told before what is to be said of the prescription.
    """
    heights = pair(words["height"], "pupil height", 5, 45) if words["height"] else None
    with_pd(Prescription(None, None), words["pd"])
    tilt = number(words["tilt"], "tilt", 0, 30) if words["tilt"] else None
    wrap = number(words["wrap"], "wrap", 0, 35) if words["wrap"] else None
    regions = {region.id: region for region in catalog.price_list.regions}
    discounts = {one.id: one for one in catalog.price_list.discounts}
    region = pick("region", regions, words["region"]).id if words["region"] else ""
    named = tuple(pick("discount", discounts, name).id for name in words["discount"])
    mirror = pick("mirror", catalog.tints.mirrors, words["mirror"]).id if words["mirror"] else ""
    wished = Ask(Prescription(None, None), discounts=named, wishes=wishes_of(words), mirror=mirror)
    wished = tinted(wished, catalog, words["tint"])
    read = prescription(catalog, words, day, as_json)
    rx = with_pd(read, words["pd"])
    doubts(words, read.pd, rx.pd, heights)
    right, left = heights or (None, None)
    return replace(wished, rx=rx, measures=Measures(right, left, tilt, wrap, words["child"]), region=region)


def wishes_of(words: dict[str, Any]) -> Wishes:
    """What is wished beyond the package but for a tint, from the options of ``fit`` and ``quote``."""
    wished = {name: name.replace("_", "-") in words["wish"] for name in WISHED}
    wished["mirror"] = wished["mirror"] or bool(words["mirror"])
    return Wishes(**wished)


def asks(command: Callable[..., None]) -> Callable[..., None]:
    """The options that ``fit`` and ``quote`` share."""
    options = [
        click.option("--shop", type=FOLDER, help="The shop's folder.  [default: here, else the demo shop]"),
        click.option("--size", default="", shell_complete=size_keys, help="Such as 52-18, or 52 where that is enough."),
        click.option("--color", default="", shell_complete=colorway_ids, help="The colorway's id."),
        click.option(
            "--rx", default="", help='The prescription in words: "OD -2.25 -0.75 x 090 / OS -2.50 DS / PD 63".'
        ),
        click.option("--rx-file", type=click.Path(path_type=Path), help="A slip, a YAML file, or FHIR JSON."),
        click.option("--pd", default="", help="Measured PD: 63, or right/left 31.5/32."),
        click.option("--height", default="", help="Pupil heights above the lowest point of the lens: 21/21."),
        click.option("--tilt", default="", help="Pantoscopic tilt as worn, degrees.  [default: the frame's]"),
        click.option("--wrap", default="", help="Face-form angle as worn, degrees.  [default: the frame's]"),
        click.option("--child", is_flag=True, help="The wearer is under 18."),
        click.option("--tint", default="", metavar="TINT", help=TINT),
        click.option("--mirror", default="", help="With this mirror of the shop on the front."),
        click.option(
            "--wish",
            multiple=True,
            type=click.Choice([name.replace("_", "-") for name in WISHED]),
            help="What else is wished, or what the glasses are for; may be given several times.",
        ),
        click.option(
            "--region",
            default="",
            shell_complete=region_ids,
            help="Where the parcel goes.  [default: the price list's first]",
        ),
        click.option(
            "--discount", multiple=True, shell_complete=discount_ids, help="A discount that must be asked for."
        ),
        click.option("--on", type=DAY, help="The day to reckon with.  [default: today]"),
        click.option("--json", "as_json", is_flag=True, help="For programs; its form is in DEVELOPERS.md."),
    ]
    for option in reversed(options):
        command = option(command)
    return command


@click.command()
@click.argument("frame", shell_complete=frame_ids)
@click.option("--range", "with_ranges", is_flag=True, help="Also the spheres over which each package fits.")
@asks
def fit(
    frame: str, with_ranges: bool, shop: Path | None, size: str, color: str,
    on: datetime | None, as_json: bool, **words: Any,
) -> None:  # fmt: skip
    """Which lens packages fit FRAME for a prescription, how they come out, and what they cost."""
    day = day_of(on)
    catalog = loaded(any_shop(shop), day, as_json)
    try:
        choices = [choice_of(catalog, frame, size, color, package) for package in catalog.packages.values()]
        ask = ask_of(catalog, day, words, as_json)
    except UnknownError as unknown:
        misuse(unknown)
    offers = Offers(catalog, day)
    found = [offers.offer(choice, ask) for choice in choices]
    if as_json:
        packages = [
            answer_dict(offer, ask, offers) | ({"range": offers.range(offer.choice, ask)} if with_ranges else {})
            for offer in ranked(found)
        ]
        asked = asked_dict(found[0], ask, catalog) | version_dict(found[0].choice)
        click.echo(json.dumps({**asked, "packages": packages}, indent=2, ensure_ascii=False))
    else:
        click.echo(fit_text(found, ask, offers, with_ranges))


@click.command()
@click.argument("frame", shell_complete=frame_ids)
@click.argument("package", shell_complete=package_ids)
@click.option("--site", default="", help="Where the site stands, for the link.  [default: the shop's url]")
@click.option("--language", type=click.Choice(languages()), help="What to write it in.  [default: the shop's language]")
@issues
@asks
def quote(
    frame: str, package: str, site: str, language: str | None, shop: Path | None, size: str, color: str,
    on: datetime | None, as_json: bool, **words: Any,
) -> None:  # fmt: skip
    """An itemized quote for FRAME with lens PACKAGE.  Exit code 1 where they do not fit.

    With --for it is issued: signed with your key, entered in your register, and told with its link.
    """
    day = day_of(on)
    if not words["customer"].strip():
        refuse_without_customer(words)
    catalog = loaded(any_shop(shop), day, as_json)
    try:
        choice = choice_of(catalog, frame, size, color, pick("package", catalog.packages, package))
        ask = ask_of(catalog, day, words, as_json)
    except UnknownError as unknown:
        misuse(unknown)
    offers, spoken = Offers(catalog, day), tongue_of(catalog.shop, language)
    # Its number is the same in every language
    paper = paper_of(offers.offer(choice, ask), ask, offers, site or address_in(catalog.shop, language))
    offers = in_words(offers, spoken.language)
    choice, ask = same_choice(choice, offers.catalog), replace(ask, mix=in_book(ask.mix, offers.catalog))
    if words["customer"].strip():
        more = {"shop": shop, "site": site, "language": language, "as_json": as_json}
        issue_quote(choice, ask, offers, words | more)
        return
    offer = offers.offer(choice, ask)
    with speaking(spoken):
        if as_json:
            click.echo(json.dumps(quote_dict(offer, ask, offers, paper), indent=2, ensure_ascii=False))
        else:
            click.echo(quote_text(offer, ask, offers, paper))
    sys.exit(1 if offer.fit["verdict"] == "no" else 0)
