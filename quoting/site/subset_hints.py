"""What to write instead of what the kernel subset leaves out."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast

from quoting.site.subset_facts import Kind

_OUTSIDE = {
    # expressions
    "IfExp": ("a conditional expression", "write an if statement"),
    "ListComp": ("a comprehension", "write a for loop and append"),
    "SetComp": ("a comprehension", "write a for loop and append"),
    "DictComp": ("a comprehension", "write a for loop"),
    "GeneratorExp": ("a generator", "write a for loop"),
    "Lambda": ("a lambda", "write a function at module level"),
    "NamedExpr": ("an assignment inside an expression", "assign on a line of its own"),
    "JoinedStr": ("formatting", "texts are made outside the kernel"),
    "TemplateStr": ("formatting", "texts are made outside the kernel"),
    "Tuple": ("a tuple", "write a list"),
    "Set": ("a set", "write a list"),
    "Starred": ("an unpacking", "write the elements out"),
    "Await": ("waiting", "the kernel only computes"),
    "Yield": ("a generator", "return a list"),
    "YieldFrom": ("a generator", "return a list"),
    # statements
    "While": ("a while loop", "write for ... in range(MOST_ROUNDS) with a break"),
    "Try": ("try", "what is wrong with a job is a reason code, never an exception"),
    "TryStar": ("try", "what is wrong with a job is a reason code, never an exception"),
    "With": ("with", "the kernel only computes"),
    "AsyncWith": ("with", "the kernel only computes"),
    "AsyncFor": ("waiting", "the kernel only computes"),
    "AsyncFunctionDef": ("waiting", "the kernel only computes"),
    "ClassDef": ("a class", "describe dicts by a TypedDict in records"),
    "FunctionDef": ("a function inside another", "write it at module level"),
    "Match": ("match", "write if and elif"),
    "Assert": ("assert", 'write if ...: raise ValueError("...")'),
    "Delete": ("del", "make a new list or dict"),
    "Global": ("global", "pass the value in and return it"),
    "Nonlocal": ("nonlocal", "pass the value in and return it"),
    "Import": ("an import here", "import at the top; the kernel has math and itself"),
    "ImportFrom": ("an import here", "import at the top; the kernel has math and itself"),
    "Pass": ("pass", "leave the branch out"),
    "TypeAlias": ("a type alias", "describe dicts by a TypedDict in records"),
}

CALLS = {
    "round": "put it on its grid: math.floor(x * 100.0 + 0.5) / 100.0",
    "min": "write a function with an if",
    "max": "write a function with an if",
    "sum": "write a for loop and +=",
    "int": "write math.floor",
    "float": "whole numbers and floats mix freely",
    "sorted": "sort outside the kernel",
    "enumerate": "write for i in range(len(xs))",
    "zip": "write for i in range(len(xs))",
    "print": "the kernel only computes",
    "str": "texts are made outside the kernel",
    "isinstance": "the annotations say what a value is",
}

KIND_WORDS: dict[Kind | None, str] = {
    "number": "a number",
    "bool": "a bool",
    "text": "a text",
    "list": "a list",
    "dict": "a dict",
    "nothing": "nothing",
}


def outside(node: ast.AST) -> tuple[str, str]:
    """What a construct outside the subset is called, and what to write instead.

    >>> outside(ast.parse("while x: pass").body[0])
    ('a while loop', 'write for ... in range(MOST_ROUNDS) with a break')
    """
    name = type(node).__name__
    return _OUTSIDE.get(name, (f"a {name}", ""))
