"""Whatever stands in the files, load answers in bounded time with findings at places, and never raises."""

import re
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.catalog.mangling import FILES, findings_after, values

NAMES = sorted(FILES)
PATIENCE = 60  # seconds of this process; the slowest of these takes about one on a slow machine

INSTEAD = [
    b"",
    b"~",
    b"[]",
    b"{}",
    b"[1, 2]",
    b"{a: 1}",
    b"x",
    b"-1",
    b"1e9",
    b"52,5",
    b"yes",
    b'""',
    b"999999999999",
    b"2026-02-30",
    b"*x",
    b"&x",
    b"!!str 5",
    b'"\\x00"',
    b"#444a52",
    b"\xe9",
    b"|",
    b"'",
]
# no field takes any of these, so none may pass in silence
NEVER_RIGHT = [b"~", b"[]", b"{}", b"{a: 1}", b'""', b"*x", b"&x", b"!!str 5", b"\xe9", b"'", b'"\\x00"']

settings.register_profile("mangled", deadline=None, suppress_health_check=[HealthCheck.too_slow])
mangled = settings(settings.get_profile("mangled"), max_examples=150)


@pytest.mark.parametrize("instead", INSTEAD)
@pytest.mark.parametrize("name", NAMES)
def test_any_value_may_be_replaced_by_anything(name, instead):
    for start, end in values(FILES[name]):
        content = FILES[name][:start] + instead + FILES[name][end:]
        findings = findings_after(name, content)
        if instead in NEVER_RIGHT:
            assert findings, FILES[name][start:end]


@pytest.mark.parametrize("name", NAMES)
def test_any_line_may_be_missing(name):
    lines = FILES[name].splitlines(keepends=True)
    for place in range(len(lines)):
        findings_after(name, b"".join(lines[:place] + lines[place + 1 :]))


@pytest.mark.parametrize("name", NAMES)
def test_a_file_may_be_cut_anywhere(name):
    for end in range(0, len(FILES[name]), 7):
        findings_after(name, FILES[name][:end])


@given(st.sampled_from(NAMES), st.data())
@mangled
def test_bytes_may_stand_anywhere(name, data):
    content = FILES[name]
    start = data.draw(st.integers(0, len(content)))
    end = data.draw(st.integers(start, min(len(content), start + 40)))
    put = data.draw(
        st.binary(max_size=20) | st.text(alphabet="{}[]:,-#&*!|>'\"%@` \t\n\\\u2028é0", max_size=20).map(str.encode)
    )
    findings_after(name, content[:start] + put + content[end:])


@given(st.sampled_from(NAMES), st.data())
@mangled
def test_lines_may_be_shuffled(name, data):
    lines = data.draw(st.permutations(FILES[name].splitlines(keepends=True)))
    findings_after(name, b"".join(lines))


@given(
    st.sampled_from(NAMES), st.binary(max_size=300) | st.text(max_size=300).map(lambda t: t.encode("utf-8", "replace"))
)
@mangled
def test_a_file_may_hold_anything(name, content):
    findings_after(name, content)


PIECES = st.recursive(
    st.text(alphabet="abn01.,- #", max_size=8).map(lambda text: f'"{text}"')
    | st.sampled_from(["", "a", "~", "1", "-2.25", "no"]),
    lambda inner: (
        st.lists(inner, max_size=4).map(lambda items: f"[{', '.join(items)}]")
        | st.lists(
            st.tuples(st.sampled_from(["id", "from", "to", "frames", "shop", "sizes", "a"]), inner), max_size=4
        ).map(lambda pairs: "{" + ", ".join(f"{key}: {value}" for key, value in pairs) + "}")
    ),
    max_leaves=12,
)


@given(st.sampled_from(NAMES), st.data())
@mangled
def test_any_field_may_hold_any_shape(name, data):
    text = FILES[name].decode()
    keys = list(re.finditer(r"(?m)^( *(?:- )?)([a-z_-]+):.*$", text))
    place = data.draw(st.sampled_from(keys))
    line = f"{place[1]}{place[2]}: {data.draw(PIECES)}"
    findings_after(name, (text[: place.start()] + line + text[place.end() :]).encode())


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(
    "change",
    [
        pytest.param(lambda raw: b"\xef\xbb\xbf" + raw, id="byte-order-mark"),
        pytest.param(lambda raw: raw.replace(b"\n", b"\r\n"), id="crlf"),
        pytest.param(lambda raw: raw.replace(b"\n", b"\r"), id="cr"),
        pytest.param(lambda raw: raw.rstrip(b"\n"), id="no-last-line-end"),
        pytest.param(lambda raw: raw + b"\n\n# the end\n", id="blank-end"),
        pytest.param(lambda raw: b"---\n" + raw, id="document-start"),
        pytest.param(lambda raw: b"%YAML 1.1\n---\n" + raw + b"...\n", id="directive"),
    ],
)
def test_what_changes_only_the_writing_changes_nothing(name, change):
    assert findings_after(name, change(FILES[name])) == []


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(
    "change",
    [
        pytest.param(lambda raw: raw.decode().encode("utf-16"), id="utf-16"),
        pytest.param(lambda raw: raw.decode().encode("utf-16-be"), id="utf-16-without-mark"),
        pytest.param(lambda raw: raw.decode().encode("utf-32"), id="utf-32"),
        pytest.param(lambda raw: raw + "# é".encode("latin-1"), id="latin-1"),
        pytest.param(lambda raw: raw.replace(b"  ", b"\t"), id="tabs"),
        pytest.param(lambda raw: raw + b"---\n" + raw, id="twice"),
        pytest.param(lambda raw: raw + b"\x00", id="nul"),
        pytest.param(lambda raw: b"a: &a [b]\n" + raw, id="anchor"),
        pytest.param(lambda raw: b"", id="empty"),
        pytest.param(lambda raw: b"<html><body>Not found</body></html>\n", id="html"),
        pytest.param(lambda raw: b"PK\x03\x04" + bytes(range(256)) * 20, id="zip"),
    ],
)
def test_what_cannot_be_read_is_told(name, change):
    assert findings_after(name, change(FILES[name])) != []


def bomb():
    """Nine levels of nine aliases each: 387 million values for who follows them."""
    rows = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    rows += [f"{two}: &{two} [{', '.join([f'*{one}'] * 9)}]" for one, two in zip("abcdefgh", "bcdefghi", strict=True)]
    return "\n".join(rows)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(bomb(), id="aliases"),
        pytest.param("maker: " + "x" * 2_000_000, id="long-line"),
        pytest.param("maker: 1" + "a" * 2_000_000 + "\n", id="long-unit"),
        pytest.param("effective: " + "9" * 2_000_000, id="long-number"),
        pytest.param("a" * 2_000_000 + ": 1", id="long-name"),
        pytest.param("maker: [" + "a, " * 200_000 + "]", id="long-list"),
        pytest.param("{" + ", ".join(f"k{i}: 1" for i in range(20_000)) + "}", id="many-names"),
        pytest.param("{" + "a: 1, " * 20_000 + "}", id="one-name-often"),
        pytest.param("frames: [" + "{}, " * 4_000 + "]", id="many-empty-frames"),
        pytest.param("[" * 2_000_000, id="brackets"),
        pytest.param("- " * 1_000_000, id="dashes"),
        pytest.param("? " * 1_000_000, id="question-marks"),
        pytest.param("\n" * 2_000_000 + "x", id="blank-lines"),
        pytest.param("a: '" + "\n" * 2_000_000, id="open-quote"),
        pytest.param("maker: >\n" + "  word\n" * 300_000, id="long-text"),
        pytest.param("#" * 7_900_000, id="comment"),
    ],
)
@pytest.mark.parametrize("name", ["frames/pellbridge.yaml", "shop.yaml"])
def test_no_file_takes_long(name, text):
    before = time.process_time()
    assert findings_after(name, text.encode()) != []
    assert time.process_time() - before < PATIENCE
