"""`changes` and `publish` as an owner types them."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from quoting.cli import main

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DAY = ("--on", "2026-11-25")


@pytest.fixture
def shop(tmp_path, monkeypatch):
    """A copy of the small shop, in the folder that we are in."""
    monkeypatch.chdir(tmp_path)
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


def bevelbook(*words):
    return CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")


def good(*words):
    told = bevelbook(*words)
    assert told.exit_code == 0, told.output
    return told


def rewrite(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def git(folder, *words):
    name = ("-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "init.defaultBranch=main")
    done = subprocess.run(["git", *name, "-C", str(folder), *words], check=True, capture_output=True, text=True)
    return done.stdout


def test_publish_says_what_changes_in_short_and_puts_it_there(shop):
    assert "the first that are published here" in good("publish", shop, *DAY).stdout
    rewrite(shop / "frames/bolderwood.yaml", "id: reed", "id: sedge")
    dry = good("publish", shop, "--dry-run", *DAY).stdout
    assert "Pages that disappear: 1; Pages that appear: 1" in dry
    assert not Path("www/frames/sedge").exists()
    assert "Published as build 2: www/index.html" in good("publish", shop, *DAY).stdout
    assert Path("www/frames/sedge/index.html").is_file()


def test_back_takes_the_build_before_and_then_there_is_none(shop):
    good("publish", shop, *DAY)
    rewrite(shop / "shop.yaml", "Corner Opticians", "Other Opticians")
    good("publish", shop, *DAY)
    assert "Build 1 stands in www again." in good("publish", "--back").stdout
    assert "Corner Opticians" in Path("www/index.html").read_text(encoding="utf-8")
    told = bevelbook("publish", "--back")
    assert told.exit_code == 2
    assert "no build from before build 1" in told.stderr


def test_changes_tells_prices_as_text_as_json_and_as_a_page(shop):
    good("publish", shop, *DAY)
    good("prices", "raise", "all", "+10%", shop, "--write", *DAY)
    text = good("changes", shop, *DAY).stdout
    assert "From build 1 (2026-11-25" in text
    assert "Lens prices, a pair: " in text
    assert "+10.0 %" in text
    read = json.loads(good("changes", shop, "--json", *DAY).stdout)
    assert read["before"]["name"] == "build 1"
    for price in read["lens_prices"]:
        assert price["cents"] == price["after"] - price["before"]
        assert price["where"]
    sizes = [abs(price["cents"]) for price in read["lens_prices"]]
    assert sizes == sorted(sizes, reverse=True)
    assert "Lens prices, a pair: " in good("changes", shop, "--html", "page.html", *DAY).stdout
    assert "Lens prices, a pair" in Path("page.html").read_text(encoding="utf-8")
    assert json.loads(good("changes", shop, "--json", "--since", "1", *DAY).stdout) == read


def test_json_has_the_form_that_is_promised(shop):
    good("publish", shop, *DAY)
    read = json.loads(good("changes", shop, "--json", *DAY).stdout)
    text = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    promised = text.split("`changes --json`")[1].split("Findings as JSON")[0]
    assert [name for name in read if f"`{name}`" not in promised] == []
    assert all(not value for name, value in read.items() if name not in ("before", "after", "currency", "locale"))


def test_changes_since_a_revision_reads_the_repository_and_changes_nothing_in_it(shop, tmp_path):
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", "corner")
    git(tmp_path, "commit", "-qm", "one")
    rewrite(shop / "frames/bolderwood.yaml", "id: reed", "id: sedge")
    before = git(tmp_path, "status", "--porcelain")
    read = json.loads(good("changes", shop, "--since", "HEAD", "--json", *DAY).stdout)
    assert read["pages_gone"] == {"frames/reed/index.html": "frames/sedge/index.html"}
    assert read["before"]["name"] == "revision HEAD"
    assert git(tmp_path, "status", "--porcelain") == before


def test_photos_that_the_repository_does_not_keep_are_those_of_today(shop, tmp_path):
    """They are large, and many leave them out: an earlier revision can be compared all the same."""
    (shop / "photos").mkdir()
    Image.new("RGB", (800, 400)).save(shop / "photos" / "alder.jpg")
    rewrite(shop / "frames/bolderwood.yaml", "{id: slate,", "{id: slate, photo: alder.jpg,")
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", "corner")
    git(tmp_path, "rm", "-q", "--cached", "corner/photos/alder.jpg")
    git(tmp_path, "commit", "-qm", "one")
    rewrite(shop / "frames/bolderwood.yaml", "price: 120.00", "price: 125.00")
    read = json.loads(good("changes", shop, "--since", "HEAD", "--json", *DAY).stdout)
    assert [one["after"] for one in read["frame_prices"]] == [12500]
    assert (shop / "photos" / "alder.jpg").is_file()


def test_changes_since_another_shop_or_another_published_site(shop):
    rewrite(shop / "frames/bolderwood.yaml", "id: reed", "id: sedge")
    for since in (CORNER, "elsewhere"):
        if since == "elsewhere":
            good("publish", CORNER, "--to", since, *DAY)
        read = json.loads(good("changes", shop, "--since", since, "--json", *DAY).stdout)
        assert read["pages_new"] == ["frames/sedge/index.html"]


@pytest.mark.parametrize(
    ("since", "said"),
    [
        ("last", "nothing was published to www yet"),
        ("4", "no record of a build 4"),
        ("HEAD~7", "does not lie in a git repository"),
        ("--upload-pack=x", "does not lie in a git repository"),
    ],
)
def test_what_there_is_not_is_said_plainly(shop, since, said):
    told = bevelbook("changes", shop, f"--since={since}", *DAY)
    assert told.exit_code == 2
    assert said in told.stderr


@pytest.mark.parametrize("since", ["nothing-of-the-kind", "--output=x", "-h"])
def test_a_revision_that_is_none_is_said_and_never_read_as_an_option(shop, since):
    git(shop, "init", "-q")
    git(shop, "add", ".")
    git(shop, "commit", "-qm", "one")
    told = bevelbook("changes", shop, f"--since={since}", *DAY)
    assert told.exit_code == 2
    assert "there is no revision" in told.stderr


def test_faults_of_the_shop_end_both_with_their_findings(shop):
    good("publish", shop, *DAY)
    rewrite(shop / "frames/bolderwood.yaml", "a: 52", "a: wide")
    for command in ("changes", "publish"):
        told = bevelbook(command, shop, *DAY)
        assert told.exit_code == 1
        assert "[not-a-length]" in told.stderr


def test_a_spoiled_record_is_a_finding_with_a_remedy(shop):
    good("publish", shop, *DAY)
    Path(".www.bevelbook-past/1.json").write_text("{", encoding="utf-8")
    for command in ("changes", "publish"):
        told = bevelbook(command, shop, *DAY)
        assert told.exit_code == 1
        assert "[no-record]" in told.stderr
        assert "hint: move that folder away" in told.stderr


def test_back_takes_no_shop(shop):
    assert bevelbook("publish", shop, "--back").exit_code == 2


def test_what_is_still_an_example_is_told_before_the_public_sees_it(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    good("new", "mine", "--name", "Mill", "--email", "post@mill.example.org", "--yes")
    for command, severity in (("check", "note"), ("publish", "warning")):
        told = good(command, "mine")
        assert f"mine/shop.yaml:11:74: {severity}: 3 lines of this file are marked MEND" in told.stderr
        assert "prices/" in told.stderr
    shop = Path("mine/shop.yaml")
    text = shop.read_text(encoding="utf-8").splitlines(keepends=True)
    shop.write_text("".join(line.partition(" # MEND")[0].rstrip() + "\n" for line in text), encoding="utf-8")
    assert "shop.yaml" not in good("check", "mine").stderr


def test_a_site_that_says_the_same_keeps_its_number(shop):
    good("publish", shop, *DAY)
    told = good("publish", shop, "--on", "2026-11-26").stdout
    assert "Nothing changes.\nIt stands as build 1 still: www/index.html" in told
