"""What of the kernel some functions need: themselves, what they call, the constants they read, and nothing else."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
from collections.abc import Collection, Mapping

from quoting.site.subset_facts import bindings, declared

Roots = Mapping[str, Collection[str]]  # module -> names of its functions


def pruned(trees: Mapping[str, ast.Module], roots: Roots) -> dict[str, ast.Module]:
    """The modules that are needed, with what is needed of each.   Raises KeyError for a root that is nowhere.

    >>> trees = {"one": ast.parse("A = 1\\nB = 2\\ndef f(x): return x + A\\ndef g(x): return f(x) + B")}
    >>> print(ast.unparse(pruned(trees, {"one": ["f"]})["one"]))
    A = 1
    <BLANKLINE>
    def f(x):
        return x + A
    """
    homes = {name: declared(tree).imported for name, tree in trees.items()}
    held = {module: _declarations(tree) for module, tree in trees.items()}
    waiting = [(module, name) for module, names in roots.items() for name in names]
    for module, name in waiting:
        held[module][name]  # a root that is nowhere is a fault of ours
    found: dict[str, set[str]] = {module: set() for module in trees}
    while waiting:
        module, name = waiting.pop()
        if name in found[module] or (name not in held[module] and name not in homes[module]):
            continue
        found[module].add(name)
        if name in homes[module]:
            waiting.append((homes[module][name], name))
        else:
            waiting += [(module, one.id) for one in ast.walk(held[module][name]) if isinstance(one, ast.Name)]
    return {module: _left(tree, found[module]) for module, tree in trees.items() if found[module]}


def _declarations(tree: ast.Module) -> dict[str, ast.stmt]:
    """The functions and constants of a module by name."""
    found: dict[str, ast.stmt] = {node.name: node for node in tree.body if isinstance(node, ast.FunctionDef)}
    for node in tree.body:
        found |= {target.id: node for target, _ in bindings(node) if isinstance(target, ast.Name)}
    return found


def _left(tree: ast.Module, names: set[str]) -> ast.Module:
    """A module with these names alone, each in its line."""
    body: list[ast.stmt] = []
    for node in tree.body:
        if isinstance(node, ast.ImportFrom):
            node.names = [alias for alias in node.names if alias.name in names]
            kept = bool(node.names)
        elif isinstance(node, ast.FunctionDef):
            kept = node.name in names
        else:
            kept = any(isinstance(target, ast.Name) and target.id in names for target, _ in bindings(node))
        body += [node] if kept else []
    return ast.Module(body, tree.type_ignores)
