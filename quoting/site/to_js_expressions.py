"""Expressions of the kernel as plain JavaScript, each on the line it has in Python.

Names are kept as they are; the helpers of runtime.js begin with $, which no Python name can. A value that is a number
for certain (a literal, a result, a checked parameter) goes into arithmetic as it is; any other is checked on the way.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
import json
from collections.abc import Callable, Iterable
from typing import ClassVar

from quoting.site.subset_facts import Declared, Kind, Kinds, annotated, kind_of

SIGNS: dict[type[ast.AST], str] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "===",
    ast.NotEq: "!==",
    ast.And: "&&",
    ast.Or: "||",
}

# The helper that makes sure of a kind. What an annotation promises is checked where the value comes in: at a call, an
# annotated assignment, a return; after that the name is of this kind for certain.
CHECKS: dict[Kind | None, str] = {"number": "num", "bool": "bool", "list": "list", "text": "text"}


class Lines:
    """Text that grows line by line and never goes back."""

    def __init__(self) -> None:
        self.lines = [""]
        self.helpers: set[str] = set()

    def at(self, node: ast.AST) -> None:
        """Go on where the node stands in Python; stay where that line is already past."""
        line, column = node.lineno, node.col_offset  # type: ignore[attr-defined]
        while len(self.lines) < line:
            self.lines.append("")
            if len(self.lines) == line:
                self.lines[-1] = " " * column

    @property
    def fresh(self) -> bool:
        """Whether nothing stands on the line yet."""
        return not self.lines[-1].strip()

    def put(self, text: str) -> None:
        self.lines[-1] += text

    def use(self, helper: str) -> str:
        """The name of a helper in the file, which is noted as used."""
        self.helpers.add(helper)
        return "$" + helper


class Expressions:
    """Writes expressions that `subset` has let pass."""

    def __init__(self, out: Lines, module: Declared, kinds: Kinds) -> None:
        self.out = out
        self.module = module
        self.kinds = kinds

    def kind(self, node: ast.expr) -> Kind | None:
        return kind_of(node, self.kinds, self.module.functions)

    def helper(self, helper: str, *parts: ast.expr | str, number: bool = False) -> None:
        """Write a call of a helper; a part that is text is written as it is."""
        self.out.put(self.out.use(helper) + "(")
        for position, part in enumerate(parts):
            self.out.put(", " if position else "")
            if isinstance(part, str):
                self.out.put(part)
            elif number:
                self.number(part)
            else:
                self.value(part)
        self.out.put(")")

    def checked(self, node: ast.expr, kind: Kind | None) -> None:
        """A value that must be of this kind: checked unless it is so for certain."""
        if kind in CHECKS and self.kind(node) != kind:
            self.helper(CHECKS[kind], node)
        else:
            self.value(node)

    def number(self, node: ast.expr) -> None:
        self.checked(node, "number")

    def condition(self, node: ast.expr) -> None:
        self.checked(node, "bool")

    def value(self, node: ast.expr) -> None:
        self.out.at(node)
        self._writers[type(node)](self, node)

    def _constant(self, node: ast.Constant) -> None:
        value = node.value
        self.out.put(json.dumps(value) if isinstance(value, bool | str) else repr(value))

    def _name(self, node: ast.Name) -> None:
        self.out.put(node.id)

    def _binary(self, node: ast.BinOp) -> None:
        if isinstance(node.op, ast.FloorDiv):
            self.helper("floordiv", node.left, node.right, number=True)
            return
        self.out.put(self.out.use("safe") + "(")
        self.number(node.left)
        self.out.put(f" {SIGNS[type(node.op)]} ")
        known = isinstance(node.right, ast.Constant) and node.right.value != 0
        if isinstance(node.op, ast.Div) and not known:
            self.helper("nonzero", node.right, number=True)
        else:
            self.number(node.right)
        self.out.put(")")

    def _unary(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, ast.Not):
            self.out.put("!")
            self.condition(node.operand)
        else:
            self.out.put("(-")
            self.number(node.operand)
            self.out.put(")")

    def _logic(self, node: ast.BoolOp) -> None:
        self.out.put("(")
        for position, part in enumerate(node.values):
            self.out.put(f" {SIGNS[type(node.op)]} " if position else "")
            self.condition(part)
        self.out.put(")")

    def _compare(self, node: ast.Compare) -> None:
        left, sign, right = node.left, node.ops[0], node.comparators[0]
        equality = isinstance(sign, ast.Eq | ast.NotEq)
        certain = self.kind(left) == self.kind(right) and self.kind(left) in ("number", "bool", "text")
        if equality and not certain:
            self.out.put("!" if isinstance(sign, ast.NotEq) else "")
            self.helper("eq", left, right)
            return
        write = self.value if equality else self.number
        self.out.put("(")
        write(left)
        self.out.put(f" {SIGNS[type(sign)]} ")
        write(right)
        self.out.put(")")

    def _list(self, node: ast.List) -> None:
        self.out.put("[")
        self._row(node.elts, [None] * len(node.elts))
        self.out.put("]")

    def _dict(self, node: ast.Dict) -> None:
        self.out.put("{")
        for position, (key, value) in enumerate(zip(node.keys, node.values, strict=True)):
            assert isinstance(key, ast.Constant)  # as the subset demands
            assert isinstance(key.value, str)
            self.out.put(", " if position else "")
            self.out.at(key)
            self.out.put(f"{key.value}: ")
            self.value(value)
        self.out.put("}")

    def _subscript(self, node: ast.Subscript) -> None:
        if isinstance(node.slice, ast.Constant) and isinstance(node.slice.value, str):
            self.out.put(self.out.use("key") + "(")
            self.value(node.value)
            self.out.put(f'.{node.slice.value}, "{node.slice.value}")')
        else:
            self.out.put(self.out.use("item") + "(")
            self.checked(node.value, "list")
            self.out.put("[")
            self.number(node.slice)
            self.out.put("])")

    def _call(self, node: ast.Call) -> None:
        match node.func:
            case ast.Attribute(attr="sqrt"):
                self.out.put("Math.sqrt(")
                self.helper("unsigned", *node.args, number=True)
                self.out.put(")")
            case ast.Attribute(attr="floor"):
                self.out.put(self.out.use("safe") + "(Math.floor(")
                self.number(node.args[0])
                self.out.put("))")
            case ast.Name(id="abs"):
                self.out.put("Math.abs(")
                self.number(node.args[0])
                self.out.put(")")
            case ast.Name(id="len"):
                self.checked(node.args[0], "list")
                self.out.put(".length")
            case ast.Name(id=name):
                self.out.put(name + "(")
                self._row(
                    node.args, [annotated(argument.annotation) for argument in self.module.functions[name].args.args]
                )
                self.out.put(")")

    def _row(self, nodes: Iterable[ast.expr], kinds: Iterable[Kind | None]) -> None:
        for position, (node, kind) in enumerate(zip(nodes, kinds, strict=True)):
            self.out.put(", " if position else "")
            self.checked(node, kind)

    _writers: ClassVar[dict[type[ast.expr], Callable[..., None]]] = {
        ast.Constant: _constant, ast.Name: _name, ast.BinOp: _binary, ast.UnaryOp: _unary, ast.BoolOp: _logic,
        ast.Compare: _compare, ast.List: _list, ast.Dict: _dict, ast.Subscript: _subscript, ast.Call: _call,
    }  # fmt: skip
