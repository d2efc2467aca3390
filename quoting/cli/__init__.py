"""The command ``bevelbook``.  Exit codes: 0 good, 1 findings, 2 misuse."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import sys

import click

from quoting.cli.adding import frame, package
from quoting.cli.asking import fit, quote
from quoting.cli.calculating import bench, calc
from quoting.cli.explaining import explain
from quoting.cli.forgetting import forget_customer
from quoting.cli.frames_in import import_frames
from quoting.cli.handing import order_card, order_publish
from quoting.cli.keys import keys
from quoting.cli.margins import margin
from quoting.cli.opening import open_link
from quoting.cli.ordering import order, remake
from quoting.cli.owning import build, check, demo, serve
from quoting.cli.prices import prices
from quoting.cli.publishing import changes, publish
from quoting.cli.quotes import quotes
from quoting.cli.renewing import renew
from quoting.cli.starting import completion, new
from quoting.cli.tints import tint
from quoting.cli.tracing import swap, trace
from quoting.cli.verifying import verify


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(package_name="bevelbook")
def main() -> None:
    """Keep a catalog of frames and lenses, see what fits whom, quote it, and build the shop's site."""


def run() -> None:
    """The command as installed: where a file or the output itself fails (a full disk, say), one sentence."""
    try:
        main()
    except OSError as fault:
        named = f"{fault.filename}: " if fault.filename is not None else ""
        click.echo(f"bevelbook: {named}{fault.strerror or fault}", err=True)
        sys.exit(1)


COMMANDS = (
    *(demo, new, check, build, serve, changes, publish, fit, quote, quotes, keys),
    *(frame, package, prices, margin, explain, completion),
    *(calc, bench, trace, swap, tint, order, verify, remake, forget_customer),
)
for command in COMMANDS:
    main.add_command(command)
frame.add_command(import_frames)
quotes.add_command(open_link)
order.add_command(order_card)
order.add_command(order_publish)
quotes.add_command(renew)
