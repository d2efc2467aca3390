"""A shop folder becomes a catalog as written, or all that is wrong with it is told at once."""

import re
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.checks import on_day
from quoting.catalog.load import load
from quoting.catalog.model import MOUNTINGS
from tests.catalog.mangling import FILES, WHOLE, checked, shop

FRAMES, LENSES, PRICES = "frames__pellbridge", "lenses__hallstrand", "prices__2026-09"
TEXT = {name: content.decode() for name, content in FILES.items()}
FRAME_FILE = TEXT["frames/pellbridge.yaml"]
LENS_FILE = TEXT["lenses/hallstrand.yaml"]
PRICE_FILE = TEXT["prices/2026-09.yaml"]
SHOP_FILE = TEXT["shop.yaml"]


def found(**changed):
    """Code and line of each finding in the changed shop."""
    with shop(**changed) as folder:
        return [(finding.code, finding.mark.line) for finding in checked(folder)[1]]


@pytest.fixture(scope="module")
def catalog():
    catalog, findings = load(WHOLE)
    assert findings == []
    return catalog


def test_the_shop_is_read_as_written(catalog):
    shop = catalog.shop
    assert (shop.name, shop.currency, shop.url, shop.quote_days) == ("Fellmark Spectacles", "EUR", "", 30)
    assert shop.address == ("12 Mill Lane", "Ottersea")
    assert tuple(shop.mountings) == MOUNTINGS
    assert shop.mountings["drilled"].edge_no == 9
    assert [(band.low, band.high) for band in shop.bands] == [(-6, -2.25), (-2, 2), (2.25, 4)]
    assert (shop.limits.wrap_angle, shop.defaults.pd) == (15, 63)


def test_a_frame_is_read_as_written(catalog):
    frame = catalog.frames["tarn"]
    (size,), (colorway,) = frame.sizes, frame.colorways
    assert (frame.maker, frame.family, frame.mounting, frame.about) == ("Pellbridge", "panto", "full-rim-plastic", "")
    assert (size.a, size.b, size.dbl, size.ed, size.temple, size.weight) == (48, 42, 21, 50.5, 145, 24)
    assert (colorway.price_cents, colorway.front, colorway.stock) == (12900, "#444a52", "in-stock")


def test_a_package_is_read_as_written(catalog):
    plain, long_way = catalog.packages["plain-150"], catalog.packages["long-150"]
    assert plain.design is catalog.designs["sv"]
    assert plain.material is catalog.materials["r150"]
    assert plain.finished
    assert [(step.low, step.high, step.value) for step in plain.centers] == [(-6, -0.25, 2.0), (0, 4, 4.5)]
    assert [band.lens_cents for band in plain.prices] == [2400, 2900]
    assert (plain.prism, long_way.prism) == (0, 3)
    (made,) = long_way.ranges
    assert (made.add_from, made.add_to, made.diameter, made.cylinder) == (0.75, 3.5, 75, 4)
    assert (long_way.min_center, long_way.curves, long_way.centers) == (1.8, (), ())


def test_a_price_list_is_read_as_written(catalog):
    prices = catalog.price_list
    assert (prices.version, prices.effective, prices.tax_included) == ("2026-09", date(2026, 9, 1), False)
    assert [(s.id, s.over, s.mounting, s.cents) for s in prices.surcharges] == [
        ("prism", 0, "", 1200),
        ("strong-cylinder", 2, "", 900),
        ("bevel", 0, "full-rim-plastic", 3500),
    ]
    (discount,), (region,) = prices.discounts, prices.regions
    assert (discount.basis_points, discount.cents, discount.ends) == (1000, 0, date(2026, 12, 31))
    assert (discount.asked, discount.combinable) == (False, True)
    assert (region.free_from_cents, region.tax_frame, region.tax_lenses) == (25000, 825, 0)


def test_everything_remembers_where_it_was_written(catalog):
    mark = catalog.frames["tarn"].mark
    assert (mark.line, mark.column, mark.text) == (3, 9, "  - id: tarn")
    assert mark.file == (WHOLE / "frames" / "pellbridge.yaml").as_posix()


def test_files_are_named_as_the_folder_was_given(monkeypatch):
    with shop(shop=SHOP_FILE.replace("EUR", "euro")) as folder:
        monkeypatch.chdir(folder.parent)
        assert load(Path("shop"))[1][0].mark.file == "shop/shop.yaml"
        monkeypatch.chdir(folder)
        assert load(Path())[1][0].mark.file == "shop.yaml"


def test_a_lens_file_may_use_the_materials_of_another():
    materials, rest = LENS_FILE.split("designs:")
    first, second = "designs:" + rest, materials.removeprefix("maker: Hallstrand\n")
    with shop(lenses__hallstrand="maker: Hallstrand\n" + first, lenses__varnholt=second) as folder:
        catalog, findings = checked(folder)
    assert findings == []
    assert catalog is not None


def test_faults_of_all_files_are_told_at_once_in_order_of_files_and_lines():
    with shop(
        shop=SHOP_FILE.replace("pd: 63", "pd: 63 mm"),
        frames__pellbridge=FRAME_FILE.replace("temple: 145", "temple: long").replace("wrap: 5", "wrap: 5°"),
        lenses__hallstrand=LENS_FILE.replace("abbe: 58", "abbe: ~"),
        prices__2027=PRICE_FILE,
    ) as folder:
        findings = checked(folder)[1]
    assert [(Path(finding.mark.file).name, finding.mark.line) for finding in findings] == [
        ("pellbridge.yaml", 9),
        ("pellbridge.yaml", 12),
        ("hallstrand.yaml", 3),
        ("2027.yaml", 1),
        ("2027.yaml", 2),
        ("shop.yaml", 16),
    ]


def test_a_faulty_material_is_not_unknown_to_its_packages():
    assert found(lenses__hallstrand=LENS_FILE.replace("abbe: 58", "abbe: high")) == [("not-a-number", 3)]


def test_a_material_whose_id_cannot_be_read_leaves_mentions_of_it_alone():
    assert found(lenses__hallstrand=LENS_FILE.replace("id: r150", "id: R150")) == [("not-an-id", 3)]


def test_a_lens_file_that_cannot_be_read_leaves_mentions_of_what_may_be_in_it_alone():
    broken = found(lenses__hallstrand=LENS_FILE.replace("design: sv", "design: sw"), lenses__varnholt="designs: [")
    assert broken == [("unclosed-bracket", 1)]


@pytest.mark.parametrize(
    ("line", "wrong", "hint"),
    [
        ("material: r150", "material: r15O", "did you mean `r150`?"),
        ("design: sv", "design: single vision", "there are sv"),
    ],
)
def test_a_mention_that_can_be_no_id_is_told_what_there_is(line, wrong, hint):
    with shop(**{LENSES: LENS_FILE.replace(line, wrong, 1)}) as folder:
        told = [(one.code, one.hint) for one in checked(folder)[1] if one.severity == "error"]
    assert ("not-an-id", hint) in [(code, said[: len(hint)]) for code, said in told]


def test_a_row_that_cannot_be_read_is_no_gap():
    assert found(shop=SHOP_FILE.replace("from: -2.00", "from: -2,00 D")) != []
    codes = [code for code, _ in found(shop=SHOP_FILE.replace("from: -2.00", "from: minus two"))]
    assert codes == ["not-a-power"]
    codes = [code for code, _ in found(shop=SHOP_FILE.replace("{from: -2.00, to: +2.00}", "-2.00 to +2.00"))]
    assert codes == ["wrong-shape"]


def test_a_family_that_cannot_be_read_says_nothing_about_the_diameter():
    text = FRAME_FILE.replace("family: panto", "family: pantos").replace("ed: 50.5", "ed: 90")
    assert found(frames__pellbridge=text) == [("not-a-choice", 5)]


def test_rows_may_stand_in_any_order_and_come_back_in_order_of_power():
    lines = LENS_FILE.splitlines(keepends=True)
    one = next(i for i, line in enumerate(lines) if "lens: 24.00" in line)
    lines[one], lines[one + 1] = lines[one + 1], lines[one]
    with shop(lenses__hallstrand="".join(lines)) as folder:
        catalog, findings = checked(folder)
    assert findings == []
    assert [band.low for band in catalog.packages["plain-150"].prices] == [-6, 2.25]


def test_a_row_inside_another_is_an_overlap_and_hides_no_later_one():
    rows = "      - {from: -6.00, to: +4.00, lens: 24.00}\n      - {from: -5.00, to: -4.00, lens: 1.00}\n"
    rows += "      - {from: -3.00, to: -2.00, lens: 2.00}\n"
    old = LENS_FILE[LENS_FILE.index("      - {from: -6.00, to: +2.00, lens") : LENS_FILE.index("  - id: long-150")]
    assert [code for code, _ in found(lenses__hallstrand=LENS_FILE.replace(old, rows))] == ["overlap", "overlap"]


def test_ranges_may_overlap_and_must_all_be_priced():
    more = "      - {from: -8.00, to: 0.00, cylinder: 2.00, diameter: 65}\n    curves:"
    codes = [code for code, _ in found(lenses__hallstrand=LENS_FILE.replace("    curves:", more, 1))]
    assert codes == ["not-covered"] * 3  # curves, centers and prices end at -6.00


def test_warnings_alone_leave_a_catalog():
    text = PRICE_FILE.replace("from: 2026-09-01, until: 2026-12-31", "until: 2026-03-31")
    with shop(**{PRICES: text}) as folder:
        catalog, findings = checked(folder)
    assert [(finding.code, finding.severity) for finding in findings] == [("discount-over", "warning")]
    assert catalog is not None


def test_a_price_list_holds_from_its_day_on():
    with shop() as folder:
        catalog, _ = checked(folder)
    assert on_day(catalog, date(2026, 9, 1)) == on_day(catalog, date(2030, 1, 1)) == []
    (finding,) = on_day(catalog, date(2026, 8, 31))
    assert (finding.code, finding.severity) == ("list-not-yet", "warning")
    assert finding.mark.text == "effective: 2026-09-01"
    assert "2026-09-01" in finding.message
    assert "2026-08-31" in finding.message
    assert "keep the list before it in prices/ too" in finding.hint


def test_a_list_that_holds_later_is_no_finding_while_the_one_before_it_is_kept():
    earlier = PRICE_FILE.replace("2026-09-01", "2026-01-01").replace("version: 2026-09", "version: 2026-01")
    with shop(prices__earlier=earlier) as folder:
        catalog, _ = load(folder, date(2026, 8, 31))
    assert catalog.price_list.version == "2026-01"
    assert on_day(catalog, date(2026, 8, 31)) == []


def test_a_bifocal_needs_its_segment_and_an_anti_fatigue_its_boost():
    for kind, missing in (("bifocal", "segment_width"), ("anti-fatigue", "boost")):
        text = LENS_FILE.replace("kind: progressive", f"kind: {kind}")
        with shop(lenses__hallstrand=text) as folder:
            findings = checked(folder)[1]
        assert [missing in finding.message for finding in findings if finding.code == "missing"] == [True]


def test_an_addition_is_needed_where_the_design_is_made_to_one():
    text = LENS_FILE.replace(", add: {from: 0.75, to: 3.50}", "")
    assert [code for code, _ in found(lenses__hallstrand=text)] == ["missing"]


def test_a_finished_lens_needs_its_centers():
    start, end = LENS_FILE.index("    centers:"), LENS_FILE.index("    prices:")
    assert [code for code, _ in found(lenses__hallstrand=LENS_FILE[:start] + LENS_FILE[end:])] == ["missing"]


def test_unknown_fields_are_told_in_every_record():
    for name, text in TEXT.items():
        opened = text.count("{")
        for place in range(opened):
            parts = text.split("{")
            changed = "{".join(parts[: place + 1]) + "{zyx: 1, " + "{".join(parts[place + 1 :])
            codes = [code for code, _ in found(**{name.removesuffix(".yaml").replace("/", "__"): changed})]
            by_id = parts[place].endswith("tarn: ")  # what stands in these braces are colorways
            assert codes == ["unknown-id" if by_id else "unknown-key"], (name, place)


def test_two_readings_of_one_folder_are_equal():
    with shop(frames__skerrowick=FRAME_FILE, lenses__hallstrand=LENS_FILE.replace("abbe: 58", "abbe: x")) as folder:
        assert load(folder) == load(folder)


def test_links_inside_the_folder_are_followed_and_others_are_not(tmp_path):
    with shop() as folder:
        (folder / "spare.yaml").write_text(FRAME_FILE.replace("id: tarn", "id: beck"), encoding="utf-8")
        (folder / "frames" / "beck.yaml").symlink_to(folder / "spare.yaml")
        assert set(checked(folder)[0].frames) == {"tarn", "beck"}
        outside = tmp_path / "outside.yaml"
        outside.write_text(FRAME_FILE, encoding="utf-8")
        (folder / "frames" / "out.yaml").symlink_to(outside)
        catalog, findings = checked(folder)
        assert catalog is None
        assert [finding.code for finding in findings] == ["outside-folder"]


def test_hidden_files_of_editors_are_left_alone():
    with shop(**{"frames__.#pellbridge": b"\xff"}) as folder:
        assert checked(folder)[1] == []


def test_a_folder_that_is_not_there_or_no_folder_is_one_finding(tmp_path):
    assert [finding.code for finding in load(tmp_path / "nowhere")[1]] == ["no-such-folder"]
    (tmp_path / "shop").write_text("", encoding="utf-8")
    assert [finding.code for finding in load(tmp_path / "shop")[1]] == ["not-a-folder"]


def test_an_empty_folder_is_told_what_belongs_in_it(tmp_path):
    assert [finding.code for finding in load(tmp_path)[1]] == ["no-such-folder"] * 3 + ["no-such-file"]


def emptied(name):
    """The file that has this list, and its text once the list is empty."""
    for file, text in TEXT.items():
        changed, times = re.subn(rf"(?m)^( *){name}:\n(?:\1(?: +|- ).*\n)+", rf"\1{name}: []\n", text, count=1)
        if times:
            return file.removesuffix(".yaml").replace("/", "__"), changed
    raise AssertionError(name)


@pytest.mark.parametrize(
    "name", ["frames", "sizes", "colorways", "ranges", "centers", "prices", "bands", "cautions", "regions"]
)
def test_a_list_that_must_hold_something_may_not_be_empty(name):
    file, text = emptied(name)
    with shop(**{file: text}) as folder:
        (finding,) = checked(folder)[1]
    assert finding.code == "empty-value"
    assert finding.mark.text.strip() == f"{name}: []"


@pytest.mark.parametrize("name", ["curves", "surcharges", "discounts"])
def test_a_list_that_may_be_left_out_may_be_empty(name):
    file, text = emptied(name)
    assert found(**{file: text}) == []


def test_a_shop_without_any_lens_package_is_told_so():
    for text in ("maker: Hallstrand\n", emptied("packages")[1]):
        with shop(**{LENSES: text}) as folder:
            (finding,) = checked(folder)[1]
        assert finding.code == "nothing-there"
        assert finding.mark.file.endswith("/lenses")
    assert [code for code, _ in found(**{LENSES: "maker: Hallstrand\npakages: []\n"})] == ["unknown-key"]
    assert found(**{LENSES: "maker: Other\n", "lenses__more": LENS_FILE}) == []


@pytest.mark.parametrize(
    ("kind", "written", "code", "said"),
    [
        ("progressive", "near_below: 14", None, ""),
        ("progressive", "near_below: 1.4", "out-of-range", "near_below"),
        ("progressive", "segment_depth: 19", "does-not-belong", "bifocal designs"),
        ("bifocal", "segment_width: 28, segment_depth: 19", None, ""),
        ("bifocal", "segment_width: 28, segment_depth: 28.5", "out-of-range", "segment_depth"),
        ("bifocal", "segment_width: 28, segment_depth: 13.5", "out-of-range", "segment_depth"),
        ("bifocal", "segment_width: 28, near_below: 14", "does-not-belong", "progressive designs"),
    ],
)
def test_where_a_design_is_read_through_may_be_stated(kind, written, code, said):
    """A segment is at least half as deep as wide, or it never is as wide as it says; kernel/segment has why."""
    text = LENS_FILE.replace("kind: progressive", f"kind: {kind}, {written}")
    with shop(lenses__hallstrand=text) as folder:
        _, findings = checked(folder)
    assert [(one.code, said in one.message) for one in findings if one.code in ("out-of-range", "does-not-belong")] == (
        [(code, True)] if code else []
    )
