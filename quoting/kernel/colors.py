"""The color of a spectrum under daylight D65: CIE XYZ, CIE L*a*b*, and sRGB for the screen.

Sums over 380 to 780 nm in steps of 5 nm with the CIE 1931 2° observer; Y is 100 for what passes everything, which is
also the white that L*a*b* starts from.  No adaptation: the picture is that of a viewer in daylight.
Sources: ISO/CIE 11664-3 (XYZ) and -4 (L*a*b*); IEC 61966-2-1 (sRGB: matrix, curve).
A color that no screen shows keeps its lightness and hue and gives up chroma until it can be shown.
"""
# SPDX-License-Identifier: AGPL-3.0-or-later

from __future__ import annotations

from quoting.kernel.elementary import exp, ln
from quoting.kernel.observer import D65, VISIBLE, VISIBLE_COUNT, X_BAR, Y_BAR, Z_BAR
from quoting.kernel.spectrum import flat

# ISO/CIE 11664-4: below (6/29)³ the cube root gives way to a straight line
EPSILON = 216.0 / 24389.0
KAPPA = 24389.0 / 27.0
# How far beyond 0 and 1 a screen's primaries may lie and still be shown: the matrix has four digits
SLACK = 0.0001
HALVINGS = 24


def xyz(spectrum: list[float]) -> list[float]:
    """CIE X, Y, Z of a transmittance or reflectance under D65.   Raises IndexError where the spectrum is short.

    >>> xyz(flat(1.0))[1]
    100.0
    """
    x = 0.0
    y = 0.0
    z = 0.0
    whole = 0.0
    for i in range(VISIBLE_COUNT):
        light = D65[i] * spectrum[VISIBLE + i]
        x += light * X_BAR[i]
        y += light * Y_BAR[i]
        z += light * Z_BAR[i]
        whole += D65[i] * Y_BAR[i]
    return [100.0 * x / whole, 100.0 * y / whole, 100.0 * z / whole]


def white() -> list[float]:
    """X, Y, Z of what passes everything."""
    return xyz(flat(1.0))


def cube_root(x: float) -> float:
    """Of a number above zero; a step of Newton's takes off what the logarithm left.   Raises ValueError otherwise.

    >>> cube_root(27.0)
    3.0
    """
    root = exp(ln(x) / 3.0)
    return root - (root * root * root - x) / (3.0 * root * root)


def lightened(share: float) -> float:
    """The f of L*a*b*."""
    if share > EPSILON:
        return cube_root(share)
    return (KAPPA * share + 16.0) / 116.0


def darkened(value: float) -> float:
    """The inverse of ``lightened``."""
    cube = value * value * value
    if cube > EPSILON:
        return cube
    return (116.0 * value - 16.0) / KAPPA


def lab(color: list[float]) -> list[float]:
    """CIE L*, a*, b* of X, Y, Z.

    >>> lab(white())
    [100.0, 0.0, 0.0]
    """
    full = white()
    x = lightened(color[0] / full[0])
    y = lightened(color[1] / full[1])
    z = lightened(color[2] / full[2])
    return [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]


def from_lab(color: list[float]) -> list[float]:
    """X, Y, Z of CIE L*, a*, b*."""
    full = white()
    y = (color[0] + 16.0) / 116.0
    x = darkened(y + color[1] / 500.0)
    z = darkened(y - color[2] / 200.0)
    return [full[0] * x, full[1] * darkened(y), full[2] * z]


def linear(color: list[float]) -> list[float]:
    """Linear sRGB of X, Y, Z, which may lie beyond 0 and 1; by the matrix of IEC 61966-2-1."""
    x = color[0] / 100.0
    y = color[1] / 100.0
    z = color[2] / 100.0
    return [
        3.2406 * x - 1.5372 * y - 0.4986 * z,
        1.8758 * y - 0.9689 * x + 0.0415 * z,
        0.0557 * x - 0.204 * y + 1.057 * z,
    ]


def encoded(value: float) -> float:
    """One channel for the screen, cut to 0 to 1."""
    if value <= 0.0:
        return 0.0
    if value >= 1.0:
        return 1.0
    if value <= 0.0031308:
        return 12.92 * value
    return 1.055 * exp(ln(value) / 2.4) - 0.055


def decoded(value: float) -> float:
    """One channel of the screen, 0 to 1, as linear light."""
    if value <= 0.04045:
        return value / 12.92
    return exp(2.4 * ln((value + 0.055) / 1.055))


def from_srgb(color: list[float]) -> list[float]:
    """X, Y, Z of sRGB, each channel from 0 to 1; by the matrix of IEC 61966-2-1."""
    r = 100.0 * decoded(color[0])
    g = 100.0 * decoded(color[1])
    b = 100.0 * decoded(color[2])
    return [
        0.4124 * r + 0.3576 * g + 0.1805 * b,
        0.2126 * r + 0.7152 * g + 0.0722 * b,
        0.0193 * r + 0.1192 * g + 0.9505 * b,
    ]


def is_shown(light: list[float]) -> bool:
    """Whether a screen has this linear sRGB."""
    shown = True
    for value in light:
        if value < 0.0 - SLACK or value > 1.0 + SLACK:
            shown = False
    return shown


def srgb(color: list[float]) -> list[float]:
    """sRGB of X, Y, Z, each channel from 0 to 1; lightness and hue stay, chroma is given up where it must be.

    >>> [round(channel, 3) for channel in srgb(white())]
    [1.0, 1.0, 1.0]
    """
    light = linear(color)
    if not is_shown(light):
        seen = lab(color)
        kept = 0.0
        lost = 1.0
        for _ in range(HALVINGS):
            share = (kept + lost) / 2.0
            tried = linear(from_lab([seen[0], share * seen[1], share * seen[2]]))
            if is_shown(tried):
                kept = share
            else:
                lost = share
        light = linear(from_lab([seen[0], kept * seen[1], kept * seen[2]]))
    return [encoded(light[0]), encoded(light[1]), encoded(light[2])]
