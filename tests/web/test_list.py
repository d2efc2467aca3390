"""The list of frames tells what a size comes to that was asked for, in a color that is to be had.

What it says is held to the engine's own answers in Python, for served pages (a worker) and for pages from disk.
"""

import re
import shutil
from datetime import date
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.offers import Ask, Choice, Offers
from quoting.prescription.model import EyeRx, Prescription
from quoting.show.amounts import mm
from quoting.site.build import build
from tests.web.answered import becomes, within
from tests.web.conftest import Quiet

pytestmark = pytest.mark.browser

DAY = date(2026, 2, 1)
CORNER = Path(__file__).parents[1] / "shops" / "corner"
FRAMES = """maker: constructor
frames:
  - id: broom
    name: Broom
    family: panto
    mounting: full-rim-plastic
    material: acetate
    curve: 4.0
    wrap: 5
    tilt: 8
    sizes:
      - {a: 44, b: 36, dbl: 20, ed: 47, temple: 140, weight: 18}
      - {a: 48, b: 40, dbl: 20, ed: 51, temple: 140, weight: 20}
      - {a: 52, b: 44, dbl: 21, ed: 55, temple: 145, weight: 22}
    colorways:
      - {id: ash, name: Ash, version: optical, price: 61.00, front: "#46525c", temples: "#39434b", stock: sold-out}
      - {id: oak, name: Oak, version: optical, price: 142.00, front: "#46525c", temples: "#39434b", stock: in-stock}
      - {id: elm, name: Elm, version: optical, price: 142.00, front: "#46525c", temples: "#39434b", stock: to-order}
"""
ASK = Ask(Prescription(EyeRx(-3.0), EyeRx(-2.5), source="test"))
RX = "od=-3&os=-2.5"
LEAST = {
    "price": lambda one: one.bill["total_cents"],
    "thinnest": lambda one: max(max(one.fit[eye]["edge_max"], one.fit[eye]["center"]) for eye in ("right", "left")),
}


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    folder = tmp_path_factory.mktemp("list")
    shutil.copytree(CORNER, folder / "shop")
    (folder / "shop" / "frames" / "more.yaml").write_text(FRAMES, encoding="utf-8")
    lenses = folder / "shop" / "lenses" / "pennock.yaml"
    lenses.write_text(lenses.read_text(encoding="utf-8").replace("id: thin-160", "id: constructor"), encoding="utf-8")
    assert errors(build(folder / "shop", folder / "site", DAY).findings) == []
    return folder


@pytest.fixture(scope="module")
def offers(shop):
    return Offers(load(shop / "shop", DAY)[0], DAY)


@pytest.fixture(scope="module", params=["served", "from disk"])
def top(request, shop):
    if request.param == "from disk":
        yield (shop / "site").as_uri()
        return
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(shop))) as server:
        thread = Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}/site"
        server.shutdown()
        thread.join()


def told(page):
    """Of each frame in its order: its id, and what stands in its card for the prescription."""
    return page.locator("#ranking [data-frame]").evaluate_all(
        "all => all.map((one) => [one.dataset.frame, one.querySelector('.suits')?.textContent ?? ''])"
    )


def best(offers, need, sizes):
    """The best of these sizes of a frame with three: its label, thickness and total in the cheapest color to be had."""
    frame = offers.catalog.frames["broom"]
    color = next(one for one in frame.colorways if one.id == "oak")
    found = [
        (offer.fit["verdict"] != "fits", LEAST[need](offer), size.label, LEAST["thinnest"](offer), total)
        for size in frame.sizes
        if size.key in sizes
        for package in offers.catalog.packages.values()
        if package.design.kind == "single-vision"
        for offer in [offers.offer(Choice(frame, size, color, package), ASK)]
        if offer.fit["verdict"] != "no" and offer.bill["priced"]
        for total in [offer.bill["total_cents"]]
    ]
    return min(found)[2:]


@pytest.mark.parametrize("need", ["price", "thinnest"])
@pytest.mark.parametrize(
    ("like", "sizes"),
    [
        ({}, ["44-20", "48-20", "52-21"]),
        ({"a": "51"}, ["52-21"]),
        ({"a": "47", "dbl": "20"}, ["48-20"]),
        ({"b": "38"}, ["48-20", "52-21"]),
    ],
)
def test_what_is_told_of_a_frame_is_of_a_size_that_was_asked_for(opened, top, offers, need, like, sizes):
    page = opened(f"{top}/frames/index.html#{RX}&need={need}")
    for name, value in like.items():
        page.locator(f"#find-{name}").fill(value)
    label, edge, cents = best(offers, need, sizes)
    amount = f"{cents / 100:.2f}"

    def said():
        return dict(told(page)).get("broom", "")

    within(lambda: f"in {label}: {mm(edge)} mm" in said(), page)
    assert said().replace(",", "").rstrip(".").endswith(amount), said()
    assert opened.wrong == []


def test_a_link_keeps_what_was_asked_for_and_what_it_told(opened, top):
    page = opened(f"{top}/frames/index.html#{RX}&need=thinnest")
    page.locator("#find-a").fill("51")
    within(lambda: "52□21" in dict(told(page)).get("broom", "") and "a=51" in page.url, page)
    before = told(page)
    again = opened(page.url)
    becomes(lambda: told(again), before)


def test_frames_go_by_the_colors_that_are_to_be_had(opened, top):
    page = opened(f"{top}/frames/index.html")
    expect(page.locator("[data-frame=broom] .price")).to_have_text(re.compile(r"^\W*142\.00 without lenses$"))
    page.locator("#find-most").fill("100")
    expect(page.locator("#find-status")).to_contain_text("0 of 3")
    page.locator("#find-most").fill("142")
    expect(page.locator("#find-status")).to_contain_text("2 of 3")


def test_counts_beside_choices_hold_for_any_name(opened, top):
    page = opened(f"{top}/frames/index.html")
    expect(page.locator("#find-maker option", has_text="constructor")).to_have_text("constructor (1)")
    page.locator("#find-family").select_option("oval")
    expect(page.locator("#find-maker option", has_text="constructor")).to_have_text("constructor (0)")


def test_a_lens_whose_id_means_something_to_scripts_is_drawn(opened, top):
    page = opened(f"{top}/frames/broom/index.html#{RX}&size=48-20&lens=constructor")
    page.locator(".sitting-front").wait_for()
    expect(page.locator(".sitting-front .segment")).to_have_count(0)
    assert opened.wrong == []


def test_who_asks_for_progressives_without_an_addition_is_told_what_is_missing(opened, top):
    page = opened(f"{top}/frames/index.html#{RX}&kind=progressive")
    said = "0 of 3 frames take such a lens for your prescription. This lens needs a reading addition"
    expect(page.locator("#find-status")).to_contain_text(said)
    page.locator("#rx-right-add").fill("+2.00")
    expect(page.locator("#find-status")).to_contain_text("Left eye: this lens needs a reading addition")
    page.locator("#rx-left-add").fill("+2.00")
    expect(page.locator("#find-status")).to_contain_text("take")
    expect(page.locator("#find-status")).not_to_contain_text("addition")
