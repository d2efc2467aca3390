"""The drawn street: its reflectances by numpy and scipy, its colors by colour-science."""

import math

import colour
import numpy as np
import pytest
from scipy.special import expit

from quoting.kernel import colors, observer, scene, spectrum

SHAPE = colour.SpectralShape(380, 780, 5)
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(SHAPE)
DAYLIGHT = colour.SDS_ILLUMINANTS["D65"].copy().align(SHAPE)
NM = np.arange(280.0, 781.0, 5.0)
GRAY, WARM = spectrum.flat(0.4), [float(one) for one in expit((NM - 520.0) / 40.0)]


def reflectance(part):
    """[base, height of the bell, its center and width, height of the edge, its center and width], nm."""
    base, bell, center, wide, edge, middle, width = part
    return base + bell * np.exp(-(((NM - center) / wide) ** 2)) + edge * expit((NM - middle) / width)


@pytest.mark.parametrize("passed", [GRAY, WARM], ids=["gray", "warm"])
@pytest.mark.parametrize("part", scene.PARTS, ids=range(len(scene.PARTS)))
def test_each_part_has_the_color_of_its_reflectance(part, passed):
    seen = (reflectance(part) * passed)[observer.VISIBLE :]
    filtered = colour.SpectralDistribution(seen, SHAPE.wavelengths)
    wanted = colour.sd_to_XYZ(filtered, cmfs=OBSERVER, illuminant=DAYLIGHT, method="Integration")
    assert scene.part_color(part, passed) == pytest.approx(colors.srgb(list(wanted)), abs=1e-9)
    light = colour.XYZ_to_sRGB(wanted / 100)
    if light.min() >= 0 and light.max() <= 1:
        assert scene.part_color(part, passed) == pytest.approx(list(light), abs=1e-9)


@pytest.mark.parametrize("below", [-29.5, -3.0, -0.5, 0.0, 0.5, 2.0, 29.5])
def test_an_edge_is_the_logistic_curve(below):
    assert scene.edge(below) == pytest.approx(float(expit(-below)), abs=1e-12)


@pytest.mark.parametrize("off", [-2.0, -0.5, 0.0, 1.0, 3.0])
def test_a_bell_falls_to_one_in_e_at_its_width(off):
    assert scene.bell(off) == pytest.approx(math.exp(-off * off), abs=1e-12)
