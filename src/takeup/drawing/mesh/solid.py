"""A closed solid of triangles.     (drawing/mesh/solid.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Faces = NDArray[np.int64]
Sort = Literal["pipe", "bellows", "hold"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Solid:
    """A closed solid; seen from outside, its faces run counterclockwise.

    Args:
        name: of the thing.
        sort: what it is drawn as.
        vertices: (n, 3) [m].
        quads: its flat faces, (m, 4); a triangle repeats its last corner.
        moved: how far each vertex is moved, not exaggerated, (n,) [m]; zero of what holds the line.
    """

    name: str
    sort: Sort
    vertices: Floats
    quads: Faces
    moved: Floats

    @property
    def triangles(self) -> Faces:
        """Its faces as triangles, (k, 3)."""
        first = self.quads[:, [0, 1, 2]]
        whole = self.quads[:, 2] != self.quads[:, 3]
        return np.concatenate([first, self.quads[whole][:, [0, 2, 3]]])


def cross(one: Floats, other: Floats) -> Floats:
    """Return the cross product of vectors, (..., 3); of a few of them in a fraction of the time of `numpy.cross`."""
    x, y, z = one[..., 0], one[..., 1], one[..., 2]
    x_other, y_other, z_other = other[..., 0], other[..., 1], other[..., 2]
    return np.stack([y * z_other - z * y_other, z * x_other - x * z_other, x * y_other - y * x_other], axis=-1)


def joined(name: str, sort: Sort, parts: list[tuple[Floats, Faces]], moved: float = 0.0) -> Solid:
    """Return closed shapes as one solid.

    Args:
        name: of it.
        sort: what it is drawn as.
        parts: vertices and quads of each.
        moved: how far all of it is moved [m].
    """
    before = np.cumsum([0, *(len(vertices) for vertices, _ in parts)])
    vertices = np.concatenate([one for one, _ in parts])
    quads = np.concatenate([faces + start for (_, faces), start in zip(parts, before, strict=False)])
    return Solid(name=name, sort=sort, vertices=vertices, quads=quads, moved=np.full(len(vertices), moved))


__all__ = ["Faces", "Floats", "Solid", "Sort", "cross", "joined"]
