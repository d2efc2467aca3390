"""Which colorway stands for a frame: the first that can be had; and where all are sold out the first."""

import pytest

FILE = "frames/bolderwood.yaml"
GRAY, DUSK = 'temples: "#777777", stock: ', 'temples: "#554433", stock: '


@pytest.mark.parametrize(
    ("sold_out", "shown"), [((), "Gray"), ((GRAY,), "Dusk"), ((DUSK,), "Gray"), ((GRAY, DUSK), "Gray")]
)
def test_what_nobody_can_have_does_not_stand_for_a_frame(built, rewrite, sold_out, shown):
    for color in sold_out:
        rewrite(FILE, f"{color}to-order", f"{color}sold-out")
    pages = built()[1]
    card = pages["frames/index.html"].select_one("[data-frame=reed] svg")["aria-label"]
    for said in (card, pages["frames/reed/index.html"].select_one(".plate figcaption").text):
        assert f"in {shown}" in said
