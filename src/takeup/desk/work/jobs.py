"""Long work beside the desk: in a process of its own, told of as it goes, and stopped at once.     (desk/work/jobs.py)

A thread would not do: two seconds of computing in it would make every look wait. A work is a function at the top of a
module; its first argument is a `Tell`, its answer must be picklable. A spare process that has imported everything
stands ready, so that no start waits for that.
"""

from __future__ import annotations

import multiprocessing
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Generic, Protocol, TypeVar

from takeup.beside import stay_beside
from takeup.desk.interface import Job
from takeup.errors import TakeupError

Answer = TypeVar("Answer")
_FAULT = "Takeup itself went wrong"


class Tell(Protocol):
    """What a work tells on its way."""

    def __call__(self, share: float, words: str, so_far: object = None, /) -> None:
        """Say how far it is.

        Args:
            share: of the way, 0 to 1.
            words: what it is at.
            so_far: an answer with what there is already, kept if the work is stopped; None leaves what was told before.
        """


@dataclass(frozen=True, kw_only=True, slots=True)
class Progress(Generic[Answer]):
    """How far a work is.

    Args:
        job: whether it runs or how it ended.
        share: of the way, 0 to 1.
        words: what it is at, or why it failed.
        answer: once it is done; before, what there was so far, where the work tells that.
    """

    job: Job
    share: float = 0.0
    words: str = ""
    answer: Answer | None = None


class Work(Generic[Answer]):
    """One work that can be started again and again; only the last start counts.

    Args:
        function: what is done; called with a `Tell` first, in a process of its own.
        news: called without a lock held, from another thread, whenever something has changed.
        told: what is told of the words that it says.
    """

    def __init__(
        self, function: Callable[..., Answer], news: Callable[[], None], told: Callable[[str], str] = str
    ) -> None:
        self._function = function
        self._news = news
        self._told = told
        self._lock = threading.Lock()
        self._running: BaseProcess | None = None
        self._spare: tuple[BaseProcess, Connection] | None = None
        self._starts = 0
        self._progress: Progress[Answer] = Progress(job="none")

    @property
    def progress(self) -> Progress[Answer]:
        """How far it is now."""
        with self._lock:
            return self._progress

    def ready(self) -> None:
        """Have a process stand ready, so that the first start is quick too."""
        with self._lock:
            if self._spare is None:
                self._spare = self._waiting()

    def start(self, *arguments: object) -> None:
        """Begin anew with these arguments; what ran is ended, and its answer never comes."""
        with self._lock:
            self._end()
            self._starts += 1
            number = self._starts
            process, connection = self._spare or self._waiting()
            self._running, self._spare = process, None
            self._progress = Progress(job="running")
        watching = threading.Thread(target=self._watch, args=(process, connection, arguments, number), daemon=True)
        watching.start()
        self._news()

    def stop(self) -> None:
        """End what runs; what it has told stays told."""
        with self._lock:
            running = self._progress.job == "running"
            self._end()
            self._starts += 1
            if running:
                self._progress = replace(self._progress, job="stopped")
        if running:
            self._news()

    def close(self) -> None:
        """End every process of this work."""
        with self._lock:
            self._end()
            self._starts += 1
            if self._spare is not None:
                self._spare[0].kill()
                self._spare = None

    def _waiting(self) -> tuple[BaseProcess, Connection]:
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe()
        process = context.Process(target=_worked, args=(theirs, self._function), daemon=True)
        process.start()
        theirs.close()
        return process, ours

    def _end(self) -> None:
        if self._running is not None and self._running.is_alive():
            self._running.kill()
        self._running = None

    def _watch(self, process: BaseProcess, connection: Connection, arguments: tuple[object, ...], number: int) -> None:
        """Say to a process what to do, and take what it tells until it ends."""
        try:
            connection.send(arguments)
            while self._took(connection.recv(), number):
                pass
        except (EOFError, OSError):
            self._took(Progress(job="failed", words=f"{_FAULT}: its process ended"), number)
        connection.close()
        process.join()  # it has ended or is ended: nothing of it stays
        with self._lock:
            if number == self._starts and self._spare is None:
                self._spare = self._waiting()

    def _took(self, progress: Progress[Answer], number: int) -> bool:
        """Take what a process tells; return whether there is more to come that counts."""
        with self._lock:
            if number != self._starts or self._progress.job != "running":
                return False
            kept = self._progress.answer if progress.answer is None else progress.answer
            self._progress = replace(progress, answer=kept, words=self._told(progress.words))
        self._news()
        return progress.job == "running"


def _worked(connection: Connection, function: Callable[..., object]) -> None:
    """Wait for what is to be done, do it, and send what it tells, and its answer."""
    stay_beside()

    def tell(share: float, words: str, so_far: object = None, /) -> None:
        connection.send(Progress(job="running", share=share, words=words, answer=so_far))

    try:
        arguments: tuple[object, ...] = connection.recv()
    except EOFError:
        return  # the desk has ended and nothing is wanted any more
    try:
        connection.send(Progress(job="done", share=1.0, answer=function(tell, *arguments)))
    except TakeupError as error:
        connection.send(Progress(job="failed", words=str(error)))
    except Exception as error:  # noqa: BLE001 -- whatever it was, the page has to say that there is no answer
        connection.send(Progress(job="failed", words=f"{_FAULT}: {type(error).__name__}: {error}"))
    connection.close()
