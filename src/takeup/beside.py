"""Processes that work beside the one that began them.     (takeup/beside.py)"""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading


def stay_beside() -> None:
    """Leave interruptions to the process that began this one, and end when it has ended, however it did.

    To be called first in the new process. It ends whatever is computed in it then.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_the_other, daemon=True).start()


def _end_with_the_other() -> None:
    other = multiprocessing.parent_process()
    assert other is not None, "another process began this one"
    other.join()
    os._exit(1)


__all__ = ["stay_beside"]
