"""A process that only studies imports none of the server: its start is what a first verdict waits for."""

from __future__ import annotations

import socket
import subprocess
import sys

import pytest

import takeup.desk
from takeup.desk.web.serving import LOOPBACK, _listening

WORDS = "import sys, takeup.desk.work.studying; print(*(name for name in sys.modules if name.startswith({0!r})))"


@pytest.mark.parametrize("heavy", ["starlette", "uvicorn", "takeup.choose.arrange", "takeup.papers", "matplotlib"])
def test_a_study_beside_the_desk_imports_no(heavy):
    done = subprocess.run([sys.executable, "-c", WORDS.format(heavy)], capture_output=True, text=True, check=True)
    assert done.stdout.split() == []


def test_what_the_desk_offers_is_there_when_asked_for():
    assert [callable(getattr(takeup.desk, name)) for name in takeup.desk.__all__] == [True] * 4
    with pytest.raises(AttributeError, match="has no attribute 'chair'"):
        _ = takeup.desk.chair


def test_small_answers_are_not_held_back():
    """Asyncio sends at once on sockets that say they are TCP; one that does not say so waited 40 ms, as measured."""
    listener = _listening(0, LOOPBACK)
    assert listener.proto == socket.IPPROTO_TCP
    listener.close()
