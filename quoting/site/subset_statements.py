"""Which statements a kernel function may contain, and why not the others."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
from collections.abc import Callable, Iterable
from typing import ClassVar

from quoting.site.subset_expressions import Expressions
from quoting.site.subset_facts import annotated
from quoting.site.subset_hints import KIND_WORDS, outside
from quoting.site.subset_words import is_constant_name, why_no_name

AUGMENTED = (ast.Add, ast.Sub, ast.Mult)


class Statements:
    """Checks the body of one function."""

    def __init__(self, expressions: Expressions, function: ast.FunctionDef) -> None:
        self.see = expressions
        self.gives_nothing = annotated(function.returns) == "nothing"

    def block(self, body: Iterable[ast.stmt]) -> None:
        for node in body:
            check = self._checks.get(type(node))
            if check is not None:
                check(self, node)
            else:
                what, hint = outside(node)
                self.see.refuse(node, "not-in-subset", f"{what} is outside the kernel subset", hint)

    def new_name(self, node: ast.AST, name: str) -> None:
        """A name is given a value: it must mean nothing else, in either language."""
        why = why_no_name(name)
        module = self.see.module
        if why:
            self.see.refuse(node, "name-reserved", why)
        elif module.is_function(name) or module.is_constant(name):
            self.see.refuse(node, "name-taken", f"`{name}` already means something in this file")

    def _assign(self, node: ast.Assign) -> None:
        if len(node.targets) > 1:
            self.see.refuse(node, "not-in-subset", "several assignments in one", "write one line for each")
            return
        self.see.value(node.value)
        self._target(node.targets[0])

    def _annotated(self, node: ast.AnnAssign) -> None:
        if node.value is None:
            self.see.refuse(node, "not-in-subset", "an annotation that assigns nothing", "give it its first value")
            return
        self.see.value(node.value)
        if isinstance(node.target, ast.Name):
            self._target(node.target)
        else:
            self.see.refuse(node.target, "not-in-subset", "only a name is annotated")

    def _target(self, node: ast.expr) -> None:
        if isinstance(node, ast.Name):
            self.new_name(node, node.id)
        elif isinstance(node, ast.Subscript):
            self.see.subscript(node)
            self._changes(node)
            if any(isinstance(part, ast.Call) for part in ast.walk(node)):
                self.see.refuse(node, "not-in-subset", "a call inside the place assigned to", "give it a name first")
        else:
            what, hint = outside(node)
            self.see.refuse(node, "not-in-subset", f"an assignment to {what}", hint or "assign to names, items, keys")

    def _changes(self, node: ast.expr) -> None:
        if is_constant_name(root(node)):
            self.see.refuse(node, "constant-changes", "a constant stays as it is", "build a new list")

    def _augmented(self, node: ast.AugAssign) -> None:
        if not isinstance(node.op, AUGMENTED):
            self.see.refuse(node, "not-in-subset", "only += -= *= are in the kernel subset", "write x = x / y")
            return
        self.see.number(node.value)
        target = node.target
        if isinstance(target, ast.Name):
            self.new_name(target, target.id)
            if self.see.kinds.get(target.id) not in ("number", None):
                why = f"{KIND_WORDS[self.see.kinds[target.id]]} is used in arithmetic"
                self.see.refuse(target, "not-a-number", why)
            return
        self._target(target)
        simple = isinstance(target, ast.Subscript) and isinstance(target.value, ast.Name)
        if not simple or not isinstance(target.slice, ast.Name | ast.Constant):  # type: ignore[union-attr]
            self.see.refuse(target, "not-in-subset", "the place is read and written", "give list and index a name")

    def _if(self, node: ast.If) -> None:
        self.see.condition(node.test)
        self.block(node.body)
        self.block(node.orelse)

    def _for(self, node: ast.For) -> None:
        if node.orelse:
            self.see.refuse(node.orelse[0], "not-in-subset", "the else of a loop", "use a bool")
        if isinstance(node.target, ast.Name):
            self.new_name(node.target, node.target.id)
        else:
            self.see.refuse(node.target, "not-in-subset", "a loop has one variable", "take the parts in the body")
        if is_range(node.iter):
            self._range(node.iter)
        else:
            self.see.value(node.iter)
            kind = self.see.kind(node.iter)
            if kind not in ("list", None):
                self.see.refuse(node.iter, "not-a-list", f"{KIND_WORDS[kind]} is looped over")
            self._loop_changes(node)
        self.block(node.body)

    def _range(self, node: ast.expr) -> None:
        assert isinstance(node, ast.Call)  # as is_range told
        if node.keywords or not 1 <= len(node.args) <= 3:
            self.see.refuse(node, "wrong-call", "range takes one to three numbers by position")
        for argument in node.args:
            self.see.number(argument)
            if isinstance(argument, ast.Constant) and isinstance(argument.value, float):
                self.see.refuse(argument, "not-a-number", "range counts in whole numbers")

    def _loop_changes(self, node: ast.For) -> None:
        looped = ast.unparse(node.iter)
        for part in (part for statement in node.body for part in ast.walk(statement)):
            match part:
                case ast.Call(func=ast.Attribute(value=changed)):
                    pass
                case ast.Subscript(value=changed, ctx=ast.Store()):
                    pass
                case _:
                    continue
            if ast.unparse(changed) == looped:
                self.see.refuse(part, "list-changes", "the list changes while it is looped over", "build a new list")

    def _return(self, node: ast.Return) -> None:
        if node.value is not None:
            self.see.value(node.value)
        if (node.value is None) != self.gives_nothing:
            why = "the annotation says None" if self.gives_nothing else "the annotation promises a value"
            self.see.refuse(node, "wrong-return", why)

    def _raise(self, node: ast.Raise) -> None:
        match node:
            case ast.Raise(
                exc=ast.Call(func=ast.Name(id="ValueError"), args=[ast.Constant(value=str())], keywords=[]),
                cause=None,
            ):
                return
        self.see.refuse(node, "not-in-subset", 'the kernel raises ValueError("a text written out") only')

    def _expression(self, node: ast.Expr) -> None:
        match node.value:
            case ast.Call(func=ast.Attribute(value=receiver, attr="append"), args=[value], keywords=[]):
                self.see.value(receiver)
                self.see.value(value)
                self._changes(receiver)
                if self.see.kind(receiver) not in ("list", None) or not root(receiver):
                    self.see.refuse(receiver, "not-a-list", "append needs a list with a name")
            case ast.Call(func=ast.Name(id=name)) if self.see.module.is_function(name):
                self.see.value(node.value)
            case _:
                why = "a statement that does nothing the kernel knows"
                self.see.refuse(node, "not-in-subset", why, "call a kernel function or append")

    def _jump(self, node: ast.stmt) -> None:
        """continue and break mean the same in both languages."""

    _checks: ClassVar[dict[type[ast.stmt], Callable[..., None]]] = {
        ast.Assign: _assign, ast.AnnAssign: _annotated, ast.AugAssign: _augmented, ast.If: _if, ast.For: _for,
        ast.Return: _return, ast.Raise: _raise, ast.Expr: _expression, ast.Continue: _jump, ast.Break: _jump,
    }  # fmt: skip


def is_range(node: ast.expr) -> bool:
    """Whether a loop counts instead of going through a list."""
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "range"


def root(node: ast.expr) -> str:
    """The name at the start of a chain of subscripts; empty when it starts at something else.

    >>> root(ast.parse("xs[0]['a']", mode="eval").body)
    'xs'
    """
    while isinstance(node, ast.Subscript):
        node = node.value
    return node.id if isinstance(node, ast.Name) else ""
