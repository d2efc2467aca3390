"""The bench page gives the numbers of the command, by keyboard too, and asks nobody for anything."""

import random

import pytest

from quoting.calculators.model import UnfitError, shown
from quoting.calculators.table import CALCULATORS, TABLE
from quoting.site.bench_page import bench_page
from tests.site.valid import faults
from tests.web.test_access import found_on, free  # noqa: F401
from tests.web.test_ways import fits_a_phone, large  # noqa: F401

pytestmark = pytest.mark.browser
EACH = 25
READ = """name => {
  const section = document.getElementById(name);
  const fault = section.querySelector(".fault");
  return {
    fault: fault.hidden ? "" : fault.textContent,
    cells: [...section.querySelectorAll("td")].map(cell => cell.textContent),
    stale: section.querySelector("table").classList.contains("stale"),
    drawn: section.querySelector("svg").innerHTML,
  };
}"""
FILL = """([name, typed]) => {
  const form = document.querySelector(`#${name} form`);
  for (const [id, text] of Object.entries(typed)) form.elements[id].value = text;
  form.dispatchEvent(new Event("input", { bubbles: true }));
}"""


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "bench.html"
    path.write_text(bench_page(), encoding="utf-8")
    return path


def typed_at_random(one, seeded):
    """What somebody may type, within each field or now and then a little beyond."""
    typed = {}
    for field in one.fields:
        if field.words:
            typed[field.id] = seeded.choice(field.words)
        else:
            reach = (field.high - field.low) * 0.01 if seeded.random() < 0.05 else 0.0
            typed[field.id] = shown(field.kind, seeded.uniform(field.low - reach, field.high + reach))
    return typed


def asked(one, typed):
    """What the command tells, and what it says instead."""
    try:
        return one.told(one.answer(one.values(typed))), ""
    except UnfitError as fault:
        return None, str(fault)


@pytest.mark.parametrize("one", TABLE, ids=lambda one: one.name)
def test_the_page_shows_what_the_command_prints(opened, file, one):
    page, seeded = opened(file.as_uri()), random.Random(one.name)
    answered = 0
    for _ in range(EACH):
        typed = typed_at_random(one, seeded)
        page.evaluate(FILL, [one.name, typed])
        found = page.evaluate(READ, one.name)
        wanted, fault = asked(one, typed)
        assert fault in found["fault"]
        assert found["stale"] == (fault != "")
        if not fault:
            answered += 1
            assert (found["fault"], found["cells"]) == ("", wanted)
            assert "NaN" not in found["drawn"]
            assert len(found["drawn"]) > 100
    assert answered >= 5
    assert opened.wrong == []
    assert opened.asked == [file.as_uri()]


def test_what_cannot_be_read_is_said_and_the_old_result_is_struck_out(opened, file):
    page = opened(file.as_uri())
    page.get_by_label("new vertex distance").fill("twelve")
    found = page.evaluate(READ, "vertex")
    assert found["fault"] == "new vertex distance: 'twelve' is not a number such as 0.0"
    assert found["stale"]
    assert page.get_by_label("new vertex distance").get_attribute("aria-invalid") == "true"
    page.get_by_label("new vertex distance").fill("0")
    assert page.evaluate(READ, "vertex")["cells"][0] == "−8.93 D"


def test_arrow_keys_step_a_power_by_a_quarter(opened, file):
    page = opened(file.as_uri())
    sphere = page.locator("#transposition-sphere")
    sphere.focus()
    page.keyboard.press("ArrowDown")
    assert sphere.input_value() == "−2.50"
    assert page.evaluate(READ, "transposition")["cells"][0] == "−3.25 D"


def test_an_axis_turns_on_beyond_180_and_0_is_180(opened, file):
    page = opened(file.as_uri())
    axis = page.locator("#transposition-axis")
    axis.fill("180")
    cells = page.evaluate(READ, "transposition")["cells"]
    axis.fill("0")
    found = page.evaluate(READ, "transposition")
    assert (found["fault"], found["cells"], found["stale"]) == ("", cells, False)
    axis.press("ArrowDown")
    assert axis.input_value() == "179"
    axis.fill("180")
    axis.press("ArrowUp")
    assert axis.input_value() == "001"
    axis.fill("92.5")
    assert page.evaluate(READ, "transposition")["fault"] == "axis: 92.5 is not a whole number of degrees"


@pytest.mark.parametrize("width", [1280, 360])
def test_axe_finds_nothing_and_nothing_is_wider_than_the_screen(free, file, width):  # noqa: F811
    page = free(width).new_page()
    page.goto(file.as_uri())
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert found_on(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_without_script_each_example_stands_with_its_result(browser, file):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    for one in TABLE:
        cells = page.locator(f"#{one.name} td").all_text_contents()
        assert cells == one.told(one.answer(one.values({})))
    assert page.locator("noscript p.no").is_visible()
    context.close()


def test_it_is_valid_html(file):
    assert faults(file.parent) == []


def test_every_calculator_is_on_the_page(file):
    text = file.read_text(encoding="utf-8")
    assert all(f'id="{name}"' in text for name in CALCULATORS)


def test_text_may_be_twice_as_large_on_a_phone(large, file):  # noqa: F811
    fits_a_phone(large, file)
