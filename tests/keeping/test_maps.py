"""Column maps are checked with the shop: what is wrong with them is told before a list comes."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load_written
from quoting.cli import main
from quoting.keeping.maps import maps_read

GOOD = "maker: Pennock\ncolumns: {code: Article, price: Price}\nper: lens\ncodes: {P-1: plain-150}\n"


@pytest.fixture
def put(corner):
    """Write a map into the copy: all that is found in maps then."""

    def write(text, name="pennock.yaml"):
        path = corner / "imports" / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return maps_read(corner, load_written(corner)[0])

    return write


def test_a_shop_without_maps_has_nothing_to_mend(corner, put):
    assert maps_read(corner, None) == ([], [])
    (corner / "imports").mkdir()
    assert maps_read(corner, None) == ([], [])
    ((path, used),), findings = put(GOOD)
    assert (path.name, used.maker, findings) == ("pennock.yaml", "Pennock", [])


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ("maker: Pennock", "maker: Penock", "not-a-choice", 1),
        ("maker: Pennock\n", "", "missing", 1),
        ("plain-150", "plain-105", "unknown-id", 4),
        ("price: Price", "prise: Price", "unknown-key", 2),
        ("per: lens", "per: set", "not-a-choice", 3),
        ("codes: {", "codes: [", "unclosed-bracket", 4),
        ("per: lens", "per: lens\ndecimal: dot", "not-a-choice", 4),
        ("{P-1: plain-150}", "{P-1: [plain-150, plain-150, none]}", "unknown-id", 4),
    ],
)
def test_each_fault_has_its_place(put, old, new, code, line):
    assert old in GOOD
    _, findings = put(GOOD.replace(old, new))
    assert (code, line) in [(one.code, one.mark.line) for one in findings]
    assert all(one.hint for one in findings)


def test_a_package_of_another_maker_is_told_as_such(corner, put):
    path = corner / "lenses/pennock.yaml"
    text = path.read_text(encoding="utf-8")
    at = text.index("  - id: thin-160")
    other = "maker: Quill\npackages:\n" + text[at : text.index("  - id: flow-160")]
    path.write_text(text[:at] + text[text.index("  - id: flow-160") :], encoding="utf-8")
    (corner / "lenses/quill.yaml").write_text(other, encoding="utf-8")
    _, (found,) = put(GOOD.replace("plain-150}", "thin-160}"))
    assert found.message == "`thin-160` is a package of Quill, not of Pennock"


def test_where_the_shop_has_faults_of_its_own_only_the_form_is_looked_at(corner, put):
    (corner / "shop.yaml").write_text("", encoding="utf-8")
    _, findings = put(GOOD.replace("plain-150", "plain-105").replace("per: lens", "per: set"))
    assert [one.code for one in findings] == ["not-a-choice"]


def test_nothing_beyond_the_shop_is_read(corner, put, tmp_path):
    (tmp_path / "secret.yaml").write_text("password: 4711\n", encoding="utf-8")
    put(GOOD)
    (corner / "imports/link.yaml").symlink_to(tmp_path / "secret.yaml")
    (corner / "imports/old.yml").write_text(GOOD, encoding="utf-8")
    (corner / "imports/kept").mkdir()
    read, findings = maps_read(corner, load_written(corner)[0])
    assert [path.name for path, _ in read] == ["pennock.yaml"]
    assert sorted(one.code for one in findings) == ["not-a-file", "outside-folder", "wrong-ending"]
    assert not any("4711" in str(one) or "password" in str(one) for one in findings)
    shutil.rmtree(corner / "imports")
    (corner / "imports").symlink_to(tmp_path)
    read, findings = maps_read(corner, load_written(corner)[0])
    assert read == []
    assert [one.code for one in findings] == ["outside-folder"]


def test_check_tells_them(corner, put, monkeypatch):
    put(GOOD.replace("plain-150", "plain-105"))
    monkeypatch.chdir(corner.parent)
    told = CliRunner().invoke(main, ["check", Path(corner.name).as_posix(), "--on", "2026-06-01"])
    assert told.exit_code == 1
    assert (
        f"{corner.name}/imports/pennock.yaml:4:14: error: there is no package `plain-105` [unknown-id]" in told.stderr
    )
    assert "did you mean" in told.stderr
