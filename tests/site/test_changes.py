"""What differs between two records, worked out by hand from what was changed in the small shop."""

import copy

import pytest

from quoting.show.changes import brief_text, changes_text, lens_rows
from quoting.site.changes import compare
from quoting.site.changes_page import changes_page
from quoting.site.publish import recorded
from tests.site.conftest import CORNER, DAY


@pytest.fixture(scope="module")
def before():
    return recorded(CORNER, DAY)[1]


@pytest.fixture
def after(before):
    return copy.deepcopy(before)


def told(before, after):
    return compare(before, after, "build 1")


def cell(record, frame, size, package, at, value=None):
    cells = record["frames"][frame]["boards"][size][package]
    if value is not None:
        cells[at] = value
    return cells[at]


def first_fitting(record):
    """Frame, size, package and band of a cell that has a price."""
    return next(
        (frame, size, package, at)
        for frame, one in record["frames"].items()
        for size, board in one["boards"].items()
        for package, cells in board.items()
        for at, (verdict, cents, _) in enumerate(cells)
        if verdict in ("fits", "caution") and cents
    )


def test_the_same_twice_is_nothing(before, after):
    assert told(before, after).none
    assert "Nothing changes." in changes_text(told(before, after))
    assert "Nothing changes." in changes_page(told(before, after))


def test_a_raise_of_prices_is_told_once_for_all_frames_with_cents_and_percent(before, corner, rewrite):
    path = next((corner / "lenses").glob("*.yaml"))
    package = first_fitting(before)[2]
    after = copy.deepcopy(before)
    changed = []
    for frame, told_of in after["frames"].items():
        for size, board in told_of["boards"].items():
            for at, (verdict, cents, edge) in enumerate(board[package]):
                if cents:
                    board[package][at] = (verdict, cents + 500, edge)
                    changed.append((f"{frame} {size}", package, before["bands"][at], cents))
    assert path.is_file()
    found = told(before, after)
    for place, package, (low, high), cents in changed:
        (one,) = [
            one
            for one in found.lens_prices
            if (one.id, one.before) == (package, cents) and one.low <= low <= high <= one.high and place in one.where
        ]
        assert one.after == cents + 500
    assert {one.cents for one in found.lens_prices} == {500}
    for one in found.lens_prices:
        assert one.percent == pytest.approx(50_000 / one.before)
    assert not found.verdicts
    assert not found.edges


def test_neighboring_bands_whose_prices_change_alike_are_one(before, after):
    frame, size, package, _ = first_fitting(before)
    bands = len(before["bands"])
    for record, add in ((before, 0), (after, 500)):
        record["frames"][frame]["boards"][size][package] = [("fits", 10_000 + add, 300)] * bands
    (one,) = told(before, after).lens_prices
    assert (one.low, one.high, one.before, one.where) == (
        before["bands"][0][0], before["bands"][-1][1], 10_000, (f"{frame} {size}",)
    )  # fmt: skip
    after["frames"][frame]["boards"][size][package][1] = ("fits", 10_600, 300)
    found = told(before, after).lens_prices
    assert [(one.cents, one.low) for one in found] == [
        (600, before["bands"][1][0]), (500, before["bands"][0][0]), (500, before["bands"][2][0])
    ]  # fmt: skip


def test_a_lens_that_changes_by_as_much_everywhere_is_one_row_of_the_text(before, after):
    package = first_fitting(before)[2]
    frames = [(name, next(iter(one["boards"]))) for name, one in before["frames"].items()]
    for record, add in ((before, 0), (after, 500)):
        for place, (name, key) in enumerate(frames):
            for one in record["frames"][name]["boards"][key].values():
                one[:] = [("no", None, None)] * len(one)
            cells = [("fits", 10_000 + 900 * place + add, 300)] * len(record["bands"])
            record["frames"][name]["boards"][key][package] = cells
    found = told(before, after)
    assert len(found.lens_prices) == len(frames)
    (row,) = lens_rows(found)
    assert row[0] == package
    assert row[-1].endswith(f" and {len(frames) - 1} more, {len(frames) - 1} of them at other prices")


def test_the_largest_change_comes_first(before, after):
    frame, size, package, at = first_fitting(before)
    verdict, cents, edge = cell(before, frame, size, package, at)
    cell(after, frame, size, package, at, (verdict, cents - 900, edge))
    other = next(name for name in before["frames"] if name != frame)
    spot = next(
        (s, p, i)
        for s, board in before["frames"][other]["boards"].items()
        for p, cells in board.items()
        for i, one in enumerate(cells)
        if one[1] and (p, i) != (package, at)
    )
    old = cell(before, other, *spot)
    cell(after, other, *spot, (old[0], old[1] + 100, old[2]))
    assert [one.cents for one in told(before, after).lens_prices] == [-900, 100]


def test_neighboring_bands_that_change_alike_are_one_row(before, after):
    frame, size, package, _ = first_fitting(before)
    for at in range(len(before["bands"])):
        cell(after, frame, size, package, at, ("no", None, None))
    old = [one[0] for one in before["frames"][frame]["boards"][size][package]]
    runs = 0
    for at, verdict in enumerate(old):
        if verdict != "no" and (at == 0 or old[at - 1] != verdict):
            runs += 1
    found = told(before, after)
    assert len(found.verdicts) == runs
    assert all(one.after == "no" for one in found.verdicts)
    assert not found.lens_prices, "a lens that fits no more is no change of price"


def test_a_page_that_is_gone_names_where_its_links_lead(before, after):
    del after["frames"]["reed"]
    del after["pages"]["frames/reed/index.html"]
    found = told(before, after)
    assert found.pages_gone == {"frames/reed/index.html": "frames/index.html"}
    assert not found.verdicts


def test_a_frame_with_a_new_id_is_where_the_old_one_leads(before, corner, rewrite):
    rewrite("frames/bolderwood.yaml", "id: reed", "id: sedge")
    found = told(before, recorded(corner, DAY)[1])
    assert found.pages_gone == {"frames/reed/index.html": "frames/sedge/index.html"}
    assert list(found.pages_new) == ["frames/sedge/index.html"]


def test_a_frame_with_a_new_id_and_name_is_known_by_its_sizes_and_colorways(before, corner, rewrite):
    rewrite("frames/bolderwood.yaml", "id: reed", "id: sedge")
    rewrite("frames/bolderwood.yaml", "name: Reed", "name: Sedge")
    found = told(before, recorded(corner, DAY)[1])
    assert found.pages_gone == {"frames/reed/index.html": "frames/sedge/index.html"}


def test_a_size_that_is_gone_breaks_the_links_to_its_rows(before, after):
    frame = next(iter(after["frames"]))
    size, board = next(iter(after["frames"][frame]["boards"].items()))
    del after["frames"][frame]["boards"][size]
    assert set(told(before, after).places_gone) == {f"frames/{frame}/index.html#{size}-{package}" for package in board}


def test_prices_in_another_currency_are_not_compared(before, after):
    after["currency"] = "EUR"
    frame = next(iter(after["frames"]))
    color = next(iter(after["frames"][frame]["prices"]))
    after["frames"][frame]["prices"][color] += 100
    found = told(before, after)
    assert (found.other_currency, list(found.frame_prices)) == ("USD", [])
    assert "currency" in brief_text(found)


def test_prices_of_frames_and_new_colorways_are_told(before, after):
    frame = next(iter(after["frames"]))
    color, cents = next(iter(before["frames"][frame]["prices"].items()))
    after["frames"][frame]["prices"] |= {color: cents * 2, "new-one": 100}
    doubled, added = told(before, after).frame_prices
    assert (doubled.what, doubled.before, doubled.after, doubled.percent) == (color, cents, cents * 2, 100.0)
    assert (added.what, added.before, added.after, added.percent) == ("new-one", None, 100, None)


def test_an_edge_that_reads_the_same_is_not_told(before, after):
    frame, size, package, at = first_fitting(before)
    verdict, cents, _ = cell(before, frame, size, package, at)
    for old, new, count in ((314, 315, 0), (315, 316, 1)):  # 3.15 reads 3.1: half goes to the even digit of a float
        cell(copied := copy.deepcopy(before), frame, size, package, at, (verdict, cents, old))
        cell(after, frame, size, package, at, (verdict, cents, new))
        assert len(told(copied, after).edges) == count


def test_edges_are_told_from_a_tenth_of_a_millimeter_on(before, after):
    frame, size, package, at = first_fitting(before)
    verdict, cents, _ = cell(before, frame, size, package, at)
    cell(before_copy := copy.deepcopy(before), frame, size, package, at, (verdict, cents, 411))
    cell(after, frame, size, package, at, (verdict, cents, 414))
    assert not told(before_copy, after).edges
    cell(after, frame, size, package, at, (verdict, cents, 431))
    (edge,) = told(before_copy, after).edges
    assert (edge.before, edge.after) == (4.11, 4.31)


def test_text_is_bounded_and_all_is_all(before, after):
    for number in range(25):
        after["pages"][f"guides/{number}/index.html"] = ("0", f"Guide {number}")
    found = told(before, after)
    short, whole = changes_text(found), changes_text(found, every=True)
    assert "and 15 more; --all tells them" in short
    assert short.count("guides/") == 10
    assert whole.count("guides/") == 25


def test_the_page_is_one_file_without_script_and_text_is_text(before, after):
    after["pages"]["guides/<b>/index.html"] = ("0", "x")
    page = changes_page(told(before, after))
    assert "guides/&lt;b&gt;/index.html" in page
    for outside in ("<script", "src=", 'href="http', "@import", "url("):
        assert outside not in page
