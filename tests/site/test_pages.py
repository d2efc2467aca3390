"""Every page of the demo site: links lead somewhere, nothing is from outside, nothing runs, everything has a name."""

import json
import re
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import PurePosixPath
from posixpath import normpath
from urllib.parse import unquote, urlsplit

import pytest

from quoting.catalog.load import load
from quoting.catalog.shop import Catalog
from quoting.offers import Choice, Offers
from quoting.places import shared
from quoting.show.amounts import day, mm, money
from quoting.show.terms import MOUNTINGS, VERDICTS
from tests.site.conftest import DAY

# HTML Living Standard, 13.1.2: elements without an end tag
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


@pytest.fixture(scope="session")
def catalog():
    found, _ = load(shared("demo_catalog"))
    assert isinstance(found, Catalog)
    return found


def targets(soup):
    for tag in soup.find_all(True):
        for name in ("href", "src", "srcset", "action", "poster", "data", "xlink:href"):
            if tag.get(name) is not None:
                yield tag, tag[name]


def test_every_link_is_relative_and_leads_to_a_file_and_an_anchor_of_this_site(demo, pages):
    ids = {page: {tag["id"] for tag in soup.find_all(id=True)} for page, soup in pages.items()}
    broken = []
    for page, soup in pages.items():
        for tag, target in targets(soup):
            parts = urlsplit(target)
            if tag.name == "a" and parts.scheme == "mailto":
                continue
            if tag.parent.get("class") == ["film"]:  # a film is on another site, and is said to be
                assert parts.scheme == "https"
                assert parts.hostname in tag.parent.small.get_text()
                continue
            if tag.get("rel") == ["canonical"]:  # the one address that must be whole
                assert target == f"https://ottersea.example.org/{page}"
                continue
            if page == "404.html" and target == "https://ottersea.example.org/index.html":
                continue  # a host shows this page at any address, from where a relative link leads astray
            if page == "404.html":
                assert target[0] == "#" or target.startswith("/"), target  # the demo's address has no folder
                target, parts = target.lstrip("/"), parts._replace(path=parts.path.lstrip("/"))
            path = normpath(str(PurePosixPath(page).parent / unquote(parts.path))) if parts.path else page
            there = not path.startswith("..") and (demo / path).is_file()
            anchored = not parts.fragment or unquote(parts.fragment) in ids.get(path, set())
            if parts.scheme or parts.netloc or target.startswith("/") or not there or not anchored:
                broken.append((page, target))
    assert broken == []


def test_every_page_is_reached_from_the_first(pages):
    reached, ahead = set(), ["index.html"]
    while ahead:
        page = ahead.pop()
        if page in reached or page not in pages:
            continue
        reached.add(page)
        links = (a["href"] for a in pages[page].find_all("a", href=True) if not urlsplit(a["href"]).scheme)
        ahead += [normpath(str(PurePosixPath(page).parent / urlsplit(link).path)) for link in links if link[0] != "#"]
    assert pages.keys() - reached == {"404.html", "quote/index.html"}  # one is led to by links that are sent


def test_there_is_a_page_for_everything(pages, catalog):
    wanted = {f"frames/{frame}/index.html" for frame in catalog.frames}
    wanted |= {f"lenses/{package}/index.html" for package in catalog.packages}
    wanted |= {"index.html", "404.html"}
    wanted |= {f"{kind}/index.html" for kind in ("frames", "lenses", "combinations", "guides")}
    assert wanted <= pages.keys()


def test_scripts_are_files_of_the_site_and_nothing_is_styled_in_the_page(pages):
    for page, soup in pages.items():
        assert soup.find_all(["style", "iframe", "object", "embed", "base"]) == [], page
        for script in soup.find_all("script"):
            if script.get("type") in ("application/json", "application/ld+json"):
                assert json.loads(script.get_text())
            else:
                assert script["src"].startswith(("theme/js/", "data/", "./", "../", "/"))
                assert script.get_text() == ""
        for form in soup.find_all("form"):
            assert form.get("action") is None, page
            assert form["class"][0] in ("rx", "find"), page  # which the sheet shows only where scripts run
        for tag in soup.find_all(True):
            assert [name for name in tag.attrs if name == "style" or name.startswith("on")] == [], (page, tag.name)


def test_the_policy_forbids_everything_but_our_own_scripts_style_and_pictures(pages):
    for page, soup in pages.items():
        policy = soup.find("meta", attrs={"http-equiv": "Content-Security-Policy"})["content"]
        rules = {rule.split()[0]: rule.split()[1:] for rule in policy.split(";")}
        assert rules["default-src"] == ["'none'"], page
        assert rules["style-src"] == ["'self'"]
        assert rules["script-src"] == ["'self'"]
        assert rules["form-action"] == ["'none'"]
        assert rules["connect-src"] == ["https://ottersea.example.org/robots.txt"]  # and nothing else, not even here
        assert soup.find("meta", attrs={"name": "referrer"})["content"] == "no-referrer"


def test_style_sheets_load_nothing_from_anywhere(demo):
    for sheet in demo.rglob("*.css"):
        text = sheet.read_text(encoding="utf-8")
        assert "url(" not in text
        assert "@import" not in text
        assert "!important" not in text


def test_colors_stand_only_in_the_tokens():
    for sheet in (shared("theme") / "static" / "css").glob("*.css"):
        if sheet.name != "tokens.css":
            assert not re.search(r"#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(", sheet.read_text(encoding="utf-8")), sheet.name


def test_each_page_has_one_main_one_h1_and_its_landmarks(pages):
    for page, soup in pages.items():
        assert soup.html["lang"] == "en", page
        assert [len(soup.find_all(name)) for name in ("h1", "main", "header", "footer", "nav")] == [1] * 5, page
        assert soup.nav["aria-label"]
        assert soup.h1.get_text(strip=True)
        first = soup.body.find("a")
        assert (first["class"], first["href"]) == (["skip"], f"#{soup.main['id']}")


def test_titles_and_descriptions_tell_pages_apart(pages):
    titles = [soup.title.get_text(strip=True) for soup in pages.values()]
    assert all(titles)
    assert len(set(titles)) == len(titles)
    for soup in pages.values():
        assert soup.find("meta", attrs={"name": "description"})["content"]
        for name in ("og:title", "og:description", "og:type"):
            assert soup.find("meta", property=name)["content"]


def test_ids_are_there_once_and_labels_point_to_them(pages):
    for page, soup in pages.items():
        ids = [tag["id"] for tag in soup.find_all(id=True)]
        assert len(ids) == len(set(ids)), page
        labels = [
            name for tag in soup.find_all(attrs={"aria-labelledby": True}) for name in tag["aria-labelledby"].split()
        ]
        assert set(labels) <= set(ids), page


def test_headings_do_not_jump(pages):
    for page, soup in pages.items():
        levels = [int(tag.name[1]) for tag in soup.find_all(re.compile("^h[1-6]$"))]
        jumps = [(a, b) for a, b in pairwise(levels) if b > a + 1]
        assert jumps == [], page


def test_drawings_and_pictures_have_names(pages):
    for page, soup in pages.items():
        for drawing in soup.find_all("svg"):
            assert drawing["role"] == "img", page
            assert drawing["aria-label"].strip(), page
        assert all(picture.get("alt") is not None for picture in soup.find_all("img")), page


def test_tables_have_headers_with_scope(pages):
    for page, soup in pages.items():
        for table in soup.find_all("table"):
            assert all(cell.get("scope") for cell in table.find_all("th")), page
            assert table.thead.find("th", scope="col"), page
            for row in table.select("tbody tr"):
                assert row.find("th") or table.find_parent(class_="prose"), page  # Markdown has no heads of rows


def test_what_scrolls_can_be_reached_and_has_a_name(pages):
    for page, soup in pages.items():
        for region in soup.select(".scroll"):
            assert (region["role"], region["tabindex"]) == ("region", "0"), page
            assert region.get("aria-label") or region.get("aria-labelledby"), page


class Balance(HTMLParser):
    """Whether every element that is opened is closed in its place."""

    def __init__(self):
        super().__init__()
        self.open, self.faults = [], []

    def handle_starttag(self, tag, attrs):
        if tag not in VOID:
            self.open.append(tag)
        if len(attrs) != len({name for name, _ in attrs}):
            self.faults.append(f"<{tag}> has an attribute twice")

    def handle_startendtag(self, tag, attrs):
        """Only in drawings."""

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> at {self.getpos()}")


def test_everything_that_is_opened_is_closed(demo, pages):
    for page in pages:
        balance = Balance()
        balance.feed((demo / page).read_text(encoding="utf-8"))
        assert (balance.open, balance.faults) == ([], []), page


def test_a_verdict_is_a_sign_and_a_word(pages):
    for page, soup in pages.items():
        for cell in soup.select(".board td"):
            assert cell.select_one(".mark[aria-hidden=true]").get_text(), page
            assert cell.select_one(".sr").get_text() == f"{VERDICTS[cell['class'][0]]}: "


@pytest.mark.parametrize("frame", ["cottering", "ossgill", "padstrow"])
def test_each_cell_of_a_board_says_what_the_engine_says(pages, catalog, frame):
    """At the strongest power price and thickness, and the verdict of both ends of the column."""
    offers, shop, soup = Offers(catalog, DAY), catalog.shop, pages[f"frames/{frame}/index.html"]
    chosen, seen = catalog.frames[frame], set()
    for size in chosen.sizes:
        for package in catalog.packages.values():
            cells = soup.find(id=f"{size.key}-{package.id}").find_all("td")
            choice = Choice(chosen, size, chosen.colorways[0], package)
            for cell, band in zip(cells, shop.bands, strict=True):
                offer, other = offers.cell(choice, band), offers.at(choice, band.other)
                verdicts = offer.fit["verdict"], other.fit["verdict"]
                told = cell["class"][0]
                assert (told == "no") == (verdicts[0] == "no")
                assert (told == "fits") <= (verdicts == ("fits", "fits"))
                assert bool(cell.select_one(".why")) == (told != "fits")
                assert cell.get("title") is None
                if told == "no":
                    assert cell.select_one(".price") is None
                else:
                    price = money(offer.lenses_cents, shop.currency, shop.locale)
                    assert cell.select_one(".price").get_text() == price
                    assert cell.select_one(".edge").get_text().startswith(f"edge {mm(offer.thickest)}")
                    assert any(note.get_text().startswith("not at") for note in cell.select(".why")) >= (
                        "no" in verdicts
                    )
                seen.add((told, *verdicts))
    assert {one[0] for one in seen} >= {"no", "caution"}


def test_each_short_reason_on_a_page_is_explained_once_below_its_boards(pages, catalog):
    for frame in catalog.frames:
        soup = pages[f"frames/{frame}/index.html"]
        (list_,) = soup.select("details.meanings")
        assert not list_.has_attr("open")
        assert list_.summary.get_text(strip=True) == "What the short reasons mean"
        assert soup.select("table.board")[-1].find_next("details") is list_
        shorts = [term.get_text() for term in list_.find_all("dt")]
        assert len(shorts) == len(set(shorts)) == len(list_.find_all("dd"))
        patterns = [
            re.escape(short).replace("…", ".+").replace("steeper\\ or\\ flatter", "(steeper|flatter)")
            for short in shorts
        ]
        notes = {note.get_text().replace("weaker may fit", "it may fit") for note in soup.select(".board .why")}
        for note in notes:
            assert any(re.fullmatch(pattern, note) for pattern in patterns), note
        for pattern in patterns:
            assert any(re.search(pattern, note) for note in notes), pattern


def test_each_board_can_be_passed(pages, catalog):
    for frame in catalog.frames.values():
        soup = pages[f"frames/{frame.id}/index.html"]
        for size in frame.sizes:
            link = soup.find("a", href=f"#past-{size.key}")
            assert link.get_text() == "Past this table"
            assert link.find_next_sibling()["class"][0] == "scroll"
            target = soup.find(id=f"past-{size.key}")
            assert target["tabindex"] == "-1"
            assert target.find_previous_sibling() is link.find_parent("details")


def test_mountings_are_named_as_people_say_them(pages, catalog):
    for frame in catalog.frames.values():
        facts = pages[f"frames/{frame.id}/index.html"].select_one("dl.facts")
        assert facts.find("dt", string="Mounting").find_next("dd").get_text() == MOUNTINGS[frame.mounting]
    for page, soup in pages.items():
        assert not re.search(r"full rim (plastic|metal)|semi rimless|full-rim-|, drilled,", soup.get_text()), page


def test_sentences_are_kept_apart(pages):
    for page, soup in pages.items():
        for paragraph in soup.find_all("p"):
            assert not re.search(r"[a-z][.;:][A-Z]", paragraph.get_text()), (page, paragraph.get_text())


def test_boards_have_a_group_a_design_and_a_column_a_band(pages, catalog):
    designs = {package.design.id for package in catalog.packages.values()}
    for frame in catalog.frames.values():
        boards = pages[f"frames/{frame.id}/index.html"].select("table.board")
        assert len(boards) == len(frame.sizes)
        for board in boards:
            assert board.caption.get_text(strip=True)
            assert len(board.find_all("tbody")) == len(designs)
            assert all(body.find("th", scope="rowgroup") for body in board.find_all("tbody"))
            assert len(board.thead.find_all("th", scope="col")) == 1 + len(catalog.shop.bands)


def test_the_first_size_is_open(pages, catalog):
    for frame in catalog.frames.values():
        boards = pages[f"frames/{frame.id}/index.html"].select("details.size-board")
        assert [one.has_attr("open") for one in boards] == [True] + [False] * (len(frame.sizes) - 1)


def test_lens_pages_and_boards_agree_on_what_fits(pages, catalog):
    for package in catalog.packages:
        told = {
            (PurePosixPath(urlsplit(a["href"]).path).parent.name, urlsplit(a["href"]).fragment)
            for a in pages[f"lenses/{package}/index.html"].select("#takers ~ ul a")
        }
        drawn = {
            (frame.id, f"{size.key}-{package}")
            for frame in catalog.frames.values()
            for size in frame.sizes
            if pages[f"frames/{frame.id}/index.html"]
            .find(id=f"{size.key}-{package}")
            .select("td.fits, td.caution, td.partly")
        }
        assert told == drawn


def test_every_frame_page_carries_the_cautions_day_and_price_list(pages, catalog):
    """What is said everywhere stands where it is seen; what is about one lens is for paper and for that lens alone."""
    everywhere, about = catalog.shop.cautions, catalog.shop.cautions_for
    assert everywhere
    for frame in catalog.frames:
        main = pages[f"frames/{frame}/index.html"].main
        paper = " ".join(main.select_one("section.on-paper").get_text(" ").split())
        text = " ".join(main.get_text(" ").split()).replace(paper, "")
        for caution in everywhere:
            assert caution in text
            assert caution in paper
        for caution in (sentence for sentences in about.values() for sentence in sentences):
            assert caution not in text
            assert caution in paper
        assert day(DAY) in text
        assert f"price list {catalog.price_list.version}" in text


def test_a_frames_page_says_of_each_colorway_in_which_version_it_is_sold(pages):
    """Without script, too: where the lenses of a sun version go, and what the other version costs."""
    cards = pages["frames/garrowe/index.html"].select("section[aria-labelledby=colors] .card")
    said = [" ".join(card.select_one("p").get_text(" ", strip=True).split()) for card in cards]
    parcel = "your lenses go into it; its original lenses come in the parcel."
    assert [card.h3.get_text() for card in cards] == ["Gold", "Gold, sun version", "Bronze, sun version"]
    assert said == [
        "Optical version. The sun version of Gold costs $184.00 without lenses.",
        f"Gold is the sun version: {parcel} The optical version of Gold costs $172.00 without lenses. "
        "Its sun lenses are drawn as they look: Deep sea, 18.4 % of the light at the top, 64.3 % at the bottom, "
        "filter category 2 in the middle.",
        f"Bronze is sold as a sun version only: {parcel} Its sun lenses are drawn as they look: "
        "Harbor brown under the mirror Ember, 19.6 % of the light, filter category 2.",
    ]
