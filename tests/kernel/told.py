"""Every code that the engine can tell, read from the source of all modules that ``quote`` needs."""

import ast
from pathlib import Path

KERNEL = Path(__file__).parents[2] / "quoting" / "kernel"
PACKAGE = "quoting.kernel."


def tree_of(module):
    return ast.parse((KERNEL / f"{module}.py").read_text(encoding="utf-8"))


def needed_by(module):
    """The module and all that it imports, directly or not."""
    found, open_ones = {"records"}, [module]
    while open_ones:
        name = open_ones.pop()
        if name not in found:
            found.add(name)
            imports = (node.module for node in ast.walk(tree_of(name)) if isinstance(node, ast.ImportFrom))
            open_ones += [one.removeprefix(PACKAGE) for one in imports if one.startswith(PACKAGE)]
    return sorted(found - {"records"})


def codes_in(function, teller):
    """The second argument of each call of a teller; where that is ``code``, what was assigned to it."""
    named = {
        node.targets[0].id: node.value.value
        for node in ast.walk(function)
        if isinstance(node, ast.Assign)
        and isinstance(node.targets[0], ast.Name)
        and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(function):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == teller:
            code = node.args[1]
            yield named[code.id] if isinstance(code, ast.Name) else ast.literal_eval(code)


def codes(*tellers):
    """All codes that these functions are called with."""
    functions = [(one, teller) for name in needed_by("quote") for one in tree_of(name).body for teller in tellers]
    return {code for one, teller in functions for code in codes_in(one, teller)}


def everywhere(*tellers):
    """All codes that these functions are called with in any module of the kernel."""
    modules = [path.stem for path in KERNEL.glob("*.py") if path.stem not in ("__init__", "records")]
    return {code for name in modules for one in tree_of(name).body for t in tellers for code in codes_in(one, t)}
