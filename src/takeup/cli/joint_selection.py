"""The command that selects a joint.     (cli/joint_selection.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from takeup.cli.saying import BAD_INPUT, NOT_PROVED, PROVED, print_out, say
from takeup.joints.data import TakeUpKind


def select(
    file: Path | None = None,
    *,
    takeup: str | None = None,
    duty: Path | None = None,
    rank: Literal["price", "thrust", "length", "life"] | None = None,
    series: str | None = None,
    kind: TakeUpKind | None = None,
    as_json: Annotated[bool, Parameter(name="--json", negative=())] = False,
) -> int:
    """List the joints of a series that fit a place, ranked; for those that do not, the first reason why not.

    Parameters
    ----------
    file
        The line file; with it the name of a take-up. Its first joint in the order is proved by a study of the line.
    takeup
        Of the line file, whether its joint comes from a series or its data are typed in.
    duty
        What a place asks, as a text with units (YAML), where there is no line file.
    rank
        Which stands first: least price, least thrust on the anchors, least length, longest life. The file's where left
        out, price where it has none.
    series
        To choose from, where the take-up's own is not meant.
    kind
        That may stand there; every kind of the series where left out.
    as_json
        Print a JSON document instead.
    """
    import json

    from takeup.choose.selection.asked import selection_for_duty, selection_for_takeup
    from takeup.choose.selection.document import select_document
    from takeup.line.reading.reader import read_study
    from takeup.papers.joints.selection_sheet import selection_lines

    if (file is None) == (duty is None) or (file is not None and takeup is None):
        say("takeup: give a line file and --takeup NAME, or --duty DUTY")
        return BAD_INPUT
    if duty is not None:
        if series is not None or kind is not None or takeup is not None:
            say("takeup: a duty file says its series and kind itself; leave --takeup, --series and --kind out")
            return BAD_INPUT
        asked, found = selection_for_duty(duty, rank)
    else:
        assert file is not None, "one of both is there"
        assert takeup is not None, "a fault was told"
        study = read_study(file)
        asked, found = selection_for_takeup(study, file.parent, takeup, series=series, kind=kind, rank=rank)
    document = select_document(asked, found)
    if as_json:
        print_out(json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False))
    else:
        print_out("\n".join(selection_lines(document)))
    return PROVED if document["fits"] and (duty is not None or found.winner is not None) else NOT_PROVED


__all__ = ["select"]
