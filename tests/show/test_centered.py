"""Both lenses of an order at life size: what stands where, measured in the drawing itself."""

import re
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from quoting.show.centered import centered_svg
from tests.orders.shops import book, ordered, quoted, shop_in


@pytest.fixture(scope="module")
def order(tmp_path_factory):
    shop = shop_in(tmp_path_factory.mktemp("centered"))
    rx = "OD -2.25 -0.75 x 170 add +2.00 / OS -1.50 -1.00 x 5 add +2.00 / PD 63"
    number = quoted(shop, package="path18-150-ar", rx=rx)
    measured = ("--pd", "31/32.5", "--height", "22/21.5", "--by", "J. Alder")
    return book(shop).read(ordered(shop, number=number, measured=measured))


def pluses(svg):
    """The middles of all crosses, mm right of and below the middle of the bridge at the height of the box center."""
    crosses = re.findall(r'<path d="M(\S+) (\S+)L(\S+) (\S+)M\S+ \S+L\S+ \S+" stroke-width=".4"', svg)
    return [((float(one[0]) + float(one[2])) / 2, float(one[1])) for one in crosses]


def test_crosses_stand_where_they_were_measured(order):
    assert order.lens.kind == "progressive"
    low = order.frame.b / 2
    assert pluses(centered_svg(order)) == [(-31.0, low - 22.0), (32.5, low - 21.5)]


def test_a_millimeter_is_a_millimeter(order):
    svg = BeautifulSoup(centered_svg(order), "html.parser").svg
    _, _, width, height = map(float, svg["viewbox"].split())
    assert (svg["width"], svg["height"]) == (f"{width:g}mm", f"{height:g}mm")
    boxes = [[float(box[name]) for name in ("x", "width", "height")] for box in svg.find_all("rect")]
    frame = order.frame
    half = frame.dbl / 2
    assert boxes == [[-half - frame.a, frame.a, frame.b], [half, frame.a, frame.b]]
    assert {text.string for text in svg.find_all("text")} == {"R", "L", "31", "32.5", "22", "21.5", "50 mm"}


def test_what_is_not_known_is_not_drawn(order):
    """An order of before knows no family; what is traced is a full line, what is estimated a broken one."""
    unknown = replace(order, frame=replace(order.frame, family=""))
    outlines = [
        centered_svg(order),
        centered_svg(unknown),
        centered_svg(order, ((20.0, 0.0, -20.0), (-10.0, 15.0, -10.0))),
    ]
    rims = [
        [path for path in BeautifulSoup(svg, "html.parser").find_all("path") if path["d"].endswith("z")]
        for svg in outlines
    ]
    assert [[path.get("stroke-dasharray") for path in one] for one in rims] == [["1.2 .8"] * 2, [], [None] * 2]


def test_one_lens_alone(order):
    assert len(pluses(centered_svg(replace(order, left=None)))) == 1


def test_single_vision_has_its_center_and_a_bifocal_its_line(order):
    low = order.frame.b / 2
    right = replace(order.right, reference=19.0)
    single = replace(order, right=right, left=None, lens=replace(order.lens, kind="single-vision"))
    assert pluses(centered_svg(single)) == [(-31.0, low - 19.0)]
    bifocal = centered_svg(replace(single, lens=replace(order.lens, kind="bifocal")))
    assert pluses(bifocal) == [(-31.0, low - 19.0)]
    across = f'd="M-45 {low - 22.0:g}L-17 {low - 22.0:g}"'.replace(" 0.", " .").replace("-0.", "-.")
    assert across in bifocal
