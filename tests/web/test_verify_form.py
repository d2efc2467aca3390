"""The form of a verification judges as the command does, saves what the command reads, and asks nobody for anything."""

import json
import random

import pytest

from quoting.kernel.verified import NOT_READ
from quoting.orders.readings import read_saved, readings
from quoting.orders.verifying import Read, verified
from quoting.show.clauses import clause, numbers, what
from quoting.site.verify_page import verify_page
from tests.orders.shops import book, ordered, quoted, shop_in
from tests.site.valid import faults
from tests.web.test_access import found_on, free  # noqa: F401
from tests.web.test_ways import fits_a_phone, large  # noqa: F401

pytestmark = pytest.mark.browser
ROWS = "() => [...document.querySelectorAll('#checks tr')].map(row => [...row.children].map(cell => cell.textContent))"
FILL = """typed => {
  const form = document.getElementById("form");
  for (const input of form.querySelectorAll("input")) input.value = typed[input.name] ?? "";
  if (typed.standard) form.elements.standard.value = typed.standard;
  form.dispatchEvent(new Event("input", { bubbles: true }));
}"""
NAMES = {
    "add": "add",
    "in": "prism_in",
    "up": "prism_up",
    "pd": "pd",
    "height": "height",
    "center": "center",
    "base": "base",
}


@pytest.fixture(scope="module")
def order(tmp_path_factory):
    shop = shop_in(tmp_path_factory.mktemp("verify"))
    return book(shop).read(ordered(shop, number=quoted(shop, "--tint", "50")))


@pytest.fixture
def file(order, tmp_path):
    path = tmp_path / "verify.html"
    path.write_text(verify_page(order, None), encoding="utf-8")
    return path


def drawn(seeded):
    """What somebody may have read off a pair, more or less as ordered."""
    typed, found = {}, {}
    for name, sphere, cylinder, axis in (("R", -6.25, -1.25, 10), ("L", -5.75, 0.0, 180)):
        values = [
            sphere + seeded.gauss(0, 0.1),
            cylinder + seeded.gauss(0, 0.08),
            (axis + seeded.randint(-3, 3)) % 180 or 180,
        ]
        typed |= {
            f"{name}-sphere": f"{values[0]:.2f}",
            f"{name}-cylinder": f"{values[1]:.2f}",
            f"{name}-axis": str(values[2]),
        }
        words = f"{values[0]:+.2f} {values[1]:+.2f} x {values[2]}"
        for short, field in NAMES.items():
            if short == "add" or seeded.random() < 0.4:
                continue
            usual = {"in": 0.0, "up": 0.0, "pd": 31.7, "height": 16.0, "center": 1.6, "base": 4.0}[short]
            text = f"{usual + seeded.gauss(0, 0.4):.2f}"
            typed[f"{name}-{field}"] = text
            words += f" {short}={text}"
        found[name] = readings(words, name)
    return typed, found


@pytest.mark.parametrize("standard", ["ansi", "iso"])
def test_the_form_judges_as_the_command_does(opened, file, order, standard):
    page, seeded = opened(file.as_uri()), random.Random(standard)
    for _ in range(25):
        typed, found = drawn(seeded)
        through = seeded.choice([None, 44.0, 50.0, 56.0])
        page.evaluate(FILL, typed | {"standard": standard} | ({} if through is None else {"tint": str(through)}))
        one = verified(order, Read(found, through, {}), "2026-12-01", "", standard)
        wanted = [[what(c), c["verdict"], *numbers(c), clause(c, standard)] for c in one.checks]
        assert page.evaluate(ROWS) == wanted
        assert page.locator("#verdict").get_attribute("class") == one.result
    assert opened.wrong == []
    assert opened.asked == [file.as_uri()]


def test_what_was_not_read_is_not_yet_a_pass(opened, file):
    page = opened(file.as_uri())
    page.evaluate(FILL, {"L-sphere": "-5.75"})
    assert page.locator("#verdict").get_attribute("class") == "part"
    assert page.locator("#verdict").text_content().endswith("Still to be read: R sphere.")
    page.evaluate(FILL, {"L-sphere": "-5.75", "R-sphere": "-6.25", "R-cylinder": "-1.25"})
    assert page.locator("#fault").text_content() == "R cylinder: a cylinder needs its sphere and its axis"
    assert page.locator("#verdict").get_attribute("class") == "part"
    assert opened.wrong == []


def test_one_lens_alone_is_held_as_by_the_command(opened, tmp_path):
    shop = shop_in(tmp_path)
    order = book(shop).read(ordered(shop, number=quoted(shop, rx="OD -4.25 -1.25 x 010 prism 2 in / PD 63")))
    file = tmp_path / "verify.html"
    file.write_text(verify_page(order, None), encoding="utf-8")
    page = opened(file.as_uri())
    typed = {"R-sphere": "-4.25", "R-cylinder": "-1.25", "R-axis": "10"}
    for more, words in (({"R-prism_in": "0", "R-height": "19"}, "in=0 height=19"), ({"R-pd": "35"}, "pd=35")):
        page.evaluate(FILL, typed | more)
        one = verified(order, Read({"R": readings(f"-4.25 -1.25 x 10 {words}", "R")}, None, {}), "2026-12-01", "")
        assert page.evaluate(ROWS) == [[what(c), c["verdict"], *numbers(c), clause(c, "ansi")] for c in one.checks]
        assert page.locator("#verdict").get_attribute("class") == one.result == "fail"


def test_what_is_saved_is_what_the_command_reads(opened, file, order, tmp_path):
    page = opened(file.as_uri())
    page.evaluate(
        FILL,
        {"R-sphere": "-6,25", "R-cylinder": "−1.25", "R-axis": "10", "R-pd": "31.5", "by": "K", "L-sphere": "-5.75"},
    )
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save the readings").click()
    target = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(target)
    assert target.name == f"verify-{order.id}.json"
    saved = read_saved(target.read_bytes(), order.id)
    assert (saved.by, saved.standard, saved.transmittance) == ("K", "ansi", None)
    assert saved.found["R"]["sphere"] == -6.25
    assert saved.found["R"]["pd"] == 31.5
    assert saved.found["L"]["pd"] == NOT_READ
    assert json.loads(target.read_text(encoding="utf-8"))["order"] == order.id


def test_what_is_no_number_is_said_and_not_saved(opened, file):
    page = opened(file.as_uri())
    page.locator("#R-pd").fill("wide")
    said = "“wide” is not a number from 15 to 50"
    assert page.locator("#fault").text_content() == f"R from the middle of the bridge: {said}"
    assert page.locator("#R-pd-fault").text_content() == said
    assert page.locator("#R-pd").get_attribute("aria-invalid") == "true"
    page.locator("#R-axis").fill("12.5")
    assert "R axis: “12.5” is not a whole number of degrees" in page.locator("#fault").text_content()
    page.locator("#by").focus()
    page.get_by_role("button", name="Save the readings").click()
    assert page.locator("#fault").text_content().startswith("Not saved. R axis: ")
    assert page.evaluate("document.activeElement.id") == "R-axis"
    page.locator("#R-axis").fill("0")
    page.locator("#R-pd").fill("")
    page.get_by_role("button", name="Save the readings").click()
    assert page.locator("#fault").is_hidden()


def test_what_the_lab_ground_is_held_instead_and_saved(opened, file, order, tmp_path):
    page = opened(file.as_uri())
    typed = {"R-sphere": "-6.05", "R-cylinder": "-1.10", "R-axis": "12", "L-sphere": "-5.75"}
    ground = {"ground-R-sphere": "-6.02", "ground-R-cylinder": "-1.12", "ground-R-axis": "11"}
    page.evaluate(FILL, typed)
    assert page.locator("#verdict").get_attribute("class") == "fail"
    page.evaluate(FILL, typed | ground)
    assert page.locator("#verdict").get_attribute("class") == "pass"
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save the readings").click()
    waiting.value.save_as(tmp_path / "saved.json")
    saved = read_saved((tmp_path / "saved.json").read_bytes(), order.id)
    assert saved.compensated == {"R": readings("-6.02 -1.12 x 11", "R")}
    one = verified(order, Read(saved.found, None, saved.compensated), "2026-12-01", "", "ansi")
    assert page.evaluate(ROWS) == [[what(c), c["verdict"], *numbers(c), clause(c, "ansi")] for c in one.checks]
    page.evaluate(FILL, ground)
    page.get_by_role("button", name="Save the readings").click()
    assert page.locator("#fault").text_content() == "Not saved. Nothing was read yet."


def test_all_of_it_goes_by_keyboard(opened, file):
    page = opened(file.as_uri())
    page.locator("#by").focus()
    for name, words in (("R", ("-6.25", "-1.25", "10")), ("L", ("-5.75", "", ""))):
        while page.evaluate("document.activeElement.id") != f"{name}-sphere":
            page.keyboard.press("Tab")
        for text in words:
            page.keyboard.type(text)
            page.keyboard.press("Tab")
    assert page.locator("#verdict").get_attribute("class") == "pass"
    for _ in range(20):
        if page.evaluate("document.activeElement.id") == "save":
            break
        page.keyboard.press("Tab")
    with page.expect_download():
        page.keyboard.press("Enter")


@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing(free, file, width):  # noqa: F811
    page = free(width).new_page()
    page.goto(file.as_uri())
    page.evaluate(FILL, {"R-sphere": "-6.25", "L-sphere": "-5"})
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert found_on(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_it_is_valid_html(file):
    assert faults(file.parent) == []


def test_text_may_be_twice_as_large_on_a_phone(large, file):  # noqa: F811
    fits_a_phone(large, file)
