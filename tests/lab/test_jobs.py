"""Jobs and traces go out and come back; what is foreign or damaged is marked and never guessed."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.findings import Mark, errors
from quoting.kernel.trace import equal_angles, mirrored_trace
from quoting.lab.codes import LAB_CODES
from quoting.lab.jobs import Job, plain_text, read_job, write_job
from quoting.lab.labels import LABELS, TABLE
from quoting.lab.records import MOST_BYTES
from quoting.lab.traces import Trace, measured

HERE = Mark("x", 1, 1)


def read(text):
    job, findings = read_job(text.encode("latin-1") if isinstance(text, str) else text, "job.dcs")
    return job, findings


def codes(text):
    return [one.code for one in read(text)[1]]


def superellipse(a, b, power, angles):
    """Radii of |2x/A|^p + |2y/B|^p = 1 in hundredths: a closed form, none of the kernel's."""
    found = []
    for angle in angles:
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        found.append(round((abs(2 * c / a) ** power + abs(2 * s / b) ** power) ** (-1 / power), 2))
    return found


def traced(side="R", count=400, a=52.0, b=36.0, power=3.0):
    angles = equal_angles(count)
    return Trace(side, "F", tuple(superellipse(a, b, power, angles)), tuple(angles), HERE)


def numbers(label):
    places = 10**label.places
    whole = st.integers(math.ceil(label.low * places), math.floor(label.high * places))
    return st.none() | whole.map(lambda value: value / places)


def items(label):
    words = st.none() | st.text("ABCxyz 0189-.,", min_size=1).map(str.strip).filter(bool)
    one = words if label.low is None else numbers(label)
    return st.tuples(one, one) if label.sides else st.tuples(one)


KNOWN = st.fixed_dictionaries({}, optional={one.name: items(one) for one in TABLE if one.name != "DO"})


@settings(max_examples=150, deadline=None)
@given(KNOWN, st.booleans())
def test_a_job_comes_back_as_it_went_out(values, framed):
    job = Job("B", values | {"DO": ("B",)})
    found, findings = read_job(write_job(job, framed), "x")
    assert errors(findings) == []
    assert found.values == job.values
    assert write_job(found, framed) == write_job(job, framed)


@pytest.mark.parametrize("side", ["R", "L"])
def test_a_job_for_one_eye_leaves_the_other_empty(side):
    values = {"DO": (side,), "SPH": (-2.0, None) if side == "R" else (None, -2.0)}
    text = write_job(Job(side, values)).decode()
    assert ("SPH=-2.00;\r\n" if side == "R" else "SPH=;-2.00\r\n") in text
    found, _ = read(text)
    assert (found.eyes, found.values) == (side, values)


def test_an_unknown_value_is_written_with_a_question_mark_and_never_read_as_zero():
    text = write_job(Job("B", {"DO": ("B",), "CYL": (None, -0.5)})).decode()
    assert "CYL=?;-0.50" in text
    assert read(text)[0].number("CYL", "R") is None


@pytest.mark.parametrize(
    ("text", "eyes"), [("SPH=-2.00;", "R"), ("SPH=?;-1.00", "L"), ("SPH=-1.00;-1.00", "B"), ("JOB=1", "B")]
)
def test_without_do_a_job_is_for_the_eyes_that_have_a_sphere(text, eyes):
    assert read(text)[0].eyes == eyes


@pytest.mark.parametrize("count", [12, 36, 400, 512, 1000])
@pytest.mark.parametrize("equal", [True, False])
def test_traces_of_both_sides_come_back(count, equal):
    one = traced(count=count)
    angles = one.angles if equal else tuple(round(angle + 0.2, 2) for angle in one.angles)
    one = Trace("R", "F", one.radii, angles, HERE)
    radii, turned = mirrored_trace(list(one.radii), list(angles))
    both = (one, Trace("L", "P", tuple(radii), tuple(round(angle, 2) for angle in turned), HERE))
    found, findings = read_job(write_job(Job("B", {"DO": ("B",)}, both)), "x")
    assert errors(findings) == []
    for old, new in zip(both, found.traces, strict=True):
        assert (old.side, old.source, old.radii) == (new.side, new.source, new.radii)
        assert new.angles == pytest.approx(old.angles, abs=0.005)  # in hundredths of a degree


@pytest.mark.parametrize("side", ["R", "L"])
@pytest.mark.parametrize("power", [2.2, 3.0, 5.0])
def test_what_a_trace_measures_is_what_was_traced(side, power):
    """Against the closed form of the outline: its box, and the longest radius of fine steps around it."""
    found = measured(*traced(side, power=power).outline())
    fine = [step / 50 for step in range(360 * 50)]
    longest = max(superellipse(52.0, 36.0, power, fine))
    assert (found.a, found.b) == (pytest.approx(52.0, abs=0.03), pytest.approx(36.0, abs=0.03))
    assert found.ed == pytest.approx(2 * longest, abs=0.05)


def test_the_left_side_is_turned_into_the_nasal_frame():
    """A bump at the nasal side of a left eye is at 180 degrees of its trace, and toward +x of the outline."""
    radii = [25.0 + (2.0 if 170 <= angle <= 190 else 0.0) for angle in equal_angles(72)]
    xs, ys = Trace("L", "F", tuple(radii), tuple(equal_angles(72)), HERE).outline()
    widest = max(zip(xs, ys, strict=True), key=lambda point: abs(point[0]))
    assert widest[0] > 25.5
    bent = [point for point in zip(xs, ys, strict=True) if point[0] > 25.0]
    assert all(abs(y) < 6.0 for _, y in bent)


def test_line_ends_framing_blanks_and_flags_are_taken_as_they_come():
    plain = read("JOB=1\r\nSPH=-2.00;-1.25\r\n")[0]
    for text in (
        "JOB=1\nSPH=-2.00;-1.25", "JOB=1\rSPH=-2.00;-1.25\r", "\x1cJOB=1\r\n*SPH= -2.00 ; -1.25\r\n\x1e1234\x1d",
        "\n\nJOB = 1\n\nSPH=-2.00;-1.25;\n",
    ):  # fmt: skip
        job, findings = read(text)
        assert (job.values, findings) == (plain.values, []), text


def test_foreign_records_are_kept_and_private_ones_not_even_mentioned():
    job, findings = read("JOB=1\nFOREIGN=3;4\n_OURS=secret;7\n")
    assert [one.code for one in findings] == ["dcs-label-unknown"]
    again = write_job(job).decode()
    assert "FOREIGN=3;4\r\n_OURS=secret;7\r\n" in again
    assert write_job(read(again)[0]).decode() == again


def test_depths_of_a_trace_are_told_once_and_kept():
    radii = ";".join(["2500"] * 12)
    job, findings = read(f"TRCFMT=1;12;E;R;F\nR={radii}\nZFMT=1;12;E;R;F\nZ=1;2;3\nZ=4;5;6\n")
    assert [(one.code, one.severity, one.mark.line) for one in findings] == [("dcs-depths", "note", 3)]
    assert len(job.traces[0].radii) == 12
    again = write_job(job).decode()
    assert "ZFMT=1;12;E;R;F\r\nZ=1;2;3\r\nZ=4;5;6\r\n" in again
    assert write_job(read(again)[0]).decode() == again


@pytest.mark.parametrize(
    "text",
    ["SPH=nan;inf", "SPH=1e3;0", "SPH=--2;0", "AX=90.5.5;1", "SPH=0x10;1", "SPH=41;1", "AX=-1;1", "IPD=300;31"],
)
def test_no_number_is_guessed(text):
    job, findings = read(text)
    assert job is None
    assert {one.code for one in findings} <= {"dcs-not-a-number", "dcs-range"}
    assert findings[0].mark.column == text.index("=") + 2


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("1;72;C;R;F", "compressed"), ("4;72;E;R;F", "format"), ("1;3;E;R;F", "number of radii"),
        ("1;99999;E;R;F", "number of radii"), ("1;72;X;R;F", "E nor U"), ("1;72;E;B;F", "R nor L"),
        ("1;72;E;R;Q", "F, P and D"), ("1;72", "four values"), ("", "four values"),
    ],
)  # fmt: skip
def test_a_trace_format_that_nobody_reads_is_marked(head, said):
    job, findings = read(f"TRCFMT={head}\nR=2500;2500\n")
    assert job is None
    assert [one.code for one in findings] == ["dcs-trace-format"]
    assert said in findings[0].message


def test_no_trace_said_so_is_none():
    assert read("JOB=1\nTRCFMT=0\n") == (Job("B", {"JOB": ("1",)}), [])


@pytest.mark.parametrize(
    ("radii", "said"),
    [
        (["0"] * 36, "none can be 0"),
        (["2500"] * 18 + ["9"] * 2 + ["2500"] * 16, "cross itself"),
    ],
)
def test_what_is_no_outline_is_marked(radii, said):
    job, findings = read("TRCFMT=1;36;E;R;F\nR=" + ";".join(radii))
    assert job is None
    assert said in findings[0].message
    assert findings[0].code == "dcs-trace-shape"


def test_angles_must_rise_and_close_the_turn():
    radii = "R=" + ";".join(["2500"] * 12)
    for angles, said in (([*range(0, 3600, 300)], "gap"), ([0, *range(33000, 0, -3000)], "rise")):
        _, findings = read(f"TRCFMT=1;12;U;R;F\n{radii}\nA={';'.join(map(str, angles))}")
        assert said in findings[0].message


def test_all_is_told_at_once():
    assert codes("SPH=a;b\nAX=190;90\nnonsense\nR=1;2\nDO=X\n") == [
        "dcs-no-label", "dcs-not-a-number", "dcs-not-a-number", "dcs-range", "dcs-trace-lost", "dcs-eye",
    ]  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=300))
def test_no_bytes_raise(raw):
    job, findings = read_job(raw, "x")
    assert (job is None) == bool(errors(findings))
    assert {one.code for one in findings} <= LAB_CODES.keys()


def test_damaged_files_give_marks_or_what_was_there():
    """Bytes of a good file are changed, lost and doubled; each result is a job with sound values, or findings."""
    seeded = random.Random(7)
    good = write_job(Job("B", {"DO": ("B",), "SPH": (-2.0, -1.25), "HBOX": (52.0, 52.0)}, (traced(count=72),)))
    seen = set()
    for _ in range(400):
        raw = bytearray(good)
        for _ in range(seeded.randint(1, 3)):
            at = seeded.randrange(len(raw))
            match seeded.randrange(3):
                case 0:
                    raw[at] = seeded.randrange(256)
                case 1:
                    del raw[at : at + seeded.randint(1, 40)]
                case _:
                    raw[at:at] = raw[at : at + 10]
        job, findings = read_job(bytes(raw), "x")
        seen |= {one.code for one in findings}
        assert (job is None) == bool(errors(findings))
        for name, values in (job.values if job else {}).items():
            label = LABELS[name]
            assert all(not isinstance(one, float) or label.low <= one <= label.high for one in values)
    assert len(seen) >= 6


def test_a_file_as_large_as_no_job_is_not_read():
    assert codes("JOB=1\n" * (MOST_BYTES // 6 + 1)) == ["dcs-too-long"]


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("Grün; A", "Grun, A"),
        ("\n", "?"),
        ("AR\r\nX=1", "AR  X=1"),
        ("−2 × 5", "-2 x 5"),
        ("Straße", "Strasse"),
        ("ok", "ok"),
    ],
)
def test_words_never_break_a_record(words, plain):
    assert plain_text(words) == plain
