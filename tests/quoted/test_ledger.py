"""Nothing that was entered is ever lost: not by a command cut short, not by two at once, not by a full disk."""

import errno
import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from quoting.quoted import ledger
from quoting.quoted.ledger import Ledger

ROOT = Path(__file__).parents[2]
POSIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows keeps no two commands apart")


@pytest.fixture
def book(tmp_path):
    return Ledger(tmp_path / "book.jsonl")


def test_what_was_added_is_read_in_order(book):
    assert book.read().rows == []
    for count in range(3):
        book.add({"count": count, "name": "é “x” \n \u2028"})
    assert [row["count"] for row in book.read().rows] == [0, 1, 2]
    assert book.path.read_bytes().count(b"\n") == 3
    assert book.read().findings == ()


@POSIX
def test_it_is_for_its_owner_alone(book):
    before = os.umask(0)
    try:
        book.add({})
    finally:
        os.umask(before)
    assert book.path.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("cut", range(1, 22))
def test_a_line_cut_short_takes_no_other_with_it(book, cut):
    """The file as a crash would leave it after so many bytes of the second line."""
    book.add({"count": 0})
    whole = book.path.read_bytes()
    second = b'{"count":1,"more":"x"}\n'
    assert len(second) == 23
    book.path.write_bytes(whole + second[:cut])
    assert [row["count"] for row in book.read().rows] == [0]
    (finding,) = book.read().findings
    assert (finding.code, finding.mark.line) == ("cut-short", 2)
    book.add({"count": 2})
    book.add({"count": 3})
    read = book.read()
    assert [row["count"] for row in read.rows] == [0, 2, 3]
    assert [found.mark.line for found in read.findings] == [2]
    assert whole + second[:cut] in book.path.read_bytes()


def test_a_line_that_lacks_only_its_end_counts(book):
    book.path.write_bytes(b'{"count":0}\n{"count":1}')
    assert [row["count"] for row in book.read().rows] == [0, 1]
    book.add({"count": 2})
    assert [row["count"] for row in book.read().rows] == [0, 1, 2]
    assert book.read().findings == ()


@pytest.mark.parametrize("line", [b"[]", b"5", b"null", b'"x"', b"\xff\xfe", b"\x00" * 30, b"{"])
def test_what_is_no_record_is_told_and_left(book, line):
    book.path.write_bytes(b'{"count":0}\n' + line + b'\n{"count":1}\n')
    assert [row["count"] for row in book.read().rows] == [0, 1]
    assert [found.mark.line for found in book.read().findings] == [2]


def test_where_the_disk_is_full_nothing_half_is_left(book, monkeypatch):
    book.add({"count": 0})
    before = book.path.read_bytes()
    write = os.write

    def half(handle, content):
        if len(content) > 5:
            return write(handle, content[:5])
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(ledger.os, "write", half)
    with pytest.raises(OSError, match="No space left"):
        book.add({"count": 1, "more": "x" * 3})
    monkeypatch.undo()
    assert book.path.read_bytes() == before
    book.add({"count": 2})
    assert [row["count"] for row in book.read().rows] == [0, 2]


def test_a_line_is_down_on_the_disk_before_anybody_hears_of_it(book, monkeypatch):
    synced = []
    fsync = os.fsync
    monkeypatch.setattr(ledger.os, "fsync", lambda handle: synced.append(handle) or fsync(handle))
    book.add({"count": 0})
    assert len(synced) == (1 if sys.platform == "win32" else 2)  # a new file's name is written down too
    book.add({"count": 1})
    assert len(synced) == (2 if sys.platform == "win32" else 3)


def test_what_a_decision_raises_adds_nothing(book):
    book.add({"count": 0})

    def no(rows):
        assert rows == [{"count": 0}]
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        book.decide(no)
    assert book.decide(lambda rows: []) == []
    assert book.read().rows == [{"count": 0}]


def add_many(path, who, count, ready):
    ready.wait(600)
    for at in range(count):

        def decide(rows, at=at):
            time.sleep(0.001)  # between what was read and what is written another one has its chance
            return [{"who": who, "at": at, "number": len(rows)}]

        Ledger(path).decide(decide)


@POSIX
def test_commands_at_the_same_time_wait_for_each_other(book):
    spawn = multiprocessing.get_context("spawn")
    ready = spawn.Barrier(4)
    workers = [spawn.Process(target=add_many, args=(book.path, who, 40, ready)) for who in range(4)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
        assert worker.exitcode == 0
    rows = book.read().rows
    assert [row["number"] for row in rows] == list(range(160))
    for who in range(4):
        assert [row["at"] for row in rows if row["who"] == who] == list(range(40))


WRITER = """
import sys
from pathlib import Path
from quoting.quoted.ledger import Ledger
book = Ledger(Path(sys.argv[1]))
for count in range(1_000_000):
    book.add({"count": count, "more": "x" * 500})
    print(count, flush=True)
"""


@POSIX
def test_a_command_killed_while_it_writes_loses_nothing_that_it_told(book):
    command = [sys.executable, "-c", WRITER, str(book.path)]
    for _ in range(3):
        with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as writer:
            assert writer.stdout.readline() == "0\n"
            time.sleep(0.2)
            writer.send_signal(signal.SIGKILL)
            told = 1 + writer.stdout.read().count("\n")
        read = book.read()
        assert len(read.rows) >= told
        assert len(read.findings) <= 1
        assert [row["count"] for row in read.rows] == list(range(len(read.rows)))
        book.path.unlink()
