"""The page of a quote in Chromium: what it opens, what it refuses, and that nothing in a link is more than read."""

import io
import json
import random
import re
import shutil
from datetime import date, timedelta
from email import message_from_bytes, policy
from pathlib import Path
from urllib.parse import unquote

import pypdfium2
import pytest
from click.testing import CliRunner
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.cli import main
from quoting.findings import errors
from quoting.lab.jobs import Job, write_job
from quoting.light.lens_worn import LensWorn
from quoting.places import shared
from quoting.quoted.armor import SHAPE, armored, bared
from quoting.quoted.form import FORM, VERSION
from quoting.quoted.positional import packed
from quoting.quoted.sealing import opened as opened_here
from quoting.quoted.sealing import sealed, unsigned, written
from quoting.quoted.signing import Private
from quoting.quoted.squeezing import squeezed
from quoting.show.amounts import mm
from quoting.show.lens_paint import paint_worn
from quoting.show.quote_words import QUOTE, STANDING, TINTED
from quoting.show.seen import seen
from quoting.show.tint_lines import short_text
from quoting.site.build import build
from tests.lab.test_jobs import traced
from tests.posting.server import PASSWORD, USER, running
from tests.quoted.quotes import KEY, largest, offers, ordinary, plain, polarized, tinted
from tests.quoted.test_armor import WAYS
from tests.quoted.test_kept import KEPT, kept
from tests.quoted.test_sealing import at_path, changed_at, leaves, other
from tests.web.answered import becomes, styled

pytestmark = pytest.mark.browser

DAY = date.today()
WORDS = ("cottering", "bench-159-ar", "--size", "52", "--color", "black", "--rx", "OD -6.25 -1.25 x 010 / OS -5.75 DS")


def bevelbook(*words):
    told = CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")
    assert told.exit_code == 0, told.output
    return told


def built(shop, output):
    assert errors(build(shop, output, DAY).findings) == []
    return (output / "quote/index.html").as_uri()


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """The demo shop with a key, and another whose secret is known to the tests."""
    folder = Path(shutil.copytree(shared("demo_catalog"), tmp_path_factory.mktemp("quote") / "shop"))
    bevelbook("keys", "new", folder)
    return folder


@pytest.fixture(scope="module")
def address(shop):
    return built(shop, shop.parent / "site")


def issue(shop, *more, customer="Ms. Marrable"):
    words = ("quote", *WORDS, "--pd", "31/32", "--shop", shop, "--for", customer, "--json", *more)
    return json.loads(bevelbook(*words).stdout)


def text_of(link):
    return link.rpartition("#")[2]


def visit(opened, url):
    page = opened(url)
    page.evaluate("bevelbook.quoteShown")
    styled(page, "quote.css")
    return page


def status(page):
    return page.inner_text("#quote-status")


def said(key, **values):
    return STANDING[key].format(**values)


def shown(page, fragment):
    """What the page says of another fragment: a key of STANDING."""
    return page.evaluate(
        """async (text) => {
          history.replaceState(null, "", location.pathname + "#" + text);
          dispatchEvent(new HashChangeEvent("hashchange"));
          return await bevelbook.quoteShown;
        }""",
        fragment,
    )


def open_text(page, text):
    """The same without going through the address, which takes some signs away."""
    return page.evaluate("async (text) => (await bevelbook.openedQuote(text))", text)


# How the page judges each of many texts
JUDGE = """async (texts) => {
  const found = [];
  for (const text of texts) {
    const one = await bevelbook.openedQuote(text);
    found.push(one.fault ?? (await bevelbook.standingOf(one)));
  }
  return found;
}"""


def test_the_whole_way_of_a_quote(opened, tmp_path, shop):
    """Issued, mailed, opened from the letter, printed; prices rise, both are shown; altered, it is refused."""
    folder = Path(shutil.copytree(shop, tmp_path / "shop"))
    with running(tmp_path) as box:
        shutil.copy(box.certificate, folder / "private/server.pem")
        account = folder / "private/mail.yaml"
        words = f'server: 127.0.0.1\nport: {box.port}\nuser: {USER}\npassword: "{PASSWORD}"\n'
        account.write_text(words + "certificate: server.pem\n", encoding="utf-8")
        account.chmod(0o600)
        quote = issue(folder, "--to", "m@example.org", "--send", "--note", "The lenses can be here on Friday.")
        message = message_from_bytes(box.letters[0][2], policy=policy.default)
    site = built(folder, tmp_path / "site")
    text = message.get_body(("plain",)).get_content()
    link = next(line for line in text.splitlines() if "/quote/#" in line)
    page = visit(opened, f"{site}#{text_of(link)}")
    last = date.fromisoformat(quote["expires"])
    assert status(page) == said("held", day=f"{last:%b} {last.day}, {last.year}")
    body = page.inner_text("main")
    for part in (quote["number"], "$369.01", "2026-09", "−6.25 −1.25 × 010", "The lenses can be here on Friday."):
        assert part in body
    assert QUOTE["same"] in body
    assert "Marrable" not in page.content()
    printed = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format="Letter")))
    assert len(printed) == 1

    bevelbook("prices", "raise", "all", "+5%", folder, "--write", "--into", "later", "--effective", DAY)
    built(folder, tmp_path / "site")
    page = visit(opened, f"{site}#{text_of(link)}")
    assert status(page) == said("held", day=f"{last:%b} {last.day}, {last.year}")
    body = page.inner_text("main")
    today = json.loads(bevelbook("quote", *WORDS, "--pd", "31/32", "--shop", folder, "--json").stdout)["offer"]
    now = f"${today['total_cents'] / 100:,.2f}"
    assert now != "$369.01"
    assert f"Today it comes to {now} instead of $369.01." in body
    assert "The price list is later now; the quote is from 2026-09." in body
    ends = page.evaluate(
        """() => [...document.querySelectorAll(".bill .sum td")].map((cell) => {
          const range = document.createRange();
          range.selectNodeContents(cell);
          return range.getBoundingClientRect();
        }).map(({ left, right }) => [left, right])"""
    )
    assert ends[1][0] - ends[0][1] >= 8, "the two totals run into each other"
    assert {"$369.01", now} <= {cell.inner_text() for cell in page.query_selector_all(".bill .sum td")}

    body_bytes = bared(SHAPE.fullmatch(text_of(link))["body"])
    value = packed(FORM, "quote", opened_here(link).quote)
    value[9][0][0][7][0][2] -= 1000  # ten dollars off the frame
    forged = armored(VERSION, "s", body_bytes[:68] + squeezed(VERSION, written(value)))
    assert shown(page, forged) == "altered"
    assert status(page) == said("altered")
    assert "$" not in page.inner_text("main")


def test_every_sentence_there_is(opened, address, shop, tmp_path):
    page = visit(opened, address)
    assert status(page) == said("nothing")
    signed = text_of(issue(shop)["link"])
    stranger = Private.new()
    for fragment, key in (
        (signed, "held"),
        (unsigned(plain()), "estimate"),
        (sealed(plain(), stranger.id, stranger.sign), "unknown-key"),
        (signed[:-30], "damaged"),
        ("3uQUJDz", "newer"),
        ("lenses", "no-quote"),
        ("", "nothing"),
    ):
        assert shown(page, fragment) == key, key
        if key != "held":
            assert status(page) == STANDING[key]


def test_expired_withdrawn_retired_and_recalled(opened, tmp_path, shop):
    folder = Path(shutil.copytree(shop, tmp_path / "shop"))
    past = DAY - timedelta(days=100)
    old = text_of(issue(folder, "--on", past, "--days", "30")["link"])
    withdrawn = issue(folder, customer="Mr. Quill")
    bevelbook("quotes", "withdraw", withdrawn["number"], "--shop", folder)
    page = visit(opened, built(folder, tmp_path / "one"))
    assert shown(page, old) == "expired"
    assert "What counts is today's." in status(page)
    assert shown(page, text_of(withdrawn["link"])) == "withdrawn"
    site = (tmp_path / "one/data/quotes.js").read_text(encoding="utf-8")
    assert withdrawn["number"] not in site
    (key,) = json.loads(bevelbook("keys", "list", folder, "--json").stdout)["keys"]
    current = text_of(issue(folder, customer="Ms. Tarn")["link"])
    bevelbook("keys", "retire", key["id"], folder, "--on", past)
    page = visit(opened, built(folder, tmp_path / "two"))
    assert shown(page, current) in ("held", "late-key")
    bevelbook("keys", "retire", key["id"], folder, "--recall")
    page = visit(opened, built(folder, tmp_path / "three"))
    assert shown(page, current) == "recalled-key"
    assert shown(page, old) == "recalled-key"


def test_a_browser_without_ed25519_says_so(browser, address, shop):
    context = browser.new_context()
    context.add_init_script(
        "crypto.subtle.importKey = async () => { throw new DOMException('no', 'NotSupportedError'); };"
    )
    page = context.new_page()
    page.goto(f"{address}#{text_of(issue(shop)['link'])}")
    assert page.evaluate("bevelbook.quoteShown") == "unverified"
    assert "cannot tell whether the shop signed this quote" in status(page)
    context.close()


def test_without_a_safe_line_there_is_nothing_to_verify_with(browser, address, shop):
    context = browser.new_context()
    context.add_init_script("Object.defineProperty(crypto, 'subtle', { value: undefined });")
    page = context.new_page()
    page.goto(f"{address}#{text_of(issue(shop)['link'])}")
    assert page.evaluate("bevelbook.quoteShown") == "unverified"
    context.close()


@pytest.mark.parametrize("quote", [plain, ordinary, tinted, largest])
def test_the_page_reads_a_link_as_python_does(opened, address, quote):
    page = visit(opened, address)
    for text in (unsigned(quote()), sealed(quote(), KEY.id, KEY.sign)):
        found = open_text(page, text)
        here = opened_here(text)
        assert found["quote"] == here.quote
        assert found["key"] == here.key
        assert (found.get("signature") or []) == list(here.signature)
        assert (found.get("message") or []) == list(here.message)


@pytest.mark.parametrize("quote", [tinted, largest, polarized])
def test_the_tint_is_told_and_drawn_as_python_does(opened, address, quote):
    """In words and figures, and as stops of paint, of every pair."""
    page = visit(opened, address)
    today = load(shared("demo_catalog"), DAY)[0]
    pairs = [pair for one in seen(quote(), today.shop, today).alternatives for pair in one.pairs]
    found = page.evaluate(
        """async (quote) => {
          await Promise.all([bevelbook.later("quote-tint.js"), bevelbook.later("../../data/quote-tints.js")]);
          return quote.alternatives.flat().map((pair) =>
          [bevelbook.tintLines(quote, pair), bevelbook.tintPaint(quote, pair), bevelbook.tintShort(quote, pair)]);
        }""",
        quote(),
    )
    kept_ = [pair for pairs in quote()["alternatives"] for pair in pairs]
    here = [
        [list(pair.tint), [list(stop) for stop in pair.paint], short_text(quote(), one)]
        for pair, one in zip(pairs, kept_, strict=True)
    ]
    assert found == here
    assert any(len(paint) > (quote is not polarized) for _, paint, _ in found)


def test_a_lens_with_a_color_of_its_own_is_drawn_in_it_while_the_shop_has_it(opened, address):
    """A link has its name and what it is alone; one without its like in the shop is drawn as clear."""
    quote = polarized()
    catalog = offers().catalog
    (stop,) = paint_worn(catalog, LensWorn(catalog.packages[quote["lenses"][0]["id"]]))
    lens = visit(opened, f"{address}#{unsigned(quote)}").locator(".quote-front .tint")
    assert (lens.get_attribute("fill"), float(lens.get_attribute("fill-opacity"))) == (stop.color, stop.opacity)
    for changed in ({"id": "sold-out-polar"}, {"light": "photochromic"}):
        gone = {**quote, "lenses": [{**quote["lenses"][0], **changed}]}
        page = visit(opened, f"{address}#{unsigned(gone)}")
        assert page.locator(".quote-front .glass").count() == 1
        assert page.locator(".quote-front .tint").count() == 0
    assert opened.wrong == []


def test_a_tint_stands_in_the_quote_whatever_becomes_of_the_book(opened, tmp_path, shop):
    """Name, order code, figures, driving and paint are those of the day it was issued; the shop's changes are told."""
    folder = Path(shutil.copytree(shop, tmp_path / "shop"))
    tints = folder / "tints.yaml"
    line = (
        '  - {id: ebb, name: Ebb, code: "W 8", parts: {brown: 2, rose: 1}, '
        "absorbs: {top: 70, bottom: 12, from: 20, to: 85}}\n"
    )
    whole = tints.read_text(encoding="utf-8").rstrip("\n") + "\n" + line
    tints.write_text(whole, encoding="utf-8")
    words = ("cottering", "bench-150-ar", "--size", "52", "--color", "black", "--rx", "OD -2.00 DS / OS -2.25 DS")
    told = bevelbook("quote", *words, "--pd", "63", "--shop", folder, "--for", "Ms. Tarn", "--tint", "W 8", "--json")
    link = json.loads(told.stdout)["link"]
    recipe = "Tint Ebb (order code W 8): 2 Brown, 1 Rose; takes 70 % of the light above, 12 % below"
    drawn = set()
    for name, book, change in (
        ("same", whole, QUOTE["same"]),
        ("gone", whole.replace(line, ""), TINTED["tint-gone"].format(name="Ebb")),
        ("other", whole.replace(line, line.replace("brown: 2", "brown: 1")), TINTED["tint-other"].format(name="Ebb")),
    ):
        tints.write_text(book, encoding="utf-8")
        page = visit(opened, f"{built(folder, tmp_path / name)}#{text_of(link)}")
        body = page.inner_text("main")
        assert recipe in body
        assert "filter category 2" in body
        assert TINTED["tint-driving-2"] in body
        assert change in body
        stops = page.locator(".quote-front linearGradient stop")
        drawn.add(tuple(stops.evaluate_all("all => all.map(one => one.getAttribute('stop-color')).join()")))
        assert page.locator(".quote-front .tint").get_attribute("fill").startswith("url(#")
    assert len(drawn) == 1
    assert len(next(iter(drawn))) > 20


def test_the_page_opens_what_was_made_once(opened, address):
    page = visit(opened, address)
    for path in KEPT:
        one = kept(path)
        for text in (one["text"], one["unsigned"]):
            assert open_text(page, text)["quote"] == opened_here(text).quote


@pytest.mark.parametrize("quote", [plain, ordinary, tinted, largest])
def test_the_page_packs_a_quote_as_python_does(opened, address, quote):
    page = visit(opened, address)
    text = page.evaluate("(quote) => bevelbook.unsignedQuote(quote)", quote())
    assert opened_here(text).quote == quote()


@pytest.mark.parametrize("way", WAYS)
def test_a_mangled_link_opens_in_the_page_too(opened, address, way):
    page = visit(opened, address)
    text = sealed(ordinary(), KEY.id, KEY.sign)
    found = open_text(page, WAYS[way]("https://ottersea.example.org/quote/#" + text))
    assert found["text"] == text
    assert found["quote"] == ordinary()


def test_a_mangled_link_opens_when_it_is_pasted(opened, address, shop):
    page = visit(opened, address)
    link = issue(shop)["link"]
    folded = "Good morning,\n\n> " + "\n> ".join(link[at : at + 70] for at in range(0, len(link), 70)) + "\n\nThank you"
    page.click("#quote-elsewhere summary")
    page.fill("#quote-paste", folded)
    page.wait_for_selector("#quote-status.held")


def test_every_field_changed_is_refused_in_the_page(opened, address, shop):
    page = visit(opened, address)
    link = issue(shop)["link"]
    head = bared(SHAPE.fullmatch(text_of(link))["body"])[:68]
    value = packed(FORM, "quote", opened_here(link).quote)
    forged = [
        armored(VERSION, "s", head + squeezed(VERSION, written(changed_at(value, path, other(at_path(value, path))))))
        for path in leaves(value)
    ]
    assert len(forged) > 70
    found = page.evaluate(
        JUDGE,
        forged,
    )
    assert set(found) <= {"altered", "damaged"}
    assert "altered" in found


def test_every_byte_flipped_is_refused_in_the_page(opened, address, shop):
    page = visit(opened, address)
    body = bared(SHAPE.fullmatch(text_of(issue(shop)["link"]))["body"])
    flipped = [body[:at] + bytes([body[at] ^ 1 << at % 8]) + body[at + 1 :] for at in range(len(body))]
    forged = [armored(VERSION, "s", one) for one in flipped]
    found = page.evaluate(
        JUDGE,
        forged,
    )
    assert set(found) <= {"altered", "damaged", "unknown-key"}


def dressed_up():
    """An estimate that somebody dressed up as a shop's quote, with all that only a shop says."""
    quote = json.loads(json.dumps({**plain(), "number": "261125-ABCDE", "note": "Pay to this account."}))
    quote["alternatives"][0][0]["lines"][0] |= {"listed": 99900, "reason": "for you alone"}
    return quote


def test_the_way_past_the_head_does_not_lose_the_quote(opened, address, shop):
    """By keyboard: the first thing that Tab reaches is the link to the content."""
    link = f"{address}#{text_of(issue(shop)['link'])}"
    page = visit(opened, link)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    becomes(lambda: page.evaluate("scrollY > 0 || document.activeElement.className !== 'skip'"), True)
    page.evaluate("async () => { await bevelbook.quoteShown; await new Promise((done) => setTimeout(done)); }")
    expect(page).to_have_url(link)
    expect(page.locator("h1")).to_have_text(re.compile("^Quote "))
    assert page.evaluate("document.activeElement.id || document.activeElement.tagName") in ("main", "BODY")


def test_what_was_pasted_is_what_goes_on(opened, address, shop):
    """Not what the address held, which did not open."""
    link = f"{address}#{text_of(issue(shop)['link'])}"
    page = visit(opened, link[:-40])
    assert status(page) == STANDING["damaged"]
    page.click("#quote-elsewhere summary")
    page.fill("#quote-paste", f"Here it is: <{link}>.")
    page.wait_for_selector("text=Price held until")
    expect(page).to_have_url(link)
    becomes(lambda: unquote(page.get_attribute(".share a.button", "href")).endswith(link), True)
    page.reload()
    assert page.evaluate("bevelbook.quoteShown") == "held"


def test_a_mangled_address_is_put_right(opened, address, shop):
    link = f"{address}#{text_of(issue(shop)['link'])}"
    page = visit(opened, f"{link}%3E.")
    assert page.evaluate("bevelbook.quoteShown") == "held"
    expect(page).to_have_url(link)


@pytest.mark.parametrize("quote", [plain, ordinary, tinted, largest])
@pytest.mark.parametrize("width", [320, 360, 768])
def test_no_quote_is_wider_than_its_screen(opened, address, quote, width):
    """Prism in both directions, long reasons of changed lines, and two columns of amounts."""
    record = json.loads(json.dumps(quote()))
    for pair in (pair for pairs in record["alternatives"] for pair in pairs):
        pair["lines"][0] |= {"cents": 9900, "listed": 123450, "reason": "from the window, with a scratch at the temple"}
    page = visit(opened, f"{address}#{sealed(record, KEY.id, KEY.sign)}")
    page.set_viewport_size({"width": width, "height": 800})
    page.evaluate(
        """async (text) => {
      const found = await bevelbook.openedQuote(text);
      bevelbook.standingOf = async () => "held";
      history.replaceState(null, "", location.pathname + "#" + text);
      dispatchEvent(new HashChangeEvent("hashchange"));
      await bevelbook.quoteShown;
      return found.fault;
    }""",
        sealed(record, KEY.id, KEY.sign),
    )
    assert "with a scratch" in page.inner_text("main")
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_alternatives_stand_beside_each_other_first(opened, address, shop):
    quote = issue(
        shop,
        *("--or", "eskerby bench-159-ar size=51-20 color=black", "--or", "bench-150-ar"),
        *("--second", "tarnsey bench-159-ar size=50 color=navy"),
    )
    page = visit(opened, f"{address}#{text_of(quote['link'])}")
    rows = page.query_selector_all(".quote-overview tbody tr")
    assert [row.query_selector("th").inner_text() for row in rows] == ["A", "B", "C"]
    records = opened_here(quote["link"]).quote["alternatives"]
    for row, one, held in zip(rows, records, quote["alternatives"], strict=True):
        told = row.inner_text()
        edges = [pair[side]["edge_max"] for pair in one for side in ("right", "left")]
        assert f"{mm(max(edges) / 100)} mm" in told
        assert f"${held['total_cents'] / 100:,.2f}" in told
        assert "Tarnsey 50" in told
    page.set_viewport_size({"width": 360, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert not visit(opened, f"{address}#{text_of(issue(shop)['link'])}").query_selector(".quote-overview")


def test_what_nobody_signed_says_nothing_that_only_a_shop_says(opened, address):
    page = visit(opened, f"{address}#{unsigned(dressed_up())}")
    assert status(page) == STANDING["estimate"]
    assert page.inner_text("h1") == QUOTE["title-estimate"]
    assert page.title().startswith("Estimate:")
    letter = page.get_attribute(".share a.button", "href")
    shown_ = page.inner_text("main") + letter.partition("&body=")[0]
    for word in ("261125", "account", "alone", "$999.00", QUOTE["changed"]):
        assert word not in shown_


def test_a_withdrawn_quote_is_told_where_no_signature_can_be_checked(browser, tmp_path, shop):
    folder = Path(shutil.copytree(shop, tmp_path / "shop"))
    quote = issue(folder)
    bevelbook("quotes", "withdraw", quote["number"], "--shop", folder)
    context = browser.new_context()
    context.add_init_script(
        "crypto.subtle.importKey = async () => { throw new DOMException('no', 'NotSupportedError'); };"
    )
    page = context.new_page()
    page.goto(f"{built(folder, tmp_path / 'site')}#{text_of(quote['link'])}")
    assert page.evaluate("bevelbook.quoteShown") == "withdrawn"
    context.close()


def test_a_shop_that_changed_its_money_is_told_with_both(opened, address):
    """The same cents are not the same money."""
    page = visit(opened, address)
    mine = page.evaluate(
        "async (text) => { const found = await bevelbook.openedQuote(text);"
        " return (await bevelbook.requoted(found.quote))[0].total; }",
        unsigned(plain()),
    )
    quote = json.loads(json.dumps({**plain(), "currency": "EUR"}))
    lines = quote["alternatives"][0][0]["lines"]
    lines[-1]["cents"] += mine - sum(line["cents"] for line in lines)
    page = visit(opened, f"{address}#{unsigned(quote)}")
    then, now = f"{mine / 100:.2f} EUR", f"${mine / 100:,.2f}"
    assert f"Today it comes to {now} instead of {then}." in page.inner_text("main")
    assert [cell.inner_text() for cell in page.query_selector_all(".bill .sum td")] == [then, now]


def test_a_region_that_is_gone_is_not_reckoned_as_another(opened, address):
    page = visit(opened, f"{address}#{unsigned({**plain(), 'region': 'far-away'})}")
    body = page.inner_text("main")
    assert QUOTE["no-today"] in body
    assert "Today it comes to" not in body


def test_the_page_says_eyes_and_weights_as_the_command_does(opened, address, shop):
    quote = issue(shop, "--tint", "50 gradient", "--wish", "sport", "--child")
    told = bevelbook("quotes", "show", quote["number"], "--shop", shop).stdout
    body = " ".join(visit(opened, f"{address}#{text_of(quote['link'])}").inner_text("main").split())
    for start in ("R  −6.25", "L  −5.75", "Heights", "R  thickest", "L  thickest", "lenses ", "Wished: "):
        (line,) = (row for row in told.splitlines() if row.startswith(start))
        assert " ".join(line.split()) in body


def test_what_the_shop_has_no_more_is_shown_as_it_was_issued(opened, tmp_path, shop):
    folder = Path(shutil.copytree(shop, tmp_path / "shop"))
    fragment = text_of(issue(folder)["link"])
    frames = folder / "frames/pellbridge.yaml"
    frames.write_text(frames.read_text(encoding="utf-8").replace("id: cottering", "id: cotterham"), encoding="utf-8")
    page = visit(opened, built(folder, tmp_path / "site"))
    assert shown(page, fragment) == "held"
    body = page.inner_text("main")
    assert "does not have Pellbridge & Daughters Cottering, Black any more" in body
    assert "$369.01" in body
    page.locator(".quote-front svg path").first.wait_for(state="attached")


def test_a_traced_frame_is_drawn_by_its_trace(opened, tmp_path, shop):
    """The trace is a curve of third degree in closed form, so every point of the drawing can be held to it."""
    folder = Path(shutil.copytree(shop, tmp_path / "shop"))
    job = Job("B", {"DO": ("B",)}, (traced(b=35.0), traced("L", b=35.0)))
    file = tmp_path / "cottering.dcs"
    file.write_bytes(write_job(job))
    bevelbook("trace", "import", file, folder, "--frame", "cottering", "--size", "52-18", "--write")
    page = visit(opened, f"{built(folder, tmp_path / 'site')}#{text_of(issue(folder)['link'])}")
    path = page.get_attribute(".quote-front .glass", "d")
    points = [tuple(map(float, pair.split())) for pair in re.findall(r"-?[0-9.]+ -?[0-9.]+", path)]
    assert len(points) > 100
    for u, v in points:
        assert (abs(2 * (abs(u) - 35) / 52) ** 3 + abs(2 * v / 35) ** 3) == pytest.approx(1, abs=0.01)
    assert "not traced" not in page.inner_text("main")


def test_alternatives_and_two_pairs_as_the_command_says_them(opened, address, shop):
    quote = issue(
        shop,
        *("--or", "eskerby bench-159-ar size=51-20 color=black"),
        *("--second", "tarnsey bench-159-ar size=50 color=navy", "--second-rx", "OD -4.00 DS / OS -3.50 DS"),
        *("--change", "frame=120.00 the one from the window"),
    )
    page = visit(opened, f"{address}#{text_of(quote['link'])}")
    sums = [cell.inner_text() for cell in page.query_selector_all(".bill .sum td:nth-child(2)")]
    assert sums == [f"${pair['total_cents'] / 100:,.2f}" for one in quote["alternatives"] for pair in one["pairs"]]
    body = page.inner_text("main")
    assert "the one from the window (price list: $165.00)" in body
    assert QUOTE["changed"] in body
    assert "B: Today" not in body  # without a change nothing differs: shipping is paid once in the page as well
    for one in quote["alternatives"]:
        assert f"Both pairs: ${one['total_cents'] / 100:,.2f}" in body


def test_a_visitor_s_own_pick_is_an_estimate_behind_a_link(opened, address, browser):
    site = address.removesuffix("quote/index.html")
    page = opened(f"{site}frames/cottering/index.html#od=-6.25,-1.25,10&os=-5.75&pd=31,32&lens=bench-159-ar")
    page.wait_for_selector("#live-quote .share a[href*='quote%2Findex.html%23']")
    total = page.inner_text("#live-quote .sum td")
    link = page.evaluate(
        "new URLSearchParams(document.querySelector('#live-quote .share a').href.split('?')[1]).get('body')"
    ).split()[-1]
    page.evaluate("navigator.clipboard.writeText = async (text) => { globalThis.put = text; }")
    page.click("#live-quote .share button")
    becomes(lambda: page.evaluate("globalThis.put"), link)
    quote = visit(opened, link)
    assert status(quote) == STANDING["estimate"]
    assert quote.inner_text("h1") == QUOTE["title-estimate"]
    body = quote.inner_text("main")
    assert total in body
    assert QUOTE["same"] in body
    assert "−6.25 −1.25 × 010" in body
    assert len(link) - len(site) < 700


def test_the_estimate_of_the_page_is_the_record_that_python_makes(opened, address, shop):
    site = address.removesuffix("quote/index.html")
    page = opened(f"{site}frames/cottering/index.html#od=-6.25,-1.25,10&os=-5.75&pd=31,32&lens=bench-159-ar")
    page.wait_for_selector("#live-quote .share a[href*='quote%2Findex.html%23']")
    link = page.evaluate(
        "new URLSearchParams(document.querySelector('#live-quote .share a').href.split('?')[1]).get('body')"
    ).split()[-1]
    of_page, of_python = opened_here(link).quote, opened_here(issue(shop)["link"]).quote
    for name in ("frames", "lenses", "alternatives", "price_list", "currency", "region"):
        assert of_page[name] == of_python[name], name


def test_sharing_on_a_telephone(browser, address):
    context = browser.new_context(viewport={"width": 360, "height": 800})
    context.add_init_script("navigator.share = async (what) => { globalThis.shared = what; };")
    page = context.new_page()
    site = address.removesuffix("quote/index.html")
    page.goto(f"{site}frames/cottering/index.html#od=-6.25,-1.25,10&os=-5.75&pd=31,32&lens=bench-159-ar")
    page.wait_for_selector("#live-quote .share a[href*='quote%2Findex.html%23']")
    page.click("#live-quote .share button >> nth=0")
    becomes(lambda: "/quote/index.html#2u" in (page.evaluate("globalThis.shared?.url") or ""), True)
    context.close()


EVIL = [
    '<img src=x onerror="globalThis.hit=1">',
    "<script>globalThis.hit=1</script>",
    '"><svg onload=globalThis.hit=1>',
    "javascript:globalThis.hit=1",
    "{{constructor}}",
    "${globalThis.hit=1}",
    "__proto__",
    "constructor",
    "&lt;b&gt;",
    "{name}{frame}{lens}",
    "</textarea><iframe srcdoc='<script>parent.hit=1</script>'>",
    "\u2028globalThis.hit=1\u2029",
]
WORD_LIKE = ["__proto__", "constructor", "toString", "hasOwnProperty", "", "frame sun", "lens R", "a" * 20]


def mutant(seeded, quotes):
    """A fragment that may be anything: a good one, a damaged one, a well-formed one that says odd things."""
    how = seeded.randrange(8)
    quote = seeded.choice(quotes)
    if how == 0:  # signs changed, cut, doubled
        text = list(unsigned(quote))
        for _ in range(seeded.randint(1, 6)):
            at = seeded.randrange(len(text))
            text[at : at + seeded.randint(0, 3)] = seeded.choice(["", "A", "%00", "<", '"', "%3Cscript%3E", "é", "#"])
        return "".join(text)
    if how == 1:  # any signs at all
        signs = [*range(32, 127), *(seeded.randrange(0xA0, 0x2FFF) for _ in range(60))]
        return "".join(chr(seeded.choice(signs)) for _ in range(60))
    if how == 2:  # bytes of the compressed record
        body = bytearray(bared(SHAPE.fullmatch(unsigned(quote))["body"]))
        body[seeded.randrange(len(body))] = seeded.randrange(256)
        return armored(VERSION, seeded.choice("us"), bytes(body))
    value = packed(FORM, "quote", quote)
    places = list(leaves(value))
    for _ in range(seeded.randint(1, 5)):
        path = seeded.choice(places)
        try:
            old = at_path(value, path)
            value = changed_at(value, path, odd(seeded, old))
        except (IndexError, TypeError, KeyError):
            continue
    version = seeded.choice([1, 1, VERSION, VERSION, VERSION, VERSION, VERSION + 1])
    raw = json.dumps(value, separators=(",", ":"), ensure_ascii=False).encode("utf-8", "replace")
    return armored(version, "u", squeezed(version, raw))


def odd(seeded, old):
    """Something of the same kind most of the time, so that it gets past the form and into the page."""
    if isinstance(old, str):
        return seeded.choice([seeded.choice(EVIL), seeded.choice(WORD_LIKE), old + "<b>", old[:-1]])
    if isinstance(old, int):
        return seeded.choice([0, 1, -1, old + 1, old * 10, 9, 5000, 20000, -20000, 99999999, 20260230, 2.5, True])
    return seeded.choice([None, 0, "x", [], {}, [[]], 1000])


def test_nothing_in_a_fragment_runs_or_raises(opened, address):
    """5,600 mutated fragments: always one plain sentence or the quote, no script, no exception.

    In half of them the page takes every signature for good: only then are notes and reasons of a shop shown.
    """
    seeded = random.Random(20261125)
    page = visit(opened, address)
    granted = json.loads(json.dumps({**largest(), "note": EVIL[0]}))
    granted["alternatives"][0][0]["lines"][0] |= {"listed": 100, "reason": EVIL[1]}
    quotes = [plain(), ordinary(), tinted(), largest(), granted]
    shown_, told = 0, set(STANDING)
    for count in range(14):
        if count == 7:
            page.evaluate("bevelbook.standingOf = async () => 'held'")
        batch = [mutant(seeded, quotes) for _ in range(400)]
        answers = page.evaluate(
            """async (texts) => {
              const out = [];
              for (const text of texts) {
                history.replaceState(null, "", location.pathname + "#" + text);
                dispatchEvent(new HashChangeEvent("hashchange"));
                const key = await bevelbook.quoteShown;
                const status = document.getElementById("quote-status").textContent;
                const parts = document.getElementById("quote");
                const names = ["script", "img", "iframe", "object", "embed", "style", "[style]", "form", "link"];
                const odd = (node, name) => name.startsWith("on")
                  || (name === "href" && !node.getAttribute(name).startsWith("mailto:"));
                const bad = document.querySelectorAll(names.map((name) => `main ${name}`).join()).length
                  + [...document.querySelectorAll("main *")].filter((node) =>
                    node.getAttributeNames().some((name) => odd(node, name))).length;
                out.push([key, status, parts.childElementCount, bad, globalThis.hit ?? 0]);
              }
              return out;
            }""",
            batch,
        )
        for fragment, (key, sentence, parts, bad, hit) in zip(batch, answers, strict=True):
            assert key in told, fragment
            assert key != "fault", fragment
            assert sentence, fragment
            assert (bad, hit) == (0, 0), fragment
            assert (parts > 0) == (key in ("estimate", "held", "expired", "withdrawn", "unverified")), fragment
            shown_ += parts > 0
        assert shown_ > 35 * (count + 1), "too few get past the form to say much"
    print(f"{shown_} of 5600 fragments were shown as quotes")
    assert opened.wrong == []


def test_only_the_last_of_several_openings_is_shown(opened, address, shop):
    page = visit(opened, address)
    one, other_ = (text_of(issue(shop, customer=name)["link"]) for name in ("Ms. Marrable", "Mr. Quill"))
    page.evaluate(
        """async (texts) => {
          const all = texts.map((text) => {
            history.replaceState(null, "", location.pathname + "#" + text);
            dispatchEvent(new HashChangeEvent("hashchange"));
            return bevelbook.quoteShown;
          });
          await Promise.all(all);
        }""",
        [one, other_],
    )
    assert len(page.query_selector_all("#quote dl")) == 1
    assert page.inner_text("h1").endswith(opened_here(other_).quote["number"])


def test_the_page_asks_for_nothing_outside_its_folder_and_sends_nothing(opened, address, shop):
    visit(opened, f"{address}#{text_of(issue(shop)['link'])}")
    site = address.removesuffix("quote/index.html")
    assert opened.asked
    assert [asked for asked in opened.asked if not asked.startswith(site) or "?" in asked] == []
    assert all("2s" not in asked.removeprefix(site) for asked in opened.asked if not asked.startswith(address))


def test_without_script_the_page_says_what_it_would_need(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    assert "Scripts are switched off" in page.inner_text("main")
    context.close()
