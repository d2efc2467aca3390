"""What pages say is marked for translation, in templates and for scripts; a text that is not is named here."""

import ast
import re

import pytest

from quoting.places import shared
from quoting.show.lines import LINE_TEXTS
from tests.languages.texts import ROOT, environment, in_python, templates
from tests.languages.unmarked import unmarked

TEMPLATES = templates()


def short(name):
    return name.removeprefix("theme/templates/").removesuffix(".html")


@pytest.mark.parametrize("name", TEMPLATES, ids=short)
def test_a_template_says_nothing_that_is_not_marked(name):
    assert unmarked(TEMPLATES[name]) == []


@pytest.mark.parametrize(
    "source",
    [
        "<p>Some words</p>",
        "<p>{% if a %}none{% endif %}</p>",
        '<a title="Some words">{{ name }}</a>',
        '<input aria-label="{{ name }}, sphere">',
        '{{ "from " if a else "" }}{{ price }}',
        '{{ {"in-stock": "In stock"}[color.stock] }}',
        '{% for word in ("Sphere", "Axis") %}{{ word }}{% endfor %}',
        '{% set words = "Some words" %}{{ words }}',
        "{% block title %}Frames: {{ shop.name }}{% endblock %}",
        '<meta name="description" content="Some words">',
        '{% trans what="a frame" %}See {{ what }}{% endtrans %}',
    ],
)
def test_what_is_not_marked_is_seen(source):
    assert unmarked(environment().parse(source)) != []


@pytest.mark.parametrize(
    "source",
    [
        "<p>{% trans %}Some words{% endtrans %}</p>",
        '<a title="{{ _("Some words") }}" class="some words">{{ name }}</a>',
        '<p class="{{ "up" if a }}">{{ _("up") if a else _("down") }}</p>',
        '{% for sheet in ("tokens", "page") %}<link href="{{ SITEURL }}/{{ sheet }}.css">{% endfor %}',
        '<script>alert("Some words")</script>',
    ],
)
def test_what_is_marked_or_is_for_machines_is_let_be(source):
    found = unmarked(environment().parse(source))
    assert [text for text in found if text != "up"] == []


def test_texts_are_marked_as_a_whole():
    """A text that is put together while the program runs is in no catalog: `in_python` raises for one."""
    assert len(list(in_python())) > 100


def test_page_words_are_marked():
    """All texts of the scripts stand in one module, and all of its tables are marked."""
    tree = ast.parse((ROOT / "quoting" / "show" / "page_words.py").read_text(encoding="utf-8"))
    tables = [
        node for node in tree.body if isinstance(node, ast.AnnAssign | ast.Assign) and isinstance(node.value, ast.Dict)
    ]
    assert len(tables) == 2  # for every page, and for its drawings
    assert all(key is None for table in tables for key in table.value.keys)  # they only join the marked ones


# Two words, or one that begins with a capital letter
WORDS = re.compile(r"[^\W\d_]{2,} [^\W\d_]|[A-Z][a-z]+")
STRING = re.compile(r'"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)*\'|`(?:[^`\\]|\\.)*`')
HOLES = re.compile(r"\$\{(?:[^{}]|\{[^{}]*\})*\}")
CLASSES = re.compile(r"class: (\w+ \? )?(\"[^\"]*\"|`[^`]*`)")
# Names of keys, of attributes, of methods and errors, and of what stands in addresses
NAMES = re.compile(r"Arrow(Up|Down)|Page(Up|Down)?|use strict|http://www\.w3\.org/.*|viewBox|linearGradient|Ed25519|NotSupportedError|translate\(.*")
SCRIPTS = sorted((shared("theme") / "static" / "js").glob("*.js"))
# Words that are read there, not said, and names of what was read
READING = {"slip.js", "slip-pieces.js", "slip-table.js"}


def said(script):
    """The strings of a script that look like words for people."""
    code = "\n".join(line for line in script.split("\n") if not line.lstrip().startswith("//"))
    texts = (HOLES.sub("", literal[1:-1]) for literal in STRING.findall(CLASSES.sub("", code)))
    return [text for text in texts if WORDS.search(text) and not NAMES.match(text) and text not in LINE_TEXTS]


@pytest.mark.parametrize("path", [path for path in SCRIPTS if path.name not in READING], ids=lambda path: path.name)
def test_a_script_has_no_words_of_its_own(path):
    assert said(path.read_text(encoding="utf-8")) == []


def test_words_in_a_script_are_seen():
    assert said('make("b", { class: "key over" }, "Two words"); `for ${name} only here`; "Right"') == [
        "Two words", "for  only here", "Right",
    ]  # fmt: skip
