"""All calls with CPython's answers, worked out once."""

import pytest

from tests.kernel.parity.gate import recorded


@pytest.fixture(scope="session")
def folder():
    return recorded()
