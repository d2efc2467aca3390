"""Small changes to the kernel's functions, one at a time: what a slip of the hand could have written instead.

Operators as in the usual lists for mutation testing (Offutt et al., ACM TOSEM 5 (1996) 99: arithmetic, relational and
logical operator replacement, constants; statement deletion and return values beside them), made on the syntax tree.
"""

import ast
import copy
import hashlib
from dataclasses import dataclass
from pathlib import Path
from types import NoneType

from quoting import kernel

ARITHMETIC = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult}
COMPARED = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
}
JOINED = {ast.And: ast.Or, ast.Or: ast.And}
FOLDER = Path(kernel.__path__[0])


def kernel_files():
    """The modules of the kernel that run."""
    return [path for path in sorted(FOLDER.glob("*.py")) if path.stem not in ("__init__", "records")]


@dataclass(frozen=True)
class Change:
    """One change: where it stands, what it says, and the changed function as code."""

    module: str
    function: str
    line: int
    was: str
    now: str
    code: object
    number: int
    text: str

    @property
    def key(self):
        """What it is known by from one run to the next, as long as its function stands as it does."""
        told = hashlib.sha256(self.text.encode()).hexdigest()[:12]
        return f"{self.module}.{self.function} {told} {self.number} {self.now}"


def replaced(node):
    """What may stand in a node's place."""
    if isinstance(node, ast.Constant):
        yield from other_constants(node.value)
    elif isinstance(node, ast.BinOp) and type(node.op) in ARITHMETIC:
        yield ast.BinOp(node.left, ARITHMETIC[type(node.op)](), node.right)
    elif isinstance(node, ast.AugAssign) and type(node.op) in ARITHMETIC:
        yield ast.AugAssign(node.target, ARITHMETIC[type(node.op)](), node.value)
    elif isinstance(node, ast.Compare) and type(node.ops[0]) in COMPARED:
        yield ast.Compare(node.left, [COMPARED[type(node.ops[0])]()], node.comparators)
    elif isinstance(node, ast.BoolOp):
        yield ast.BoolOp(JOINED[type(node.op)](), node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.Continue):
        yield ast.Break()
    elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        yield ast.Pass()
    elif isinstance(node, ast.Return) and not isinstance(node.value, ast.Constant | NoneType):
        yield ast.Return(ast.Constant(None))


def other_constants(value):
    """Another number, the other truth, another text."""
    if isinstance(value, bool):
        yield ast.Constant(not value)
    elif isinstance(value, int | float):
        yield ast.Constant(value + 1)
    elif isinstance(value, str) and value:
        yield ast.Constant(value + "x")


class Swap(ast.NodeTransformer):
    """Puts one node in the place of another, found by its number in the walk."""

    def __init__(self, wanted, other):
        self.wanted, self.other = wanted, other

    def visit(self, node):
        return ast.copy_location(self.other, node) if node is self.wanted else self.generic_visit(node)


def skipped(function):
    """Docstring and annotations: what does not run."""
    parts = [function.returns, *(argument.annotation for argument in function.args.args)]
    parts += [node.annotation for node in ast.walk(function) if isinstance(node, ast.AnnAssign)]
    first = function.body[0]
    parts += [first] if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) else []
    parts += [node.exc for node in ast.walk(function) if isinstance(node, ast.Raise)]
    return {id(inner) for part in parts if part is not None for inner in ast.walk(part)}


def compiled(function, filename):
    """The code object of one function."""
    module = ast.fix_missing_locations(ast.Module([function], []))
    made = compile(module, filename, "exec", dont_inherit=True, flags=0)
    return next(one for one in made.co_consts if hasattr(one, "co_code") and one.co_name == function.name)


def changes_of(path):
    """All changes of one module."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for function in [node for node in tree.body if isinstance(node, ast.FunctionDef)]:
        left_out = skipped(function)
        nodes, text = list(ast.walk(function)), ast.unparse(function)
        for number, node in enumerate(nodes):
            if id(node) in left_out:
                continue
            for _ in replaced(node):
                twin = copy.deepcopy(function)
                there = list(ast.walk(twin))[number]
                other = next(iter(replaced(there)))
                was, now = ast.unparse(there), ast.unparse(ast.fix_missing_locations(copy.deepcopy(other)))
                twin = Swap(there, other).visit(twin)
                twin.returns = None
                for argument in twin.args.args:
                    argument.annotation = None
                code = compiled(twin, str(path))
                line = node.lineno if hasattr(node, "lineno") else 0
                yield Change(path.stem, function.name, line, was, now, code, number, text)


def noting(path):
    """Each function of a module as code that first calls `_noted` with its own name: [(name, code)]."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for function in [node for node in tree.body if isinstance(node, ast.FunctionDef)]:
        function.body.insert(0, ast.parse(f"_noted(({path.stem!r}, {function.name!r}))").body[0])
        function.returns = None
        for argument in function.args.args:
            argument.annotation = None
        yield function.name, compiled(function, str(path))


def all_changes():
    """All changes of the kernel, module by module."""
    for path in kernel_files():
        yield from changes_of(path)
