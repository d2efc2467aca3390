"""Quotes and fits as recorded: a change of a formula, a sentence or a price shows here to the cent and the tenth.

The figures are our own earlier output, no authority: those stand in tests/authorities.
"""

import pytest

from tests.golden.sessions import recorded, run

SESSIONS = recorded()


@pytest.mark.parametrize("path", SESSIONS, ids=lambda path: path.stem)
def test_session_is_as_recorded(path):
    command, text = SESSIONS[path]
    assert run(command) == text


def test_there_are_sessions():
    assert len(SESSIONS) >= 10
