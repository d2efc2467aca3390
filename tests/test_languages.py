"""A language is a file: it is found by its name, and what it does not say is said in English."""

import shutil
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting import languages
from quoting.findings import errors
from quoting.languages import _, by_number, decimals, forms, in_context, in_order, language_of, speaking, tongue
from quoting.site.build import build

CORNER = Path(__file__).parent / "shops" / "corner"
HEAD = """msgid ""
msgstr ""
"Language: {language}\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: {plurals}\\n"
"""
FRENCH = (
    HEAD.format(language="fr", plurals="nplurals=2; plural=(n > 1);")
    + """
msgid "Frames"
msgstr "Montures"

msgid "%(count)s colorway"
msgid_plural "%(count)s colorways"
msgstr[0] "%(count)s coloris"
msgstr[1] "%(count)s coloris au choix"

msgctxt "a lens"
msgid "clear"
msgstr "blanc"

#, fuzzy
msgid "Lenses"
msgstr "Peut-être des verres"
"""
)
# CLDR plural rules and the manual of GNU gettext, "Plural forms" (from memory): one, few, many
POLISH = (
    HEAD.format(
        language="pl", plurals="nplurals=3; plural=(n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2);"
    )
    + """
msgid "{n} frame"
msgid_plural "{n} frames"
msgstr[0] "{n} oprawka"
msgstr[1] "{n} oprawki"
msgstr[2] "{n} oprawek"
"""
)


@pytest.fixture
def written(tmp_path, monkeypatch):
    """A folder of catalogs beside ours, with French and Polish ones that say little."""
    folder = tmp_path / "languages"
    shutil.copytree(languages.folder(), folder)
    (folder / "fr.po").write_text(FRENCH, encoding="utf-8")
    (folder / "pl.po").write_text(POLISH, encoding="utf-8")
    monkeypatch.setattr(languages, "folder", lambda: folder)
    tongue.cache_clear()
    yield folder
    tongue.cache_clear()


def test_a_file_more_is_a_language_more(written):
    assert languages.languages() == ("en", "es", "fr", "pl")
    assert (language_of("fr_CA"), language_of("pl_PL"), language_of("de_AT")) == ("fr", "pl", "en")


def test_what_a_catalog_does_not_say_or_is_not_sure_of_is_said_in_english(written):
    with speaking(tongue("fr_FR")):
        assert _("Frames") == "Montures"
        assert _("Lenses") == "Lenses"
        assert _("Sizes") == "Sizes"
        assert (_(in_context("a lens", "clear")), _(in_context("glass", "clear")), _("clear")) == (
            "blanc",
            "clear",
            "clear",
        )
        assert _("") == ""
    assert _("Frames") == "Frames"


@pytest.mark.parametrize(
    ("count", "said"), [(1, "oprawka"), (2, "oprawki"), (5, "oprawek"), (12, "oprawek"), (22, "oprawki")]
)
def test_plurals_are_those_of_the_catalog(written, count, said):
    with speaking(tongue("pl_PL")):
        assert languages.ngettext("{n} frame", "{n} frames", count) == f"{{n}} {said}"


def test_a_script_gets_every_form_by_its_name(written):
    with speaking(tongue("pl_PL")):
        found = forms(by_number("n", "{n} frame", "{n} frames"))
    assert found == {"by": "n", "one": "{n} oprawka", "few": "{n} oprawki", "many": "{n} oprawek"}


def test_a_site_is_built_in_it(written, tmp_path):
    shop = Path(shutil.copytree(CORNER, tmp_path / "shop"))
    text = (shop / "shop.yaml").read_text(encoding="utf-8")
    (shop / "shop.yaml").write_text(text.replace("locale: en_US", "locale: fr_FR"), encoding="utf-8")
    assert errors(build(shop, tmp_path / "site", date(2026, 6, 1)).findings) == []
    page = BeautifulSoup((tmp_path / "site" / "index.html").read_text(encoding="utf-8"), "html.parser")
    assert page.html["lang"] == "fr"
    assert page.select_one("nav a").get_text() == "Montures"
    assert "coloris" in page.select_one(".card").get_text()


@pytest.mark.parametrize("damage", ["msgid broken", "words"])
def test_a_damaged_catalog_is_a_fault_of_the_install_and_is_told(written, damage):
    (written / "fr.po").write_text(f"{FRENCH}\n{damage}\n", encoding="utf-8")
    with pytest.raises(ValueError, match=r"fr\.po"):
        tongue("fr_FR")


def test_names_sort_as_a_dictionary_of_the_language_sorts_them():
    """Spanish has ñ behind n (Real Academia Española; since 2010 no ch and ll); an accent makes no other letter."""
    names = ["Zeta", "Ñu", "Nube", "ángel", "Alba", "Oro", "3 Soles", "Müller"]
    with speaking(tongue("es_ES")):
        assert sorted(names, key=in_order) == ["3 Soles", "Alba", "ángel", "Müller", "Nube", "Ñu", "Oro", "Zeta"]
    assert sorted(["Ñu", "Nz", "Na"], key=in_order) == ["Na", "Ñu", "Nz"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("5.04", "5,04"),
        ("0.25 D, 0.125.", "0,25 D, 0,125."),
        ("price list 2026-09.", "price list 2026-09."),
        ("v. 1", "v. 1"),
    ],
)
def test_decimal_points_become_commas_and_full_stops_do_not(text, said):
    with speaking(tongue("es_ES")):
        assert decimals(text) == said
    assert decimals(text) == text


def test_nobody_speaks_a_language_longer_than_asked():
    with speaking(tongue("es_ES")):
        with speaking(tongue("es_MX")):
            assert languages.spoken().locale == "es_MX"
        assert languages.spoken().locale == "es_ES"
    assert languages.spoken().language == "en"
    assert languages.spoken_locale("de_DE") == "de_DE"
