"""Which expressions the kernel may contain, and why not the others."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
import math
from collections.abc import Callable
from typing import ClassVar

from quoting.site.subset_facts import Declared, Kind, Kinds, Report, kind_of
from quoting.site.subset_hints import CALLS, KIND_WORDS, outside
from quoting.site.subset_words import why_no_key

LARGEST = 2**53 - 1  # the largest whole number that JavaScript, whose numbers are all floats, counts up to exactly

ARITHMETIC = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.FloorDiv)
ORDERING = (ast.Lt, ast.LtE, ast.Gt, ast.GtE)
EQUALITY = (ast.Eq, ast.NotEq)
MATH = ("sqrt", "floor")


class Expressions:
    """Checks the expressions of one function, or of the top level; what is refused goes into the report."""

    def __init__(self, report: Report, module: Declared, local: frozenset[str], kinds: Kinds, has_math: bool) -> None:
        self.report = report
        self.module = module
        self.local = local
        self.kinds = kinds
        self.has_math = has_math

    def value(self, node: ast.expr) -> None:
        """Any value the kernel may compute."""
        check = self._checks.get(type(node))
        if check is not None:
            check(self, node)
            return
        what, hint = outside(node)
        self.refuse(node, "not-in-subset", f"{what} is outside the kernel subset", hint)

    def condition(self, node: ast.expr) -> None:
        """A value that is true or false by itself: emptiness and zero mean different things in the two languages."""
        self.value(node)
        kind = self.kind(node)
        if kind not in ("bool", None):
            self.refuse(node, "not-a-bool", f"{KIND_WORDS[kind]} is used as a condition", "write the comparison out")

    def number(self, node: ast.expr) -> None:
        """An operand of arithmetic."""
        self.value(node)
        kind = self.kind(node)
        if kind not in ("number", None):
            self.refuse(node, "not-a-number", f"{KIND_WORDS[kind]} is used in arithmetic")

    def kind(self, node: ast.expr) -> Kind | None:
        return kind_of(node, self.kinds, self.module.functions)

    def refuse(self, node: ast.AST, code: str, why: str, hint: str = "") -> None:
        self.report.refuse(node, code, why, hint)

    def _constant(self, node: ast.Constant) -> None:
        value = node.value
        if isinstance(value, int) and abs(value) > LARGEST:
            self.refuse(node, "number-too-large", f"JavaScript counts exactly up to {LARGEST} only")
        elif isinstance(value, float) and not math.isfinite(value):
            self.refuse(node, "number-too-large", "the number is too large for a float")
        elif not isinstance(value, int | float | str):
            hint = "say it with a value of the same kind: -1, an empty list, a bool beside it" if value is None else ""
            self.refuse(node, "not-in-subset", "only numbers, texts, True and False are values of the kernel", hint)

    def _name(self, node: ast.Name) -> None:
        if node.id in self.local or self.module.is_constant(node.id):
            return
        if self.module.is_function(node.id):
            self.refuse(node, "not-in-subset", "a function can be called but is no value")
        else:
            self.refuse(node, "unknown-name", "neither assigned here, nor a constant, nor imported from the kernel")

    def _binary(self, node: ast.BinOp) -> None:
        if not isinstance(node.op, ARITHMETIC):
            hints: dict[type[ast.operator], str] = {
                ast.Mod: "write x - y * math.floor(x / y), or with //", ast.Pow: "multiply",
            }  # fmt: skip
            hint = hints.get(type(node.op), "")
            self.refuse(node, "not-in-subset", "the arithmetic of the kernel is + - * / //", hint)
            return
        self.number(node.left)
        self.number(node.right)

    def _unary(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, ast.Not):
            self.condition(node.operand)
        elif isinstance(node.op, ast.USub):
            self.number(node.operand)
        else:
            self.refuse(node, "not-in-subset", "the signs of the kernel are - and not")

    def _logic(self, node: ast.BoolOp) -> None:
        for part in node.values:
            self.condition(part)

    def _compare(self, node: ast.Compare) -> None:
        if len(node.ops) > 1:
            self.refuse(node, "not-in-subset", "a chain of comparisons", "join single comparisons with and")
            return
        if not isinstance(node.ops[0], ORDERING + EQUALITY):
            self.refuse(node, "not-in-subset", "the comparisons of the kernel are < <= > >= == !=")
            return
        sides = (node.left, node.comparators[0])
        for side in sides:
            self.value(side)
        one, other = (self.kind(side) for side in sides)
        if isinstance(node.ops[0], ORDERING):
            for side in sides:
                if self.kind(side) not in ("number", None):
                    self.refuse(side, "not-a-number", "only numbers have an order in the kernel")
        elif one in ("list", "dict", "nothing") or other in ("list", "dict", "nothing"):
            self.refuse(node, "not-comparable", "only numbers, texts and bools are compared", "compare the parts")
        elif one != other and one is not None and other is not None:
            why = f"{KIND_WORDS[one]} is never equal to {KIND_WORDS[other]} in JavaScript"
            self.refuse(node, "not-comparable", why)

    def _list(self, node: ast.List) -> None:
        for element in node.elts:
            self.value(element)

    def _dict(self, node: ast.Dict) -> None:
        seen = set()
        for key, value in zip(node.keys, node.values, strict=True):
            if key is None:
                self.refuse(value, "not-in-subset", "an unpacking is outside the kernel subset", "write the keys out")
                continue
            if self.key(key) and ast.unparse(key) in seen:
                self.refuse(key, "bad-key", "the key stands here twice")
            seen.add(ast.unparse(key))
            self.value(value)

    def key(self, node: ast.expr) -> bool:
        """The key of a dict, written out; says whether it is one."""
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
            self.refuse(node, "bad-key", "the key of a dict is a text written out")
            return False
        why = why_no_key(node.value)
        if why:
            self.refuse(node, "bad-key", why)
        return not why

    def subscript(self, node: ast.Subscript) -> None:
        """d["key"] or xs[i], to be read or to be assigned."""
        self.value(node.value)
        index = node.slice
        match index:
            case ast.Slice():
                self.refuse(index, "not-in-subset", "a slice is outside the kernel subset", "write a for loop")
            case ast.Constant(value=str()):
                self.key(index)
            case ast.UnaryOp(op=ast.USub(), operand=ast.Constant()):
                self.refuse(index, "bad-index", "an index counts from the start", "write xs[len(xs) - 1]")
            case ast.Constant(value=value) if type(value) is not int:
                self.refuse(index, "bad-index", "an index is a whole number")
            case _:
                self.value(index)
                if self.kind(index) not in ("number", None):
                    self.refuse(index, "bad-index", f"{KIND_WORDS[self.kind(index)]} is used as an index")

    def _call(self, node: ast.Call) -> None:
        for word in node.keywords:
            self.refuse(word, "wrong-call", "keyword arguments are outside the kernel subset", "pass it by position")
        for argument in node.args:
            self.value(argument)
        match node.func:
            case ast.Name(id="len"):
                self._counted(node, 1)
                self._wants(node, "list", "not-a-list", "len counts lists only")
            case ast.Name(id="abs"):
                self._counted(node, 1)
                self._wants(node, "number", "not-a-number", "only a number has a size")
            case ast.Name(id="range"):
                self.refuse(node, "wrong-call", "range stands in the head of a for loop only")
            case ast.Name(id=name) if name in self.module.functions:
                self._counted(node, len(self.module.functions[name].args.args))
            case ast.Name(id=name) if self.module.is_function(name):
                pass
            case ast.Attribute(value=ast.Name(id="math"), attr=attr) if attr in MATH and self.has_math:
                self._counted(node, 1)
                self._wants(node, "number", "not-a-number", "only a number has a root or a floor")
            case ast.Attribute(attr="append"):
                self.refuse(node, "wrong-call", "append gives nothing", "write it as a statement of its own")
            case _:
                hint = CALLS.get(node.func.id, "") if isinstance(node.func, ast.Name) else ""
                self.refuse(node, "wrong-call", "neither a kernel function nor len, abs, math.sqrt, math.floor", hint)

    def _counted(self, node: ast.Call, wanted: int) -> None:
        given = len(node.args)
        if given != wanted and not any(isinstance(argument, ast.Starred) for argument in node.args):
            self.refuse(node, "wrong-call", f"takes {wanted} arguments, given {given}")

    def _wants(self, node: ast.Call, kind: Kind, code: str, why: str) -> None:
        for argument in node.args:
            if self.kind(argument) not in (kind, None):
                self.refuse(argument, code, why)

    def _attribute(self, node: ast.Attribute) -> None:
        hint = "write the number as a constant" if ast.unparse(node.value) == "math" else 'write d["key"]'
        self.refuse(node, "not-in-subset", "an attribute is outside the kernel subset", hint)

    _checks: ClassVar[dict[type[ast.expr], Callable[..., None]]] = {
        ast.Constant: _constant, ast.Name: _name, ast.BinOp: _binary, ast.UnaryOp: _unary, ast.BoolOp: _logic,
        ast.Compare: _compare, ast.List: _list, ast.Dict: _dict, ast.Subscript: subscript, ast.Call: _call,
        ast.Attribute: _attribute,
    }  # fmt: skip
