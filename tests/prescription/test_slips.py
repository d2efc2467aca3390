"""Slips in the usual notations read as an optician reads them.   Notations: usage of the trade (practice)."""

from datetime import date

import pytest

from quoting.findings import errors
from quoting.prescription.model import Distances, EyeRx
from quoting.prescription.text import read_slip

# One line a slip: its notation; the slip; right eye; left eye.
# An eye is (sphere, cylinder, axis), then add=, and prism as in=, out=, up=, down=.
SLIPS = [
    ("Latin abbreviations", "OD -2.25 -0.75 x 090 / OS -2.50 DS", (-2.25, -0.75, 90), (-2.50,)),
    ("two lines", "OD -2.25 -0.75 x 090\nOS -2.50 DS", (-2.25, -0.75, 90), (-2.50,)),
    ("comma decimals", "R: -2,25/-0,75x90  L: -2,50", (-2.25, -0.75, 90), (-2.50,)),
    ("at sign", "R pl -0.50 @ 5, L plano", (0, -0.50, 5), (0,)),
    ("compact", "R-2.25-0.75x90 L-2.50-0.50x85", (-2.25, -0.75, 90), (-2.50, -0.50, 85)),
    ("dotted", "O.D. +1.00 +0.50 x 180 O.S. +1.25", (1.00, 0.50, 180), (1.25,)),
    ("plus cylinder kept", "RE -3.00 +0.75 x 100; LE -3.00 +1.25 x 80", (-3.00, 0.75, 100), (-3.00, 1.25, 80)),
    ("typographic", "OD −2.25 –0.75 × 90° OS −2.50", (-2.25, -0.75, 90), (-2.50,)),
    ("words", "right eye: sphere -2.25 cylinder -0.75 axis 090\nleft eye: sphere -2.50", (-2.25, -0.75, 90), (-2.50,)),
    ("short labels", "R sph -2.25 cyl -0.75 A 90\nL sph -2.50 cyl -0.25 A 85", (-2.25, -0.75, 90), (-2.50, -0.25, 85)),
    ("labels behind", "OD -2.25 sph -0.75 cyl 90 axis, OS -2.50 sph", (-2.25, -0.75, 90), (-2.50,)),
    ("plan for plano", "R sph plan cyl -0.75 ax 0, L sphere plan", (0, -0.75, 180), (0,)),
    ("DS and DC", "RE -2.50DS/-0.75DCx90 LE -2.25DS", (-2.50, -0.75, 90), (-2.25,)),
    ("slashes", "OD: -2.25/-0.75/90 OS: -2.50/-0.50/85", (-2.25, -0.75, 90), (-2.50, -0.50, 85)),
    ("brackets", "OD: −1.25 (−0.50 × 80°), OS: −1.00 (−0.25 × 100°)", (-1.25, -0.50, 80), (-1.00, -0.25, 100)),
    ("one value a line", "OD\n-2.25\n-0.75\n090\nOS\n-2.50\n-0.50\n085", (-2.25, -0.75, 90), (-2.50, -0.50, 85)),
    ("signs in words", "OD minus 2.25 minus 0.75 axis 90, OS plus 1.00", (-2.25, -0.75, 90), (1.00,)),
    ("loose signs", "OD: - 2.25 - 0.75 x 90 / OS: + 1.00", (-2.25, -0.75, 90), (1.00,)),
    ("both eyes", "OU -1.00 -0.25 x 5", (-1.00, -0.25, 5), (-1.00, -0.25, 5)),
    ("both eyes by a pair", "R/L: -1.00 DS", (-1.00,), (-1.00,)),
    ("right and left", "Right +0.50, Left +0.75", (0.50,), (0.75,)),
    ("eighths", "OD -2.12 -0.375 x 90 OS -2.37", (-2.125, -0.375, 90), (-2.375,)),
    ("no zero before the point", "OD +.75 -.50 x 90 OS +,50", (0.75, -0.50, 90), (0.50,)),
    ("whole diopters", "OD -2 -1 x 90 OS +3", (-2, -1, 90), (3,)),
    ("units", "OD -2.25 D -0.75 dpt x 90 deg OS -2.50D", (-2.25, -0.75, 90), (-2.50,)),
    ("zero cylinder", "OD -2.25 0.00 x 180 OS -2.50 plano", (-2.25,), (-2.50,)),
    ("dashes for nothing", "OD: SPH -2.25 CYL - AXIS - OS: SPH -2.50 CYL DS", (-2.25,), (-2.50,)),
    ("axis 5 and 005", "OD -1.00 -0.50 x 5 OS -1.00 -0.50 x 005", (-1, -0.50, 5), (-1, -0.50, 5)),
    ("axis 000", "OD -1.00 -0.50 x 000 OS -1.00 -0.50 x 0", (-1, -0.50, 180), (-1, -0.50, 180)),
    ("add per eye", "R +1.00 add 2.00 L +1.25 add +2.25", (1.00, {"add": 2.00}), (1.25, {"add": 2.25})),
    ("add once", "R +1.00 L +1.25\nadd +2.00", (1.00, {"add": 2.00}), (1.25, {"add": 2.00})),
    ("add first", "Add +2.00. OD +1.00 OS +1.25", (1.00, {"add": 2.00}), (1.25, {"add": 2.00})),
    ("add for both eyes", "R +1.00 L +1.25 add +2.00 OU", (1.00, {"add": 2.00}), (1.25, {"add": 2.00})),
    ("add as a pair", "R +1.00 L +1.25 add 2.00/2.25", (1.00, {"add": 2.00}), (1.25, {"add": 2.25})),
    ("add by eye", "R +1.00 L +1.25 add R +2.00 L +2.25", (1.00, {"add": 2.00}), (1.25, {"add": 2.25})),
    ("add by pair of eyes", "R +1.00 L +1.25 add L/R 2.00/2.25", (1.00, {"add": 2.25}), (1.25, {"add": 2.00})),
    ("add behind", "R +1.00 DS +2.00 add\nL +1.25 DS +2.25 add", (1.00, {"add": 2.00}), (1.25, {"add": 2.25})),
    ("add by place", "R +1 -0.5 x 9 +2.00\nL +1 DS +2.00", (1.00, -0.50, 9, {"add": 2.00}), (1.00, {"add": 2.00})),
    ("base in and up", "R +1.00 prism 2 BI 1 BU L +1.00", (1.00, {"in": 2, "up": 1}), (1.00,)),
    ("base in words", "R +1.00 1.5Δ base up L +1.00 1.5Δ base-down", (1.00, {"up": 1.5}), (1.00, {"down": 1.5})),
    ("bare directions", "R +1.00 prism 2 in, 1 up L +1.00", (1.00, {"in": 2, "up": 1}), (1.00,)),
    ("pd for prism diopters", "R +1.00 2 pd BO L +1.00 2 pd base out", (1.00, {"out": 2}), (1.00, {"out": 2})),
    ("base first", "R +1.00 BI 2 L plano BO 1.5", (1.00, {"in": 2}), (0, {"out": 1.5})),
    ("base angle 180", "R +1.00 2^ @ 180 L +1.00 2^ @ 180", (1.00, {"out": 2}), (1.00, {"in": 2})),
    ("base angle 0", "R +1.00 2Δ base 0 L +1.00 2Δ base 0°", (1.00, {"in": 2}), (1.00, {"out": 2})),
    ("base angles 90, 270", "R +1.00 2Δ@90 L +1.00 prism 2 @ 270", (1.00, {"up": 2}), (1.00, {"down": 2})),
    ("prism by eye", "Prism: R 2 BI, L 1 BO\nOD +1.00 OS +1.00", (1.00, {"in": 2}), (1.00, {"out": 1})),
    ("Spanish abbreviations", "OD -2,25 -0,75 x 90 / OI -2,50 esf.", (-2.25, -0.75, 90), (-2.50,)),
    ("Spanish, dotted", "O.D. -1,00 -0,50 a 180º\nO.I. neutro", (-1.00, -0.50, 180), (0,)),
    (
        "Spanish words",
        "Ojo derecho: esfera -2,25 cilindro -0,75 eje 90 adición 2,00\nOjo izquierdo: esfera más 2,50 ad 2,00",
        (-2.25, -0.75, 90, {"add": 2.00}),
        (2.50, {"add": 2.00}),
    ),
    (
        "a Spanish table",
        "   | Esf | Cil | Eje | Ad\nOD | -2,25 | -0,75 | 90 | 2,00\nOI | -2,50 | -0,50 | 85 | 2,00",
        (-2.25, -0.75, 90, {"add": 2.00}),
        (-2.50, -0.50, 85, {"add": 2.00}),
    ),
    (
        "Spanish prisms",
        "OD +1,00 prisma 2 base interna 1 superior OI +1,00 1,5Δ base inferior",
        (1.00, {"in": 2, "up": 1}),
        (1.00, {"down": 1.5}),
    ),
    ("both eyes in Spanish", "Ambos ojos -1,00 -0,25 eje 5", (-1.00, -0.25, 5), (-1.00, -0.25, 5)),
    ("no prism, no add", "R +1.00 prism none L +1.00, no add, prism 0", (1.00,), (1.00,)),
    ("columns by spaces", "      SPH    CYL   AXIS\nOD  -2.25  -0.75   090\nOS  -2.50", (-2.25, -0.75, 90), (-2.50,)),
    (
        "empty cells by their place",
        "      SPH    CYL   AXIS   ADD\nOD  +2.25  -0.75   090  +2.00\nOS  +2.50                 +2.00",
        (2.25, -0.75, 90, {"add": 2.00}),
        (2.50, {"add": 2.00}),
    ),
    (
        "columns by single spaces",
        "SPH CYL AXIS ADD\nOD +2.25 -0.75 90 +2.00\nOS +2.50 DS +2.00",
        (2.25, -0.75, 90, {"add": 2.00}),
        (2.50, {"add": 2.00}),
    ),
    (
        "columns by tabs",
        "Eye\tSPH\tCYL\tAXIS\tADD\tPRISM\nR\t+2.25\t-0.75\t90\t+2.00\t2 BI\nL\t+2.50\tDS\t\t+2.00\t",
        (2.25, -0.75, 90, {"add": 2.00, "in": 2}),
        (2.50, {"add": 2.00}),
    ),
    (
        "columns by bars",
        "| Rx | Sphere | Cylinder | Axis | Prism | Base |\n|---|---|---|---|---|---|\n"
        "| OD | -2.25 | -0.75 | x 090 | 1.5 | BU |\n| OS | plano | - | - | | |",
        (-2.25, -0.75, 90, {"up": 1.5}),
        (0,),
    ),
    (
        "a mail",
        "Subject: Re: new glasses\n\nHi,\nmy prescription is OD −2.25–0.75×090° and OS plano. Please add a tint!\n"
        "Best - J.",
        (-2.25, -0.75, 90),
        (0,),
    ),
]


def eye(sphere, *rest):
    """The eye that a row of the table means."""
    extra = next((part for part in rest if isinstance(part, dict)), {})
    cylinder, axis = ([part for part in rest if not isinstance(part, dict)] + [0, 180])[:2] if rest else (0, 180)
    if isinstance(rest[0] if rest else {}, dict):
        cylinder, axis = 0, 180
    prism_in = extra.get("in", 0) - extra.get("out", 0)
    return EyeRx(sphere, cylinder, axis, extra.get("add", 0), prism_in, extra.get("up", 0) - extra.get("down", 0))


@pytest.mark.parametrize(("slip", "right", "left"), [row[1:] for row in SLIPS], ids=[row[0] for row in SLIPS])
def test_a_slip_reads_as_an_optician_reads_it(slip, right, left):
    reading = read_slip(slip)
    assert errors(reading.findings) == []
    assert (reading.prescription.right, reading.prescription.left) == (eye(*right), eye(*left))


# How opticians write pupillary distances (practice)
@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("PD 63", Distances(63)),
        ("PD: 63 mm", Distances(63)),
        ("PD=63,5mm", Distances(63.5)),
        ("P.D. 63", Distances(63)),
        ("PD - 63", Distances(63)),
        ("my PD is 63", Distances(63)),
        ("63 mm PD", Distances(63)),
        ("pupillary distance of 63", Distances(63)),
        ("PD 31.5/32", Distances(None, 31.5, 32)),
        ("PD 31,5 / 32", Distances(None, 31.5, 32)),
        ("PD 31.5 32", Distances(None, 31.5, 32)),
        ("PD 31.5 and 32", Distances(None, 31.5, 32)),
        ("31.5/32 PD", Distances(None, 31.5, 32)),
        ("PD R 31.5 L 32", Distances(None, 31.5, 32)),
        ("PD OD 31.5, OS 32", Distances(None, 31.5, 32)),
        ("PD R/L 31.5/32", Distances(None, 31.5, 32)),
        ("PD L/R 32/31.5", Distances(None, 31.5, 32)),
        ("R PD 31.5 L PD 32", Distances(None, 31.5, 32)),
        ("PD 63 (31.5/31.5)", Distances(63, 31.5, 31.5)),
        ("PD 63/60", Distances(63, near=60)),
        ("PD 63 near 60", Distances(63, near=60)),
        ("distance PD 63, near PD 60", Distances(63, near=60)),
        ("NPD 30/30", Distances(near=60)),
        ("DIP 63", Distances(63)),
        ("DIP de 63 mm", Distances(63)),
        ("D.I.P.: 63,5", Distances(63.5)),
        ("distancia interpupilar 63 milímetros", Distances(63)),
        ("DNP 31,5/32", Distances(None, 31.5, 32)),
        ("DNP OD 31,5 OI 32", Distances(None, 31.5, 32)),
        ("DNP 31,5 y 32", Distances(None, 31.5, 32)),
        ("DIP 63 cerca 60", Distances(63, near=60)),
        ("DIP de cerca 60", Distances(near=60)),
    ],
)
def test_a_pupillary_distance_reads_in_the_usual_ways(written, expected):
    reading = read_slip(f"OD -1.00 OS -1.00\n{written}")
    assert errors(reading.findings) == []
    assert reading.prescription.pd == expected


def test_each_row_of_a_table_may_hold_its_half_of_the_pupillary_distance():
    reading = read_slip("SPH\tCYL\tAXIS\tPD\nOD\t-1.00\t\t\t31.5\nOS\t-1.00\t\t\t32")
    assert reading.prescription.pd == Distances(None, 31.5, 32)


# ISO 8601 and English dates; a number alone can be day or month
@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("2026-05-04", date(2026, 5, 4)),
        ("2026/05/04", date(2026, 5, 4)),
        ("4 May 2026", date(2026, 5, 4)),
        ("4th May 2026", date(2026, 5, 4)),
        ("May 4, 2026", date(2026, 5, 4)),
        ("Sept. 14 2025", date(2025, 9, 14)),
        ("14/05/2026", date(2026, 5, 14)),
        ("05/14/2026", date(2026, 5, 14)),
        ("14.05.2026", date(2026, 5, 14)),
        ("05/05/2026", date(2026, 5, 5)),
        ("03/04/2026", None),
        ("03.04.2026", None),
        ("14/05/26", None),
    ],
)
def test_a_date_is_read_where_it_can_mean_one_day_only(written, expected):
    reading = read_slip(f"OD -1.00 OS -1.00 Date: {written}")
    assert reading.prescription.written == expected
    assert [finding.code for finding in reading.findings] == ([] if expected else ["date-ambiguous"])


def test_dates_of_birth_and_expiry_are_not_the_day_it_was_written():
    slip = "DOB 1980-01-02, exam 2026-05-04, expires 2027-05-04, OD -1.00 OS -1.00"
    assert read_slip(slip).prescription.written == date(2026, 5, 4)
    late = read_slip(slip, today=date(2027, 5, 5))
    assert [finding.code for finding in late.findings] == ["expired"]


def test_an_addition_given_once_is_read_for_both_eyes_and_that_is_said():
    apart = read_slip("R +1.00 L +1.25\nadd +2.00")
    close = read_slip("R +1.00 L +1.25 add +2.00")
    assert [(f.code, f.severity) for f in apart.findings] == [("add-for-both", "note")]
    assert [(f.code, f.severity) for f in close.findings] == [("add-for-both", "warning")]
    assert close.prescription.right.add == 2.0


def test_an_addition_of_the_first_eye_alone_stays_there():
    reading = read_slip("R +1.00 add +2.00 L +1.25")
    assert (reading.prescription.right.add, reading.prescription.left.add) == (2.0, 0.0)
    assert [finding.code for finding in reading.findings] == ["add-one-eye"]


def test_an_eye_that_is_not_spoken_of_gets_no_lens_and_that_is_said():
    reading = read_slip("OD -2.25 DS")
    assert reading.prescription.left is None
    assert [(f.code, f.severity) for f in reading.findings] == [("one-eye", "warning")]
