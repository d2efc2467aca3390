"""Every price of a day is known with the place where it stands, and only the number there changes."""

from datetime import date

import pytest

from quoting.catalog.load import load_written
from quoting.keeping.changing import Change, Watch, checked, in_place, unusual
from quoting.keeping.splice import token_at
from quoting.keeping.standing import prices_of

LATER = """lenses:
  thin-160:
    - {from: -8.00, to: +6.00, lens: '70'}
  flow-160: +10 %
frames: {reed: {gray: 181.00}}
"""


@pytest.fixture
def later(corner):
    text = (corner / "prices/2026-01.yaml").read_text(encoding="utf-8").replace("2026-01", "2027-01")
    (corner / "prices/2027.yaml").write_text(text + LATER, encoding="utf-8")


@pytest.mark.parametrize("day", [date(2025, 1, 1), date(2026, 6, 1), date(2027, 1, 1)])
def test_what_stands_is_what_the_engine_gets(stand, later, day):
    now = stand(day)
    assert {spot.key: spot.cents for spot in now.spots} == prices_of(now.catalog, day)
    for spot in now.spots:
        if spot.plain:
            token = token_at(now.files[spot.path], spot.mark).strip("'")
            assert round(float(token) * 100) == spot.cents


def test_a_price_of_a_list_stands_in_the_list(stand, later):
    now = stand(date(2027, 1, 1))
    places = {(spot.id, spot.colorway): (spot.path.name, spot.source, spot.plain) for spot in now.spots}
    assert places["plain-150", ""] == ("pennock.yaml", "", True)
    assert places["thin-160", ""] == ("2027.yaml", "2027-01", True)
    assert places["flow-160", ""] == ("2027.yaml", "2027-01", False)
    assert places["reed", "gray"] == ("2027.yaml", "2027-01", True)
    assert places["reed", "dusk"] == ("bolderwood.yaml", "", True)
    assert stand(date(2026, 6, 1)).later("lens", "thin-160") == ["2027-01"]
    assert now.later("lens", "thin-160") == []


def test_the_difference_is_the_numbers_and_nothing_else(stand, corner):
    path = corner / "lenses/pennock.yaml"
    odd = (
        path.read_bytes()
        .replace(b"\n", b"\r\n")
        .replace(b"lens: 20.00", b"lens:   '20'  ")
        .replace(b"72.50}", b"72.5} # soon 80.00")
    )
    path.write_bytes(b"\xef\xbb\xbf# 60.00 \xc3\xa4\r\n" + odd)
    now = stand()
    new = {2000: 2100, 7250: 7560, 6000: 6001}
    changes = [Change(spot, new[spot.cents]) for spot in now.spots if spot.cents in new]
    contents, findings = in_place(now, changes)
    assert findings == []
    meant = (
        path.read_bytes()
        .replace(b"'20'", b"'21'")
        .replace(b"72.5}", b"75.6}")
        .replace(b"lens: 60.00}", b"lens: 60.01}")
    )
    assert contents == {path: meant}
    assert checked(now, contents, changes, now.day) == []


def test_a_price_that_follows_from_a_change_is_not_written_in_place(stand, later):
    now = stand(date(2027, 1, 1))
    contents, findings = in_place(now, [Change(spot, 1) for spot in now.spots if spot.id == "flow-160"])
    assert contents == {}
    assert [(finding.code, finding.mark.text) for finding in findings] == [("follows-from-change", "  flow-160: +10 %")]


def test_a_price_that_is_broken_over_lines_is_told(stand, corner):
    path = corner / "lenses/pennock.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("lens: 20.00}", 'lens: "\n        20.00"}'), encoding="utf-8"
    )
    now = stand()
    _, findings = in_place(now, [Change(spot, 1) for spot in now.spots if spot.id == "plain-150"])
    assert [finding.code for finding in findings] == ["not-plain"]


def test_a_change_that_breaks_the_shop_is_seen_before_it_is_written(stand, corner):
    now = stand()
    (spot,) = now.of("lens", "plain-150")
    contents, _ = in_place(now, [Change(spot, 99_999_999)])
    assert [finding.code for finding in checked(now, contents, [Change(spot, 99_999_999)], now.day)] == ["out-of-range"]
    assert load_written(corner)[0] == now.catalog


def test_other_prices_than_were_meant_are_seen(stand):
    now = stand()
    (spot,) = now.of("lens", "plain-150")
    contents, _ = in_place(now, [Change(spot, 2100)])
    (finding,) = checked(now, contents, [Change(spot, 2200)], now.day)
    assert finding.code == "not-as-meant"
    assert "`plain-150`" in finding.message


def test_changes_far_from_others_are_flagged(stand):
    spots = stand().spots
    new = [spot.cents * 104 // 100 for spot in spots]
    new[0], new[1] = spots[0].cents * 121 // 100, spots[1].cents * 115 // 100
    why = unusual([Change(spot, cents) for spot, cents in zip(spots, new, strict=True)], Watch())
    assert why.keys() == {spots[0].key, spots[1].key}
    assert "20 %" in why[spots[0].key]
    assert "median +4.0 %" in why[spots[1].key]
    few = [Change(spots[0], spots[0].cents * 121 // 100), Change(spots[1], spots[1].cents)]
    assert unusual(few, Watch(30, 5)) == {}
