"""What is saved while a site is built keeps that site from being put in its place, and says so."""

import os
import shutil

import pytest

from quoting.findings import errors
from quoting.site import build as building
from quoting.site.build import build
from quoting.site.unchanged import Seen
from tests.site.conftest import DAY


def same_length(path):
    """Another price in as many letters."""
    before = path.stat()
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("12.00", "13.00"), encoding="utf-8")
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns + 1))


def replaced(path):
    """As editors save: a new file takes the place of the old one, here with its length and time."""
    before = path.stat()
    new = path.with_name("new.tmp")
    shutil.copy2(path, new)
    os.utime(new, ns=(before.st_atime_ns, before.st_mtime_ns))
    new.replace(path)


@pytest.mark.parametrize("change", [same_length, replaced, os.unlink])
@pytest.mark.parametrize("name", ["shop.yaml", "prices/2026-01.yaml", "content/pages/about.md"])
def test_each_change_of_a_file_is_seen(corner, name, change):
    path = corner / name
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists():
        path.write_text("Title: About\n\n12.00\n", encoding="utf-8")
    seen = Seen.now(corner, corner / "content")
    assert seen.findings() == []
    change(path)
    (finding,) = seen.findings()
    assert (finding.code, finding.mark.file) == ("changed-meanwhile", path.as_posix())


@pytest.mark.parametrize("name", ["frames/.new.yaml.swp", "content/about.md~", "private/costs.yaml", "notes.txt"])
def test_what_no_build_reads_may_change(corner, name):
    seen = Seen.now(corner, corner / "content")
    (corner / name).parent.mkdir(parents=True, exist_ok=True)
    (corner / name).write_text("x", encoding="utf-8")
    assert seen.findings() == []


def test_a_save_during_a_build_leaves_the_old_site_and_the_next_build_has_it(corner, monkeypatch, tmp_path):
    site = tmp_path / "site"
    assert errors(build(corner, site, DAY).findings) == []
    before = (site / "index.html").read_bytes()
    rendered = building.rendered

    def and_meanwhile(*given):
        made = rendered(*given)
        path = corner / "shop.yaml"
        path.write_text(path.read_text(encoding="utf-8").replace("name: ", "name: New ", 1), encoding="utf-8")
        return made

    monkeypatch.setattr(building, "rendered", and_meanwhile)
    result = build(corner, site, DAY)
    assert ([one.code for one in errors(result.findings)], result.pages) == (["changed-meanwhile"], 0)
    assert (site / "index.html").read_bytes() == before
    monkeypatch.undo()
    assert errors(build(corner, site, DAY).findings) == []
    assert (site / "index.html").read_bytes() != before
