"""Flags on a prescription: each with the limit it is about, just inside and just outside."""

from datetime import date

import pytest

from quoting.findings import Mark
from quoting.prescription.checks import plausible, powers_apart, reading_imbalance
from quoting.prescription.distances import height_flags, measured_flags
from quoting.prescription.file import read_file
from quoting.prescription.form import read_form
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.prescription.text import read_slip

MARK = Mark("slip", 1, 1)


def flags(right=None, left=None, **rest):
    """Codes of the flags of a pair; the other eye is like the one that is given."""
    right, left = right or left or EyeRx(-1.0), left or right or EyeRx(-1.0)
    age = {key: rest.pop(key) for key in ("today", "max_age_months") if key in rest}
    return sorted({finding.code for finding in plausible(Prescription(right, left, **rest), MARK, **age)})


def pd(*values, **named):
    return flags(pd=Distances(*values, **named))


def measured(used, prescribed=None, child=False):
    return [flag.code for flag in measured_flags(used, prescribed or Distances(), child)]


# Limits: practice of dispensing
@pytest.mark.parametrize(
    ("used", "child", "told"),
    [
        (Distances(54), False, []),
        (Distances(53.5), False, ["pd-range"]),
        (Distances(74.5), False, ["pd-range"]),
        (Distances(right=26.5, left=27), False, ["pd-range"]),
        (Distances(43), True, []),
        (Distances(42.5), True, ["pd-range"]),
        (Distances(62), True, []),
        (Distances(74.5), True, ["pd-range"]),
        (Distances(right=30, left=34), False, []),
        (Distances(right=30, left=34.5), False, ["pd-uneven"]),
        (Distances(62, near=63), False, ["pd-near"]),
    ],
)
def test_measured_distances_are_looked_at_as_those_on_a_slip(used, child, told):
    assert measured(used, child=child) == told


@pytest.mark.parametrize(
    ("used", "prescribed", "told"),
    [
        (Distances(right=31, left=32), Distances(63), []),
        (Distances(right=31, left=32), Distances(64), ["pd-sum"]),
        (Distances(63), Distances(right=31, left=32), []),
        (Distances(64), Distances(right=31, left=32), ["pd-sum"]),
        (Distances(64), Distances(63), []),
        (Distances(right=31, left=32), Distances(right=30, left=30), []),
    ],
)
def test_measured_halves_and_a_prescribed_whole_must_agree(used, prescribed, told):
    assert measured(used, prescribed) == told


def test_pupils_that_stand_unequally_high_are_told():
    assert list(height_flags(20, 22)) == list(height_flags(22, 20)) == []
    assert [flag.code for flag in height_flags(20, 22.5)] == ["height-uneven"]


# Limits: practice of dispensing, unless a source stands beside them
@pytest.mark.parametrize(
    ("inside", "outside", "code"),
    [
        (EyeRx(-2.125), EyeRx(-2.3), "off-step"),
        (EyeRx(-1.0, -0.625, 90), EyeRx(-1.0, -0.6, 90), "off-step"),
        (EyeRx(1.0, add=2.25), EyeRx(1.0, add=2.2), "off-step"),
        (EyeRx(-20.0), EyeRx(-20.25), "sphere-strong"),
        (EyeRx(20.0), EyeRx(20.25), "sphere-strong"),
        (EyeRx(-1.0, -6.0, 90), EyeRx(-1.0, -6.25, 90), "cylinder-strong"),
        (EyeRx(-1.0, -1.0, 180), EyeRx(-1.0, -1.0, 181), "axis-range"),
        (EyeRx(-1.0, -1.0, 1), EyeRx(-1.0, -1.0, 0), "axis-range"),
        (EyeRx(-1.0, 0.0, 0), EyeRx(-1.0, -1.0, 0), "axis-range"),
        (EyeRx(1.0, add=0.50), EyeRx(1.0, add=0.25), "add-range"),
        (EyeRx(1.0, add=4.00), EyeRx(1.0, add=4.25), "add-range"),
        (EyeRx(1.0), EyeRx(1.0, add=-1.0), "add-minus"),
        (EyeRx(1.0, prism_up=0.25), EyeRx(1.0, prism_up=0.5), "prism-vertical"),
        (EyeRx(1.0, prism_in=4.0), EyeRx(1.0, prism_up=-0.5), "prism-vertical"),
    ],
)
def test_a_limit_is_flagged_from_just_outside_it(inside, outside, code):
    assert flags(inside) == []
    assert flags(outside) == [code]


@pytest.mark.parametrize(
    ("inside", "outside", "code"),
    [
        ((EyeRx(0.5), EyeRx(0.0)), (EyeRx(0.5), EyeRx(-0.5)), "signs-differ"),
        ((EyeRx(1.0, -2.0, 90), EyeRx(-0.5)), (EyeRx(1.0, -2.25, 90), EyeRx(0.5)), "signs-differ"),
        ((EyeRx(-1.0), EyeRx(-2.75)), (EyeRx(-1.0), EyeRx(-3.0)), "powers-differ"),
        ((EyeRx(1.0, add=2.0), EyeRx(1.0, add=2.0)), (EyeRx(1.0, add=2.0), EyeRx(1.0)), "add-one-eye"),
        ((EyeRx(1.0, add=2.0), EyeRx(1.0, add=2.0)), (EyeRx(1.0, add=2.0), EyeRx(1.0, add=2.25)), "adds-differ"),
        ((EyeRx(1.0), EyeRx(2.5)), (EyeRx(1.0, add=2.0), EyeRx(2.5, add=2.0)), "reading-imbalance"),
        (
            (EyeRx(1.0, add=2.0), EyeRx(2.25, add=2.0)),
            (EyeRx(1.0, add=2.0), EyeRx(2.5, add=2.0)),
            "reading-imbalance",
        ),
    ],
)
def test_a_difference_between_the_eyes_is_flagged_from_its_limit_on(inside, outside, code):
    assert flags(*inside) == []
    assert flags(*outside) == [code]


# Prentice's rule, Bhootra, Ophthalmic Lenses, p. 117: 3.00 D at 5 mm is 1.5 prism diopters, so 1.50 D at 10 mm too;
# MRCOphth revision answers, no. 9: 5.00 D at 10 mm is 5 prism diopters
def test_the_pull_at_the_reading_level_follows_prentice():
    assert reading_imbalance(EyeRx(0.0), EyeRx(1.5)) == pytest.approx(1.5)
    assert reading_imbalance(EyeRx(0.0), EyeRx(-5.0)) == pytest.approx(5.0)


# A cylinder with its axis at 90 has no power in the vertical, one at 180 all of it; at 45 half of it
# (textbook shortcut for oblique cylinders, from memory: 0, 50, 100 percent at 0, 45, 90 degrees from the axis)
@pytest.mark.parametrize(("axis", "part"), [(90, 0.0), (45, 0.5), (180, 1.0)])
def test_only_the_vertical_part_of_a_cylinder_pulls_at_the_reading_level(axis, part):
    assert reading_imbalance(EyeRx(1.0), EyeRx(1.0, -4.0, axis)) == pytest.approx(4.0 * part)


# NFOS on-line course OPT 11, module 8c: +1.50 -0.50 x 125 is +1.00 +0.50 x 35
def test_the_same_lens_in_the_other_notation_is_no_difference():
    assert powers_apart(EyeRx(1.50, -0.50, 125), EyeRx(1.00, 0.50, 35)) == pytest.approx(0.0, abs=1e-12)


def test_crossed_cylinders_differ_by_their_sum_in_one_meridian():
    assert powers_apart(EyeRx(0.0, -1.0, 90), EyeRx(-1.0, 1.0, 90)) == pytest.approx(1.0)
    assert powers_apart(EyeRx(0.0, -2.0, 90), EyeRx(0.0, -2.0, 180)) == pytest.approx(2.0)


# Dodgson, Proc. SPIE 5291 (2004) 36: mean of adults 63 mm, 52 to 78 in the survey; 54-74 is where a dispenser asks
@pytest.mark.parametrize(
    ("distances", "expected"),
    [
        ((63,), []),
        ((54,), []),
        ((74,), []),
        ((53.5,), ["pd-range"]),
        ((74.5,), ["pd-range"]),
        ((None, 31.5, 32), []),
        ((None, 26, 27), ["pd-range"]),
        ((None, 30, 34), []),
        ((None, 29.5, 34), ["pd-uneven"]),
        ((63, 31.5, 31.5), []),
        ((63, 31.5, 32), ["pd-sum"]),
        ((None, 31.5), ["pd-one-eye"]),
        ((None, None, 32), ["pd-one-eye"]),
    ],
)
def test_pupillary_distances_are_flagged_outside_their_limits(distances, expected):
    assert pd(*distances) == expected


@pytest.mark.parametrize(
    ("read", "ending", "text"),
    [
        (read_slip, "", "OD -2.00 DS / OS -2.00 DS / PD 50"),
        (read_form, ".yaml", "right: {sphere: -2.00}\nleft: {sphere: -2.00}\npd: 50\n"),
    ],
    ids=["slip", "form"],
)
def test_a_child_is_one_whoever_reads_the_prescription(read, ending, text, tmp_path):
    """All readers take the word for it, and so does the one that picks them by the file's ending."""
    path = tmp_path / f"rx{ending}"
    path.write_text(text, encoding="utf-8")
    for child in (False, True):
        codes = [finding.code for finding in read(text, child=child).findings]
        assert ("pd-range" in codes) == (not child)
        assert codes == [finding.code for finding in read_file(path, child=child).findings]


def test_a_child_s_pupillary_distance_is_called_that():
    message = plausible(Prescription(EyeRx(0.0), None, Distances(50)), MARK)[0].message
    assert "children 43 to 60" in message
    assert "children" not in plausible(Prescription(EyeRx(0.0), None, Distances(40)), MARK)[0].message


# Gerstman's formula for the near PD at 40 cm without power: 63 mm becomes 59 (read in a quotation of the formula)
def test_a_near_pupillary_distance_goes_with_that_for_distance():
    assert pd(63, near=59) == []
    assert pd(63, near=64) == ["pd-near"]
    assert pd(63, near=50) == ["pd-near"]


def test_the_age_counts_in_whole_months_and_the_last_day_is_good():
    written = date(2024, 5, 31)
    assert flags(written=written, today=date(2025, 5, 31), max_age_months=12) == []
    assert flags(written=written, today=date(2025, 6, 1), max_age_months=12) == ["too-old"]
    assert flags(written=written, today=date(2024, 6, 30), max_age_months=1) == []
    assert flags(written=written, today=date(2024, 7, 1), max_age_months=1) == ["too-old"]
    assert flags(written=written, today=date(2124, 6, 1)) == []
    assert flags(written=written, today=date(2024, 5, 30)) == ["date-future"]
    assert flags(today=date(2024, 5, 30), max_age_months=12) == ["undated"]
    assert flags(written=written) == []


def test_every_flag_tells_both_numbers_and_what_to_do():
    pair = Prescription(EyeRx(-2.3, add=0.25, prism_up=1.0), EyeRx(2.25, -7.0, 90), Distances(45, 20, 26))
    found = plausible(pair, MARK)
    assert len({finding.code for finding in found}) == 10
    for finding in found:
        assert sum(any(char.isdigit() for char in word) for word in finding.message.split()) >= 2, finding.message
        assert finding.hint


def test_a_flag_stands_at_the_value_it_is_about():
    places = {"left cylinder": Mark("slip", 2, 10)}
    pair = Prescription(EyeRx(1.0), EyeRx(4.0, -7.0, 90))
    marks = {finding.code: finding.mark for finding in plausible(pair, MARK, places=places)}
    assert marks["cylinder-strong"] == places["left cylinder"]
    assert marks["powers-differ"] == MARK
