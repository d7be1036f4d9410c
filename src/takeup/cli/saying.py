"""What the commands say, where, and the codes they leave with.     (cli/saying.py)"""

from __future__ import annotations

import os
import sys

PROVED, NOT_PROVED, BAD_INPUT, OWN_FAULT, INTERRUPTED = 0, 1, 2, 3, 130


def print_out(text: str) -> None:
    """Print a result to standard output; a reader that went away is no fault."""
    try:
        sys.stdout.write(f"{text}\n")
    except BrokenPipeError:
        _let_go_of_output()


def say(text: str) -> None:
    """Say a fault or a remark on standard error."""
    sys.stderr.write(f"{text}\n")


def _let_go_of_output() -> None:
    """Point standard output nowhere, so that closing it at exit raises nothing more."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
