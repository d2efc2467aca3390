"""Nothing of a customer is in a built site: every byte of it is searched for names, powers, notes, numbers and keys."""

import json
import shutil
from datetime import date
from pathlib import Path

from click.testing import CliRunner

from quoting.cli import main
from quoting.findings import errors
from quoting.places import shared
from quoting.site.build import build

NAME, NOTE, ADDRESS = "Ms. Xanthippe Quartermaine", "Zephyr remark", "xanthippe@quartermaine.example"
MEASURER = "Ignatz Pfefferkorn"
# No power of the demo shop is written like these
RX = "OD -6.38 -1.12 x 013 / OS -5.88 DS"


def bevelbook(*words):
    told = CliRunner().invoke(main, [str(word) for word in words], prog_name="bevelbook")
    assert told.exit_code == 0, told.output
    return told.stdout


def ordered_through(shop, number):
    """An order of it that was verified, with its record card, and a combination made public from it; its number."""
    bevelbook("quotes", "accept", number, "--shop", shop)
    measured = ("--pd", "31.35/32.15", "--height", "21/20.5", "--by", MEASURER, "--note", NOTE)
    one = json.loads(bevelbook("order", "from", number, "--shop", shop, *measured, "--json"))["id"]
    for state in ("sent", "received"):
        bevelbook("order", "mark", one, state, "--shop", shop)
    bevelbook("verify", one, "--right", "-6.38 -1.12 x 13", "--left", "-5.88 DS", "--by", MEASURER, "--shop", shop)
    bevelbook("order", "card", one, "--shop", shop)
    bevelbook("order", "publish", one, "--name", "for-the-water", "--shop", shop)
    return one


def test_no_byte_of_a_customer_is_published(tmp_path):
    shop = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    bevelbook("keys", "new", shop)
    words = ("--size", "52", "--color", "black", "--shop", shop, "--for", NAME, "--to", ADDRESS)
    words += ("--note", NOTE, "--json")
    quote = json.loads(bevelbook("quote", "cottering", "bench-159-ar", *words, "--rx", RX))
    other = json.loads(bevelbook("quote", "cottering", "bench-150-ar", *words, "--rx", RX))
    bevelbook("quotes", "withdraw", other["number"], "--reason", NOTE, "--shop", shop)
    (pem,) = (shop / "private/keys").glob("*.pem")
    secrets = [NAME, "Xanthippe", "Quartermaine", NOTE, ADDRESS, quote["number"], other["number"]]
    secrets += [quote["link"].rpartition("#")[2][:60], pem.read_text(encoding="utf-8").splitlines()[1]]
    secrets += [MEASURER, ordered_through(shop, quote["number"])]
    output = tmp_path / "site"
    assert errors(build(shop, output, date.today()).findings) == []
    kept = (shop / "private/quotes/register.jsonl").read_text(encoding="utf-8")
    assert all(secret in kept for secret in secrets[:7])
    files = [path for path in output.rglob("*") if path.is_file()]
    assert len(files) > 80
    for path in files:
        content = path.read_bytes()
        for secret in secrets:
            assert secret.encode() not in content, (path, secret)
    assert not list(output.rglob("*.pem"))
    assert not (output / "private").exists()


def test_public_keys_and_withdrawn_hashes_are_published(tmp_path):
    shop = Path(shutil.copytree(shared("demo_catalog"), tmp_path / "shop"))
    bevelbook("keys", "new", shop)
    (key,) = json.loads(bevelbook("keys", "list", shop, "--json"))["keys"]
    output = tmp_path / "site"
    build(shop, output, date.today())
    script = (output / "data/quotes.js").read_text(encoding="utf-8")
    data = json.loads(script.removeprefix("globalThis.bevelQuotes=").rstrip(";\n"))
    assert [one["id"] for one in data["keys"]] == [key["id"]]
    assert data["withdrawn"] == []
    assert (output / "quote/index.html").exists()
    assert "quote/index.html" not in (output / "sitemap.xml").read_text(encoding="utf-8")
    assert 'name="robots" content="noindex"' in (output / "quote/index.html").read_text(encoding="utf-8")
