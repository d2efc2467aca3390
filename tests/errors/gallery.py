"""Shops that are broken on purpose: each folder beside this file is named after a code and shows it.

``whole/`` is the smallest shop without a fault.  A folder holds only the files that differ from it; what files
cannot hold is done by its ``steps.txt``, one step a line:

    remove PATH           take away a file or folder of the whole shop
    folder PATH           make a folder
    link PATH TARGET      make a symbolic link
    fill PATH COUNT TEXT  write the text so many times
    empty PATH            write a file of no bytes
    deny PATH             let the system refuse to read a file
    asked PATH COUNT      let the engine be asked so often at most
    picture PATH KIND W H make an image of so many pixels; KIND is one of Pillow's names of formats

``day.txt`` holds the day to reckon with, where the shop as a whole is looked at, too, as `check` does.
``expected.txt`` is the exact text of everything that is told.
"""

import os
import shutil
import tempfile
from contextlib import ExitStack, chdir
from datetime import date
from pathlib import Path
from unittest.mock import patch

from PIL import Image

from quoting.catalog.codes import CODES
from quoting.catalog.load import load, load_sound
from quoting.catalog.photos import photo_findings
from quoting.catalog.placeholders import placeholders
from quoting.catalog.sound import FRAMES
from quoting.keeping.entry_codes import ENTRY_CODES
from quoting.keeping.maps import maps_read
from quoting.keeping.price_codes import PRICE_CODES
from quoting.lab.codes import LAB_CODES
from quoting.prescription.codes import RX_CODES
from quoting.private.sense import private_findings
from quoting.sense import sound_sense, whole_sense
from quoting.site.codes import SITE_CODES

HERE = Path(__file__).parent
GUIDE = HERE.parent.parent / "DEVELOPERS.md"
END = "<!-- end of the gallery -->"
WHOLE = HERE / "whole"
PRESCRIPTIONS = HERE / "prescriptions"  # those that customers send: prescription_gallery.py
COMMANDS = HERE / "commands"  # those of other commands than `check`: command_gallery.py
TABLES = {
    "check": (CODES, HERE),
    "prices": (PRICE_CODES, COMMANDS),
    "frame and package": (ENTRY_CODES, COMMANDS),
    "lab jobs and traces": (LAB_CODES, COMMANDS),
    "build and publish": (SITE_CODES, COMMANDS),
    "prescriptions": (RX_CODES, PRESCRIPTIONS),
}
OWN_FILES = ("day.txt", "expected.txt", "steps.txt")


def folders():
    """The folders of the gallery, by name."""
    others = (WHOLE, COMMANDS, PRESCRIPTIONS)
    return sorted(path for path in HERE.iterdir() if path.is_dir() and path not in others and path.name[0] not in "._")


def findings_of(folder):
    """What is found in the whole shop once the folder's files and steps have changed it; shown as ``shop/...``."""
    with tempfile.TemporaryDirectory() as place, chdir(place), ExitStack() as stack:
        shop = Path("shop")
        shutil.copytree(WHOLE, shop)
        shutil.copytree(folder, shop, dirs_exist_ok=True, ignore=shutil.ignore_patterns(*OWN_FILES))
        steps = folder / "steps.txt"
        if steps.exists():
            for line in steps.read_text(encoding="utf-8").splitlines():
                change(shop, line, stack)
        catalog, findings = load(shop)
        sound = load_sound(shop)[2]
        findings = (
            findings + maps_read(shop, catalog)[1] + (placeholders(shop) if (folder / "day.txt").exists() else [])
        )
        if sound is not None:
            findings = findings + photo_findings(shop, sound.photographed, FRAMES in sound.whole)
        file = folder / "day.txt"
        day = date.fromisoformat(file.read_text(encoding="utf-8").strip()) if file.exists() else None
        if day is not None and sound is not None:
            findings = findings + (whole_sense(catalog, day) if catalog is not None else sound_sense(sound, day))
        return findings + private_findings(shop, catalog, day)


def change(shop, line, stack):
    """One step of steps.txt."""
    verb, name, *rest = line.split(" ", 2)
    path = shop / name
    if verb == "remove":
        shutil.rmtree(path) if path.is_dir() else path.unlink()
    elif verb == "folder":
        path.mkdir()
    elif verb == "link":
        path.symlink_to(rest[0])
    elif verb == "fill":
        count, text = rest[0].split(" ", 1)
        path.write_text(text * int(count) + "\n", encoding="utf-8")
    elif verb == "empty":
        path.touch()
    elif verb == "deny":
        stack.enter_context(denied(path))
    elif verb == "picture":
        kind, width, height = rest[0].split(" ")
        path.parent.mkdir(exist_ok=True)
        Image.new("L" if kind == "PNG" else "RGB", (int(width), int(height)), 170).save(path, kind)
    elif verb == "asked":
        stack.enter_context(patch("quoting.sense.MOST_ASKED", int(rest[0])))
    else:
        raise ValueError(f"no such step: {line}")


def denied(path):
    """The system refuses to read this file; it is played, since to an administrator nothing is refused."""
    read_bytes = Path.read_bytes

    def refused(self):
        if self == path:
            raise PermissionError(13, os.strerror(13), str(self))
        return read_bytes(self)

    return patch.object(Path, "read_bytes", refused)


def rendered(folder):
    """The text of all findings, as a person sees it."""
    return "".join(f"{finding}\n\n" for finding in findings_of(folder)).rstrip("\n") + "\n"


def example(folder):
    """The message that a folder shows first of its own code, from the text that was read."""
    text = (folder / "expected.txt").read_text(encoding="utf-8")
    return next(
        line.split(": ", 2)[2].removesuffix(f" [{folder.name}]")
        for line in text.splitlines()
        if line.endswith(f" [{folder.name}]")
    )


def table(codes, place):
    """A table of codes in DEVELOPERS.md: code, meaning, a message."""
    cell = str.maketrans({"|": "\\|", "<": "&lt;"})
    rows = [f"| `{code}` | {codes[code].translate(cell)} | {example(place / code).translate(cell)} |" for code in codes]
    return "\n".join(["| code | what it means | for example |", "|---|---|---|", *rows])


def guide(text):
    """DEVELOPERS.md with the tables as they are now."""
    for name, (codes, place) in TABLES.items():
        begin = f"<!-- gallery of {name}: written by tests.errors.regenerate -->"
        head, rest = text.split(begin)
        text = f"{head}{begin}\n{table(codes, place)}\n{END}{rest.split(END, 1)[1]}"
    return text
