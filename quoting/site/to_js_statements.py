"""Statements and functions of the kernel as plain JavaScript.

A name belongs to the whole function, as in Python, so it is declared in the function's first line. A loop counts with
a counter of its own; so its variable keeps its last value, and the body may change it, as in Python.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
import json
from collections.abc import Callable, Iterable
from typing import ClassVar

from quoting.site.subset_facts import Declared, annotated, kinds_in, local_names
from quoting.site.subset_statements import is_range
from quoting.site.to_js_expressions import Expressions, Lines


def write_function(out: Lines, module: Declared, node: ast.FunctionDef) -> None:
    """Write a function that `subset` has let pass."""
    out.at(node)
    out.put(f"function {node.name}(")
    for position, argument in enumerate(node.args.args):
        out.put(", " if position else "")
        out.at(argument)
        out.put(argument.arg)
    out.put(") {")
    local = local_names(node)
    if local:
        out.put(f" let {', '.join(local)};")
    has_docstring = ast.get_docstring(node, clean=False) is not None
    Statements(out, Expressions(out, module, kinds_in(node, module)), node).block(node.body[has_docstring:])
    out.put(" }")


class Statements:
    """Writes the body of one function."""

    def __init__(self, out: Lines, expressions: Expressions, function: ast.FunctionDef) -> None:
        self.out = out
        self.expressions = expressions
        self.returns = annotated(function.returns)
        self.loops = 0

    def block(self, body: Iterable[ast.stmt]) -> None:
        for node in body:
            self.out.at(node)
            if not self.out.fresh:
                self.out.put(" ")
            self._writers[type(node)](self, node)

    def _assign(self, node: ast.Assign | ast.AnnAssign) -> None:
        target = node.targets[0] if isinstance(node, ast.Assign) else node.target
        kind = annotated(node.annotation) if isinstance(node, ast.AnnAssign) else None
        assert node.value is not None  # as the subset demands
        value = node.value
        self._store(target, lambda: self.expressions.checked(value, kind))

    def _augmented(self, node: ast.AugAssign) -> None:
        """x += y as x = x + y: the subset lets only such places pass that read the same twice."""
        target = node.target
        assert isinstance(target, ast.Name | ast.Subscript)  # as the subset demands
        both = ast.copy_location(ast.BinOp(target, node.op, node.value), node)
        self._store(target, lambda: self.expressions.value(both))

    def _store(self, target: ast.expr, value: Callable[[], None]) -> None:
        """Python works out the value first, then the place."""
        match target:
            case ast.Name(id=name):
                self.out.put(f"{name} = ")
                value()
                self.out.put(";")
            case ast.Subscript(value=holder, slice=ast.Constant(value=str() as key)):
                self._store_key(holder, key, value)
            case ast.Subscript(value=holder, slice=index):
                self.out.put(self.out.use("put") + "(")
                value()
                self.out.put(", ")
                self.expressions.value(holder)
                self.out.put(", ")
                self.expressions.number(index)
                self.out.put(");")

    def _store_key(self, holder: ast.expr, key: str, value: Callable[[], None]) -> None:
        if not isinstance(holder, ast.Name):
            self.out.put("{ const $value = ")
            value()
            self.out.put("; ")
        self.expressions.helper("dict", holder)
        self.out.put(f".{key} = ")
        if isinstance(holder, ast.Name):
            value()
            self.out.put(";")
        else:
            self.out.put("$value; }")

    def _if(self, node: ast.If) -> None:
        self.out.put("if (")
        self.expressions.condition(node.test)
        self.out.put(") {")
        self.block(node.body)
        match node.orelse:
            case [ast.If() as other]:
                self.out.at(other)
                self.out.put("} else ")
                self._if(other)
                return
            case [first, *_]:
                self.out.at(first)
                self.out.put("} else {")
                self.block(node.orelse)
        self.out.put(" }")

    def _for(self, node: ast.For) -> None:
        assert isinstance(node.target, ast.Name)  # as the subset demands
        self.loops += 1
        n = self.loops
        if is_range(node.iter):
            self._range(node.iter, n)
            item = f"$i{n}"
        else:
            self.out.put(f"for (let $i{n} = 0, $xs{n} = ")
            self.expressions.checked(node.iter, "list")
            self.out.put(f"; $i{n} < $xs{n}.length; $i{n} += 1) {{")
            item = f"$xs{n}[$i{n}]"
        self.out.put(f" {node.target.id} = {item};")
        self.block(node.body)
        self.out.put(" }")

    def _range(self, node: ast.expr, n: int) -> None:
        assert isinstance(node, ast.Call)  # as is_range told
        bounds = node.args if len(node.args) > 1 else [ast.copy_location(ast.Constant(0), node.args[0]), *node.args]
        self.out.put("for (")
        for word, bound in zip(("let $i", ", $n", ", $s"), bounds, strict=False):
            self.out.put(f"{word}{n} = ")
            if word == ", $s":
                self.expressions.helper("step", bound)
            elif isinstance(bound, ast.Constant) or _is_len(bound):
                self.expressions.value(bound)
            else:
                self.expressions.helper("whole", bound)
        if len(bounds) == 3:
            self.out.put(f"; $s{n} > 0 ? $i{n} < $n{n} : $i{n} > $n{n}; $i{n} += $s{n}) {{")
        else:
            self.out.put(f"; $i{n} < $n{n}; $i{n} += 1) {{")

    def _return(self, node: ast.Return) -> None:
        if node.value is None:
            self.out.put("return;")
            return
        apart = node.value.lineno != node.lineno  # a bare return at a line's end would be the whole statement
        self.out.put("return (" if apart else "return ")
        self.expressions.checked(node.value, self.returns)
        self.out.put(");" if apart else ";")

    def _raise(self, node: ast.Raise) -> None:
        assert isinstance(node.exc, ast.Call)  # as the subset demands
        message = node.exc.args[0]
        assert isinstance(message, ast.Constant)
        self.out.put(f'{self.out.use("fault")}("ValueError", {json.dumps(message.value)});')

    def _expression(self, node: ast.Expr) -> None:
        match node.value:
            case ast.Call(func=ast.Attribute(value=receiver), args=[value]):
                self.expressions.checked(receiver, "list")
                self.out.put(".push(")
                self.expressions.value(value)
                self.out.put(");")
            case _:
                self.expressions.value(node.value)
                self.out.put(";")

    def _jump(self, node: ast.stmt) -> None:
        self.out.put("continue;" if isinstance(node, ast.Continue) else "break;")

    _writers: ClassVar[dict[type[ast.stmt], Callable[..., None]]] = {
        ast.Assign: _assign, ast.AnnAssign: _assign, ast.AugAssign: _augmented, ast.If: _if, ast.For: _for,
        ast.Return: _return, ast.Raise: _raise, ast.Expr: _expression, ast.Continue: _jump, ast.Break: _jump,
    }  # fmt: skip


def _is_len(node: ast.expr) -> bool:
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "len"
