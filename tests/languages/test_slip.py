"""What a page writes of a prescription in any language, the reader of slips understands: people copy it into a mail."""

import pytest

from quoting.findings import errors
from quoting.languages import _, languages, speaking, tongue
from quoting.prescription.model import Distances, EyeRx
from quoting.prescription.text import read_slip
from quoting.show.amounts import eye
from quoting.show.page_words import PAGE
from quoting.show.text import pd_text

EYES = [
    (EyeRx(-2.25, -0.75, 10, add=2.0, prism_in=-0.5), EyeRx(-2.5, add=2.0, prism_up=1.25)),
    (EyeRx(0.0, -0.5, 180, prism_in=2.0, prism_up=-1.0), EyeRx(1.125)),
]
LOCALES = [("en_US", "en"), *((locale, name) for name in languages()[1:] for locale in ("es_ES", "es_MX"))]


@pytest.mark.parametrize("pd", [Distances(63), Distances(None, 31.5, 32)], ids=str)
@pytest.mark.parametrize(("right", "left"), EYES)
@pytest.mark.parametrize(("locale", "language"), LOCALES)
def test_a_prescription_is_read_back_from_its_own_words(locale, language, right, left, pd):
    with speaking(tongue(locale, language)):
        words = [_(PAGE[name]) for name in ("short-right", "short-left")]
        text = f"{words[0]} {eye(right)} / {words[1]} {eye(left)} / {pd_text(pd)}"
    reading = read_slip(text)
    assert errors(reading.findings) == [], text
    assert (reading.prescription.right, reading.prescription.left, reading.prescription.pd) == (right, left, pd)


@pytest.mark.parametrize("name", languages())
def test_the_example_beside_the_box_for_slips_is_one(name):
    said = 'The slip as it is written, for example <span class="figure">OD %(right)s / OS %(left)s DS / PD 63</span>'
    with speaking(tongue("en_US", name)):
        text = _(said) % {"right": "−2.25 −0.75 × 090", "left": "−2.50"}
    reading = read_slip(text.partition('"figure">')[2].removesuffix("</span>"))
    assert reading.prescription.right == EyeRx(-2.25, -0.75, 90)
    assert reading.prescription.left == EyeRx(-2.5)
    assert reading.prescription.pd == Distances(63)
