"""Prose that would break the site is refused, each fault told at its file and line, in plain words."""

import pytest

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.site.foretold import prose_findings
from tests.site.conftest import COMBINATION, DAY


@pytest.fixture
def built(corner, built):
    """Build the copy; what is told of its prose must be what `check` tells without building.

    But for places in pages of the catalog, which README says.
    """

    def make(**words):
        result, pages = built(**words)
        catalog, found = load(corner, DAY)
        told = [one for one in result.findings if one not in found and one.code not in ("no-url", "check-says-more")]
        told = [one for one in told if not ("`frames/" in one.message and "has no place named" in one.message)]
        assert prose_findings(catalog, corner, DAY) == told
        return result, pages

    return make


def only(result):
    """The one error of a build, which then put nothing in its place."""
    (finding,) = errors(result.findings)
    assert result.pages == 0
    return finding


def test_the_first_page_cannot_be_replaced(built, article):
    path = article("pages/one.md", Title="About", Date="", Save_as="index.html", Url="index.html")
    result, pages = built()
    found = errors(result.findings)
    assert [(one.code, one.mark.file, one.mark.line, one.mark.text) for one in found] == [
        ("prose-moved", str(path), 3, "Save_as: index.html"),
        ("prose-moved", str(path), 4, "Url: index.html"),
    ]
    assert pages == {}


@pytest.mark.parametrize(
    ("key", "value"),
    [("save_as", "a.html"), ("SAVE_AS", "../a.html"), ("URL", "a"), ("Template", "home"), ("Folder", "frames")],
)
def test_no_line_moves_a_page(built, article, key, value):
    path = article("guides/one.md", **{key: value})
    result, _ = built()
    found = errors(result.findings)[0]
    assert (found.mark.file, found.mark.text) == (str(path), f"{key}: {value}")
    assert (result.pages, len(errors(result.findings))) == (0, 1)


@pytest.mark.parametrize(
    ("ending", "text"),
    [
        (
            "html",
            '<html><head><title>A</title>\n<meta name="save_as" content="index.html">\n</head><body>x</body></html>',
        ),
        ("rst", "A title\n=======\n\n:date: 2026-01-05\n:save_as: index.html\n\nWords.\n"),
    ],
)
def test_other_kinds_of_prose_do_not_move_either(built, article, ending, text):
    path = article("pages/one.md").with_suffix(f".{ending}")
    (path.parent / "one.md").unlink()
    path.write_text(text, encoding="utf-8")
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file) == ("prose-moved", str(path))
    assert "save_as" in found.mark.text


@pytest.mark.parametrize(
    "slug",
    [
        "frames",
        "Lenses",
        "theme",
        "frames/alder",
        ".",
        "combinations",
        "robots.txt",
        "404.html",
        "quote",
        "Form",
        "tints",
    ],
)
def test_a_page_in_the_place_of_ours_is_told(built, article, slug):
    path = article("pages/one.md", Slug=slug)
    article("guides/other.md", Title="Other")
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file, found.mark.text) == ("same-place", str(path), f"Slug: {slug}")
    assert "every build writes" in found.message


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ({"name": "guides/a.md"}, {"name": "guides/b.md"}),
        ({"name": "guides/a.md", "Title": "One"}, {"name": "guides/b.md", "Title": "Other", "Slug": "ONE"}),
        ({"name": "guides/a.md", "Slug": "x"}, {"name": "pages/b.md", "Slug": "guides/x"}),
        ({"name": "guides/a.md", "Status": "hidden"}, {"name": "guides/b.md"}),
        ({"name": "guides/a.md"}, {"name": "guides/b.md", "Lang": "en-GB"}),
    ],
)
def test_two_pages_for_one_place_are_told_with_both_names(built, article, one, other):
    article(**one)
    path = article(**other)
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file) == ("same-place", str(path))
    assert "guides/a.md" in found.message


def test_the_same_slug_in_two_folders_is_no_fault(built, article):
    article("guides/a.md", Slug="x")
    article("combinations/a.md", Slug="x", **COMBINATION)
    result, pages = built()
    assert errors(result.findings) == []
    assert {"guides/x/index.html", "combinations/x/index.html"} <= pages.keys()


@pytest.mark.parametrize("link", ["{attach}../papers/index.html", "{static}../images/index.html"])
def test_a_paper_in_the_place_of_a_page_is_told(built, article, corner, link):
    article("guides/a.md", f"[x]({link})", Title="A")
    article("pages/images.md", Slug="images")
    paper = corner / "content/guides" / link.partition("}")[2]
    paper.parent.mkdir()
    paper.write_text("not prose", encoding="utf-8")
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file) == ("same-place", str(paper.resolve()))


def test_a_page_outside_of_the_site_is_told(built, article, tmp_path):
    path = article("pages/one.md", Slug="../../stolen")
    result, _ = built()
    found = only(result)
    assert (found.mark.file, found.mark.text) == (str(path), "Slug: ../../stolen")
    assert "outside of the site" in found.message
    assert not [one for one in tmp_path.rglob("*") if "stolen" in one.name]


def test_a_private_file_is_not_linked_into_the_site(built, article, corner, tmp_path):
    (corner / "private").mkdir()
    (corner / "private/costs.txt").write_text("4711", encoding="utf-8")
    path = article("guides/one.md", "Words.\n\nSee [these]({static}../../private/costs.txt).")
    (corner / "content/images").mkdir()
    (corner / "content/images/costs.txt").symlink_to(corner / "private/costs.txt")
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file, found.mark.line) == ("broken-link", str(path), 7)
    path.unlink()
    result, _ = built()
    assert errors(result.findings) == []
    assert not list((tmp_path / "site").rglob("costs.txt"))


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ("[x]({filename}nobody.md)", "`nobody.md` leads nowhere"),
        ("[x]({filename}/guides/nobody.md#part)", "`/guides/nobody.md#part` leads nowhere"),
        ("[x](|filename|nobody.md)", "`nobody.md` leads nowhere"),
        ("![A lens]({static}/images/none.jpg)", "none.jpg"),
        ("![A lens]({attach}none.jpg)", "none.jpg"),
        ("![A lens](none.jpg)", "`none.jpg` leads nowhere"),
        ("![A lens](/images/none.jpg)", "the site has no `images/none.jpg`"),
        ("![A lens](beside.jpg)", "`beside.jpg` is not copied"),
        ("[x](../../frames/nobody/index.html)", "the site has no `frames/nobody/index.html`"),
        ("[x](../../frames/alder/index.html#60-18)", "no place named `60-18`"),
        ("[x]({file}other.md)", "`{file}other.md` names no file"),
        ("[x]({filename}draft.md)", "leads nowhere"),
        ("[x](https://[bad)", "no address"),
    ],
)
def test_a_link_that_leads_nowhere_is_told_at_its_line(built, article, corner, link, said):
    article("guides/draft.md", Title="Unfinished", Status="draft")
    path = article("guides/one.md", f"Words.\n\nMore of them,\nand {link}: there.")
    (path.parent / "beside.jpg").write_bytes(b"x")
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file, found.mark.line) == ("broken-link", str(path), 8)
    assert said in found.message
    assert found.hint


def test_links_that_lead_somewhere_are_left_alone(built, article, corner):
    (corner / "content/images").mkdir(parents=True)
    (corner / "content/images/a lens.jpg").write_bytes(b"x")
    article("guides/other.md", Title="Other", Slug="other")
    links = [
        "[a]({filename}other.md)",
        "[b]({filename}/guides/other.md#part)",
        "![c](<{static}/images/a lens.jpg>)",
        "[d](../../frames/alder/index.html#52-18-thin-160)",
        "[e](../../frames/)",
        "[f](https://www.example.org/nobody.html)",
        "[g](mailto:x@example.org)",
        "[h](#here)",
        "![i](../../images/a%20lens.jpg)",
    ]
    article("guides/one.md", "\n".join(links) + "\n")
    article("guides/other.md", '<h2 id="part">Part</h2>', Title="Other", Slug="other")
    result, pages = built()
    assert errors(result.findings) == []
    assert len(pages["guides/a-title/index.html"].select(".prose a, .prose img")) == len(links)


def test_a_link_to_the_top_of_the_host_is_warned_of(built, article):
    """It leads on where the site stands at that top, and nowhere in a folder or from disk."""
    path = article("guides/one.md", "Words.\n\n[x](/frames/index.html) and [y](//www.example.org/frames/)")
    result, _ = built()
    assert errors(result.findings) == []
    (found,) = [one for one in result.findings if one.code == "broken-link"]
    assert (found.severity, found.mark.file, found.mark.line) == ("warning", str(path), 7)
    assert "`../../frames/index.html`" in found.hint


def test_one_fault_leaves_the_others_to_be_told(built, article):
    article("guides/a.md", "[x]({filename}nobody.md)", Title="A")
    article("guides/b.md", Title="A")
    article("guides/c.md", Title="C", Save_as="index.html")
    article("guides/d.md", Title="")
    article("guides/e.md", Title="E", Date="someday")
    result, _ = built()
    found = {(one.code, one.mark.file.rpartition("/")[2]) for one in errors(result.findings)}
    assert found == {
        ("broken-link", "a.md"),
        ("same-place", "b.md"),
        ("prose-moved", "c.md"),
        ("prose", "d.md"),
        ("prose", "e.md"),
    }


@pytest.mark.parametrize(
    ("words", "line", "said"),
    [
        ({"Title": ""}, 1, "this file has no `Title:` at its top"),
        ({"Date": ""}, 1, "this file has no `Date:` at its top"),
        ({"Date": "someday"}, 2, "`someday` is not a date"),
        ({"Modified": "2026-13-01"}, 4, "`2026-13-01` is not a date"),
        ({"Status": "redy"}, 4, "`redy` is not a status"),
        ({"Content": "x"}, 4, "the name `Content:` cannot be used"),
    ],
)
def test_what_is_wrong_at_the_top_is_said_in_plain_words(built, article, words, line, said):
    path = article("guides/one.md", **words)
    result, _ = built()
    found = only(result)
    assert (found.code, found.mark.file, found.mark.line) == ("prose", str(path), line)
    assert found.message.startswith(said)
    assert found.hint


def test_a_file_that_is_not_utf_8_is_told_with_its_line(built, article):
    path = article("guides/one.md", "Words.")
    path.write_bytes(path.read_bytes() + "Größe\n".encode("latin-1"))
    result, _ = built()
    found = only(result)
    assert (found.mark.file, found.mark.line, found.mark.column) == (str(path), 6, 3)
    assert found.message == "this file is not saved as UTF-8"


def test_a_picture_without_words_is_pointed_out(built, article, corner):
    (corner / "content/images").mkdir(parents=True)
    (corner / "content/images/side.jpg").write_bytes(b"x")
    path = article("guides/one.md", "Words.\n\n![]({static}/images/side.jpg)")
    result, _ = built()
    assert errors(result.findings) == []
    (found,) = [one for one in result.findings if one.severity == "warning"]
    assert (found.code, found.mark.file, found.mark.line) == ("no-alt", str(path), 7)
