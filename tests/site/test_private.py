"""Nothing of ``private/`` comes into a site, whichever way prose is led there."""

import shutil

import pytest

from quoting.findings import errors
from quoting.site.build import build
from quoting.site.publish import past, publish
from tests.site.conftest import DAY
from tests.site.test_build import contents

SECRET = "4711.13"
ARTICLE = "Title: {title}\nDate: 2026-01-05\nSummary: Words\n\n{body}\n"
RST = "A page\n======\n\n:date: 2026-01-05\n:summary: Words\n\n{body}\n"


@pytest.fixture
def shop(corner):
    """A shop with private files that would make pages and pictures, were they read, and with prose of its own."""
    for folder in ("private/guides", "private/pages", "private/images", "content/guides"):
        (corner / folder).mkdir(parents=True)
    (corner / "private/costs.yaml").write_text(f"packages: {{thin-160: {SECRET}}}\n", encoding="utf-8")
    (corner / "private/images/list.txt").write_text(SECRET, encoding="utf-8")
    for name in ("guides/paid.md", "pages/paid.md"):
        text = ARTICLE.format(title=f"We pay {SECRET}", body=SECRET)
        (corner / "private" / name).write_text(text, encoding="utf-8")
    (corner / "content/guides/own.md").write_text(ARTICLE.format(title="Own", body="Words."), encoding="utf-8")
    return corner


def link(name, target):
    """A symbolic link in place of what stands there."""

    def lay(shop):
        place = shop / name
        if place.is_dir():
            shutil.rmtree(place)
        place.parent.mkdir(parents=True, exist_ok=True)
        place.symlink_to(target)

    return lay


def words(name, body, form=ARTICLE):
    """A file of prose; ``{shop}`` in its body is the shop's whole path."""

    def lay(shop):
        place = shop / "content" / name
        place.parent.mkdir(parents=True, exist_ok=True)
        text = form.replace("{title}", "A way").replace("{body}", body.replace("{shop}", str(shop)))
        place.write_text(text, encoding="utf-8")

    return lay


def all_of_it(shop):
    """The folder of the prose is the shop itself, and a page of it names a private file."""
    shutil.rmtree(shop / "content")
    (shop / "content").symlink_to(".")
    (shop / "pages").mkdir()
    text = ARTICLE.format(title="A way", body="[x]({static}/private/costs.yaml)")
    (shop / "pages/a.md").write_text(text, encoding="utf-8")


# Each way, and in the path of which file the errors about it stand; None: the file is left out, and nothing is said
WAYS = {
    "an article that is a link": (link("content/guides/x.md", "../../private/guides/paid.md"), "guides/x.md"),
    "a page that is a link": (link("content/pages/x.md", "../../private/pages/paid.md"), "pages/x.md"),
    "a folder of articles that is a link": (link("content/guides", "../private/guides"), "guides/paid.md"),
    "a folder of pages that is a link": (link("content/pages", "../private/pages"), "pages/paid.md"),
    "a folder of pictures that is a link": (link("content/images", "../private/images"), None),
    "a picture that is a link": (link("content/images/x.txt", "../../private/costs.yaml"), None),
    "all prose is a link there": (link("content", "private"), "content"),
    "all prose is a link to the shop": (all_of_it, "content"),
    "the top of the site is a link": (link("content/root", "../private"), "content/root/"),
    "a file at the top is a link": (link("content/root/x.txt", "../../private/costs.yaml"), "content/root/x.txt"),
    "static": (words("guides/a.md", "[x]({static}../../private/costs.yaml)"), "guides/a.md"),
    "attach": (words("guides/a.md", "[x]({attach}../../private/images/list.txt)"), "guides/a.md"),
    "a picture": (words("guides/a.md", "![x](../../private/images/list.txt)"), "guides/a.md"),
    "an object": (words("guides/a.md", '<object data="{static}../../private/costs.yaml"></object>'), "guides/a.md"),
    "include": (words("guides/a.rst", ".. include:: ../../private/costs.yaml", RST), "guides/a.rst"),
    "include by whole path": (words("guides/a.rst", ".. include:: {shop}/private/costs.yaml", RST), "guides/a.rst"),
    "raw": (words("guides/a.rst", ".. raw:: html\n   :file: {shop}/private/costs.yaml", RST), "guides/a.rst"),
    "raw by address": (
        words("guides/a.rst", ".. raw:: html\n   :url: file://{shop}/private/costs.yaml", RST),
        "guides/a.rst",
    ),
    "a table": (words("guides/a.rst", ".. csv-table:: x\n   :file: {shop}/private/costs.yaml", RST), "guides/a.rst"),
}


@pytest.mark.parametrize("way", WAYS)
def test_prose_leads_no_private_file_into_the_site(shop, tmp_path, way):
    lay, told = WAYS[way]
    site = tmp_path / "site"
    assert errors(build(shop, site, DAY).findings) == []
    before = contents(site)
    lay(shop)
    result = build(shop, site, DAY)
    assert not [name for name, body in contents(site).items() if SECRET.encode() in body or "private" in name]
    if told is None:
        assert errors(result.findings) == []
    else:
        assert {told in finding.mark.file for finding in errors(result.findings)} == {True}
        assert not [finding for finding in result.findings if SECRET in str(finding)]
        assert contents(site) == before


def test_the_line_that_takes_a_file_in_is_told(shop, tmp_path):
    words("guides/a.rst", ".. include:: ../../private/costs.yaml", RST)(shop)
    (finding,) = errors(build(shop, tmp_path / "site", DAY).findings)
    assert (finding.code, finding.mark.line, finding.mark.text) == (
        "prose",
        7,
        ".. include:: ../../private/costs.yaml",
    )


@pytest.mark.parametrize("private", ["private", "content/secret", "nowhere"])
def test_a_private_folder_that_is_a_link_is_no_way_either(corner, tmp_path, private):
    """To itself, into the prose, or to what is not there."""
    (corner / "content/secret").mkdir(parents=True)
    (corner / "private").symlink_to(private)
    found = errors(build(corner, tmp_path / "site", DAY).findings)
    assert [one.code for one in found] == (["outside-folder"] if private.startswith("content") else [])


def test_what_is_private_changes_no_byte_and_no_record(shop, tmp_path):
    """What is published with private files is what is published without, in the site and beside it."""
    for name in ("with", "without"):
        (tmp_path / name).mkdir()
        for day in (DAY, DAY.replace(day=26)):
            assert errors(publish(shop, tmp_path / name / "www", day).result.findings) == []
        if name == "with":
            shutil.rmtree(shop / "private")
    found = contents(tmp_path / "with")
    assert {past(tmp_path / "www").name, "www"} == {name.split("/")[0] for name in found}
    assert found == contents(tmp_path / "without")
