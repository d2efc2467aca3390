"""Calls of every public function of the kernel, found in its folder: [module, function, arguments].

Arguments follow from the annotations; so a new module is called as soon as it lies there.  A text is one that stands
somewhere in the kernel; a record has its fields' kinds, or is cut out of a whole job.
"""

import ast
import importlib
import inspect
import math
import random
import typing

from quoting.kernel import records
from quoting.site import to_js
from tests.kernel.parity import dyeing, making

CALLS_EACH = 30
CALLS_WITH_JOB = 10  # a whole job is more than one case, and costs more
NUMBERS = (0.0, 1.0, -1.0, 0.5, -0.25, 2.0, 4.25, -6.0, 8.0, 15.0, 30.0, 45.0, 90.0, -180.0, 400.0, 1.5, 1.6, 1e-9)
WHOLES = (0, 1, 2, 3, 5, 7, -1, 10, 99, 625, 10000, 12345)
OF_A_JOB = ("frame", "package", "limits", "measures", "money")

# What numbers of these names usually are, so that most calls get past the first line of a function: least, greatest
USUAL = {
    "index": (1.48, 1.9), "center": (0.8, 12.0), "center_mm": (0.8, 12.0), "x": (-35.0, 35.0), "y": (-35.0, 35.0),
    "front": (0.0, 11.0), "curvature": (-0.02, 0.02), "conic": (-2.0, 1.0), "sphere": (-12.0, 10.0),
    "cylinder": (-5.0, 5.0), "wedge_x": (-0.1, 0.1), "wedge_y": (-0.1, 0.1), "wanted": (0.02, 0.9), "depth": (0.0, 3.0),
}  # fmt: skip
DIRECTIONS = ("direction", "before", "inside", "after")
# Spectra, what belongs to three dyes, and colors
SPECTRA = ("spectrum", "spectra", "dyes", "layer", "densities", "passed", "ground")
THREE = {"dyes": (0.0, 1.0), "parts": (0.0, 4.0), "color": (5.0, 90.0), "on_white": (0.0, 1.0), "on_black": (0.0, 1.0)}


def modules():
    """Name of each module that reaches the page -> the module."""
    return {path.stem: importlib.import_module(f"quoting.kernel.{path.stem}") for path in to_js.kernel_paths()}


def public_functions(module):
    """Those that a page can call, in the order of their names."""
    own = inspect.getmembers(module, inspect.isfunction)
    return [f for name, f in own if f.__module__ == module.__name__ and not name.startswith("_")]


def words(source):
    """Every text that a piece of the kernel compares with or gives, docstrings aside."""
    tree = ast.parse(source)
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    texts = (node for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in docs)
    return [node.value for node in texts if isinstance(node.value, str)]


class Maker:
    """Makes arguments of the kinds that annotations name."""

    def __init__(self, seeded, texts):
        self.seeded = seeded
        self.texts = texts

    def make(self, kind, name=""):
        if typing.is_typeddict(kind):
            return self._record(kind)
        if typing.get_origin(kind) is list:
            return self._list(typing.get_args(kind)[0], name)
        if kind is bool:
            return self.seeded.random() < 0.5
        if kind is int:
            return self.seeded.choice(WHOLES)
        if kind is str:
            return self.seeded.choice(self.texts)
        assert kind is float, f"no argument can be made of {kind}"
        return self._number(name)

    def _number(self, name):
        if name in USUAL and self.seeded.random() < 0.8:
            return round(self.seeded.uniform(*USUAL[name]), 3)
        if self.seeded.random() < 0.5:
            return self.seeded.choice(NUMBERS)
        return self.seeded.uniform(-20, 20) if self.seeded.random() < 0.6 else self.seeded.uniform(-400, 400)

    def _list(self, kind, name):
        if kind is float and name in ("xs", "ys"):
            return making.job(self.seeded)["frame"][name]
        if kind is float and name in DIRECTIONS and self.seeded.random() < 0.8:
            return self._direction()
        if kind is float and name in SPECTRA and self.seeded.random() < 0.95:
            return dyeing.curve(self.seeded)
        if name in THREE and self.seeded.random() < 0.95:
            least, most = THREE[name]
            return [self.make(kind, name) if kind is not float else self.seeded.uniform(least, most) for _ in range(3)]
        return [self.make(kind, name) for _ in range(self.seeded.choice((0, 1, 2, 3, 4, 4, 8)))]

    def _direction(self):
        """A unit vector within some 40 degrees of the z axis."""
        x, y = self.seeded.uniform(-0.5, 0.5), self.seeded.uniform(-0.5, 0.5)
        length = math.sqrt(x * x + y * y + 1.0)
        return [x / length, y / length, 1.0 / length]

    def _record(self, kind):
        if kind is records.Job:
            return making.job(self.seeded)
        if kind is records.Glass:
            return dyeing.glass(self.seeded)
        if kind is records.Tint:
            return dyeing.tint(self.seeded)
        field = kind.__name__.lower()
        if field in OF_A_JOB and self.seeded.random() < 0.7:
            return making.job(self.seeded)[field]
        return {name: self.make(part, name) for name, part in typing.get_type_hints(kind).items()}


def by_annotation(f, module):
    """Calls of one function with arguments as it says them; texts of its own come up more often than its module's."""
    seeded = random.Random(f"calls {f.__module__}.{f.__name__}")
    hints = typing.get_type_hints(f, vars(records))
    texts = words(inspect.getsource(f)) * 20 + words(inspect.getsource(module)) + ["", "no such word", "progressive"]
    maker, names = Maker(seeded, texts), list(inspect.signature(f).parameters)
    name, each = f.__module__.split(".")[-1], CALLS_WITH_JOB if records.Job in hints.values() else CALLS_EACH
    return [[name, f.__name__, [maker.make(hints[one], one) for one in names]] for _ in range(each)]


def all_by_annotation():
    """The calls of all functions."""
    return [
        call for module in modules().values() for f in public_functions(module) for call in by_annotation(f, module)
    ]
