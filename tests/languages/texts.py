"""All texts that are marked for translation: in the templates, and in the package's Python."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, nodes

from quoting.site.texts import Texts

ROOT = Path(__file__).parents[2]
TEMPLATES = ROOT / "theme" / "templates"
PACKAGE = ROOT / "quoting"
# The owner's own page, not the customers': what changes between two builds
OWNERS = {"bench.html", "changes.html", "order.html", "verify.html"}
# How many of their first arguments are texts, behind a context
CALLS = {"gettext": (0, 1), "_": (0, 1), "ngettext": (0, 2), "pgettext": (1, 1), "npgettext": (1, 2)}


@dataclass(frozen=True, slots=True)
class Text:
    """A text as gettext knows it; ``many`` is "" where there is no plural."""

    one: str
    many: str = ""
    context: str = ""
    place: str = ""


def environment() -> Environment:
    """Templates are parsed as a build parses them."""
    return Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True, extensions=[Texts])


def templates() -> dict[str, nodes.Template]:
    """Name -> tree of each template that makes a customer's page."""
    env = environment()
    paths = (path for path in sorted(TEMPLATES.rglob("*.html")) if path.name not in OWNERS)
    return {path.relative_to(ROOT).as_posix(): env.parse(path.read_text(encoding="utf-8")) for path in paths}


def of_call(name: str, values: list[str], place: str) -> Text | None:
    """The text of a call that says one, from its first arguments."""
    contexts, texts = CALLS[name]
    if len(values) < contexts + texts:
        return None
    return Text(values[contexts], values[contexts + 1] if texts > 1 else "", values[0] if contexts else "", place)


def in_templates() -> Iterator[Text]:
    """What templates say."""
    for place, tree in templates().items():
        for call in tree.find_all(nodes.Call):
            if isinstance(call.node, nodes.Name) and call.node.name in CALLS:
                values = [one.value for one in call.args if isinstance(one, nodes.Const) and isinstance(one.value, str)]
                if text := of_call(call.node.name, values, place):
                    yield text


def name_of(node: ast.expr) -> str:
    """The name of the function that is called; a method has none here."""
    return node.id if isinstance(node, ast.Name) else ""


def in_table(node: ast.AST) -> Iterator[ast.expr]:
    """The texts in what was marked: values of dictionaries, all of lists and tuples, and what makes one of both."""
    if isinstance(node, ast.Dict):
        for value in node.values:
            yield from in_table(value)
    elif isinstance(node, ast.Call) and name_of(node.func) == "Words":  # its first argument is a unit
        for value in node.args[1:]:
            yield from in_table(value)
    elif isinstance(node, ast.Constant | ast.JoinedStr) or (
        isinstance(node, ast.Call) and name_of(node.func) in ("in_context", "by_number")
    ):
        yield node
    elif not isinstance(node, ast.Name | ast.Attribute):
        for child in ast.iter_child_nodes(node):
            yield from in_table(child)


def written(node: ast.expr, place: str) -> Text:
    """The text of a node.   Raises AssertionError where it is put together while the program runs."""
    if isinstance(node, ast.Call):
        first, one, *many = (ast.literal_eval(argument) for argument in node.args)
        return Text(one, many[0], "", place) if many else Text(one, "", first, place)
    assert isinstance(node, ast.Constant), f"{place}:{node.lineno}: a text that is put together cannot be translated"
    return Text(node.value, "", "", place)


def in_python() -> Iterator[Text]:
    """What the package says."""
    for path in sorted(PACKAGE.rglob("*.py")):
        place = path.relative_to(ROOT).as_posix()
        if "share" in path.parts:
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = name_of(node.func)
            if name == "marked":
                yield from (written(one, place) for one in in_table(node.args[0]))
            elif name in ("in_context", "by_number"):
                yield written(node, place)
            elif name in CALLS:
                texts = [one.value for one in node.args if isinstance(one, ast.Constant) and isinstance(one.value, str)]
                assert not any(isinstance(one, ast.JoinedStr) for one in node.args), f"{place}:{node.lineno}"
                if text := of_call(name, texts, place):
                    yield text


def all_texts() -> dict[tuple[str, str], Text]:
    """(context, text) -> text, each once, in the order in which they stand; one with a plural before one without."""
    found: dict[tuple[str, str], Text] = {}
    for text in (*in_templates(), *in_python()):
        key = (text.context, text.one)
        if text.one and (key not in found or (text.many and not found[key].many)):
            found[key] = text
    return found
