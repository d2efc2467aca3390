"""The house stands as DEVELOPERS.md says: nobody imports upward, nothing in circles, each library by its one door."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "quoting"
ROW = re.compile(r"^\| (?P<floor>[0-9]+) \| (?P<rooms>[^|]+) \|")
DOORS = {
    "yaml": {"quoting.nodes"},
    "click": {"quoting.cli"},
    "rich": {"quoting.cli"},
    "pelican": {"quoting.site"},
    "babel": {"quoting.locales"},
    "openpyxl": {"quoting.keeping.sheet"},
    "cryptography": {"quoting.quoted.signing"},
}


def floors():
    """Room -> floor, from the table in DEVELOPERS.md."""
    table = {}
    for line in (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").splitlines():
        if match := ROW.match(line):
            for room in re.findall(r"`([^`]+)`", match["rooms"]):
                table["quoting." + room.removesuffix("/").removesuffix(".py").replace("/", ".")] = int(match["floor"])
    return table


FLOORS = floors()


def module_of(path):
    dotted = ".".join(path.relative_to(ROOT).with_suffix("").parts)
    return dotted.removesuffix(".__init__")


def room_of(module):
    rooms = [room for room in FLOORS if module == room or module.startswith(room + ".")]
    return max(rooms, key=len, default=None)


MODULES = {module_of(path): path for path in sorted(PACKAGE.rglob("*.py")) if "share" not in path.parts}


def imports_of(path):
    """Whole names of all modules that a file imports, wherever in it."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names = {f"{node.module}.{alias.name}" for alias in node.names}
            found |= {name if name in MODULES else node.module for name in names}
    return found


GRAPH = {module: imports_of(path) for module, path in MODULES.items()}


def test_every_module_has_a_room():
    assert [module for module in MODULES if module != "quoting" and room_of(module) is None] == []


def test_every_room_of_the_table_stands():
    assert [room for room in FLOORS if not any(m == room or m.startswith(room + ".") for m in MODULES)] == []


def test_no_module_imports_upward():
    wrong = [
        f"{one} (floor {FLOORS[room_of(one)]}) imports {other} (floor {FLOORS[room_of(other)]})"
        for one, others in GRAPH.items()
        for other in sorted(others)
        if other in MODULES
        and other != "quoting"
        and one != "quoting"
        and room_of(one) != room_of(other)
        and FLOORS[room_of(other)] >= FLOORS[room_of(one)]
    ]
    assert wrong == []


def test_no_circles():
    seen, path = set(), []

    def walk(module):
        assert module not in path, f"a circle: {[*path[path.index(module) :], module]}"
        if module in seen:
            return
        path.append(module)
        for other in sorted(GRAPH[module] & MODULES.keys() - {"quoting"}):
            walk(other)
        path.pop()
        seen.add(module)

    for module in MODULES:
        walk(module)


@pytest.mark.parametrize("library", DOORS)
def test_each_library_enters_by_one_door(library):
    users = {m for m, names in GRAPH.items() if any(n == library or n.startswith(library + ".") for n in names)}
    outside = {m for m in users if not any(m == door or m.startswith(door + ".") for door in DOORS[library])}
    assert users
    assert outside == set()


def test_modules_stay_under_250_lines():
    """But for the kernel's records: a list of declarations that nobody reads through and none may split."""
    lines = {m: len(path.read_text(encoding="utf-8").splitlines()) for m, path in MODULES.items()}
    long = {m: n for m, n in lines.items() if n > 250 and m != "quoting.kernel.records"}
    assert long == {}
