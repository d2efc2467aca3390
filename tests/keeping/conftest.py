"""A copy of the corner shop that tests may change, and its prices of a day."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from quoting.catalog.load import load_written
from quoting.findings import errors
from quoting.keeping.standing import standing

CORNER = Path(__file__).parents[1] / "shops" / "corner"
DAY = date(2026, 6, 1)


@pytest.fixture
def corner(tmp_path):
    return Path(shutil.copytree(CORNER, tmp_path / "corner"))


@pytest.fixture
def stand(corner):
    """The prices of a day, as they stand in the files now."""

    def at(day=DAY):
        catalog, findings = load_written(corner)
        assert errors(findings) == []
        return standing(corner, catalog, day)

    return at
