"""``explain`` for people and programs."""

import json

import pytest
from click.testing import CliRunner

from quoting.cli import main
from quoting.show import manual


def explained(*words):
    return CliRunner().invoke(main, ["explain", *words])


def test_a_code_has_its_page():
    told = explained("height-too-low")
    assert told.exit_code == 0
    assert told.stdout.rstrip() == manual.page_text("height-too-low")


def test_without_a_code_all_are_listed():
    assert explained().stdout.rstrip() == manual.list_text()


def test_an_unknown_code_is_misuse_with_a_did_you_mean():
    told = explained("hight-too-low")
    assert told.exit_code == 2
    assert "no reason 'hight-too-low': did you mean height-too-low" in told.stderr


@pytest.mark.parametrize("code", ["edge-thick", "impossible-axis", "too-dark-at-night", "trace-gap"])
def test_programs_get_the_page_as_json(code):
    assert json.loads(explained(code, "--json").stdout) == manual.page_dict(code)


def test_programs_get_the_list_as_json():
    told = json.loads(explained("--json").stdout)["reasons"]
    assert [one["code"] for one in told] == list(manual.MEANT)
    assert all(one["meaning"] for one in told)
