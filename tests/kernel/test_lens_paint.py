"""The paint of a drawn lens over white and over black: composited by Pillow, it is the color that was worked out."""

import random

import pytest
from PIL import Image

from quoting.kernel.coated import looked_at
from quoting.kernel.colors import srgb, xyz
from quoting.kernel.filters import no_tint
from quoting.kernel.lens_paint import film, lens_paint
from quoting.kernel.spectrum import flat
from quoting.kernel.tinting import dye_layers
from tests.kernel.parity import dyeing


def over(paint, ground):
    """The paint on a ground, as Pillow lays one picture over another; channels from 0 to 255."""
    top = Image.new("RGBA", (1, 1), tuple(round(255 * one) for one in paint))
    return Image.alpha_composite(Image.new("RGBA", (1, 1), (*ground, 255)), top).getpixel((0, 0))[:3]


@pytest.fixture(params=range(60))
def seeded(request):
    return random.Random(f"paint {request.param}")


def test_over_white_it_is_the_color_of_the_lens_on_white(seeded):
    glass, tint = dyeing.glass(seeded), dyeing.tint(seeded)
    heights = [0.0, 0.4, 1.0]
    for paint, layer in zip(lens_paint(glass, tint, heights), dye_layers(tint, heights), strict=True):
        wanted = srgb(xyz(looked_at(glass, layer, flat(1.0))))
        assert over(paint, (255, 255, 255)) == pytest.approx([255 * one for one in wanted], abs=1.51)


def test_over_black_it_is_what_the_lens_reflects(seeded):
    """Exactly in the channel that passes least, and in none darker; no opacity makes a ground darken what lies on it.

    A color beyond what a screen shows gives up chroma, so on black a channel may be the lighter one.
    """
    glass, tint = dyeing.glass(seeded), dyeing.tint(seeded)
    (layer,) = dye_layers(tint, [0.5])
    (paint,) = lens_paint(glass, tint, [0.5])
    black = [255 * one for one in srgb(xyz(looked_at(glass, layer, flat(0.0))))]
    white = [255 * one for one in srgb(xyz(looked_at(glass, layer, flat(1.0))))]
    seen = over(paint, (0, 0, 0))
    least = min(range(3), key=lambda at: white[at] - black[at])
    lesser = [min(pair) for pair in zip(black, white, strict=True)]
    assert seen[least] == pytest.approx(lesser[least], abs=1.51)
    assert all(one >= other - 1.51 for one, other in zip(seen, lesser, strict=True))


def test_a_deeper_tint_is_never_lighter_on_white(seeded):
    glass, tint = dyeing.glass(seeded), dyeing.tint(seeded) | {"top": 10.0, "bottom": 10.0}
    asked = [lens_paint(glass, tint | {"top": dark}, [0.0])[0] for dark in (0.0, 30.0, 60.0, 95.0)]
    light = [sum(over(paint, (255, 255, 255))) for paint in asked]
    assert light == sorted(light, reverse=True)


def test_what_passes_all_has_no_paint():
    pane = {"internal": flat(1.0), "front": flat(0.0), "back": flat(0.0)}
    assert lens_paint(pane, no_tint(), [0.0, 1.0]) == [[1.0, 1.0, 1.0, 0.0]] * 2


def test_what_passes_nothing_covers_all():
    assert film([0.2, 0.3, 0.4], [0.2, 0.3, 0.4]) == [0.2, 0.3, 0.4, 1.0]
    assert film([0.2, 0.3, 0.4], [0.3, 0.3, 0.4]) == [0.2, 0.3, 0.4, 1.0]
