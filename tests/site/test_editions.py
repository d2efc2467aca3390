"""A site in two languages: each whole, both linked, and nothing of one in the other."""

import re
from urllib.parse import urlsplit

import pytest
from click.testing import CliRunner

from quoting.cli import main
from quoting.findings import errors
from quoting.kernel import quote
from quoting.languages import languages, tongue
from tests.site.conftest import COMBINATION

LOCALE = "  locale: en_US\n"


@pytest.fixture
def bilingual(rewrite, article, built):
    """The small shop in English and Spanish, with prose in both."""
    rewrite("shop.yaml", LOCALE, f"{LOCALE}  languages: [en, es]\n  url: https://corner.example.org/shop\n")
    article("guides/measuring.md", Title="Measuring")
    article("guides/medir.md", Title="Cómo medir", Lang="es", Slug="measuring")
    article("guides/solo.md", Title="Solo en español", Lang="es-MX", Slug="solo")
    article("pages/about.md", Title="About")
    article("pages/sobre.md", Title="Sobre la tienda", Lang="es", Slug="about")
    article("combinations/plain.md", Title="Plain", **COMBINATION)
    return built()


def leads(page, link):
    """Where a link of a page leads, within the site."""
    path = urlsplit(link).path
    parts = [] if path.startswith("/shop/") else page.split("/")[:-1]
    for part in path.removeprefix("/shop/").split("/"):
        if part == "..":
            parts.pop()
        elif part != ".":
            parts.append(part)
    return "/".join(parts)


def test_each_language_is_a_whole_site(bilingual, tmp_path):
    result, pages = bilingual
    assert [finding for finding in result.findings if finding.severity != "note"] == []
    spanish = {name.removeprefix("es/") for name in pages if name.startswith("es/")}
    english = {name for name in pages if not name.startswith("es/")}
    assert english - spanish == {"combinations/plain/index.html"}
    assert spanish - english == {"guides/solo/index.html"}
    for name, page in pages.items():
        assert page.html["lang"] == ("es" if name.startswith("es/") else "en")
    for part in ("theme/css/site.css", "theme/js/site.js", "data/shop.js", "data/engine.js", "data/frames.js"):
        assert (tmp_path / "site" / "es" / part).is_file()


def test_the_owner_says_texts_in_the_other_language_or_leaves_them(rewrite, corner, built):
    rewrite("shop.yaml", LOCALE, f"{LOCALE}  languages: [en, es]\n")
    (corner / "languages").mkdir()
    said = "texts:\n  - {text: 'Two frames, three lenses', say: Dos y tres}\n  - {text: Slate, say: Pizarra}\n"
    (corner / "languages" / "es.yaml").write_text(said, encoding="utf-8")
    pages = built()[1]
    assert pages["index.html"].h1.get_text() == "Two frames, three lenses"
    assert pages["es/index.html"].h1.get_text() == "Dos y tres"
    assert "Pizarra" in pages["es/frames/alder/index.html"].main.get_text()
    assert "Pizarra" not in pages["frames/alder/index.html"].get_text()
    assert pages["es/index.html"].select_one(".name").get_text() == "Corner Opticians"


def test_sizes_are_written_as_the_locale_has_it_where_people_read_them(rewrite, article, built, tmp_path):
    """Addresses, files, places in a page and what is for machines have a point in every language."""
    rewrite("shop.yaml", LOCALE, "  locale: es_ES\n")
    size = "      - {a: 50.5, b: 36, dbl: 18, ed: 55, temple: 140}\n"
    rewrite("frames/bolderwood.yaml", "      - {a: 52, b: 36,", f"{size}      - {{a: 52, b: 36,")
    article("combinations/one.md", Title="Una", **COMBINATION | {"Size": "50.5-18"})
    pages, site = built()[1], tmp_path / "site"
    frame, written = pages["frames/alder/index.html"], "50,5□18 140"
    assert frame.select_one('a[href="50.5-18.svg"]').get_text() == written
    assert frame.find(id="board-50.5-18").get_text() == f"Tamaño {written}"
    assert "50.5□18 140" in frame.select_one('script[type="application/ld+json"]').string
    assert f'"key":"50.5-18","label":"{written}"' in (site / "data/frames.js").read_text(encoding="utf-8")
    assert (site / "frames/alder/50.5-18.svg").is_file()
    shown = ("frames/alder", "frames", "lenses/thin-160", "combinations/una")
    for page in (pages[f"{name}/index.html"].body for name in shown):
        assert written in page.get_text()
        told = [one for one in page.find_all(string=True) if one.parent.name != "script"]
        told += [one["aria-label"] for one in page.select("[aria-label]")]
        assert [one for one in told if "50.5□" in one] == []


def test_prose_is_in_the_language_it_is_written_in(bilingual):
    pages = bilingual[1]
    assert pages["guides/measuring/index.html"].h1.get_text() == "Measuring"
    assert pages["es/guides/measuring/index.html"].h1.get_text() == "Cómo medir"
    assert "Solo" not in pages["guides/index.html"].get_text()


def test_each_page_leads_to_the_same_page_in_the_other_language(bilingual):
    """Or to the first one, where it has no other of its kind; none leads nowhere."""
    pages = bilingual[1]
    for name, page in pages.items():
        link = page.select_one(".tongues a")
        inner, there = (name.removeprefix("es/"), "") if name.startswith("es/") else (name, "es/")
        shared = inner.startswith(("frames/", "lenses/", "quote/", "guides/index", "guides/measuring/", "about/"))
        target = leads(name, link["href"])
        assert target == there + (inner if shared else "index.html")
        assert target in pages
        assert (link["lang"], link.get_text()) == (("es", "Español") if there else ("en", "English"))


def test_search_engines_are_told_of_both_and_each_names_itself(bilingual):
    """hreflang, as published by Google: every version names every version, itself too, by whole addresses."""
    pages = bilingual[1]
    root = "https://corner.example.org/shop/"
    shared = ["index.html", "frames/index.html", "frames/alder/index.html", "lenses/thin-160/index.html"]
    for name in (*shared, "guides/index.html", "guides/measuring/index.html", "about/index.html"):
        both = {"en": root + name, "es": f"{root}es/{name}"}
        for here in (name, f"es/{name}"):
            found = {one["hreflang"]: one["href"] for one in pages[here].select('link[rel="alternate"][hreflang]')}
            assert found == both
            assert pages[here].select_one('link[rel="canonical"]')["href"] == root + here
    for alone in ("es/guides/solo/index.html", "combinations/plain/index.html", "combinations/index.html"):
        assert pages[alone].select('link[rel="alternate"][hreflang]') == []


def test_one_sitemap_tells_of_all_pages(bilingual, tmp_path):
    pages = bilingual[1]
    text = (tmp_path / "site" / "sitemap.xml").read_text(encoding="utf-8")
    told = re.findall(r"<loc>https://corner\.example\.org/shop/([^<]*)</loc>", text)
    assert set(told) == {name for name in pages if not name.endswith(("404.html", "quote/index.html"))}
    assert not (tmp_path / "site" / "es" / "robots.txt").exists()


def test_a_shop_of_one_language_has_no_switch(built):
    pages = built()[1]
    assert all(page.select(".tongues") == page.select("[hreflang]") == [] for page in pages.values())


@pytest.mark.parametrize(("locale", "language", "price"), [("es_MX", "es", "USD"), ("de_DE", "en", "\xa0")])
def test_a_shop_speaks_the_language_of_its_locale_or_english(rewrite, built, locale, language, price):
    """German has no catalog; its amounts are written as Germany writes them all the same."""
    rewrite("shop.yaml", LOCALE, f"  locale: {locale}\n")
    pages = built()[1]
    assert pages["index.html"].html["lang"] == language
    assert price in pages["frames/alder/index.html"].select_one(".price").get_text()


def test_a_page_may_not_stand_in_the_place_of_a_language(rewrite, article, built):
    rewrite("shop.yaml", LOCALE, f"{LOCALE}  languages: [en, es]\n")
    article("pages/es.md", Title="Es", Slug="es", Date="")
    found = errors(built()[0].findings)
    assert [finding.code for finding in found] == ["same-place"]


def test_prose_that_no_edition_has_is_told(article, built):
    article("guides/fr.md", Title="Mesurer", Lang="fr")
    article("guides/gb.md", Title="Measuring at home", Lang="en-GB")
    result, pages = built()
    assert [finding.code for finding in result.findings if finding.severity == "warning"] == ["prose-language"]
    assert "guides/measuring-at-home/index.html" in pages
    assert "guides/mesurer/index.html" not in pages


def test_the_engine_is_not_asked_again_for_the_second_language(rewrite, built, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    count = []
    original = quote.shared_reasons
    monkeypatch.setattr(quote, "shared_reasons", lambda *job: count.append(1) or original(*job))
    built()
    alone = len(count)
    assert alone
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "another"))
    rewrite("shop.yaml", LOCALE, f"{LOCALE}  languages: [en, es]\n")
    built()
    assert len(count) - alone < alone * 1.1


def test_every_language_there_is_builds(rewrite, built):
    for name in languages()[1:]:
        rewrite("shop.yaml", LOCALE, f"{LOCALE}  languages: [{name}]\n")
        result, pages = built()
        assert errors(result.findings) == []
        assert pages["index.html"].html["lang"] == tongue("en_US", name).language
        rewrite("shop.yaml", f"  languages: [{name}]\n", "")


def test_a_quote_in_a_language_leads_to_the_pages_in_it(rewrite, corner):
    rewrite("shop.yaml", LOCALE, f"{LOCALE}  languages: [en, es]\n  url: https://corner.example.org\n")
    words = ["quote", "alder", "thin-160", "--shop", str(corner), "--color", "slate", "--on", "2026-06-01"]
    words += ["--rx", "OD -2.00 DS / OS -2.25 DS"]
    said = {name: CliRunner().invoke(main, [*words, "--language", name]).stdout for name in ("en", "es")}
    assert "Page: https://corner.example.org/frames/alder/index.html#" in said["en"]
    assert "Página: https://corner.example.org/es/frames/alder/index.html#" in said["es"]
    numbers = {re.search(r"(?:quote|presupuesto) (\S+)", text)[1] for text in said.values()}
    assert len(numbers) == 1
