"""What a drawn lens is painted with: a color and an opacity at each height, right over a white and over a black ground.

Over white the paint gives exactly the color of the lens on white; over black, that of what the lens itself reflects, in
the channel that passes least exactly and in the others as near as one opacity for three channels allows.
Source: the alpha of Porter and Duff, "Compositing Digital Images", 1984, from the same thing over two grounds.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.coated import looked_at
from quoting.kernel.colors import srgb, xyz
from quoting.kernel.records import Glass, Tint
from quoting.kernel.spectrum import flat
from quoting.kernel.tinting import dye_layers

# What covers less than half of one of 256 steps cannot be seen
UNSEEN = 1.0 / 512.0


def film(on_white: list[float], on_black: list[float]) -> list[float]:
    """Red, green, blue and opacity, each from 0 to 1, of what has these colors (sRGB) over white and over black.

    Raises IndexError where a color has fewer than three channels.

    >>> film([0.5, 0.25, 0.25], [0.0, 0.0, 0.0])
    [0.3333333333333333, 0.0, 0.0, 0.75]
    >>> film([1.0, 1.0, 1.0], [0.0, 0.0, 0.0])
    [1.0, 1.0, 1.0, 0.0]
    """
    through = 1.0
    for i in range(3):
        share = on_white[i] - on_black[i]
        if share < through:
            through = share
    if through < 0.0:
        through = 0.0
    opacity = 1.0 - through
    if opacity < UNSEEN:
        return [1.0, 1.0, 1.0, 0.0]
    made: list[float] = []
    for i in range(3):
        made.append((on_white[i] - through) / opacity)
    made.append(opacity)
    return made


def lens_paint(glass: Glass, tint: Tint, heights: list[float]) -> list[list[float]]:
    """The paint of a tinted lens at each of these heights, shares of the box from its top to its lowest point.

    >>> from quoting.kernel.filters import no_tint
    >>> pane = {"internal": flat(1.0), "front": flat(0.0), "back": flat(0.0)}
    >>> lens_paint(pane, no_tint(), [0.5])
    [[1.0, 1.0, 1.0, 0.0]]
    """
    made: list[list[float]] = []
    for layer in dye_layers(tint, heights):
        on_white = srgb(xyz(looked_at(glass, layer, flat(1.0))))
        on_black = srgb(xyz(looked_at(glass, layer, flat(0.0))))
        made.append(film(on_white, on_black))
    return made
