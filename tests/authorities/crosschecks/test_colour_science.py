"""Light and color against colour-science, a general color library, over 400 random filters.

Its CIE tables, its sums over a spectrum, its L*a*b*, sRGB and CIEDE2000.
"""

import random

import colour
import numpy as np
import pytest

from quoting.kernel import color_difference, colors, luminous, observer
from tests.kernel.parity import dyeing

SHAPE = colour.SpectralShape(380, 780, 5)
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(SHAPE)
EFFICIENCY = colour.SDS_LEFS["CIE 1924 Photopic Standard Observer"].copy().align(SHAPE)
DAYLIGHT = colour.SDS_ILLUMINANTS["D65"].copy().align(SHAPE)

# The tasks of the comparison: luminous transmittance, and color by CIEDE2000
CLOSE_TAU = 0.0005
CLOSE_COLOR = 0.1


def filters():
    return [dyeing.curve(random.Random(f"filter {n}")) for n in range(400)]


def theirs(passed):
    """X, Y, Z by colour-science."""
    filtered = colour.SpectralDistribution(passed[observer.VISIBLE :], SHAPE.wavelengths)
    return colour.sd_to_XYZ(filtered, cmfs=OBSERVER, illuminant=DAYLIGHT, method="Integration")


@pytest.mark.parametrize(
    ("ours", "tables"),
    [
        (observer.X_BAR, OBSERVER.values[:, 0]),
        (observer.Y_BAR, OBSERVER.values[:, 1]),
        (observer.Z_BAR, OBSERVER.values[:, 2]),
        (observer.Y_BAR, EFFICIENCY.values),
        (observer.D65, DAYLIGHT.values),
    ],
    ids=["x", "y", "z", "V", "D65"],
)
def test_tables_are_the_same(ours, tables):
    assert len(ours) == observer.VISIBLE_COUNT
    assert ours == pytest.approx(list(tables), rel=1e-9, abs=1e-12)


def test_luminous_transmittance():
    for passed in filters():
        weights = DAYLIGHT.values * EFFICIENCY.values
        wanted = float(np.sum(weights * passed[observer.VISIBLE :]) / np.sum(weights))
        assert abs(luminous.luminous(passed) - wanted) < CLOSE_TAU


def test_xyz_and_lab():
    for passed in filters():
        wanted = theirs(passed)
        assert colors.xyz(passed) == pytest.approx(list(wanted), abs=1e-9)
        ours = np.array(colors.lab(colors.xyz(passed)))
        assert colour.delta_E(colour.XYZ_to_Lab(wanted / 100), ours, method="CIE 2000") < CLOSE_COLOR


def test_srgb_where_a_screen_has_the_color():
    shown = 0
    for passed in filters():
        wanted = colour.XYZ_to_sRGB(theirs(passed) / 100)
        if wanted.min() >= 0 and wanted.max() <= 1:
            shown += 1
            assert colors.srgb(colors.xyz(passed)) == pytest.approx(list(wanted), abs=1e-9)
            assert colors.from_srgb(list(wanted)) == pytest.approx(list(theirs(passed)), abs=0.02)
    assert shown > 200


def test_what_a_screen_does_not_have_keeps_lightness_and_hue():
    tried = 0
    for passed in filters():
        color = colors.xyz(passed)
        wanted = colour.XYZ_to_sRGB(np.array(color) / 100)
        if wanted.min() < -0.002 or wanted.max() > 1.002:
            tried += 1
            full, seen = colors.lab(color), colors.lab(colors.from_srgb(colors.srgb(color)))
            assert seen[0] == pytest.approx(full[0], abs=0.2)
            chroma, was = np.hypot(seen[1], seen[2]), np.hypot(full[1], full[2])
            assert chroma < was
            if chroma > 5:
                turned = np.degrees(np.angle((seen[1] + 1j * seen[2]) / (full[1] + 1j * full[2])))
                assert abs(turned) < 2
    assert tried > 20


def test_color_differences():
    seeded = random.Random("pairs")
    for _ in range(1000):
        one, other = ([seeded.uniform(0, 100), seeded.uniform(-90, 90), seeded.uniform(-90, 90)] for _ in range(2))
        if seeded.random() < 0.5:
            other = [value + seeded.uniform(-2, 2) for value in one]
        wanted = float(colour.delta_E(np.array(one), np.array(other), method="CIE 2000"))
        assert color_difference.difference(one, other) == pytest.approx(wanted, abs=1e-9)
