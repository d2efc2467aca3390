"""A sealed quote holds: whatever is changed in it, it is refused, and in plain words."""

import base64
import hashlib
import json
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.catalog.shop import QuoteKey
from quoting.findings import Mark
from quoting.quoted.armor import SHAPE, armored, bared
from quoting.quoted.form import FORM, VERSION
from quoting.quoted.positional import packed
from quoting.quoted.sealing import MOST_BYTES, compressed, message_of, opened, sealed, unsigned, written
from quoting.quoted.signing import Private
from quoting.quoted.squeezing import PRIMER, squeezed, unsqueezed
from quoting.quoted.trust import PLAIN, number_hash, standing
from tests.quoted.quotes import DAY, KEY, LAST, largest, ordinary, plain, tinted

SITE = "https://ottersea.example.org/quote/#"
PUBLIC = QuoteKey(KEY.id, KEY.public, date(2026, 1, 1), None, False, Mark("quotes.yaml", 1, 1))
OPENED = {"held", "expired", "withdrawn", "estimate"}


@pytest.fixture(scope="module")
def text():
    return sealed(ordinary(), KEY.id, KEY.sign)


def told(text, keys=(PUBLIC,), withdrawn=(), day=DAY):
    """The fault, or how it stands."""
    found = opened(text)
    return found.fault or standing(found, keys, withdrawn, day)


def body_of(text):
    return bared(SHAPE.fullmatch(text)["body"])


@pytest.mark.parametrize("quote", [plain, ordinary, tinted, largest])
def test_what_was_sealed_is_what_is_opened(quote):
    text = sealed(quote(), KEY.id, KEY.sign)
    assert opened(text).quote == quote()
    assert told(text) == "held"
    assert opened(unsigned(quote())).quote == quote()
    assert told(unsigned(quote())) == "estimate"


def test_the_largest_quote_that_is_likely_has_room_in_any_mail():
    quotes = (plain, ordinary, tinted, largest)
    links = {quote.__name__: len(SITE + sealed(quote(), KEY.id, KEY.sign)) for quote in quotes}
    print(links)
    assert links["plain"] < 500
    assert links["ordinary"] < 600
    assert links["tinted"] < 700
    assert links["largest"] < 1800


def test_the_same_quote_is_the_same_text(text):
    assert sealed(json.loads(json.dumps(ordinary())), KEY.id, KEY.sign) == text


def test_every_byte_flipped_is_refused(text):
    body = body_of(text)
    seen = set()
    for at in range(len(body)):
        for bit in (0x01, 0x10, 0x80):
            changed = bytearray(body)
            changed[at] ^= bit
            seen.add(told(armored(VERSION, "s", bytes(changed))))
    assert seen <= {"damaged", "altered", "unknown-key"}
    assert seen >= {"damaged", "altered", "unknown-key"}


def test_every_sign_of_the_text_changed_is_refused(text):
    for at in range(len(text)):
        for sign in "Ab0_-z9":
            changed = text[:at] + sign + text[at + 1 :]
            if changed != text:
                assert told(changed) not in OPENED


def leaves(value, path=()):
    """The place of every single value in nested lists."""
    if isinstance(value, list):
        for at, one in enumerate(value):
            yield from leaves(one, (*path, at))
    else:
        yield path


def other(value):
    """Something else that may well stand in the same place."""
    if isinstance(value, int):
        return value + 1
    if value is None:
        return 1
    return {"no": "fits", "R": "L", "L": "R", "caution": "fits", "fits": "caution"}.get(value, value[:-1] or "a")


def changed_at(value, path, new):
    if not path:
        return new
    return [changed_at(one, path[1:], new) if at == path[0] else one for at, one in enumerate(value)]


def at_path(value, path):
    for at in path:
        value = value[at]
    return value


@pytest.mark.parametrize("quote", [ordinary, tinted, largest])
def test_every_field_changed_is_refused_though_the_rest_is_made_anew(quote):
    """Whoever can write the form but has not the key: amount, last day, a digit of the prescription, the package."""
    value = packed(FORM, "quote", quote())
    body = body_of(sealed(quote(), KEY.id, KEY.sign))
    head = body[:68]
    places = list(leaves(value))
    assert len(places) > 80
    for path in places:
        forged = changed_at(value, path, other(at_path(value, path)))
        assert forged != value
        text = armored(VERSION, "s", head + squeezed(VERSION, written(forged)))
        assert told(text) in ("altered", "damaged"), path


def test_a_signature_does_not_go_with_another_quote():
    one, two = (sealed(quote(), KEY.id, KEY.sign) for quote in (plain, ordinary))
    assert told(armored(VERSION, "s", body_of(one)[:68] + body_of(two)[68:])) == "altered"


def test_a_signature_is_for_quotes_of_this_version_alone():
    body = compressed(plain())
    name = bytes.fromhex(KEY.id)
    for message in (body, message_of(1, name, body), message_of(VERSION, name, body)[1:]):
        assert told(armored(VERSION, "s", name + KEY.sign(message) + body)) == "altered"
    assert told(armored(VERSION, "s", name + KEY.sign(message_of(VERSION, name, body)) + body)) == "held"


def test_a_quote_without_its_signature_is_an_estimate(text):
    assert told(armored(VERSION, "u", body_of(text)[68:])) == "estimate"


def test_another_shop_s_key_is_not_known():
    stranger = Private.new()
    assert told(sealed(plain(), stranger.id, stranger.sign)) == "unknown-key"
    posing = sealed(plain(), KEY.id, stranger.sign)
    assert told(posing) == "altered"


def test_a_price_holds_until_the_last_day_and_not_longer(text):
    assert told(text, day=LAST) == "held"
    assert told(text, day=LAST + timedelta(days=1)) == "expired"


def test_a_withdrawn_number_is_known_by_its_hash(text):
    assert told(text, withdrawn=(number_hash("261125-LQOPZ"),)) == "withdrawn"
    assert told(text, withdrawn=(number_hash("261125-LQOPY"),)) == "held"


def test_a_retired_key_is_good_for_what_it_signed_and_for_nothing_later(text):
    assert told(text, keys=[replace(PUBLIC, retired=DAY)]) == "held"
    assert told(text, keys=[replace(PUBLIC, retired=DAY - timedelta(days=1))]) == "late-key"
    assert told(text, keys=[replace(PUBLIC, retired=DAY, recalled=True)]) == "recalled-key"


def test_of_several_keys_the_right_one_is_found(text):
    others = [Private.new() for _ in range(3)]
    keys = [QuoteKey(one.id, one.public, DAY, None, False, PUBLIC.mark) for one in others]
    assert told(text, keys=[*keys, PUBLIC]) == "held"
    assert told(text, keys=keys) == "unknown-key"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "nothing"),
        ("  \n", "nothing"),
        ("#lenses", "no-quote"),
        ("https://ottersea.example.org/quote/", "no-quote"),
        ("od=-2.00&os=-2.25&pd=63", "no-quote"),
        ("3uQUJDz", "newer"),
        ("999sQUJDz", "newer"),
        ("1xQUJDz", "damaged"),
        ("2xQUJDz", "damaged"),
        ("2uz", "damaged"),
        ("2uQUJDz", "damaged"),
        ("2sQUJDz", "damaged"),
        ("1uz", "damaged"),
        ("1uQUJDz", "damaged"),
        ("1sQUJDz", "damaged"),
    ],
)
def test_what_is_no_quote_is_told_apart(text, fault):
    assert opened(text).fault == fault
    assert PLAIN[fault].endswith(".")


def unsigned_of(raw):
    return armored(VERSION, "u", squeezed(VERSION, raw))


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"[]",
        b"null",
        b"{",
        b'{"number":1}',
        b"[" * 100_000,
        b"1" * 10_000,
        b"NaN",
        b"\xff\xfe",
        written(packed(FORM, "quote", plain())) + b" ",
        written(packed(FORM, "quote", plain())).replace(b",", b", "),
        written(packed(FORM, "quote", {**plain(), "frames": []})),
        written(packed(FORM, "quote", {**plain(), "alternatives": []})),
        written(packed(FORM, "quote", {**plain(), "alternatives": [[]]})),
        json.dumps(packed(FORM, "quote", {**plain(), "note": "é"}), separators=(",", ":")).encode(),
    ],
    ids=lambda raw: raw[:24],
)
def test_what_is_compressed_well_and_no_quote_of_ours_is_damaged(raw):
    assert opened(unsigned_of(raw)).fault == "damaged"


def test_a_text_that_would_fill_the_memory_does_not():
    for version in range(1, VERSION + 1):
        bomb = squeezed(version, b" " * (50 * MOST_BYTES))
        assert opened(armored(version, "u", bomb)).fault == "damaged"


def test_what_stands_behind_the_compressed_quote_is_not_ignored():
    assert opened(armored(VERSION, "u", compressed(plain()) + b"more")).fault == "damaged"


@given(st.binary(max_size=200), st.sampled_from("su"))
def test_no_bytes_whatever_raise(body, kind):
    assert told(armored(VERSION, kind, body)) not in {"held", "expired", "withdrawn"}


@given(st.text(max_size=300))
def test_no_text_whatever_raises(text):
    assert opened(text).quote is None


def test_base64_in_the_other_alphabet_is_not_taken():
    text = unsigned(plain())
    body = base64.b64encode(body_of(text)).decode().rstrip("=")
    if body != SHAPE.fullmatch(text)["body"]:
        assert bared(body + "z") is None


def test_a_byte_flipped_in_an_estimate_makes_no_other_estimate():
    """Nobody signed it, but what squeezed it counts its bytes."""
    body = body_of(unsigned(tinted()))
    for at in range(len(body)):
        for bit in (0x01, 0x10, 0x80):
            changed = bytearray(body)
            changed[at] ^= bit
            found = opened(armored(VERSION, "u", bytes(changed)))
            assert found.quote in (None, tinted())


def test_the_words_that_links_of_a_version_have_in_common_stay():
    """Whoever changes a letter of them closes every link that was made."""
    assert hashlib.sha256(PRIMER).hexdigest() == "f1bf781ffa44b169a80426df5e70dbb422f46fe69765d736f9bdc510885cce79"


@given(st.binary(max_size=400), st.integers(1, VERSION))
def test_what_was_squeezed_comes_back_whole(raw, version):
    assert unsqueezed(version, squeezed(version, raw), 400) == raw
    assert unsqueezed(version, squeezed(version, raw) + b"x", 400) is None
    assert unsqueezed(version, squeezed(version, raw)[:-1], 400) is None
