"""The outline of a box that is found fast is that of the kernel, to the last bit."""

import random

import pytest

from quoting import outlines
from quoting.kernel import outline

FAMILIES = ("round", "oval", "panto", "rectangle", "square", "pilot", "cat-eye", "trapezoid")


def boxes(family, count):
    """Boxes with EDs from the least to the greatest that the family can have there, and just beyond."""
    seeded = random.Random(f"outlines {family}")
    for n in range(count):
        a, b = seeded.randrange(80, 130) / 2, seeded.randrange(50, 110) / 2
        least, greatest = outline.effective_diameter_limits(a, b, family)
        usual = round(least + (greatest - least) * seeded.random(), 1)
        yield a, b, (usual, usual, usual, least, greatest, least - 0.04, greatest + 0.04, usual + 1e-7)[n % 8]


@pytest.mark.parametrize("family", FAMILIES)
def test_the_exponent_is_the_same(family):
    for a, b, ed in boxes(family, 60):
        assert outlines.exponent_for(a, b, ed, family) == outline.exponent_for(a, b, ed, family), (a, b, ed)


def test_the_outline_is_the_same():
    xs, ys = outlines.from_box(52.5, 38.0, 57.1, "panto")
    assert [list(xs), list(ys)] == outline.from_box(52.5, 38.0, 57.1, "panto")


def test_the_kernel_is_asked_seldom(monkeypatch):
    asked, whole = [], outlines._is_longer
    monkeypatch.setattr(outlines, "_is_longer", lambda *box: asked.append(1) or whole(*box))
    for a, b in ((44.0, 32.0), (48.5, 38.0), (52.0, 41.5), (56.0, 44.0)):
        outlines.exponent_for(a, b, max(a, b) + 4.5, "panto")
    assert 0 < len(asked) < 4 * outlines.HALVINGS / 3
