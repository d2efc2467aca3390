"""The text of a link through what mail programs do with it; the mangling is done by the standard library's own code."""

import base64
import quopri
import textwrap
from email import message_from_bytes, policy
from email.message import EmailMessage
from urllib.parse import quote as percent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.quoted.armor import SHAPE, armored, bared, candidates
from quoting.quoted.sealing import opened, sealed, unsigned
from tests.quoted.quotes import KEY, largest, ordinary, plain

SITE = "https://ottersea.example.org/quote/#"


@given(st.binary(max_size=300), st.sampled_from("su"))
def test_bytes_come_back(body, kind):
    shape = SHAPE.fullmatch(armored(1, kind, body))
    assert (shape["version"], shape["kind"], bared(shape["body"])) == ("1", kind, body)


@given(st.binary(min_size=1, max_size=60), st.data())
def test_of_the_texts_for_the_same_bytes_only_one_is_taken(body, data):
    """The last sign of base64 may have bits beyond the end of the bytes (RFC 4648, section 3.5)."""
    text = SHAPE.fullmatch(armored(1, "u", body))["body"]
    at = data.draw(st.integers(0, len(text) - 1))
    for sign in "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_":
        changed = text[:at] + sign + text[at + 1 :]
        assert changed == text or bared(changed) != body


@pytest.fixture(params=[plain, ordinary, largest], ids=["plain", "ordinary", "largest"])
def quote(request):
    return request.param()


@pytest.fixture(params=[True, False], ids=["signed", "unsigned"])
def text(quote, request):
    return sealed(quote, KEY.id, KEY.sign) if request.param else unsigned(quote)


def same(text, mangled, quote):
    found = opened(mangled)
    assert found.fault == ""
    assert (found.text, found.quote) == (text, quote)


def quoted_printable(text):
    return quopri.encodestring(text.encode()).decode()


def every_sign_coded(text):
    return "".join(f"={byte:02X}" for byte in text.encode())


def every_sign_in_percent(text):
    return SITE + "".join(f"%{byte:02x}" for byte in text.removeprefix(SITE).encode())


WAYS = {
    "as it is": str,
    "the text alone": lambda link: link.removeprefix(SITE),
    "with its #": lambda link: "#" + link.removeprefix(SITE),
    "an upper-cased host": lambda link: link.replace("https://ottersea.example.org", "HTTPS://OTTERSEA.EXAMPLE.ORG"),
    "angle brackets": lambda link: f"<{link}>",
    "angle brackets and a word": lambda link: f"<URL:{link}>",
    "in round brackets": lambda link: f"(see {link}).",
    "a full stop behind it": lambda link: f"{link}.",
    "three signs behind it": lambda link: f"{link}).\u201d",
    "in a sentence": lambda link: f"Here it is: {link} , and thank you for coming in.\n",
    "in quotes of HTML": lambda link: f'<a href="{link}">your quote</a>',
    "quoted-printable": quoted_printable,
    "quoted-printable with line ends of the net": lambda link: quoted_printable(link).replace("\n", "\r\n"),
    "every sign coded in quoted-printable": every_sign_coded,
    "percent-encoded": lambda link: percent(link, safe=""),
    "percent-encoded twice": lambda link: percent(percent(link, safe=""), safe=""),
    "every sign in percent": every_sign_in_percent,
    "lines folded at 76": lambda link: "\n".join(textwrap.wrap(link, 76)),
    "lines folded at 40, CRLF": lambda link: "\r\n".join(textwrap.wrap(link, 40, break_on_hyphens=False)),
    "folded and begun with a blank": lambda link: "\n ".join(textwrap.wrap(link, 72)),
    "a reply": lambda link: "".join(f"> {line}\n" for line in textwrap.wrap(link, 70)),
    "a reply to a reply": lambda link: "".join(f">> > {line}\r\n" for line in textwrap.wrap(link, 70)),
    "with signs of no width": lambda link: "\u200b".join(textwrap.wrap(link, 30)),
    "with soft hyphens": lambda link: "\u00ad".join(textwrap.wrap(link, 30, break_on_hyphens=False)),
    "hyphens made longer": lambda link: link.replace("--", "\u2014").replace("-", "\u2011"),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_link_opens_after(way, text, quote):
    same(text, WAYS[way](SITE + text), quote)


@pytest.mark.parametrize("encoding", ["quoted-printable", "base64", "8bit"])
def test_a_link_opens_from_a_whole_message(encoding, text, quote):
    message = EmailMessage(policy=policy.SMTP)
    message["Subject"] = "Your quote"
    message.set_content(f"Good morning,\n\nhere it is:\n{SITE}{text}\n\nPlease ask.\n", cte=encoding)
    read = message_from_bytes(message.as_bytes(), policy=policy.default)
    same(text, read.get_content(), quote)


@pytest.mark.parametrize("broken", range(1, 200, 7))
def test_a_link_opens_wherever_one_line_was_broken(broken):
    text = sealed(ordinary(), KEY.id, KEY.sign)
    whole = SITE + text
    cut = len(SITE) + broken * (len(text) - 2) // 200
    same(text, f"Hello,\n{whole[:cut]}\n{whole[cut:]}\nthank you", ordinary())


def test_a_link_that_ends_early_is_not_taken_for_whole():
    text = unsigned(plain())
    for end in range(3, len(text)):
        found = opened(SITE + text[:end])
        assert (found.quote, found.fault) == (None, "damaged") or found.fault == "no-quote"


def test_the_text_never_ends_in_a_sign_that_programs_leave_off():
    for size in range(200):
        assert armored(1, "s", base64.urlsafe_b64decode("_-_-" * 48)[:size])[-1].isalnum()


def test_a_long_text_is_looked_at_so_far_and_no_further():
    assert len(list(candidates("#1uA " + "A " * 100_000))) <= 80
