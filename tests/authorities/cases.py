"""Published cases as data: read, checked for their own completeness, handed to the tests.

A case says what is asked, with which inputs, what is expected, to which digit, and where that stands.  ``crosschecks/``
holds what no publication prints: the rule is published, the digits came from another route than the kernel's.
"""

import re
from dataclasses import dataclass
from pathlib import Path

import yaml

HERE = Path(__file__).parent
REQUIRED = {"id", "ask", "statement", "inputs", "expected", "source", "place", "provenance"}
OPTIONAL = {"unit", "last_digit", "within", "why"}
PUBLISHED = {"read", "read (secondary page)", "memory"}
COMPUTED = {
    "computed",
    "formula read, answer computed",
    "problem read, answer by its three-step rule",
    "rule from memory, answer computed",
}
# Arithmetic in binary never meets a decimal number exactly
DUST = 1e-9


@dataclass(frozen=True)
class Case:
    id: str
    ask: str
    statement: str
    inputs: dict
    expected: dict
    source: str
    place: str
    provenance: str
    file: str
    unit: str = ""
    last_digit: object = None
    within: object = None
    why: str = ""

    @property
    def name(self):
        """The id with the source beside it, for the test's name."""
        return f"{self.id}: {self.source}, {self.place} [{self.provenance}]"

    def allowed(self, key):
        """How far a result may lie from the expected value: half of the last printed digit, or what the case allows."""
        if self.within is not None:
            return self.within[key] if isinstance(self.within, dict) else self.within
        digit = self.last_digit[key] if isinstance(self.last_digit, dict) else self.last_digit
        dust = min(DUST, digit / 2) if digit else DUST
        return digit / 2 + dust


def read(path):
    """The cases of one file.   Raises ValueError where one is not whole."""
    found = []
    for record in yaml.safe_load(path.read_text(encoding="utf-8")):
        missing, unknown = REQUIRED - record.keys(), record.keys() - REQUIRED - OPTIONAL
        if missing or unknown:
            raise ValueError(f"{path.name}, {record.get('id')}: missing {missing}, unknown {unknown}")
        if ("last_digit" in record) == ("within" in record) or ("within" in record) != ("why" in record):
            raise ValueError(f"{path.name}, {record['id']}: either last_digit, or within and why")
        record["unit"] = str(record.get("unit", ""))
        found.append(Case(file=path.relative_to(HERE).as_posix(), **record))
    return found


def published():
    """All cases that a publication prints."""
    return [case for path in sorted(HERE.glob("*.yaml")) for case in read(path)]


def crosschecks():
    """All cases whose digits were computed by another route."""
    return [case for path in sorted(HERE.glob("crosschecks/*.yaml")) for case in read(path)]


def sources():
    """The keys that SOURCES.md explains."""
    return set(re.findall(r"^\| `([A-Z0-9-]+)` \|", (HERE / "SOURCES.md").read_text(encoding="utf-8"), re.MULTILINE))
