"""Whatever call of the system is the last one, an order is as before the step or as after it, and the step can be done.

Each case runs a command in a process of its own, which ends without a word at its n-th call that changes a file; then
the next command is asked.
"""

import multiprocessing
import os
import shutil
from contextlib import suppress
from pathlib import Path

import pytest

from quoting.cli import main
from tests.orders.shops import DAY, MEASURED, bevelbook, book, good, marked, quoted, shop_in, state
from tests.orders.test_orders import READ

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="processes are not forked here")
CALLS = ("open", "write", "fsync", "rename", "replace", "mkdir", "unlink", "rmdir", "truncate", "ftruncate")


def ending_at(last, words, shown):
    """A child of this process that ends just before its ``last`` changing call; 0 counts them all."""
    count = 0

    def counted(call, changes):
        def do(*given, **more):
            nonlocal count
            if changes(*given, **more):
                count += 1
                if count == last:
                    os._exit(77)
            return call(*given, **more)

        return do

    for name in CALLS:
        changes = (
            (lambda path, flags=0, *_, **__: bool(flags & (os.O_CREAT | os.O_APPEND))) if name == "open" else _always
        )
        setattr(os, name, counted(getattr(os, name), changes))
    with suppress(SystemExit):
        main(words, standalone_mode=False)
    shown.value = count
    os._exit(0)


def _always(*_, **__):
    return True


def cut(last, *words):
    """Run it so; how many calls there were in all."""
    context = multiprocessing.get_context("fork")
    shown = context.Value("i", 0)
    child = context.Process(target=ending_at, args=(last, [str(word) for word in words], shown))
    child.start()
    child.join(600)
    assert child.exitcode in (0, 77), child.exitcode
    return shown.value, child.exitcode


@pytest.fixture
def shop(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return shop_in(tmp_path)


def whole(shop, one):
    """Everything of an order can be read."""
    found = book(shop).read(one)
    assert {path.name for path in book(shop).place(one).iterdir()} >= {
        "order.json",
        "sheet.html",
        "lab.dcs",
        "verify.html",
    }
    return found


def each_cut(shop, words, check):
    """Cut the command at every changing call, from the same state each time."""
    before = shop.with_name("before")
    shutil.copytree(shop, before)
    count, _ = cut(0, *words)
    assert count > 2
    for last in range(1, count + 1):
        shutil.rmtree(shop)
        shutil.copytree(before, shop)
        _, code = cut(last, *words)
        assert code == 77
        check()
    shutil.rmtree(shop)
    shutil.copytree(before, shop)


def test_an_order_is_there_whole_or_not_at_all(shop):
    number = quoted(shop)
    words = ("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    one = f"{number}-1"
    seen = set()

    def check():
        there = one in book(shop).orders()
        seen.add(there)
        if not there:
            assert one in good(*words).stdout
        whole(shop, one)
        assert state(shop, one) == "draft"
        listed = {path.name for path in (shop / "private/orders").iterdir()}
        assert listed == {".gitignore", one}

    each_cut(shop, words, check)
    assert seen >= {False}


def test_a_verification_counts_or_does_not(shop):
    number = quoted(shop)
    good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    one = f"{number}-1"
    marked(shop, one, "sent", "received")
    words = ("verify", one, *READ, "--shop", shop, *DAY)

    def check():
        whole(shop, one)
        if state(shop, one) == "received":
            good(*words)
        assert state(shop, one) == "verified"
        assert (book(shop).place(one) / "verified-1.json").is_file()

    each_cut(shop, words, check)


def test_a_remake_ends_the_old_order_and_begins_the_new_one_at_once(shop):
    number = quoted(shop)
    good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    one = f"{number}-1"
    marked(shop, one, "sent", "received")
    words = ("remake", one, "--reason", "scratched", "--shop", shop, *DAY)

    def check():
        known = book(shop).orders()
        assert (known[one].state == "remade") == (f"{one}-R1" in known)
        if f"{one}-R1" not in known:
            good(*words)
        whole(shop, f"{one}-R1")
        whole(shop, one)

    each_cut(shop, words, check)


def test_a_pass_that_is_held_anew_is_as_before_or_as_after(shop):
    number = quoted(shop)
    good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    one = f"{number}-1"
    marked(shop, one, "sent", "received")
    good("verify", one, *READ, "--shop", shop, *DAY)
    words = ("verify", one, "--right", "-5.00", "--left", "-5.75", "--again", "another pair", "--shop", shop, *DAY)

    def check():
        placed = book(shop).placed(one)
        results = [row["result"] for row in placed.rows if "result" in row]
        assert (placed.state, results) in (("verified", ["pass"]), ("received", ["pass", "fail"]))
        if results == ["pass"]:
            assert bevelbook(*words).exit_code == 1
        folder = book(shop).place(one)
        assert (folder / "verified-1.json").is_file()
        assert (folder / "verified-2-note.txt").read_text(encoding="utf-8").endswith("Please make it anew.\n")
        assert not list(folder.glob(".*"))

    each_cut(shop, words, check)


def test_a_card_has_whole_files_only_and_the_same_command_writes_the_rest(shop):
    number = quoted(shop)
    good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    one = f"{number}-1"
    words = ("order", "card", one, "--unverified", "--shop", shop, *DAY)
    good(*words)
    folder = book(shop).place(one)
    wanted = {path.name: path.read_bytes() for path in folder.iterdir()}
    for path in [*folder.glob("record*"), folder / "packing.txt", folder / "parcel.txt"]:
        path.unlink()

    def check():
        for path in folder.iterdir():
            assert path.name.startswith(".") or path.read_bytes() == wanted[path.name]
        good(*words)
        assert {path.name: path.read_bytes() for path in folder.iterdir()} == wanted

    each_cut(shop, words, check)


def test_a_torn_line_of_the_ledger_is_told_and_takes_nothing_with_it(shop):
    number = quoted(shop)
    good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    register = Path(shop / "private/quotes/register.jsonl")
    raw = register.read_bytes()
    register.write_bytes(raw[:-30])
    told = bevelbook("order", "--shop", shop)
    assert "cut short" in told.stderr
    assert "There is no order" in told.stdout
    good("order", "from", number, "--shop", shop, *DAY, *MEASURED)
    assert state(shop, f"{number}-1") == "draft"
