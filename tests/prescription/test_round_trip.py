"""A prescription written in any notation reads back the same, and no text at all makes the reader fail."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from quoting.findings import errors
from quoting.prescription.lexemes import Slip
from quoting.prescription.model import Distances, EyeRx
from quoting.prescription.text import read_slip
from quoting.prescription.words import WRITTEN, known


def steps(low, high, step=0.25):
    return st.integers(round(low / step), round(high / step)).map(lambda count: count * step)


# Powers as lens makers list them, in quarters; prism in halves; axis in whole degrees
POWERS = steps(-12, 8)
CYLINDERS = steps(-4, 4)
ADDS = steps(0.50, 4.00)
PRISMS = st.sampled_from([-3.0, -1.5, -0.5, 0.0, 0.0, 0.0, 0.5, 2.0])


@st.composite
def eyes(draw):
    cylinder = draw(CYLINDERS)
    axis = draw(st.integers(1, 180)) if cylinder else 180
    return EyeRx(draw(POWERS), cylinder, axis, prism_in=draw(PRISMS), prism_up=draw(PRISMS))


@st.composite
def pairs(draw):
    right, left = draw(eyes()), draw(eyes())
    if draw(st.booleans()):
        right, left = replace(right, add=draw(ADDS)), replace(left, add=draw(ADDS))
    return right, left


def signed(value):
    return f"{value:+.2f}" if value else "0.00"


def prisms(eye, form):
    bases = "in" if eye.prism_in > 0 else "out", "up" if eye.prism_up > 0 else "down"
    parts = [(abs(amount), base) for amount, base in zip((eye.prism_in, eye.prism_up), bases, strict=True) if amount]
    return " ".join(form.format(amount=amount, base=base, short="B" + base[0].upper()) for amount, base in parts)


def cylinder(eye, form):
    return form.format(c=signed(eye.cylinder), a=eye.axis) if eye.cylinder else ""


def latin(names, eye):
    add = f"add {signed(eye.add)}" if eye.add else ""
    prism = prisms(eye, "{amount:g} {short}")
    return " ".join((names[0], signed(eye.sphere), cylinder(eye, "{c} x {a:03}") or "DS", add, prism))


def compact(names, eye):
    add = f"add{eye.add:.2f}" if eye.add else ""
    return f"{names[1]}{signed(eye.sphere)}{cylinder(eye, '{c}x{a}')} {add} {prisms(eye, '{amount}Δ base {base}')}"


def slashed(names, eye):
    text = f"{names[1]}: {signed(eye.sphere)}{cylinder(eye, '/{c}/{a}')}".replace(".", ",")
    return text + (f" Add {signed(eye.add)}" if eye.add else "") + " " + prisms(eye, "prism {amount} base-{base}")


def wordy(names, eye):
    text = f"{names[2]}: sphere {signed(eye.sphere)}{cylinder(eye, ', cylinder {c}, axis {a}°')}"
    add = f", addition {eye.add}" if eye.add else ""
    return f"{text.replace('-', '−')}{add}, {prisms(eye, '{amount:g}^ base {base}')}"


def british(names, eye):
    text = f"{names[3]} {signed(eye.sphere)}DS{cylinder(eye, '/{c}DC×{a}')}"
    return text + (f" add {signed(eye.add)}" if eye.add else "") + " " + prisms(eye, "{amount}Δ {short}")


def angled(names, eye):
    """Prisms by base angle: 0 is the observer's right, nasal for the right eye (ISO 13666)."""
    inward = {"in": 0, "out": 180} if names[0] == "OD" else {"in": 180, "out": 0}
    text = prisms(eye, "{amount}Δ @ {base}")
    for base, angle in {**inward, "up": 90, "down": 270}.items():
        text = text.replace(f"@ {base}", f"@ {angle}")
    return latin(names, replace(eye, prism_in=0, prism_up=0)) + " " + text


RIGHT, LEFT = ("OD", "R", "right eye", "RE"), ("OS", "L", "left eye", "LE")


@pytest.mark.parametrize("write", [latin, compact, slashed, wordy, british, angled], ids=lambda write: write.__name__)
@pytest.mark.parametrize("between", ["\n", " / ", "; "])
@given(pair=pairs())
def test_a_prescription_written_in_any_notation_reads_back_the_same(write, between, pair):
    slip = write(RIGHT, pair[0]) + between + write(LEFT, pair[1])
    reading = read_slip(slip)
    assert errors(reading.findings) == [], slip
    assert (reading.prescription.right, reading.prescription.left) == pair, slip


def cells(names, eye):
    axis = f"{eye.axis:03}" if eye.cylinder else ""
    add = signed(eye.add) if eye.add else ""
    return [names[0], signed(eye.sphere), signed(eye.cylinder) if eye.cylinder else "", axis, add]


@pytest.mark.parametrize("write", ["\t".join, " | ".join, lambda row: "".join(f"{cell:>9}" for cell in row)])
@given(pair=pairs())
def test_a_table_with_empty_cells_reads_back_the_same(write, pair):
    flat = [replace(eye, prism_in=0, prism_up=0) for eye in pair]
    rows = [["", "SPH", "CYL", "AXIS", "ADD"], cells(RIGHT, flat[0]), cells(LEFT, flat[1])]
    reading = read_slip("\n".join(write(row) for row in rows))
    assert errors(reading.findings) == []
    assert [reading.prescription.right, reading.prescription.left] == flat


@given(right=steps(24, 39, 0.5), left=steps(24, 39, 0.5), whole=steps(48, 78, 0.5))
def test_pupillary_distances_read_back_the_same(right, left, whole):
    for text, expected in [
        (f"PD {right:g}/{left:g}", Distances(None, right, left)),
        (f"PD R {right:g} L {left:g}", Distances(None, right, left)),
        (f"PD {whole:g}", Distances(whole)),
        (f"PD {whole:g} mm, near PD {whole - 3:g}", Distances(whole, near=whole - 3)),
    ]:
        assert read_slip(f"OU -1.00 DS {text}").prescription.pd == expected


@given(st.dates(date(1990, 1, 1), date(2099, 12, 31)))
def test_dates_with_the_month_in_words_read_back_the_same(day):
    month = f"{day:%B}"
    for text in (f"{day.day} {month} {day.year}", f"{month} {day.day}, {day.year}", day.isoformat()):
        assert read_slip(f"OU -1.00 DS {text}").prescription.written == day


# --- nothing makes it fail, and nothing gets lost ---

PIECES = [
    *(phrase for text in WRITTEN.values() for phrase in text.split("; ")),
    "-2.25", "+1.00", "-0.75", "-2,25", "- 2.25", "--1", "2.2.2", "90", "x090", "2.00", "63", "31.5", "32", "½", "$",
    "20/20", "2026-05-04", "03/04/2026", *"/,|-+±^@°()?", "\n", "\n", "\t", "  ", "SPH CYL AXIS\nOD",
    "|SPH|CYL|AXIS|PRISM|BASE|\n|OD|", "SPH  CYL  AXIS  ADD\nR ", "SPH\tCYL\tAXIS\nL\t",
]  # fmt: skip
SLIP = "OD -2.25 -0.75 x 090 add +2.00 2 BI / OS -2.50 DS add +2.00 / PD 31.5/32 / 4 May 2026"
MIXED = st.lists(st.sampled_from(PIECES) | st.sampled_from(["", " ", " "]), max_size=40).map("".join)


@st.composite
def mutated(draw):
    text = SLIP
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(st.sampled_from([*PIECES, ""])) + text[at + draw(st.integers(0, 3)) :]
    return text


def place(slip, mark):
    """Where a mark begins; it must lie in the text."""
    assert 1 <= mark.line <= len(slip.lines)
    assert mark.text == slip.lines[mark.line - 1]
    assert 1 <= mark.column <= len(mark.text) + 1
    assert mark.length == 1 or mark.column - 1 + mark.length <= len(mark.text)
    return slip.starts[mark.line - 1] + mark.column - 1


@given(st.text(max_size=500) | MIXED | mutated())
@example("\r\nOD\r-2.25\n\n")
@example("٣ ½ ² 一")
def test_every_piece_of_any_text_is_read_ignored_or_refused_exactly_where_it_stands(text):
    reading = read_slip(text)
    slip = Slip(text)
    read = [0] * len(text)
    told = [0] * len(text)
    for token in reading.tokens:
        start = place(slip, token.mark)
        assert text.startswith(token.text, start)
        for at in range(start, start + len(token.text)):
            read[at] += 1
    for finding in reading.findings:
        start = place(slip, finding.mark)
        for at in range(start, min(len(text), start + finding.mark.length)):
            told[at] += 1
    assert max(read, default=0) <= 1  # nothing is read twice
    for piece in known(slip):
        if piece.kind not in ("symbol", "break"):
            assert all(read[at] or told[at] for at in range(piece.start, piece.end)), piece
    assert (reading.prescription is None) == bool(errors(reading.findings))


@given(mutated())
def test_a_number_is_never_dropped_from_a_slip_that_is_accepted(text):
    reading = read_slip(text)
    if reading.prescription is None:
        return
    for token in reading.tokens:
        if token.meaning.startswith("ignored"):
            assert not any(char.isnumeric() for char in token.text), token
