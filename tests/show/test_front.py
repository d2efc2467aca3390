"""Fronts are true to scale, whatever holds the lenses, and stand without a style sheet."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.catalog.model import FAMILIES, MOUNTINGS
from quoting.places import shared
from quoting.show.front import front_svg
from quoting.tables import outline_of

DEMO, _ = load(shared("demo_catalog"))
CORNER, _ = load(Path(__file__).parents[1] / "shops" / "corner")
SIZES = [(frame, size) for shop in (DEMO, CORNER) for frame in shop.frames.values() for size in frame.sizes]
COLORS = [(frame, size, colorway) for frame, size in SIZES for colorway in frame.colorways]
HOSTILE = "\"><script>alert(1)</script> & 'x'"


def named(value):
    return getattr(value, "key", None) or getattr(value, "id", None)


every_size = pytest.mark.parametrize(("frame", "size"), SIZES, ids=named)


def rim_of(frame):
    return DEMO.shop.mountings[frame.mounting].rim


def drawn(frame, size, colorway=None, title="Front", **more):
    return front_svg(frame, size, colorway or frame.colorways[0], rim_of(frame), title, **more)


def parsed(svg):
    """The elements of a drawing, their names without a name space."""
    root = ET.fromstring(svg)
    for element in root.iter():
        element.tag = element.tag.rpartition("}")[2]
    return root


def classes(element):
    return element.get("class", "").split()


def of_class(root, name):
    return [element for element in root.iter() if name in classes(element)]


def subpaths(data):
    """The corners of each part of path data made of straight lines."""
    parts, x, y, at = [], 0.0, 0.0, 0
    tokens = re.findall(r"[a-zA-Z]|-?(?:\d+\.?\d*|\.\d+)", data)
    command = ""
    while at < len(tokens):
        if tokens[at].isalpha():
            command = tokens[at]
            at += 1
            if command in "zZ":
                x, y = parts[-1][0]
                continue
        assert command in "MlLHhVv", f"not a straight line: {command}"
        if command in "Hh":
            x, at = float(tokens[at]) + (x if command == "h" else 0), at + 1
        elif command in "Vv":
            y, at = float(tokens[at]) + (y if command == "v" else 0), at + 1
        else:
            dx, dy = float(tokens[at]), float(tokens[at + 1])
            x, y, at = (x + dx, y + dy, at + 2) if command == "l" else (dx, dy, at + 2)
        if command == "M":
            parts.append([])
            command = "L"
        parts[-1].append((x, y))
    return parts


def lenses(root):
    """The two outlines of glass, that at the observer's left first."""
    found = [part for element in of_class(root, "glass") for part in subpaths(element.get("d"))]
    assert len(found) == 2
    return sorted(found, key=lambda part: min(x for x, _ in part))


def box(points):
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), max(xs), min(ys), max(ys)


@every_size
def test_boxes_measure_a_and_b_and_stand_dbl_apart(frame, size):
    right, left = (box(points) for points in lenses(parsed(drawn(frame, size))))
    for one in (right, left):
        assert one[1] - one[0] == pytest.approx(size.a, abs=0.02)
        assert one[3] - one[2] == pytest.approx(size.b, abs=0.02)
    assert left[0] - right[1] == pytest.approx(size.dbl, abs=0.02)
    assert right[1] == pytest.approx(-left[0], abs=0.001)


@every_size
def test_the_longest_radius_of_each_lens_is_half_of_ed(frame, size):
    for points in lenses(parsed(drawn(frame, size))):
        low_x, high_x, low_y, high_y = box(points)
        x, y = (low_x + high_x) / 2, (low_y + high_y) / 2
        assert max(((px - x) ** 2 + (py - y) ** 2) ** 0.5 for px, py in points) == pytest.approx(size.ed / 2, abs=0.02)


@every_size
def test_the_circle_of_ed_lies_around_a_box_center(frame, size):
    circles = [one for one in parsed(drawn(frame, size)).iter("circle") if "ed" in classes(one)]
    assert [float(one.get("r")) for one in circles] == [pytest.approx(size.ed / 2, abs=0.005)]
    assert abs(float(circles[0].get("cx"))) == pytest.approx((size.a + size.dbl) / 2, abs=0.005)
    assert float(circles[0].get("cy", 0)) == 0


@every_size
def test_each_dimension_is_written_once(frame, size):
    said = sorted("".join(text.itertext()) for text in parsed(drawn(frame, size)).iter("text"))
    assert said == ["50 mm", f"A {size.a:g}", f"B {size.b:g}", f"DBL {size.dbl:g}", f"ED {size.ed:g}"]


@every_size
def test_nothing_leaves_the_window(frame, size):
    for dimensions in (True, False):
        root = parsed(drawn(frame, size, dimensions=dimensions))
        left, top, width, height = (float(part) for part in root.get("viewBox").split())
        points = [p for path in root.iter("path") for part in subpaths(path.get("d")) for p in part]
        for one in root.iter("circle"):
            x, y, r = (float(one.get(name, 0)) for name in ("cx", "cy", "r"))
            points += [(x - r, y - r), (x + r, y + r)]
        found = box(points)
        assert left <= found[0]
        assert found[1] <= left + width
        assert top <= found[2]
        assert found[3] <= top + height


@every_size
def test_the_right_lens_is_at_the_observers_left_with_its_nasal_side_inward(frame, size):
    """Its mirror image is the left one; a pilot's or panto's lowest point tells nose from temple."""
    right, left = lenses(parsed(drawn(frame, size)))
    assert sorted((round(-x, 2), round(y, 2)) for x, y in left) == sorted((round(x, 2), round(y, 2)) for x, y in right)
    if frame.family in ("pilot", "cat-eye"):
        deepest = max(right, key=lambda point: point[1])[0]
        outward = deepest < -(size.a + size.dbl) / 2
        assert outward == (frame.family == "pilot")


@pytest.mark.parametrize(("frame", "size", "colorway"), COLORS, ids=named)
def test_every_colorway_draws_small_and_well_formed_in_its_own_colors(frame, size, colorway):
    for dimensions in (True, False):
        svg = drawn(frame, size, colorway, dimensions=dimensions)
        assert len(svg.encode()) < (9000 if dimensions else 7000)
        assert "style" not in svg
        root = parsed(svg)
        colors = {e.get(name) for e in root.iter() for name in ("fill", "stroke")} - {None, "none", "currentColor"}
        assert colors == {colorway.front, colorway.temples}
        assert all(("sun" in classes(one)) == colorway.sun for one in of_class(root, "glass"))
        assert not [one for one in root.iter() if one.get("id")]


def test_without_dimensions_there_are_no_words():
    for frame, size in SIZES:
        root = parsed(drawn(frame, size, dimensions=False))
        assert not list(root.iter("text"))
        assert not of_class(root, "dimension")


def test_a_title_is_text_whatever_stands_in_it():
    frame, size = SIZES[0]
    svg = drawn(frame, size, title=HOSTILE)
    root = parsed(svg)
    assert "<script" not in svg
    assert (root.get("role"), root.get("aria-label")) == ("img", HOSTILE)


def inherited(root, name):
    """Each drawn element with what it has of a presentation attribute, its own or that of what it stands in."""

    def walk(element, above):
        value = element.get(name, above)
        yield element, value
        for child in element:
            yield from walk(child, value)

    return walk(root, None)


def filled_by_accident(root):
    """What a page without a style sheet would fill with black: anything open, and words have no outline."""
    fills, strokes = dict(inherited(root, "fill")), dict(inherited(root, "stroke"))
    black = [one for one, fill in fills.items() if one.tag not in ("svg", "title") and fill is None]
    open_lines = [one for one in root.iter("path") if not re.search("[zZ]$", one.get("d")) and fills[one] != "none"]
    outlined = [one for one in root.iter("text") if strokes[one] != "none" or fills[one] != "currentColor"]
    return [ET.tostring(one) for one in (*black, *open_lines, *outlined)]


@pytest.mark.parametrize("mounting", MOUNTINGS)
@pytest.mark.parametrize("family", FAMILIES)
def test_every_family_in_every_mounting_stands_without_a_style_sheet(family, mounting):
    frame = replace(SIZES[0][0], family=family, mounting=mounting)
    size = replace(SIZES[0][1], a=50.0, b=38.0, dbl=18.0, ed=53.0 if family != "round" else 50.5, temple=140.0)
    root = parsed(drawn(frame, size))
    assert not filled_by_accident(root)
    right, left = (box(points) for points in lenses(root))
    assert left[0] - right[1] == pytest.approx(18.0, abs=0.02)


@pytest.mark.parametrize("mounting", MOUNTINGS)
def test_what_a_mounting_paints_is_told_by_its_colors(mounting):
    """Rim, bridge and endpieces in the color of the front, temples in their own."""
    frame = replace(SIZES[0][0], mounting=mounting)
    colorway = replace(frame.colorways[0], front="#123456", temples="#654321")
    root = parsed(drawn(frame, SIZES[0][1], colorway))
    painted = {element.get(name) for element in root.iter() for name in ("fill", "stroke")}
    assert {"#123456", "#654321"} <= painted


def test_the_same_front_is_the_same_text():
    for frame, size in SIZES:
        assert drawn(frame, size) == drawn(frame, size)


def test_a_wider_rim_is_drawn_wider():
    """The rim of plastic and metal fronts is what the shop says, to a quarter, measured below the middle of a lens."""
    for frame, size in SIZES:
        if not frame.mounting.startswith("full-rim"):
            continue
        thin, thick = (front_svg(frame, size, frame.colorways[0], rim, "Front", dimensions=False) for rim in (1.5, 4.0))
        assert lowest(thick, frame) - lowest(thin, frame) == pytest.approx(2.5, rel=0.3)


def lowest(svg, frame):
    """The lowest point that is painted in the color of the front."""
    found = []
    for one in parsed(svg).iter("path"):
        color, width = frame.colorways[0].front, 0.0
        if one.get("stroke") == color:
            width = float(one.get("stroke-width")) / 2
        elif one.get("fill") != color:
            continue
        found += [y + width for part in subpaths(one.get("d")) for _, y in part]
    return max(found)


def away(point, corners):
    """Distance of a point from a closed line."""

    def off(a, b):
        dx, dy = b[0] - a[0], b[1] - a[1]
        along = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / (dx * dx + dy * dy)
        along = min(max(along, 0.0), 1.0)
        return ((a[0] + along * dx - point[0]) ** 2 + (a[1] + along * dy - point[1]) ** 2) ** 0.5

    return min(off(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True))


@every_size
def test_the_line_drawn_stays_within_a_twentieth_of_a_millimeter_of_the_outline(frame, size):
    xs, ys = outline_of(size.a, size.b, size.ed, frame.family)
    center = (size.a + size.dbl) / 2
    right, _ = lenses(parsed(drawn(frame, size)))
    assert max(away((x - center, -y), right) for x, y in zip(xs, ys, strict=True)) < 0.05


# The em box: letters of ordinary typefaces rise and fall within about one em and a quarter of it
RISE, FALL = 1.0, 0.25
STYLE = (Path(__file__).parents[2] / "theme/static/css/drawing.css").read_text(encoding="utf-8")
LETTERS = [float(size) for size in re.findall(r"\.measured \.size \{ font-size: ([0-9.]+)px", STYLE)]


@every_size
def test_labels_stay_in_the_window_at_the_size_they_have_on_a_narrow_screen(frame, size):
    (letter,) = LETTERS
    root = parsed(drawn(frame, size))
    left, top, width, height = (float(part) for part in root.get("viewBox").split())
    for label in root.iter("text"):
        x, y = float(label.get("x")), float(label.get("y"))
        if label.get("transform"):  # read from the right: it rises to the left
            assert left <= x - RISE * letter
            assert x + FALL * letter <= left + width
        else:
            assert top <= y - RISE * letter
            assert y + FALL * letter <= top + height
