"""A publish leaves the old site or the new one, whole, whenever it is cut short; what was before can be had back."""

import json
import shutil
import subprocess
import sys
import threading
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from quoting.findings import errors
from quoting.show.differences import LeadChange
from quoting.site.alone import alone, lock_of
from quoting.site.build import build
from quoting.site.exchange import exchange
from quoting.site.past import NothingError, build_at, chain, last, numbers, settle
from quoting.site.place import MARKER, mark, standing, stood
from quoting.site.publish import back, publish
from quoting.site.swap import past, swap
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


@pytest.fixture
def another(put, renamed):
    """Publish the copy under a name that it did not have before."""
    names = (f"Opticians {number}" for number in range(1, 100))

    def now():
        renamed(next(names))
        return put()

    return now


def shown(www):
    """The name of the shop on the first page."""
    return BeautifulSoup((www / "index.html").read_text(encoding="utf-8"), "html.parser").title.text


def test_the_first_has_nothing_to_be_compared_with_and_the_next_has(put, renamed, www):
    assert put().changes is None
    assert put().changes.none
    renamed("Second Opticians")
    found = put()
    assert (found.number, found.changes.before.name) == (2, "build 1")
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


def test_what_says_the_same_is_no_build_of_its_own_and_takes_no_room_from_those_before(another, put, corner, www):
    sites = {}
    for number in (1, 2, 3, 4):
        assert another().number == number
        sites[number] = contents(www)
    for day in (26, 27, 28, 29, 30):
        done = publish(corner, www, date(2026, 11, day))
        assert (done.number, done.changes.none) == (4, True)
    assert f"2026-11-{day}" in (www / "index.html").read_text(encoding="utf-8"), "the day on the pages goes on"
    assert build_at(www, 4).record["day"] == f"2026-11-{day}"
    assert sorted(path.name for path in past(www).iterdir() if path.is_dir()) == ["1", "2", "3"]
    (corner / "content/root").mkdir(parents=True)
    (corner / "content/root/CNAME").write_text("www.example.org", encoding="utf-8")
    done = put()
    assert (done.number, done.changes.none) == (5, True), "another file is another build, though no page says so"
    assert not (past(www) / "1").exists()
    assert [back(www)[0] for _ in range(3)] == [4, 3, 2]
    assert contents(www) == sites[2]


def test_three_sites_are_kept_beside_the_one_that_stands(another, www):
    for _ in range(6):
        another()
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


def test_a_line_of_the_owner_that_is_deleted_counts_no_more_and_this_is_told(put, rewrite, corner, www):
    put()
    rewrite("frames/bolderwood.yaml", "id: reed", "id: sedge")
    with (corner / "shop.yaml").open("a", encoding="utf-8") as file:
        file.write("redirects: {frames/reed: frames/alder, old/list.html: frames/reed}\n")
    told = put().changes
    assert dict(told.pages_gone) == {"frames/reed/index.html": "frames/alder/index.html"}
    assert told.leads == [LeadChange("old/list.html", None, "frames/alder/index.html")]
    assert put().changes.none
    rewrite("shop.yaml", "redirects: {frames/reed: frames/alder, old/list.html: frames/reed}\n", "")
    assert put().changes.leads == [
        LeadChange("frames/reed/index.html", "frames/alder/index.html", "frames/sedge/index.html"),
        LeadChange("old/list.html", "frames/alder/index.html", None),
    ]
    assert 'href="../sedge/index.html"' in (www / "frames/reed/index.html").read_text(encoding="utf-8")
    assert not (www / "old").exists()
    assert put().changes.none


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
def test_a_file_of_somebody_else_is_never_deleted(another, corner, www, way):
    another()
    another()
    (www / "letter.txt").write_text("dear", encoding="utf-8")
    found = publish(corner, www, DAY).result.findings if way == "publish" else back(www)[1]
    assert [one.code for one in errors(found)] == ["not-ours"]
    assert standing(www) == 2
    assert (www / "letter.txt").read_text(encoding="utf-8") == "dear"


def test_a_file_of_somebody_else_among_the_kept_sites_stays(another, www):
    another()
    another()
    (past(www) / "1" / "letter.txt").write_text("dear", encoding="utf-8")
    (past(www) / "notes.txt").write_text("mine", encoding="utf-8")
    for _ in range(4):
        another()
    assert (past(www) / "1" / "letter.txt").is_file()
    assert (past(www) / "notes.txt").is_file()


def test_what_was_not_published_cannot_be_gone_back_from(www):
    with pytest.raises(NothingError, match="nothing was published"):
        back(www)
    assert not www.parent.joinpath(".www.bevelbook-past").exists()


def test_a_build_over_a_published_site_keeps_it_and_all_before(put, corner, renamed, www):
    sites = {}
    for number, name in enumerate(("One", "Two"), 1):
        renamed(name)
        put()
        sites[number] = contents(www)
    for name in ("Three", "Four"):
        renamed(name)
        assert errors(build(corner, www, DAY).findings) == []
        assert (standing(www), stood(www), last(www).number) == (0, 2, 2)
    assert back(www) == (2, [])
    assert contents(www) == sites[2]
    assert errors(build(corner, www, DAY).findings) == []
    assert put().number == 3
    assert chain(www, 3) == [2, 1]
    assert [back(www), back(www)] == [(2, []), (1, [])]
    assert contents(www) == sites[1]


def test_a_file_that_comes_while_the_site_is_made_keeps_it_from_being_replaced(put, corner, www):
    put()

    def upload(*_):
        (www / "letter.txt").write_text("dear", encoding="utf-8")

    done = publish(corner, www, DAY, progress=upload)
    assert [one.code for one in errors(done.result.findings)] == ["not-ours"]
    assert (standing(www), (www / "letter.txt").is_file()) == (1, True)


def test_a_file_of_somebody_else_in_a_kept_site_is_told_before_it_goes_back_there(another, www):
    another()
    another()
    (past(www) / "1" / "letter.txt").write_text("dear", encoding="utf-8")
    number, found = back(www)
    assert (number, [one.code for one in found]) == (0, ["not-ours"])
    assert standing(www) == 2


def test_a_record_that_cannot_be_read_stops_before_anything_is_built(put, corner, www):
    put()
    (past(www) / "1.json").write_text('{"before": 0}', encoding="utf-8")
    with pytest.raises(ValueError, match="damaged"):
        publish(corner, www, DAY)
    assert standing(www) == 1


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('"prices":{', '"price":{'),
        ('"caution"', '"cautious"'),
        ('"boards":{', '"boards":[],"b":{'),
        ('"record":', '"recorded":'),
        ('"record":{', '"record":[' + "[" * 100_000),
        ('"before":0', '"before":"x"'),
        ("}", ""),
    ],
)
def test_a_record_in_which_anything_was_changed_is_told_and_never_compared(put, corner, www, old, new):
    put()
    path = past(www) / "1.json"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(ValueError, match="the record of build 1 is damaged"):
        build_at(www, 1)
    with pytest.raises(ValueError, match="damaged"):
        publish(corner, www, DAY)


@pytest.mark.parametrize("number", ["-1", "true", '"1"', "1.0", "null", "[]", "9" * 400])
def test_a_marker_whose_number_is_none_of_a_build_counts_as_unpublished(put, www, number):
    put()
    text = (www / MARKER).read_text(encoding="utf-8")
    (www / MARKER).write_text(text.replace('"build": 1', f'"build": {number}'), encoding="utf-8")
    assert standing(www) == 0
    assert last(www).number == 1
    assert put().number > 1


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


# For each line that it reads, a child of this process ends, as by a cut of power, at the n-th of the calls by which
# files and folders are moved or deleted; how it ended is printed
CUT = """
import os, shutil, sys
from datetime import date
from pathlib import Path
shop, www = Path(sys.argv[1]), Path(sys.argv[2])
from quoting.site.publish import publish, back
from quoting.site import build as building, swap as swapping
def cutting(at, steps, way):
    count = 0
    def cut(call):
        def done(*words, **more):
            nonlocal count
            name = str(words[0])
            page = "/site/" in name and not name.endswith(".bevelbook-site")  # being made, and nothing else touched
            if ("bevelbook-" in name or "/www" in name) and not page:
                count += 1
                if count == at:
                    os._exit(9)
            return call(*words, **more)
        return done
    swapping.exchange = cut(swapping.exchange) if steps == "one" else lambda *_: False
    for name in ("replace", "rmdir", "mkdir", "unlink", "write_text"):
        setattr(Path, name, cut(getattr(Path, name)))
    shutil.rmtree = cut(shutil.rmtree)
    day = date(2026, 11, 25)
    {"publish": lambda: publish(shop, www, day), "build": lambda: building.build(shop, www, day),
     "back": lambda: back(www)}[way]()
for line in sys.stdin:
    at, steps, way = line.split()
    child = os.fork()
    if not child:
        try:
            cutting(int(at), steps, way)
        except BaseException:
            os._exit(1)
        os._exit(0)
    print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)
"""


@pytest.fixture
def cut_short(corner, www):
    """Run a command and end it at some step: whether it was ended there, and not at its own end."""
    command = [sys.executable, "-c", CUT, str(corner), str(www)]
    with subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:

        def run(at, steps, way):
            other.stdin.write(f"{at} {steps} {way}\n")
            other.stdin.flush()
            ended = other.stdout.readline().strip()
            assert ended in ("0", "9")
            return ended == "9"

        yield run
        other.stdin.close()


def kept(www):
    """What lies beside the site once all is at rest, and which sites are kept."""
    names = {path.name for path in www.parent.iterdir()}
    assert names <= {"corner", "www", past(www).name, lock_of(www).name}, "something was left behind"
    return {path.name for path in past(www).iterdir() if path.is_dir()}


@pytest.mark.parametrize(
    ("way", "steps"), [("publish", "one"), ("publish", "two"), ("back", "one"), ("back", "two"), ("build", "one")]
)
def test_cut_short_at_any_step_the_old_site_or_the_new_stands_whole(put, renamed, cut_short, www, way, steps):
    for name in ("One", "Two", "Three", "Four", "Five"):
        renamed(name)
        put()
    renamed("Six")
    cuts, seen = 0, set()
    for at in range(1, 80):
        before, places = (standing(www), stood(www), contents(www)), kept(www)
        was_cut = cut_short(at, steps, way)
        assert steps == "two" or was_cut is False or (www / MARKER).is_file(), "the place was empty"
        settle(www)
        after = standing(www), stood(www), contents(www)
        listed = json.loads((www / MARKER).read_text(encoding="utf-8"))["files"]
        assert sorted(name for name in after[2] if name != MARKER) == listed
        assert build_at(www, after[1]).record["pages"].keys() <= after[2].keys()
        assert all(standing(past(www) / name) == int(name) for name in kept(www))
        if after == before:
            seen.add("old")
            assert kept(www) >= places
        else:
            seen.add("new")
            assert kept(www) >= {str(one) for one in chain(www, after[1])[:2]}
            if way == "build":
                assert str(after[1]) in kept(www), "what was published is not kept"
            put()
        cuts += was_cut
        if not was_cut:
            break
    else:
        pytest.fail("it never came to its end")
    assert cuts >= 4
    assert seen == {"old", "new"}
    assert put().number


HOLD = """
import sys, time
from pathlib import Path
from quoting.site.alone import alone
with alone(Path(sys.argv[1])):
    print("held", flush=True)
    time.sleep(600)
"""


@pytest.fixture
def busy(www):
    """Another process works on the site until it is killed."""
    with subprocess.Popen([sys.executable, "-c", HOLD, str(www)], cwd=ROOT, stdout=subprocess.PIPE) as other:
        assert other.stdout.readline() == b"held\n"
        yield other
        other.kill()


def test_two_at_once_are_kept_apart_and_a_killed_one_keeps_nobody_out(put, corner, www, busy):
    for found in (publish(corner, www, DAY).result.findings, build(corner, www, DAY).findings):
        (told,) = errors(found)
        assert told.code == "in-use"
        assert f"process {busy.pid}" in told.message
    assert sorted(path.name for path in www.parent.iterdir()) == [lock_of(www).name, "corner"]
    busy.kill()
    busy.wait()
    assert lock_of(www).exists()
    assert put().number == 1
    assert not lock_of(www).exists()


def test_back_waits_for_nobody(another, www):
    another()
    another()
    with alone(www):
        number, found = back(www)
    assert (number, [one.code for one in found]) == (0, ["in-use"])
    assert back(www) == (1, [])


def test_where_a_site_stands_one_stands_at_every_moment(tmp_path):
    """A reader asks for a page all the while; skipped where the system exchanges no folders."""
    for name in ("www", "new"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "index.html").write_text(name, encoding="utf-8")
        mark(tmp_path / name, 0, 0)
    if not exchange(tmp_path / "new", tmp_path / "www"):
        pytest.skip("this system exchanges no two folders in one step: nothing was seen of it")
    missed, over = [], threading.Event()

    def read():
        while not over.is_set():
            try:
                (tmp_path / "www/index.html").read_bytes()
            except FileNotFoundError as error:
                missed.append(error)

    reader = threading.Thread(target=read)
    reader.start()
    try:
        for number in range(300):
            new = tmp_path / f"new-{number}"
            new.mkdir()
            (new / "index.html").write_text(str(number), encoding="utf-8")
            mark(new, 0, 0)
            swap(new, tmp_path / "www")
    finally:
        over.set()
        reader.join()
    assert missed == []
    assert (tmp_path / "www/index.html").read_text(encoding="utf-8") == "299"
