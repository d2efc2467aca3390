"""The small subset of Python in which the engine's kernel is written: what it holds, and what it refuses.

The same file runs under CPython and, translated line by line, in a visitor's page. So only what means the same in
both languages is allowed, or what the translation can check while it runs; everything else is a finding with the
place, the expression, and what to write instead. Allowed are

- at the top: a docstring, `from __future__ import annotations`, `import math`, names from other kernel modules,
  CONSTANTS (numbers, texts, bools, lists of those, arithmetic on them), functions with annotated positional parameters;
- as statements: `x = ...`, `x: T = ...`, `d["key"] = ...`, `xs[i] = ...`, `+=` `-=` `*=`, if/elif/else, `for i in
  range(...)`, `for x in xs`, return, continue, break, `raise ValueError("...")`, `xs.append(x)`, calls of functions;
- as expressions: numbers, texts, True, False, names, `+ - * / //`, single comparisons, and/or/not over bools, calls by
  position of kernel functions, `len abs math.sqrt math.floor`, lists, dicts with keys written out, `d["key"]`, `xs[i]`.

>>> for finding in refusals("def half(x: float) -> float:\\n    return x ** 2\\n", "size.py"):
...     print(finding)
size.py:2:12: error: `x ** 2`: the arithmetic of the kernel is + - * / // [not-in-subset]
2 |     return x ** 2
  |            ^^^^^^
hint: multiply
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
import warnings

from quoting.findings import Finding, Mark, in_order
from quoting.site.subset_expressions import Expressions
from quoting.site.subset_facts import KERNEL, RECORDS, Declared, Report, declared, kinds_in, local_names
from quoting.site.subset_flow import flow
from quoting.site.subset_hints import outside
from quoting.site.subset_statements import Statements
from quoting.site.subset_words import is_constant_name, why_no_name

_IN_A_CONSTANT = (ast.Call, ast.Dict, ast.Subscript, ast.Compare, ast.BoolOp, ast.Not)


def refusals(source: str, filename: str) -> list[Finding]:
    """Everything in a kernel file that is outside the subset, in the order of its lines.

    >>> refusals("LIMIT = 4.0\\n", "limits.py")
    []
    """
    report = Report(source, filename)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")  # a doubtful escape is a fault here
            compile(source, filename, "exec", dont_inherit=True)
        tree = ast.parse(source, filename)
    except SyntaxError as fault:
        line = fault.text.rstrip("\n") if fault.text else ""
        mark = Mark(filename, fault.lineno or 1, fault.offset or 1, line)
        return [Finding(mark, "unparsable", f"Python cannot read this: {fault.msg}")]
    except ValueError as fault:
        return [Finding(Mark(filename, 1, 1), "unparsable", f"Python cannot read this: {fault}")]
    _Module(report, tree).check()
    return in_order(report.findings)


class _Module:
    """Checks the top level of a file, and each function in turn."""

    def __init__(self, report: Report, tree: ast.Module) -> None:
        self.report = report
        self.tree = tree
        self.module = declared(tree)
        self.taken: set[str] = set()
        self.has_math = any(isinstance(node, ast.Import) for node in tree.body)

    def check(self) -> None:
        for position, node in enumerate(self.tree.body):
            match node:
                case ast.Expr(value=ast.Constant(value=str())) if position == 0:
                    pass  # the docstring
                case ast.Import():
                    self._import(node)
                case ast.ImportFrom():
                    self._import_from(node)
                case (
                    ast.Assign(targets=[target], value=value) | ast.AnnAssign(target=target, value=ast.expr() as value)
                ):
                    self._constant(target, value)
                case ast.FunctionDef():
                    self._function(node)
                case _:
                    what, hint = outside(node)
                    why = f"{what} at the top level is outside the kernel subset"
                    self.report.refuse(node, "not-in-subset", why, hint)

    def _take(self, node: ast.AST, name: str) -> None:
        """A top-level name is taken once and for all."""
        why = why_no_name(name)
        if why:
            self.report.refuse(node, "name-reserved", why)
        elif name in self.taken:
            self.report.refuse(node, "name-taken", f"`{name}` already means something in this file")
        self.taken.add(name)

    def _import(self, node: ast.Import) -> None:
        if [(alias.name, alias.asname) for alias in node.names] != [("math", None)]:
            self.report.refuse(node, "import-refused", "the kernel imports math and itself only")
            return
        self._take(node, "math")

    def _import_from(self, node: ast.ImportFrom) -> None:
        module = node.module or ""
        if module == "__future__" and [alias.name for alias in node.names] == ["annotations"]:
            return
        known = module.startswith(KERNEL) and module.count(".") == KERNEL.count(".") and node.level == 0
        if not known:
            self.report.refuse(node, "import-refused", "the kernel imports math and itself only")
            return
        for alias in node.names:
            if alias.asname or alias.name == "*" or alias.name.startswith("_"):
                why = "a name is imported as it is, and never a private one"
                self.report.refuse(alias, "import-refused", why)
            elif module != RECORDS:
                self._take(alias, alias.name)

    def _constant(self, target: ast.expr, value: ast.expr) -> None:
        if not isinstance(target, ast.Name) or not is_constant_name(target.id):
            why = "only constants in CAPITALS stand at the top level"
            self.report.refuse(target, "not-in-subset", why, "move it into a function")
            return
        self._take(target, target.id)
        for part in ast.walk(value):
            if isinstance(part, _IN_A_CONSTANT):
                shown = part if hasattr(part, "lineno") else value
                why = "a constant is a number, a text, a bool, a list of those, or arithmetic on them"
                self.report.refuse(shown, "not-in-subset", why)
                return
        above = {name: kind for name, kind in self.module.constants.items() if name in self.taken - {target.id}}
        seen = Declared({}, above, self.module.imported)
        Expressions(self.report, seen, frozenset(), above, self.has_math).value(value)

    def _function(self, node: ast.FunctionDef) -> None:
        self._take(node, node.name)
        if is_constant_name(node.name):
            self.report.refuse(node, "name-reserved", "capitals are for constants", "write it in small letters")
        for decorator in node.decorator_list:
            self.report.refuse(decorator, "not-in-subset", "a decorator is outside the kernel subset")
        for parameter in getattr(node, "type_params", []):
            self.report.refuse(parameter, "not-in-subset", "a type parameter is outside the kernel subset")
        self._arguments(node)
        local = frozenset(local_names(node)) | {argument.arg for argument in node.args.args}
        kinds = kinds_in(node, self.module)
        expressions = Expressions(self.report, self.module, local, kinds, self.has_math)
        body = node.body[1:] if ast.get_docstring(node, clean=False) is not None else node.body
        statements = Statements(expressions, node)
        for argument in node.args.args:
            statements.new_name(argument, argument.arg)
        statements.block(body)
        self._flow(node, statements.gives_nothing)

    def _arguments(self, node: ast.FunctionDef) -> None:
        arguments = node.args
        for default in [*arguments.defaults, *(given for given in arguments.kw_defaults if given)]:
            self.report.refuse(default, "not-in-subset", "a default is outside the kernel subset", "pass it")
        others = [*arguments.posonlyargs, *arguments.kwonlyargs, arguments.vararg, arguments.kwarg]
        for other in others:
            if other is not None:
                self.report.refuse(other, "not-in-subset", "parameters are plain and positional")
        for argument in arguments.args:
            if argument.annotation is None:
                self.report.refuse(argument, "no-annotation", "a parameter says what it is", "write x: float")
        if node.returns is None:
            self.report.refuse(node, "no-annotation", "a function says what it returns", "write -> float, or -> None")

    def _flow(self, node: ast.FunctionDef, gives_nothing: bool) -> None:
        found = flow(node)
        for name in found.early_reads:
            why = "on some path nothing is assigned to it before this line"
            self.report.refuse(name, "maybe-unassigned", why, "assign it before the if or the loop")
        if found.falls_off and not gives_nothing:
            self.report.refuse(node, "no-return", "some path ends without a return", "end with return or raise")
