"""The page reads a pasted slip as the shop's own reader does, or says which piece it did not understand."""

import json
import subprocess
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.findings import errors
from quoting.places import shared
from quoting.prescription.text import read_slip
from quoting.show.page_words import PAGE
from quoting.show.slip_words import SLIP
from quoting.site.engine import engine_script
from quoting.site.page_data import said
from tests.prescription.test_slip_errors import ERRORS
from tests.prescription.test_slips import SLIPS, test_a_pupillary_distance_reads_in_the_usual_ways
from tests.site.node import node

SCRIPTS = ("core", "ask", "slip-pieces", "slip-table", "slip")
# Reads one slip a line, as JSON, and answers each with one line
DRIVER = r"""
const vm = require("node:vm");
const lines = require("node:readline").createInterface({ input: process.stdin });
let loaded = false;
lines.on("line", (line) => {
  const given = JSON.parse(line);
  if (!loaded) {
    for (const [filename, text] of Object.entries(given)) vm.runInThisContext(text, { filename });
    loaded = true;
    return;
  }
  let answer;
  try {
    answer = globalThis.bevelbook.readSlip(given);
  } catch (error) {
    answer = { error: String(error.stack) };
  }
  process.stdout.write(JSON.stringify(answer) + "\n");
});
"""
PD_FORMS = [
    f"OD -1.00 OS -1.00\n{written}"
    for mark in test_a_pupillary_distance_reads_in_the_usual_ways.pytestmark
    for written, _ in mark.args[1]
]
GOOD = [row[1] for row in SLIPS] + PD_FORMS
SLIP_NAMES = [row[0] for row in SLIPS] + PD_FORMS


@pytest.fixture(scope="module")
def page():
    """The page's reader: a slip in, what it found out."""
    theme = shared("theme") / "static" / "js"
    shop = {"words": {"page": said(PAGE | SLIP)}, "decimal": ".", "language": "en", "months": 24}
    scripts = {
        "shop.js": f"globalThis.bevelShop = {json.dumps(shop)};",
        "engine.js": engine_script(),
    }
    scripts |= {f"{name}.js": (theme / f"{name}.js").read_text(encoding="utf-8") for name in SCRIPTS}
    with subprocess.Popen([node(), "-e", DRIVER], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        process.stdin.write(json.dumps(scripts) + "\n")

        def read(slip):
            process.stdin.write(json.dumps(slip) + "\n")
            process.stdin.flush()
            found = json.loads(process.stdout.readline())
            assert "error" not in found, found["error"]
            return found

        yield read
        process.stdin.close()


def of_eye(eye):
    """An eye as the page's fields have it."""
    names = ("sphere", "cylinder", "axis", "add", "prism_in", "prism_up")
    return None if eye is None else {name: getattr(eye, name) for name in names}


def as_ask(rx):
    """A prescription as the page's fields have it; they have none for near distances."""
    eyes = {"right": of_eye(rx.right), "left": of_eye(rx.left)}
    return eyes | {"pd": {"binocular": rx.pd.binocular, "right": rx.pd.right, "left": rx.pd.left}}


def is_as_the_shop_reads(slip, found):
    """Whether the page reads a slip as the shop does, or owns up to what it did not understand."""
    if found["unread"]:
        return True
    read = {key: found["ask"][key] for key in ("right", "left", "pd")}
    shop = read_slip(slip)
    if errors(shop.findings):
        return read["right"] is None and read["left"] is None
    return read == as_ask(shop.prescription)


@pytest.mark.parametrize("slip", GOOD, ids=SLIP_NAMES)
def test_the_page_reads_a_slip_as_the_shop_does_or_says_what_it_did_not_understand(page, slip):
    assert is_as_the_shop_reads(slip, page(slip))


def test_nine_slips_of_ten_are_understood_wholly(page):
    unread = [name for name, slip in zip(SLIP_NAMES, GOOD, strict=True) if page(slip)["unread"]]
    assert len(unread) <= len(GOOD) / 10, unread
    slips = [row[0] for row in SLIPS if page(row[1])["unread"]]
    assert len(slips) <= len(SLIPS) / 10, slips


@pytest.mark.parametrize("slip", [row[0] for row in ERRORS])
def test_what_the_shop_refuses_is_told_as_not_understood(page, slip):
    assert is_as_the_shop_reads(slip, page(slip))


LIMITS = [
    *(
        f"OD {power} OS -1.00"
        for power in ("-20", "-21", "-99.75", "-100.00", "-0", "-02", "-2.0000", "+2.130", "-2.133")
    ),
    *(f"OD -1.00 -0.50 x {axis} OS -1.00" for axis in ("0", "1", "180", "181", "090.0", "90.5", "0090", "00090")),
    *(f"OD +1.00 OS +1.00 add {add}" for add in ("0.00", "20", "21", "2.00/9.00", "2.00/9.25")),
    *(f"OD -1.00 2 @ {base} OS -1.00 1Δ base {base}" for base in ("0", "45", "360", "361", "22.5")),
    *(
        f"OD -1.00 OS -1.00 PD {pd}"
        for pd in ("19.5/19.5", "20.5/20.5", "39.5/39.5", "46/41", "46/46", "90", "90.5", "31.25", "31.3/32")
    ),
    *(
        f"OD -1.00 OS -1.00 PD {pd}"
        for pd in ("63/55", "63/56", "63/63", "63/64", "31 / 31 / 62", "62 (31/31)", "15/16", "31.33/31")
    ),
]


@pytest.mark.parametrize("slip", LIMITS)
def test_numbers_end_where_they_end_for_the_shop(page, slip):
    found = page(slip)
    assert is_as_the_shop_reads(slip, found)
    if not errors(read_slip(slip).findings) and "-2.133" not in slip:
        assert found["unread"] == []


def test_an_addition_of_the_first_eye_alone_stays_there(page):
    found = page("R +1.00 add +2.00 L +1.25")
    assert (found["unread"], found["ask"]["right"]["add"], found["ask"]["left"]["add"]) == ([], 2.0, 0)


def test_of_what_is_given_twice_neither_is_taken(page):
    found = page("OU -2.25, OS -2.50 PD 63 PD 64")
    assert found["unread"] == ["-2.25", "-2.50", "PD 63", "PD 64"]
    assert (found["ask"]["left"]["sphere"], found["ask"]["pd"]["binocular"]) == (None, None)


# A piece that was not understood; what else must not be read then
@pytest.mark.parametrize(
    ("slip", "unread"),
    [
        ("OD -2.25 -0.50 seg 18 OS -2.50", ["-0.50", "seg", "18"]),
        ("OD tint -2.25 OS -2.50", ["OD", "tint", "-2.25"]),
        ("OD -2.25 ½ -0.50 x 90 OS -2.50", ["½", "-0.50", "x 90"]),
        ("OD -225 -0.50 x 90 OS -2.50", ["-225"]),
    ],
)
def test_behind_a_piece_that_was_not_understood_no_number_is_read_by_its_place_alone(page, slip, unread):
    found = page(slip)
    assert found["unread"] == unread
    assert found["ask"]["left"] == of_eye(read_slip("OD plano OS -2.50").prescription.left)
    assert None in found["ask"]["right"].values()


@pytest.mark.parametrize(
    ("slip", "piece", "why"),
    [
        ("OD 2.25 OS -2.50", "2.25", "slip-sign"),
        ("OD -225 OS -2.50", "-225", "slip-point"),
        ("-2.25 / -2.50", "-2.25", "slip-whose"),
        ("OD -2.25 ½ OS -2.50", "½", "slip-bad"),
    ],
)
def test_what_is_missing_of_a_number_is_said(page, slip, piece, why):
    assert {one["text"]: one["meaning"] for one in page(slip)["pieces"]}[piece] == SLIP[why]


def test_an_eye_whose_power_is_a_sign_for_far_is_asked_for_and_not_left_out(page):
    found = page("OD ∞ -0.50 x 90 OS -1.00")
    assert found["ask"]["right"]["sphere"] is None
    assert "∞" in found["unread"]


@pytest.mark.parametrize(
    ("slip", "late"),
    [
        ("OD -1.00 OS -1.00 date {old}", True),
        ("OD -1.00 OS -1.00\n{new}", False),
        ("OD -1.00 OS -1.00 dob {old}", False),
        ("dob {old} OD -1.00 OS -1.00", False),
    ],
)
def test_a_prescription_older_than_the_shop_takes_is_said_to_be(page, slip, late):
    today = date.today()
    old, new = today - timedelta(days=24 * 31), today - timedelta(days=23 * 30)
    found = page(slip.format(old=old, new=new))
    assert [one["late"] for one in found["pieces"] if "late" in one] == [late]


@pytest.mark.parametrize(
    "slip", ["OD -2.25 BC 8.6 OS -2.50", "R -2.25 8.6/14.2 L -2.50 8.6/14.2", "Contacts: OD -2.25 OS -2.50"]
)
def test_a_slip_of_contact_lenses_is_refused_whole(page, slip):
    found = page(slip)
    assert (found["ask"]["right"], found["ask"]["left"]) == (None, None)
    assert {piece["meaning"] for piece in found["pieces"]} == {SLIP["slip-contact"]}


INK = st.sampled_from(
    [
        *"0123456789+-.,/ \n\t|:()xRLODSPdBIUaeprism@^°−×−=&",
        "OD ",
        "OS ",
        " add ",
        " BI ",
        " PD ",
        "-0.50",
        " x 90",
        "+1.00",
    ]
)


@st.composite
def mutated(draw):
    """A slip in which a few places were dropped, filled, replaced or swapped."""
    slip = draw(st.sampled_from(GOOD))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(slip)))
        end = min(len(slip), at + draw(st.integers(1, 6)))
        kind = draw(st.sampled_from(["drop", "insert", "replace", "swap", "join"]))
        if kind == "drop":
            slip = slip[:at] + slip[end:]
        elif kind == "insert":
            slip = slip[:at] + draw(INK) + slip[at:]
        elif kind == "replace":
            slip = slip[:at] + draw(INK) + slip[end:]
        elif kind == "swap":
            parts = slip.split(" ")
            one, other = (draw(st.integers(0, len(parts) - 1)) for _ in range(2))
            parts[one], parts[other] = parts[other], parts[one]
            slip = " ".join(parts)
        else:
            slip = slip[:at] + draw(st.sampled_from([" ", "\n", " / "])) + draw(st.sampled_from(GOOD))
    return slip


@settings(max_examples=1500, deadline=None)
@given(mutated())
def test_a_slip_with_slips_of_the_pen_is_never_read_otherwise_than_the_shop_does(page, slip):
    found = page(slip)
    assert is_as_the_shop_reads(slip, found), (found, read_slip(slip))
