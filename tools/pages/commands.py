"""The page of the commands, from the help that they print.     (pages/commands.py)"""

from __future__ import annotations

import io

from rich.console import Console
from tools.pages import page, table

from takeup import cli

_WIDTH = 100


def names() -> list[str]:
    """Return the names of the commands, those of a group after it."""
    found: list[str] = []
    for name in sorted(name for name in cli.app if not name.startswith("-")):
        group = sorted(inner for inner in cli.app[name] if not inner.startswith("-"))
        found += [name, *(f"{name} {inner}" for inner in group)]
    return found


def help_text(name: str | None) -> str:
    """Return what `--help` prints, without colour."""
    stream = io.StringIO()
    console = Console(file=stream, width=_WIDTH, no_color=True, force_terminal=False, highlight=False)
    cli.app.help_print([] if name is None else name.split(), console=console)
    return "\n".join(line.rstrip() for line in stream.getvalue().strip().splitlines())


def commands_page() -> str:
    """Return the page."""
    codes = [
        (str(cli.PROVED), "nothing fails and everything mandatory ran; `close` is included"),
        (str(cli.NOT_PROVED), "a check fails, the line is not held or not solved, or the verdict is `not proved`"),
        (
            str(cli.BAD_INPUT),
            "bad input: a file with faults, a file that is not there, a wrong word on the command line",
        ),
        (str(cli.OWN_FAULT), "a fault of our own: one line, and the name of a file with the details"),
        (str(cli.INTERRUPTED), "interrupted"),
    ]
    lines = [
        "# Commands",
        "",
        "`python3 go.py COMMAND` prepares the environment and runs the command; in a prepared environment the",
        "command is `takeup COMMAND`. Results go to standard output, faults to standard error.",
        "",
        "```text",
        help_text(None),
        "```",
    ]
    for name in names():
        lines += ["", f"## {name}", "", "```text", help_text(name), "```"]
    return page(*lines, "", "## Exit codes", "", *table(("code", "meaning"), codes))
