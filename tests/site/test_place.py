"""Where a site may go, what of a folder is the build's to replace, and what an owner adds to the top of it."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from quoting.findings import errors
from quoting.site.build import build
from quoting.site.place import MARKER
from tests.site.conftest import CORNER, DAY
from tests.site.test_build import codes, contents

ROOT = Path(__file__).parents[2]


@pytest.fixture
def site(tmp_path):
    """A built site of the small shop."""
    assert codes(build(CORNER, tmp_path / "site", DAY)) == []
    return tmp_path / "site"


@pytest.fixture
def top(corner):
    """Write a file into ``content/root`` of the copy."""

    def write(name, text="mine"):
        path = corner / "content/root" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_a_folder_that_is_not_ours_is_not_replaced(tmp_path):
    (tmp_path / "letter.txt").write_text("dear", encoding="utf-8")
    assert codes(build(CORNER, tmp_path, DAY)) == ["not-a-site"]
    assert contents(tmp_path) == {"letter.txt": b"dear"}


def test_a_file_is_not_replaced(tmp_path):
    (tmp_path / "site").write_text("dear", encoding="utf-8")
    assert codes(build(CORNER, tmp_path / "site", DAY)) == ["not-a-site"]
    assert (tmp_path / "site").read_text(encoding="utf-8") == "dear"


def test_an_empty_folder_and_a_missing_one_are_taken(tmp_path):
    (tmp_path / "empty").mkdir()
    for name in ("empty", "deep/er/site"):
        assert codes(build(CORNER, tmp_path / name, DAY)) == []
        assert (tmp_path / name / MARKER).is_file()


def test_a_link_to_a_folder_stays_a_link(tmp_path):
    (tmp_path / "real").mkdir()
    (tmp_path / "www").symlink_to(tmp_path / "real")
    for _ in range(2):
        assert codes(build(CORNER, tmp_path / "www", DAY)) == []
    assert (tmp_path / "www").is_symlink()
    assert (tmp_path / "real/index.html").is_file()


def test_a_place_below_a_file_is_told(tmp_path):
    (tmp_path / "note").write_text("x", encoding="utf-8")
    assert codes(build(CORNER, tmp_path / "note" / "site", DAY)) == ["cannot-write"]


def test_the_marker_lists_what_the_build_wrote(site):
    about = json.loads((site / MARKER).read_text(encoding="utf-8"))
    assert "content/root" in about["note"]
    assert about["files"] == sorted(contents(site).keys() - {MARKER})


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["CNAME"], "`CNAME`"),
        ([".htaccess", "CNAME"], "`.htaccess`, `CNAME`"),
        (["frames/alder/photo.jpg"], "`frames/alder/photo.jpg`"),
        ([".git/HEAD", ".git/refs/heads/main"], "`.git/`"),
        (["frames/new/a.txt", "frames/new/b.txt"], "`frames/new/`"),
        ([f"{number}.txt" for number in range(7)], "`4.txt` and 2 more"),
    ],
)
def test_files_of_somebody_else_keep_the_site_from_being_replaced(site, names, said):
    for name in names:
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text("mine", encoding="utf-8")
    before = contents(site)
    (found,) = errors(build(CORNER, site, DAY).findings)
    assert found.code == "not-ours"
    assert f"{said}, which no build wrote" in found.message
    assert "content/root/" in found.hint
    assert contents(site) == before


def test_a_link_of_somebody_else_counts_as_a_file(site, tmp_path):
    (tmp_path / "photos").mkdir()
    (site / "photos").symlink_to(tmp_path / "photos")
    assert codes(build(CORNER, site, DAY)) == ["not-ours"]


def test_what_systems_leave_everywhere_is_nobodys(site):
    (site / "frames/.DS_Store").write_bytes(b"x")
    (site / "Thumbs.db").write_bytes(b"x")
    assert codes(build(CORNER, site, DAY)) == []
    assert not list(site.rglob(".DS_Store"))


def test_a_marker_from_before_it_had_a_list_makes_everything_ours(site):
    (site / MARKER).write_text("This folder is replaced as a whole by the next build.\n", encoding="utf-8")
    (site / "stale.html").write_text("old", encoding="utf-8")
    assert codes(build(CORNER, site, DAY)) == []
    assert not (site / "stale.html").exists()


@pytest.mark.parametrize("text", ["", "[]", '{"files": 3}', '{"note": "x"}'])
def test_a_damaged_marker_makes_nothing_ours(site, text):
    (site / MARKER).write_text(text, encoding="utf-8")
    before = contents(site)
    (found,) = errors(build(CORNER, site, DAY).findings)
    assert (found.code, found.mark.file) == ("not-a-site", str(site / MARKER))
    assert contents(site) == before


def test_what_is_in_content_root_comes_to_the_top_of_each_site(built, top, corner, tmp_path):
    top("CNAME", "www.example.org")
    top(".well-known/proof.txt", "7")
    top("ours.html", "<!DOCTYPE html>")
    for _ in range(2):
        result, _ = built()
        assert codes(result) == []
        assert (tmp_path / "site/CNAME").read_text(encoding="utf-8") == "www.example.org"
        assert (tmp_path / "site/.well-known/proof.txt").is_file()
        assert (tmp_path / "site/ours.html").read_text(encoding="utf-8") == "<!DOCTYPE html>"
    shutil.rmtree(corner / "content/root")
    result, _ = built()
    assert codes(result) == []
    assert not (tmp_path / "site/CNAME").exists()


@pytest.mark.parametrize(
    "name", ["index.html", "frames/alder/index.html", "robots.txt", "theme", "index.html/x", MARKER]
)
def test_nothing_from_content_root_replaces_what_the_build_writes(built, top, name):
    path = top(name)
    result, pages = built()
    (found,) = errors(result.findings)
    assert (found.code, found.mark.file) == ("same-place", str(path))
    assert pages == {}


def test_a_link_in_content_root_does_not_publish_what_lies_elsewhere(built, corner):
    (corner / "content/root").mkdir(parents=True)
    (corner / "private").mkdir()
    (corner / "private/key").write_text("4711", encoding="utf-8")
    (corner / "content/root/key").symlink_to(corner / "private/key")
    (corner / "content/root/gone").symlink_to(corner / "content/nothing")
    (corner / "content/root/folder").symlink_to(corner / "private")
    result, _ = built()
    assert codes(result) == ["outside-folder"] * 3


@pytest.mark.parametrize("inner", ["content", "frames", "lenses/site", "prices", "private/site", "private/../frames/x"])
def test_a_site_does_not_go_into_the_folders_of_the_shop(corner, inner):
    before = contents(corner)
    assert codes(build(corner, corner / inner, DAY)) == ["in-the-shop"]
    assert contents(corner) == before


def test_a_site_may_stand_in_the_shop_and_not_in_the_prose_that_was_named(corner, tmp_path):
    for _ in range(2):
        assert codes(build(corner, corner / "site-out", DAY)) == []
    (tmp_path / "prose").mkdir()
    assert codes(build(corner, tmp_path / "prose/site", DAY, content=tmp_path / "prose")) == ["in-the-shop"]


@pytest.mark.parametrize("inner", ["note/site", "note/deep/er/site", "loop/site"])
def test_what_cannot_be_written_names_the_folder_that_was_asked_for(tmp_path, inner):
    (tmp_path / "note").write_text("x", encoding="utf-8")
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    (found,) = errors(build(CORNER, tmp_path / inner, DAY).findings)
    assert (found.code, found.mark.file) == ("cannot-write", str(tmp_path / inner))
    assert f"to {tmp_path / inner}: " in found.message
    assert sorted(path.name for path in tmp_path.iterdir()) == ["loop", "note"]


def test_a_folder_that_takes_no_files_is_named_and_not_a_passing_one(tmp_path, monkeypatch):
    def full(**words):
        raise PermissionError(13, "Permission denied", str(words["dir"] / ".site.x7"))

    monkeypatch.setattr("tempfile.TemporaryDirectory", full)
    (found,) = errors(build(CORNER, tmp_path / "site", DAY).findings)
    assert (found.code, found.mark.file) == ("cannot-write", str(tmp_path / "site"))
    assert ".site." not in str(found)


def test_a_file_that_cannot_be_copied_is_named_itself(built, top, article, corner, monkeypatch):
    def locked(source, _):
        raise PermissionError(13, "Permission denied", str(source))

    picture = corner / "content/images/a.jpg"
    picture.parent.mkdir(parents=True)
    picture.write_bytes(b"x")
    real = shutil.copyfile
    monkeypatch.setattr("shutil.copyfile", lambda one, other: (locked if "a.jpg" in str(one) else real)(one, other))
    result, _ = built()
    assert [(one.code, one.mark.file) for one in errors(result.findings)] == [("unreadable-file", str(picture))]
    path = top("CNAME")
    monkeypatch.setattr("shutil.copyfile", lambda one, other: (locked if "CNAME" in str(one) else real)(one, other))
    result, _ = built()
    assert [(one.code, one.mark.file) for one in errors(result.findings)] == [("unreadable-file", str(path))]


# Root may write everywhere, so the command is run as somebody else, once all it needs has been imported
AS_SOMEBODY = """
import os, sys
from click.testing import CliRunner
from quoting.cli import main, run
first = sys.argv.pop(1)
CliRunner().invoke(main, ["build", sys.argv[2], "--to", first])
if os.geteuid() == 0:
    os.setgid(65534)
    os.setuid(65534)
run()
"""


def built_by_somebody(output, first):
    """What the command prints that builds into a folder which is not the caller's."""
    command = [sys.executable, "-c", AS_SOMEBODY, str(first), "build", str(CORNER), "--to", str(output)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=ROOT)
    assert done.returncode == 1, done.stdout
    return done.stderr


@pytest.fixture
def open_path(tmp_path):
    """A folder that anybody can get to, the files of the project being within everybody's reach too."""
    if os.geteuid() == 0 and not all(folder.stat().st_mode & 0o001 for folder in (ROOT, *ROOT.parents)):
        pytest.skip(f"another user cannot get to {ROOT}: what the command tells one was not looked at")
    for folder in (tmp_path, *tmp_path.parents):
        if folder.stat().st_uid == os.geteuid() and len(folder.parts) > 2:
            folder.chmod(folder.stat().st_mode | 0o055)
    return tmp_path


@pytest.mark.parametrize(("mode", "inner"), [(0o000, "x/site"), (0o555, "site"), (0o555, "x/site")])
def test_a_folder_that_is_not_ours_to_write_is_named_with_a_remedy(open_path, mode, inner):
    locked = open_path / "locked"
    locked.mkdir()
    locked.chmod(mode)
    try:
        said = built_by_somebody(locked / inner, open_path / "first")
    finally:
        locked.chmod(0o755)
    assert f"{locked / inner}:1:1: error: the site cannot be written to {locked / inner}: Permission denied" in said
    assert "hint: see who may write there, or name another folder" in said
    assert said.rstrip().endswith("The site was not touched.")
    assert list(locked.iterdir()) == []


def test_an_old_site_that_could_not_be_deleted_is_not_replaced(open_path):
    place = open_path / "out"
    place.mkdir()
    assert codes(build(CORNER, place / "site", DAY)) == []
    before = contents(place / "site")
    place.chmod(0o777)
    (place / "site" / "frames").chmod(0o555)
    try:
        said = built_by_somebody(place / "site", open_path / "first")
    finally:
        (place / "site" / "frames").chmod(0o755)
    assert "cannot be written" in said
    assert "The site was not touched." in said
    assert contents(place / "site") == before
    assert [path.name for path in place.iterdir()] == ["site"]
