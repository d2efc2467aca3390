"""A mix that a lens is quoted with: typed as id, order code or recipe, told, priced, refused, renewed."""

import json
import shutil
from datetime import date, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.catalog.load import load
from quoting.cli import main
from quoting.light.told import seen
from quoting.places import shared
from quoting.quoted.sealing import opened

RX = "OD -2.00 DS / OS -2.25 DS / PD 63"
PAIR = ("cottering", "bench-150-ar", "--size", "52", "--color", "black", "--rx", RX)


def ran(*words, exit_code=0):
    told = CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")
    assert told.exit_code == exit_code, told.output
    return told


def quoted(*words, package="bench-150-ar"):
    pair = (PAIR[0], package, *PAIR[2:])
    return json.loads(ran("quote", *pair, "--shop", shared("demo_catalog"), "--json", *words).stdout)


@pytest.fixture(scope="module")
def catalog():
    return load(shared("demo_catalog"), date.today())[0]


@pytest.fixture
def shop(tmp_path):
    folder = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    ran("keys", "new", folder)
    return folder


@pytest.mark.parametrize("typed", ["dusk", "DUSK", "W 5", "w  5", " Dusk "])
def test_a_mix_of_the_book_by_id_or_order_code(catalog, typed):
    said = quoted("--tint", typed)
    tint, mix = said["offer"]["tint"], catalog.tints.mixes["dusk"]
    assert (tint["id"], tint["code"], tint["name"]) == ("dusk", "W 5", "Dusk")
    assert [(dye["id"], dye["share"]) for dye in tint["dyes"]] == [("brown", 200), ("rose", 100)]
    assert (tint["top"], tint["bottom"], tint["fade_from"], tint["fade_to"]) == (7000, 1200, 2000, 8500)
    assert (said["wishes"]["tint_depth"], said["wishes"]["tint_gradient"]) == (70.0, True)
    figures = seen(catalog, catalog.packages["bench-150-ar"], mix).at
    assert [one["percent"] for one in said["offer"]["passed"]] == [round(100 * at["percent"]) for at in figures]
    assert [one["category"] for one in said["offer"]["passed"]] == [at["category"] for at in figures]


def test_a_recipe_as_the_page_writes_it():
    tint = quoted("--tint", "brown~2+rose~1,80,10,10,80")["offer"]["tint"]
    assert (tint["id"], tint["code"], tint["top"], tint["bottom"]) == ("", "", 8000, 1000)
    plain = quoted("--tint", "gray~1.5,62.5")["offer"]
    assert (plain["tint"]["bottom"], plain["tint"]["dyes"][0]["share"], len(plain["passed"])) == (None, 150, 1)


@pytest.mark.parametrize(
    "typed",
    [
        "duks", "brwn~2,75", "brown~0,75", "brown~1001,75", "brown~1,0", "brown~1,99.5", "brown~1,75,10",
        "brown~1,75,10,80,20", "brown~1,75,10,20,101", "brown~1", "brown~1,7.5.5", "brown~.,75", "~1,75",
        "gray~1+brown~1+green~1+blue~1+rose~1+amber~1+gray~1,x",
    ],
)  # fmt: skip
def test_what_is_no_mix_is_misuse_and_says_what_is(typed):
    told = ran("quote", *PAIR, "--shop", shared("demo_catalog"), "--tint", typed, exit_code=2)
    assert any(word in told.stderr for word in ("did you mean", "there is", "write a recipe"))


def test_a_number_that_is_an_order_code_too_is_not_guessed(shop):
    tints = shop / "tints.yaml"
    tints.write_text(tints.read_text(encoding="utf-8").replace('code: "W 7"', 'code: "30"'), encoding="utf-8")
    words = ("quote", *PAIR, "--shop", shop, "--json", "--tint")
    assert "is a depth and the mix Lamp amber" in ran(*words, "30", exit_code=2).stderr
    assert "tint" not in json.loads(ran(*words, "30.0").stdout)["offer"]
    assert json.loads(ran(*words, "lamp amber").stdout)["offer"]["tint"]["code"] == "30"


def test_a_mix_costs_what_its_depth_alone_costs():
    assert quoted("--tint", "slate-water")["offer"]["lines"] == quoted("--tint", "82")["offer"]["lines"]


def test_eight_percent_or_less_is_told_and_a_child_too():
    told = ran("quote", *PAIR, "--shop", shared("demo_catalog"), "--tint", "gray~1,92", "--child", exit_code=1).stdout
    assert "filter category 4" in told
    assert "nobody may drive behind it" in told
    assert "For a child" in told
    assert "This lens does not take it: deeper than Hard resin 1.50 takes: 90 %." in told


def test_what_lies_under_a_coat_is_not_issued_deeper_than_goes_there(shop):
    """The resin takes 90 %, under this coat 85 % are the most."""
    issue = ("quote", *PAIR, "--shop", shop, "--for", "Ms. Tarn")
    for tint in ("gray~1,87", "87"):
        assert "takes a tint up to 85 %; you asked for 87 %" in ran(*issue, "--tint", tint, exit_code=1).stderr
    told = ran("quote", *PAIR, "--shop", shop, "--tint", "gray~1,87", exit_code=1).stdout
    assert "This lens does not take it: deeper than goes under its coat." in told
    assert ran(*issue, "--tint", "gray~1,85").stdout


def test_a_photochromic_lens_is_told_clear_and_dark(shop):
    words = ("quote", PAIR[0], "plain-156-photo", *PAIR[2:], "--shop", shop, "--tint", "brown~1,20")
    assert "no tint over this lens" in ran(*words, exit_code=1).stdout
    lenses = shop / "lenses/hallstrand.yaml"
    head = "    name: Plain 1.56, photochromic\n"
    text = lenses.read_text(encoding="utf-8")
    lenses.write_text(text.replace(head, f"{head}    treatments: {{tint_over: yes}}\n"), encoding="utf-8")
    passed = json.loads(ran(*words, "--json").stdout)["offer"]["passed"]
    assert [one["state"] for one in passed] == ["clear", "23"]
    assert passed[1]["percent"] < passed[0]["percent"]
    assert "Darkened at 23 °C it passes" in ran(*words).stdout


def test_alternatives_have_tints_of_their_own(shop):
    told = ran(
        "quote", *PAIR, "--shop", shop, "--for", "Ms. Tarn", "--tint", "dusk", "--json",
        "--or", "bench-150-ar tint=W\\ 6", "--or", "bench-150-ar tint=", "--or", "bench-150-ar",
    )  # fmt: skip
    said = json.loads(told.stdout)
    codes = [one["pairs"][0].get("tint", {}).get("code") for one in said["alternatives"]]
    assert codes == ["W 5", "W 6", None, "W 5"]
    assert [tint["code"] for tint in opened(said["link"]).quote["tints"]] == ["W 5", "W 6"]
    listed = ran("quotes", "--shop", shop).stdout
    assert "tint Dusk" in listed


def test_a_mix_that_the_book_has_no_more_is_renewed_as_it_was_issued(shop):
    issue = ("quote", *PAIR, "--shop", shop, "--for", "Ms. Tarn", "--tint", "lamp-amber", "--json")
    old = json.loads(ran(*issue, "--on", date.today() - timedelta(days=1)).stdout)
    tints = shop / "tints.yaml"
    whole = tints.read_text(encoding="utf-8")
    (line,) = (one for one in whole.splitlines() if "id: lamp-amber" in one)
    tints.write_text(whole.replace(line + "\n", ""), encoding="utf-8")
    new = json.loads(ran("quotes", "renew", old["number"], "--shop", shop, "--json").stdout)
    assert new["alternatives"][0]["pairs"][0]["tint"] == old["alternatives"][0]["pairs"][0]["tint"]
    assert "Tint Lamp amber (order code W 7)" in ran("quotes", "show", old["number"], "--shop", shop).stdout


def test_a_dye_that_is_gone_cannot_be_promised_again(shop):
    old = json.loads(
        ran("quote", *PAIR, "--shop", shop, "--for", "Ms. Tarn", "--tint", "amber~1,30", "--json").stdout
    )
    tints = shop / "tints.yaml"
    kept = [one for one in tints.read_text(encoding="utf-8").splitlines() if "amber" not in one]
    tints.write_text("\n".join(kept) + "\n", encoding="utf-8")
    told = ran("quotes", "renew", old["number"], "--shop", shop, exit_code=1).stderr
    assert "there is no dye amber any more" in told
    assert "1 Amber; takes 30 %" in ran("quotes", "show", old["number"], "--shop", shop).stdout


def test_a_quote_in_another_language_names_the_tint_in_it(shop):
    """The shop's own names in its own words, figures and driving in the language's."""
    (shop / "languages").mkdir()
    (shop / "languages/es.yaml").write_text("texts:\n  - {text: Dusk, say: Ocaso}\n", encoding="utf-8")
    yaml = shop / "shop.yaml"
    text = yaml.read_text(encoding="utf-8")
    yaml.write_text(text.replace("  locale: en_US", "  languages: [en, es]\n  locale: en_US"), encoding="utf-8")
    told = ran("quote", *PAIR, "--shop", shop, "--for", "Ms. Tarn", "--tint", "dusk", "--language", "es").stdout
    assert "código de pedido W 5" in told
    assert "Tinte Ocaso" in told
