"""A record holds what the pages say, no more, and always the same bytes."""

import json

import pytest

from quoting.catalog.load import load
from quoting.offers import Choice, Offers
from quoting.site.publish import recorded
from quoting.site.record import as_bytes, from_bytes
from tests.site.conftest import COMBINATION, CORNER, DAY


@pytest.fixture(scope="module")
def record():
    result, found = recorded(CORNER, DAY)
    assert result.pages
    return found


def test_same_shop_same_bytes(record):
    assert as_bytes(recorded(CORNER, DAY)[1]) == as_bytes(record)


def test_it_is_read_again_as_it_was_written(record):
    assert from_bytes(as_bytes(record)) == record


def test_another_day_changes_no_page_that_says_the_same(record):
    """The day of the build stands on each page; the small shop's prices hold on both days."""
    later = recorded(CORNER, DAY.replace(day=26))[1]
    assert later["pages"] == record["pages"]
    assert later["day"] != record["day"]


def test_every_cell_is_what_the_engine_answers(record):
    catalog, _ = load(CORNER, DAY)
    offers, seen = Offers(catalog, DAY), set()
    for frame in catalog.frames.values():
        for size in frame.sizes:
            for package in catalog.packages.values():
                cells = record["frames"][frame.id]["boards"][size.key][package.id]
                for (verdict, cents, edge), band in zip(cells, catalog.shop.bands, strict=True):
                    offer = offers.cell(Choice(frame, size, frame.colorways[0], package), band)
                    seen.add(verdict)
                    if offer.fit["verdict"] == "no":
                        assert verdict in ("no", "partly")
                        assert (cents, edge) == (None, None)
                    else:
                        assert verdict in ("fits", "caution")
                        assert cents == offer.lenses_cents
                        assert edge == pytest.approx(offer.thickest * 100, abs=0.5)
    assert len(seen) > 1


def test_it_names_every_page_but_the_one_for_what_is_missing(tmp_path, corner, article):
    article("combinations/one.md", **COMBINATION)
    found = recorded(corner, DAY)[1]
    assert "frames/alder/index.html" in found["pages"]
    assert "404.html" not in found["pages"]
    ((page, (_, verdict, total)),) = found["combinations"].items()
    assert page in found["pages"]
    assert verdict != "no"
    assert total > 0


def test_nothing_of_it_is_the_shops_own_business(corner, record):
    """Comments, marks and folders of the shop are not in it."""
    text = as_bytes(record).decode()
    assert "yaml" not in text
    assert str(CORNER) not in text


@pytest.mark.parametrize("spoil", [{"format": 99}, {"more": 1}])
def test_what_is_no_record_of_ours_is_refused(record, spoil):
    with pytest.raises(ValueError, match="no record of a build"):
        from_bytes(json.dumps({**record, **spoil}).encode())
    with pytest.raises(ValueError, match=r"."):
        from_bytes(b"[")
