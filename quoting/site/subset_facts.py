"""What a kernel file declares, and which kind of value an expression certainly gives.

Two readers use the kinds: `subset` refuses what is visibly wrong (text + 1), and `to_js` leaves a run-time check
out where a value is a number, or true or false, for certain. What comes out of a dict, a list or another module is
of no known kind: JavaScript then checks it when it is used.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from quoting.findings import Finding, Mark
from quoting.site.subset_words import is_constant_name

Kind = Literal["number", "bool", "text", "list", "dict", "nothing"]
Kinds = Mapping[str, Kind | None]

KERNEL = "quoting.kernel."  # the package whose modules may import each other
RECORDS = "quoting.kernel.records"  # TypedDicts for annotations; JavaScript never sees them

_ANNOTATED: dict[str, Kind] = {
    "float": "number",
    "int": "number",
    "bool": "bool",
    "str": "text",
    "list": "list",
    "dict": "dict",
    "None": "nothing",
}


@dataclass
class Report:
    """Gathers the findings on one file."""

    source: str
    filename: str
    findings: list[Finding] = field(default_factory=list)

    def refuse(self, node: ast.AST, code: str, why: str, hint: str = "") -> None:
        """Add a finding that shows the place and begins with the expression."""
        line = getattr(node, "lineno", 1)
        text = lines_of(self.source)[line - 1]
        # ast counts columns in bytes of UTF-8
        start = len(text.encode()[: getattr(node, "col_offset", 0)].decode())
        end = len(text)
        if getattr(node, "end_lineno", None) == line:
            end = len(text.encode()[: getattr(node, "end_col_offset", 0)].decode())
        shown = text[start:end] if end - start <= 60 else text[start : start + 57] + "..."
        mark = Mark(self.filename, line, start + 1, text, max(1, end - start))
        self.findings.append(Finding(mark, code, f"`{shown}`: {why}", hint))


def lines_of(source: str) -> list[str]:
    """The lines as Python counts them: a form feed or a Unicode separator ends none.

    >>> lines_of("a\\fb\\r\\nc\\n")
    ['a\\x0cb', 'c']
    """
    lines = source.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return lines[:-1] if len(lines) > 1 and not lines[-1] else lines


@dataclass(frozen=True)
class Declared:
    """The names a kernel file gives a meaning to, at its top level."""

    functions: Mapping[str, ast.FunctionDef]
    constants: Kinds
    imported: Mapping[str, str]  # name -> the kernel module it comes from

    def is_function(self, name: str) -> bool:
        return name in self.functions or (name in self.imported and not is_constant_name(name))

    def is_constant(self, name: str) -> bool:
        return name in self.constants or (name in self.imported and is_constant_name(name))


def declared(tree: ast.Module) -> Declared:
    """Read the top level of a file, also of one that has faults."""
    functions = {node.name: node for node in tree.body if isinstance(node, ast.FunctionDef)}
    imported: dict[str, str] = {}
    constants: dict[str, Kind | None] = {}
    for node in tree.body:
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(KERNEL) and node.module != RECORDS:
            imported |= {alias.name: str(node.module).removeprefix(KERNEL) for alias in node.names}
        for target, value in bindings(node):
            if isinstance(target, ast.Name) and value is not None:
                constants[target.id] = kind_of(value, constants, functions)
    return Declared(functions, constants, imported)


def bindings(node: ast.stmt) -> Iterator[tuple[ast.expr, ast.expr | None]]:
    """Targets and values of an assignment; nothing for other statements."""
    if isinstance(node, ast.Assign):
        yield from ((target, node.value) for target in node.targets)
    elif isinstance(node, ast.AnnAssign):
        yield node.target, node.value


def annotated(annotation: ast.expr | None) -> Kind | None:
    """The kind an annotation promises.

    >>> [annotated(ast.parse(text, mode="eval").body) for text in ("float", "list[int]", "Job")]
    ['number', 'list', None]
    """
    if isinstance(annotation, ast.Subscript):
        annotation = annotation.value
    return _ANNOTATED.get(ast.unparse(annotation)) if annotation else None


def kind_of(node: ast.expr, names: Kinds, functions: Mapping[str, ast.FunctionDef]) -> Kind | None:
    """The kind of value an expression gives whenever it gives one; None when the syntax cannot tell."""
    match node:
        case ast.Constant(value=bool()) | ast.Compare() | ast.BoolOp() | ast.UnaryOp(op=ast.Not()):
            return "bool"
        case ast.Constant(value=int() | float()) | ast.BinOp() | ast.UnaryOp() | ast.Call(func=ast.Attribute()):
            return "number"
        case ast.Constant(value=str()):
            return "text"
        case ast.List():
            return "list"
        case ast.Dict():
            return "dict"
        case ast.Name(id=name):
            return names.get(name)
        case ast.Call(func=ast.Name(id="len" | "abs")):
            return "number"
        case ast.Call(func=ast.Name(id=name)) if name in functions:
            return annotated(functions[name].returns)
    return None


def kinds_in(function: ast.FunctionDef, module: Declared) -> dict[str, Kind | None]:
    """The kind of every name a function can see: one kind only if every assignment to it gives that kind."""
    given: dict[str, list[Kind | ast.expr | None]] = {
        arg.arg: [annotated(arg.annotation)] for arg in function.args.args
    }
    for node in ast.walk(function):
        match node:
            case ast.AnnAssign(target=ast.Name(id=name), annotation=annotation, value=value):
                given.setdefault(name, []).append(annotated(annotation) or value)
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                given.setdefault(name, []).append(value)
            case ast.For(target=ast.Name(id=name), iter=ast.Call(func=ast.Name(id="range"))):
                given.setdefault(name, []).append("number")
            case ast.For(target=ast.Name(id=name)):
                given.setdefault(name, []).append(None)
    kinds: dict[str, Kind | None] = dict(module.constants)
    for _ in range(len(given) + 1):  # a copy of a copy: each round settles at least one more name
        before = dict(kinds)
        for name, sources in given.items():
            found = {kind_of(s, kinds, module.functions) if isinstance(s, ast.expr) else s for s in sources}
            kinds[name] = found.pop() if len(found) == 1 else None
        if kinds == before:
            break
    return kinds


def local_names(function: ast.FunctionDef) -> list[str]:
    """Names the body assigns and the head does not, in order of appearance."""
    arguments = {arg.arg for arg in function.args.args}
    stored = (node.id for node in _names(function) if isinstance(node.ctx, ast.Store))
    return list(dict.fromkeys(name for name in stored if name not in arguments))


def _names(function: ast.FunctionDef) -> list[ast.Name]:
    found = [node for node in ast.walk(function) if isinstance(node, ast.Name)]
    return sorted(found, key=lambda node: (node.lineno, node.col_offset))
