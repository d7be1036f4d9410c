"""Joints of bellows in a row, with nothing or rods across them, and doubles.     (drawing/joint_views/straight.py)"""

from __future__ import annotations

from takeup.drawing.joint_views.parts import (
    ABOVE,
    BELOW,
    CREST,
    LEFT,
    MIDDLE,
    PIPE,
    RIGHT,
    Items,
    axis,
    base,
    bellows,
    label,
    pipe,
    ring,
    rods,
    thrust,
)

_ROD = 18.5
_TOP = MIDDLE - _ROD
_ENDS = (52.0, 128.0)  # rings of a joint with rods


def single() -> Items:
    """Return a single bellows."""
    return (
        *pipe(LEFT, 66.0), *pipe(114.0, RIGHT), *bellows(66.0, 114.0), *axis(), *thrust(),
        *label("bellows", (90.0, ABOVE), (90.0, MIDDLE - CREST + 1.0)),
        *label("pipe end", (38.0, BELOW), (38.0, MIDDLE + PIPE - 1.5)),
        *label("convolution", (86.0, BELOW), (86.0, MIDDLE + CREST - 1.0)),
    )  # fmt: skip


def rodded(gap: float) -> Items:
    """Return a single bellows with rods across it; a gap between ring and nut makes them limit rods."""
    first, last = _ENDS
    said = label("nut, set back by the gap", (146.0, ABOVE), (last + gap + 2.3, _TOP - 1.0)) if gap else ()
    return (
        *pipe(LEFT, 68.0), *pipe(112.0, RIGHT), *bellows(68.0, 112.0), *ring(first, 21.5), *ring(last, 21.5),
        *rods(first, last, _ROD, gap), *axis(), *(thrust() if gap else ()),
        *label("bellows", (90.0, BELOW), (90.0, MIDDLE + CREST - 1.0)),
        *label("limit rod" if gap else "tie rod", (90.0, ABOVE), (90.0, _TOP)),
        *(said or label("nut bears on its lug", (146.0, ABOVE), (last + 2.3, _TOP - 1.0))),
        *label("lug ring", (first, BELOW), (first, MIDDLE + _ROD - 5.0)),
    )  # fmt: skip


def universal(*, across: str = "", gap: float = 0.0) -> Items:
    """Return two bellows and a spool, with no rods, rods across the joint, or rods across each bellows."""
    parts = (
        *pipe(LEFT, 52.0), *bellows(52.0, 74.0, 4), *pipe(74.0, 106.0), *bellows(106.0, 128.0, 4), *pipe(128.0, RIGHT)
    )  # fmt: skip
    names = (
        *label("spool", (90.0, BELOW), (90.0, MIDDLE + PIPE - 1.5)),
        *label("bellows", (63.0, BELOW), (63.0, MIDDLE + CREST - 1.0)),
        *label("bellows", (117.0, BELOW), (117.0, MIDDLE + CREST - 1.0)),
    )
    if not across:
        return (*parts, *axis(), *thrust(), *names)
    spans = ((44.0, 136.0),) if across == "the joint" else ((46.0, 80.0), (100.0, 134.0))
    rings = tuple(part for span in spans for x in span for part in ring(x, 21.5))
    tied = tuple(part for span in spans for part in rods(*span, _ROD, gap))
    middle = sum(spans[0]) / 2.0
    nut = spans[-1][1] + gap + 2.3
    return (
        *parts, *rings, *tied, *axis(), *(thrust() if gap else ()), *names,
        *label("limit rod" if gap else "tie rod", (middle, ABOVE), (middle, _TOP)),
        *label("nut, set back" if gap else "nut bears on its lug", (148.0, ABOVE), (nut, _TOP - 1.0)),
    )  # fmt: skip


def double() -> Items:
    """Return two bellows with an anchor base between."""
    return (
        *pipe(LEFT, 42.0), *bellows(42.0, 72.0, 5), *base(90.0, MIDDLE + PIPE), *pipe(72.0, 108.0),
        *bellows(108.0, 138.0, 5), *pipe(138.0, RIGHT), *axis(), *thrust(),
        *label("bellows of one half", (57.0, ABOVE), (57.0, MIDDLE - CREST + 1.0)),
        *label("bellows of the other", (123.0, ABOVE), (123.0, MIDDLE - CREST + 1.0)),
        *label("anchor base", (60.0, BELOW - 6.0), (87.0, MIDDLE + 17.0)),
    )  # fmt: skip
