"""Frames and packages come into the file of their maker, by questions or by options, and nothing else changes."""

import json
import os
import select
import shlex
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load_written
from quoting.cli import adding, main

CORNER = Path(__file__).parents[1] / "shops" / "corner"
SIZE = ("--size", "a: 50, b: 30, dbl: 18, ed: 50.4, temple: 140")
COLOR = 'name: Gray, id: gray, version: optical, price: 99.50, front: "#777777", temples: "#777777", stock: in-stock'
ELM = (
    *("--maker", "Bolderwood", "--name", "Elm", "--id", "elm", "--family", "oval", "--mounting", "drilled"),
    *("--material", "titanium", "--curve", "4.0", "--wrap", "5", "--tilt", "8", *SIZE, "--colorway", COLOR),
)
WRITTEN = """  - id: elm
    name: Elm
    family: oval
    mounting: drilled
    material: titanium
    curve: 4.0
    wrap: 5
    tilt: 8
    sizes:
      - {a: 50, b: 30, dbl: 18, ed: 50.4, temple: 140}
    colorways:
      - {id: gray, name: Gray, version: optical, price: 99.50, front: "#777777", temples: "#777777", stock: in-stock}
"""


def bevelbook(*words, typed=None):
    return CliRunner().invoke(main, [str(word) for word in words], input=typed, prog_name="bevelbook")


def files(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def changed(words, name, value):
    """The options with another value for one of them, or without it."""
    at = words.index(name)
    return (*words[:at], *((name, value) if value is not None else ()), *words[at + 2 :])


@pytest.fixture
def corner(tmp_path):
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


@pytest.fixture
def terminal(monkeypatch):
    """Somebody is there to be asked."""
    monkeypatch.setattr(adding, "in_terminal", lambda: True)


def test_options_alone_put_a_frame_into_its_makers_file(corner):
    before = files(corner)
    told = bevelbook("frame", "add", corner, *ELM)
    assert told.exit_code == 0, told.output
    name = "frames/bolderwood.yaml"
    assert files(corner) == {**before, name: before[name] + WRITTEN.encode()}
    assert bevelbook("check", corner).exit_code == 0


@pytest.mark.parametrize(
    ("option", "value", "code", "sentence"),
    [
        ("--curve", "4,0", 1, "write a decimal point, not a comma: 4.0"),
        ("--family", "ovel", 1, "did you mean `oval`?"),
        ("--id", "reed", 1, "the frame id `reed` is taken already at"),
        ("--size", "a: 5, b: 30, dbl: 18, ed: 50.4, temple: 140", 1, "--size 1:1:1: error: the lens width `a`"),
        ("--size", "a: 50, b: 30, dbl: 18, ed: 50.4, tempel: 140", 1, "did you mean `temple`?"),
        ("--size", "a: 50,5, b: 30, dbl: 18, ed: 50.4, temple: 140", 1, "--size 1:1:7: error: `5` stands alone here"),
        ("--size", "a: 50, b:30, dbl: 18, ed: 50.4, temple: 140", 1, "put a space after the colon: b: 30"),
        ("--colorway", COLOR.replace("99.50", "99,50"), 1, "write a decimal point, not a comma: price: 99.50"),
        ("--colorway", COLOR.replace('"#777777"', "#777777", 1), 1, "put the color in quotes"),
        ("--mounting", None, 2, "--mounting, such as full-rim-plastic (one of"),
        ("--size", None, 2, '--size, such as "a: 52, b: 38'),
        ("--maker", None, 2, "give --maker"),
        ("--maker", "m" * 81, 2, "the maker has 81 characters"),
        ("--name", "El\x1bm", 2, "--name holds a sign that cannot be printed"),
    ],
)
def test_a_wrong_or_missing_option_is_told_and_nothing_is_written(corner, option, value, code, sentence):
    before = files(corner)
    told = bevelbook("frame", "add", corner, *changed(ELM, option, value))
    assert told.exit_code == code, told.output
    assert sentence in " ".join(told.output.split())
    assert files(corner) == before


THIN = (
    *("--maker", "Hallmere", "--name", "Thin one", "--design", "sv", "--material", "r150", "--light", "clear"),
    *("--coating", "hard coat", "--range", "from: -6.00, to: +4.00, cylinder: 2.00, diameter: 70", "--prism", "3"),
    *("--price", "from: -6.00, to: 0.00, lens: 20.00", "--price", "from: +0.25, to: +4.00, lens: 25.00"),
)


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("from: +0.25", "from: -0.25", "the row -0.25 to +4.00 overlaps the row -6.00 to 0.00 in --price 1"),
        ("from: +0.25", "from: +0.50", "between this row and the one in --price 1"),
        ("to: +4.00, cyl", "to: +5.00, cyl", "add a row to `prices` near --price 2, or let the range end sooner"),
    ],
)
def test_rows_that_do_not_go_together_are_named_as_they_were_typed(corner, old, new, sentence):
    """And not by the line of a text that only we have seen."""
    told = bevelbook("package", "add", corner, *(word.replace(old, new) for word in THIN))
    assert told.exit_code == 1
    assert sentence in told.output
    assert " line " not in told.output


def test_two_sizes_that_are_one_are_named_as_they_were_typed(corner):
    told = bevelbook("frame", "add", corner, *ELM, *SIZE)
    assert "distance `dbl` in --size 1 [duplicate-size]" in told.output


def test_nothing_is_what_an_empty_option_says_where_nothing_may_be_said(corner):
    assert bevelbook("frame", "add", corner, *ELM, "--about", "").exit_code == 0
    assert (corner / "frames/bolderwood.yaml").read_text(encoding="utf-8").endswith(WRITTEN)


def test_nobody_is_asked_again_for_what_was_said_to_be_nothing(corner, terminal):
    assert bevelbook("frame", "add", corner, *ELM, "--about", "", typed="").exit_code == 0


def test_an_empty_option_that_is_needed_is_told_as_an_option(corner):
    told = bevelbook("frame", "add", corner, *changed(ELM, "--material", ""))
    assert told.exit_code == 1
    assert "hint: write for example --material acetate" in told.output


def test_questions_make_a_frame_of_a_new_maker_and_a_wrong_answer_is_asked_again(corner, terminal):
    before = files(corner)
    typed = [
        "Quern Lane",
        "Teasel No. 2",
        "",
        "oval",
        "drilled",
        "titanium",
        "4.0",
        "5",
        "8",
        "Light: very",
        "50",
        "30",
    ]
    typed += ["18", "50,4", "50.4", "140", "", "n", "Gray", "", "", "199.00", "777", "#777777", "", "", "n"]
    told = bevelbook("frame", "add", corner, typed="\n".join([*typed, ""]))
    assert told.exit_code == 0, told.output
    for words in ("acetate, titanium", "a decimal point, not a comma: 50.4", "`front` must be a color in quotes"):
        assert words in told.output
    now = files(corner)
    new = now.pop("frames/quern-lane.yaml").decode()
    assert now == before
    assert new.startswith("maker: Quern Lane\n\nframes:\n  - id: teasel-no-2\n    name: Teasel No. 2\n")
    assert '    about: "Light: very"\n' in new
    frame = load_written(corner)[0].frames["teasel-no-2"]
    assert (frame.maker, frame.colorways[0].price_cents, frame.sizes[0].ed) == ("Quern Lane", 19900, 50.4)


def test_what_the_makers_last_frame_has_is_proposed(corner, terminal):
    typed = ["Bolderwood", "Elm", "", "oval", "", "", "", "", "", "", *["50", "30", "18", "50.4", "140"], "", "n"]
    typed += ["Gray", "", "", "199.00", "#777777", "", "", "n"]
    told = bevelbook("frame", "add", corner, typed="\n".join([*typed, ""]))
    assert told.exit_code == 0, told.output
    frames = load_written(corner)[0].frames
    for name in ("mounting", "material", "curve", "wrap", "tilt"):
        assert getattr(frames["elm"], name) == getattr(frames["reed"], name)


def test_questions_make_a_package_and_rows_that_do_not_go_together_are_asked_again(corner, terminal):
    before = files(corner)["lenses/pennock.yaml"]
    typed = [
        "Pennock",
        "Thin 1.60, blue",
        "",
        "sv",
        "r160",
        "",
        "hard coat",
        "",
        "",
        "-6.00",
        "+4.00",
        "4.00",
        "75",
        "n",
    ]
    typed += ["3.0", "-6.00", "+2.00", "20", "n", "y", "-6.00", "+4.00", "44.00", "n"]
    told = bevelbook("package", "add", corner, typed="\n".join([*typed, ""]))
    assert told.exit_code == 0, told.output
    assert "the range goes to +4.00, but `prices` reach from -6.00 to +2.00" in told.output
    new = files(corner)["lenses/pennock.yaml"]
    assert new.startswith(before)
    assert new[len(before) :].decode().startswith("  - id: thin-1-60-blue\n    name: Thin 1.60, blue\n    design: sv\n")
    assert load_written(corner)[0].packages["thin-1-60-blue"].prices[0].lens_cents == 4400


@pytest.mark.parametrize("finished", [True, False])
def test_options_alone_make_a_package_even_a_progressive_or_a_finished_one(corner, finished):
    design, more = ("sv", "") if finished else ("prog", ", add: {from: 0.75, to: 3.50}")
    words = ["--maker", "Hazelby", "--name", "N", "--id", "new-one", "--design", design, "--material", "r160"]
    words += ["--light", "clear", "--coating", "hard coat", "--price", "from: -6.00, to: 4.00, lens: 30.00"]
    words += ["--range", f"from: -6.00, to: +4.00, cylinder: 2.00, diameter: 70{more}"]
    words += ["--finished", "yes", "--center", "from: -6.00, to: 4.00, center: 2.0"] if finished else ["--prism", "3"]
    told = bevelbook("package", "add", corner, *words)
    assert told.exit_code == 0, told.output
    package = load_written(corner)[0].packages["new-one"]
    assert (package.maker, package.finished, package.ranges[0].add_to) == ("Hazelby", finished, 0 if finished else 3.5)
    assert bevelbook("check", corner).exit_code == 0


def test_a_design_that_is_not_there_is_asked_again_with_what_was_meant(corner, terminal):
    told = bevelbook("package", "add", corner, typed="Pennock\nThin\n\nsw\n")
    assert "there is no design `sw`" in told.output
    assert told.exit_code == 1


def test_a_shop_with_faults_is_told_first(corner):
    path = corner / "frames/bolderwood.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("a: 52", "a: 5"), encoding="utf-8")
    told = bevelbook("frame", "add", corner, *ELM)
    assert told.exit_code == 1
    assert "frames/bolderwood.yaml:12:13: error" in told.output


HEAD = (
    "Maker,Model,Shape,Mounting,Material,A,B,DBL,ED,Temple,Curve,Wrap,Tilt,Color,Version,Price,Front,Temple color,Stock"
)
ROW = "Bolderwood,Elm,oval,drilled,titanium,50,30,18,50.4,140,4.0,5,8,Gray,optical,99.50,#777777,#777777,in-stock"


@pytest.fixture
def table(corner):
    path = corner.parent / "list.csv"
    path.write_text(f"{HEAD}\n{ROW}\n", encoding="utf-8")
    return path


def test_a_table_is_shown_first_and_written_when_asked(corner, table):
    before = files(corner)
    shown = bevelbook("frame", "import", table, corner)
    assert shown.exit_code == 0, shown.output
    for words in ("Temple color → temples", "elm: Bolderwood Elm; 50□18; Gray 99.50", "--write writes"):
        assert words in shown.output
    assert files(corner) == before
    assert bevelbook("frame", "import", table, corner, "--write").exit_code == 0
    name = "frames/bolderwood.yaml"
    assert files(corner) == {**before, name: before[name] + WRITTEN.encode()}
    again = bevelbook("frame", "import", table, corner, "--write")
    assert (again.exit_code, "Nothing to write." in again.output) == (0, True)
    assert files(corner)[name] == before[name] + WRITTEN.encode()


def test_a_table_with_a_fault_is_told_by_row_and_column_and_not_written(corner, table):
    before = files(corner)
    table.write_text(f"{HEAD}\n{ROW.replace(',50.4,', ',90.4,')}\n", encoding="utf-8")
    told = bevelbook("frame", "import", table, corner, "--write")
    assert told.exit_code == 1
    assert f"list.csv:2:{ROW.index('50.4') + 1}: error: no oval outline" in told.output
    assert files(corner) == before


def test_a_table_is_told_to_programs(corner, table):
    found = json.loads(bevelbook("frame", "import", table, corner, "--json").stdout)
    assert found.keys() == {"columns", "unused", "decided", "frames", "findings", "files", "written"}
    assert (found["frames"], found["written"], found["columns"]["dbl"]) == (["elm"], False, "DBL")


def test_a_bare_table_ends_with_the_line_to_run_next(corner, table, monkeypatch):
    monkeypatch.chdir(corner)
    Path("my list.csv").write_text("Model;Size;Colour\nElm;50-18-140;Gray\n", encoding="utf-8")
    given = ("--delimiter", ";", "--set", "maker=Bolderwood", "--column", "color=Colour")
    told = bevelbook("frame", "import", "my list.csv", ".", *given)
    assert told.exit_code == 1
    line = shlex.split(told.output.splitlines()[-1])
    assert line[:5] == ["bevelbook", "frame", "import", "my list.csv", "."]
    filled = [
        word.replace("family=...", "family=oval").replace("b=...", "b=30").replace("ed=...", "ed=50.4")
        for word in line[1:]
    ]
    filled = [word.replace("price=...", "price=99.50").replace("s=...", "s=#777777") for word in filled]
    filled = [word.replace("front=...", "front=#777777") for word in filled]
    assert not any("..." in word for word in filled), filled
    assert bevelbook(*filled, "--write").exit_code == 0, bevelbook(*filled).output
    assert "elm" in load_written(corner)[0].frames


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--set", "tlit=8"), "did you mean tilt"),
        (("--column", "price"), "write FIELD=..."),
        (("--delimiter", ";;"), "takes one sign"),
    ],
)
def test_misuse_of_an_import_is_told(corner, table, words, sentence):
    told = bevelbook("frame", "import", table, corner, *words)
    assert told.exit_code == 2
    assert sentence in told.output


def seen_until(terminal, words, seconds=120):
    """What a terminal shows until these words come."""
    shown, end = "", time.monotonic() + seconds
    while words not in shown and time.monotonic() < end:
        if select.select([terminal], [], [], 0.5)[0]:
            try:
                shown += os.read(terminal, 4096).decode("utf-8", "replace")
            except OSError:  # the other side has closed it
                break
    return shown


@pytest.mark.skipif(sys.platform == "win32", reason="there are no such terminals")
def test_in_a_real_terminal_tab_completes_and_going_away_leaves_everything_as_it_was(corner):
    import pty

    pytest.importorskip("readline")
    before = files(corner)
    terminal, other = pty.openpty()
    words = [sys.executable, "-c", "from quoting.cli import run; run()", "frame", "add", str(corner)]
    env = {**os.environ, "TERM": "dumb", "PYTHONPATH": str(Path(__file__).parents[2])}
    with subprocess.Popen(words, stdin=other, stdout=other, stderr=other, env=env, start_new_session=True) as command:
        os.close(other)
        try:
            assert "Maker: " in seen_until(terminal, "Maker: ")
            os.write(terminal, b"Bol\t\n")
            assert "Bolderwood" in seen_until(terminal, "Its name: ")
            os.write(terminal, b"Elm\n\n")
            assert "trapezoid): " in seen_until(terminal, "trapezoid): ")
            os.write(terminal, b"roud\n")
            assert "did you mean `round`?" in seen_until(terminal, "round`?")
            seen_until(terminal, "trapezoid): ")
            os.write(terminal, b"\x04")
            assert "Aborted!" in seen_until(terminal, "Aborted!")
            assert command.wait(120) == 1
        finally:
            command.kill()
            os.close(terminal)
    assert files(corner) == before


def test_without_ids_the_names_give_them(corner):
    at = ELM.index("--id")
    words = [*ELM[:at], *ELM[at + 2 :]]
    words = [word.replace("id: gray, ", "") for word in words]
    told = bevelbook("frame", "add", corner, *words)
    assert told.exit_code == 0, told.output
    assert (corner / "frames/bolderwood.yaml").read_text(encoding="utf-8").endswith(WRITTEN)


@pytest.mark.parametrize("kind", ["frame", "package"])
def test_help_says_what_each_option_is(kind):
    told = bevelbook(kind, "add", "--help").output
    assert "The field" not in told
    assert {"frame": "Pantoscopic tilt, degrees.", "package": "clear, photochromic, polarized."}[kind] in told
