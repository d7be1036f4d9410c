"""What holds a line, as plain solids of our own.     (drawing/mesh/holds.py)

In the axes of the place: x along the flow, y across, z the most upward normal; all sizes over the radius of the pipe as
drawn. A block is an anchor, a frame round the pipe a guide, a foot under it a rest, a rod over it a hanger, a cheek on
one side a stop. They stand where the structure is, and do not move with the pipe.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from takeup.drawing.mesh.boxes import box, post
from takeup.drawing.mesh.solid import Faces, Floats, Solid, joined

Shapes = list[tuple[Floats, Faces]]
_Make = Callable[[Floats, Floats, float], Shapes]
_FOOT = 2.6  # how far feet and plates are below the middle of the pipe
_UPRIGHT = 0.999  # cosine from which the flow goes straight up or down
_TOP = 6.0  # how far over it hangers begin


def hold_solid(name: str, kind: str, at: Floats, axes: Floats, radius: float) -> Solid | None:
    """Return the solid of a hold; None of a kind that holds nothing by itself (where the line goes on).

    Args:
        name: of the hold.
        kind: of it.
        at: its place, (3,) [m].
        axes: unit vectors as rows, right-handed, (3, 3).
        radius: of the pipe as drawn [m].
    """
    made = _KINDS.get(kind)
    return None if made is None else joined(name, "hold", made(at, axes, radius))


def _sized(
    at: Floats, axes: Floats, r: float, low: tuple[float, float, float], high: tuple[float, float, float]
) -> tuple[Floats, Faces]:
    x, y, z = low
    a, b, c = high
    return box(at, axes, (r * x, r * y, r * z), (r * a, r * b, r * c))


def _anchor(at: Floats, axes: Floats, r: float) -> Shapes:
    return [
        _sized(at, axes, r, (-1.1, -1.9, -_FOOT), (1.1, 1.9, 1.6)),
        _sized(at, axes, r, (-1.9, -2.7, -_FOOT - 0.5), (1.9, 2.7, -_FOOT)),
    ]


def _directional(at: Floats, axes: Floats, r: float) -> Shapes:
    """Return two cheeks along the pipe that a collar on it bears against, on a foot."""
    return [
        _sized(at, axes, r, (-1.5, -1.6, -_FOOT), (-0.7, 1.6, 1.5)),
        _sized(at, axes, r, (0.7, -1.6, -_FOOT), (1.5, 1.6, 1.5)),
        _sized(at, axes, r, (-1.9, -2.2, -_FOOT - 0.4), (1.9, 2.2, -_FOOT)),
    ]


def _stop(at: Floats, axes: Floats, r: float) -> Shapes:
    return [
        _sized(at, axes, r, (0.5, -1.6, -_FOOT), (1.4, 1.6, 1.5)),
        _sized(at, axes, r, (-0.6, -2.0, -_FOOT - 0.4), (1.9, 2.0, -_FOOT)),
    ]


def _spider(at: Floats, axes: Floats, r: float) -> Shapes:
    """Return a frame all round the pipe."""
    return [
        _sized(at, axes, r, (-0.4, -1.9, -1.9), (0.4, -1.45, 1.9)),
        _sized(at, axes, r, (-0.4, 1.45, -1.9), (0.4, 1.9, 1.9)),
        _sized(at, axes, r, (-0.4, -1.45, -1.9), (0.4, 1.45, -1.45)),
        _sized(at, axes, r, (-0.4, -1.45, 1.45), (0.4, 1.45, 1.9)),
    ]


def _slide(at: Floats, axes: Floats, r: float) -> Shapes:
    """Return a plate under the pipe with a cheek on either side."""
    return [
        _sized(at, axes, r, (-0.9, -1.9, -1.9), (0.9, 1.9, -1.2)),
        _sized(at, axes, r, (-0.9, -1.9, -1.2), (0.9, -1.4, 0.7)),
        _sized(at, axes, r, (-0.9, 1.4, -1.2), (0.9, 1.9, 0.7)),
    ]


def _planar(at: Floats, axes: Floats, r: float) -> Shapes:
    """Return a plate under the pipe and one over it."""
    return [
        _sized(at, axes, r, (-0.8, -2.0, -1.7), (0.8, 2.0, -1.2)),
        _sized(at, axes, r, (-0.8, -2.0, 1.2), (0.8, 2.0, 1.7)),
        _sized(at, axes, r, (-0.3, -2.3, -1.7), (0.3, -2.0, 1.7)),
        _sized(at, axes, r, (-0.3, 2.0, -1.7), (0.3, 2.3, 1.7)),
    ]


def _rest(at: Floats, axes: Floats, r: float) -> Shapes:
    return [
        _sized(at, axes, r, (-0.45, -0.7, -_FOOT), (0.45, 0.7, -1.0)),
        _sized(at, axes, r, (-1.0, -1.6, -_FOOT - 0.4), (1.0, 1.6, -_FOOT)),
    ]


def _hanger(at: Floats, axes: Floats, r: float) -> Shapes:
    return [
        post(at, axes, 0.18 * r, 0.9 * r, _TOP * r),
        _sized(at, axes, r, (-0.35, -1.2, -1.2), (0.35, 1.2, -0.95)),
        _sized(at, axes, r, (-1.0, -1.0, _TOP), (1.0, 1.0, _TOP + 0.35)),
    ]


def _spring(at: Floats, axes: Floats, r: float) -> Shapes:
    return [*_hanger(at, axes, r), post(at, axes, 0.75 * r, 3.0 * r, 5.2 * r)]


def _equipment(at: Floats, axes: Floats, r: float) -> Shapes:
    """Return the side of a vessel with its nozzle's flange."""
    return [
        _sized(at, axes, r, (-0.5, -3.2, -3.2), (0.5, 3.2, 3.2)),
    ]


_KINDS: dict[str, _Make] = {
    "main anchor": _anchor,
    "intermediate anchor": _anchor,
    "directional anchor": _directional,
    "stop": _stop,
    "spider guide": _spider,
    "slide guide": _slide,
    "planar guide": _planar,
    "rest": _rest,
    "hanger": _hanger,
    "spring hanger": _spring,
    "equipment": _equipment,
}


def upright(axes: Floats) -> Floats:
    """Return axes whose third points up as it may be; right-handed."""
    x = axes[0] / np.linalg.norm(axes[0])
    up = np.array([0.0, 1.0, 0.0]) if abs(x[2]) > _UPRIGHT else np.array([0.0, 0.0, 1.0])
    z = up - (up @ x) * x
    z /= np.linalg.norm(z)
    return np.array([x, np.cross(z, x), z])


__all__ = ["hold_solid", "upright"]
