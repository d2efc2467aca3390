"""`keys` as an owner types it."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.cli import main

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DAY = ("--on", "2026-11-25")


@pytest.fixture
def shop(tmp_path):
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


def keys(*words):
    return CliRunner().invoke(main, ["keys", *map(str, words)], prog_name="bevelbook")


def test_keys_are_made_listed_and_taken_out_of_use(shop):
    assert "There is no key yet" in keys("list", shop).stdout
    made = keys("new", shop, *DAY)
    assert made.exit_code == 0, made.output
    name = made.stdout.split()[1]
    path = shop / "private/keys" / f"{name}.pem"
    assert str(path) in made.stdout
    assert keys("list", shop).stdout == f"{name}  since 2026-11-25  signs\n"
    assert keys("retire", name, shop, "--on", "2026-12-01").exit_code == 0
    assert keys("list", shop).stdout == f"{name}  since 2026-11-25  out of use since 2026-12-01\n"
    recalled = keys("retire", name, shop, "--recall", "--on", "2026-12-02")
    assert "Nothing it signed counts any more" in recalled.stdout
    assert json.loads(keys("list", shop, "--json").stdout)["keys"] == [
        {
            "id": name,
            "since": "2026-11-25",
            "retired": "2026-12-01",
            "recalled": True,
            "private": True,
            "state": "called back",
        }
    ]
    assert path.exists()


def test_nothing_secret_is_ever_printed(shop):
    made = keys("new", shop, *DAY)
    name = made.stdout.split()[1]
    secret = (shop / "private/keys" / f"{name}.pem").read_text(encoding="utf-8").splitlines()[1]
    for told in (made, keys("list", shop), keys("list", shop, "--json"), keys("retire", name, shop)):
        assert secret not in told.output


def test_misuse_is_one_sentence(shop, tmp_path):
    told = keys("retire", "12345678", shop)
    assert (told.exit_code, "there is no key 12345678" in told.stderr) == (2, True)
    assert keys("new", tmp_path / "nowhere").exit_code != 0
