"""Boards that several processes work out: the same site, and nothing that goes wrong there is lost or left behind."""

import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from dataclasses import replace

import pytest

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.offers import Offers
from quoting.remembered import Memory
from quoting.site import ahead as working
from quoting.site import rows
from quoting.site.ahead import ROWS_EACH, ahead, paying
from quoting.site.build import End, build
from tests.bench.build import DAY as BENCH_DAY
from tests.bench.build import make_shop
from tests.site.conftest import CORNER, DAY
from tests.site.test_build import contents

HARBOR = """languages: [en, es]
  url: https://corner.example.org/shop
"""


@pytest.fixture(autouse=True)
def cache(tmp_path, monkeypatch):
    """A cache of its own for each test."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def made_here(monkeypatch):
    """The rows that are worked out in this process."""
    made, whole = [], rows.row_of
    monkeypatch.setattr(rows, "row_of", lambda *one: made.append(one[-1].id) or whole(*one))
    return made


@pytest.fixture
def bilingual(corner, rewrite):
    """The small shop in two languages, with a word of its owner's own in the second."""
    rewrite("shop.yaml", "  locale: en_US\n", f"  locale: en_US\n  {HARBOR}")
    (corner / "languages").mkdir()
    said = "texts:\n  - {text: Thin 1.60, say: Fino 1.60}\n"
    (corner / "languages" / "es.yaml").write_text(said, encoding="utf-8")
    return corner


def test_the_site_is_the_same_and_its_rows_come_from_elsewhere(bilingual, made_here, tmp_path, monkeypatch):
    assert errors(build(bilingual, tmp_path / "one", DAY, end=End(jobs=1)).findings) == []
    assert made_here
    made_here.clear()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "another"))
    assert errors(build(bilingual, tmp_path / "two", DAY, end=End(jobs=2)).findings) == []
    assert made_here == []
    assert contents(tmp_path / "one") == contents(tmp_path / "two")
    build(bilingual, tmp_path / "two", DAY, end=End(jobs=2))  # all is known: nobody is asked
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_without_a_cache_all_is_worked_out_here(corner, made_here, tmp_path, monkeypatch):
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert build(corner, tmp_path / "site", DAY, end=End(jobs=2)).pages
    assert made_here


def offers(tmp_path, **changes):
    """The engine over the small shop with a memory; ``changes``: of each frame."""
    catalog, _ = load(CORNER, DAY)
    frames = {name: replace(frame, **changes) for name, frame in catalog.frames.items()}
    return Offers(replace(catalog, frames=frames), DAY, Memory(tmp_path / "memory"))


def test_what_is_raised_there_is_raised_here(tmp_path):
    wrong = offers(tmp_path, family="heptagon")
    with ahead(wrong, 2) as there, pytest.raises(ValueError, match="no such family of outlines"):
        there.need(next(iter(wrong.catalog.frames.values())))


def ended(_):
    """What a process does that somebody ends."""
    os._exit(9)


def test_a_process_that_is_ended_from_outside_costs_time_alone(tmp_path, monkeypatch):
    monkeypatch.setattr(working, "worked", ended)
    usual = offers(tmp_path)
    with ahead(usual, 2) as there:
        for frame in usual.catalog.frames.values():
            there.need(frame)
            assert there._pool is None
            assert rows.Rows(usual).board(frame, frame.sizes[0]).packages == len(usual.catalog.packages)


def test_small_shops_are_worked_out_here(monkeypatch):
    catalog, _ = load(CORNER, DAY)
    monkeypatch.setattr(working, "cores", lambda: 4)
    frames = list(catalog.frames.values())
    assert paying(catalog, frames) == 0
    many = frames * ROWS_EACH
    assert paying(catalog, many) == 4


# Whoever runs the tests may have Ctrl-C ignored, as shells do for what runs in the background
COMMAND = """import signal
from quoting.cli import run
signal.signal(signal.SIGINT, signal.default_int_handler)
run()
"""


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize("sign", [signal.SIGINT, signal.SIGKILL])
def test_an_end_from_outside_leaves_no_process_and_no_half_site(tmp_path, sign):
    """Ctrl-C goes to all processes of the group; SIGKILL to the first one alone."""
    make_shop(tmp_path / "shop", 60)
    words = ("build", "shop", "--to", "site", "--jobs", "2", "--on", BENCH_DAY.isoformat())
    command = [sys.executable, "-c", COMMAND, *words]
    first = subprocess.Popen(
        command, cwd=tmp_path, start_new_session=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    side = tmp_path / "cache/bevelbook"
    assert within(120, lambda: any("sqlite." in path.name for path in side.glob("*")))  # the memory of this build
    assert within(120, lambda: len(members(first.pid)) >= 3)
    if sign == signal.SIGINT:
        os.killpg(first.pid, sign)
    else:
        first.kill()
    said, told = first.communicate(timeout=120)
    if sign == signal.SIGINT:  # SIGKILL may leave a process at its very beginning, and Python tells of it there
        assert "Traceback" not in told, told
    assert first.returncode not in (0, None), said
    assert within(60, lambda: members(first.pid) == [])
    assert not (tmp_path / "site").exists()
    if sign == signal.SIGINT:
        assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".site")] == []


def within(seconds, answered):
    """Whether something comes true in time."""
    end = time.monotonic() + seconds
    while not answered():
        if time.monotonic() > end:
            return False
        time.sleep(0.05)
    return True


def members(group):
    """The processes of a group that have not ended."""
    found = []
    told = subprocess.run(["ps", "-A", "-o", "pid=,pgid=,stat="], capture_output=True, text=True, check=True).stdout
    for line in told.splitlines():
        with suppress(ValueError):
            pid, of, state = line.split()
            if int(of) == group and not state.startswith("Z"):
                found.append(int(pid))
    return found
