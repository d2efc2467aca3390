"""A new shop from a few answers: commented files that check clean, laid out whole or not at all."""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from dataclasses import asdict, dataclass, fields
from datetime import date
from pathlib import Path

from quoting.catalog.load import load
from quoting.catalog.model import Frame, Package
from quoting.catalog.read_prices import read_prices
from quoting.catalog.read_shop import read_shop
from quoting.catalog.table import Table
from quoting.catalog.words import PRICE_WORDS, SHOP_WORDS
from quoting.findings import Finding
from quoting.keeping.scalars import scalar
from quoting.keeping.whole import recover, write_all
from quoting.languages import _, marked, speaking, tongue
from quoting.locales import currencies_of, decimals, locale_exists
from quoting.nodes import Record, read_text
from quoting.places import PACKAGE

TEMPLATES = PACKAGE / "keeping" / "starter_files"
MORE = re.compile(r"@more@(.*?)@end@\n", re.DOTALL)
PLACE = re.compile(r"@([a-z_]+)@")

# What customers read of the files here: laid out in the language of the shop
WORDS = marked((
    "Frames and lenses, worked out to the tenth of a millimeter.",
    "This is an estimate until a licensed optician has checked your prescription and your measurements.",
    "Local law and licensed practice decide what may be made and sold where you live.",
    "We need a prescription that is valid on the day you order.",
    "A PD or height you measured yourself is provisional; we confirm it before anything is cut.",
    "A new design, a new power or a new frame can take some days to get used to.",
    "If your sight changes suddenly, see an eye doctor first.",
    "Photochromic lenses darken less in heat and little behind a windshield; they take a minute or so to darken and"
    " longer to clear.",
    "While they are dark they are not for driving at night or twilight.",
    "Tinted, polarized and darkened lenses are not for driving at night or twilight, and very dark ones not for driving"
    " at all.",
    "Anyone under 18, anyone with one good eye, and anyone at sport needs an impact-resistant material.",
    "These are ordinary spectacles, not industrial safety eyewear.",
    "An example to copy. It is not for sale.",
    "hard coat and anti-reflective",
))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Answers:
    """What the owner said, as typed."""

    name: str
    email: str
    locale: str
    currency: str
    region: str = "Our country"
    shipping: str = "0.00"  # a parcel
    tax: str = "0"  # percent, on frame, lenses and shipping alike
    tax_included: str = "no"
    more: bool = True  # also examples of a lens made to order and of a progressive


def usual_currency(locale: str) -> str:
    """What one pays with in the country of a locale; "" where there is none that is counted in hundredths.

    >>> usual_currency("de_AT"), usual_currency("ja_JP"), usual_currency("xx_YY")
    ('EUR', '', '')
    """
    return next((code for code in currencies_of(locale) if decimals(code) == 2), "")


def files_of(answers: Answers, day: date) -> dict[str, str]:
    """The shop's files by their paths in its folder."""
    made = {}
    for path in sorted(path for path in TEMPLATES.rglob("*") if path.is_file()):
        name = path.relative_to(TEMPLATES).as_posix()
        name = {"gitignore": ".gitignore", "prices/list.yaml": f"prices/{day:%Y-%m}.yaml"}.get(name, name)
        made[name] = _filled(path.read_text(encoding="utf-8"), answers, day)
    return made


def _filled(template: str, answers: Answers, day: date) -> str:
    values = {name: scalar(value, braces=True) for name, value in asdict(answers).items() if isinstance(value, str)}
    values |= {"version": f"{day:%Y-%m}", "effective": day.isoformat()}
    text = MORE.sub(lambda found: found[1] if answers.more else "", template)
    if locale_exists(answers.locale):
        with speaking(tongue(answers.locale)):
            for words in WORDS:
                text = text.replace(words, scalar(_(words)))
    return PLACE.sub(lambda found: values[found[1]], text)


def _read_list(root: Record) -> None:
    packages: Table[Package] = Table("package")
    frames: Table[Frame] = Table("frame")
    read_prices(root, packages, frames)


def faults(answers: Answers, day: date) -> dict[str, Finding]:
    """What is wrong with each answer, as the shop's own files would be told; empty where all are good."""
    found: dict[str, Finding] = {}
    readers: dict[str, tuple[Callable[[Record], object], dict[str, str]]] = {
        "shop.yaml": (read_shop, SHOP_WORDS),
        "prices/list.yaml": (_read_list, PRICE_WORDS),
    }
    unprintable = [one.name for one in fields(answers) if not str(getattr(answers, one.name)).isprintable()]
    if unprintable:
        raise ValueError(f"{unprintable[0]} holds a sign that cannot be printed")
    for name, (reader, words) in readers.items():
        template = (TEMPLATES / name).read_text(encoding="utf-8")
        asked = {at: PLACE.findall(line) for at, line in enumerate(template.splitlines(), 1)}
        root = read_text(_filled(template, answers, day), name, words)
        reader(root)
        for finding in root.findings:
            for field in _meant(finding, asked[finding.mark.line], answers):
                found.setdefault(field, finding)
    return found


def _meant(finding: Finding, asked: list[str], answers: Answers) -> list[str]:
    """The answer that a finding speaks of: the one on its line, or the one that stands at its place."""
    here = finding.mark.text[finding.mark.column - 1 :]
    exact = [name for name in asked if here.startswith(scalar(str(getattr(answers, name, "")), braces=True))]
    return (exact or asked)[:1]


def free(folder: Path) -> bool:
    """Whether a new shop may come here: nothing is there, or a folder without files, once a cut is settled.

    Raises ValueError where something is there that only looks as if we had been cut short.
    """
    if not folder.is_dir():
        return not (folder.exists() or folder.is_symlink())
    recover(folder)
    return not any(path.is_file() or path.is_symlink() for path in folder.rglob("*"))


def lay_out(folder: Path, answers: Answers, day: date) -> list[Finding]:
    """Write a new shop into a folder that is not there or holds no file; what keeps it from being one.

    Raises FileExistsError where a file is in the way, OSError where the system refuses.
    """
    target = folder.resolve()
    if not free(target):
        raise FileExistsError(str(folder))
    contents = {name: text.encode("utf-8") for name, text in files_of(answers, day).items()}
    parent = next(one for one in target.parents if one.is_dir())
    with tempfile.TemporaryDirectory(prefix=".bevelbook-new-", dir=parent) as beside:
        side = Path(beside) / "shop"
        for name, content in contents.items():
            (side / name).parent.mkdir(parents=True, exist_ok=True)
            (side / name).write_bytes(content)
        _, findings = load(side, day)
        if findings:
            return findings
        if target.is_dir():
            write_all(target, {target / name: content for name, content in contents.items()})
        else:
            target.parent.mkdir(parents=True, exist_ok=True)
            side.rename(target)
    return []
