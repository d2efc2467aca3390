"""A site in a language that brackets every text: what stands without brackets is the owner's, or was forgotten."""

import pytest

from tests.languages.pseudo import build_bracketed, outside, own_words, said, unsaid


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    return build_bracketed(tmp_path_factory.mktemp("pseudo") / "site")


@pytest.fixture(scope="module")
def own():
    return own_words()


def test_no_page_says_a_word_that_is_not_in_the_catalogs(site, own):
    found = {}
    for path in sorted(site.rglob("*.html")):
        for text in said(path.read_text(encoding="utf-8")):
            for word in unsaid(text, own):
                found.setdefault(word, path.relative_to(site).as_posix())
    assert found == {}


def test_a_word_that_is_not_in_the_catalogs_is_seen():
    assert unsaid("⟦Frames⟧ by Pellbridge from ⟦see ⟦all⟧⟧ 5 mm", ["Pellbridge"]) == ["by", "from"]
    assert outside("a ⟦b ⟦c⟧ d⟧ e") == "a  e"
