"""Style and scripts of the pages: every source has its place, joining spoils none, and a page weighs little.

The limits of weight are ours; sizes are those of gzip, which is what web hosts send.
"""

import gzip
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting import kernel
from quoting.findings import errors
from quoting.languages import SOURCE, languages
from quoting.places import shared
from quoting.site.assets import SCRIPTS, SHEETS
from quoting.site.build import build
from quoting.site.engine import (
    LATER,
    LATER_ALONE,
    LIGHT,
    LIGHT_ALONE,
    ROOTS,
    engine_script,
    light_script,
    remedies_script,
)
from tests.bench.build import DAY as BENCH_DAY
from tests.bench.build import make_shop
from tests.site.node import node, run

STATIC = shared("theme") / "static"
SOURCES = [*sorted(STATIC.glob("js/*.js")), *sorted(STATIC.glob("css/*.css"))]
KERNEL = Path(kernel.__path__[0])
KILO = 1000


def test_every_source_is_part_of_what_pages_ask_for():
    parts = {f"js/{part}.js" for whole in SCRIPTS.values() for part in whole}
    parts |= {f"css/{part}.css" for whole in SHEETS.values() for part in whole}
    assert parts == {path.relative_to(STATIC).as_posix() for path in SOURCES}


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.name)
def test_no_text_and_no_comment_of_a_script_goes_over_the_end_of_a_line(path):
    """What is taken away when sources are joined begins a line; so nothing else may look like it there."""
    text = path.read_text(encoding="utf-8")
    assert text.endswith("\n")
    if path.suffix == ".js":
        assert [line for line in text.splitlines() if line.count("`") % 2 or "/*" in line] == []
    else:
        assert not re.search(r"[\"'][^\"'\n]*/\*", text)


CALLED = re.compile(r"\bbevelKernel\.(\w+)\.(\w+)|\bkernel\.(\w+)\.(\w+)")
TAKEN = re.compile(r"\{([\w, ]+)\} = (?:globalThis\.bevelKernel|kernel)\.(\w+)\b(?!\.)")


def test_the_engine_of_the_pages_has_what_scripts_call_and_no_more():
    called = set()
    for path in STATIC.glob("js/*.js"):
        text = path.read_text(encoding="utf-8")
        called |= {(one[1] or one[3], one[2] or one[4]) for one in CALLED.finditer(text)}
        called |= {(one[2], name.strip()) for one in TAKEN.finditer(text) for name in one[1].split(",")}
    called = {(module, name) for module, name in called if module != "runtime"}
    everywhere = [*ROOTS.items(), *LATER.items(), *LIGHT.items()]
    assert called == {(module, name) for module, names in everywhere for name in names}
    (outcome,) = run({"engine.js": engine_script()}, ["Object.keys(K.outline)"])
    assert "from_box" in outcome["value"]
    assert "perimeter" not in outcome["value"]


def test_what_pages_call_is_a_door_and_what_is_called_within_one_script_stays_in_it():
    calls = ["K.elementary.sin_deg('half')", "K.elementary.sin_deg()", "Object.keys(K.elementary)"]
    wrong, none, keys = run({"engine.js": engine_script()}, calls)
    assert wrong["error"] == none["error"] == "TypeError"
    assert {"sin_deg", "cos_deg"} <= set(keys["value"])
    assert "sin_small" not in keys["value"]


def test_an_error_in_the_engine_of_the_pages_still_knows_its_line_of_python():
    (outcome,) = run({"engine.js": engine_script()}, ["K.section.section({}, {}, 1)"])
    module, line = outcome["where"].split(".py:")
    assert module == "section"
    assert 'rim["xs"]' in (KERNEL / "section.py").read_text(encoding="utf-8").splitlines()[int(line) - 1]


def test_light_comes_later_and_works_beside_the_engine():
    alone = [name.removesuffix(".js") for name in LIGHT_ALONE]
    scripts = {"engine.js": engine_script(), "light.js": light_script()}
    (there,) = run({"engine.js": scripts["engine.js"]}, ["Object.keys(K)"])
    assert not set(alone) & set(there["value"])
    keys, colors = run(scripts, ["Object.keys(K)", "K.scene.scene(K.spectrum.flat(1))"])
    assert set(keys["value"]) == set(there["value"]) | set(alone)
    assert len(colors["value"]) == 15


def test_what_comes_later_is_not_in_the_engine_and_an_error_in_it_knows_its_line_too():
    alone = [name.removesuffix(".js") for name in LATER_ALONE]
    scripts = {"engine.js": engine_script(), "remedies.js": remedies_script()}
    (there,) = run({"engine.js": scripts["engine.js"]}, ["Object.keys(K)"])
    assert not set(alone) & set(there["value"])
    keys, outcome = run(scripts, ["Object.keys(K)", "K.remedies.ordered([{}])"])
    assert set(alone) <= set(keys["value"])
    assert set(there["value"]) | set(alone) == set(keys["value"])
    module, line = outcome["where"].split(".py:")
    assert module == "remedies"
    assert 'one["what"]' in (KERNEL / "remedies.py").read_text(encoding="utf-8").splitlines()[int(line) - 1]


@pytest.mark.parametrize("name", SCRIPTS)
def test_a_joined_script_can_be_read(demo, name):
    checked = subprocess.run([node(), "--check", demo / f"theme/js/{name}.js"], capture_output=True, text=True)
    assert checked.returncode == 0, checked.stderr


def test_what_is_for_paper_keeps_no_screen_waiting(pages):
    for page, soup in pages.items():
        sheets = [(link["href"].split("/")[-1], link.get("media")) for link in soup.select('link[rel="stylesheet"]')]
        assert sheets == [("site.css", None), ("print.css", "print")], page
        waited = [script["src"].split("/")[-1] for script in soup.select("script[src]:not([defer])")]
        assert waited == ["first.js"], page  # a few lines that keep room for what the others will say


def weight(paths):
    """Bytes of all files together, each sent by itself."""
    return sum(len(gzip.compress(path.read_bytes(), 9, mtime=0)) for path in paths)


def loaded(site, page, soup):
    """The sheets and scripts that a page asks for before anybody touches it."""
    found = [link["href"] for link in soup.select('link[rel="stylesheet"]')]
    found += [script["src"] for script in soup.select("script[src]")]
    ways = [name.removeprefix("/") if (site / page).name == "404.html" else name for name in found]
    return [(site / page).parent.joinpath(name).resolve() for name in ways]


@pytest.fixture(scope="module")
def sixty(tmp_path_factory):
    """The page of one frame, sixty packages and five bands in a shop of invented frames."""
    folder = tmp_path_factory.mktemp("sixty")
    make_shop(folder / "shop", 3)
    assert build(folder / "shop", folder / "site", BENCH_DAY).pages
    return folder / "site/frames/frame-0/index.html"


def test_a_frame_with_sixty_packages_in_five_bands_is_a_page_of_14_kb(sixty, demo, pages):
    text = sixty.read_text(encoding="utf-8")
    assert text.count("<td") > 300
    assert weight([sixty]) <= 14 * KILO
    # The demo's names vary more, and its boards have more cells than that: 52 packages in seven bands
    single = [page for page, soup in pages.items() if len(soup.select("table.board")) == 1]
    assert len(single) > 5
    assert {page: size for page in single if (size := weight([demo / page])) > 14 * KILO} == {}


@pytest.fixture(scope="module", params=languages())
def spoken_site(request, demo, tmp_path_factory):
    """The demo's site in each language that there is a catalog for."""
    if request.param == SOURCE:
        return demo
    folder = tmp_path_factory.mktemp("spoken")
    shop = folder / "shop.yaml"
    shutil.copytree(shared("demo_catalog"), folder, dirs_exist_ok=True)
    old, new = "\n  locale: en_US", f"\n  languages: [{request.param}]\n  locale: en_US"
    shop.write_text(shop.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    assert errors(build(folder, folder / "site", BENCH_DAY).findings) == []
    return folder / "site"


def test_style_and_scripts_of_a_page_are_45_kb(spoken_site, demo):
    """All that a page loads by itself; beside it comes what it is about, the tables of the shop and its frames."""
    tables = {spoken_site / "data/shop.js", spoken_site / "data/frames.js"}
    for page in spoken_site.rglob("*.html"):
        soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
        style_and_scripts = [path for path in loaded(spoken_site, page, soup) if path not in tables]
        assert weight(style_and_scripts) <= 45 * KILO, page
    most = 15 if spoken_site == demo else 16  # Spanish says the same in more letters
    assert weight(tables) <= most * KILO


def test_nobody_waits_for_a_font(demo):
    assert [path for path in demo.rglob("*") if path.suffix in (".woff", ".woff2", ".ttf", ".otf")] == []
    assert "@font-face" not in (demo / "theme/css/site.css").read_text(encoding="utf-8")
