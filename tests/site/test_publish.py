"""A publish leaves the old site or the new one, whole, whenever it is cut short; what was before can be had back."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting.findings import errors
from quoting.site.place import MARKER, aside
from quoting.site.publish import NothingError, back, build_at, chain, last, numbers, past, publish, settle, standing
from tests.site.conftest import DAY
from tests.site.test_build import contents

ROOT = Path(__file__).parents[2]


@pytest.fixture
def www(tmp_path):
    return tmp_path / "www"


@pytest.fixture
def put(corner, www):
    """Publish the copy as it is now."""

    def now(**words):
        done = publish(corner, www, DAY, **words)
        assert errors(done.result.findings) == []
        return done

    return now


@pytest.fixture
def renamed(rewrite):
    """Give the shop another name, which stands on each page."""
    names = ["Corner Opticians"]

    def change(name):
        rewrite("shop.yaml", f"name: {names[-1]}", f"name: {name}")
        names.append(name)

    return change


def shown(www):
    """The name of the shop on the first page."""
    return BeautifulSoup((www / "index.html").read_text(encoding="utf-8"), "html.parser").title.text


def test_the_first_has_nothing_to_be_compared_with_and_the_next_has(put, renamed, www):
    assert put().changes is None
    assert put().changes.none
    renamed("Second Opticians")
    found = put()
    assert (found.number, found.changes.before.name) == (3, "build 2")
    assert "index.html" in found.changes.pages_changed
    assert "Second" in shown(www)


def test_what_stands_is_remembered_and_nothing_of_it_is_served(put, www):
    put()
    assert standing(www) == 1
    assert last(www).record["frames"]
    assert not [name for name in contents(www) if name.endswith(".json") or "past" in name]


def test_a_dry_run_puts_nothing_there(put, renamed, www):
    put()
    before = contents(www.parent)
    renamed("Second Opticians")
    done = put(dry=True)
    assert (done.number, done.changes.none) == (0, False)
    changed = {name for name, old in contents(www.parent).items() if before.get(name) != old}
    assert changed == {"corner/shop.yaml"}


def test_back_and_back_again_and_publish(put, renamed, www):
    sites = {}
    for number, name in enumerate(("One", "Two", "Three", "Four", "Five"), 1):
        renamed(name)
        assert put().number == number
        sites[number] = contents(www)
    for number in (4, 3, 2):
        assert back(www) == (number, [])
        assert contents(www) == sites[number]
    with pytest.raises(NothingError, match="no build from before build 2"):
        back(www)
    assert put().number == 6
    assert chain(www, 6)[0] == 2, "what was withdrawn is not what stood before"
    assert back(www) == (2, [])


def test_three_sites_are_kept_beside_the_one_that_stands(put, www):
    for _ in range(6):
        put()
    kept = [path.name for path in past(www).iterdir() if path.is_dir()]
    assert sorted(kept) == ["3", "4", "5"]
    assert numbers(www) == [1, 2, 3, 4, 5, 6]


def test_a_page_that_is_gone_leads_on_for_as_long_as_it_is_gone(put, rewrite, www):
    put()
    rewrite("frames/bolderwood.yaml", "id: reed", "id: sedge")
    assert dict(put().changes.pages_gone) == {"frames/reed/index.html": "frames/sedge/index.html"}
    stub = (www / "frames/reed/index.html").read_text(encoding="utf-8")
    assert 'href="../sedge/index.html"' in stub
    assert put().changes.none, "a page that leads on is no page that is new or gone"
    assert (www / "frames/reed/index.html").read_text(encoding="utf-8") == stub
    rewrite("frames/bolderwood.yaml", "id: sedge", "id: rush")
    put()
    for old in ("reed", "sedge"):
        assert 'href="../rush/index.html"' in (www / f"frames/{old}/index.html").read_text(encoding="utf-8")
    rewrite("frames/bolderwood.yaml", "id: rush", "id: reed")
    put()
    assert "This page is gone" not in (www / "frames/reed/index.html").read_text(encoding="utf-8")
    assert 'href="../reed/index.html"' in (www / "frames/rush/index.html").read_text(encoding="utf-8")


def test_where_the_owner_says_otherwise_it_leads_there(put, rewrite, corner, www):
    put()
    rewrite("frames/bolderwood.yaml", "id: reed", "id: sedge")
    with (corner / "shop.yaml").open("a", encoding="utf-8") as file:
        file.write("redirects: {frames/reed: frames/alder}\n")
    assert dict(put().changes.pages_gone) == {"frames/reed/index.html": "frames/alder/index.html"}
    assert 'href="../alder/index.html"' in (www / "frames/reed/index.html").read_text(encoding="utf-8")


def test_a_frame_that_is_gone_leads_to_its_makers_part_of_the_list(put, corner, www):
    path = corner / "frames/bolderwood.yaml"
    text = path.read_text(encoding="utf-8")
    put()
    start = text.index("  - id: reed")
    end = text.find("\n  - id:", start)
    path.write_text(text[:start] + (text[end + 1 :] if end > 0 else ""), encoding="utf-8")
    put()
    link = BeautifulSoup((www / "frames/reed/index.html").read_text(encoding="utf-8"), "html.parser").a["href"]
    page, place = link.split("#")
    assert page == "../index.html"
    heading = BeautifulSoup((www / "frames/index.html").read_text(encoding="utf-8"), "html.parser").find(id=place)
    assert heading.text.strip() in text


def test_a_shop_with_faults_leaves_everything_as_it_was(put, corner, rewrite, www):
    put()
    before = contents(www.parent / "www"), contents(past(www))
    rewrite("frames/bolderwood.yaml", "a: 52", "a: wide")
    done = publish(corner, www, DAY)
    assert errors(done.result.findings)
    assert (done.number, done.changes) == (0, None)
    assert (contents(www), contents(past(www))) == before


@pytest.mark.parametrize("way", ["publish", "back"])
def test_a_file_of_somebody_else_is_never_deleted(put, corner, www, way):
    put()
    put()
    (www / "letter.txt").write_text("dear", encoding="utf-8")
    found = publish(corner, www, DAY).result.findings if way == "publish" else back(www)[1]
    assert [one.code for one in errors(found)] == ["not-ours"]
    assert standing(www) == 2
    assert (www / "letter.txt").read_text(encoding="utf-8") == "dear"


def test_a_file_of_somebody_else_among_the_kept_sites_stays(put, www):
    put()
    put()
    (past(www) / "1" / "letter.txt").write_text("dear", encoding="utf-8")
    (past(www) / "notes.txt").write_text("mine", encoding="utf-8")
    for _ in range(4):
        put()
    assert (past(www) / "1" / "letter.txt").is_file()
    assert (past(www) / "notes.txt").is_file()


def test_what_was_not_published_cannot_be_gone_back_from(www):
    with pytest.raises(NothingError, match="was not published"):
        back(www)


def test_a_record_that_cannot_be_read_stops_before_anything_is_built(put, corner, www):
    put()
    (past(www) / "1.json").write_text('{"before": 0}', encoding="utf-8")
    with pytest.raises(ValueError, match="cannot be read"):
        publish(corner, www, DAY)
    assert standing(www) == 1


def test_without_its_records_a_site_counts_as_the_first(put, www):
    put()
    (past(www) / "1.json").unlink()
    done = put()
    assert (done.number, done.changes) == (2, None)


def test_a_site_put_back_by_hand_makes_room_where_it_is_kept(put, renamed, www, tmp_path):
    put()
    renamed("Second Opticians")
    put()
    www.replace(tmp_path / "second")
    shutil.copytree(past(www) / "1", www)
    assert put().number == 3
    assert (past(www) / "1" / MARKER).is_file()


# Ends the process, as a cut of power would, at the n-th of the calls by which files and folders are moved or deleted
CUT = """
import os, shutil, sys
from datetime import date
from pathlib import Path
at, way, shop, www = int(sys.argv[1]), *sys.argv[2:]
from quoting.site.publish import publish, back
from quoting.site import build as building
count = 0
def cut(call):
    def done(*words, **more):
        global count
        mine = "bevelbook-" in str(words[0]) or "/www" in str(words[0]) or "/site" in str(words[0])
        if mine:
            count += 1
            if count == at:
                os._exit(9)
        return call(*words, **more)
    return done
Path.replace, shutil.rmtree, Path.rmdir = cut(Path.replace), cut(shutil.rmtree), cut(Path.rmdir)
publish(Path(shop), Path(www), date(2026, 11, 25)) if way == "publish" else back(Path(www))
"""


def cut_short(at, way, corner, www):
    """Whether the process was ended at that step, and not at its own end."""
    done = subprocess.run([sys.executable, "-c", CUT, str(at), way, str(corner), str(www)], cwd=ROOT, check=False)
    assert done.returncode in (0, 9)
    return done.returncode == 9


@pytest.mark.parametrize("way", ["publish", "back"])
def test_cut_short_at_any_step_the_old_site_or_the_new_stands_whole(put, renamed, corner, www, way):
    names = ["One", "Two", "Three", "Four", "Five"]
    for name in names:
        renamed(name)
        put()
    renamed("Six")
    cuts, seen = 0, set()
    for at in range(1, 60):
        before = standing(www), contents(www)
        was_cut = cut_short(at, way, corner, www)
        settle(www)
        after = standing(www), contents(www)
        listed = json.loads((www / MARKER).read_text(encoding="utf-8"))["files"]
        assert sorted(name for name in after[1] if name != MARKER) == listed
        assert build_at(www, after[0]).record["pages"].keys() <= after[1].keys()
        assert not aside(www).exists()
        if after[0] == before[0]:
            assert after[1] == before[1]
            seen.add("old")
        else:
            seen.add("new")
            put()
        cuts += was_cut
        if not was_cut:
            break
    else:
        pytest.fail("it never came to its end")
    assert cuts >= 4
    assert seen == {"old", "new"}
    assert put().number
