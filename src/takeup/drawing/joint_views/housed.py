"""Joints whose bellows is pressed from outside, cut open.     (drawing/joint_views/housed.py)

The pipe on the right reaches into a housing that belongs to the pipe on the left. A ring on its inner end slides in the
housing as a guide; the bellows runs from that ring to the housing's end. What flows fills the housing outside the
bellows, so the pressure presses it from outside and draws it out.
"""

from __future__ import annotations

from takeup.drawing.joint_views.parts import (
    ABOVE,
    BELOW,
    LEFT,
    MIDDLE,
    RIGHT,
    STEEL,
    WHITE,
    Items,
    about,
    axis,
    base,
    bellows,
    label,
    pipe,
    plate,
    ring,
    thrust,
)

_BORE, _HOUSE = 7.5, 20.0  # radius of pipe and of housing [mm]
_FOLDS = (10.0, 15.0)
_WALL = 1.6


def _house(x: float, x_end: float, *, turned: bool = False, bore: float = _BORE, house: float = _HOUSE) -> Items:
    """Return a housing cut open, its fixed end at x and the sliding pipe at x_end; or the other way round."""
    middle = (x + x_end) / 2.0
    folds = tuple(part * house / _HOUSE for part in _FOLDS)

    def m(at: float) -> float:
        return 2.0 * middle - at if turned else at

    def between(first: float, last: float) -> tuple[float, float]:
        return min(m(first), m(last)), max(m(first), m(last))

    inner = x + 0.24 * (x_end - x)
    walls = tuple(
        plate((x, MIDDLE + side * house), (x_end, MIDDLE + side * (house - _WALL)), STEEL) for side in (-1, 1)
    )
    caps = tuple(
        plate((m(at) - _WALL / 2.0, MIDDLE + side * hole), (m(at) + _WALL / 2.0, MIDDLE + side * house), STEEL)
        for at, hole in ((x, bore), (x_end, bore + 1.2))
        for side in (-1, 1)
    )
    return (
        about(x, x_end, house, WHITE),
        *bellows(*between(inner, x_end), 7, (folds[0], folds[1])),
        about(*between(inner - 4.0, x_end), bore),
        *ring(m(inner), house - _WALL - 0.4, 2.6),
        about(*between(inner - 1.3, inner + 1.3), bore, WHITE),
        *walls,
        *caps,
    )


def externally_pressurised() -> Items:
    """Return one bellows in a housing."""
    return (
        *pipe(LEFT, 44.0, _BORE), *_house(44.0, 128.0), *pipe(128.0, RIGHT, _BORE), *axis(), *thrust(),
        *label("housing", (60.0, ABOVE), (60.0, MIDDLE - _HOUSE + 0.8)),
        *label("bellows", (100.0, ABOVE), (100.0, MIDDLE - 14.0)),
        *label("guide ring, slides in the housing", (62.0, BELOW), (64.2, MIDDLE + 17.0)),
        *label("line pressure, outside the bellows", (122.0, BELOW), (112.0, MIDDLE + 16.8)),
        *label("pipe that slides", (150.0, ABOVE), (146.0, MIDDLE - 6.0)),
    )  # fmt: skip


def double_externally_pressurised() -> Items:
    """Return two bellows in their housings, with an anchor base between."""
    return (
        *base(90.0, MIDDLE + _BORE), *pipe(LEFT, 34.0, _BORE), *_house(30.0, 80.0, turned=True),
        *pipe(80.0, 100.0, _BORE), *_house(100.0, 150.0), *pipe(150.0, RIGHT, _BORE), *axis(), *thrust(),
        *label("housing", (72.0, ABOVE), (72.0, MIDDLE - _HOUSE + 0.8)),
        *label("bellows", (46.0, ABOVE), (46.0, MIDDLE - 14.0)),
        *label("bellows", (134.0, ABOVE), (134.0, MIDDLE - 14.0)),
        *label("anchor base", (90.0, BELOW + 2.0), (90.0, MIDDLE + 19.0)),
        *label("guide ring", (122.0, BELOW - 4.0), (112.0, MIDDLE + 17.0)),
    )  # fmt: skip


def small_bore() -> Items:
    """Return a small compensator with its ends."""
    bore, house = 4.5, 12.0
    nuts = tuple(
        part
        for x in (40.0, 140.0)
        for part in (
            about(x - 5.0, x + 5.0, 7.5, STEEL),
            plate((x - 5.0, MIDDLE - 2.6), (x + 5.0, MIDDLE + 2.6), WHITE),
        )
    )
    return (
        *pipe(LEFT, 62.0, bore), *_house(58.0, 122.0, bore=bore, house=house), *pipe(122.0, RIGHT, bore), *nuts,
        *axis(), *thrust(),
        *label("housing", (70.0, ABOVE + 4.0), (70.0, MIDDLE - house + 0.8)),
        *label("bellows", (104.0, ABOVE + 4.0), (104.0, MIDDLE - 8.6)),
        *label("end: threaded, welded, flanged or sweat", (50.0, BELOW - 4.0), (40.0, MIDDLE + 6.0)),
        *label("guide ring", (92.0, BELOW - 10.0), (73.4, MIDDLE + 9.4)),
        *label("pipe that slides", (140.0, BELOW - 4.0), (130.0, MIDDLE + 3.5)),
    )  # fmt: skip
