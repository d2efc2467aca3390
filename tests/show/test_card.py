"""The picture of a frame: what Pillow reads from it, and whether it looks as the style sheets say."""

import io
import re
import sys
from pathlib import Path

import pytest
from PIL import Image

import quoting
from quoting.catalog.load import load
from quoting.places import shared
from quoting.show import card
from quoting.show.lens_paint import Stop
from quoting.show.shapes import color_of

CSS = shared("theme") / "static" / "css"


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"))[0]


def picture(catalog, frame, color, size=0):
    rim = catalog.shop.mountings[frame.mounting].rim
    raw = card.card(card.drawn(frame, frame.sizes[size], color, rim))
    image = Image.open(io.BytesIO(raw))
    image.load()
    return raw, image.convert("RGB")


def near(one, other, by=6):
    return max(abs(a - b) for a, b in zip(one, other, strict=True)) <= by


def test_each_shape_and_mounting_has_a_picture_of_the_size_that_is_said(catalog):
    seen = set()
    for frame in catalog.frames.values():
        color = frame.colorways[-1]
        if (frame.family, frame.mounting, color.sun) in seen:
            continue
        seen.add((frame.family, frame.mounting, color.sun))
        raw, image = picture(catalog, frame, color)
        assert image.size == (card.WIDTH, card.HEIGHT) == (1200, 630)
        assert len(raw) < 40_000
        dots = {dot for _, dot in image.getcolors(1 << 20)}
        assert any(near(dot, color_of(color.front)) for dot in dots)
        assert near(max(image.getcolors(1 << 20))[1], (255, 255, 255))
    assert {mounting for _, mounting, _ in seen} == set(catalog.shop.mountings)


def test_the_front_is_drawn_to_scale_in_the_middle(catalog):
    """How wide the glass is, how high, and how far its halves are apart: A, B and DBL, to a dot or two of the rim."""
    frame = catalog.frames["aldmere"]
    size, rim, color = frame.sizes[0], catalog.shop.mountings[frame.mounting].rim, frame.colorways[-1]
    assert color.sun
    _, image = picture(catalog, frame, color)
    wide = float(card.drawn(frame, size, color, rim).split('viewBox="')[1].split()[2])
    scale = card.WIDTH * card.FILLED / wide  # dots for each mm
    glass = (138, 134, 129)  # 85 percent of the sun lens, and of the white behind it the rest
    lens = 600 - (size.a + size.dbl) / 2 * scale, 315
    box = float(card.drawn(frame, size, color, rim).split('viewBox="')[1].split()[1])
    high = float(card.drawn(frame, size, color, rim).split('viewBox="')[1].split()[3].split('"')[0])
    level = round(315 - (box + high / 2) * scale)  # of the middle of the lens
    across = [x for x in range(image.width) if near(image.getpixel((x, level)), glass, 8)]
    down = [y for y in range(image.height) if near(image.getpixel((round(lens[0]), y)), glass, 8)]
    middle = min(range(len(across) - 1), key=lambda at: across[at] - across[at + 1])  # the widest gap: the bridge
    assert across[middle] - across[0] + 1 == pytest.approx((size.a - 0.3) * scale, abs=2)
    assert across[-1] - across[middle + 1] + 1 == pytest.approx((size.a - 0.3) * scale, abs=2)
    assert across[middle + 1] - across[middle] - 1 == pytest.approx((size.dbl + 0.3) * scale, abs=2)
    assert across[0] + across[-1] == pytest.approx(image.width - 1, abs=2)
    # A round lens is highest in its middle
    assert down[-1] - down[0] + 1 == pytest.approx((size.b - 0.3) * scale, abs=2)


def test_the_same_drawing_is_the_same_picture_and_another_colorway_another(catalog):
    frame = catalog.frames["cottering"]
    rim = catalog.shop.mountings[frame.mounting].rim
    first, again = (picture(catalog, frame, frame.colorways[0])[0] for _ in range(2))
    assert first == again
    assert picture(catalog, frame, frame.colorways[1])[0] != first
    names = {card.name_of(card.drawn(frame, size, color, rim)) for size in frame.sizes for color in frame.colorways}
    assert len(names) == len(frame.sizes) * len(frame.colorways)


def test_what_paints_a_picture_is_in_its_name(catalog):
    """All our files whose code runs between a drawing and its picture: else an old picture would be kept for good."""
    home, ran = Path(quoting.__path__[0]), set()
    stops = (Stop(0.0, "#446688", 0.4), Stop(1.0, "#446688", 0.1))

    def entered(frame, event, _):
        path = Path(frame.f_code.co_filename)
        if event == "call" and path.is_relative_to(home):
            ran.add(path.relative_to(home).as_posix())

    for frame in catalog.frames.values():
        rim = catalog.shop.mountings[frame.mounting].rim
        for paint in ((), stops):
            svg = card.drawn(frame, frame.sizes[0], frame.colorways[-1], rim, paint)
            sys.setprofile(entered)
            try:
                card.card(svg)
            finally:
                sys.setprofile(None)
    assert {"show/card.py", "pictures.py"} < ran
    assert ran <= set(card.PAINTERS)


def test_it_looks_as_the_style_sheets_say():
    light = (CSS / "tokens.css").read_text("utf-8").split("@media")[0]
    tokens = dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6});", light))
    assert (tokens["edge"], tokens["grid"]) == (card.EDGE, card.GRID)
    drawn = "".join((CSS / name).read_text("utf-8") for name in ("drawing.css", "front.css"))
    rules = dict(re.findall(r"^\.([\w.-]+) \{ ([^}]*) \}", drawn, re.MULTILINE))
    for name, look in card.LOOKS.items():
        rule = rules.get("glass.sun" if name == "sun" else name, "")
        said = {key.strip(): value.strip() for key, value in re.findall(r"([\w-]+):([^;]+);", rule)}
        said = {key: re.sub(r"var\(--(\w+)\)", lambda found: tokens[found[1]], value) for key, value in said.items()}
        for key, value in look.items():
            assert said[key] == value, (name, key)
