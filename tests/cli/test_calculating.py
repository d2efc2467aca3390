"""``calc``: what is typed is read or refused in a sentence, and programs get the same numbers."""

import json

import pytest
from click.testing import CliRunner

from quoting.calculators.table import TABLE
from quoting.cli import main


def run(*words):
    return CliRunner().invoke(main, ["calc", *words], prog_name="bevelbook")


def test_without_a_name_all_are_listed():
    result = run()
    assert result.exit_code == 0
    assert [line.split()[0] for line in result.output.splitlines()] == [one.name for one in TABLE]
    listed = json.loads(run("--json").output)["calculators"]
    assert [one["name"] for one in listed] == [one.name for one in TABLE]
    assert all(one["formula"] and one["source"] for one in listed)


def test_the_vertex_of_a_strong_minus_lens():
    result = run("vertex", "sphere=-10", "from=12", "to=0")
    assert result.exit_code == 0
    assert "−8.93 D" in result.output
    assert "F′ = F / (1 − d·F)" in result.output


def test_an_axis_of_0_is_the_meridian_of_180_as_on_slips():
    nought, turned = (run("transposition", "sphere=-1", "cylinder=-1", f"axis={at}").output for at in ("000", "180"))
    assert nought == turned
    assert "090" in nought


@pytest.mark.parametrize("one", TABLE, ids=lambda one: one.name)
def test_programs_get_what_people_see(one):
    told = run(one.name).output
    said = json.loads(run(one.name, "--json").output)
    assert said["fields"] == {field.id: field.default for field in one.fields}
    for row in said["results"]:
        assert f"{row['label']} " in told
        assert row["shown"] in told


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["vertx"], "did you mean vertex?"),
        (["vertex", "sphere"], "write FIELD=VALUE"),
        (["vertex", "sphre=2"], "did you mean sphere?"),
        (["vertex", "sphere=2", "sphere=3"], "given twice"),
        (["vertex", "sphere=strong"], "is not a number"),
        (["vertex", "sphere=31"], "is not between -30 and 30"),
        (["vertex", "axis=181"], "is not between 1 and 180"),
        (["vertex", "axis=92.5"], "92.5 is not a whole number of degrees"),
        (["tolerance", "standard=din"], "is not one of ansi, iso"),
        (["blank", "ed=90"], "effective diameter"),
    ],
)
def test_what_cannot_be_meant_is_misuse(words, said):
    result = run(*words)
    assert result.exit_code == 2
    assert said in result.output


def test_the_bench_page_is_written_and_written_anew(tmp_path):
    target = tmp_path / "bench.html"
    for _ in range(2):
        result = CliRunner().invoke(main, ["bench", "--to", str(target)], prog_name="bevelbook")
        assert result.exit_code == 0
    assert "<title>The bench" in target.read_text(encoding="utf-8")


def test_another_file_is_not_written_over_unless_that_is_said(tmp_path):
    target = tmp_path / "notes.html"
    target.write_text("mine", encoding="utf-8")
    result = CliRunner().invoke(main, ["bench", "--to", str(target)], prog_name="bevelbook")
    assert result.exit_code == 2
    assert target.read_text(encoding="utf-8") == "mine"
    assert CliRunner().invoke(main, ["bench", "--to", str(target), "--force"]).exit_code == 0
