"""A frame that was traced: its page reckons with the trace, as the command does."""

import shutil
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main
from quoting.findings import errors
from quoting.offers import Ask, Choice, Offers
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.show.amounts import mm
from quoting.site.build import build
from tests.cli.test_tracing import CORNER, job_file
from tests.web.answered import answered
from tests.web.test_live import ROWS

pytestmark = pytest.mark.browser
DAY = date(2026, 6, 1)
RX = Prescription(EyeRx(-4.0, -1.0, 30), EyeRx(-3.5), Distances(right=31.0, left=32.0))


def test_the_board_of_a_traced_frame_is_that_of_the_command(browser, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    shop = Path(shutil.copytree(CORNER, tmp_path / "shop"))
    words = ["trace", "import", job_file(), "shop", "--frame", "alder", "--write"]
    assert CliRunner().invoke(main, words).exit_code == 0
    assert errors(build(shop, tmp_path / "www", DAY).findings) == []
    context = browser.new_context()
    page = context.new_page()
    page.clock.set_fixed_time(f"{DAY}T12:00:00")
    fragment = "#od=-4,-1,30&os=-3.5&pd=31,32"
    page.goto((tmp_path / "www/frames/alder/index.html").as_uri() + fragment)
    answered(page)
    rows = {row[0]: row for row in page.evaluate(ROWS, fragment)}
    catalog = load(shop, DAY)[0]
    frame = catalog.frames["alder"]
    offers = Offers(catalog, DAY)
    for package in catalog.packages.values():
        offer = offers.offer(Choice(frame, frame.sizes[0], frame.colorways[0], package), Ask(RX))
        if all(not lens["fault"] for lens in offer.lenses()):
            assert mm(offer.thickest) in rows[package.id][3], package.id
    told = page.locator("main").inner_text()
    assert "outline is estimated" not in told  # of the frame that was not traced it is said
    assert "Drawn from the trace of its lens" in told
    assert "is an estimate" not in page.locator("figure.plate figcaption").first.inner_text()
    assert "outline is estimated" in (tmp_path / "www/frames/reed/index.html").read_text(encoding="utf-8")
    context.close()
