"""The drawings of a chosen lens: where it sits over the front, and lines of equal thickness.

Places are held to the engine's own answer, to the printed digit; thicknesses to a torus and a conic solved by numpy,
which share no formula with the kernel (tests/kernel/traced_by_numpy).
"""

import math
import random
import re
from datetime import date
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest
from playwright.sync_api import expect

from quoting.catalog.load import load
from quoting.kernel import layout, power, segment
from quoting.kernel.lens import nasal
from quoting.kernel.thickness import grind, with_prism
from quoting.light.lens_worn import sun_lens
from quoting.offers import Ask, Choice, Measures, Offers
from quoting.places import shared
from quoting.prescription.model import Distances, EyeRx, Prescription
from quoting.show.amounts import mm
from quoting.show.front import front_svg
from quoting.show.lens_paint import paint_worn, painted
from quoting.tables import eye_table
from tests.kernel.traced_by_numpy import back_level, front_level
from tests.web.answered import within
from tests.web.test_live import fragment_of, random_ask

pytestmark = pytest.mark.browser

DAY = date(2026, 11, 25)
SIDES = ("right", "left")
# What the drawing says, by eye: circles and lines by class, and the words beside them
DRAWN = """() => Object.fromEntries([...document.querySelectorAll(".sitting .eye")].map(eye => [
  eye.classList.contains("right") ? "right" : "left",
  {
    circles: [...eye.querySelectorAll("circle")].map(c =>
      [c.getAttribute("class"), ...["cx", "cy", "r"].map(name => Number(c.getAttribute(name)))]),
    paths: [...eye.querySelectorAll("path")].map(p => [p.getAttribute("class"), p.getAttribute("d")]),
    words: [...eye.querySelectorAll("text")].map(t => t.textContent),
  }]))"""
TABLE = """() => [...document.querySelectorAll(".marks tbody tr")].map(row =>
  [...row.cells].map(cell => cell.innerText.replaceAll("\\n", " ").trim()))"""
LINES = """() => [...document.querySelectorAll(".maps svg.map")].map(svg => ({
  lines: [...svg.querySelectorAll(".map-line")].map(p => [Number(p.dataset.mm), p.getAttribute("d")]),
  strong: [...svg.querySelectorAll(".strong")].map(t => t.textContent),
  name: svg.getAttribute("aria-label"),
}))"""

SINGLE = ("cottering", "52-18", "bench-159-ar", "#od=-6.25,-1.25,10&os=-5.75&pd=31,32")
PROGRESSIVE = ("cottering", "54-18", "path18-153-ar", "#od=2.25,-0.75,100,2&os=3,-0.5,80,2&pd=63&h=19,20.5")
BIFOCAL = ("cottering", "52-18", "top28-150-ar", "#od=2.25,-0.75,100,2&os=3,-0.5,80,2&pd=61&h=20,19")
TOO_SMALL = ("padstrow", "58-17", "plain-150-ar", "#od=2.25,-0.75,100&os=3,-0.5,80&pd=29,28.5&h=16,17.5")
TOO_LOW = ("sparrick", "46-16", "path18-153-ar", "#od=2.25,0,180,2&os=3,0,180,2&pd=58&h=16,20")
PRISM = ("eskerby", "51-20", "bench-150-ar", "#od=-3,-2,35,0,2,1&os=-2,-1.5,120,0,-1.5,-0.5&pd=66&h=20,21")
ASPHERIC = ("moorvane", "54-19", "flat-160-ar", "#od=3.5&os=2,-1,90&pd=60")
CASES = [SINGLE, PROGRESSIVE, BIFOCAL, TOO_SMALL, TOO_LOW, PRISM, ASPHERIC]
every_case = pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[2]}-{case[0]}")


@pytest.fixture(scope="module")
def offers():
    catalog, _ = load(shared("demo_catalog"))
    return Offers(catalog, DAY)


@pytest.fixture
def chosen(browser, site):
    """A page of a frame with a lens chosen in it, its drawings there."""
    contexts = []

    def opened(case, width=1280, **settings):
        frame, size, package, fragment = case
        context = browser.new_context(viewport={"width": width, "height": 900}, **settings)
        contexts.append(context)
        page = context.new_page()
        page.wrong = []
        page.on("pageerror", lambda error: page.wrong.append(str(error)))
        page.on("console", lambda said: said.type in ("error", "warning") and page.wrong.append(said.text))
        page.goto((site / f"frames/{frame}/index.html").as_uri() + f"{fragment}&size={size}&lens={package}")
        page.locator(".marks").wait_for()
        return page

    yield opened
    for context in contexts:
        assert [error for page in context.pages for error in page.wrong] == []
        context.close()


def ask_of(fragment):
    """The same prescription for the engine itself."""
    told = dict(part.split("=") for part in fragment.removeprefix("#").split("&"))
    eyes = []
    for one in ("od", "os"):
        numbers = [float(number) for number in told[one].split(",")]
        eyes.append(EyeRx(*numbers[:2], *(int(axis) for axis in numbers[2:3]), *numbers[3:]))
    halves = [float(n) for n in told["pd"].split(",")]
    pd = Distances(*halves) if len(halves) == 1 else Distances(None, *halves)
    heights = [float(n) for n in told["h"].split(",")] if "h" in told else [None, None]
    return Ask(Prescription(*eyes, pd, source="test"), Measures(*heights))


def offered(offers, case):
    frame_id, size_key, package_id, fragment = case
    frame = offers.catalog.frames[frame_id]
    size = next(one for one in frame.sizes if one.key == size_key)
    ask, choice = ask_of(fragment), Choice(frame, size, frame.colorways[0], offers.catalog.packages[package_id])
    offer = offers.offer(choice, ask)
    return SimpleNamespace(choice=choice, fit=offer.fit, job=offers.job(choice, ask)[0]), ask


def numbers(data):
    return [float(one) for one in re.findall(r"-?\d+\.?\d*", data)]


def drawn_of(drawing, name):
    return [tuple(one[1:]) for one in drawing["circles"] if name in one[0].split()]


def near(*values):
    """To the hundredth of a millimeter that a drawing is written to, twice rounded where two of them add up."""
    return pytest.approx(values, abs=0.0105)


@every_case
def test_pupils_and_centers_stand_where_the_engine_sets_them(chosen, offers, case):
    offer, _ = offered(offers, case)
    drawing = chosen(case).evaluate(DRAWN)
    size, measures = offer.choice.size, offer.job["measures"]
    for side, turn in zip(SIDES, (-1, 1), strict=True):
        lens = offer.fit[side]
        middle = (size.a + size.dbl) / 2
        assert drawn_of(drawing[side], "pupil") == [
            near(turn * measures[f"pd_{side}"], size.b / 2 - measures[f"height_{side}"], 1.8)
        ]
        name = "reference" if offer.choice.package.design.kind == "progressive" else "center"
        ((u, v, _),) = drawn_of(drawing[side], name)
        assert (u, v) == near(turn * (middle - lens["decentration_in"]), -lens["decentration_up"])
        fitting = layout.fitting_height(offer.choice.package.design.kind, measures[f"height_{side}"])
        assert drawing[side]["words"][:2] == [mm(measures[f"pd_{side}"]), mm(fitting)]


def inset_of(offer, side, working):
    """Toward the nose for reading, as the kernel has it for this eye."""
    eye = nasal(offer.job[side], side == "left")
    inward = power.in_meridian(eye["sphere"], eye["cylinder"], eye["axis"], 180.0)
    return layout.near_inset(offer.job["measures"][f"pd_{side}"], working, inward)


def test_a_progressive_has_its_cross_corridor_and_near_circle_where_the_kernel_marks_them(chosen, offers):
    offer, _ = offered(offers, PROGRESSIVE)
    drawing = chosen(PROGRESSIVE).evaluate(DRAWN)
    size, design = offer.choice.size, offer.choice.package.design
    working = offers.catalog.shop.defaults.working_distance
    for side, turn in zip(SIDES, (-1, 1), strict=True):
        lens, height = offer.fit[side], offer.job["measures"][f"height_{side}"]
        inset = inset_of(offer, side, working)
        x = lens["decentration_in"]
        marks = segment.progressive_marks(x, height - size.b / 2, 0.0, design.near_below, inset)
        middle = (size.a + size.dbl) / 2
        at = [(turn * (middle - marks[i]), -marks[i + 1]) for i in range(0, 8, 2)]
        assert drawn_of(drawing[side], "reference") == [near(*at[1], 0.7)]
        assert drawn_of(drawing[side], "near") == [near(*at[3], 4.0)]
        paths = dict(drawing[side]["paths"])
        assert numbers(paths["corridor"]) == near(*at[0], *at[3])
        assert numbers(paths["cross"])[:3] == near(at[0][0] - 3, at[0][1], 6)


def test_a_near_point_that_is_not_stated_is_not_made_up(chosen):
    page = chosen(PROGRESSIVE)
    assert "no near point" not in page.locator(".sitting figcaption").inner_text()
    page.evaluate("bevelDesigns.near = {}")
    page.locator("#rx-left-add").fill("1.75")
    expect(page.locator(".sitting .near")).to_have_count(0)
    expect(page.locator(".sitting figcaption")).to_contain_text("so no near point is drawn")
    assert "Near reference point" not in [row[0] for row in page.evaluate(TABLE)]


def test_a_segment_is_the_one_of_the_kernel(chosen, offers):
    offer, _ = offered(offers, BIFOCAL)
    drawing = chosen(BIFOCAL).evaluate(DRAWN)
    size, design = offer.choice.size, offer.choice.package.design
    working = offers.catalog.shop.defaults.working_distance
    for side, turn in zip(SIDES, (-1, 1), strict=True):
        height = layout.fitting_height("bifocal", offer.job["measures"][f"height_{side}"])
        x = offer.fit[side]["decentration_in"] + inset_of(offer, side, working)
        xs, ys = segment.segment_outline(design.segment_width, design.segment_depth, x, height - size.b / 2, 3)
        u, v, chord, *arcs = numbers(dict(drawing[side]["paths"])["segment"])
        middle = (size.a + size.dbl) / 2
        ends = sorted(turn * (middle - one) for one in (xs[0], xs[2]))
        assert (u, v, u + chord) == near(ends[0], -ys[0], ends[1])
        radius, lowest = arcs[0], arcs[5:7]
        assert radius == design.segment_width / 2
        assert lowest == near(turn * (middle - x), -(height - size.b / 2) + design.segment_depth)


def test_the_blank_is_drawn_where_it_is_the_reason(chosen, offers):
    offer, _ = offered(offers, TOO_SMALL)
    page = chosen(TOO_SMALL)
    drawing = page.evaluate(DRAWN)
    for side, turn in zip(SIDES, (-1, 1), strict=True):
        lens = offer.fit[side]
        middle = (offer.choice.size.a + offer.choice.size.dbl) / 2
        at = (turn * (middle - lens["decentration_in"]), -lens["decentration_up"])
        largest, needed = drawn_of(drawing[side], "blank")
        assert largest == near(*at, lens["blank_largest"] / 2)
        assert needed == near(*at, lens["blank_exact"] / 2)
    left, top, wide, high = (float(n) for n in page.locator(".sitting svg.front").get_attribute("viewBox").split())
    for side in SIDES:
        for u, v, r in drawn_of(drawing[side], "blank"):
            assert left <= u - r < u + r <= left + wide
            assert top <= v - r < v + r <= top + high
    assert not drawn_of(chosen(SINGLE).evaluate(DRAWN)["right"], "blank")


def test_a_height_that_is_missing_is_drawn_for_its_eye_alone(chosen):
    page = chosen(TOO_LOW)
    drawing = page.evaluate(DRAWN)
    assert ["short" in dict(drawing[side]["paths"]) for side in SIDES] == [True, False]
    assert "18.0" in drawing["right"]["words"]
    assert ["Height that is missing", "below it 18.0 needed, 16.0 there", "–"] in page.evaluate(TABLE)


@every_case
def test_the_table_says_what_is_drawn(chosen, offers, case):
    offer, ask = offered(offers, case)
    rows = {name: values for name, *values in chosen(case).evaluate(TABLE)}
    measures, lenses = offer.job["measures"], [offer.fit[side] for side in SIDES]
    measured = [ask.measures.height_right, ask.measures.height_left]
    heights = [mm(measures[f"height_{side}"]) for side in SIDES]
    assert rows["Pupil, from the middle of the bridge"] == [mm(measures[f"pd_{side}"]) for side in SIDES]
    assert rows["Pupil, height"] == [
        text if known is not None else f"{text} estimated" for text, known in zip(heights, measured, strict=True)
    ]
    if offer.choice.package.design.kind == "progressive":
        assert rows["Prism reference point"] == [mm(lens["height"]) for lens in lenses]
    else:
        ways = ["nasal" if lens["decentration_in"] >= 0 else "temporal" for lens in lenses]
        assert rows["Optical center"] == [
            f"{mm(lens['height'])} {mm(abs(lens['decentration_in']))} {way}"
            for lens, way in zip(lenses, ways, strict=True)
        ]
    assert rows["Largest blank there is"] == [mm(lens["blank_largest"]) for lens in lenses]
    assert rows["Blank it needs, across"] == [mm(lens["blank_exact"]) for lens in lenses]


def test_what_is_estimated_is_dashed_and_said(chosen):
    page = chosen(SINGLE)
    dashes = "one => getComputedStyle(one).strokeDasharray"
    assert page.locator(".sitting .iris").first.evaluate(dashes) != "none"
    assert "Dashed is what nobody has measured" in page.locator(".sitting figcaption").inner_text()
    page = chosen(PROGRESSIVE)
    assert page.locator(".sitting .iris").first.evaluate(dashes) == "none"
    assert "Dashed" not in page.locator(".sitting figcaption").inner_text()


def colors(svg):
    """What is painted, in the order of the drawing: class, fill and stroke of each part."""
    found = []
    for one in ElementTree.fromstring(svg).iter():
        names = one.get("class", "").split()
        if {"front-piece", "wire"} & set(names):
            found.append((sorted(names), one.get("fill"), one.get("stroke"), one.get("d")))
    return found


def worn(svg):
    """What the lenses wear: the stops of a gradient, or one color and its opacity."""
    root = ElementTree.fromstring(svg)
    stops = [tuple(one.attrib.values()) for one in root.iter() if one.tag.endswith("stop")]
    lenses = [one for one in root.iter() if one.get("class") == "tint"]
    return stops, [(one.get("fill"), "" if stops else one.get("fill-opacity")) for one in lenses]


@pytest.mark.parametrize("frame_id", ["aldmere", "garrowe", "lissoway", "ossgill"])
def test_each_colorway_is_colored_in_the_page_as_the_build_draws_it(chosen, offers, frame_id):
    frame = offers.catalog.frames[frame_id]
    page = chosen((frame_id, frame.sizes[-1].key, "bench-159-ar", "#od=-1&os=-1"))
    script = """([size, color]) => {
      const frame = JSON.parse(document.getElementById("frame-data").textContent);
      return bevelbook.front(frame.sizes[size], frame.colors[color]).outerHTML; }"""
    for i, size in enumerate(frame.sizes):
        for j, colorway in enumerate(frame.colorways):
            rim = offers.catalog.shop.mountings[frame.mounting].rim
            built = front_svg(frame, size, colorway, rim, "Front", dimensions=True)
            svg = page.evaluate(script, [i, j])
            assert colors(svg) == colors(built)
            built = painted(built, paint_worn(offers.catalog, sun_lens(offers.catalog, colorway)), "shade-drawn")
            assert ('class="glass sun"' in svg) == ('class="glass sun"' in built)
            assert worn(svg) == worn(built)


def solved(level, slope, x, y):
    """The depth of a surface at (x, y), by Newton's rule."""
    z = 0.0
    for _ in range(60):
        step = level((x, y, z)) / slope((x, y, z))[2]
        z -= step
        if abs(step) < 1e-13:
            break
    return z


def thickness_by_numpy(lens, center, x, y):
    return solved(*back_level(lens, center), x, y) - solved(*front_level(lens), x, y)


@every_case
def test_along_each_line_the_lens_is_as_thick_as_it_says(chosen, offers, case):
    offer, ask = offered(offers, case)
    page = chosen(case)
    made = [side for side in SIDES if offer.fit[side]["edge_min"] > 0]
    if not made:
        assert page.locator(".maps").count() == 0
        return
    page.locator(".maps").wait_for()
    drawings = page.evaluate(LINES)
    assert len(drawings) == len(made)
    for side, drawing in zip(made, drawings, strict=True):
        turn = 1 if side == "right" else -1
        lens = offer.fit[side]
        eye = nasal(eye_table(getattr(ask.rx, side)), side == "left")
        design, material = offer.choice.package.design, offer.choice.package.material
        plain = grind(eye["sphere"], eye["cylinder"], eye["axis"], lens["front"], design.conic, material.index)
        ground = with_prism(plain, eye["prism_in"], eye["prism_up"])
        assert len(drawing["lines"]) >= 2
        for thick, data in drawing["lines"]:
            at = numbers(data)
            points = list(zip(at[::2], at[1::2], strict=True))
            assert len(points) > 2
            for u, v in points[:: max(1, len(points) // 25)]:
                assert thickness_by_numpy(ground, lens["center"], turn * u, -v) == pytest.approx(thick, abs=0.012)
        assert drawing["strong"] == [mm(lens[name]) for name in ("center", "edge_max", "edge_min")]
        for number in (mm(lens["edge_max"]), mm(lens["edge_min"]), mm(lens["center"])):
            assert f"{number} mm" in drawing["name"]


def test_the_numbers_of_the_map_are_those_of_the_lens_at_its_rim(chosen, offers):
    """Each lies on the ray from the reference point, where the numpy lens has it, between thinnest and thickest."""
    offer, _ = offered(offers, PRISM)
    page = chosen(PRISM)
    page.locator(".map-numbers summary").click()
    rows = page.locator(".map-numbers tbody tr").evaluate_all(
        "rows => rows.map(row => [...row.cells].map(cell => cell.innerText))"
    )
    names = ["nasal", "upper nasal", "top", "upper temporal", "temporal", "lower temporal", "bottom", "lower nasal"]
    assert [row[0] for row in rows] == ["Center", *names]
    for column, side in enumerate(SIDES, start=1):
        lens = offer.fit[side]
        assert rows[0][column] == mm(lens["center"])
        frame = offer.job["frame"]
        eye = nasal(offer.job[side], side == "left")
        package = offer.choice.package
        plain = grind(eye["sphere"], eye["cylinder"], eye["axis"], lens["front"], 0.0, package.material.index)
        ground = with_prism(plain, eye["prism_in"], eye["prism_up"])
        for i, row in enumerate(rows[1:]):
            way = math.radians(45 * i)
            x, y = on_rim(frame["xs"], frame["ys"], lens["decentration_in"], lens["decentration_up"], way)
            assert float(row[column]) == pytest.approx(thickness_by_numpy(ground, lens["center"], x, y), abs=0.0501)


def on_rim(xs, ys, x, y, way):
    """Where a ray from (x, y) leaves the outline, from (x, y)."""
    c, s = math.cos(way), math.sin(way)
    for i in range(len(xs)):
        a = ((xs[i - 1] - x) * c + (ys[i - 1] - y) * s, (ys[i - 1] - y) * c - (xs[i - 1] - x) * s)
        b = ((xs[i] - x) * c + (ys[i] - y) * s, (ys[i] - y) * c - (xs[i] - x) * s)
        if (a[1] > 0) != (b[1] > 0):
            far = a[0] + (b[0] - a[0]) * (0 - a[1]) / (b[1] - a[1])
            if far > 0:
                return far * c, far * s
    raise AssertionError("no such ray")


def test_another_power_redraws_without_a_gap(chosen):
    """What was drawn stays until the new drawing is there: the views never get lower in between."""
    page = chosen(SINGLE)
    page.locator(".maps").wait_for()
    first = page.evaluate(LINES)
    page.evaluate("""() => { globalThis.heights = []; new ResizeObserver(() =>
      heights.push(document.querySelector("#live-quote .views").getBoundingClientRect().height))
      .observe(document.querySelector(".seat")); }""")
    before = page.locator("#live-quote .views").bounding_box()["height"]
    page.locator("#rx-right-sphere").fill("-6.50")
    within(lambda: page.locator(".maps svg.map").first.get_attribute("aria-label") != first[0]["name"])
    assert page.locator("#live-quote .views").bounding_box()["height"] == pytest.approx(before, abs=1)
    assert all(height >= before - 1 for height in page.evaluate("heights"))
    assert page.evaluate(LINES)[0]["strong"] != first[0]["strong"]


# Every drawing of many prescriptions in some packages; what is wrong with any of them
EVERY = """fragments => { const wrong = [], b = bevelbook, home = document.createElement("div");
  const frame = JSON.parse(document.getElementById("frame-data").textContent);
  let drawn = 0;
  fragments.forEach((fragment, i) => {
    for (const pack of bevelShop.packages.filter((_, k) => k % 7 === i % 7)) {
      const found = b.offer(frame, frame.sizes[i % frame.sizes.length], frame.colors[0], pack, b.fromText(fragment));
      try {
        const [seat, map] = ["div", "div"].map(name => document.createElement(name));
        home.replaceChildren(seat, map);
        for (const piece of b.viewPieces(seat, map, found)) piece();
        drawn += home.querySelectorAll("svg.map").length;
        if (/NaN|undefined|Infinity|null/.test(home.innerHTML)) wrong.push([fragment, pack.id, "no number"]);
      } catch (error) { wrong.push([fragment, pack.id, String(error)]); }
    }
  });
  return [drawn, wrong]; }"""


@pytest.mark.parametrize(("frame", "seed"), [("cottering", 5), ("ossgill", 6), ("quarrend", 7)])
def test_whatever_is_asked_is_drawn_or_left_out(chosen, frame, seed):
    dice = random.Random(seed)
    page = chosen((frame, "", "bench-159-ar", "#od=-1&os=-1"))
    fragments = [fragment_of(random_ask(dice)) for _ in range(60)]
    fragments += ["#od=-40&os=40", "#od=0&os=0", "#os=-3", "#od=3,-2,45,2", "#od=-2&os=-2&pd=15,45&h=5,50"]
    drawn, wrong = page.evaluate(EVERY, fragments)
    assert wrong == []
    assert drawn > 200


@pytest.mark.parametrize("width", [1280, 360])
def test_room_is_kept_until_the_drawings_come(chosen, site, browser, width):
    """What stands below a chosen lens moves by little when they do: the room is there before the scripts are."""
    context = browser.new_context(viewport={"width": width, "height": 900})
    page = context.new_page()
    held = []
    page.route("**/theme/js/views.js", lambda route: held.append(route))
    frame, size, package, fragment = SINGLE
    page.goto(
        (site / f"frames/{frame}/index.html").as_uri() + f"{fragment}&size={size}&lens={package}",
        wait_until="domcontentloaded",
    )
    views = page.locator("#live-quote .views")
    views.wait_for()
    within(lambda: held, page)
    before = views.bounding_box()["height"]
    held[0].continue_()
    page.locator(".maps").wait_for()
    assert len(held) == 1
    assert views.bounding_box()["height"] == pytest.approx(before, rel=0.15)
    context.close()


def test_without_the_drawings_the_numbers_stand(chosen, site, browser):
    """A host that lost the file: the quote is there, and a plain sentence in place of the drawing."""
    context = browser.new_context()
    page = context.new_page()
    page.route("**/fronts.js", lambda route: route.abort())
    frame, size, package, fragment = SINGLE
    page.goto((site / f"frames/{frame}/index.html").as_uri() + f"{fragment}&size={size}&lens={package}")
    page.get_by_text("The drawings of this lens could not be loaded.").wait_for()
    expect(page.locator("#live-quote .bill")).to_be_visible()
    context.close()
