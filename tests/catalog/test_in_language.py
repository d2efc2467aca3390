"""A catalog in other words is the same catalog: what its owner did not say anew, and all that is no text, stays."""

import shutil
from dataclasses import fields, is_dataclass, replace
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.in_language import OWN, in_language, own_texts
from quoting.catalog.load import load
from quoting.catalog.sense_languages import sense_of_languages
from quoting.catalog.shop import Said
from quoting.choosing import in_words, same_choice
from quoting.findings import Mark, errors
from quoting.light.glass import glass_of, takes
from quoting.offers import Ask, Choice, Offers
from quoting.places import shared
from quoting.prescription.model import EyeRx, Prescription
from tests.errors.gallery import WHOLE

SIDES = ("front", "back")  # of a coat: coatings, as packages say them
DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"), DAY)[0]


@pytest.fixture(scope="module")
def shouted(catalog):
    """Every text of the owner's in capitals, as if that were Spanish."""
    mark = Mark("languages/es.yaml", 1, 1)
    said = tuple(Said("es", text, text.upper(), mark) for text in dict.fromkeys(own_texts(catalog)))
    return replace(catalog, said=said)


def test_a_lens_has_the_same_light_in_each_language(catalog, shouted):
    """Coats name coatings in words, which an owner may have said anew."""
    turned = in_language(shouted, "es")
    assert any(one.coating.isupper() for one in turned.packages.values())
    for name, package in catalog.packages.items():
        other = turned.packages[name]
        assert glass_of(turned, other) == glass_of(catalog, package)
        assert [takes(turned, other, depth) for depth in (50, 86, 90)] == (
            [takes(catalog, package, depth) for depth in (50, 86, 90)]
        )


def leaves(value, path=()):
    """Every text of a catalog with the names of the fields on the way there."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, tuple):
        for at, one in enumerate(value):
            yield from leaves(one, (*path, at))
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from leaves(one, (*path, key))
    elif is_dataclass(value) and not isinstance(value, Mark):
        for one in fields(value):
            yield from leaves(getattr(value, one.name), (*path, one.name))


def test_every_text_for_customers_is_said_and_nothing_else_is_touched(shouted):
    before, after = dict(leaves(shouted)), dict(leaves(in_language(shouted, "es")))
    assert before.keys() == after.keys()
    changed = {path for path in before if before[path] != after[path]}
    assert len(changed) > 200
    for path, text in before.items():
        field = [part for part in path if isinstance(part, str)][-1]
        if "said" not in path:
            turned = field in OWN or "cautions_for" in path or ("coats" in path and field in SIDES)
            assert after[path] == (text.upper() if turned else text), path


def test_what_a_shop_did_not_say_in_a_language_is_as_it_was(catalog, shouted):
    assert in_language(catalog, "es") is catalog
    assert in_language(shouted, "fr") is shouted
    one = replace(catalog, said=(Said("es", catalog.shop.tagline, "Lema", Mark("", 1, 1)),))
    turned = in_language(one, "es")
    assert turned.shop.tagline == "Lema"
    assert turned.frames["cottering"] is catalog.frames["cottering"]


def test_what_packages_share_is_one_thing_afterwards(shouted):
    turned = in_language(shouted, "es")
    for package in turned.packages.values():
        assert package.material is turned.materials[package.material.id]
        assert package.design is turned.designs[package.design.id]


def test_the_engine_answers_the_same_in_all_words(shouted):
    offers = Offers(shouted, DAY)
    turned = in_words(offers, "es")
    ask = Ask(Prescription(EyeRx(-2.25, -0.75, 90), EyeRx(-2.5)))
    frame = shouted.frames["cottering"]
    for package in shouted.packages.values():
        choice = Choice(frame, frame.sizes[0], frame.colorways[1], package)
        one, other = offers.offer(choice, ask), turned.offer(same_choice(choice, turned.catalog), ask)
        assert (one.fit, one.bill) == (other.fit, other.bill)
        assert other.choice.colorway.name == choice.colorway.name.upper()


@pytest.fixture
def spanish(tmp_path):
    """Writes languages/es.yaml into the smallest shop there is, and loads it."""

    def write(text):
        shop = Path(shutil.copytree(WHOLE, tmp_path / "shop"))
        (shop / "languages").mkdir()
        (shop / "languages" / "es.yaml").write_text(text, encoding="utf-8")
        return load(shop)

    return write


def test_words_are_read_with_the_text_they_are_for(spanish):
    """However the text is broken into lines in the one file and in the other."""
    catalog, findings = spanish(
        "texts:\n  - {text: Slate, say: Pizarra}\n"
        "  - text: An estimate until a licensed\n      optician has checked it.\n    say: Una estimación.\n"
    )
    assert findings == []
    turned = in_language(catalog, "es")
    assert turned.frames["tarn"].colorways[0].name == "Pizarra"
    assert turned.shop.cautions == ("Una estimación.",)


@pytest.mark.parametrize(
    "text", ["", "texts: Slate\n", "texts:\n  - {text: Slate}\n", "words:\n  - {text: a, say: b}\n"]
)
def test_a_file_that_cannot_be_read_is_told(spanish, text):
    catalog, findings = spanish(text)
    assert catalog is None
    assert errors(findings) != []
    assert all(finding.mark.file.endswith("languages/es.yaml") for finding in findings)


@pytest.mark.parametrize(
    ("cautions", "told"),
    [
        (("Mind the step.",), "the caution `Mind the step.` has no words in `es`"),
        (("Mind the step.", "Ask us."), "the caution `Mind the step.` and 1 more have no words in `es`"),
        (("Mind the step.", "Ask us.", "Call us."), "the caution `Mind the step.` and 2 more have no words in `es`"),
    ],
)
def test_one_caution_has_and_several_have_no_words(catalog, cautions, told):
    shop = replace(catalog.shop, languages=("en", "es"), cautions=cautions, cautions_for={})
    (found,) = sense_of_languages(replace(catalog, shop=shop, said=()))
    assert (found.code, found.message) == ("not-translated", told)
