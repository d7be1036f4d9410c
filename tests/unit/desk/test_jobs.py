"""Work beside the desk: told of, stopped, started anew, and its faults said in words."""

from __future__ import annotations

import os
import time

import pytest

from takeup.desk.work.jobs import Tell, Work
from takeup.errors import NothingFits

_LONGEST = 30.0  # s that a process may take to start on a busy machine


def doubled(tell: Tell, number: int) -> int:
    tell(0.5, "doubling", number)
    return 2 * number


def endless(tell: Tell, number: int) -> int:
    tell(0.25, f"at {number}", number)
    while True:
        time.sleep(0.01)


def nothing_fits(_tell: Tell) -> int:
    raise NothingFits("no joint fits")


def broken(_tell: Tell) -> int:
    raise ZeroDivisionError("a quotient")


def killed(_tell: Tell) -> int:
    os.kill(os.getpid(), 9)
    return 0


def until(work, *jobs):
    end = time.monotonic() + _LONGEST
    while work.progress.job not in jobs:
        assert time.monotonic() < end, work.progress
        time.sleep(0.005)
    return work.progress


@pytest.fixture
def heard():
    return []


def work_of(function, heard):
    return Work(function, lambda: heard.append(1))


def test_an_answer_comes_with_news(heard):
    work = work_of(doubled, heard)
    assert work.progress.job == "none"
    work.start(21)
    assert until(work, "done").answer == 42
    assert len(heard) >= 2
    work.start(4)  # by the spare
    assert until(work, "done").answer == 8
    work.close()


def test_a_stop_keeps_what_was_told(heard):
    work = work_of(endless, heard)
    work.ready()
    work.start(7)
    end = time.monotonic() + _LONGEST
    while work.progress.answer is None and time.monotonic() < end:
        time.sleep(0.005)
    work.stop()
    progress = work.progress
    assert (progress.job, progress.answer, progress.words) == ("stopped", 7, "at 7")
    work.stop()  # nothing runs: nothing happens
    assert work.progress.job == "stopped"
    work.close()


def test_only_the_last_start_counts(heard):
    work = work_of(endless, heard)
    work.start(1)
    work.start(2)
    end = time.monotonic() + _LONGEST
    while work.progress.answer is None and time.monotonic() < end:
        time.sleep(0.005)
    assert work.progress.answer == 2
    work.close()


@pytest.mark.parametrize(
    ("function", "words"),
    [
        (nothing_fits, "no joint fits"),
        (broken, "Takeup itself went wrong: ZeroDivisionError: a quotient"),
        (killed, "Takeup itself went wrong: its process ended"),
    ],
)
def test_a_fault_is_said(function, words, heard):
    work = work_of(function, heard)
    work.start()
    assert until(work, "failed").words == words
    work.close()
