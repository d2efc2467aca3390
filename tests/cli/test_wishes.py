"""What a customer wishes beyond a package reaches the engine from the command line; the range that fits is shown."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.cli import main

CORNER = str(Path(__file__).parents[1] / "shops" / "corner")
RX = "OD -2.00 DS / OS -2.00 DS / PD 63"


def ran(*words, exit_code=0):
    result = CliRunner().invoke(main, ["fit", "alder", "--rx", RX, "--shop", CORNER, *words])
    assert result.exit_code == exit_code, result.output
    return result


def packages(*words):
    answer = json.loads(ran(*words, "--json").stdout)
    return answer, {one["package"]: one for one in answer["packages"]}


def codes(*words):
    return {reason["code"] for one in packages(*words)[1].values() for reason in one["reasons"]}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--wish", "sport"), "impact-sport"),
        (("--wish", "one-eyed"), "impact-one-eyed"),
        (("--wish", "mirror"), "mirror-not-offered"),
        (("--wish", "blue-filter"), "blue-filter-not-offered"),
        (("--tint", "95"), "tint-too-deep"),
        (("--tint", "95", "--wish", "night-driving"), "too-dark-at-night"),
        (("--tint", "95", "--wish", "driving"), "too-dark-to-drive"),
        (("--tint", "95"), "very-dark"),
    ],
)
def test_a_wish_is_held_to_what_the_packages_offer(words, code):
    assert code in codes(*words)
    assert code not in codes()


def test_wishes_are_told_again_and_only_where_there_are_any():
    answer, _ = packages("--tint", "80 gradient", "--wish", "rush")
    assert answer["wishes"]["tint_depth"] == 80.0
    assert [name for name, value in answer["wishes"].items() if value is True] == ["tint_gradient", "rush"]
    assert "wishes" not in packages()[0]


@pytest.mark.parametrize("tint", ["dark", "101", "80 fading", "80 gradient gradient"])
def test_a_tint_that_cannot_be_read_is_misuse(tint):
    assert "tint" in ran("--tint", tint, exit_code=2).stderr


def test_the_range_that_fits_is_told_where_it_is_asked_for():
    assert "fits: " not in ran().stdout
    text = ran("--range").stdout
    _, found = packages("--range")
    assert text.count("fits: ") == len(found)
    for one in found.values():
        held = [span for span in one["range"] if span["low"] <= -2.0 <= span["high"]]
        verdicts = {span["verdict"] for span in held}
        assert verdicts == {"fits": {"fits", "caution"}, "caution": {"caution"}, "no": set()}[one["verdict"]]
    assert all("range" not in one for one in packages()[1].values())
