"""Every catalog says everything, and says it with the same values and the same markup."""

import re
from datetime import date

import pytest
from babel import Locale
from babel.messages.pofile import read_po

from quoting.languages import SOURCE, _, folder, forms, languages, speaking, tongue
from quoting.locales import locale_in, plural_samples
from quoting.show import amounts
from quoting.show.page_words import PAGE
from quoting.show.reasons import WORDS
from tests.languages.texts import all_texts
from tests.languages.update import updated

CATALOGS = sorted(folder().glob("*.po"))
TEXTS = all_texts()
VALUE = re.compile(r"%\(\w+\)s|\{\w+\}")
TAG = re.compile(r"<[^<>]+>")


def read(path):
    with path.open("rb") as file:
        return read_po(file, abort_invalid=True)


def messages(path):
    """Each message with its translations."""
    for message in read(path):
        if message.id:
            yield message, list(message.string) if message.pluralizable else [message.string]


@pytest.fixture(params=CATALOGS, ids=lambda path: path.stem)
def catalog(request):
    return request.param


def test_spanish_is_there():
    assert "es" in languages()
    assert languages()[0] == SOURCE == "en"


def test_a_catalog_has_all_texts_and_no_other(catalog):
    """What is missing here comes in by `python -m tests.languages.update`, and is then yours to translate."""
    here = {(one.context or "", one.id[0] if one.pluralizable else one.id) for one, _said in messages(catalog)}
    assert here ^ set(TEXTS) == set()
    assert updated(catalog) == catalog.read_bytes()
    assert read(catalog).obsolete == {}


def test_every_text_is_translated_and_none_is_doubtful(catalog):
    assert [one.id for one, said in messages(catalog) if not all(said)] == []
    assert [one.id for one, _said in messages(catalog) if one.fuzzy] == []


def test_plurals_have_as_many_forms_as_the_language(catalog):
    head = read(catalog)
    for one, said in messages(catalog):
        assert len(said) == (head.num_plurals if one.pluralizable else 1), one.id


def test_the_plural_rule_of_a_catalog_tells_apart_what_cldr_does(catalog):
    """CLDR plural rules, by Babel: numbers of one kind have one form, numbers of two kinds two."""
    rule = Locale.parse(catalog.stem).plural_form
    texts = tongue(locale_in(catalog.stem, "en_US"), catalog.stem).texts
    found = {(rule(number), texts.plural(number)) for number in range(1001)}
    assert len(found) == len({kind for kind, _form in found}) == len({form for _kind, form in found})


def test_translations_hold_the_values_of_their_texts(catalog):
    for one, said in messages(catalog):
        wanted = set(VALUE.findall(one.id[-1] if one.pluralizable else one.id))
        for text in said:
            assert set(VALUE.findall(text)) == wanted, one.id


def test_translations_hold_the_markup_of_their_texts_and_no_other(catalog):
    """And no quotation mark that would end an attribute: they stand in titles and labels, too."""
    for one, said in messages(catalog):
        wanted = sorted(TAG.findall(one.id[-1] if one.pluralizable else one.id))
        for text in said:
            assert sorted(TAG.findall(text)) == wanted, one.id
            plain = TAG.sub("", text)
            assert '"' not in plain, one.id
            assert "<" not in plain.replace("<{", ""), one.id  # "takes <5": a lesser number
            assert "&" not in plain, one.id


def test_translations_end_as_their_texts_do(catalog):
    """Blanks at both ends join words; a full stop more or less would be doubled or missing on the page."""
    for one, said in messages(catalog):
        wanted = one.id[-1] if one.pluralizable else one.id
        for text in said:
            assert [text[0] == " ", text[-1] == " "] == [wanted[0] == " ", wanted[-1] == " "], one.id
            if len(wanted) > 3:
                assert (text[-1] in ".?") == (wanted[-1] in ".?") or wanted == "prism", (one.id, text)


def test_numbers_in_texts_have_a_decimal_point_and_pages_that_of_the_locale(catalog):
    for one, said in messages(catalog):
        assert not any(re.search(r"[0-9],[0-9]", text) for text in said), one.id


def test_sentences_about_one_eye_begin_with_a_word_that_may_stand_behind_a_colon():
    """Their first letter becomes a small one there, which an abbreviation would not bear."""

    for name in languages():
        with speaking(tongue("en_US", name)):
            for words in WORDS.values():
                for text in (_(words.customer), _(words.exact)):
                    assert not re.match(r"[A-Z]{2}", text), text


@pytest.mark.parametrize(("name", "kinds"), [("en", {"one", "other"}), ("es", {"one", "other"})])
def test_words_of_scripts_come_in_all_forms_of_the_language(name, kinds):
    with speaking(tongue("en_US", name)):
        assert set(forms(PAGE["board-status"])) == {"by", *kinds}


# CLDR plural rules (from memory): Polish has one for 1, few for 2 to 4 but 12 to 14, many for the rest.
def test_numbers_of_each_kind_are_found():
    assert plural_samples("pl_PL") == {"one": 1, "few": 2, "many": 0}
    assert plural_samples("ja_JP") == {"other": 0}


@pytest.mark.parametrize(
    ("locale", "language", "decimal", "day"),
    [
        ("en_US", "", ".", "Nov 25, 2026"),
        ("es_ES", "", ",", "25 nov 2026"),
        ("es_MX", "", ".", "25 nov 2026"),  # CLDR: Mexico writes a point
        ("en_US", "es", ".", "25 nov 2026"),  # and so do Spanish speakers in the United States
        ("es_ES", "en", ",", "25 Nov 2026"),
    ],
)
def test_numbers_and_days_follow_the_country(locale, language, decimal, day):

    with speaking(tongue(locale, language)):
        assert amounts.power(-6.25) == f"−6{decimal}25"
        assert amounts.mm(5.04) == f"5{decimal}0"
        assert amounts.day(date(2026, 11, 25)) == day
