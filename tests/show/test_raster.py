"""Pictures of dots against Pillow's reading of PNG and against areas by shapely."""

import io

import pytest
from PIL import Image
from shapely.geometry import LineString, Polygon

from quoting.offers import Choice
from quoting.show.issued import frame_record
from quoting.show.pictured import front_of, picture_of
from quoting.show.raster import png
from quoting.show.shapes import path_lines, shapes
from tests.quoted.quotes import offers

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10">{}</svg>'


def batched(raw):
    """Dots of three bytes."""
    return zip(raw[::3], raw[1::3], raw[2::3], strict=True)


def picture(body, width=200):
    image = Image.open(io.BytesIO(png(SVG.format(body), width)))
    image.load()
    return image


def dark(image):
    """How much of the picture is black, in units of the drawing."""
    scale = 20 / image.width
    return sum(255 - dot for dot in image.convert("L").tobytes()) / 255 * scale * scale


def test_it_is_a_png_of_that_width():
    image = picture('<rect x="0" y="0" width="5" height="5" fill="#ff0000"/>')
    assert (image.format, image.mode, image.size) == ("PNG", "RGB", (200, 100))
    assert image.getpixel((10, 10)) == (255, 0, 0)
    assert image.getpixel((150, 50)) == (255, 255, 255)


SQUARE = "M2 2l6 0l0 6l-6 0z"
AREAS = {
    "a triangle": ('<path d="M1 1L13 2.3L4.7 9.1z" fill="black"/>', Polygon([(1, 1), (13, 2.3), (4.7, 9.1)]).area),
    "a circle": ('<circle cx="5" cy="5" r="4" fill="black"/>', 3.1326 * 16),  # as many sides as it is drawn with
    "a hole": (f'<path d="{SQUARE}M3 3l4 0l0 4l-4 0z" fill="black" fill-rule="evenodd"/>', 36 - 16),
    "no hole": (f'<path d="{SQUARE}M3 3l4 0l0 4l-4 0z" fill="black"/>', 36),
    "two squares over each other": ('<path d="M2 2l4 0l0 4l-4 0zM4 4l4 0l0 4l-4 0z" fill="black"/>', 16 + 16 - 4),
    "half seen": (f'<path d="{SQUARE}" fill="black" fill-opacity="0.5"/>', 18),
    "outside": ('<rect x="-5" y="-5" width="10" height="10" fill="black"/>', 25),
    "beyond the right": ('<rect x="15" y="5" width="50" height="50" fill="black"/>', 25),
    "moved": (f'<g transform="translate(3 1)"><path d="{SQUARE}" fill="black"/></g>', 36),
    "scaled": (f'<g transform="scale(0.5)"><path d="{SQUARE}" fill="black"/></g>', 9),
    "turned about its middle": (f'<path d="{SQUARE}" transform="rotate(45 5 5)" fill="black"/>', 36),
}


@pytest.mark.parametrize("name", AREAS)
def test_areas_are_those_of_geometry(name):
    body, area = AREAS[name]
    assert dark(picture(body)) == pytest.approx(area, rel=0.01)


RAMP = '<linearGradient id="r" x1="0" y1="0" x2="0" y2="1">{}</linearGradient>'
STOP = '<stop offset="{}" stop-color="#000000" stop-opacity="{}"/>'


@pytest.mark.parametrize(
    ("stops", "share"),
    [([(0, 1), (1, 0)], 1 / 2), ([(0, 0.8), (0.5, 0.8), (1, 0)], 0.8 * 3 / 4), ([(0.25, 0), (0.75, 1)], 1 / 2)],
)
def test_a_gradient_is_as_dark_as_the_mean_of_its_stops(stops, share):
    ramp = RAMP.format("".join(STOP.format(*one) for one in stops))
    image = picture(f'{ramp}<path d="{SQUARE}" fill="url(#r)"/>')
    assert dark(image) == pytest.approx(36 * share, rel=0.02)
    down = [image.getpixel((50, y))[0] for y in range(22, 78)]
    assert down in (sorted(down), sorted(down, reverse=True))


def test_a_gradient_goes_over_all_that_is_filled_with_it_and_leaves_holes():
    ramp = RAMP.format(STOP.format(0, 0.5))
    body = f'{ramp}<path d="{SQUARE}M3 3l4 0l0 4l-4 0z" fill="url(#r)" fill-rule="evenodd"/>'
    assert dark(picture(body)) == pytest.approx(20 / 2, rel=0.02)


def test_a_line_has_its_width_and_round_joints():
    body = '<path d="M2 5L10 5L10 8" fill="none" stroke="black" stroke-width="1"/>'
    wanted = LineString([(2, 5), (10, 5), (10, 8)]).buffer(0.5, cap_style="flat", join_style="round").area
    assert dark(picture(body, 400)) == pytest.approx(wanted, rel=0.01)


def test_path_data_of_all_kinds():
    assert path_lines("m1 1l1 0 0 1zM5 5C5 6 6 6 6 5")[0] == ([(1, 1), (2, 1), (2, 2)], True)
    (curve, closed) = path_lines("M5 5C5 6 6 6 6 5")[0]
    assert (curve[0], curve[-1], closed) == ((5, 5), (6, 5), False)
    with pytest.raises(ValueError, match="no path that a picture can show: A"):
        path_lines("M0 0A1 1 0 0 0 2 2")


@pytest.mark.parametrize(
    "body",
    [
        '<text x="1">a</text>',
        '<path d="M0 0h1" fill="black"/>',
        '<rect width="1" height="1" fill="url(#a)"/>',
        '<rect width="1" height="1" fill="red"/>',
        '<linearGradient id="a" x1="0" y1="0" x2="1" y2="0"><stop stop-color="#ffffff"/></linearGradient>',
        '<linearGradient id="a" x1="0" y1="0" x2="0" y2="1"/>',
        '<g transform="skewX(3)"><rect width="1" height="1" fill="black"/></g>',
    ],
)
def test_what_is_not_known_is_refused_and_not_left_out(body):
    with pytest.raises(ValueError, match="picture"):
        shapes(SVG.format(body))


def test_every_frame_of_the_shop_has_its_picture():
    catalog = offers().catalog
    package = next(iter(catalog.packages.values()))
    seen = set()
    for frame in catalog.frames.values():
        if (frame.family, frame.mounting) in seen:
            continue
        seen.add((frame.family, frame.mounting))
        record = frame_record(Choice(frame, frame.sizes[0], frame.colorways[-1], package))
        assert front_of(record, catalog.shop).startswith("<svg")
        image = Image.open(io.BytesIO(picture_of(record, catalog.shop)))
        image.load()
        assert image.width == 640
        front = tuple(int(record["front"][at : at + 2], 16) for at in (0, 2, 4))
        dots = set(batched(image.tobytes()))
        assert any(max(abs(a - b) for a, b in zip(dot, front, strict=True)) < 3 for dot in dots)


def test_a_shape_that_nobody_knows_has_no_picture():
    frame = next(iter(offers().catalog.frames.values()))
    package = next(iter(offers().catalog.packages.values()))
    record = frame_record(Choice(frame, frame.sizes[0], frame.colorways[0], package))
    assert picture_of({**record, "family": "heart"}, offers().catalog.shop) == b""
    assert picture_of({**record, "mounting": "glued"}, offers().catalog.shop) == b""
