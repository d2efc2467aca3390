"""The picture of a frame beside what Chromium makes of the drawing with the site's own style sheet."""

import io

import pytest
from PIL import Image, ImageChops, ImageStat

from quoting.catalog.load import load
from quoting.places import shared
from quoting.show import card
from quoting.show.lens_paint import paint_of

CSS = shared("theme") / "static" / "css"


@pytest.mark.parametrize(
    ("name", "mix"),
    [
        *((one, "") for one in ("cottering", "garrowe", "keldrow", "ossgill", "aldmere")),
        *(("garrowe", "dusk"), ("keldrow", "deep-sea"), ("ossgill", "kelp")),
    ],
)
def test_chromium_draws_the_same(browser, name, mix):
    catalog = load(shared("demo_catalog"))[0]
    frame = catalog.frames[name]
    color, rim = frame.colorways[-1], catalog.shop.mountings[frame.mounting].rim
    stops = paint_of(catalog, catalog.packages["plain-150-hard"], catalog.tints.mixes[mix]) if mix else ()
    svg = card.drawn(frame, frame.sizes[0], color, rim, stops)
    style = "".join((CSS / name).read_text("utf-8") for name in ("tokens.css", "drawing.css", "front.css"))
    wide = float(svg.split('viewBox="')[1].split()[2])
    high = float(svg.split('viewBox="')[1].split()[3].split('"')[0])
    scale = min(card.WIDTH * card.FILLED / wide, card.HEIGHT * card.FILLED / high)
    place = f"position: absolute; width: {wide * scale}px; height: {high * scale}px"
    middle = f"left: {(card.WIDTH - wide * scale) / 2}px; top: {(card.HEIGHT - high * scale) / 2}px"
    context = browser.new_context(viewport={"width": card.WIDTH, "height": card.HEIGHT}, color_scheme="light")
    page = context.new_page()
    body = svg.replace("<svg", f'<svg class="front" style="{place}; {middle}; background: none"', 1)
    page.set_content(f"<style>{style} body {{ margin: 0; background: white }}</style>{body}")
    theirs = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    context.close()
    ours = Image.open(io.BytesIO(card.card(svg))).convert("RGB")
    apart = ImageChops.difference(ours, theirs).convert("L")
    assert ImageStat.Stat(apart).mean[0] < 2.5
    # Beside fine lines and the squares, which the page's drawing has not, nothing differs much
    strong = apart.point(lambda value: 255 if value > 60 else 0)
    assert ImageStat.Stat(strong).mean[0] / 255 < 0.012
