"""Quotes of the demo shop to make links of: an ordinary one, and the largest that is likely."""

from datetime import date
from functools import cache

from quoting.catalog.load import load
from quoting.choosing import choice_of
from quoting.dyeing import tinted as tinted_ask
from quoting.offers import Ask, Measures, Offers
from quoting.places import shared
from quoting.prescription.text import read_slip
from quoting.quoted.signing import Private
from quoting.show.issued import Asked, Issue, quote_record

DAY, LAST = date(2026, 11, 25), date(2026, 12, 25)
SLIP = (
    "OD -6.25 -1.25 x 010 add +2.25 2.50 BO 1.00 BU / OS -5.75 -2.75 x 165 add +2.25 1.75 BO 0.50 BD "
    "/ PD 31.5/32 near 60"
)
NOTE = (
    "The frame you tried on Tuesday is A; B and C are lighter. I would take the thinner lens for your left eye, since "
    "its edge shows most at the temple. Ring me with any question about the near part, and bring your old glasses."
)
# Of the second pairs: two of the tint book, and one that was mixed for the customer
TINTS = ("dusk", "deep-sea", "brown~2+rose~1+gray~0.5,74,22,15,85")
# A key for tests alone: its seed stands in RFC 8032, so nobody may ever use it
KEY = Private.from_seed(bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"))


@cache
def offers():
    catalog, _ = load(shared("demo_catalog"), DAY)
    return Offers(catalog, DAY)


def asked(frame, package, slip=SLIP, size="", color="", tint="", mirror="", **measured):
    """One pair, answered by the engine."""
    made = offers()
    catalog = made.catalog
    found = catalog.frames[frame]
    lens = catalog.packages[package]
    choice = choice_of(catalog, frame, size or found.sizes[0].key, color or found.colorways[0].id, lens)
    rx = read_slip(slip, today=DAY, max_age_months=24).prescription
    ask = tinted_ask(Ask(rx, Measures(**measured), mirror=mirror), catalog, tint)
    return Asked(made.offer(choice, ask), ask)


@cache
def ordinary():
    """One pair of progressives with prism."""
    return quote_record([[asked("cottering", "path14-167-ar")]], Issue("261125-LQOPZ", DAY, LAST), offers())


@cache
def plain():
    """One pair, as short as it can be."""
    one = asked("cottering", "bench-159-ar", "OD -2.00 DS / OS -2.25 DS / PD 63")
    return quote_record([[one]], Issue("261125-ABCDE", DAY, LAST), offers())


@cache
def tinted():
    """One pair with a gradient of the tint book, so dark above that it is hardly for driving."""
    one = asked("cottering", "path14-167-ar", tint="dusk")
    return quote_record([[one]], Issue("261125-TINTS", DAY, LAST), offers())


@cache
def polarized():
    """One pair of gray lenses, without tint and mirror."""
    one = asked("cottering", "plain-150-polar", "OD -2.00 DS / OS -2.25 DS / PD 63")
    return quote_record([[one]], Issue("261125-POLAR", DAY, LAST), offers())


@cache
def largest():
    """Three alternatives of two pairs in different frames, the second pair tinted, and a long note."""
    frames = list(offers().catalog.frames)
    lenses = ["path14-167-ar", "path18-167-ar", "true18-167-photo"]
    reading = "OD -4.00 -1.25 x 010 2.50 BO 1.00 BU / OS -3.50 -2.75 x 165 1.75 BO 0.50 BD / PD 29.5/30"
    measured = {"height_right": 21.5, "height_left": 21.0, "tilt": 9.5, "wrap": 6.5}
    alternatives = [
        [
            asked(frames[3 * i], lenses[i], **measured),
            asked(frames[3 * i + 1], "bench-150-ar", reading, tint=TINTS[i], **measured),
        ]
        for i in range(3)
    ]
    return quote_record(alternatives, Issue("261125-LQOPZ", DAY, LAST, NOTE), offers())
