"""`quotes`, and the letters of `quote --for`, as an owner types them."""

import json
import re
import shutil
from datetime import date
from email import message_from_bytes, policy
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main
from quoting.places import shared
from quoting.quoted.published import publish_withdrawn
from quoting.quoted.register import Register
from quoting.quoted.sealing import opened, unsigned
from quoting.quoted.trust import number_hash, standing
from tests.cli.test_issuing import DAY, RX, WORDS
from tests.posting.server import PASSWORD, USER, running

ON = ("--on", "2026-11-26")
TO = "m@example.org"


@pytest.fixture
def shop(tmp_path, monkeypatch):
    folder = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    monkeypatch.chdir(tmp_path)
    good("keys", "new", folder, "--on", "2026-11-01")
    return folder


@pytest.fixture
def box(tmp_path, shop):
    """A mail server on this machine, and the shop's account on it."""
    with running(tmp_path) as found:
        shutil.copy(found.certificate, shop / "private/server.pem")
        account = shop / "private/mail.yaml"
        words = f'server: 127.0.0.1\nport: {found.port}\nuser: {USER}\npassword: "{PASSWORD}"\n'
        account.write_text(words + "certificate: server.pem\n", encoding="utf-8")
        account.chmod(0o600)
        yield found


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


def good(*words):
    told = bevelbook(*words)
    assert told.exit_code == 0, told.output
    return told


def quote(shop, *more, customer="Ms. Márrable"):
    return bevelbook("quote", *WORDS, *RX, "--shop", shop, "--for", customer, *more)


def issued(shop, *more, **words):
    told = quote(shop, "--json", *more, **words)
    assert told.exit_code == 0, told.output
    return json.loads(told.stdout)


def quotes(shop, *words):
    return bevelbook("quotes", *words, "--shop", shop)


def shown(shop, number, *more):
    return json.loads(good("quotes", "show", number, "--shop", shop, "--json", *(more or ON)).stdout)


def test_the_list_tells_of_each_quote(shop):
    assert "No quote was issued yet" in quotes(shop).stdout
    one, other = issued(shop), issued(shop, "--or", "bench-150-ar", customer="Mr. Quill")
    rows = quotes(shop, *ON).stdout.splitlines()
    assert [row.split()[0] for row in rows] == ["number", one["number"], other["number"]]
    assert re.search(r"2026-12-25 +issued +\$369\.01 +Ms\. Márrable +Cottering 52-18, Benchground polycarb", rows[1])
    assert "$325.81 to $369.01" in rows[2]
    assert "or 1 more" in rows[2]
    assert len(quotes(shop, "--on", "2027-01-01", "--state", "expired").stdout.splitlines()) == 3
    assert "No quote" in quotes(shop, *ON, "--state", "expired").stdout
    read = json.loads(quotes(shop, *ON, "--json").stdout)["quotes"]
    assert [found["number"] for found in read] == [one["number"], other["number"]]
    assert read[0] == shown(shop, one["number"])


def test_show_tells_the_quote_and_what_became_of_it(shop):
    number = issued(shop, "--note", "Come by.")["number"]
    told = quotes(shop, "show", number.lower(), *ON).stdout
    assert f"quote {number} for Ms. Márrable" in told
    assert "Note: Come by." in told
    assert "State on 2026-11-26: issued" in told
    good("quotes", "accept", number, "--shop", shop, *ON)
    assert "State on 2026-11-26: accepted" in quotes(shop, "show", number, *ON).stdout


def test_accept_needs_to_know_which_and_in_time(shop):
    number = issued(shop, "--or", "bench-150-ar")["number"]
    told = quotes(shop, "accept", number, *ON)
    assert (told.exit_code, "has 2 alternatives: say which" in told.stderr) == (2, True)
    assert "has no alternative C" in quotes(shop, "accept", number, "--alternative", "C", *ON).stderr
    late = quotes(shop, "accept", number, "--alternative", "B", "--on", "2027-01-05")
    assert (late.exit_code, "held until 2026-12-25: renew it" in late.stderr) == (2, True)
    told = good("quotes", "accept", number, "--alternative", "B", "--late", "--shop", shop, "--on", "2027-01-05")
    assert "alternative B" in told.stdout
    assert shown(shop, number)["events"][0]["alternative"] == "B"
    for act in (("accept", number, "--alternative", "A"), ("withdraw", number), ("renew", number)):
        again = quotes(shop, *act, *ON)
        assert (again.exit_code, f"{number} was accepted on" in again.stderr) == (2, True)


def test_withdraw_publishes_a_hash_and_nothing_else(shop):
    found = issued(shop)
    number = found["number"]
    good("quotes", "withdraw", number, "--reason", "a slip in the axis", "--shop", shop, *ON)
    public = (shop / "quotes.yaml").read_text(encoding="utf-8")
    assert number_hash(number) in public
    for secret in (number, "rrable", "axis", "-6"):
        assert secret not in public.split("withdrawn:")[1]
    catalog, _ = load(shop, DAY)
    assert standing(opened(found["link"]), catalog.keys, catalog.withdrawn, DAY) == "withdrawn"
    assert shown(shop, number)["state"] == "withdrawn"
    assert quotes(shop, "withdraw", number, *ON).exit_code == 2


def test_what_is_accepted_while_it_is_withdrawn_is_not_told_as_withdrawn(shop, monkeypatch):
    """The customer takes it after the command has seen that it is open."""
    number = issued(shop)["number"]
    monkeypatch.setattr(Register, "open_for", lambda register, *words: Register(shop).note(number, "accepted"))
    told = quotes(shop, "withdraw", number, *ON)
    assert (told.exit_code, "was accepted on" in told.stderr) == (2, True)
    assert number_hash(number) not in (shop / "quotes.yaml").read_text(encoding="utf-8")
    assert shown(shop, number)["state"] == "accepted"


def test_a_withdrawal_that_was_cut_short_is_finished_by_the_next(shop):
    """The hash is published first: then the command ended."""
    number = issued(shop)["number"]
    publish_withdrawn(shop, number, date(2026, 11, 26))
    good("quotes", "withdraw", number, "--shop", shop, *ON)
    assert (shop / "quotes.yaml").read_text(encoding="utf-8").count(number_hash(number)) == 1


def test_renew_is_a_new_quote_at_the_day_s_prices(shop):
    old = issued(
        shop,
        *("--or", "eskerby bench-159-ar size=51-20 color=black", "--second", "tarnsey bench-159-ar size=50 color=navy"),
        *("--height", "21/20.5", "--tilt", "9", "--note", "Come by.", "--change", "frame=100.00 scratched"),
    )
    number = old["number"]
    good("prices", "raise", "all", "+10%", shop, "--write", "--on", "2027-01-10")
    told = good("quotes", "renew", number, "--shop", shop, "--json", "--on", "2027-01-10", "--days", "14")
    new = json.loads(told.stdout)
    assert (new["issued"], new["expires"], new["customer"]) == ("2027-01-10", "2027-01-24", "Ms. Márrable")
    assert new["note"] == "Come by."
    before, after = opened(old["link"]).quote, opened(new["link"]).quote
    assert before["prescriptions"] == after["prescriptions"]
    for one, two in zip(before["alternatives"], after["alternatives"], strict=True):
        for pair, again in zip(one, two, strict=True):
            assert pair["measures"] == again["measures"]
            assert [pair["frame"], pair["lens"]] == [again["frame"], again["lens"]]
            assert sum(line["cents"] for line in again["lines"]) > 0
    assert shown(shop, number)["state"] == "renewed"
    assert shown(shop, number)["events"][-1]["new"] == new["number"]


def changed_lines(link):
    """What is changed for the customer in a quote: pair, line, cents, what the list has, why."""
    pairs = [pair for one in opened(link).quote["alternatives"] for pair in one]
    lines = [(at, line) for at, pair in enumerate(pairs) for line in pair["lines"] if line["listed"] is not None]
    return [(at, line["key"], line["cents"], line["listed"], line["reason"]) for at, line in lines]


def test_renew_keeps_what_was_changed_for_the_customer_and_tells_it(shop):
    """Every kind of line, in the pair it was changed in, beside what the list has by then."""
    old = issued(
        shop,
        *("--second", "dunvaire bench-159-ar size=53 color=black-sun", "--change", "A2: frame=150.00 last one"),
        *("--change", "frame=100.00 scratched", "--change", "lens L=80.00 remade", "--change", "shipping=0.00 fetched"),
        *("--region", "outer-isles"),
    )
    good("prices", "raise", "frames maker=pellbridge-daughters", "+10%", shop, "--write", "--on", "2026-12-01")
    told = good("quotes", "renew", old["number"], "--shop", shop, "--json", "--on", "2026-12-01")
    assert changed_lines(old["link"]) == [
        (0, "frame", 10000, 16500, "scratched"),
        (0, "lens L", 8000, 9900, "remade"),
        (0, "shipping free", 0, 1600, "fetched"),
        (1, "frame sun", 15000, 19900, "last one"),
    ]
    assert changed_lines(json.loads(told.stdout)["link"]) == [
        (0, "frame", 10000, 18150, "scratched"),
        (0, "lens L", 8000, 9900, "remade"),
        (0, "shipping free", 0, 1600, "fetched"),
        (1, "frame sun", 15000, 21890, "last one"),
    ]
    for line in ("frame at 100.00, scratched", "shipping free at 0.00, fetched", "frame sun at 150.00, last one"):
        assert f"Still changed: {line}." in told.stderr


def test_renew_keeps_a_changed_surcharge_and_tells_where_it_is_gone(shop):
    rx = ("--rx", "OD -4.25 DS 2.00 BI / OS -3.75 DS", "--pd", "31/32")
    old = json.loads(
        good("quote", *WORDS, *rx, "--shop", shop, "--for", "M", "--json", "--change", "prism=5.00 half of it").stdout
    )
    new = json.loads(good("quotes", "renew", old["number"], "--shop", shop, "--json", "--on", "2026-12-01").stdout)
    assert changed_lines(new["link"]) == changed_lines(old["link"]) == [(0, "surcharge R", 500, 1400, "half of it")]
    prices = shop / "prices/2026-09.yaml"
    prices.write_text(prices.read_text(encoding="utf-8").replace("Prescribed prism", "Prism"), encoding="utf-8")
    told = quotes(shop, "renew", new["number"], "--on", "2026-12-02")
    assert told.exit_code == 2
    assert "no surcharge 'Prescribed prism' any more" in told.stderr
    assert shown(shop, new["number"])["state"] == "issued"
    assert quotes(shop, "renew", new["number"], "--plain", "--on", "2026-12-02").exit_code == 0


def test_renew_plainly_tells_what_it_does_not_carry_over(shop):
    number = issued(shop, "--change", "frame=100.00 scratched")["number"]
    told = good("quotes", "renew", number, "--shop", shop, "--plain", "--on", "2026-12-01")
    assert "Not carried over: frame at 100.00, scratched." in told.stderr
    assert "$165.00" in told.stdout


def test_renew_with_another_note_or_none(shop):
    number = issued(shop, "--note", "The lenses can be here on Friday.")["number"]
    other = json.loads(
        good("quotes", "renew", number, "--shop", shop, "--json", "--on", "2026-12-01", "--note", "On Monday.").stdout
    )
    assert other["note"] == "On Monday."
    words = ("quotes", "renew", other["number"], "--shop", shop, "--json", "--on", "2026-12-02", "--note", "")
    assert json.loads(good(*words).stdout)["note"] == ""


def test_renew_holds_an_address_to_what_one_is(shop):
    number = issued(shop)["number"]
    told = quotes(shop, "renew", number, "--to", "two words", *ON)
    assert (told.exit_code, "'two words' is not a mail address" in told.stderr) == (2, True)
    assert shown(shop, number)["state"] == "issued"


def test_a_quote_in_another_language_is_shown_and_renewed_in_it(shop):
    """Its link says in which; the option says otherwise."""
    words = shop / "shop.yaml"
    text = words.read_text(encoding="utf-8").replace("  # languages: [en, es]", "  languages: [en, es]")
    words.write_text(text, encoding="utf-8")
    number = issued(shop, "--language", "es")["number"]
    assert "Envío" in quotes(shop, "show", number).stdout
    assert "Shipping" in quotes(shop, "show", number, "--language", "en").stdout
    told = good("quotes", "renew", number, "--shop", shop, "--on", "2026-12-01")
    assert "Envío" in told.stdout
    assert "https://ottersea.example.org/es/quote/#" in told.stdout
    english = good("quotes", "--shop", shop, "--state", "issued", "--json", "--on", "2026-12-01")
    number = json.loads(english.stdout)["quotes"][-1]["number"]
    told = good("quotes", "renew", number, "--shop", shop, "--on", "2026-12-02", "--language", "en")
    assert "Shipping" in told.stdout
    assert "https://ottersea.example.org/quote/#" in told.stdout


def test_reasons_are_in_the_language_of_the_quote(shop):
    """A lens for distance alone, for eyes that need an addition."""
    rx = ("--rx", "OD -2.25 DS add 2.00 / OS -2.00 DS add 2.00", "--pd", "31/32")
    told = good("quote", *WORDS, *rx, "--shop", shop, "--for", "M", "--language", "es").stdout
    assert "Su adición de lectura de +2.00 no está en esta lente" in told
    assert "Your" not in told


def test_a_state_that_there_is_not_is_misuse(shop):
    assert quotes(shop, "--state", "isued").exit_code == 2


def test_a_letter_of_a_quote_that_was_withdrawn_does_not_go_out(shop, box):
    box.rcpt = ["451 later, please"]
    number = json.loads(quote(shop, "--to", TO, "--send", "--json").stdout)["number"]
    good("quotes", "withdraw", number, "--shop", shop, *ON)
    told = quotes(shop, "send", *ON)
    assert told.exit_code == 1
    assert f"{number}: NOT sent to {TO}: the quote is withdrawn." in told.stderr
    assert box.letters == []
    assert "  dropped  " in quotes(shop, "letters").stdout
    assert "Nothing waits" in quotes(shop, "send", *ON).stdout


def test_renew_of_what_is_unchanged_the_same_day_is_misuse(shop):
    number = issued(shop)["number"]
    told = quotes(shop, "renew", number, "--on", "2026-11-25")
    assert (told.exit_code, "nothing to renew" in told.stderr) == (2, True)
    assert shown(shop, number)["state"] == "issued"


def test_renew_of_what_is_gone_is_told(shop):
    number = issued(shop)["number"]
    frames = shop / "frames/pellbridge.yaml"
    frames.write_text(frames.read_text(encoding="utf-8").replace("id: cottering", "id: cotterham"), encoding="utf-8")
    told = quotes(shop, "renew", number, *ON)
    assert told.exit_code == 2
    assert "no frame 'cottering'" in told.stderr
    assert shown(shop, number)["state"] == "issued"


def test_what_is_not_there_is_misuse(shop):
    for act in ("show", "accept", "withdraw", "renew", "send"):
        told = quotes(shop, act, "261125-ZZZZZ")
        assert (told.exit_code, "there is no quote 261125-ZZZZZ" in told.stderr) == (2, True), act


def test_a_register_with_a_line_cut_short_is_told_and_works(shop):
    issued(shop)
    with (shop / "private/quotes/register.jsonl").open("ab") as file:
        file.write(b'{"at":"2026')
    told = good("quotes", "--shop", shop)
    assert "cut short" in told.stderr
    assert "Ms. Márrable" in told.stdout
    assert issued(shop, customer="Mr. Quill")["number"]


def test_a_link_that_came_back_is_looked_at(shop):
    found = issued(shop)
    link = found["link"]
    told = good("quotes", "open", link, "--shop", shop, *ON)
    assert told.stdout.startswith("The shop has signed this quote. Its price holds.\n")
    assert f"quote {found['number']}" in told.stdout
    mail = "Hello,\n> " + "\n> ".join(link[at : at + 72] for at in range(0, len(link), 72)) + "\nis this right?\n"
    piped = CliRunner().invoke(main, ["quotes", "open", "-", "--shop", str(shop), *ON], input=mail)
    assert (piped.exit_code, piped.stdout) == (0, told.stdout)
    late = good("quotes", "open", link, "--shop", shop, "--on", "2027-01-01")
    assert "its last day is over" in late.stdout
    for broken, said in ((link[:-9], "cut short"), ("https://a.example/", "not the link of a quote")):
        told = quotes(shop, "open", broken)
        assert (told.exit_code, said in told.stdout, "$" in told.stdout) == (1, True, False)
    good("quotes", "withdraw", found["number"], "--shop", shop, *ON)
    told = quotes(shop, "open", link, *ON)
    assert (told.exit_code, "withdrawn this quote" in told.stdout) == (1, True)


def test_an_estimate_that_came_back_holds_nothing(shop):
    """Nor is a number or a note told that nobody signed."""
    quote = opened(issued(shop, "--note", "Pay to this account.", "--change", "frame=1.00 for you alone")["link"]).quote
    told = good("quotes", "open", unsigned(quote), "--shop", shop, *ON).stdout
    assert told.startswith("This is an estimate: the shop has not signed it.\n\n")
    assert "\nOttersea Spectacle Works: an estimate\n" in told
    assert "\nmade Nov 25, 2026, price list 2026-09\n" in told
    for word in ("held", quote["number"], "account", "alone"):
        assert word not in told


def test_what_was_renewed_can_still_be_called_back(shop):
    """Its link goes on to hold its price: that is told, and the way to end it works."""
    old = issued(shop)
    told = good("quotes", "renew", old["number"], "--shop", shop, "--on", "2026-12-01")
    said = f"The link of {old['number']} goes on to hold its price until 2026-12-25; `bevelbook quotes withdraw"
    assert said in told.stderr
    good("quotes", "withdraw", old["number"], "--shop", shop, "--on", "2026-12-01")
    assert shown(shop, old["number"])["state"] == "withdrawn"
    catalog, _ = load(shop, DAY)
    assert standing(opened(old["link"]), catalog.keys, catalog.withdrawn, DAY) == "withdrawn"
    late = issued(shop, customer="Mr. Quill")["number"]
    assert "goes on to hold" not in good("quotes", "renew", late, "--shop", shop, "--on", "2027-02-01").stderr


def test_a_letter_is_written_whole_and_asks_nothing_of_the_net(shop):
    found = issued(shop, "--to", TO, "--email", "letter.eml", "--or", "eskerby bench-159-ar size=51-20 color=black")
    raw = Path("letter.eml").read_bytes()
    assert max(len(line) for line in raw.split(b"\r\n")) <= 998
    assert raw.isascii()
    message = message_from_bytes(raw, policy=policy.default)
    assert message["To"].addresses[0].display_name == "Ms. Márrable"
    assert (message["To"].addresses[0].addr_spec, message["From"].addresses[0].addr_spec) == (
        TO,
        "bench@ottersea.example.org",
    )
    assert found["number"] in message["Subject"]
    assert message["Message-ID"].endswith("@ottersea.example.org>")
    text = message.get_body(("plain",)).get_content()
    html = message.get_body(("html",)).get_content()
    assert found["link"] in text.splitlines()
    assert f'href="{found["link"]}"' in html
    pictures = [part for part in message.walk() if part.get_content_type() == "image/png"]
    assert len(pictures) == 2
    for picture in pictures:
        assert f'src="cid:{picture["Content-ID"].strip("<>")}"' in html
        assert picture.get_content().startswith(b"\x89PNG\r\n\x1a\n")
    assert set(re.findall(r'(?:src|href|background)="([a-z]+:)', html)) == {"https:", "cid:"}
    assert re.findall(r'src="(?!cid:)', html) == []
    assert "url(" not in html
    assert "<script" not in html
    assert "$369.01" in html
    assert "$369.01" in text


def test_a_letter_shows_each_tint_on_its_frame(shop):
    """The same frame twice, with two tints, is two pictures; words and figures stand beside them."""
    more = ("--or", "bench-150-ar tint=deep-sea", "--or", "bench-150-ar tint=dusk", "--or", "bench-150-ar tint=")
    pair = ("cottering", "bench-150-ar", "--size", "52", "--color", "black")
    words = (*pair, "--rx", "OD -2.00 DS / OS -2.25 DS / PD 63", "--shop", shop, "--for", "Ms. Tarn", *more)
    told = bevelbook("quote", *words, "--tint", "dusk", "--to", TO, "--email", "t.eml")
    assert told.exit_code == 0, told.output
    message = message_from_bytes(Path("t.eml").read_bytes(), policy=policy.default)
    pictures = [part.get_content() for part in message.walk() if part.get_content_type() == "image/png"]
    assert len(set(pictures)) == len(pictures) == 3
    html, text = (message.get_body((kind,)).get_content() for kind in ("html", "plain"))
    for said in (html, text):
        assert said.count("Tint Dusk (order code W 5)") == 2
        assert said.count("Not for driving at night or at twilight.") == 3
    assert html.count("<img") == 4


def test_what_a_customer_is_called_is_never_markup_or_a_header(shop):
    issued(shop, "--to", TO, "--email", "a.eml", "--note", "<b>&", customer='<img src="x">, "Q"')
    message = message_from_bytes(Path("a.eml").read_bytes(), policy=policy.default)
    html = message.get_body(("html",)).get_content()
    assert '<img src="x">' not in html
    assert "&lt;img src=&#34;x&#34;&gt;" in html
    assert "&lt;b&gt;&amp;" in html
    assert len(message["To"].addresses) == 1
    told = quote(shop, "--to", TO, "--email", "b.eml", customer="A\r\nBcc: b@example.org")
    assert told.exit_code == 2
    assert not Path("b.eml").exists()


def test_a_quote_is_sent_and_never_twice(shop, box):
    told = quote(shop, "--to", TO, "--send")
    assert told.exit_code == 0, told.output
    assert f"sent to {TO}" in told.stderr
    link = next(line for line in told.stdout.splitlines() if "/quote/#2s" in line)
    ((sender, to, raw),) = box.letters
    assert (sender, to) == ("bench@ottersea.example.org", [TO])
    message = message_from_bytes(raw, policy=policy.default)
    assert opened(message.get_body(("plain",)).get_content()).text == link.rpartition("#")[2]
    again = quote(shop, "--to", TO, "--send")
    assert again.exit_code == 2
    assert "--again sends it once more" in again.stderr
    assert len(box.letters) == 1
    assert quote(shop, "--to", TO, "--send", "--again").exit_code == 0
    first, second = (message_from_bytes(one[2], policy=policy.default)["Message-ID"] for one in box.letters)
    assert first == second
    assert "sent" in quotes(shop, *ON).stdout
    assert quotes(shop, "letters").stdout.count("  sent  ") == 1


def test_a_letter_that_waits_goes_with_quotes_send(shop, box):
    box.rcpt = ["451 later, please"]
    told = quote(shop, "--to", TO, "--send")
    assert told.exit_code == 1
    assert "NOT sent: later, please. It waits in the outbox: `bevelbook quotes send`" in told.stderr
    assert "waiting" in quotes(shop, "letters").stdout
    assert good("quotes", "send", "--shop", shop, *ON).stderr.rstrip().endswith(f"sent to {TO}.")
    assert len(box.letters) == 1
    assert "Nothing waits" in good("quotes", "send", "--shop", shop, *ON).stdout


@pytest.mark.parametrize(
    ("set_up", "said", "state"),
    [
        (lambda box: box.rcpt.append("550 nobody of that name"), "REFUSED for m@example.org: nobody of", "refused"),
        (lambda box: setattr(box, "drop", "end"), "Nobody can tell whether it went out", "unsure"),
        (lambda box: setattr(box, "drop", "data"), "NOT sent", "waiting"),
    ],
)
def test_what_went_wrong_is_told_in_plain_words(shop, box, set_up, said, state):
    set_up(box)
    told = quote(shop, "--to", TO, "--send")
    assert (told.exit_code, said in told.stderr) == (1, True), told.stderr
    assert f"  {state}  {TO}" in quotes(shop, "letters").stdout
    assert PASSWORD not in told.output
    if state == "unsure":
        assert "Nobody can tell" in quotes(shop, "send").stderr


def test_a_refused_login_is_told_and_the_letter_waits(shop, box):
    account = shop / "private/mail.yaml"
    account.write_text(account.read_text(encoding="utf-8").replace(PASSWORD, "wrong"), encoding="utf-8")
    told = quote(shop, "--to", TO, "--send")
    assert told.exit_code == 1
    assert "refuses user name or password" in told.stderr
    assert "waiting" in quotes(shop, "letters").stdout


def test_without_account_or_address_nothing_is_issued(shop):
    for more, said in (
        (("--send",), "need the customer's address"),
        (("--email", "a.eml"), "need the customer's address"),
        (("--send", "--to", TO), "mail.yaml"),
    ):
        told = quote(shop, *more)
        assert (told.exit_code, said in told.stderr) == (2, True), told.output
    assert not (shop / "private/quotes/register.jsonl").exists()
    assert not Path("a.eml").exists()


def test_renew_sends_too(shop, box):
    number = issued(shop, "--to", TO)["number"]
    good("quotes", "renew", number, "--shop", shop, "--on", "2026-12-01", "--send")
    assert len(box.letters) == 1
