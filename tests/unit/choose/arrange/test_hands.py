"""Work of a search in other processes: the same answers, whatever becomes of the processes."""

from __future__ import annotations

import gc
import os
import signal
import time

import pytest
from tests.bare_lines import bare_text, ground_on

from takeup.choose.arrange.hands import Hands, hands_for
from takeup.choose.arrange.propose import hunt_of, propose
from takeup.choose.arrange.spans import plans_of
from takeup.choose.arrange.tasks import plans_by
from takeup.errors import TakeupError

KEYS = bare_text("20 m east", "4 m north", "24 m east", may=("{ at: 13 m }", "{ at: 31 m }"))


@pytest.fixture(scope="module")
def ground():
    return ground_on(KEYS)


@pytest.fixture
def hands(ground):
    both = Hands(ground, 2)
    yield both
    both.close()


def number(_own, value):
    return os.getpid(), value


def refused(_own):
    raise TakeupError("refused")


def killed(_own, search):
    if os.getpid() != search:
        os.kill(os.getpid(), signal.SIGKILL)
    return "done"


def interrupted(_own):
    os.kill(os.getppid(), signal.SIGINT)
    time.sleep(60.0)  # the search waits for it, and is interrupted


def told(found):
    return [repr(one) for one in found]


@pytest.mark.parametrize("at_once", [1, 2, 3, 8])
def test_plans_of_hands_are_those_of_one_process(at_once, ground, hands, monkeypatch):
    """Four places, so that some parts are full, one is not, and one holds all."""
    monkeypatch.setattr("takeup.choose.arrange.tasks._AT_ONCE", at_once)
    plans, refusals = plans_by(hands)
    own, own_refusals = plans_of(ground)
    assert len(own) > 10  # something was worked out
    assert (told(plans), told(refusals)) == (told(own), told(own_refusals))


def test_proposals_of_hands_are_those_of_one_process(ground, hands):
    """To the last bit: the same functions of the same numbers, BLAS on one thread here and there or not."""
    by_hands, alone = hunt_of(ground, hands), hunt_of(ground)
    for hunt in (by_hands, alone):
        propose(hunt, 3)
    assert len(alone.proposals) == 3
    assert by_hands.studies == alone.studies
    for one, other in zip(by_hands.proposals, alone.proposals, strict=True):
        assert (one.path, one.cost, one.anchor_loads) == (other.path, other.cost, other.anchor_loads)
        assert one.found.results == other.found.results


def test_tasks_are_done_elsewhere_each_once(hands):
    hands.want({value: (number, (value,)) for value in range(6)})
    found = [hands.answer(value) for value in reversed(range(6))]
    assert [value for _, value in found] == list(reversed(range(6)))
    assert os.getpid() not in {process for process, _ in found}


def test_what_is_wanted_no_more_is_not_done(hands):
    hands.want({"old": (number, (1,)), "older": (number, (2,)), "oldest": (number, (3,))})
    hands.want({"new": (number, (4,))})
    assert hands.answer("new")[1] == 4
    with pytest.raises(KeyError):
        hands.answer("oldest")


def test_error_of_a_task_is_raised_where_its_answer_is_asked_for(hands):
    hands.want({"bad": (refused, ())})
    with pytest.raises(TakeupError, match="refused"):
        hands.answer("bad")


def test_killed_processes_leave_their_tasks_to_the_search(hands):
    hands.want({key: (killed, (os.getpid(),)) for key in "abc"})
    assert [hands.answer(key) for key in "abc"] == ["done"] * 3


def test_interruption_ends_every_process(hands):
    hands.want({"never": (interrupted, ())})
    with pytest.raises(KeyboardInterrupt):
        hands.answer("never")
    hands.want({"own": (number, (5,))})
    assert hands.answer("own") == (os.getpid(), 5)


def test_long_lines_have_hands_where_there_are_processors(monkeypatch):
    """20 legs of 16 m are 320 m, more than the 300 m from which they pay."""
    long = ground_on(bare_text(*(f"16 m {way}" for way in ("east", "north") * 10), may=()))
    before = gc.get_threshold()
    monkeypatch.setattr("takeup.choose.arrange.hands._processors", lambda: 2)
    with hands_for(long) as hands:
        assert hands.count == 2
        hands.want({"one": (number, (1,))})
        process, _ = hands.answer("one")
    assert gc.get_threshold() == before
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)  # it has ended
    monkeypatch.setattr("takeup.choose.arrange.hands._processors", lambda: 1)
    with hands_for(long) as hands:
        assert hands is None


def test_short_lines_have_no_hands(ground):
    with hands_for(ground) as none:
        assert none is None
