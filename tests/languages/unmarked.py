"""Finds what a template says without having it marked for translation."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

from jinja2 import nodes

from tests.languages.texts import CALLS

LETTERS = re.compile(r"[^\W\d_]{2,}")
# Attributes that are read to somebody
SPOKEN = {"alt", "aria-description", "aria-label", "label", "placeholder", "title"}
# What stands for a value that is filled in
HOLE = "\x00"
# Signs that every language has, and a dead language's
NO_WORDS = {"Atom", "g/cm³", "mm"}


class Spoken(HTMLParser):
    """Collects the text of a piece of HTML, and of its attributes."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self.silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An opened element."""
        self.silent += tag in ("script", "style")
        values = dict(attrs)
        spoken = set(SPOKEN)
        if tag == "meta" and (
            values.get("name") == "description" or values.get("property") in ("og:title", "og:description")
        ):
            spoken.add("content")
        self.found += [value for name, value in attrs if value and name in spoken]

    def handle_endtag(self, tag: str) -> None:
        """A closed one."""
        self.silent -= tag in ("script", "style")

    def handle_data(self, data: str) -> None:
        """Its text."""
        if not self.silent:
            self.found.append(data)


def spoken(html: str) -> list[str]:
    """What somebody reads or hears of a piece of HTML, where it has words of its own."""
    parser = Spoken()
    parser.feed(html)
    parser.close()
    texts = (" ".join(text.replace(HOLE, " ").split()) for text in parser.found)
    return [
        text for text in texts if any(word not in NO_WORDS for word in LETTERS.findall(text)) and text not in NO_WORDS
    ]


# Blocks whose text is for machines
SILENT_BLOCKS = {"kind"}


def html_of(node: nodes.Node) -> str:
    """The HTML of a part of a template, with holes where values or blocks are filled in."""
    if isinstance(node, nodes.TemplateData):
        return node.data
    if isinstance(node, nodes.Block | nodes.Expr):
        return HOLE
    return "".join(html_of(child) for child in node.iter_child_nodes())


def pieces(tree: nodes.Template) -> Iterator[str]:
    """The HTML of a template and of each of its blocks."""
    yield html_of(tree)
    for block in tree.find_all(nodes.Block):
        if block.name not in SILENT_BLOCKS:
            yield "".join(html_of(child) for child in block.body)


def parts(node: nodes.Node) -> list[nodes.Node]:
    """What an expression may come out as; not the texts of marked calls, nor names that are looked up or compared."""
    if isinstance(node, nodes.Call) and isinstance(node.node, nodes.Name) and node.node.name in CALLS:
        return [keyword.value for keyword in node.kwargs]
    if isinstance(node, nodes.Filter | nodes.Getitem):
        return [node.node] if node.node else []
    if isinstance(node, nodes.CondExpr):
        return [one for one in (node.expr1, node.expr2) if one]
    if isinstance(node, nodes.Dict):
        return [pair.value for pair in node.items]
    return list(node.iter_child_nodes()) if isinstance(node, JOINED) else []


JOINED = nodes.Concat | nodes.List | nodes.Tuple | nodes.Add | nodes.Mod


def constants(node: nodes.Node) -> Iterator[str]:
    """Texts that an expression may come out as."""
    if isinstance(node, nodes.Const) and isinstance(node.value, str):
        yield node.value
    for part in parts(node):
        yield from constants(part)


# A word in lower case that may be a name for the code: a side, a field, a kind of page; and an address
NAME = re.compile(r"[a-z][a-z0-9_-]*|[a-z0-9-]*[/#][a-z0-9/.#-]*")


def unmarked(tree: nodes.Template) -> list[str]:
    """Everything that a template says in its own words.

    Within expressions lower-case single words count where they are put out at once; in lists they may be names.
    """
    found = [text for piece in pieces(tree) for text in spoken(piece)]
    for output in tree.find_all(nodes.Output):
        for node in output.nodes:
            found += [text for text in constants(node) if LETTERS.search(text) and not shaped(text)]
    for loop in tree.find_all(nodes.For):
        found += [text for text in constants(loop.iter) if LETTERS.search(text) and not NAME.fullmatch(text)]
    for name in tree.find_all(nodes.Assign):
        found += [text for text in constants(name.node) if LETTERS.search(text) and not NAME.fullmatch(text)]
    return found


CODE = re.compile(r"[a-z0-9-]*[/#][a-z0-9/.#-]*|true|page|numeric|decimal|text|%\.?\d?[a-z]")


def shaped(text: str) -> bool:
    """Whether a text is for the code and not for people: part of an address or of an attribute."""
    return "<" in text or bool(CODE.fullmatch(text))
