"""What there is for a browser without script: a form to print, and a letter with a line for all that is asked."""

from dataclasses import replace
from urllib.parse import unquote, urlsplit

from quoting.catalog.load import load
from quoting.places import shared
from quoting.site.paper_form import OF_EYE, OF_ORDER, form_letter
from tests.site.conftest import DAY

SHOP = load(shared("demo_catalog"), DAY)[0]


def lines_of(address):
    """The lines of a letter (RFC 6068, 5: lines end with %0D%0A, and a plus is a plus)."""
    parts = urlsplit(address)
    assert (parts.scheme, parts.path) == ("mailto", "bench@ottersea.example.org")
    fields = dict(one.split("=", 1) for one in parts.query.split("&"))
    assert fields.keys() == {"subject", "body"}
    return unquote(fields["body"]).split("\r\n")


def test_a_frame_page_leads_to_the_form_and_to_a_letter_about_this_frame(demo, pages):
    for name, frame in SHOP.frames.items():
        page = pages[f"frames/{name}/index.html"]
        form, letter = (link["href"] for link in page.select("#lenses ~ noscript a"))
        assert (demo / f"frames/{name}" / form).resolve() == (demo / "form/index.html").resolve()
        assert lines_of(letter)[0] == f"Frame: {frame.maker} {frame.name}"


def test_form_and_letter_ask_for_what_the_panel_and_the_board_ask(pages):
    form = pages["form/index.html"]
    heads = [one.get_text() for one in form.select("table.blank thead th")]
    panel = [one.get_text() for one in pages["frames/cottering/index.html"].select("#rx .rx-head")[1:]]
    assert set(panel) < set(heads)
    assert set(heads) - set(panel) == {"Prism"}
    lines = lines_of(form.select_one("main .away a")["href"])
    for eye in ("Right eye", "Left eye"):
        at = lines.index(eye)
        assert [line.removesuffix(": ") for line in lines[at + 1 : at + 1 + len(OF_EYE)]] == heads
    asked = [one.get_text() for one in form.select("dl.ruled dt")]
    assert len(asked) == len(OF_ORDER)
    assert [line.partition(":")[0] for line in lines[: len(asked)]] == asked


def test_no_name_of_a_frame_ends_the_letter_or_adds_to_it():
    frame = replace(SHOP.frames["cottering"], maker="A & B", name="x&bcc=y?#+%41")
    assert lines_of(form_letter(SHOP.shop, frame))[:2] == ["Frame: A & B x&bcc=y?#+%41", "Size: "]
