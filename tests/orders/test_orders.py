"""From an accepted quote to a verified pair, as an owner goes through it."""

import json
import os
import re
import stat
from dataclasses import replace
from datetime import date

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main
from quoting.lab.jobs import read_job, write_job
from quoting.light.told import seen
from quoting.ordering.preparing import renumbered
from quoting.orders.book import Book, OrderError
from quoting.orders.lab_job import lab_job
from quoting.orders.model import DamagedError, read_order, written_order
from quoting.show.ordered import sheet_text
from tests.orders.shops import (
    CUSTOMER,
    DAY,
    MEASURED,
    PROGRESSIVE,
    bevelbook,
    book,
    good,
    marked,
    ordered,
    quoted,
    shop_in,
    state,
)

READ = ("--right", "-6.25 -1.25 x 10 pd=31.5 height=16", "--left", "-5.75 DS pd=32 height=15.5")


@pytest.fixture
def shop(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return shop_in(tmp_path)


def test_an_order_tells_what_changed_and_lies_in_its_folder(shop):
    number = quoted(shop)
    told = good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    assert "pupil height R: 21.5 mm → 21.0 mm" in told.stderr
    assert re.search(r"Monocular PD +31\.5 mm +32\.0 mm", told.stdout)
    usual = "vertex distance, pantoscopic tilt, face-form angle"
    assert f"measured by J. Alder; usual, not measured: {usual}" in told.stdout
    folder = shop / f"private/orders/{number}-1"
    assert {path.name for path in folder.iterdir()} == {
        "order.json",
        "sheet.html",
        "sheet.txt",
        "lab.dcs",
        "verify.html",
    }
    assert (folder / "sheet.txt").read_text(encoding="utf-8").strip() in told.stdout
    assert state(shop, f"{number}-1") == "draft"


def test_nobody_else_may_read_an_order_and_no_version_history_takes_it(shop):
    folder = shop / "private/orders" / ordered(shop)
    if os.name == "posix":
        assert stat.S_IMODE(folder.stat().st_mode) == 0o700
        assert {stat.S_IMODE(path.stat().st_mode) for path in folder.iterdir()} == {0o600}
    assert "*" in (folder.parent / ".gitignore").read_text(encoding="utf-8").split()


def test_the_lab_gets_the_job_and_never_the_name(shop):
    one = ordered(shop, "--note", "Keep the old lenses.", number=quoted(shop, "--tint", "50 gradient"))
    folder = shop / "private/orders" / one
    job, findings = read_job((folder / "lab.dcs").read_bytes(), "lab.dcs")
    assert [finding.severity for finding in findings] == []
    assert (job.number("SPH", "R"), job.number("CYL", "R"), job.number("AX", "R")) == (-6.25, -1.25, 10.0)
    assert (job.number("IPD", "R"), job.number("IPD", "L")) == (31.5, 32.0)
    assert job.of("TINT") == "50 % gradient"
    assert job.of("JOB") == one
    for name in ("lab.dcs", "tint.html", "verify.html"):
        assert "rrable" not in (folder / name).read_text(encoding="utf-8"), name
    assert CUSTOMER in (folder / "sheet.txt").read_text(encoding="utf-8")
    assert "Tint recipe card" in (folder / "sheet.txt").read_text(encoding="utf-8")


def test_a_mix_of_the_tint_book_is_on_the_card_and_another_depth_is_refused(shop):
    number = quoted(shop, "--tint", "30", package="path18-150-ar", rx=PROGRESSIVE[1])
    measured = ("--pd", "31/32", "--height", "22/22", "--by", "K")
    for mix, said in (("w 2", "takes 75 % all over, and the quote says 30 % all over"), ("dusk", "takes 70 % fading")):
        told = bevelbook("order", "from", number, "--shop", shop, *DAY, *measured, "--tint-recipe", mix)
        assert told.exit_code == 1
        assert said in told.stderr
    one = ordered(shop, "--tint-recipe", "lamp-amber", number=number, measured=measured)
    card = (shop / f"private/orders/{one}/tint.html").read_text(encoding="utf-8")
    assert "W 7" in card
    assert "1 part" in card


def test_a_quoted_mix_goes_to_the_dyer_whole(shop):
    """Parts, depth above and below, fade, material, order code, light to hold: on the card, in the job, on record."""
    number = quoted(shop, "--tint", "dusk", package="bench-150-ar")
    told = good("order", "from", number, "--shop", shop, *DAY, *MEASURED, "--json")
    tint = json.loads(told.stdout)["tint"]
    assert (tint["id"], tint["recipe"], tint["name"], tint["mix"]) == ("dusk", "W 5", "Dusk", "2 Brown, 1 Rose")
    assert (tint["top"], tint["bottom"], tint["fade_from"], tint["fade_to"]) == (70.0, 12.0, 0.2, 0.85)
    catalog, _ = load(shop, date(2026, 11, 26))
    figures = seen(catalog, catalog.packages["bench-150-ar"], catalog.tints.mixes["dusk"])
    assert tint["through"] == pytest.approx(figures.darkest["percent"], abs=0.005)
    assert tint["category"] == figures.darkest["category"]
    folder = shop / f"private/orders/{number}-1"
    card = (folder / "tint.html").read_text(encoding="utf-8")
    for said in (
        "Dusk",
        "W 5",
        "2 Brown, 1 Rose",
        "takes 70 % at the top and 12 % at the bottom, fading at 20 to 85 % down",
        "29.1 % ± 5, read through the finished lens where it is darkest",
        "Hard resin 1.50, index 1.498",
        "Not for driving at night or at twilight.",
    ):
        assert said in card, said
    job, _ = read_job((folder / "lab.dcs").read_bytes(), "lab.dcs")
    assert job.of("TINT") == "70 % to 12 % gradient Dusk recipe W 5"
    marked(shop, f"{number}-1", "sent", "received")
    read = ("--right", "-6.25 -1.25 x 10 pd=31.5 height=20.6", "--left", "-5.75 DS pd=32 height=20.1")
    for light, verdict in (("34.2", "fail"), ("34.0", "pass")):
        told = bevelbook("verify", f"{number}-1", *read, "--tint", light, "--shop", shop, "--json", *DAY)
        (check,) = (one for one in json.loads(told.stdout)["checks"] if one["code"] == "tint")
        assert check["verdict"] == verdict
    assert "W 5" in good("order", "card", f"{number}-1", "--shop", shop).stdout
    good("order", "publish", f"{number}-1", "--shop", shop, "--name", "dusk-by-the-water")
    assert "Tint: dusk" in (shop / "content/combinations/dusk-by-the-water.md").read_text(encoding="utf-8")
    assert good("check", shop).exit_code == 0


def test_what_was_quoted_is_dyed_though_the_tint_book_changes(shop):
    number = quoted(shop, "--tint", "lamp-amber", package="bench-150-ar")
    tints = shop / "tints.yaml"
    text = tints.read_text(encoding="utf-8")
    (line,) = (one for one in text.splitlines() if "id: lamp-amber" in one)
    tints.write_text(text.replace(line + "\n", ""), encoding="utf-8")
    told = good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    assert "Lamp amber in the tint book: as quoted, and dyed like that → not in it any more" in told.stderr
    assert "1 Amber" in told.stdout
    assert "W 7" in told.stdout


def test_another_mix_than_the_quoted_one_is_refused_and_a_dyer_s_own_code_is_not(shop):
    number = quoted(shop, "--tint", "harbor-brown", package="bench-150-ar")
    told = bevelbook("order", "from", number, "--shop", shop, *DAY, *MEASURED, "--tint-recipe", "W 5")
    assert told.exit_code == 1
    assert "the mix W 5 is another one than was quoted" in told.stderr
    said = good("order", "from", number, "--shop", shop, *DAY, *MEASURED, "--tint-recipe", "BATH-7", "--json")
    assert json.loads(said.stdout)["tint"]["recipe"] == "BATH-7"
    assert json.loads(said.stdout)["tint"]["mix"] == "2 Brown, 1 Gray"


def test_an_order_written_before_a_quote_kept_its_tint_is_read(shop):
    one = ordered(shop, number=quoted(shop, "--tint", "50"))
    path = shop / f"private/orders/{one}/order.json"
    before = json.loads(path.read_text(encoding="utf-8"))
    before["tint"] = {"depth": 50.0, "gradient": False, "recipe": "", "mix": ""}
    path.write_text(json.dumps(before), encoding="utf-8")
    assert "50 % of the light at its darkest" in good("order", "show", one, "--shop", shop).stdout


def test_of_two_pairs_each_is_ordered_in_its_own_frame(shop):
    """Nothing is guessed where nobody can be asked; both are made, and the one that is left is told."""
    number = quoted(shop, "--second", "tarnsey bench-150-ar size=50 color=navy tint=dusk")
    told = bevelbook("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    assert told.exit_code == 2
    assert "say --pair 1 or --pair 2" in told.output
    one = good("order", "from", number, "--shop", shop, *DAY, *MEASURED, "--pair", "2")
    assert "Dusk" in one.stdout
    assert f"not ordered yet: bevelbook order from {number} --pair 1" in one.stderr
    other = good("order", "from", number, "--shop", shop, *DAY, *MEASURED, "--pair", "1")
    assert "not ordered yet" not in other.stderr
    assert "Tint recipe card" not in other.stdout
    assert {f"{number}-1", f"{number}-2"} <= set(book(shop).orders())
    again = bevelbook("order", "from", number, "--shop", shop, *DAY, *MEASURED, "--pair", "2")
    assert (again.exit_code, "was made already" in again.output) == (2, True)


def test_a_recipe_without_a_tint_is_misuse(shop):
    told = bevelbook("order", "from", quoted(shop), "--shop", shop, *DAY, *MEASURED, "--tint-recipe", "W 2")
    assert told.exit_code == 2
    assert "no tint was ordered" in told.output


@pytest.mark.parametrize(
    ("locale", "said", "standard"), [("en_US", "", "ansi"), ("en_GB", "", "iso"), ("en_US", "iso", "iso")]
)
def test_the_shop_chooses_the_standard(shop, locale, said, standard):
    path = shop / "shop.yaml"
    text = path.read_text(encoding="utf-8").replace("locale: en_US", f"locale: {locale}")
    line = next(line for line in text.splitlines(keepends=True) if line.startswith("  standard: "))
    path.write_text(text.replace(line, f"  standard: {said}\n" if said else ""), encoding="utf-8")
    assert book(shop).read(ordered(shop)).standard == standard


def test_two_pairs_of_a_quote_are_two_orders(shop):
    number = quoted(shop, "--second", "bench-150-ar")
    one = ordered(shop, "--pair", "1", number=number)
    two = ordered(shop, "--pair", "2", number=number)
    assert (one, two) == (f"{number}-1", f"{number}-2")
    assert book(shop).read(two).lens.id == "bench-150-ar"


def test_who_is_there_is_asked_for_what_was_estimated(shop, monkeypatch):
    number = quoted(shop)
    monkeypatch.setattr("quoting.cli.measuring.in_terminal", lambda: True)
    typed = "63\n31.5/32\n21/20.5\n13.5\n\n99\n6\nJ. Alder\n"  # 63 is not each eye's own, 99 no angle
    words = ["order", "from", number, "--shop", str(shop), *DAY]
    told = CliRunner().invoke(main, words, input=typed, prog_name="bevelbook")
    assert told.exit_code == 0, told.output
    measured = book(shop).read(f"{number}-1").measured
    assert (measured.pd_right, measured.pd_left, measured.vertex, measured.wrap) == (31.5, 32.0, 13.5, 6.0)
    assert measured.usual == ("tilt",)
    assert "write right/left" in told.output


def test_who_is_there_is_asked_for_what_was_read(shop, monkeypatch):
    one = ordered(shop, number=quoted(shop, "--tint", "50"))
    marked(shop, one, "sent", "received")
    monkeypatch.setattr("quoting.cli.verifying.in_terminal", lambda: True)
    typed = "6.25\n-6.25 -1.25 x 10 pd=31.5\n-5.75 DS pd=32\nhalf\n50\nK. Alder\n"
    words = ["verify", one, "--shop", str(shop), *DAY]
    told = CliRunner().invoke(main, words, input=typed, prog_name="bevelbook")
    assert told.exit_code == 0, told.output
    assert "has no sign" in told.output
    assert "'half' is not a share of light" in told.output
    assert "PASS" in told.output
    assert book(shop).placed(one).rows[-1]["by"] == "K. Alder"


def test_a_progressive_has_its_cross_and_its_addition(shop):
    package, rx = PROGRESSIVE
    one = ordered(
        shop, number=quoted(shop, package=package, rx=rx), measured=("--pd", "31/32", "--height", "22/22", "--by", "K")
    )
    job, _ = read_job((shop / "private/orders" / one / "lab.dcs").read_bytes(), "lab.dcs")
    assert (job.number("SEGHT", "R"), job.number("OCHT", "R")) == (22.0, 18.0)  # its reference lies 4 mm lower
    assert job.number("ADD", "L") == 2.0


def test_one_eye_alone_is_a_job_for_one_eye(shop):
    number = quoted(shop, rx="OD -2.00 DS / PD 63")
    one = ordered(shop, number=number)
    text = (shop / "private/orders" / one / "lab.dcs").read_text(encoding="ascii")
    assert "DO=R" in text
    assert "SPH=-2.00;\n" in text.replace("\r", "")


def test_one_eye_alone_is_measured_alone(shop):
    number = quoted(shop, rx="OD -2.00 DS / PD 63")
    told = good("order", "from", number, "--shop", shop, *DAY, "--pd", "30", "--height", "20", "--by", "J. Alder")
    assert "PD R: 31.5 mm → 30.0 mm" in told.output
    assert "PD L" not in told.output
    assert "Single vision, Single vision" not in told.output


def test_what_no_longer_fits_is_refused_unless_overruled(shop):
    package, rx = PROGRESSIVE
    number = quoted(shop, package=package, rx=rx)
    low = ("--pd", "31/32", "--height", "12/12", "--by", "K")
    told = bevelbook("order", "from", number, "--shop", shop, *DAY, *low)
    assert told.exit_code == 1
    assert "No longer fits" in told.stderr
    assert "Nothing was ordered" in told.stderr
    assert book(shop).orders() == {}
    assert not (shop / "private/orders").exists()
    one = ordered(shop, "--overrule", "the wearer tried the trial lens", number=number, measured=low)
    assert "the wearer tried the trial lens" in (shop / f"private/orders/{one}/sheet.txt").read_text(encoding="utf-8")


def test_an_old_prescription_is_no_order(shop):
    number = quoted(shop, rx="OD -2.00 DS / OS -2.00 DS / PD 63 / 2024-12-01")
    told = bevelbook("order", "from", number, "--shop", shop, "--on", "2026-12-02", *MEASURED)
    assert told.exit_code == 1
    assert "is older than 24 months" in told.stderr


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--height", "21/20", "--by", "K"), "--pd is not said"),
        (("--pd", "63", "--height", "21/20", "--by", "K"), "measure each eye"),
        (("--pd", "31/32", "--height", "21", "--by", "K"), "measure each eye"),
        (("--pd", "31/32", "--height", "21/20"), "who measured"),
        (("--pd", "31/32", "--height", "21/20", "--by", "K", "--vertex", "99"), "vertex: 99 is not between"),
        (("--pd", "31/32", "--height", "21/20", "--by", "K", "--pair", "2"), "has one pair"),
    ],
)
def test_what_is_not_measured_is_asked_for(shop, words, said):
    told = bevelbook("order", "from", quoted(shop), "--shop", shop, *DAY, *words)
    assert told.exit_code == 2
    assert said in told.output
    assert book(shop).orders() == {}


def test_only_what_was_accepted_is_ordered_and_only_once(shop):
    number = quoted(shop, accept=False)
    told = bevelbook("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    assert told.exit_code == 2
    assert f"quotes accept {number}" in told.output
    good("quotes", "accept", number, "--shop", shop, *DAY)
    ordered(shop, number=number)
    told = bevelbook("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    assert told.exit_code == 2
    assert "was made already" in told.output


def test_of_two_commands_that_order_at_once_one_counts(shop):
    """The second has not seen the first, which was still at work: its files are not laid over the first's."""

    class Blind(Book):
        def orders(self):
            return {}

    one = ordered(shop)
    order = book(shop).read(one)
    with pytest.raises(OrderError, match="made already"):
        Blind(book(shop).register).make(order, {"order.json": b"second"})
    assert book(shop).read(one) == order
    good("order", "mark", one, "sent", "--shop", shop)
    new = replace(order, id=f"{one}-R1")
    book(shop).remake(one, new, {"order.json": written_order(new)}, "scratched")
    with pytest.raises(OrderError, match="remade"):
        book(shop).remake(one, new, {"order.json": b"second"}, "scratched")
    assert book(shop).read(f"{one}-R1") == new


def test_a_remake_keeps_the_number_of_its_quote_whatever_letters_it_has(shop):
    order = replace(book(shop).read(ordered(shop)), id="261129-RAQQW-1")
    one = renumbered(order, set(), "2026-12-01", "scratched")
    assert one.id == "261129-RAQQW-1-R1"
    assert renumbered(one, {one.id}, "2026-12-02", "again").id == "261129-RAQQW-1-R2"


def test_no_prism_is_known_to_the_lab_and_no_question_mark(shop):
    rx = "OD -4.25 -1.25 x 010 / OS -3.75 DS prism 1 up / PD 63"
    for number, records in ((quoted(shop, rx=rx), ["PRVM=0.00;1.00", "PRVA=0;90"]), (quoted(shop), ["PRVM=0.00;0.00"])):
        text = (shop / f"private/orders/{ordered(shop, number=number)}/lab.dcs").read_text(encoding="ascii")
        assert [line for line in text.splitlines() if line.startswith("PRV")] == records


def test_lab_and_bench_are_told_of_groove_holes_and_lenses_to_keep(shop):
    order = book(shop).read(ordered(shop))
    frame = replace(order.frame, groove=(0.6, 0.4), holes=((22.0, 3.0, 1.4), (-22.5, -4.0, 1.4)), sun=True)
    order = replace(order, frame=frame)
    assert read_order(written_order(order)) == order
    text = sheet_text(order, load(shop)[0].shop)
    assert "0.60 mm wide, 0.40 mm deep" in text
    assert "22.00 in, 3.00 up, ⌀ 1.40 mm; 22.50 out, 4.00 down, ⌀ 1.40 mm" in text
    assert "keep them for the parcel" in text
    job, findings = read_job(write_job(lab_job(order)), "lab.dcs")
    assert findings == []
    assert (job.number("GWIDTH"), job.number("GDEPTH", "L")) == (0.6, 0.4)


def test_states_follow_each_other_and_nothing_is_skipped(shop):
    one = ordered(shop)
    told = bevelbook("order", "mark", one, "received", "--shop", shop)
    assert told.exit_code == 2
    assert "is draft; received comes after sent" in told.output
    marked(shop, one, "sent", "received")
    assert bevelbook("order", "mark", one, "mounted", "--shop", shop).exit_code == 2
    good("verify", one, *READ, "--shop", shop, *DAY)
    marked(shop, one, "mounted", "shipped")
    listed = good("order", "--shop", shop).stdout
    assert listed.split()[:2] == [one, "shipped"]
    shown = good("order", "show", one, "--shop", shop, *DAY).stdout
    assert [line.split()[1] for line in shown.splitlines()[-6:]] == [
        "draft", "sent", "received", "verified:", "mounted", "shipped",
    ]  # fmt: skip
    assert good("order", "--state", "draft", "--shop", shop).stdout == "No order is draft.\n"


def test_a_pair_that_passes_is_verified(shop):
    one = ordered(shop)
    marked(shop, one, "sent", "received")
    told = good("verify", one, *READ, "--by", "K", "--shop", shop, *DAY)
    assert "PASS" in told.stdout
    assert "As worn, R: the eye meets" in told.stdout
    assert state(shop, one) == "verified"
    kept = json.loads((shop / f"private/orders/{one}/verified-1.json").read_bytes())
    assert kept["result"] == "pass"
    assert kept["found"]["R"]["add"] is None


def test_a_pair_that_fails_is_not_mounted_but_remade(shop):
    one = ordered(shop)
    marked(shop, one, "sent", "received")
    told = bevelbook("verify", one, "--right", "-7.75 +1.25 x 100", "--left", "-5.75 DS", "--shop", shop, *DAY)
    assert told.exit_code == 1
    assert "FAIL" in told.stdout
    note = (shop / f"private/orders/{one}/verified-1-note.txt").read_text(encoding="utf-8")
    assert "R power in the strongest meridian: ordered −7.50 D, found −7.75 D, tolerance ± 0.15 D" in note
    assert "rrable" not in note
    assert state(shop, one) == "received"
    assert bevelbook("order", "mark", one, "mounted", "--shop", shop).exit_code == 2
    good("remake", one, "--reason", "right power out of tolerance", "--shop", shop, *DAY)
    assert (state(shop, one), state(shop, f"{one}-R1")) == ("remade", "draft")
    sheet = (shop / f"private/orders/{one}-R1/sheet.txt").read_text(encoding="utf-8")
    assert f"Remake of {one}" in sheet
    assert "right power out of tolerance" in sheet
    marked(shop, f"{one}-R1", "sent", "received")
    good("remake", f"{one}-R1", "--reason", "scratched", "--shop", shop, *DAY)
    assert state(shop, f"{one}-R2") == "draft"


def test_either_notation_and_compensated_powers_are_taken(shop):
    one = ordered(shop)
    marked(shop, one, "sent", "received")
    far = ("--right", "-6.00 -1.60 x 14", "--left", "-5.75 DS")
    assert bevelbook("verify", one, *far, "--shop", shop, *DAY).exit_code == 1
    told = good("verify", one, *far, "--ground-right", "-7.60 +1.60 x 104", "--shop", shop, *DAY)
    assert "held against those that the lab said it ground" in told.stdout


def test_a_tint_is_held_by_the_light_that_comes_through(shop):
    one = ordered(shop, number=quoted(shop, "--tint", "50"))
    marked(shop, one, "sent", "received")
    told = bevelbook("verify", one, *READ, "--tint", "58", "--shop", shop, *DAY)
    assert told.exit_code == 1
    assert "light that comes through" in told.stdout
    assert good("verify", one, *READ, "--tint", "48", "--shop", shop, *DAY).exit_code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "nothing was read"),
        (("--right", "6.25 DS"), "has no sign"),
        (("--right", "-6.25 DS colour=red"), "is no reading"),
        (("--right", "-6.25 DS pd=abc"), "is not a number"),
        (("--right", "-6.25 DS pd=90"), "cannot be meant"),
        (("--right", "-60 DS"), "no power of a lens"),
        (("--from", "nothing.json"), "there is no file"),
        (("--right", "-6.25 DS", "--tint", "dark"), "is not a share of light"),
    ],
)
def test_what_cannot_be_read_is_no_verification(shop, words, said):
    one = ordered(shop)
    marked(shop, one, "sent", "received")
    told = bevelbook("verify", one, *words, "--shop", shop, *DAY)
    assert told.exit_code == 2
    assert said in told.output
    assert book(shop).placed(one).verified is None


def test_the_form_is_written_and_a_file_of_it_is_held_to_what_it_can_mean(shop):
    one = ordered(shop)
    marked(shop, one, "sent", "received")
    empty = dict.fromkeys(("cylinder", "axis", "add", "prism_in", "prism_up", "pd", "height", "center", "base"))
    said = {"order": one, "standard": "ansi", "by": "K", "transmittance": None}
    said["found"] = {"R": {"sphere": -6.25} | empty | {"cylinder": -1.25, "axis": 10}, "L": {"sphere": -5.75} | empty}
    path = shop.parent / "form.json"
    for broken in (
        {"order": "another"},
        {"found": {"R": {"sphere": "x"} | empty}},
        {"standard": "din"},
        {"by": "a\nb"},
    ):
        path.write_text(json.dumps(said | broken), encoding="utf-8")
        assert bevelbook("verify", one, "--from", path, "--shop", shop, *DAY).exit_code == 2
    path.write_text(json.dumps(said), encoding="utf-8")
    assert "PASS" in good("verify", one, "--from", path, "--shop", shop, *DAY).stdout


def test_an_order_comes_back_as_it_was_written_and_a_damaged_one_is_told(shop):
    one = ordered(shop, number=quoted(shop, "--tint", "50", "--wish", "driving"))
    order = book(shop).read(one)
    assert read_order(written_order(order)) == order
    path = shop / f"private/orders/{one}/order.json"
    whole = path.read_bytes()
    for damaged in (
        whole[:-40],
        whole.replace(b'"sphere"', b'"spheer"', 1),
        whole.replace(b'"form": 1', b'"form": 9'),
        b"[]",
    ):
        with pytest.raises(DamagedError):
            read_order(damaged)
        path.write_bytes(damaged)
        told = bevelbook("order", "show", one, "--shop", shop, *DAY)
        assert told.exit_code == 2
        assert "order.json" in told.output
    path.unlink()
    assert "is away" in bevelbook("order", "show", one, "--shop", shop, *DAY).output


def test_programs_get_the_same(shop):
    one = ordered(shop)
    said = json.loads(good("order", "show", one, "--shop", shop, *DAY, "--json").stdout)
    assert (said["id"], said["state"], said["right"]["sphere"]) == (one, "draft", -6.25)
    marked(shop, one, "sent", "received")
    verified = json.loads(good("verify", one, *READ, "--shop", shop, *DAY, "--json").stdout)
    assert verified["result"] == "pass"
    assert {check["code"] for check in verified["checks"]} >= {"power", "cylinder", "axis", "distance"}
    assert [met["eye"] for met in verified["worn"]] == ["R", "L"]
    assert json.loads(good("order", "--shop", shop, "--json").stdout)["orders"][0]["state"] == "verified"
