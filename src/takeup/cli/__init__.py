"""The commands: parse, call, print.     (cli/__init__.py)

Exit 0: nothing fails and everything mandatory ran. 1: a check fails, a state is unsolved or not held, nothing fits, or
the verdict is "not proved". 2: bad input. 3: our own fault. 130: interrupted. Results go to standard output, faults to
standard error. Heavy rooms are imported inside the commands, so that `takeup --help` stays fast. One file a group of
commands.
"""

from __future__ import annotations

import os
import sys
import tempfile
import traceback

from cyclopts import App, CycloptsError

from takeup import __version__
from takeup.cli.arranging import arrange
from takeup.cli.bellows import bellows
from takeup.cli.desk import open_desk
from takeup.cli.joints import joints
from takeup.cli.lines import new, study, validate
from takeup.cli.papers import papers
from takeup.cli.saying import BAD_INPUT, INTERRUPTED, NOT_PROVED, OWN_FAULT, PROVED, say
from takeup.cli.scenes import scene
from takeup.errors import InputError, NothingFits, TakeupError

# The matrices here are small: threads of the linear algebra would only wait for one another, by far longest on a busy
# machine, and one thread gives the same digits on any number of cores. Whoever sets the variable keeps it.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

app = App(
    name="takeup",
    version=__version__,
    help_format="plaintext",  # markdown would cost a tenth of a second at every start
    help="Where a hot pipe is held, what takes up its growth, and the proof of it.",
    suppress_keyboard_interrupt=False,  # it would leave with 130 by itself, and say nothing
)
for command in (new, validate, study, papers, arrange, scene, bellows, joints):
    app.command(command)
app.command(open_desk, name="open")


def main(arguments: list[str] | None = None) -> None:
    """Run one command and leave with its exit code."""
    sys.exit(run(sys.argv[1:] if arguments is None else arguments))


def run(arguments: list[str]) -> int:
    """Run one command.

    Args:
        arguments: the words after `takeup`.

    Returns:
        The exit code, as the module header says.
    """
    try:
        answer = app(arguments, exit_on_error=False, print_error=True, result_action="return_value")
    except CycloptsError:
        return BAD_INPUT
    except KeyboardInterrupt:
        say("interrupted")
        return INTERRUPTED
    except NothingFits as error:
        say(f"takeup: {error}")
        return NOT_PROVED
    except (TakeupError, OSError) as error:
        say(_in_words(error))
        return BAD_INPUT
    except Exception as error:  # noqa: BLE001 -- the last fence: a user sees one line, never a traceback
        say(f"takeup: a fault of our own: {type(error).__name__}: {error}. Details: {_log()}")
        return OWN_FAULT
    return answer if isinstance(answer, int) else PROVED


def _in_words(error: TakeupError | OSError) -> str:
    """Return a fault as one line, or as many as it has; those of a file begin with their place."""
    if isinstance(error, InputError):
        return str(error)
    if isinstance(error, OSError):
        return f"takeup: {error.filename or ''}: {(error.strerror or str(error)).lower()}"
    return f"takeup: {error}"


def _log() -> str:
    """Write the traceback to a file of its own and return its path."""
    handle, name = tempfile.mkstemp(prefix="takeup-", suffix=".log")
    with os.fdopen(handle, "w", encoding="utf-8") as stream:
        stream.write(traceback.format_exc())
    return name


__all__ = ["BAD_INPUT", "INTERRUPTED", "NOT_PROVED", "OWN_FAULT", "PROVED", "app", "main", "run"]
