"""A quote as one page to print."""

import base64
import hashlib
import re

import pytest
from bs4 import BeautifulSoup

from quoting.languages import speaking, tongue
from quoting.quoted.armor import address
from quoting.quoted.sealing import sealed
from quoting.show.seen import seen
from quoting.site.sheet_page import sheet_page
from tests.quoted.quotes import KEY, largest, offers, ordinary, plain


def page_of(quote, customer="Ms. Marrable"):
    link = address("https://ottersea.example.org", sealed(quote, KEY.id, KEY.sign))
    return sheet_page(seen(quote, offers().catalog.shop), customer, link)


@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_it_holds_all_that_the_quote_says(quote):
    page = BeautifulSoup(page_of(quote()), "html.parser")
    text = page.get_text(" ", strip=True)
    assert quote()["number"] in text
    assert "Ms. Marrable" in text
    one = seen(quote(), offers().catalog.shop)
    for alternative in one.alternatives:
        assert alternative.total in text
        for pair in alternative.pairs:
            for part in (*pair.rx, pair.lens, *pair.reasons, *(row.amount for row in pair.rows), *pair.estimates):
                assert " ".join(part.split()) in " ".join(text.split())
    for caution in one.cautions:
        assert caution in text
    assert len(page.find_all("svg")) == sum(len(pairs) for pairs in quote()["alternatives"]) + 1


def test_it_asks_for_nothing_and_runs_nothing():
    text = page_of(ordinary())
    assert "<script" not in text
    assert re.findall(r'\b(?:src|href)="', text) == []
    assert re.findall(r'\bstyle="', text) == []
    style = re.search(r"<style>(.*?)</style>", text, re.DOTALL)[1]
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    assert f"style-src 'sha256-{digest}'" in text
    assert "unsafe" not in text


def test_names_and_notes_are_never_markup():
    text = page_of({**plain(), "note": "<script>alert(1)</script>"}, '"><img src=x>')
    assert "<script" not in text
    assert "<img" not in text


def test_it_speaks_the_shop_s_language():
    with speaking(tongue("es_ES")):
        page = BeautifulSoup(page_of(plain()), "html.parser")
    assert page.html["lang"] == "es"
    assert page.h1.get_text() == f"Presupuesto {plain()['number']}"
