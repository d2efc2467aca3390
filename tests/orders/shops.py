"""A shop with accepted quotes to order from, as an owner has them."""

import json
import shutil
from pathlib import Path

from click.testing import CliRunner

from quoting.cli import main
from quoting.orders.book import Book
from quoting.places import shared
from quoting.quoted.register import Register

DAY = ("--on", "2026-11-26")
CUSTOMER = "Ms. Márrable"
MEASURED = ("--pd", "31.5/32", "--height", "21/20.5", "--by", "J. Alder")
RX = "OD -6.25 -1.25 x 010 / OS -5.75 DS / PD 63"
PROGRESSIVE = ("path18-153-ar", "OD +1.25 -0.75 x 170 add +2.00 / OS +1.50 DS add +2.00 / PD 63")


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


def good(*words):
    told = bevelbook(*words)
    assert told.exit_code == 0, told.output
    return told


def shop_in(folder):
    """The demo shop with keys."""
    shop = Path(shutil.copytree(shared("demo_catalog"), folder / "shop"))
    good("keys", "new", shop, "--on", "2026-11-01")
    return shop


def quoted(shop, *more, package="bench-159-ar", rx=RX, customer=CUSTOMER, accept=True):
    """The number of a quote, accepted."""
    words = ("quote", "cottering", package, "--size", "52", "--color", "black", "--rx", rx, "--shop", shop)
    told = good(*words, "--for", customer, "--on", "2026-11-25", "--json", *more)
    number = json.loads(told.stdout)["number"]
    if accept:
        good("quotes", "accept", number, "--shop", shop, *DAY)
    return number


def ordered(shop, *more, number=None, measured=MEASURED):
    """The id of an order."""
    number = number or quoted(shop)
    told = good("order", "from", number, "--shop", shop, *DAY, "--json", *measured, *more)
    return json.loads(told.stdout)["id"]


def book(shop):
    return Book(Register(shop))


def state(shop, one):
    return book(shop).placed(one).state


def marked(shop, one, *states):
    for name in states:
        good("order", "mark", one, name, "--shop", shop)
