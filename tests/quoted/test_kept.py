"""Links that were made once open for ever, whatever becomes of the form.

`kept/` holds links as they were made, and what they say; the number in a file's name is the version of the form.
A file there is never written again: a quote lies in somebody's letters.
"""

import json
from pathlib import Path

import pytest

from quoting.quoted import sealing
from quoting.quoted.form import FORM, VERSION
from quoting.quoted.sealing import opened, sealed
from quoting.quoted.trust import standing
from tests.quoted.quotes import DAY, KEY, plain
from tests.quoted.test_sealing import PUBLIC

KEPT = sorted((Path(__file__).parent / "kept").glob("*.json"))


def kept(path):
    return json.loads(path.read_text(encoding="utf-8"))


def within(old, new):
    """Whether all that was said then is said now; what a newer form has beside it is left aside."""
    if isinstance(old, dict):
        return isinstance(new, dict) and all(name in new and within(old[name], new[name]) for name in old)
    if isinstance(old, list):
        return isinstance(new, list) and len(old) == len(new) and all(map(within, old, new))
    return type(old) is type(new) and old == new


@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.stem)
def test_a_link_that_was_made_once_opens_and_its_signature_is_good(path):
    one = kept(path)
    for name, state in (("text", "held"), ("unsigned", "estimate")):
        found = opened(f"https://ottersea.example.org/quote/#{one[name]}")
        assert found.fault == ""
        assert within(one["quote"], found.quote)
        assert standing(found, [PUBLIC], [], DAY) == state


def test_every_version_has_links_that_are_kept():
    assert {int(path.stem.partition("-")[0]) for path in KEPT} == set(range(1, VERSION + 1))


@pytest.fixture
def a_next_version(monkeypatch):
    """The form with fields more at the ends of its records, as a next version would have them."""
    more = {name: (*fields, ("later", "text:20", "")) for name, fields in FORM.items()}
    monkeypatch.setattr(sealing, "FORM", more)
    monkeypatch.setattr(sealing, "VERSION", VERSION + 1)


def with_later(value, said):
    """A record of the next version, in which every part says something in its new field."""
    if isinstance(value, dict):
        return {**{name: with_later(one, said) for name, one in value.items()}, "later": said}
    return [with_later(one, said) for one in value] if isinstance(value, list) else value


@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.stem)
def test_a_next_version_opens_what_was_made_before(path, request):
    one = kept(path)
    now = opened(one["text"]).quote
    request.getfixturevalue("a_next_version")
    found = opened(one["text"])
    assert standing(found, [PUBLIC], [], DAY) == "held"
    assert found.quote == with_later(now, "")


def test_what_a_next_version_makes_is_told_as_newer(request):
    request.getfixturevalue("a_next_version")
    text = sealed(with_later(plain(), "words"), KEY.id, KEY.sign)
    assert opened(text).quote == with_later(plain(), "words")
    request.getfixturevalue("monkeypatch").undo()
    assert opened(text).fault == "newer"
