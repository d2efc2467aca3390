"""Short names for what is local to a function of the kernel: a page fetches a sixth less, and runs the same.

Names of functions, constants and modules stay, and so do lines: an error still tells its function and its line.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
from collections.abc import Iterator
from itertools import product
from string import ascii_letters

from quoting.site.subset_facts import local_names
from quoting.site.subset_words import RESERVED


def shortened(tree: ast.Module) -> ast.Module:
    """The same tree, changed in place.

    >>> print(ast.unparse(shortened(ast.parse("def area(wide, high): size = wide * high; return size"))))
    def area(a, b):
        c = a * b
        return c
    """
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            _shorten(node)
    return tree


def _shorten(function: ast.FunctionDef) -> None:
    local = [*(one.arg for one in function.args.args), *local_names(function)]
    kept = {one.id for one in ast.walk(function) if isinstance(one, ast.Name)} - set(local)
    short = dict(zip(local, (name for name in _names() if name not in kept), strict=False))
    for one in ast.walk(function):
        if isinstance(one, ast.Name):
            one.id = short.get(one.id, one.id)
        elif isinstance(one, ast.arg):
            one.arg = short[one.arg]


def _names() -> Iterator[str]:
    """a to Z, then aa and so on, without the words that JavaScript keeps."""
    yield from ascii_letters
    yield from (name for name in map("".join, product(ascii_letters, repeat=2)) if name not in RESERVED)
