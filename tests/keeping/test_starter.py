"""A new shop checks clean, holds what was answered, and is there whole or not at all."""

import re
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.keeping import starter
from quoting.keeping.starter import Answers, faults, files_of, lay_out
from quoting.keeping.whole import JOURNAL
from quoting.languages import _, speaking, tongue

DAY = date(2026, 11, 25)
GOOD = Answers("Fenwick: Eyes & more", "post@example.org", "de_AT", "EUR", "Austria # and around", "4.90", "20", "yes")


@pytest.mark.parametrize("more", [True, False])
def test_a_new_shop_checks_clean_and_says_what_was_answered(tmp_path, more):
    folder = tmp_path / "a" / "shop"
    assert lay_out(folder, Answers(*list(vars_of(GOOD).values())[:-1], more=more), DAY) == []
    catalog, findings = load(folder, DAY)
    assert findings == []
    shop, region = catalog.shop, catalog.price_list.regions[0]
    assert (shop.name, shop.email, shop.locale, shop.currency) == (GOOD.name, GOOD.email, "de_AT", "EUR")
    assert (region.name, region.shipping_cents, region.tax_lenses) == ("Austria # and around", 490, 2000)
    assert catalog.price_list.tax_included
    assert len(catalog.packages) == (3 if more else 1)
    assert shop.cautions
    assert "private/" in (folder / ".gitignore").read_text(encoding="utf-8").split()
    assert [path.name for path in folder.parent.iterdir()] == ["shop"]


@pytest.mark.parametrize("more", [True, False])
def test_once_own_ones_are_there_the_examples_are_deleted_as_files(tmp_path, more):
    lay_out(tmp_path, Answers(*list(vars_of(GOOD).values())[:-1], more=more), DAY)
    for name in ("frames", "lenses"):
        text = (tmp_path / name / "example.yaml").read_text(encoding="utf-8")
        (tmp_path / name / "example.yaml").unlink()
        (tmp_path / name / "own.yaml").write_text(text.replace("id: example", "id: own"), encoding="utf-8")
    catalog, findings = load(tmp_path, DAY)
    assert findings == []
    assert list(catalog.frames) == ["own-frame"]


def vars_of(answers):
    return {name: getattr(answers, name) for name in Answers.__dataclass_fields__}


def test_every_placeholder_is_filled_and_nothing_else_is():
    for name, text in files_of(GOOD, DAY).items():
        assert not re.search(r"@[a-z_]+@", text), name
    assert files_of(GOOD, DAY)["content/pages/about.md"].startswith("Title: About us\nSlug: about\nDate: 2026-11-25\n")


@pytest.mark.parametrize(
    ("field", "text", "code"),
    [
        ("email", "post.example.org", "wrong-form"),
        ("locale", "en_UK", "unknown-locale"),
        ("currency", "JPY", "currency-decimals"),
        ("tax", "8,25", "not-a-percentage"),
        ("shipping", "free", "not-an-amount"),
        ("tax_included", "perhaps", "not-yes-or-no"),
        ("name", "n" * 81, "too-long"),
        ("region", "r" * 121, "too-long"),
    ],
)
def test_an_answer_is_refused_in_the_words_of_the_shops_own_files(field, text, code):
    found = faults(Answers(**{**vars_of(GOOD), field: text}), DAY)
    assert {name: finding.code for name, finding in found.items()} == {field: code}


def test_good_answers_have_no_fault():
    assert faults(GOOD, DAY) == {}


def test_a_folder_with_a_file_is_left_as_it_is(tmp_path):
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FileExistsError):
        lay_out(tmp_path, GOOD, DAY)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_an_empty_folder_becomes_the_shop_itself(tmp_path):
    place = tmp_path.stat().st_ino
    assert lay_out(tmp_path, GOOD, DAY) == []
    assert tmp_path.stat().st_ino == place
    assert load(tmp_path, DAY)[1] == []


def test_what_fails_midway_leaves_nothing(tmp_path, monkeypatch):
    def full(self, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "rename", full)
    with pytest.raises(OSError, match="No space"):
        lay_out(tmp_path / "shop", GOOD, DAY)
    assert list(tmp_path.iterdir()) == []


def test_a_cut_in_an_empty_folder_is_settled_by_the_next_try(tmp_path, monkeypatch):
    def cut(folder, contents):
        (folder / JOURNAL).write_text('{"state": "begun", "files": {"shop.yaml": true}}', encoding="utf-8")
        (folder / ".shop.yaml.bevelbook-new").write_text("half", encoding="utf-8")
        raise OSError(5, "cut")

    with monkeypatch.context() as patch:
        patch.setattr(starter, "write_all", cut)
        with pytest.raises(OSError, match="cut"):
            lay_out(tmp_path, GOOD, DAY)
    assert lay_out(tmp_path, GOOD, DAY) == []
    assert load(tmp_path, DAY)[1] == []
    assert not list(tmp_path.glob("*bevelbook-new"))


def test_a_new_shop_speaks_to_its_customers_in_the_language_of_its_locale(tmp_path):
    """What its owner reads of the files, comments and field names, is English as everywhere."""
    answers = Answers("Óptica Roble", "correo@example.org", "es_ES", "EUR", "España")
    assert lay_out(tmp_path / "shop", answers, DAY) == []
    catalog, findings = load(tmp_path / "shop", DAY)
    assert findings == []
    beside = [caution for cautions in catalog.shop.cautions_for.values() for caution in cautions]
    said = [catalog.shop.tagline, *catalog.shop.cautions, *beside]
    with speaking(tongue("es_ES")):
        wanted = {_(text) for text in starter.WORDS}
    assert len(said) > 10
    assert set(said) <= wanted
    assert not set(said) & set(starter.WORDS)
    english = "\n".join(files_of(GOOD, DAY).values())
    assert all(text in english for text in starter.WORDS)
