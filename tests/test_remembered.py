"""What is remembered from build to build is what would be computed, or it is not used."""

import json
import os
import re
import shutil
import sqlite3
import zlib
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from quoting import remembered
from quoting.catalog.load import load
from quoting.fitted import packed, unpacked
from quoting.kernel import quote
from quoting.offers import Choice, Offers
from quoting.remembered import Memory, cache_file
from quoting.site import rows
from quoting.site.build import build
from tests.kernel.jobs import job

CORNER = Path(__file__).parent / "shops" / "corner"
DAY = date(2026, 2, 1)


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """A copy of the small shop and a cache of its own."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    shutil.copytree(CORNER, tmp_path / "shop")
    return tmp_path / "shop"


@pytest.fixture
def asked(monkeypatch):
    """How often the engine is asked whether something fits."""
    count = []
    original = quote.shared_reasons
    monkeypatch.setattr(quote, "shared_reasons", lambda *job: count.append(1) or original(*job))
    return count


def contents(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def rewrite(shop, file, old, new):
    text = (shop / file).read_text(encoding="utf-8")
    assert old in text
    (shop / file).write_text(text.replace(old, new), encoding="utf-8")


def test_a_second_build_asks_the_engine_nothing_about_boards_and_writes_the_same_bytes(shop, asked, tmp_path):
    build(shop, tmp_path / "one", DAY)
    first = len(asked)
    build(shop, tmp_path / "two", DAY)
    assert len(asked) - first < first / 10
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("shop.yaml", "edge_caution: 8.0", "edge_caution: 2.0"),
        ("shop.yaml", "min_edge: 1.0", "min_edge: 1.6"),
        ("frames/bolderwood.yaml", "ed: 55.5", "ed: 56.5"),
        ("lenses/pennock.yaml", "index: 1.592", "index: 1.66"),
    ],
)
def test_whatever_a_fit_depends_on_is_asked_anew(shop, tmp_path, file, old, new):
    build(shop, tmp_path / "before", DAY)
    rewrite(shop, file, old, new)
    build(shop, tmp_path / "remembering", DAY)
    shutil.rmtree(Path(os.environ["XDG_CACHE_HOME"]))
    build(shop, tmp_path / "fresh", DAY)
    assert contents(tmp_path / "remembering") == contents(tmp_path / "fresh")
    assert contents(tmp_path / "remembering") != contents(tmp_path / "before")


def test_a_change_of_prices_asks_nothing_anew_and_shows_the_new_price(shop, asked, tmp_path):
    build(shop, tmp_path / "one", DAY)
    first = len(asked)
    rewrite(shop, "lenses/pennock.yaml", "lens: 20.00", "lens: 23.00")
    result = build(shop, tmp_path / "two", DAY)
    assert result.pages
    assert len(asked) - first < first / 10
    assert contents(tmp_path / "one") != contents(tmp_path / "two")


@pytest.mark.parametrize("damage", [b"", b"{", b"SQLite format 3\x00", b"\x00" * 4096, None])
def test_a_damaged_memory_is_no_memory(shop, tmp_path, damage):
    build(shop, tmp_path / "one", DAY)
    file = cache_file(shop)
    whole = file.read_bytes()
    file.write_bytes(whole[:1000] + whole[1000 : len(whole) // 2][::-1] if damage is None else damage)
    build(shop, tmp_path / "two", DAY)
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def spoil(shop, change):
    """Everything that is kept of a shop, changed."""
    with closing(sqlite3.connect(cache_file(shop))) as known:
        for key, content in known.execute("SELECT key, content FROM kept").fetchall():
            spoiled = change(zlib.decompress(content).decode()).encode()
            known.execute("UPDATE kept SET content = ? WHERE key = ?", (zlib.compress(spoiled), key))
        known.commit()


def inside(change):
    """A change of each list that is kept of a package; of what has no packages a list of one word is left."""

    def changed(text):
        whole = json.loads(text)
        if not isinstance(whole, dict):
            return json.dumps(["x"])
        return json.dumps({name: within(rows) for name, rows in whole.items()})

    def within(rows):
        if isinstance(rows, str) and rows.startswith("["):  # a text in the text
            return json.dumps(change(json.loads(rows)))
        return change(rows) if isinstance(rows, list) else 7

    return changed


SPOILED = {
    **{text[:9]: lambda _, text=text: text for text in ("", "[]", "{}", "null", "3", '{"x": 1}', "[" * 5000)},
    "nothing in lists": inside(lambda rows: []),
    "one less": inside(lambda rows: rows[1:]),
    "no lists": inside(lambda rows: None),
    "no list each": inside(lambda rows: [7 for _ in rows]),
    "a part less each": inside(lambda rows: [row[:-1] for row in rows]),
    "no verdict": inside(lambda rows: [["perhaps", *row[1:]] for row in rows]),
    "a list for each value": inside(lambda rows: [[[] for _ in row] for row in rows]),
}


@pytest.mark.parametrize("change", SPOILED.values(), ids=SPOILED)
def test_what_has_another_shape_is_not_used(shop, tmp_path, change):
    build(shop, tmp_path / "one", DAY)
    spoil(shop, change)
    build(shop, tmp_path / "two", DAY)
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_another_program_remembers_nothing_of_this_one(shop, tmp_path, asked, monkeypatch):
    build(shop, tmp_path / "one", DAY)
    first = len(asked)
    monkeypatch.setattr(remembered, "program", lambda: "another")
    build(shop, tmp_path / "two", DAY)
    assert len(asked) == 2 * first


def test_a_cache_that_cannot_be_written_is_done_without(shop, tmp_path, monkeypatch):
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert build(shop, tmp_path / "one", DAY).pages


def test_what_is_unpacked_is_what_was_packed():
    fit = quote.fit(job())
    fit["left"] = fit["right"]
    assert unpacked(json.loads(json.dumps(packed(fit)))) == fit


def test_lenses_that_differ_are_not_kept():
    fit = quote.fit(job())
    fit["left"] = {**fit["right"], "center": 9.0}
    assert packed(fit) is None


def kept(file):
    """The keys in a file."""
    with closing(sqlite3.connect(file)) as known:
        return {key for (key,) in known.execute("SELECT key FROM kept")}


def test_the_memory_holds_only_what_the_last_build_used(shop, tmp_path):
    catalog, _ = load(shop)
    package, seen = next(iter(catalog.packages.values())), []
    for frame in catalog.frames.values():
        memory = Memory(tmp_path / "kept")
        offers = Offers(catalog, DAY, memory)
        offers.at(Choice(frame, frame.sizes[0], frame.colorways[0], package), -1.0)
        offers.keep()
        memory.close(keep=True)
        seen.append(kept(tmp_path / "kept"))
        assert [path.name for path in tmp_path.iterdir() if path.name.startswith("kept")] == ["kept"]
    assert [len(keys) for keys in seen] == [1, 1]
    assert seen[0] != seen[1]


def test_answers_that_a_build_had_no_need_of_are_there_for_the_next(shop, asked, tmp_path):
    """Where all rows are known the engine's answers are not read; a price that changes then asks for them."""
    build(shop, tmp_path / "site", DAY)
    first, keys = len(asked), kept(cache_file(shop))
    for _ in range(2):
        build(shop, tmp_path / "site", DAY)
    assert kept(cache_file(shop)) == keys
    rewrite(shop, "lenses/pennock.yaml", "lens: 20.00", "lens: 23.00")
    build(shop, tmp_path / "site", DAY)
    assert len(asked) == first


def test_one_price_works_out_one_row(shop, monkeypatch, tmp_path):
    build(shop, tmp_path / "site", DAY)
    made, whole = [], rows.row_of
    monkeypatch.setattr(rows, "row_of", lambda *one: made.append(one[-1].id) or whole(*one))
    build(shop, tmp_path / "site", DAY)
    assert made == []
    rewrite(shop, "lenses/pennock.yaml", "lens: 20.00", "lens: 23.00")
    build(shop, tmp_path / "site", DAY)
    assert made == ["plain-150", "plain-150"]  # in both frames


def test_packages_that_are_no_more_are_forgotten(shop, tmp_path):
    build(shop, tmp_path / "site", DAY)
    size = cache_file(shop).stat().st_size
    for density in ("1.31", "1.33", "1.34", "1.35", "1.36", "1.37"):
        text = (shop / "lenses/pennock.yaml").read_text(encoding="utf-8")
        (shop / "lenses/pennock.yaml").write_text(
            re.sub("density: 1.3[0-9]*", f"density: {density}", text), encoding="utf-8"
        )
        build(shop, tmp_path / "site", DAY)
    assert cache_file(shop).stat().st_size == size
