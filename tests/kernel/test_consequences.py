"""What follows from the figures of a filter: each code where it belongs, and nowhere else."""

import pytest

from quoting.kernel import consequences, filters

PLAIN = {"internal": [1.0] * 101, "front": [0.0] * 101, "back": [0.0] * 101}


def seen(percent, **parts):
    """A neutral filter that passes so much, and other shares in parts of the spectrum; no ultraviolet light."""
    passed = [0.0] * 20 + [percent / 100] * 81
    for name, share in parts.items():
        first, last = {"blue": (34, 42), "green": (47, 56), "red": (66, 76), "uv": (0, 20)}[name]
        passed[first : last + 1] = [share] * (last + 1 - first)
    return filters.filter_of(PLAIN, passed, 8.0, 75.0)


def codes(clear, dark=(), degrees=(), known=True):
    return [one["code"] for one in consequences.consequences(clear, list(dark), list(degrees), 8.0, known)]


@pytest.mark.parametrize(
    ("percent", "told"),
    [
        (92, ["category-0", "day-fine", "night-fine", "uv-kept"]),
        (78, ["category-1", "day-fine", "night-fine", "indoors", "uv-kept"]),
        (74, ["category-1", "day-fine", "night-never", "indoors", "uv-kept"]),
        (45, ["category-1", "day-fine", "night-never", "indoors", "eyes-faint", "uv-kept"]),
        (15, ["category-3", "day-fine", "night-never", "indoors", "eyes-hidden", "uv-kept", "child"]),
        (8, ["category-4", "day-never", "indoors", "eyes-hidden", "uv-kept", "child"]),
        (2, ["category-5", "day-never", "indoors", "eyes-hidden", "uv-kept", "child"]),
    ],
)
def test_a_neutral_filter(percent, told):
    assert codes(seen(percent)) == told


@pytest.mark.parametrize("percent", [8.0, 7.99, 5.0, 3.0, 0.5])
def test_what_leaves_eight_percent_or_less_never_passes_silently(percent):
    """Nor in any state of a photochromic lens."""
    assert "day-never" in codes(seen(percent))
    assert "day-never" in codes(seen(90), [seen(20), seen(percent)], [23, 5])
    assert "day-fine" not in codes(seen(90), [seen(20), seen(percent)], [23, 5])


def test_a_color_that_is_missing_forbids_driving():
    told = codes(seen(90, green=0.02))
    assert "day-color" in told
    assert "night-fine" not in told
    assert "dulls-green" in told


@pytest.mark.parametrize("name", ["blue", "green", "red"])
def test_colors_that_are_dulled_or_lifted(name):
    assert f"dulls-{name}" in codes(seen(50, **{name: 0.15}))
    assert f"lifts-{name}" in codes(seen(30, **{name: 0.9}))
    assert not [code for code in codes(seen(50, **{name: 0.5})) if name in code]


def test_a_photochromic_lens():
    told = consequences.consequences(seen(90), [seen(9), seen(14), seen(30)], [5, 23, 35], 8.0, True)
    assert [one["code"] for one in told] == [
        *("category-3", "day-fine", "night-fine", "in-cold", "in-heat", "behind-windshield", "how-fast", "settles"),
        *("eyes-hidden", "uv-kept", "child"),
    ]
    percents = {one["code"]: one["percent"] for one in told}
    assert (percents["in-cold"], percents["in-heat"], percents["behind-windshield"]) == (9.0, 30.0, 90.0)


def test_only_what_is_stated_of_heat_and_cold_is_told():
    assert not {"in-cold", "in-heat"} & set(codes(seen(90), [seen(14)], [23]))


def test_a_mirror_hides_the_eyes():
    mirror = filters.filter_of(PLAIN | {"front": [0.3] * 101}, [0.2] * 101, 8.0, 75.0)
    assert "mirrored" in codes(mirror)
    assert "eyes-hidden" not in codes(mirror)


def test_ultraviolet_light_is_told_as_it_is_known():
    assert "uv-over" in codes(seen(50, uv=0.9))
    assert "uv-unknown" in codes(seen(50, uv=0.9), known=False)
    assert "uv-kept" in codes(seen(50, uv=0.001), known=False)


def test_at_each_limit():
    """A limit belongs to what is allowed, or to the fainter word; a hundredth beyond it does not (ISO 12312-1)."""
    fine = seen(50)
    assert "day-fine" in codes(fine | {"least_share": 0.2})
    assert "day-color" in codes(fine | {"least_share": 0.1999})
    assert "indoors" in codes(seen(80))
    assert "indoors" not in codes(seen(80.01))
    for name in ("blue", "green", "red"):
        assert f"dulls-{name}" not in codes(fine | {name: 25.0})
        assert f"dulls-{name}" in codes(fine | {name: 24.99})
        assert f"lifts-{name}" not in codes(fine | {name: 62.5})
        assert f"lifts-{name}" in codes(fine | {name: 62.51})
    assert "mirrored" in codes(fine | {"reflected": 15.0})
    assert "mirrored" not in codes(fine | {"reflected": 14.99})
    assert "eyes-faint" not in codes(fine)  # half of it passes twice: 25 percent
    assert "eyes-faint" in codes(seen(49.99))
    assert "child" in codes(seen(43))
    assert "child" not in codes(seen(43.01))


@pytest.mark.parametrize(
    ("degrees", "told"), [(19, ["in-cold"]), (20, []), (21, []), (30, []), (31, ["in-heat"]), (35, ["in-heat"])]
)
def test_room_temperature_lies_between_cold_and_heat(degrees, told):
    """And one darkened state alone is enough to tell how the lens behaves."""
    after = codes(seen(90), [seen(14)], [degrees])
    assert [code for code in after if code in ("in-cold", "in-heat")] == told
    assert "behind-windshield" in after


def test_percents_that_are_told():
    dark = seen(50) | {"least_share": 0.123, "uva": 3.5}
    told = {one["code"]: one["percent"] for one in consequences.consequences(seen(90), [dark], [23], 8.0, True)}
    assert told["day-color"] == pytest.approx(12.3)
    assert told["uv-kept"] == 3.5
    assert (told["how-fast"], told["settles"]) == (0.0, 0.0)  # these are about no percent
    unknown = consequences.consequences(seen(50, uv=0.9), [], [], 8.0, False)
    assert {one["code"]: one["percent"] for one in unknown}["uv-unknown"] == 0.0
    faint = consequences.consequences(seen(40), [], [], 8.0, True)
    assert {one["code"]: one["percent"] for one in faint}["eyes-faint"] == pytest.approx(16.0)


def test_of_two_states_that_are_as_dark_the_first_is_told():
    states = [seen(20) | {"red": 5.0}, seen(20) | {"blue": 5.0}]
    assert "dulls-red" in codes(seen(90), states, [23, 23])
    assert "dulls-blue" not in codes(seen(90), states, [23, 23])
