"""A line of progress on standard error, where that is a terminal.     (cli/progress.py)"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def progress_line(what: str) -> Iterator[Callable[[str], None]]:
    """Show a line that is gone at the end; nothing at all where standard error is no terminal.

    Args:
        what: is under way, said until there is more to say.

    Yields:
        What to call with the words of each step.
    """
    if not sys.stderr.isatty():
        yield lambda _words: None
        return
    from rich.console import Console
    from rich.markup import escape

    with Console(stderr=True).status(escape(what), spinner="line") as status:
        yield lambda words: status.update(escape(words))


__all__ = ["progress_line"]
