"""``tint show``, ``mix`` and ``match``: what they say, as text and as JSON, and what they refuse."""

import json

import pytest
from click.testing import CliRunner

from quoting.cli import main
from quoting.places import shared

DEMO = ["--shop", str(shared("demo_catalog"))]


def tint(*words):
    result = CliRunner().invoke(main, ["tint", *words, *DEMO], prog_name="bevelbook")
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def test_the_json_of_a_mix_is_what_developers_lean_on():
    said = json.loads(tint("show", "dusk", "--json").stdout)
    assert said.keys() == {
        *(
            "package",
            "mix",
            "name",
            "code",
            "parts",
            "absorbs_top",
            "absorbs_bottom",
            "fade_from",
            "fade_to",
            "refused",
        ),
        *("states", "consequences"),
    }
    (state,) = said["states"]
    assert state.keys() == {"state", "unstated", "top", "reference", "bottom"}
    assert state["top"].keys() == {
        *("percent", "category", "uva", "uvb", "uv_kept", "least_share", "reflected", "blue", "green", "red"),
        *("day", "night", "xyz", "lab", "through", "on_white", "on_skin"),
    }
    assert state["top"]["percent"] < state["reference"]["percent"] < state["bottom"]["percent"]
    assert all(one.keys() == {"code", "percent", "text"} for one in said["consequences"])


def test_the_whole_book_as_json():
    said = json.loads(tint("show", "--json").stdout)
    assert [one["mix"] for one in said["mixes"]][:2] == ["slate-water", "harbor-brown"]


def test_each_mix_is_listed_with_its_code():
    text = tint("show").stdout
    for words in ("slate-water", "W 1", "2 parts Brown, 1 part Gray", "too deep for"):
        assert words in text


@pytest.mark.parametrize("light", ["93", "98"])
def test_what_leaves_eight_percent_or_less_is_told(light):
    assert "nobody may drive behind it" in tint("mix", "1 gray", light).stdout
    assert "nobody may drive behind it" in tint("mix", "1 gray", light, "--down-to", "10").stdout


def test_a_recipe_that_is_found_passes_what_was_wanted():
    said = json.loads(tint("match", "#8a5a2b", "20", "--json").stdout)
    parts = ", ".join(f"{part:g} {dye}" for dye, part in said["parts"].items())
    made = json.loads(tint("mix", parts, f"{said['absorbs']:.3f}", "--on", said["package"], "--json").stdout)
    reference = made["states"][0]["reference"]
    assert reference["percent"] == pytest.approx(20, abs=0.01)
    assert reference["lab"] == pytest.approx(said["lab"], abs=0.05)
    assert said["difference"] < 1


def test_a_difference_that_is_seen_is_told():
    assert "can be seen side by side" in tint("match", "#0000ff", "20", "--dyes", "gray,rose").stdout
    assert "can be seen" not in tint("match", "#8a5a2b", "20").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("show", "dust"), "did you mean dusk?"),
        (("show", "dusk", "--on", "plain-150"), "no lens package"),
        (("show", "dusk", "--mirror", "silber"), "did you mean silver?"),
        (("mix", "two brown", "50"), "is no part of a dye"),
        (("mix", "0 brown", "50"), "is no part of a dye"),
        (("mix", "1 brown", "50", "--from", "80", "--until", "20"), "must begin above"),
        (("match", "brown", "20"), "is no color"),
        (("match", "45 300 0", "20"), "is no color"),
        (("match", "#8a5a2b", "20", "--dyes", "brwn"), "did you mean brown?"),
        (("match", "#8a5a2b", "95"), "without any dye"),
    ],
)
def test_misuse_is_told_in_a_sentence(words, said):
    result = tint(*words)
    assert (result.exit_code, said in result.stderr) == (2, True), result.output


def test_a_shop_without_dyes_says_where_they_are_written(tmp_path):
    result = CliRunner().invoke(main, ["tint", "show", "--shop", "tests/shops/corner"], prog_name="bevelbook")
    assert (result.exit_code, "tints.yaml" in result.stderr) == (2, True)
