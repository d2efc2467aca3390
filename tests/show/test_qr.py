"""The QR code of a link, read by another library (ZXing)."""

import re

import pytest
import zxingcpp
from PIL import Image

from quoting.quoted.armor import address
from quoting.quoted.sealing import sealed
from quoting.show.qr import qr_columns, qr_svg, qr_text
from tests.quoted.quotes import KEY, largest, ordinary, plain

RUN = re.compile(r"M(\d+) (\d+)h(\d+)v1h-(\d+)z")


def link_of(quote):
    return address("https://ottersea.example.org", sealed(quote(), KEY.id, KEY.sign))


def drawn(svg, scale=4):
    """The code as it looks where it is shown."""
    size = int(re.search(r'viewBox="0 0 (\d+) ', svg)[1])
    image = Image.new("L", (size * scale, size * scale), 255)
    for x, y, long, back in RUN.findall(svg):
        assert long == back
        image.paste(0, (int(x) * scale, int(y) * scale, (int(x) + int(long)) * scale, (int(y) + 1) * scale))
    return image


@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_the_code_reads_as_the_link(quote):
    link = link_of(quote)
    (found,) = zxingcpp.read_barcodes(drawn(qr_svg(link, "a link")))
    assert found.text == link
    assert found.format == zxingcpp.BarcodeFormat.QRCode


@pytest.mark.parametrize("quote", [plain, ordinary, largest])
def test_the_code_of_the_terminal_is_the_same(quote):
    """Each sign holds two modules, the upper and the lower; colors are the terminal's own, turned about where light."""
    link = link_of(quote)
    lines = [line for line in qr_text(link).splitlines() if "▄" in line or "▀" in line or "█" in line]
    bare = [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in lines]
    assert {len(line) for line in bare} == {qr_columns(link)}
    assert len(bare) == (qr_columns(link) + 1) // 2


def test_a_label_is_escaped():
    assert 'aria-label="&lt;b&gt; &quot;x&quot;"' in qr_svg("https://a.example/", '<b> "x"')
