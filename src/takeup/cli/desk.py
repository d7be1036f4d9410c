"""The command that opens the desk: open.     (cli/desk.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from takeup.cli.saying import PROVED, print_out, say

_SHARED = (
    "Shared: whoever on the network knows the password can read and change this line and make papers beside it, until "
    "the desk is ended. Nothing is encrypted on the way. Others open this machine's address with the port given below."
)


def open_desk(
    file: Path,
    *,
    no_browser: Annotated[bool, Parameter(negative=())] = False,
    port: int = 0,
    share: Annotated[bool, Parameter(negative=())] = False,
) -> int:
    """Open the desk: the line on a page in the browser, served by this machine alone.

    The address, with the word that lets a browser in, is printed on one line. Ctrl-C ends the desk; changes that were
    not saved are kept beside the file and taken over by the next one.

    Parameters
    ----------
    file
        The line file.
    no_browser
        Only print the address, open no browser.
    port
        Of this machine; 0 takes any that is free.
    share
        Let others on the network in who know a password, which is asked for, or taken from TAKEUP_PASSWORD. They can
        read and change the line and make papers. Nothing is encrypted on the way: who can listen on the network can
        read the line and the password.
    """
    import sys
    import webbrowser

    from takeup.desk.web.serving import serve

    def opened(address: str) -> None:
        print_out(address)
        sys.stdout.flush()  # whoever reads the line through a pipe waits for it
        if not no_browser:
            webbrowser.open(address)

    password = _password() if share else None
    if share:
        say(_SHARED)
    ended = serve(file, port, opened, password=password)
    if ended.kept:
        say(f"{file}: changes that were not saved are kept beside it; the next desk takes them over.")
    return PROVED


def _password() -> str:
    """Return the password of a shared desk: from the environment, or as somebody types it."""
    import getpass
    import os

    return os.environ.get("TAKEUP_PASSWORD") or getpass.getpass("Password of the shared desk: ")
