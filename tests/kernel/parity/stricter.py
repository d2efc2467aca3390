"""The kernel in CPython with what JavaScript is stricter about, as the docstring of quoting/site/to_js.py tells it.

Only where JavaScript raises and CPython goes on is this asked: does a number there really leave what both can count
exactly, or is it none?  So such an error is never taken on trust.
"""

import ast
import math

from quoting.site import to_js

GREATEST = 2**53 - 1


def result(x):
    """A result of arithmetic."""
    if x != x:
        raise ValueError("the result is not a number")
    if abs(x) > GREATEST:
        raise OverflowError("the result is beyond 2^53 - 1")
    return x


class Roots:
    """`math` as the kernel uses it."""

    floor = staticmethod(math.floor)

    @staticmethod
    def sqrt(x):
        return result(math.sqrt(x)) if x != math.inf else x


def item(xs, i):
    """An element of a list: no index below zero."""
    if isinstance(i, int | float) and i < 0:
        raise IndexError("an index below zero")
    return xs[i]


class _Stricter(ast.NodeTransformer):
    def visit_BinOp(self, node):
        return _call("_result", self.generic_visit(node))

    def visit_Subscript(self, node):
        self.generic_visit(node)
        named = isinstance(node.slice, ast.Constant) and isinstance(node.slice.value, str)
        return node if named or not isinstance(node.ctx, ast.Load) else _call("_item", node.value, node.slice)

    def visit_AugAssign(self, node):
        self.generic_visit(node)
        read = ast.parse(ast.unparse(node.target), mode="eval").body
        return ast.Assign([node.target], _call("_result", ast.BinOp(read, node.op, node.value)))

    def visit_FunctionDef(self, node):
        node.body = [self.visit(part) for part in node.body]
        node.returns = None
        for argument in node.args.args:
            argument.annotation = None
        return node


def _call(name, *arguments):
    return ast.Call(ast.Name(name, ast.Load()), list(arguments), [])


def kernel():
    """Name of each module -> a namespace with its functions."""
    paths = {path.stem: path for path in to_js.kernel_paths()}
    made = {}
    for filename in list(to_js.emit(paths.values()))[1:]:
        name = filename.removesuffix(".js")
        tree = ast.parse(paths[name].read_text(encoding="utf-8"))
        space = {"_result": result, "_item": item, "math": Roots}
        for node in tree.body:
            home = made.get(str(node.module).split(".")[-1]) if isinstance(node, ast.ImportFrom) else None
            space |= {alias.name: home[alias.name] for alias in node.names} if home else {}
        tree.body = [node for node in tree.body if not isinstance(node, ast.ImportFrom | ast.Import)]
        exec(compile(ast.fix_missing_locations(_Stricter().visit(tree)), filename, "exec", dont_inherit=True), space)
        made[name] = space
    return made
