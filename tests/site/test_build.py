"""A build replaces a site as a whole or not at all, says why, and leaves the process as it was."""

import logging
import os
import shutil
import subprocess
import sys

import pytest

from quoting.findings import errors
from quoting.site import build as building
from quoting.site.build import build
from quoting.site.swap import aside
from tests.site.conftest import COMBINATION, CORNER, DAY


def contents(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def codes(result):
    return [finding.code for finding in errors(result.findings)]


@pytest.fixture
def site(tmp_path):
    """A built site of the small shop."""
    assert codes(build(CORNER, tmp_path / "site", DAY)) == []
    return tmp_path / "site"


BUILD = """import sys
from datetime import date
from pathlib import Path
from quoting.places import shared
from quoting.site.build import build
build(shared("demo_catalog"), Path(sys.argv[1]), date.fromisoformat(sys.argv[2]))
"""


def test_same_input_same_bytes(tmp_path):
    """In processes of their own, whose sets go through their members in different orders."""
    for seed in ("1", "2"):
        command = [sys.executable, "-c", BUILD, str(tmp_path / seed), DAY.isoformat()]
        subprocess.run(command, check=True, env=os.environ | {"PYTHONHASHSEED": seed})
    first = contents(tmp_path / "1")
    assert first == contents(tmp_path / "2")
    assert len(first) > 100


def test_what_only_check_tells_of_is_counted_in_one_line(corner, rewrite, tmp_path):
    """A build tells no sense warning itself, but that there are some; without one it says nothing of it."""
    rewrite("prices/2026-01.yaml", "until: 2026-05-31", "until: 2027-05-31")
    before = build(corner, tmp_path / "site", DAY).findings
    rewrite("frames/bolderwood.yaml", "temple: 145", "temple: 165")
    after = build(corner, tmp_path / "site", DAY).findings
    assert "check-says-more" not in {one.code for one in before}
    (note,) = [one for one in after if one.code == "check-says-more"]
    assert (note.severity, note.message) == ("note", "`check` says at least 1 thing more of this shop")


def test_another_day_is_another_site(site, tmp_path):
    """The spring offer of the small shop begins on 2026-03-01; its price stands in the combination's bill alone."""
    build(CORNER, tmp_path / "later", DAY.replace(day=26))
    old, new = contents(site), contents(tmp_path / "later")
    assert old.keys() == new.keys()
    assert b"2026-11-26" in new["index.html"]
    assert b"2026-11-25" not in new["index.html"]


def test_a_new_build_takes_away_what_is_no_longer_in_the_catalog(corner, rewrite, built, tmp_path):
    built()
    assert (tmp_path / "site/frames/reed/index.html").is_file()
    rewrite("frames/bolderwood.yaml", "id: reed", "id: sedge")
    _, pages = built()
    assert "frames/sedge/index.html" in pages
    assert "frames/reed/index.html" not in pages


def test_a_shop_with_faults_leaves_the_old_site_byte_for_byte(site, corner, rewrite, tmp_path):
    before = contents(site)
    rewrite("frames/bolderwood.yaml", "a: 52", "a: wide")
    result = build(corner, site, DAY)
    assert codes(result)
    assert result.pages == 0
    assert contents(site) == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["corner", "site"]


def test_prose_with_faults_leaves_the_old_site_byte_for_byte(site, corner, article, tmp_path):
    before = contents(site)
    article("guides/broken.md", Date="someday")
    assert codes(build(corner, site, DAY)) == ["prose"]
    assert contents(site) == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["corner", "site"]


def test_a_defect_of_ours_leaves_the_old_site_and_nothing_beside_it(site, monkeypatch, tmp_path):
    before = contents(site)

    def breaks(*_):
        raise ZeroDivisionError

    monkeypatch.setattr(building.Material, "board", breaks)
    with pytest.raises(ZeroDivisionError):
        build(CORNER, site, DAY)
    assert contents(site) == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_swap_that_fails_halfway_puts_the_old_site_back(site, monkeypatch, tmp_path):
    before = contents(site)
    replace = type(site).replace

    def stuck(self, target):
        if self.name == "site" and self.parent != tmp_path:
            raise PermissionError(13, "Permission denied", str(target))
        return replace(self, target)

    monkeypatch.setattr(type(site), "replace", stuck)
    monkeypatch.setattr("quoting.site.swap.exchange", lambda *_: False)  # as on a system that has no such step
    assert codes(build(CORNER, site, DAY)) == ["cannot-write"]
    assert contents(site) == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_an_exchange_that_is_refused_leaves_the_old_site(site, monkeypatch, tmp_path):
    before = contents(site)

    def refused(_, output):
        raise PermissionError(13, "Permission denied", str(output))

    monkeypatch.setattr("quoting.site.swap.exchange", refused)
    assert codes(build(CORNER, site, DAY)) == ["cannot-write"]
    assert contents(site) == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_after_a_crash_between_the_steps_of_a_swap_the_old_site_comes_back(site, tmp_path):
    before = contents(site)
    site.replace(aside(site))
    assert codes(build(tmp_path / "no-shop", site, DAY)) == ["no-such-folder"]
    assert contents(site) == before


def test_progress_counts_to_its_end(tmp_path):
    seen = []
    build(CORNER, tmp_path / "site", DAY, progress=lambda *step: seen.append(step))
    assert [done for done, _, _ in seen] == list(range(1, len(seen) + 1))
    assert {total for _, total, _ in seen} == {len(seen)}
    assert "frames/alder/index.html" in [what for _, _, what in seen]


def test_what_pelican_does_to_a_process_is_undone(tmp_path, capfd):
    def state():
        loggers = [logging.getLogger(name) for name in ("", "pelican", "pelican.contents")]
        return [(one.level, one.handlers[:], one.filters[:]) for one in loggers], sys.path[:]

    before = state()
    build(CORNER, tmp_path / "site", DAY)
    assert state() == before
    assert capfd.readouterr() == ("", "")


def test_a_fault_in_prose_is_told_at_each_build(corner, article, tmp_path):
    path = article("guides/broken.md", Date="")
    for _ in range(2):
        (finding,) = errors(build(corner, tmp_path / "site", DAY).findings)
        assert finding.mark.file == str(path)
        assert "`Date:`" in finding.message


def test_private_files_reach_no_page(corner, built):
    (corner / "private").mkdir()
    (corner / "private" / "costs.yaml").write_text("thin-160: 4711.13\n", encoding="utf-8")
    (corner / "private" / "note.md").write_text("Title: wholesale 4711.13\nDate: 2026-01-01\n", encoding="utf-8")
    result, _ = built()
    assert codes(result) == []
    for name, body in contents(result.output).items():
        assert b"4711" not in body, name
        assert "private" not in name


def test_content_that_was_named_must_be_there(built, tmp_path):
    result, pages = built(content=tmp_path / "prose")
    assert codes(result) == ["no-such-folder"]
    assert pages == {}
    assert not (tmp_path / "prose").exists()


def test_a_shop_without_prose_has_no_ways_to_it(built):
    _, pages = built()
    assert [a.get_text() for a in pages["index.html"].nav.find_all("a")] == ["Frames", "Lenses"]
    assert not [page for page in pages if page.startswith(("combinations", "guides"))]


def test_content_from_elsewhere_is_used(built, article, corner):
    article("combinations/one.md", **COMBINATION)
    (corner / "content").rename(corner.parent / "prose")
    _, pages = built(content=corner.parent / "prose")
    assert "combinations/a-title/index.html" in pages


def test_a_build_before_the_price_list_holds_says_so_and_builds(tmp_path):
    result = build(CORNER, tmp_path / "site", DAY.replace(year=2020))
    assert "list-not-yet" in {finding.code for finding in result.findings} - set(codes(result))
    assert result.pages


def test_pages_are_in_the_language_of_the_theme_whatever_money_looks_like(tmp_path):
    shop = tmp_path / "shop"
    shutil.copytree(CORNER, shop)
    file = shop / "shop.yaml"
    text = file.read_text(encoding="utf-8")
    assert "locale: en_US" in text
    file.write_text(text.replace("locale: en_US", "locale: de_DE"), encoding="utf-8")
    assert codes(build(shop, tmp_path / "site", DAY)) == []
    assert '<html lang="en">' in (tmp_path / "site/index.html").read_text(encoding="utf-8")
