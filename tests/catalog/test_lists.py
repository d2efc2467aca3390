"""Price lists side by side: each holds from its day on, and what it says of single prices holds as long."""

import shutil
from datetime import date

import pytest

from quoting.catalog.in_time import as_on
from quoting.catalog.load import load, load_written
from tests.catalog.mangling import FILES, WHOLE, checked, shop

PRICE_FILE = FILES["prices/2026-09.yaml"].decode()
LENS_FILE = FILES["lenses/hallstrand.yaml"].decode()
SPRING, SUMMER = date(2027, 4, 1), date(2027, 7, 1)
ROWS = "\n    - {from: -6.00, to: -0.25, lens: 25.50}\n    - {from: 0.00, to: +4.00, lens: 31.00}\n"


def listed(version, effective, more=""):
    text = PRICE_FILE.replace("version: 2026-09", f"version: {version}")
    text = text.replace("effective: 2026-09-01", f"effective: {effective}").replace(
        "price: 35.00", f"price: {40 if more else 50}.00"
    )
    return text[: text.index("discounts:")] + text[text.index("regions:") :] + more


def found(more):
    """Code, line's text and message of all that is found with a later list that says this."""
    with shop(prices__spring=listed("spring", SPRING, more)) as folder:
        return [(one.code, one.mark.text.strip(), one.message) for one in checked(folder)[1]]


@pytest.fixture
def three():
    """A shop with a list of its own, one that sets and raises prices, and one that only has other surcharges."""
    spring = f"lenses:\n  plain-150:{ROWS}  long-150: +4.5 %\nframes:\n  tarn: {{slate: 135.50}}\n"
    with shop(prices__spring=listed("spring", SPRING, spring), prices__a=listed("summer", SUMMER)) as folder:
        yield folder


def on(folder, day):
    catalog, findings = load(folder, day)
    assert findings == []
    plain = [band.lens_cents for band in catalog.packages["plain-150"].prices]
    long_way = [band.lens_cents for band in catalog.packages["long-150"].prices]
    return catalog.price_list.version, plain, long_way, catalog.frames["tarn"].colorways[0].price_cents


def test_the_list_in_force_is_the_latest_that_began(three):
    long_way = [band.lens_cents for band in load_written(three)[0].packages["long-150"].prices]
    raised = [(cents * 1045 + 500) // 1000 for cents in long_way]
    assert on(three, date(2026, 9, 1)) == ("2026-09", [2400, 2900], long_way, 12900)
    assert on(three, date(2027, 3, 31)) == ("2026-09", [2400, 2900], long_way, 12900)
    assert on(three, SPRING) == ("spring", [2550, 3100], raised, 13550)
    assert raised != long_way


def test_what_a_list_says_of_a_price_counts_under_later_lists_too(three):
    version, *prices = on(three, SUMMER)
    assert version == "summer"
    assert tuple(prices) == on(three, SPRING)[1:]


def test_before_all_lists_the_earliest_counts(three):
    assert load(three, date(2020, 1, 1))[0].price_list.version == "2026-09"


def test_a_catalog_can_be_had_for_any_day_without_reading_again(three):
    written, _ = load_written(three)
    for day in (date(2026, 12, 1), SPRING, SUMMER):
        assert as_on(written, day) == load(three, day)[0]
    assert [one.version for one in written.price_lists] == ["2026-09", "spring", "summer"]


def test_two_changes_follow_upon_each_other():
    spring, summer = (
        listed("s", SPRING, "lenses: {plain-150: +10 %}\n"),
        listed("t", SUMMER, "lenses: {plain-150: -10%}\n"),
    )
    with shop(prices__s=spring, prices__t=summer) as folder:
        assert on(folder, SPRING)[1] == [2640, 3190]
        assert on(folder, SUMMER)[1] == [2376, 2871]


@pytest.mark.parametrize(
    ("more", "code", "line", "words"),
    [
        ("lenses: {plain-105: +4 %}", "unknown-id", "lenses: {plain-105: +4 %}", "no package `plain-105`"),
        ("frames: {tran: +4 %}", "unknown-id", "frames: {tran: +4 %}", "no frame `tran`"),
        ("frames: {tarn: {slat: 1.00}}", "unknown-id", "frames: {tarn: {slat: 1.00}}", "no colorway `slat`"),
        ("frames: {tarn: {}}", "empty-value", "frames: {tarn: {}}", "no colorway"),
        ("lenses: {plain-150: 4 %}", "wrong-form", "lenses: {plain-150: 4 %}", "such as +4 %"),
        ("lenses: {plain-150: +400 %}", "wrong-form", "lenses: {plain-150: +400 %}", "such as +4 %"),
        ("lenses: {plain-150: {lens: 2.00}}", "wrong-shape", "lenses: {plain-150: {lens: 2.00}}", "rows of prices"),
        ("lenses: [plain-150]", "wrong-shape", "lenses: [plain-150]", "names with values"),
        ("frames: {tarn: 130.00}", "wrong-form", "frames: {tarn: 130.00}", "prices of colorways"),
        (
            "lenses:\n  plain-150:\n    - {from: -6.00, to: +3.75, lens: 25.00}",
            "not-covered",
            "- {from: -6.00, to: +3.75, lens: 25.00}",
            "comes in -6.00 to +4.00",
        ),
        (
            "lenses:\n  plain-150:\n    - {from: -5.75, to: +4.00, lens: 25.00}",
            "not-covered",
            "- {from: -5.75, to: +4.00, lens: 25.00}",
            "end at -5.75",
        ),
        (
            "lenses:\n  plain-150:\n    - {from: -6.00, to: -0.25, lens: 2}\n    - {from: +0.25, to: +4.00, lens: 3}",
            "gap",
            "- {from: +0.25, to: +4.00, lens: 3}",
            "0.00",
        ),
    ],
)
def test_what_is_wrong_with_a_later_list_is_told_at_its_place(more, code, line, words):
    ((got, text, message),) = found(more + "\n")
    assert (got, text) == (code, line)
    assert words in message


@pytest.mark.parametrize(
    ("more", "key"),
    [
        ("lenses: {plain-105: +4 %}", "plain-105"),
        ("frames:\n  tran: {slate: 1.00}", "tran"),
        ("frames: {tarn: {slat: 1.00}}", "slat"),
    ],
)
def test_an_id_that_stands_as_a_name_is_underlined_itself(more, key):
    with shop(prices__spring=listed("spring", SPRING, more + "\n")) as folder:
        ((mark, code),) = [(one.mark, one.code) for one in checked(folder)[1]]
    assert (code, mark.text[mark.column - 1 :][: mark.length]) == ("unknown-id", key)


def test_a_row_that_no_power_of_the_package_meets_is_a_warning():
    rows = "    - {from: -6.00, to: +4.00, lens: 25.00}\n    - {from: +4.25, to: +5.00, lens: 26.00}\n"
    assert [code for code, _, _ in found(f"lenses:\n  plain-150:\n{rows}")] == ["never-used"]


def test_a_list_may_come_before_the_package_is_sound_without_being_blamed():
    broken = LENS_FILE.replace("name: Plain 1.50", "nam: Plain 1.50", 1)
    later = listed("spring", SPRING, "lenses: {plain-150: +4 %}\n")
    with shop(lenses__hallstrand=broken, prices__spring=later) as folder:
        assert {finding.mark.file.rsplit("/", 1)[-1] for finding in checked(folder)[1]} == {"hallstrand.yaml"}


def test_two_lists_share_neither_version_nor_day():
    for later, field in ((listed("2026-09", SPRING), "version"), (listed("spring", "2026-09-01"), "effective")):
        with shop(prices__spring=later) as folder:
            catalog, (finding,) = checked(folder)
        assert catalog is None
        assert finding.code == "second-price-list"
        assert finding.mark.text.startswith(field)


def test_what_a_change_would_make_of_a_shop_is_read_without_writing_it(tmp_path):
    folder = tmp_path / "shop"
    shutil.copytree(WHOLE, folder)
    lenses = LENS_FILE.replace("lens: 24.00", "lens: 99.00").encode()
    later = listed("spring", SPRING, "lenses: {nothing: +4 %}\n").encode()
    catalog, findings = load_written(folder, {folder / "lenses/hallstrand.yaml": lenses})
    assert findings == []
    assert catalog.packages["plain-150"].prices[0].lens_cents == 9900
    catalog, (finding,) = load_written(folder, {folder / "prices/spring.yaml": later})
    assert catalog is None
    assert finding.mark.file == (folder / "prices/spring.yaml").as_posix()
    assert load_written(folder)[0].packages["plain-150"].prices[0].lens_cents == 2400
