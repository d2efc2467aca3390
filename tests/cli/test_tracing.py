"""``trace`` and ``swap`` on a shop: what a trace changes, what is kept of a job, what is said of two frames."""

import json
import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main
from quoting.lab.jobs import Job, write_job
from quoting.tables import frame_table
from tests.lab.test_jobs import superellipse, traced

CORNER = Path(__file__).parents[1] / "shops" / "corner"


@pytest.fixture
def shop(tmp_path, monkeypatch):
    folder = Path(shutil.copytree(CORNER, tmp_path / "shop"))
    monkeypatch.chdir(tmp_path)
    return folder


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


def job_file(name="alder.dcs", **values):
    job = Job("B", {"DO": ("B",), "CLIENT": ("Marrable",), "SPH": (-2.0, -3.0), **values}, (traced(), traced("L")))
    Path(name).write_bytes(write_job(job))
    return name


def test_show_tells_records_and_measures(shop):
    told = bevelbook("trace", "show", job_file()).stdout
    assert "SPH      sphere: -2; -3" in told
    assert "400 radii at equal angles; A 52.0" in told
    said = json.loads(bevelbook("trace", "show", "alder.dcs", "--json").stdout)
    assert said["values"]["SPH"] == [-2.0, -3.0]
    assert [one["side"] for one in said["traces"]] == ["R", "L"]


def test_a_trace_becomes_the_outline_and_nothing_else_changes(shop):
    before = load(shop)[0].frames["alder"]
    text = (shop / "frames/bolderwood.yaml").read_text(encoding="utf-8")
    tried = bevelbook("trace", "import", job_file(), shop, "--frame", "alder")
    assert tried.exit_code == 0
    assert "Nothing was written" in tried.stdout
    assert not (shop / "traces").exists()
    told = bevelbook("trace", "import", "alder.dcs", shop, "--frame", "alder", "--svg", "over.svg", "--write")
    assert told.exit_code == 0, told.output
    assert re.search(r"ED +55\.50 mm +\d+\.\d\d mm", told.stdout)
    assert "minimum blank" in told.stdout
    new = (shop / "frames/bolderwood.yaml").read_text(encoding="utf-8")
    assert new == text.replace("ed: 55.5,", "ed: 55.5, trace: alder-52-18.dcs,", 1)
    catalog, findings = load(shop)
    assert [one for one in findings if one.severity == "error"] == []
    size = catalog.frames["alder"].sizes[0]
    assert size.trace == "alder-52-18.dcs"
    table = frame_table(catalog.shop, catalog.frames["alder"], size)
    assert table["traced"]
    longest = max(superellipse(52.0, 36.0, 3.0, [step / 20 for step in range(360 * 20)]))
    assert table["ed"] == pytest.approx(2 * longest, abs=0.05)  # of the closed form that was traced
    assert replace(size, trace="", outline=None) == before.sizes[0]
    assert Path("over.svg").read_text(encoding="utf-8").startswith("<svg xmlns=")


def test_of_a_job_only_the_frame_is_kept(shop):
    """Whoever the job was for must not come into the catalog, which may lie in a version history."""
    bevelbook("trace", "import", job_file(), shop, "--frame", "alder", "--write")
    kept = (shop / "traces/alder-52-18.dcs").read_text(encoding="ascii")
    assert "Marrable" not in kept
    assert "SPH" not in kept
    assert "TRCFMT=1;400;E;R;F" in kept


def test_a_second_trace_takes_the_place_of_the_first(shop):
    for _ in range(2):
        told = bevelbook("trace", "import", job_file(), shop, "--frame", "alder", "--write")
        assert told.exit_code == 0, told.output
    assert (shop / "frames/bolderwood.yaml").read_text(encoding="utf-8").count("trace:") == 1


def test_a_size_in_lines_of_its_own_gets_a_line(shop):
    path = shop / "frames/bolderwood.yaml"
    text = path.read_text(encoding="utf-8")
    row = "      - {a: 52, b: 36, dbl: 18, ed: 55.5, temple: 145, weight: 22}\n"
    lines = "      - a: 52\n        b: 36\n        dbl: 18\n        ed: 55.5 # measured\n        temple: 145\n"
    assert row in text
    path.write_text(text.replace(row, lines), encoding="utf-8")
    told = bevelbook("trace", "import", job_file(), shop, "--frame", "alder", "--write")
    assert told.exit_code == 0, told.output
    assert load(shop)[0].frames["alder"].sizes[0].trace == "alder-52-18.dcs"


def test_fit_no_longer_says_that_the_outline_is_estimated(shop):
    rx = ("--rx", "OD -2.00 DS / OS -2.00 DS / PD 63", "--shop", shop, "--on", "2026-06-01")
    assert "outline is estimated" in bevelbook("quote", "alder", "plain-150", *rx).stdout
    bevelbook("trace", "import", job_file(), shop, "--frame", "alder", "--write")
    told = bevelbook("quote", "alder", "plain-150", *rx)
    assert told.exit_code == 0, told.output
    assert "outline is estimated" not in told.stdout


def test_a_frame_takes_its_own_lens_and_only_traces_say_yes(shop):
    told = bevelbook("swap", "alder", "alder", "--shop", shop)
    assert told.exit_code == 0
    assert "Maybe" in told.stdout
    assert "trace both frames" in told.stdout
    bevelbook("trace", "import", job_file(), shop, "--frame", "alder", "--write")
    told = bevelbook("swap", "alder", "alder", "--shop", shop, "--svg", "same.svg")
    assert "Yes" in told.stdout
    assert Path("same.svg").exists()


def test_a_trace_is_not_laid_over_an_estimate(shop):
    before = json.loads(bevelbook("swap", "alder", "reed", "--shop", shop, "--json").stdout)
    bevelbook("trace", "import", job_file(), shop, "--frame", "alder", "--write")
    after = json.loads(bevelbook("swap", "alder", "reed", "--shop", shop, "--json").stdout)
    assert after == before
    assert "The outlines are estimated" in bevelbook("swap", "alder", "reed", "--shop", shop).stdout


def test_what_does_not_go_is_said_with_its_numbers(shop):
    told = bevelbook("swap", "alder", "reed", "--shop", shop, "--json")
    assert told.exit_code == 1
    said = json.loads(told.stdout)
    assert said["verdict"] == "no"
    assert said["parts"] == {"gap": "no", "circumference": "no", "curve": "yes", "mounting": "no"}
    assert said["traced"] is False


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("trace", "import", "nothing.dcs", "shop", "--frame", "alder"), "there is no file"),
        (("trace", "import", "alder.dcs", "shop", "--frame", "aldr"), "did you mean alder"),
        (("trace", "import", "alder.dcs", "shop", "--frame", "alder", "--package", "plan"), "no package"),
        (("swap", "alder", "rede", "--shop", "shop"), "did you mean reed"),
    ],
)
def test_what_cannot_be_meant_is_misuse(shop, words, said):
    job_file()
    told = bevelbook(*words)
    assert told.exit_code == 2
    assert said in told.output
