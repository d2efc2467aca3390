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
    "segno": {"quoting.show.qr"},
    "PIL": {"quoting.pictures"},
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


def reached_from(modules):
    """All modules of ours that these import, however far down."""
    found, waiting = set(), [*modules]
    while waiting:
        module = waiting.pop()
        if module not in found:
            found.add(module)
            waiting += GRAPH[module] & MODULES.keys()
    return found


PRIVATE = "quoting.private"


def is_private(module):
    return module == PRIVATE or module.startswith(f"{PRIVATE}.")


def test_nothing_that_makes_a_site_or_a_quote_can_reach_what_is_private():
    """Wholesale costs are read by that room alone: not from the site, nor from anything that a page is made of."""
    makes = [m for m in MODULES if m.startswith(("quoting.site.", "quoting.show.")) or m == "quoting.offers"]
    assert len(makes) > 50
    assert [module for module in reached_from(makes) if is_private(module)] == []


def test_what_is_private_is_shown_by_the_owners_commands_alone():
    users = {m for m, names in GRAPH.items() if not is_private(m) and any(is_private(name) for name in names)}
    assert users == {"quoting.cli.margins", "quoting.cli.owning"}


def test_no_module_is_imported_by_a_name_that_is_made_up_on_the_way():
    """Then what the tests above read in the files is all there is."""
    calls = {
        f"{module}: {ast.unparse(node)}"
        for module, path in MODULES.items()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).split(".")[-1] in ("import_module", "__import__", "exec")
    }
    assert calls == set()


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
