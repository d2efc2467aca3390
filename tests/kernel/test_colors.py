"""Colors against colour-science and the digits of IEC 61966-2-1, each step by itself."""

import math

import colour
import numpy as np
import pytest

from quoting.kernel import colors, observer, spectrum

SHAPE = colour.SpectralShape(380, 780, 5)
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(SHAPE)
DAYLIGHT = colour.SDS_ILLUMINANTS["D65"].copy().align(SHAPE)
SRGB = colour.RGB_COLOURSPACES["sRGB"]  # its matrices are those that the standard prints, with four digits
NANOMETERS = [280 + 5 * n for n in range(observer.COUNT)]
# Strong colors: a red, a green, a blue and a yellow edge, and two bands
STRONG = {
    "red": [float(nm > 610) for nm in NANOMETERS],
    "green": [float(500 < nm < 560) for nm in NANOMETERS],
    "blue": [float(nm < 480) for nm in NANOMETERS],
    "yellow": [float(nm > 515) for nm in NANOMETERS],
    "cyan": [float(460 < nm < 520) for nm in NANOMETERS],
    "purple": [float(nm < 450 or nm > 640) for nm in NANOMETERS],
}


@pytest.mark.parametrize("passed", STRONG.values(), ids=STRONG)
def test_color_of_a_spectrum(passed):
    filtered = colour.SpectralDistribution(passed[observer.VISIBLE :], SHAPE.wavelengths)
    wanted = colour.sd_to_XYZ(filtered, cmfs=OBSERVER, illuminant=DAYLIGHT, method="Integration")
    assert colors.xyz(passed) == pytest.approx(list(wanted), abs=1e-9)


def test_the_root_of_a_whole_cube_is_whole():
    """To the last bit, as two languages must agree on it."""
    assert [colors.cube_root(float(n**3)) for n in range(1, 60)] == list(range(1, 60))


@pytest.mark.parametrize("color", [[60.0, 20.0, -10.0], [35.0, -40.0, 25.0], [5.0, 2.0, -3.0], [1.0, 0.0, 0.5]])
def test_lab_and_back(color):
    assert colors.lab(colors.from_lab(color)) == pytest.approx(color, abs=1e-12)


def test_dark_colors_lie_on_the_straight_part():
    """ISO/CIE 11664-4: L* is 903.3 times the share of white (24389 / 27) up to L* of 8."""
    assert colors.from_lab([5.0, 0.0, 0.0])[1] == pytest.approx(100 * 5 * 27 / 24389)
    assert colors.lab(colors.from_lab([8.0, 0.0, 0.0]))[0] == pytest.approx(8.0)


@pytest.mark.parametrize("channel", range(3))
def test_matrices_are_those_of_the_standard(channel):
    unit = [float(n == channel) for n in range(3)]
    assert colors.linear([100 * one for one in unit]) == pytest.approx(list(SRGB.matrix_XYZ_to_RGB[:, channel]))
    wanted = [100 * one for one in SRGB.matrix_RGB_to_XYZ[:, channel]]
    assert colors.from_srgb(unit) == pytest.approx(wanted)


@pytest.mark.parametrize("color", [[0.2, 0.5, 0.9], [0.03, 0.04, 0.02], [0.9, 0.1, 0.5]])
def test_screen_to_light(color):
    wanted = colour.sRGB_to_XYZ(np.array(color)) * 100
    assert colors.from_srgb(color) == pytest.approx(list(wanted), abs=1e-9)
    assert colors.srgb(colors.from_srgb(color)) == pytest.approx(color, abs=0.002)  # the two matrices have four digits


@pytest.mark.parametrize("value", [0.0, 0.001, 0.003, 0.0032, 0.04, 0.05, 0.2, 0.7, 1.0])
def test_the_curve_of_the_screen(value):
    assert colors.encoded(value) == pytest.approx(float(colour.models.eotf_inverse_sRGB(value)), abs=1e-12)
    assert colors.decoded(value) == pytest.approx(float(colour.models.eotf_sRGB(value)), abs=1e-12)


def test_at_its_two_ends_the_straight_part_of_the_curve_holds():
    """IEC 61966-2-1: up to 0.0031308, and back up to 0.04045, the line of slope 12.92."""
    assert colors.encoded(0.0031308) == 12.92 * 0.0031308
    assert colors.decoded(0.04045) == 0.04045 / 12.92


@pytest.mark.parametrize(("value", "shown"), [(-0.2, 0.0), (-1e-9, 0.0), (1.0, 1.0), (1.2, 1.0), (1.9, 1.0)])
def test_beyond_the_screen_is_cut(value, shown):
    assert colors.encoded(value) == pytest.approx(shown, abs=1e-12)


@pytest.mark.parametrize("channel", range(3))
@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0.0, True), (0.5, True), (1.0, True), (-colors.SLACK, True), (1.0 + colors.SLACK, True),
        (-1.1 * colors.SLACK, False), (1.0 + 1.1 * colors.SLACK, False), (-0.5, False), (1.5, False),
    ],
)  # fmt: skip
def test_a_screen_shows_what_lies_between_black_and_full_in_each_channel(channel, value, shown):
    light = [0.5, 0.5, 0.5]
    light[channel] = value
    assert colors.is_shown(light) is shown


@pytest.mark.parametrize("passed", STRONG.values(), ids=STRONG)
def test_what_no_screen_shows_gives_up_as_much_chroma_as_it_must(passed):
    """Lightness and hue stay; with a hundredth more of its chroma it could not be shown."""
    color = colors.xyz(passed)
    assert not colors.is_shown(colors.linear(color))
    full, seen = colors.lab(color), colors.lab(colors.from_srgb(colors.srgb(color)))
    assert seen[0] == pytest.approx(full[0], abs=0.2)
    turned = math.degrees(math.atan2(seen[2], seen[1]) - math.atan2(full[2], full[1]))
    assert abs(turned) < 1.0
    assert 0.0 in colors.srgb(color) or 1.0 in colors.srgb(color)
    assert not colors.is_shown(colors.linear(colors.from_lab([full[0], 1.01 * seen[1], 1.01 * seen[2]])))


def test_what_a_screen_shows_stays():
    for share in (0.0, 0.18, 0.5, 1.0):
        wanted = float(colour.models.eotf_inverse_sRGB(share))
        assert colors.srgb(colors.xyz(spectrum.flat(share))) == pytest.approx([wanted] * 3, abs=0.0002)
