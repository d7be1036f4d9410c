"""The kinds of joint as a document and as text on a terminal.     (papers/joints/joint_kinds.py)

Plain text, no colour, so that it reads the same in a log.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from takeup import __version__
from takeup.joints import ALL_KINDS, JointKind, RouteKind
from takeup.joints.telling import held_by, keys_needed, keys_possible
from takeup.results.plain import Json

_WIDTH, _HEAD = 100, 25


def kinds_document() -> dict[str, Json]:
    """Return every kind with what it says of itself."""
    return {"tool": {"name": "takeup", "version": __version__}, "kinds": [kind_part(kind) for kind in ALL_KINDS]}


def kind_part(kind: JointKind | RouteKind) -> dict[str, Json]:
    """Return one kind; keys of a route without a joint are empty."""
    joint = kind if isinstance(kind, JointKind) else None
    halves = 2 if joint is not None and joint.halves is not None else 1
    return {
        "name": kind.name,
        "joint": joint is not None,
        "bellows": 0 if joint is None else halves * joint.bellows,
        "held_by": held_by(kind),
        "restrained": None if joint is None else joint.restrained,
        "thrust": kind.thrust,
        "takes": kind.takes,
        "never": kind.never,
        "stiffness": kind.stiffness,
        "built_of": kind.built_of,
        "anchor_lost": kind.anchor_lost,
        "column_squirm": None if joint is None else joint.column_squirm,
        "rated": [] if joint is None else list(joint.rated),
        "keys_needed": list(keys_needed(kind)),
        "keys_possible": list(keys_possible(kind)),
    }


def kinds_lines() -> list[str]:
    """Return every kind as text: its name, then what is to be known of it."""
    lines = [f"{len(ALL_KINDS)} kinds of take-up: joints, then pipe that needs none."]
    for kind in ALL_KINDS:
        lines += ["", kind.name, *_told(kind_rows(kind))]
    return lines


def kind_rows(kind: JointKind | RouteKind) -> list[tuple[str, str]]:
    """Return what is to be known of a kind, head and words."""
    part = kind_part(kind)
    bellows = {0: "none", 1: "one", 2: "two"}[int(str(part["bellows"]))]
    if isinstance(kind, JointKind) and kind.bellows_words:
        bellows += f": {kind.bellows_words}"
    said = [
        ("bellows", bellows),
        ("held together by", held_by(kind)),
        ("thrust", kind.thrust),
        ("takes", kind.takes),
        ("must never see", kind.never),
        ("stiffness", kind.stiffness),
        ("length and weight from", kind.built_of),
        ("if its anchor lets go", kind.anchor_lost),
    ]
    if isinstance(kind, RouteKind):
        return [*said, ("in a line file", "the legs of its route; no take-up is written")]
    squirm = "yes: internal pressure loads it as a column" if kind.column_squirm else "no"
    keys = ", ".join(keys_needed(kind))
    more = f"; may have {', '.join(keys_possible(kind))}" if keys_possible(kind) else ""
    return [*said, ("column squirm", squirm), ("keys it needs", keys + more)]


def _told(rows: Sequence[tuple[str, str]]) -> list[str]:
    lines: list[str] = []
    for head, words in rows:
        lines += textwrap.wrap(
            words,
            _WIDTH,
            initial_indent=f"  {head}".ljust(_HEAD),
            subsequent_indent=" " * _HEAD,
            break_long_words=False,
            break_on_hyphens=False,
        )
    return lines


__all__ = ["kind_part", "kind_rows", "kinds_document", "kinds_lines"]
