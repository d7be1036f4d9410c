"""The commands on joints.     (cli/joints.py)"""

from __future__ import annotations

from typing import Annotated

from cyclopts import App, Parameter

from takeup.cli.saying import PROVED, print_out

joints = App(name="joints", help_format="plaintext", help="Kinds of joint: what holds them and what they take.")


@joints.command
def kinds(*, as_json: Annotated[bool, Parameter(name="--json", negative=())] = False) -> int:
    """List every kind of joint: how its thrust travels, what it takes, what it must never see, what a file says of it.

    Parameters
    ----------
    as_json
        Print a JSON document instead.
    """
    import json

    from takeup.papers.joint_kinds import kinds_document, kinds_lines

    print_out(json.dumps(kinds_document(), indent=1, ensure_ascii=False) if as_json else "\n".join(kinds_lines()))
    return PROVED


__all__ = ["joints"]
