"""All files or none: a process is killed at every step, and the next command sees old or new, never a mix."""

import json
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from quoting.keeping.whole import JOURNAL, StaleError, recover, write_all

OLD = {"shop.yaml": b"old shop\r\n", "prices/a.yaml": b"old a\n", "lenses/gone.yaml": b"old gone\n"}
NEW = {"shop.yaml": b"new shop\r\n", "prices/a.yaml": b"new a\n", "imports/new.yaml": b"new map\n"}
STEPS = 60
# A child that is killed at its n-th call of anything that touches the disk; a kill before a call is one after the last
KILLED = """
import os, pathlib, signal, sys
from quoting.keeping.whole import write_all
left = int(sys.argv[2])
def deadly(call):
    def counted(*words, **more):
        global left
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return call(*words, **more)
    return counted
for place, name in ((os, "fsync"), (pathlib.Path, "open"), (pathlib.Path, "replace"), (pathlib.Path, "unlink")):
    setattr(place, name, deadly(getattr(place, name)))
root = pathlib.Path(sys.argv[1])
write_all(root, {
    root / "shop.yaml": b"new shop\\r\\n", root / "prices/a.yaml": b"new a\\n",
    root / "imports/new.yaml": b"new map\\n", root / "lenses/gone.yaml": None,
})
"""


@pytest.fixture
def folder(tmp_path):
    for name, content in OLD.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(content)
    return tmp_path


def files(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def changes(folder):
    return {**{folder / name: content for name, content in NEW.items()}, folder / "lenses/gone.yaml": None}


def test_all_files_are_written_deleted_and_nothing_is_left_beside(folder):
    write_all(folder, changes(folder))
    assert files(folder) == NEW
    assert recover(folder) == ""


def test_a_kill_at_any_step_leaves_all_old_or_all_new(tmp_path):
    seen = []
    for step in range(STEPS):
        folder = tmp_path / str(step)
        for name, content in OLD.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(content)
        ended = subprocess.run([sys.executable, "-c", KILLED, str(folder), str(step)], check=False)
        recover(folder)
        now = files(folder)
        seen.append("old" if now == OLD else "new" if now == NEW else now)
        if ended.returncode == 0:
            break
        assert ended.returncode == -signal.SIGKILL
    assert ended.returncode == 0, "the steps were not all tried"
    assert seen == ["old"] * seen.count("old") + ["new"] * seen.count("new")
    assert seen.count("old") > 5
    assert seen.count("new") > 5


def test_a_kill_while_it_recovers_is_recovered_as_well(folder, monkeypatch):
    real, left = type(folder).replace, [3]

    def failing(self, target):
        left[0] -= 1
        if left[0] == -1:
            raise KeyboardInterrupt
        return real(self, target)

    monkeypatch.setattr(type(folder), "replace", failing)
    with pytest.raises(KeyboardInterrupt):
        write_all(folder, changes(folder))
    left[0] = 1
    with pytest.raises(KeyboardInterrupt):
        recover(folder)
    assert recover(folder) == "finished"
    assert files(folder) == NEW


def test_a_full_disk_leaves_everything_old(folder, monkeypatch):
    real, left = os.fsync, [4]

    def full(handle):
        left[0] -= 1
        if left[0] == 0:
            raise OSError(28, "No space left on device")
        real(handle)

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left on device; nothing was written") as told:
        write_all(folder, changes(folder))
    assert told.value.filename == str(folder)
    assert files(folder) == OLD


@pytest.mark.parametrize("name", [*OLD])
def test_a_file_that_is_marked_read_only_stays_and_so_do_the_others(folder, name):
    """Even for an administrator, to whom the system refuses nothing."""
    (folder / name).chmod(0o444)
    with pytest.raises(PermissionError, match="read-only; nothing was written") as told:
        write_all(folder, changes(folder))
    assert told.value.filename == os.path.relpath(folder / name)
    assert files(folder) == OLD
    (folder / name).chmod(0o644)
    write_all(folder, changes(folder))
    assert files(folder) == NEW


@pytest.mark.parametrize("name", [*OLD])
def test_a_file_that_the_system_holds_is_refused_before_the_first_is_written(folder, monkeypatch, name):
    """As an append-only one: `os.access` allows to write it, and yet nothing may be put in its place."""
    opened = Path.open

    def refuse(path, *words, **more):
        if path == folder / name and words == ("r+b",):
            raise PermissionError(1, "Operation not permitted", str(path))
        return opened(path, *words, **more)

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(OSError, match=r"cannot be replaced \(Operation not permitted\); nothing was written") as told:
        write_all(folder, changes(folder))
    monkeypatch.undo()
    assert told.value.filename == os.path.relpath(folder / name)
    assert files(folder) == OLD


def test_a_folder_out_of_which_nothing_may_be_taken_is_refused_before_the_first_is_written(folder, monkeypatch):
    """The deleted file is the only one of its folder, so nothing is put beside it that would fail first."""
    allowed = os.access
    monkeypatch.setattr(os, "access", lambda path, mode: path != folder / "lenses" and allowed(path, mode))
    with pytest.raises(PermissionError, match="no file of this folder may be replaced; nothing was written") as told:
        write_all(folder, changes(folder))
    monkeypatch.undo()
    assert told.value.filename == os.path.relpath(folder / "lenses/gone.yaml")
    assert files(folder) == OLD


def test_in_a_folder_as_tmp_a_file_of_somebody_else_is_refused_before_the_first_is_written(folder, monkeypatch):
    (folder / "prices").chmod(0o1777)
    monkeypatch.setattr(os, "geteuid", lambda: (folder / "prices").stat().st_uid + 1)
    with pytest.raises(PermissionError, match="nothing was written") as told:
        write_all(folder, changes(folder))
    monkeypatch.undo()
    assert told.value.filename == os.path.relpath(folder / "prices/a.yaml")
    assert files(folder) == OLD


def test_what_is_held_at_the_last_moment_is_named_itself_and_ended_by_the_next_command(folder, monkeypatch):
    replaced = Path.replace

    def refuse(path, target):
        if path.name == ".a.yaml.bevelbook-new":
            raise PermissionError(1, "Operation not permitted", str(path), None, str(target))
        return replaced(path, target)

    monkeypatch.setattr(Path, "replace", refuse)
    for act in (lambda: write_all(folder, changes(folder)), lambda: recover(folder)):
        with pytest.raises(OSError, match="free this one, and the next command ends what was begun") as told:
            act()
        assert (told.value.filename, told.value.filename2) == (os.path.relpath(folder / "prices/a.yaml"), None)
    monkeypatch.undo()
    assert recover(folder) == "finished"
    assert files(folder) == NEW


def test_a_folder_that_takes_no_files_is_told_by_the_file_that_was_meant(folder, monkeypatch):
    opened = Path.open

    def refuse(path, *words, **more):
        if path.name == ".a.yaml.bevelbook-new":
            raise PermissionError(13, "Permission denied", str(path))
        return opened(path, *words, **more)

    monkeypatch.chdir(folder.parent)
    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(OSError, match="Permission denied; nothing was written") as told:
        write_all(folder, changes(folder))
    monkeypatch.undo()
    assert told.value.filename == os.path.relpath(folder / "prices/a.yaml", folder.parent)
    assert files(folder) == OLD


def test_what_somebody_else_changed_meanwhile_is_not_overwritten(folder):
    with pytest.raises(StaleError):
        write_all(folder, changes(folder), {folder / "shop.yaml": b"what was read"})
    with pytest.raises(StaleError):
        write_all(folder, changes(folder), {folder / "shop.yaml": None})
    assert files(folder) == OLD
    write_all(folder, changes(folder), {folder / "shop.yaml": OLD["shop.yaml"], folder / "imports/new.yaml": None})
    assert files(folder) == NEW


def test_a_link_stays_a_link_and_who_may_read_stays_who_may_read(folder):
    real = folder / "prices" / "real.yaml"
    (folder / "prices/a.yaml").rename(real)
    (folder / "prices/a.yaml").symlink_to("real.yaml")
    real.chmod(0o640)
    write_all(folder, {folder / "prices/a.yaml": b"new"})
    assert (folder / "prices/a.yaml").is_symlink()
    assert real.read_bytes() == b"new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


def test_nothing_outside_the_shop_is_written_whoever_asks(folder):
    shop = folder / "prices"
    with pytest.raises(ValueError, match="outside"):
        write_all(shop, {folder / "shop.yaml": b"new"})
    (shop / JOURNAL).write_text(json.dumps({"state": "whole", "files": {"../shop.yaml": False}}))
    with pytest.raises(ValueError, match="outside"):
        recover(shop)
    for odd in ("{", "[]", '{"state": "odd", "files": {}}', '{"state": "whole", "files": {"a": 1}}'):
        (shop / JOURNAL).write_text(odd)
        with pytest.raises(ValueError, match="not a journal"):
            recover(shop)
    assert (folder / "shop.yaml").read_bytes() == OLD["shop.yaml"]
