"""A new entry stands behind the last one, written like it, and every other byte of the file stays."""

import codecs
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from quoting.catalog.load import load_written
from quoting.keeping.adding import FRAMES, PACKAGES, added
from quoting.keeping.entries import entry_of
from quoting.keeping.scalars import scalar
from quoting.keeping.writing import NoPlaceError, appended, whole_file
from quoting.nodes import read, read_text

ROOT = Path(__file__).parents[2]
FILES = [
    *(
        ("frames", path)
        for shop in (ROOT / "demo_catalog", ROOT / "tests/shops/corner")
        for path in shop.glob("frames/*")
    ),
    *(
        ("packages", path)
        for shop in (ROOT / "demo_catalog", ROOT / "tests/shops/corner")
        for path in shop.glob("lenses/*")
    ),
]
ELM = {"id": "elm", "name": "Elm", "sizes": [{"a": "50", "b": "30"}], "colorways": [{"id": "gray", "front": "#777777"}]}


@pytest.mark.parametrize(("name", "path"), FILES, ids=lambda one: one.stem if isinstance(one, Path) else one)
def test_a_copy_of_any_last_entry_is_written_just_as_that_one(name, path):
    """Whoever writes the last entry of a file again gets its own lines again, but for comments and long prose."""
    raw = path.read_bytes()
    entry = entry_of(read(path).records(name, "this")[-1])
    new = appended(raw, name, entry)
    assert new.startswith(raw.rstrip(b"\n"))
    text = raw.decode("utf-8")
    last = text[text.rindex(f"  - id: {entry['id']}\n") :]
    if ">-" not in last and " # " not in last:
        assert new.decode("utf-8").count(last.rstrip("\n")) == 2
    twice = read_text(new.decode("utf-8"), "new").records(name, "this")
    assert entry_of(twice[-1]) == entry == entry_of(twice[-2])


@pytest.mark.parametrize(
    ("before", "after"),
    [
        pytest.param(
            "frames:\n  - id: a\n    sizes:\n      - {a: 1, b: 2}\n    colorways:\n      - {id: c, front: x}\n\n"
            "  # the second\n  - id: b\n    sizes:\n      - {a: 1, b: 2}\n    # - {a: 2}\n\n# the end\n",
            "\n\n  - id: elm\n    name: Elm\n    sizes:\n      - {a: 50, b: 30}\n    colorways:\n"
            '      - {id: gray, front: "#777777"}',
            id="empty lines between entries, comments within and behind",
        ),
        pytest.param(
            "frames:\n  - {id: a, sizes: [{a: 1, b: 2}], colorways: [{id: c, front: x}]}\nmaker: M\n",
            '\n  - {id: elm, name: Elm, sizes: [{a: 50, b: 30}], colorways: [{id: gray, front: "#777777"}]}',
            id="braces, with a field behind the list",
        ),
        pytest.param(
            "maker: M\nframes:\n-   id: a\n    sizes:\n    - a: 1\n      b: 2",
            "\n-   id: elm\n    name: Elm\n    sizes:\n    - a: 50\n      b: 30\n    colorways:\n    - id: gray\n"
            '      front: "#777777"',
            id="rows in lines, dashes under their name, no line end at the end",
        ),
        pytest.param(
            "frames:\r\n  - sizes: [{ a: 1 }]\r\n    id: a\r\n",
            "\r\n  - sizes: [{ a: 50, b: 30 }]\r\n    id: elm\r\n    name: Elm\r\n"
            '    colorways: [{ id: gray, front: "#777777" }]',
            id="another order, other line ends",
        ),
    ],
)
@pytest.mark.parametrize("first", [b"", codecs.BOM_UTF8], ids=["plain", "with a byte order mark"])
def test_it_is_written_like_its_neighbor_and_all_else_stays(before, after, first):
    new = appended(first + before.encode(), "frames", ELM)
    assert after.encode() in new
    assert new.replace(after.encode(), b"", 1) == first + before.encode()


def test_a_list_that_is_not_there_yet_comes_at_the_end():
    new = appended(b"maker: M\nmaterials: []\n", "packages", {"id": "one", "name": "One"})
    assert new == b"maker: M\nmaterials: []\n\npackages:\n  - id: one\n    name: One\n"


@pytest.mark.parametrize("text", ["frames: [{id: a}, {id: b}]\n", "frames: []\n", "frames:\n"])
def test_a_list_in_brackets_has_no_place_for_lines(text):
    with pytest.raises(NoPlaceError):
        appended(text.encode(), "frames", ELM)


SIGNS = st.one_of(
    st.sampled_from("-?:,[]{}#&*!|>'\"%@`~ \\abn01."), st.characters().filter(lambda one: one.isprintable())
)


@given(st.text(SIGNS, max_size=14).map(lambda text: " ".join(text.split())).filter(bool))
@settings(max_examples=1000, deadline=None)
@example("-")
@example("no")
@example("null")
@example("1:30")
@example("#444a52")
@example("hard, blue")
def test_a_value_reads_back_as_it_was(text):
    inside = scalar(text, braces=True)
    for form in (f"x: {scalar(text)}", f"x: {inside}", f"{{x: {inside}, y: 1}}", f"list: [{{x: {inside}}}]"):
        root = read_text(form, "value")
        part = root.records("list", "this")[0] if root.is_list("list") else root
        assert (part.text("x"), root.findings) == (text, [])


def test_a_new_file_begins_with_the_maker():
    assert whole_file({"maker": "A: B"}, "frames", {"id": "x"}) == b'maker: "A: B"\n\nframes:\n  - id: x\n'


@pytest.mark.parametrize("kind", [FRAMES, PACKAGES], ids=["frame", "package"])
@pytest.mark.parametrize("maker", ["Bolderwood", "PENNOCK", "New & Sons"])
def test_the_whole_shop_is_read_with_the_new_entry_and_nothing_else_changes(corner, kind, maker):
    catalog, _ = load_written(corner)
    path = corner / ("frames/bolderwood.yaml" if kind is FRAMES else "lenses/pennock.yaml")
    entry = {**entry_of(read(path).records(kind.name, "this")[0]), "id": "new-one"}
    addition = added(corner, catalog, kind, [(maker, entry), (maker, {**entry, "id": "newer"})])
    assert addition.findings == []
    assert len(addition.contents) == 1
    found, _ = load_written(corner, addition.contents)
    there = found.frames if kind is FRAMES else found.packages
    assert {"new-one", "newer"} <= there.keys()
    made = there["new-one"]
    assert made.maker.casefold() == maker.casefold()
    assert replace(made, id="newer") == there["newer"]


def test_an_entry_that_changes_how_another_reads_is_refused(corner):
    """The text goes on below the entry's margin: its end is not where it seems, which the second reading finds."""
    catalog, _ = load_written(corner)
    other = replace(catalog, frames={**catalog.frames, "alder": replace(catalog.frames["alder"], name="Else")})
    entry = {**entry_of(read(corner / "frames/bolderwood.yaml").records("frames", "this")[0]), "id": "new-one"}
    assert [one.code for one in added(corner, other, FRAMES, [("Bolderwood", entry)]).findings] == ["not-only-new"]


def test_a_list_in_brackets_is_told_with_its_place(corner):
    path = corner / "frames/bolderwood.yaml"
    entry = entry_of(read(path).records("frames", "this")[0])
    one = (
        "maker: Bolderwood\nframes: [{id: alder, name: Alder, family: rectangle, mounting: full-rim-plastic, "
        "material: acetate, curve: 4.0, wrap: 5, tilt: 8, "
        "sizes: [{a: 52, b: 36, dbl: 18, ed: 55.5, temple: 145}], colorways: [{id: slate, name: Slate, "
        'version: optical, price: 120.00, front: "#46525c", temples: "#39434b", stock: in-stock}]}]\n'
    )
    path.write_text(one, encoding="utf-8")
    catalog, findings = load_written(corner)
    assert findings == []
    (told,) = added(corner, catalog, FRAMES, [("Bolderwood", {**entry, "id": "new-one"})]).findings
    assert (told.code, told.mark.line, told.mark.file) == ("no-place", 2, path.as_posix())
    assert told.hint


def test_a_file_with_materials_only_is_the_makers_file_too(corner):
    (corner / "lenses/hazelby.yaml").write_text("maker: Hazelby\n# nothing yet\n", encoding="utf-8")
    catalog, _ = load_written(corner)
    entry = {**entry_of(read(corner / "lenses/pennock.yaml").records("packages", "this")[0]), "id": "new-one"}
    addition = added(corner, catalog, PACKAGES, [("hazelby", entry)])
    assert addition.findings == []
    (content,) = addition.contents.values()
    assert content.startswith(b"maker: Hazelby\n# nothing yet\n\npackages:\n  - id: new-one\n")


def test_a_second_entry_in_a_file_of_ours_stands_apart_like_the_list(corner):
    once = whole_file({"maker": "M"}, "frames", {"id": "a"})
    assert appended(once, "frames", {"id": "b"}) == b"maker: M\n\nframes:\n  - id: a\n\n  - id: b\n"
    assert whole_file({"maker": "M"}, "frames", {"id": "a"}, {"id": "b"}) == appended(once, "frames", {"id": "b"})
