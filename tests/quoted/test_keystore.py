"""A shop's keys on disk: the private part for its owner alone, the public part for everybody."""

import os
import shutil
import stat
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.findings import errors
from quoting.keeping.whole import StaleError
from quoting.quoted import published
from quoting.quoted.keystore import KeyringError, file_of, new_key, retire_key, signing_key, state_of
from quoting.quoted.private import OpenToOthersError
from quoting.quoted.published import NotOursError, put, read_published, with_entry
from quoting.quoted.signing import Private, good

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DAY = date(2026, 11, 25)
POSIX = pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such rights")


@pytest.fixture
def shop(tmp_path):
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


def keys_of(shop):
    catalog, findings = load(shop, DAY)
    assert errors(findings) == []
    return catalog.keys


def test_a_new_key_signs_and_everybody_can_see_that_it_does(shop):
    name = new_key(shop, DAY)
    (public,) = keys_of(shop)
    assert (public.id, public.since, public.retired, public.recalled) == (name, DAY, None, False)
    key = signing_key(shop)
    assert key.id == name
    assert good(public.public, key.sign(b"words"), b"words")
    assert state_of(shop, public) == "signs"


@POSIX
def test_the_private_part_is_for_its_owner_alone_whatever_the_usual_rights_are(shop):
    before = os.umask(0)
    try:
        name = new_key(shop, DAY)
    finally:
        os.umask(before)
    path = file_of(shop, name)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


@POSIX
@pytest.mark.parametrize("rights", [0o640, 0o604, 0o644, 0o620, 0o602, 0o666])
def test_a_private_key_that_others_may_read_or_change_is_not_used(shop, rights):
    path = file_of(shop, new_key(shop, DAY))
    path.chmod(rights)
    with pytest.raises(OpenToOthersError, match="others may read this file"):
        signing_key(shop)
    path.chmod(0o600)
    assert signing_key(shop)


def test_no_version_history_takes_the_private_part(shop):
    new_key(shop, DAY)

    def git(*words):
        return subprocess.run(["git", "-C", str(shop), *words], check=True, capture_output=True, text=True).stdout

    git("init", "-q")
    git("add", "--all")
    names = git("ls-files").splitlines()
    assert "quotes.yaml" in names
    assert [name for name in names if name.startswith("private/")] == []


def test_the_newest_key_signs_and_the_file_keeps_what_its_owner_wrote(shop):
    first = new_key(shop, DAY)
    path = shop / "quotes.yaml"
    path.write_text(path.read_text(encoding="utf-8") + "# our own remark\n", encoding="utf-8")
    second = new_key(shop, DAY)
    assert [key.id for key in keys_of(shop)] == [second, first]
    assert signing_key(shop).id == second
    assert path.read_text(encoding="utf-8").endswith("# our own remark\n")
    assert path.read_text(encoding="utf-8").startswith("# What the site publishes")


def test_a_retired_key_signs_no_more_and_its_older_one_takes_over(shop):
    first, second = new_key(shop, DAY), new_key(shop, DAY)
    retire_key(shop, second, date(2027, 1, 1), recalled=False)
    assert signing_key(shop).id == first
    newest = keys_of(shop)[0]
    assert (newest.retired, newest.recalled) == (date(2027, 1, 1), False)
    assert state_of(shop, newest) == "out of use since 2027-01-01"
    retire_key(shop, second, date(2027, 2, 1), recalled=True)
    assert keys_of(shop)[0].recalled
    assert keys_of(shop)[0].retired == date(2027, 1, 1)
    with pytest.raises(KeyringError, match="out of use since 2027-01-01"):
        retire_key(shop, second, date(2027, 3, 1), recalled=True)


def test_what_is_not_there_is_told(shop):
    with pytest.raises(KeyringError, match="there is no key to sign with; make one"):
        signing_key(shop)
    with pytest.raises(KeyringError, match=r"there is no key 12345678$"):
        retire_key(shop, "12345678", DAY, recalled=False)
    name = new_key(shop, DAY)
    with pytest.raises(KeyringError, match=f"there is no key 12345678: there is {name}"):
        retire_key(shop, "12345678", DAY, recalled=False)
    file_of(shop, name).unlink()
    with pytest.raises(KeyringError, match=f"the private key of {name} is not in private/keys"):
        signing_key(shop)


def test_a_private_key_under_a_wrong_name_is_not_used(shop):
    path = file_of(shop, new_key(shop, DAY))
    path.write_bytes(Private.new().pem)
    with pytest.raises(KeyringError, match="another key than its name says"):
        signing_key(shop)
    path.write_bytes(b"nothing\n")
    with pytest.raises(KeyringError, match="no private key"):
        signing_key(shop)


def test_an_own_layout_is_left_as_it_is(shop):
    name = new_key(shop, DAY)
    path = shop / "quotes.yaml"
    (key,) = keys_of(shop)
    text = path.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if name in line)
    flow = text.replace("keys:\n" + line, "keys: [" + line.strip().removeprefix("- ") + "]")
    path.write_text(flow, encoding="utf-8")
    assert keys_of(shop) == (key,)
    with pytest.raises(NotOursError, match="by hand"):
        new_key(shop, DAY)
    with pytest.raises(NotOursError, match="by hand"):
        retire_key(shop, name, DAY, recalled=False)
    assert path.read_text(encoding="utf-8") == flow


def test_a_file_with_faults_is_not_written_over(shop):
    (shop / "quotes.yaml").write_text("keys:\n  - {id: nothing}\n", encoding="utf-8")
    with pytest.raises(NotOursError, match="has faults: see `bevelbook check`"):
        new_key(shop, DAY)
    assert not (shop / "private").exists()


def test_what_somebody_else_wrote_meanwhile_is_not_lost(shop):
    new_key(shop, DAY)
    before, _, _ = read_published(shop)
    after = with_entry(before, "withdrawn", f"{{hash: {'0' * 64}, on: {DAY}}}")
    new_key(shop, DAY)
    with pytest.raises(StaleError):
        put(shop, before, after)
    assert len(keys_of(shop)) == 2


def test_a_change_that_would_spoil_the_file_is_not_made(shop):
    new_key(shop, DAY)
    before, _, _ = read_published(shop)
    with pytest.raises(NotOursError, match="left as it is"):
        put(shop, before, with_entry(before, "withdrawn", "{hash: 12, on: never}"))
    assert (shop / "quotes.yaml").read_bytes() == before
    assert published.HEAD.encode() in before


FAULTS = {
    "a key of another length": ("key: {key}", "key: abc", "must be a public key"),
    "an id that is not the key's": ("id: {id}", "id: 00000000", "is not the id of this key"),
    "no such day": ("since: 2026-11-25", "since: 2026-02-30", "since"),
    "retired before it was made": ("since: 2026-11-25", "since: 2026-11-25, retired: 2026-11-24", "is before `since`"),
    "an unknown field": ("since: 2026-11-25", "since: 2026-11-25, lost: yes", "no field `lost`"),
    "no day": (", since: 2026-11-25", "", "has no `since`"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_faults_of_the_file_are_told_by_check(shop, fault):
    new_key(shop, DAY)
    path = shop / "quotes.yaml"
    text = path.read_text(encoding="utf-8").replace('"', "")
    (key,) = keys_of(shop)
    old, new, said = FAULTS[fault]
    shown = text.split("key: ")[1].split(",")[0]
    old = old.format(key=shown, id=key.id)
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    catalog, findings = load(shop, DAY)
    assert catalog is None
    assert [found.message for found in findings if said in found.message]


def test_a_key_that_is_written_twice_is_told(shop):
    new_key(shop, DAY)
    path = shop / "quotes.yaml"
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join([*lines, lines[-1]]) + "\n", encoding="utf-8")
    assert [found.code for found in load(shop, DAY)[1]] == ["duplicate-id"]


def test_a_link_that_leads_out_of_the_shop_is_not_read(shop, tmp_path):
    (tmp_path / "elsewhere.yaml").write_text("keys: []\n", encoding="utf-8")
    (shop / "quotes.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    assert [found.code for found in load(shop, DAY)[1]] == ["outside-folder"]
