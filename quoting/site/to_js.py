"""The kernel as plain JavaScript: one script a module, line N of Python on line N of JavaScript.

Each script adds its functions and constants to `globalThis.bevelKernel`, so that pages opened from disk work too (a
browser loads no ES modules from there). `runtime.js` comes first; it holds what makes JavaScript raise where Python
raises: a missing key, an index past the end, a division by zero, the root of a negative number, null or undefined or
text in arithmetic, a wrong number of arguments.

JavaScript is stricter where it could not follow; tests/site/snippets/stricter.txt shows each case. These raise: a
result of arithmetic or a root that is no number (NaN) or beyond 2^53 - 1, an index below zero, a bool used as a number
or a number as a condition, == between values of different kinds, letters of a text, an argument or result unlike its
annotation. A NaN that is given is compared as in Python: nothing is below it, above it or equal to it.

Three differences remain, and mypy with the annotations closes them: 2.0 is as whole as 2 (as an index, in range); 0 may
carry a minus sign (it equals 0 and nothing can be divided by it, but a formatter may show the sign); an argument that
is annotated as a dict is looked at only when one of its keys is read.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from pathlib import Path

from quoting import kernel
from quoting.findings import Finding
from quoting.site.subset import refusals
from quoting.site.subset_facts import KERNEL, RECORDS, Declared, Kind, Report, annotated, bindings, declared, lines_of
from quoting.site.subset_words import is_constant_name
from quoting.site.to_js_bundle import bundle
from quoting.site.to_js_expressions import Expressions, Lines
from quoting.site.to_js_needed import Roots, pruned
from quoting.site.to_js_short import shortened
from quoting.site.to_js_statements import write_function

RUNTIME = "runtime"
SPDX = "# SPDX-License-Identifier:"

_LETTERS: dict[Kind | None, str] = {"number": "n", "bool": "b", "text": "t", "list": "l"}  # as in runtime.js
_IDENTIFIER = re.compile(r"[a-z_][a-z0-9_]*")


class OutsideSubsetError(ValueError):
    """The kernel holds what cannot be translated; `findings` says where, what and why."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__("\n".join(str(finding) for finding in findings))
        self.findings = findings


@dataclass(frozen=True)
class _File:
    name: str
    filename: str
    source: str
    tree: ast.Module
    module: Declared


def kernel_paths() -> list[Path]:
    """The files of the kernel that reach the page: all but the package's own and the records for annotations."""
    folder = Path(kernel.__path__[0])
    return [path for path in sorted(folder.glob("*.py")) if path.stem not in ("__init__", RECORDS.split(".")[-1])]


def emit(paths: Iterable[Path], short: bool = False, roots: Roots | None = None) -> dict[str, str]:
    """File name -> JavaScript, runtime.js first and each module after those it imports.

    ``short``: with short names for what is local; ``roots``: these functions and what they need, no more. These
    alone are doors then, and of the others a script shares what another one calls.

    Raises OutsideSubsetError with all the findings when anything in the files cannot be translated.
    """
    sources = {str(path): path.read_text(encoding="utf-8") for path in sorted(paths)}
    findings = [finding for filename, source in sources.items() for finding in refusals(source, filename)]
    if findings:
        raise OutsideSubsetError(findings)
    trees = {Path(filename).stem: ast.parse(source, filename) for filename, source in sources.items()}
    trees = trees if roots is None else pruned(trees, roots)
    files = {}
    for filename, source in sources.items():
        if (name := Path(filename).stem) in trees:
            tree = shortened(trees[name]) if short else trees[name]
            files[name] = _File(name, filename, source, tree, declared(tree))
    findings = [finding for file in files.values() for finding in _across(file, files)]
    ordered = _ordered(files, findings)
    if findings:
        raise OutsideSubsetError(findings)
    runtime = Path(__file__).with_name("runtime.js").read_text(encoding="utf-8")
    lent = None if roots is None else {pair for file in ordered for pair in file.module.imported.items()}
    scripts = {RUNTIME: runtime}
    for file in ordered:
        scripts[file.name] = _script(file, _linked(file, files), _shared(file, roots, lent))
    return {f"{name}.js": script for name, script in scripts.items()}


def _across(file: _File, files: dict[str, _File]) -> list[Finding]:
    """What one file alone cannot know: do its imports exist, and are they called with what they take?"""
    report = Report(file.source, file.filename)
    if file.name == RUNTIME or not _IDENTIFIER.fullmatch(file.name):
        report.refuse(file.tree, "name-reserved", f"no module of the kernel can be called {file.name}")
    for node in file.tree.body:
        for alias in node.names if isinstance(node, ast.ImportFrom) else []:
            home = files.get(file.module.imported.get(alias.name, ""))
            given = home is not None and (alias.name in home.module.functions or alias.name in home.module.constants)
            if alias.name in file.module.imported and not given:
                report.refuse(alias, "import-refused", f"{file.module.imported[alias.name]} has no such name")
    for call in ast.walk(file.tree):
        if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name):
            continue
        home = files.get(file.module.imported.get(call.func.id, ""))
        if home is not None and call.func.id in home.module.functions:
            wanted = len(home.module.functions[call.func.id].args.args)
            if len(call.args) != wanted:
                report.refuse(call, "wrong-call", f"takes {wanted} arguments, given {len(call.args)}")
    return report.findings


def _ordered(files: dict[str, _File], findings: list[Finding]) -> list[_File]:
    """Each file after those it imports; what is in a circle becomes a finding."""
    ordered: list[_File] = []
    left = dict(sorted(files.items()))
    while left:
        free = [name for name, file in left.items() if not _homes(file) & left.keys()]
        if not free:
            break
        ordered += [left.pop(name) for name in free]
    while left:
        needed = {home for file in left.values() for home in _homes(file)}
        if left.keys() <= needed:
            break
        left = {name: file for name, file in left.items() if name in needed}  # waits for a circle, is in none
    for file in left.values():
        report = Report(file.source, file.filename)
        for node in file.tree.body:
            if isinstance(node, ast.ImportFrom) and str(node.module).removeprefix(KERNEL) in left:
                report.refuse(node, "import-circle", "the modules import each other in a circle")
        findings += report.findings
    return ordered


def _homes(file: _File) -> set[str]:
    return set(file.module.imported.values())


def _linked(file: _File, files: dict[str, _File]) -> Declared:
    """What a file declares and imports, all of it with what its home says about it."""
    functions = dict(file.module.functions)
    constants = dict(file.module.constants)
    for name, home in file.module.imported.items():
        there = files[home].module
        if name in there.functions:
            functions[name] = there.functions[name]
        else:
            constants[name] = there.constants[name]
    return Declared(functions, constants, file.module.imported)


def _script(file: _File, module: Declared, shared: str) -> str:
    out = Lines()
    for node in file.tree.body:
        _top(out, module, node)
    written = lines_of(file.source)
    out.lines += [""] * (len(written) - len(out.lines))
    end = f"{out.use('share')}({shared}); }})((globalThis.bevelKernel ??= {{}}));"
    helpers = ", ".join(f"{helper}: ${helper}" for helper in sorted(out.helpers))
    out.lines[0] = f'(function ($K) {{ "use strict"; const {{{helpers}}} = $K.{RUNTIME};{out.lines[0]}'
    out.lines[-1] = f"{out.lines[-1]} {end}" if out.lines[-1].strip() else end
    for number, line in enumerate(written[:-1]):
        if line.startswith(SPDX) and not out.lines[number].strip():
            out.lines[number] = "//" + line[1:]
    return "\n".join(line.rstrip() for line in out.lines) + "\n"


def _shared(file: _File, roots: Roots | None, lent: Collection[tuple[str, str]] | None) -> str:
    """The arguments of `share`: what others call, and what each function that pages call demands of its arguments.

    ``lent`` are names and homes of what scripts take from each other.  With None for both all public names are called.
    """
    public = [name for name in (*file.module.functions, *file.module.constants) if not name.startswith("_")]
    doors = public if roots is None else roots.get(file.name, ())
    names = [name for name in public if lent is None or name in doors or (name, file.name) in lent]
    kinds = []
    for name, node in file.module.functions.items():
        if name in doors:
            letters = "".join(_LETTERS.get(annotated(argument.annotation), "-") for argument in node.args.args)
            kinds.append(f'{name}: "{letters}"')
    return f'"{file.name}", {{{", ".join(names)}}}, {{{", ".join(kinds)}}}'


def _top(out: Lines, module: Declared, node: ast.stmt) -> None:
    """One thing at the top level; docstrings, annotations' records and `math` leave nothing in JavaScript."""
    if isinstance(node, ast.FunctionDef):
        write_function(out, module, node)
    elif isinstance(node, ast.ImportFrom) and node.names[0].name in module.imported:
        out.at(node)
        home = module.imported[node.names[0].name]
        out.put(f"const {{{', '.join(alias.name for alias in node.names)}}} = {out.use('inner')}.{home};")
    for target, value in bindings(node):
        assert isinstance(target, ast.Name)  # as the subset demands
        assert value is not None
        assert is_constant_name(target.id)
        out.at(node)
        out.put(f"const {target.id} = ")
        Expressions(out, module, module.constants).value(value)
        out.put(";")


def main(arguments: list[str]) -> int:
    """`python -m quoting.site.to_js FILE`: write the kernel as one script. 1: it cannot be translated, 2: misuse."""
    if len(arguments) != 1:
        print("python -m quoting.site.to_js FILE: writes the kernel as one script", file=sys.stderr)
        return 2
    try:
        script = bundle(emit(kernel_paths()))
    except OutsideSubsetError as refused:
        print(refused, file=sys.stderr)
        return 1
    Path(arguments[0]).write_text(script, encoding="utf-8", newline="")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
