"""`quote --for` as an owner types it."""

import json
import re
import shutil
from dataclasses import fields
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main
from quoting.places import shared
from quoting.prescription.wishes import Wishes
from quoting.quoted.sealing import opened
from quoting.quoted.trust import standing
from quoting.show.quote_words import WISHED

DAY = date(2026, 11, 25)
WORDS = ("cottering", "bench-159-ar", "--size", "52", "--color", "black", "--on", "2026-11-25")
RX = ("--rx", "OD -6.25 -1.25 x 010 / OS -5.75 DS", "--pd", "31/32")


@pytest.fixture
def shop(tmp_path):
    """A copy of the demo shop with a key."""
    folder = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    assert bevelbook("keys", "new", folder, "--on", "2026-11-01").exit_code == 0
    return folder


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


def quote(shop, *more, customer="Ms. Marrable"):
    return bevelbook("quote", *WORDS, *RX, "--shop", shop, "--for", customer, *more)


def issued(shop, *more, **words):
    told = quote(shop, *more, "--json", **words)
    assert told.exit_code == 0, told.output
    return json.loads(told.stdout)


def how(shop, link, day=DAY):
    catalog, _ = load(shop, day)
    return standing(opened(link), catalog.keys, catalog.withdrawn, day)


def test_a_quote_is_signed_registered_and_told_with_its_link(shop):
    told = quote(shop)
    assert told.exit_code == 0, told.output
    assert re.search(
        r"^Ottersea Spectacle Works: quote 261125-[A-Z2-7]{5} for Ms. Marrable$", told.stdout, re.MULTILINE
    )
    assert "issued Nov 25, 2026, price held until Dec 25, 2026, price list 2026-09" in told.stdout
    link = told.stdout.splitlines()[-1]
    assert link.startswith("https://ottersea.example.org/quote/#2s")
    assert how(shop, link) == "held"
    lines = (shop / "private/quotes/register.jsonl").read_text(encoding="utf-8").splitlines()
    assert json.loads(lines[0])["link"] == link
    assert "Marrable" not in json.dumps(opened(link).quote)


def test_what_is_signed_is_what_the_plain_quote_says(shop):
    plain = json.loads(bevelbook("quote", *WORDS, *RX, "--shop", shop, "--json").stdout)
    pair = issued(shop)["alternatives"][0]["pairs"][0]
    assert [line["cents"] for line in pair["lines"]] == [line["cents"] for line in plain["offer"]["lines"]]
    assert pair["total_cents"] == plain["offer"]["total_cents"]


def test_the_same_command_again_is_the_same_quote(shop):
    assert issued(shop) == issued(shop)
    assert issued(shop)["number"] != issued(shop, customer="Mr. Quill")["number"]
    assert issued(shop)["number"] != issued(shop, "--note", "another")["number"]


def test_days_and_note(shop):
    found = issued(shop, "--days", "10", "--note", "Come & <see>")
    assert (found["expires"], found["note"]) == ("2026-12-05", "Come & <see>")
    assert how(shop, found["link"], date(2026, 12, 5)) == "held"
    assert how(shop, found["link"], date(2026, 12, 6)) == "expired"


def test_alternatives_and_a_second_pair(shop):
    found = issued(
        shop,
        *("--or", "bench-150-ar"),
        *("--or", "eskerby bench-159-ar size=51-20 color=black"),
        *("--second", "tarnsey bench-159-ar size=50 color=dark-tortoise"),
        *("--second-rx", "OD -4.00 DS / OS -3.50 DS"),
    )
    assert [one["letter"] for one in found["alternatives"]] == ["A", "B", "C"]
    assert [[pair["package"] for pair in one["pairs"]] for one in found["alternatives"]] == [
        ["bench-159-ar", "bench-159-ar"],
        ["bench-150-ar", "bench-159-ar"],
        ["bench-159-ar", "bench-159-ar"],
    ]
    assert [[pair["frame"] for pair in one["pairs"]] for one in found["alternatives"]][2] == ["eskerby", "tarnsey"]
    for one in found["alternatives"]:
        assert one["total_cents"] == sum(pair["total_cents"] for pair in one["pairs"])
        shipping = [line["cents"] for pair in one["pairs"] for line in pair["lines"] if "shipping" in line["key"]]
        assert shipping[1] == 0
    quoted = opened(found["link"]).quote
    assert [one["right"]["sphere"] for one in quoted["prescriptions"]] == [-6250, -4000]
    assert [one["pd_right"] for one in quoted["prescriptions"]] == [3100, 3100]
    assert len(found["link"]) < 1800
    told = quote(shop, "--or", "bench-150-ar").stdout
    assert "2 alternatives, of which you take one:" in told
    assert re.findall(r"^([A-D])  =+$", told, re.MULTILINE) == ["A", "B"]


def test_a_changed_line_says_what_the_list_has_and_why(shop):
    found = issued(shop, "--change", "frame=120.00 the one from the window", "--change", "lens L=80.00 remade")
    lines = {line["key"]: line for line in found["alternatives"][0]["pairs"][0]["lines"]}
    assert (lines["frame"]["cents"], lines["frame"]["listed_cents"]) == (12000, 16500)
    assert lines["frame"]["reason"] == "the one from the window"
    assert (lines["lens L"]["cents"], lines["lens L"]["listed_cents"]) == (8000, 9900)
    assert lines["tax frame"]["cents"] == 750  # 6.25 percent of 120.00
    assert "listed_cents" not in lines["lens R"]
    told = quote(shop, "--change", "frame=120.00 the one from the window").stdout
    assert "the one from the window (price list: $165.00)" in told


def test_a_change_may_be_for_one_pair_alone(shop):
    found = issued(
        shop,
        *("--or", "bench-150-ar", "--second", "tarnsey bench-159-ar size=50 color=dark-tortoise"),
        *("--change", "B2: frame=100.00 a scratch"),
    )
    frames = [[pair["lines"][0]["cents"] for pair in one["pairs"]] for one in found["alternatives"]]
    assert frames == [[16500, 17600], [16500, 10000]]


def test_a_named_discount_is_given_or_nothing_is_issued(shop):
    prices = shop / "prices/2026-09.yaml"
    text = prices.read_text(encoding="utf-8")
    named = re.search(r"id: ([a-z0-9-]+),[^\n]*asked: yes", text)
    assert named, "the demo shop has no discount that must be asked for"
    told = quote(shop, "--discount", named[1])
    assert told.exit_code in (0, 1)
    if told.exit_code:
        assert "is not given" in told.stderr
        assert not (shop / "private/quotes/register.jsonl").exists()


def test_what_does_not_fit_is_not_issued(shop):
    told = quote(shop, "--or", "path18-150-ar")
    assert told.exit_code == 1
    assert told.stderr.splitlines()[-1].startswith("Nothing was issued. ")
    assert told.stdout == ""
    assert not (shop / "private/quotes/register.jsonl").exists()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--to", "nobody"), "'nobody' is not a mail address"),
        (("--to", "a@b.example\nBcc: c@d.example"), "is not a mail address"),
        (("--or", "benchh-159"), "no package 'benchh-159': did you mean"),
        (("--or", "cottering bench-159-ar weight=3"), "write PACKAGE, or FRAME PACKAGE"),
        (("--or", "'open"), "a quotation mark is not closed"),
        (("--or", "a", "--or", "b", "--or", "c", "--or", "d"), "at most 4 alternatives"),
        (("--second-rx", "OD -2 DS"), "--second-rx belongs to --second"),
        (("--change", "frame"), "write it such as"),
        (("--change", "frame=1,20 why"), "write the amount with a point, such as 120.00"),
        (("--change", "frame=1.234 why"), "write the amount with a point, such as 120.00"),
        (("--change", "frame=-1.20 why"), "a line costs nothing at the least"),
        (("--change", "frame=1.20 " + 121 * "x"), "the reason has at most 120 characters"),
        (("--change", "frame=1.20 why", "--change", "A: frame=1.30 why"), "this line of this pair is changed already"),
        (("--note", "one\ntwo"), "--note: it goes on one line"),
        (("--note", 401 * "x"), "--note: this one has 401 characters; there is room for 400"),
        (("--to", "Jörg"), "'Jörg' is not a mail address"),
        (("--to", "jörg@example.org"), "has letters beyond ASCII before the @"),
        (("--to", "a@straße.example"), "in its form for machines"),
        (("--site", "shop.example.org"), "neither an address that begins with https:// nor a folder"),
        (("--site", "https://shop.example.org/ here"), "neither an address that begins with https:// nor a folder"),
        (("--site", "https://shop.example.org/#top"), "neither an address that begins with https:// nor a folder"),
        (("--site", "javascript:alert(1)"), "neither an address that begins with https:// nor a folder"),
        (("--change", "case=1.00 why"), "no line 'case' in this bill: there is frame, lens R, lens L, shipping"),
        (("--change", "B: frame=1.00 why"), "there is no such pair"),
        (("--change", "A2: frame=1.00 why"), "there is no such pair"),
        (("--days", "0"), "0 is not in the range"),
    ],
)
def test_misuse_is_told_and_nothing_is_issued(shop, more, said):
    told = quote(shop, *more)
    assert told.exit_code == 2, told.output
    assert said in told.stderr
    assert not (shop / "private/quotes/register.jsonl").exists()


@pytest.mark.parametrize("option", ["--to", "--days", "--note", "--or", "--second", "--second-rx", "--change"])
def test_options_of_an_issued_quote_need_a_customer(shop, option):
    told = bevelbook("quote", *WORDS, *RX, "--shop", shop, option, "3")
    assert told.exit_code == 2
    assert f"{option} belongs to a quote that is issued: say for whom with --for" in told.stderr


def test_what_was_wished_is_told(shop):
    """A tint that was promised stands in the quote, and whom the glasses are for."""
    told = quote(shop, "--tint", "50 gradient", "--wish", "sport", "--wish", "driving", "--child").stdout
    assert "\nWished: a tint of 50 %, fading downward, for sport, for driving by day, for somebody under 18\n" in told
    assert "\nWished: a tint of 40 %\n" in quote(shop, "--tint", "40").stdout
    assert "Wished" not in quote(shop).stdout


def test_every_wish_has_words():
    names = {one.name for one in fields(Wishes)} - {"tint_depth"} | {"tint", "child"}
    assert {f"wish-{name}" for name in names} | {"wished"} == set(WISHED)


def test_without_a_site_nothing_is_issued(shop):
    words = shop / "shop.yaml"
    text = words.read_text(encoding="utf-8")
    words.write_text(re.sub(r"^  url: .*\n", "", text, flags=re.MULTILINE), encoding="utf-8")
    told = quote(shop)
    assert (told.exit_code, "where does your site stand?" in told.stderr) == (2, True)
    assert not (shop / "private/quotes/register.jsonl").exists()
    found = issued(shop, "--site", "HTTPS://Shop.Example/glasses/")
    assert found["link"].startswith("HTTPS://Shop.Example/glasses/quote/#2s")
    assert how(shop, found["link"]) == "held"


def test_a_site_in_a_folder_is_told_as_an_address_that_opens(shop, tmp_path):
    found = issued(shop, "--site", tmp_path)
    assert found["link"].startswith(f"{tmp_path.as_uri()}/quote/index.html#2s")
    assert how(shop, found["link"]) == "held"


def test_a_domain_in_other_letters_is_written_for_machines(shop):
    """`xn--exmple-cua` is `exämple` by the steps of RFC 3492."""
    assert issued(shop, "--to", "m@exämple.org")["email"] == "m@xn--exmple-cua.org"


def test_without_a_key_nothing_is_issued(tmp_path):
    folder = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    told = quote(folder)
    assert told.exit_code == 2
    assert "there is no key to sign with; make one with `bevelbook keys new`" in told.stderr
    assert not (folder / "private/quotes").exists()


def test_a_key_that_others_may_read_signs_nothing(shop):
    (key,) = (shop / "private/keys").glob("*.pem")
    key.chmod(0o644)
    told = quote(shop)
    assert told.exit_code != 0
    assert not (shop / "private/quotes/register.jsonl").exists()


def test_without_a_shop_of_ones_own_nothing_is_issued(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    told = bevelbook("quote", *WORDS, *RX, "--for", "Ms. Marrable")
    assert told.exit_code == 2
    assert "name the shop's folder" in told.stderr


def test_a_quote_without_a_customer_is_told_as_ever_and_enters_nothing(shop):
    told = bevelbook("quote", *WORDS, *RX, "--shop", shop)
    assert told.exit_code == 0
    assert "#52-18-bench-159-ar" in told.stdout
    assert not (shop / "private/quotes").exists()
