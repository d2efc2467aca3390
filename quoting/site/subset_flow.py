"""Which way a function runs: may a name be read before it is assigned, may the end be reached without a return?

A loop may run not at all, so what only its body assigns is not certain after it. There is no `while` in the kernel,
no `try`, and no assignment inside an expression, so one walk through the body is enough.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
from collections.abc import Iterable
from dataclasses import dataclass, field

from quoting.site.subset_facts import local_names

Assigned = frozenset[str]


@dataclass
class Flow:
    """What the walk through one function found."""

    early_reads: list[ast.Name] = field(default_factory=list)  # in the order of the walk
    falls_off: bool = False  # some path ends without return or raise


def flow(function: ast.FunctionDef) -> Flow:
    """Walk through a function.

    >>> tree = ast.parse("def f(a: bool) -> int:\\n    if a:\\n        x = 1\\n    return x")
    >>> [name.id for name in flow(tree.body[0]).early_reads]
    ['x']
    """
    walk = _Walk(frozenset(local_names(function)))
    after = walk.block(function.body, frozenset(arg.arg for arg in function.args.args))
    return Flow(walk.early_reads, after is not None)


class _Walk:
    def __init__(self, local: Assigned) -> None:
        self.local = local
        self.early_reads: list[ast.Name] = []

    def block(self, body: Iterable[ast.stmt], assigned: Assigned) -> Assigned | None:
        """What is assigned after the statements; None when none of their paths gets there."""
        for statement in body:
            after = self._statement(statement, assigned)
            if after is None:
                return None
            assigned = after
        return assigned

    def _statement(self, node: ast.stmt, assigned: Assigned) -> Assigned | None:
        match node:
            case ast.If(test=test, body=body, orelse=orelse):
                self._reads(test, assigned)
                return _either(self.block(body, assigned), self.block(orelse, assigned))
            case ast.For(target=target, iter=iterable, body=body):
                self._reads(iterable, assigned)
                self.block(body, assigned | _stored(target))
                return assigned
            case ast.Return() | ast.Raise() | ast.Continue() | ast.Break():
                self._reads(node, assigned)
                return None
        self._reads(node, assigned)
        return assigned | _stored(node)

    def _reads(self, node: ast.AST, assigned: Assigned) -> None:
        loaded = [part for part in ast.walk(node) if isinstance(part, ast.Name) and _is_read(part, node)]
        early = [name for name in loaded if name.id in self.local and name.id not in assigned]
        self.early_reads += sorted(early, key=lambda name: (name.lineno, name.col_offset))


def _is_read(name: ast.Name, statement: ast.AST) -> bool:
    return isinstance(name.ctx, ast.Load) or (isinstance(statement, ast.AugAssign) and name is statement.target)


def _either(one: Assigned | None, other: Assigned | None) -> Assigned | None:
    if one is None or other is None:
        return other if one is None else one
    return one & other


def _stored(node: ast.AST) -> Assigned:
    return frozenset(
        part.id for part in ast.walk(node) if isinstance(part, ast.Name) and isinstance(part.ctx, ast.Store)
    )
