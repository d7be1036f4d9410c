"""Long work beside the desk: in a process of its own, told of as it goes, and stopped at once.     (desk/jobs.py)

A thread would not do: two seconds of computing in it would make every look wait. A work is a function at the top of a
module; its first argument is a `Tell`, its answer must be picklable.
"""

from __future__ import annotations

import multiprocessing
import signal
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from multiprocessing.connection import Connection
from typing import Generic, Protocol, TypeVar

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
    """

    def __init__(self, function: Callable[..., Answer], news: Callable[[], None]) -> None:
        self._function = function
        self._news = news
        self._lock = threading.Lock()
        self._process: multiprocessing.process.BaseProcess | None = None
        self._start = 0
        self._progress: Progress[Answer] = Progress(job="none")

    @property
    def progress(self) -> Progress[Answer]:
        """How far it is now."""
        with self._lock:
            return self._progress

    def start(self, *arguments: object) -> None:
        """Begin anew with these arguments; what ran is ended, and its answer never comes."""
        context = multiprocessing.get_context("spawn")
        ours, theirs = context.Pipe(duplex=False)
        process = context.Process(target=_worked, args=(theirs, self._function, arguments), daemon=True)
        with self._lock:
            self._end()
            self._start += 1
            number, self._process = self._start, process
            self._progress = Progress(job="running")
            process.start()
        theirs.close()
        threading.Thread(target=self._watch, args=(ours, number), daemon=True).start()
        self._news()

    def stop(self) -> None:
        """End what runs; what it has told stays told."""
        with self._lock:
            running = self._progress.job == "running"
            self._end()
            self._start += 1
            if running:
                self._progress = replace(self._progress, job="stopped")
        if running:
            self._news()

    def _end(self) -> None:
        if self._process is not None and self._process.is_alive():
            self._process.kill()
        self._process = None

    def _watch(self, connection: Connection, number: int) -> None:
        """Take what a process tells until it ends."""
        ended = False
        while not ended:
            try:
                progress: Progress[Answer] = connection.recv()
            except (EOFError, OSError):
                progress, ended = Progress(job="failed", words=f"{_FAULT}: its process ended"), True
            with self._lock:
                if number != self._start or self._progress.job != "running":
                    break
                kept = self._progress.answer if progress.answer is None else progress.answer
                self._progress = replace(progress, answer=kept)
            self._news()
        connection.close()


def _worked(connection: Connection, function: Callable[..., object], arguments: tuple[object, ...]) -> None:
    """Do a work in this process and send what it tells, and its answer."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the desk itself decides what an interruption ends

    def tell(share: float, words: str, so_far: object = None, /) -> None:
        connection.send(Progress[object](job="running", share=share, words=words, answer=so_far))

    try:
        connection.send(Progress(job="done", share=1.0, answer=function(tell, *arguments)))
    except TakeupError as error:
        connection.send(Progress[object](job="failed", words=str(error)))
    except Exception as error:  # noqa: BLE001 -- whatever it was, the page has to say that there is no answer
        connection.send(Progress[object](job="failed", words=f"{_FAULT}: {type(error).__name__}: {error}"))
    connection.close()
