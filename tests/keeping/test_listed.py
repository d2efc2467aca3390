"""Changes go into a price list that holds from a day on, a new one or one that is there; nothing else changes."""

from datetime import date

import pytest

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.keeping.changing import Change, checked
from quoting.keeping.listed import into_list
from quoting.keeping.standing import prices_of

NEXT = date(2027, 1, 1)


def enter(stand, corner, version, new, day=NEXT):
    """Write new prices, by package or (frame, colorway), into a list; what the file then holds."""
    now = stand(day)
    changes = [
        Change(spot, cents)
        for spot in now.spots
        if (cents := new.get(spot.id if spot.kind == "lens" else (spot.id, spot.colorway))) is not None
    ]
    contents, findings = into_list(now, version, changes)
    assert findings == []
    assert errors(checked(now, contents, changes, day)) == []
    ((path, content),) = contents.items()
    path.write_bytes(content)
    meant = prices_of(now.catalog, day) | {change.spot.key: change.cents for change in changes}
    assert prices_of(stand(day).catalog, day) == meant
    return content.decode("utf-8")


def test_a_new_list_is_the_one_before_with_the_changes_in_it(stand, corner):
    before = (corner / "prices/2026-01.yaml").read_text(encoding="utf-8")
    text = enter(stand, corner, "2027-01", {"plain-150": 2100, ("reed", "gray"): 18100})
    lenses = "lenses:\n  plain-150:\n    - {from: -4.00, to: +2.00, lens: 21.00}\n"
    head = before.replace("version: 2026-01", "version: 2027-01").replace(
        "effective: 2026-01-01", "effective: 2027-01-01"
    )
    assert text == head + lenses + "frames:\n  reed: {gray: 181.00}\n"
    assert load(corner, date(2026, 12, 31))[0].packages["plain-150"].prices[0].lens_cents == 2000
    assert load(corner, NEXT)[0].packages["plain-150"].prices[0].lens_cents == 2100


def test_a_list_after_one_with_prices_of_its_own_does_not_repeat_them(stand, corner):
    path = corner / "prices/2026-01.yaml"
    text = path.read_text(encoding="utf-8")
    text = text.replace("surcharges:", "lenses: # since then\n  thin-160: +1 %\n\n# what is added\nsurcharges:", 1)
    path.write_text(text.replace("\n", "\r\n"), encoding="utf-8", newline="")
    new = enter(stand, corner, "2027-01", {"plain-150": 2100})
    assert "thin-160" not in new
    assert "# what is added\r\nsurcharges:" in new
    assert new.count("\n") == new.count("\r\n")


@pytest.mark.parametrize(
    "more",
    [
        "",
        "lenses: {}\nframes: {}\n",
        "lenses: {thin-160: +1 %}\nframes: {alder: +2 %, reed: {dusk: 200.00}}\n",
        "frames:\n  reed:\n    dusk: 200.00\n  alder: +2 %\nlenses:\n    # own\n    thin-160: +1 %\n",
        "lenses:\n  plain-150: [{from: -4.00, to: +2.00, lens: 20.50}]\n",
    ],
)  # fmt: skip
def test_what_a_list_does_not_name_yet_is_added_to_it(stand, corner, more):
    text = (corner / "prices/2026-01.yaml").read_text(encoding="utf-8").replace("2026-01", "2027-01")
    (corner / "prices/next.yaml").write_text(text + more, encoding="utf-8")
    new = enter(stand, corner, "2027-01", {"plain-150": 2100, "flow-160": 15500, ("reed", "gray"): 18100})
    assert all(line in new.splitlines() for line in text.splitlines())
    again = enter(stand, corner, "2027-01", {"plain-150": 2150, "flow-160": 15600, ("reed", "gray"): 18200})
    assert len(again) == len(new)


def test_a_change_in_percent_of_the_list_itself_is_not_overwritten(stand, corner):
    text = (corner / "prices/2026-01.yaml").read_text(encoding="utf-8").replace("2026-01", "2027-01")
    (corner / "prices/next.yaml").write_text(text + "lenses: {plain-150: +1 %}\n", encoding="utf-8")
    now = stand(NEXT)
    _, findings = into_list(now, "2027-01", [Change(now.of("lens", "plain-150")[0], 2100)])
    assert [finding.code for finding in findings] == ["follows-from-change"]


def test_a_file_of_another_version_is_not_overwritten(stand, corner):
    (corner / "prices/2026-01.yaml").rename(corner / "prices/2027-01.yaml")
    now = stand(NEXT)
    contents, findings = into_list(now, "2027-01", [Change(now.of("lens", "plain-150")[0], 2100)])
    assert contents == {}
    assert [finding.code for finding in findings] == ["other-version"]


def test_what_is_odd_about_a_new_list_is_told_with_it(stand):
    now = stand(NEXT)
    changes = [Change(now.of("lens", "plain-150")[0], 2100)]
    contents, _ = into_list(now, "2027-01", changes)
    assert [(one.code, one.severity) for one in checked(now, contents, changes, NEXT)] == [("discount-over", "warning")]
