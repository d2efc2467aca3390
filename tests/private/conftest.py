"""A copy of the wharf shop, whose prices hold tax, and costs that a test writes into it."""

import shutil
from pathlib import Path

import pytest

from quoting.catalog.load import load
from quoting.private.read import read_costs

WHARF = Path(__file__).parents[1] / "shops" / "wharf"


@pytest.fixture
def wharf(tmp_path):
    return Path(shutil.copytree(WHARF, tmp_path / "wharf"))


@pytest.fixture
def costs_of(wharf):
    """Costs and findings of these texts, a file each, in place of the shop's own."""

    def read(*texts, day=None, with_catalog=True):
        shutil.rmtree(wharf / "private")
        (wharf / "private").mkdir()
        for number, text in enumerate(texts):
            (wharf / "private" / f"{number}.yaml").write_text(text, encoding="utf-8")
        catalog = load(wharf, day)[0] if with_catalog else None
        return read_costs(wharf, catalog)

    return read
