"""What a build makes does not hang on what was built before it: not in the same process, and not in the same folder."""

import os
import shutil
import subprocess
import sys
from itertools import permutations

import pytest

from quoting.findings import errors
from quoting.site.build import build
from tests.site.conftest import COMBINATION, CORNER, DAY
from tests.site.test_build import contents

BUILD = """import sys
from datetime import date
from pathlib import Path
from quoting.site.build import build
build(Path(sys.argv[1]), Path(sys.argv[2]), date.fromisoformat(sys.argv[3]))
"""
# What differs from the small shop: file, old text, new text.  Sizes are the same in all of them, half millimeters too
HALF = ("frames/bolderwood.yaml", "b: 36,", "b: 36.5,")
SPAIN = ("shop.yaml", "currency: USD\n  locale: en_US", "currency: EUR\n  locale: es_ES")
SHOPS = {
    "dollars": [HALF],
    "euros": [HALF, SPAIN],
    "two languages": [HALF, SPAIN, ("shop.yaml", "locale: es_ES", "locale: es_ES\n  languages: [en, es]")],
    "other rims": [HALF, ("shop.yaml", "edge_no: 11.0, rim: 3.5", "edge_no: 11.0, rim: 4.5")],
    "dearer": [HALF, ("lenses/pennock.yaml", "lens: 60.00", "lens: 61.00")],
    "another color": [HALF, ("frames/bolderwood.yaml", "#46525c", "#102030")],
    "heavier": [HALF, ("lenses/pennock.yaml", "density: 1.30", "density: 1.40")],
    "other bands": [HALF, ("shop.yaml", "from: -8.00, to: -4.25", "from: -7.00, to: -4.25")],
}


def make(folder, changes):
    """The small shop with something changed, and a combination."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(CORNER, folder)
    for name, old, new in changes:
        path = folder / name
        text = path.read_text(encoding="utf-8")
        assert old in text, (name, old)
        path.write_text(text.replace(old, new), encoding="utf-8")
    head = {"Title": "Plain", "Date": "2026-01-05", "Summary": "A summary"} | COMBINATION
    (folder / "content/combinations").mkdir(parents=True)
    lines = "".join(f"{key}: {value}\n" for key, value in head.items())
    (folder / "content/combinations/plain.md").write_text(f"{lines}\nWords.\n", encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def alone(tmp_path_factory):
    """Each shop as a process of its own builds it, which remembers nothing."""
    place, sites = tmp_path_factory.mktemp("alone"), {}
    for name, changes in SHOPS.items():
        shop, cache = make(place / "shop", changes), place / f"cache of {name}"
        command = [sys.executable, "-c", BUILD, str(shop), str(place / name), DAY.isoformat()]
        subprocess.run(command, check=True, env=os.environ | {"XDG_CACHE_HOME": str(cache)})
        sites[name] = contents(place / name)
    return sites


def test_the_shops_differ(alone):
    """Or nothing below would show that one was taken for another."""
    for one, other in permutations(alone, 2):
        assert alone[one] != alone[other], (one, other)


@pytest.mark.parametrize("back", [False, True])
def test_each_shop_is_built_the_same_after_every_other(alone, tmp_path, monkeypatch, back):
    """In one folder and one process, with what earlier ones have left in memory and in the cache."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    names = list(SHOPS)[:: -1 if back else 1]
    for name in [*names, *names[::2]]:
        shop = make(tmp_path / "shop", SHOPS[name])
        assert errors(build(shop, tmp_path / "site", DAY).findings) == []
        found = contents(tmp_path / "site")
        differ = sorted(page for page in found.keys() | alone[name].keys() if found.get(page) != alone[name].get(page))
        assert differ == [], name
