"""A quote as a letter: text and HTML with the drawings in it, nothing from elsewhere (RFC 5322, RFC 2387)."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import hashlib
from datetime import datetime
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP

from quoting.languages import _, spoken
from quoting.quoted.register import Entry
from quoting.show.amounts import day
from quoting.show.lens_paint import Stops
from quoting.show.pictured import picture_of
from quoting.show.recorded import frame_name
from quoting.show.seen import Seen, SeenPair
from quoting.show.seen_text import seen_text
from quoting.show.terms import VERDICTS
from quoting.site.sheet_page import environment

# Letters are read by people: headers stay below the length that RFC 5322 wishes for, and non-ASCII names are coded
POLICY = SMTP.clone(max_line_length=78)


def letter(entry: Entry, to: str, sender: str, one: Seen, when: datetime) -> EmailMessage:
    """The message.  The same quote to the same address has the same Message-ID, so that a second copy is known as one.

    Raises ValueError for an address that mail cannot have.
    """
    shop = one.shop
    message = EmailMessage(policy=POLICY)
    message["Subject"] = subject = _("Your quote {number} from {shop}").format(number=entry.number, shop=shop.name)
    message["From"] = _address(shop.name, sender)
    message["To"] = _address(entry.customer, to)
    message["Date"] = when
    digest = hashlib.sha256(f"{entry.link}\0{to}".encode()).hexdigest()[:24]
    message["Message-ID"] = f"<{entry.number}.{digest}@{sender.rpartition('@')[2]}>"
    message.set_content(text_of(entry, one), cte="quoted-printable")
    pairs = [pair for alternative in one.alternatives for pair in alternative.pairs]
    drawn = {picture_name(pair): pair for pair in pairs}
    pictures = {name: picture_of(pair.frame, shop, one.frames, pair.paint) for name, pair in drawn.items()}
    ids = {name: f"front{at}.{entry.number}@quote" for at, (name, dots) in enumerate(pictures.items()) if dots}
    message.add_alternative(html_of(entry, one, subject, ids), subtype="html", cte="quoted-printable")
    html = message.get_payload()[-1]  # type: ignore[index]
    assert isinstance(html, EmailMessage)
    for name, cid in ids.items():
        html.add_related(pictures[name], "image", "png", cid=f"<{cid}>", disposition="inline", filename="front.png")
    return message


def picture_name(pair: SeenPair) -> tuple[str, Stops]:
    """What tells one picture of a front from another."""
    return frame_name(pair.frame), pair.paint


def _address(name: str, address: str) -> Address:
    user, _at, domain = address.rpartition("@")
    return Address(name, user, domain)


def text_of(entry: Entry, one: Seen) -> str:
    """The letter as plain text; the link stands first and alone on its line."""
    rows = [
        _("Dear {customer},").format(customer=entry.customer),
        "",
        _("Here is your quote {number}. We hold its price until {expires}.").format(
            number=entry.number, expires=day(one.expires)
        ),
        _("Open it here:"),
        "",
        entry.link,
        "",
        _("Everything is in the link itself: whoever has it can read your prescription."),
        "",
        seen_text(one),
        "",
        "\n".join(part for part in (one.shop.name, *one.shop.address, one.shop.phone, one.shop.email) if part),
    ]
    return "\n".join(rows) + "\n"


def html_of(entry: Entry, one: Seen, subject: str, pictures: dict[tuple[str, Stops], str]) -> str:
    """The letter as HTML."""
    return (
        environment()
        .get_template("letter.html")
        .render(
            quote=one,
            subject=subject,
            customer=entry.customer,
            link=entry.link,
            language=spoken().language,
            picture=lambda pair: pictures.get(picture_name(pair), ""),
            name=frame_name,
            verdicts={name: _(text) for name, text in VERDICTS.items()},
        )
    )
