"""Work of a long search done beside it, in as many processes as there are processors.     (choose/arrange/hands.py)

What is wanted next is asked for before it is needed, so that each process has something to do while the search waits
for the first. An answer is that of the same function in the search's own process: what a process has by itself is its
own memory of bays, and that changes no bit. A process that ends, or whose function fails, costs nothing but time: the
search does its task itself, and an error is then raised where it is seen.

A process takes half a second to begin, so that short lines are better off without.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess

from takeup.beside import stay_beside
from takeup.choose.arrange.ground import Ground
from takeup.mechanics import Memory

_MOST = 4  # processes: each holds on to a few hundred megabytes of what it found of a long line
_LONG = 300.0  # m of line: the studies of a shorter one take less than it takes to begin
_SELDOM = (50_000, 20, 100)  # garbage is looked for: results are millions of small things, none of them garbage
_ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


@dataclass(frozen=True, kw_only=True, slots=True)
class Own:
    """What a process has: what the search stands on, and what studies found of bays."""

    ground: Ground
    memory: Memory = field(default_factory=Memory)


Task = tuple[Callable[..., object], tuple[object, ...]]
"""A function of what a process has, and its other arguments; both can be pickled."""
Tasks = Mapping[Hashable, Task]


@dataclass(kw_only=True, slots=True)
class _Hand:
    process: BaseProcess
    connection: Connection
    doing: Hashable = None


class Hands:
    """Processes that do tasks of one search.

    Args:
        ground: of the search.
        count: how many.
    """

    def __init__(self, ground: Ground, count: int) -> None:
        self.ground, self.count = ground, count
        self._own = Own(ground=ground)
        self._wanted: dict[Hashable, Task] = {}
        self._answers: dict[Hashable, object] = {}
        with _one_thread_each():
            self._hands = [_begun(ground) for _ in range(count)]

    @property
    def idle(self) -> bool:
        """Whether a hand has nothing to do; answers that have come by now are taken."""
        while busy := [hand for hand in self._hands if hand.doing is not None and hand.connection.poll()]:
            self._take(busy[0])
        return any(hand.doing is None for hand in self._hands)

    def want(self, tasks: Tasks) -> None:
        """Have some tasks done, in their order; those wanted earlier that have not begun are wanted no more.

        Args:
            tasks: by any key; the same key is the same task.
        """
        doing = {hand.doing for hand in self._hands}
        doing_yet = {key: task for key, task in self._wanted.items() if key in doing}
        new = {key: task for key, task in tasks.items() if key not in doing and key not in self._answers}
        self._wanted = doing_yet | new
        self._feed()

    def answer(self, key: Hashable) -> object:
        """Return the answer of a task that is wanted, once it is there; it is told once.

        Args:
            key: of the task.
        """
        try:
            while key not in self._answers:
                self._feed()
                busy = {hand.connection: hand for hand in self._hands if hand.doing is not None}
                if not busy:
                    return self._done_here(key)
                for connection in wait(list(busy)):
                    self._take(next(hand for hand in busy.values() if hand.connection is connection))
        except BaseException:
            self.close()  # a message half read is no use any more
            raise
        return self._answers.pop(key)

    def close(self) -> None:
        """End every process, whatever it does."""
        for hand in self._hands:
            hand.process.kill()
            hand.process.join()
            hand.connection.close()
        self._hands = []

    def _feed(self) -> None:
        """Give each hand that is free the first task that none is doing."""
        doing = {hand.doing for hand in self._hands}
        for key, task in self._wanted.items():
            free = next((hand for hand in self._hands if hand.doing is None), None)
            if free is None:
                return
            if key not in doing:
                free.doing = key
                try:
                    free.connection.send(task)
                except OSError:
                    self._lost(free)

    def _take(self, hand: _Hand) -> None:
        """Take the answer of a hand; where it has none, its task is done here."""
        key = hand.doing
        try:
            done, answer = hand.connection.recv()
        except (EOFError, OSError):
            self._lost(hand)
            return
        hand.doing = None
        self._answers[key] = answer if done else self._done_here(key)
        self._wanted.pop(key, None)

    def _done_here(self, key: Hashable) -> object:
        function, arguments = self._wanted.pop(key)
        return function(self._own, *arguments)

    def _lost(self, hand: _Hand) -> None:
        hand.connection.close()
        hand.process.join()
        self._hands.remove(hand)


@contextmanager
def hands_for(ground: Ground) -> Iterator[Hands | None]:
    """Have hands for a search on a long line where there are processors for them; None elsewhere.

    Args:
        ground: of the search.
    """
    count = min(_processors(), _MOST)
    length = sum(course.route.length for course in ground.courses)
    if count == 1 or length < _LONG:
        yield None
        return
    hands, before = Hands(ground, count), gc.get_threshold()
    gc.set_threshold(*_SELDOM)
    try:
        yield hands
    finally:
        gc.set_threshold(*before)
        hands.close()


def _processors() -> int:
    """Return on how many processors this process may run."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _begun(ground: Ground) -> _Hand:
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_worked, args=(theirs, ground), daemon=True)
    process.start()
    theirs.close()
    return _Hand(process=process, connection=ours)


@contextmanager
def _one_thread_each() -> Iterator[None]:
    """Begin processes whose linear algebra keeps to one processor: there are as many of them as processors."""
    before = {name: os.environ.get(name) for name in _ONE_THREAD}
    os.environ.update(dict.fromkeys(_ONE_THREAD, "1"))
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value


def _worked(connection: Connection, ground: Ground) -> None:
    """Do one task after the other, until the search ends."""
    stay_beside()
    own = Own(ground=ground)
    gc.set_threshold(*_SELDOM)
    while True:
        try:
            function, arguments = connection.recv()
        except (EOFError, OSError):
            return
        try:
            answer = (True, function(own, *arguments))
        except Exception:  # noqa: BLE001 -- whatever it was, the search meets it again when it does the task itself
            answer = (False, None)
        connection.send(answer)


__all__ = ["Hands", "Own", "Task", "hands_for"]
