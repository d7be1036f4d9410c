"""Solids on paper: seen from a side and from above, without perspective, with depth and light. (drawing/mesh/flat.py)

Faces that look away are left out; the others are drawn from the farthest to the nearest, each in its colour as the
light makes it. Faces are small, so that what lies before and behind is told apart by their middles.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from takeup.drawing.mesh.solid import Floats, Solid, cross
from takeup.drawing.sheet import Point

ISOMETRIC = math.degrees(math.atan(1.0 / math.sqrt(2.0)))
"""How far above the eye of an isometric view stands [deg]."""
_SIDES = (225.0, 135.0, 315.0, 45.0)  # of an isometric view: from the south first, so that north lies beyond
_BETWEEN = (205.0, 245.0, 155.0, 115.0, 335.0, 295.0, 25.0, 65.0)
_WORSE = 0.75  # another view than an isometric one is taken where that is drawn so much smaller
_LIGHT = np.array([-0.45, 0.35, 0.82])  # in the axes of the paper: from the left, from above, from before it
_AMBIENT, _DIFFUSE, _SHINE, _SHARP = 0.42, 0.62, 0.28, 24.0

_EDGE_ON = 1e-9  # a face that looks no more towards the eye is seen edge-on

Colour = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class Seen:
    """A view: `right` and `up` on the paper, and `near` towards the eye, unit vectors of the world, (3,).

    Args:
        right: to the right on the paper.
        up: upward on the paper.
        near: towards the eye.
        azimuth: where the eye stands, clockwise from the north [deg].
        above: how far above the horizon [deg].
    """

    right: Floats
    up: Floats
    near: Floats
    azimuth: float
    above: float

    def flat(self, places: Floats) -> Floats:
        """Return places as seen: to the right, up, and nearer, (n, 3) [m]."""
        return np.asarray(places @ np.array([self.right, self.up, self.near]).T)

    @property
    def isometric(self) -> bool:
        """Whether the three axes are drawn alike."""
        return self.azimuth in _SIDES and self.above == ISOMETRIC


@dataclass(frozen=True, kw_only=True, slots=True)
class Facet:
    """A face on paper: its corners in the view [m] and its colour from 0 to 1."""

    corners: tuple[Point, ...]
    colour: Colour


def seen_from(azimuth: float, above: float = ISOMETRIC) -> Seen:
    """Return the view of an eye that stands in some direction and so far above the horizon [deg]."""
    turned, raised = math.radians(azimuth), math.radians(above)
    level = np.array([math.sin(turned), math.cos(turned), 0.0])
    near = np.array([*(math.cos(raised) * level[:2]), math.sin(raised)])
    right = np.array([-level[1], level[0], 0.0])
    return Seen(right=right, up=np.cross(near, right), near=near, azimuth=azimuth, above=above)


def best_view(places: Floats, room: tuple[float, float]) -> Seen:
    """Return the view in which some places are drawn largest: an isometric one, if another is not much larger.

    Args:
        places: (n, 3) [m].
        room: width and height on paper.
    """
    isometric, between = (
        max(((scale_in(seen_from(azimuth), places, room), -number) for number, azimuth in enumerate(views)))
        for views in (_SIDES, _BETWEEN)
    )
    if isometric[0] >= _WORSE * between[0]:
        return seen_from(_SIDES[-isometric[1]])
    return seen_from(_BETWEEN[-between[1]])


def scale_in(view: Seen, places: Floats, room: tuple[float, float]) -> float:
    """Return how many units of the room a metre may be at most, to four figures: of views alike the first is taken."""
    flat = view.flat(places)
    wide, high = np.ptp(flat[:, 0]), np.ptp(flat[:, 1])
    found = min(room[0] / max(float(wide), 1e-9), room[1] / max(float(high), 1e-9))
    return float(f"{found:.4g}")


def facets_of(solids: Sequence[Solid], view: Seen, colour: Callable[[Solid, Floats], Floats]) -> tuple[Facet, ...]:
    """Return the faces that are seen, the farthest first.

    Args:
        solids: of a scene.
        view: from where.
        colour: gives each of some faces of a solid its colour, by how far the face is moved: (f,) to (f, 3), 0 to 1.
    """
    corners, depths, colours = [], [], []
    for solid in solids:
        flat = view.flat(solid.vertices)
        faces = flat[solid.quads]
        normals = _normals(faces)
        seen = normals[:, 2] > _EDGE_ON
        corners.append(faces[seen][:, :, :2])
        depths.append(faces[seen][:, :, 2].mean(axis=1))
        levels = solid.moved[solid.quads[seen]].mean(axis=1)
        colours.append(_lit(colour(solid, levels), normals[seen]))
    order = np.argsort(np.concatenate(depths), kind="stable")
    places, tones = np.concatenate(corners)[order], np.concatenate(colours)[order]
    return tuple(
        Facet(corners=_without_double(tuple(map(tuple, face))), colour=(red, green, blue))
        for face, (red, green, blue) in zip(places.tolist(), tones.tolist(), strict=True)
    )


def _without_double(face: tuple[Point, ...]) -> tuple[Point, ...]:
    return face[:3] if face[2] == face[3] else face


def _normals(faces: Floats) -> Floats:
    """Return the unit normal of each face by its diagonals; none of a face without area."""
    found = cross(faces[:, 2] - faces[:, 0], faces[:, 3] - faces[:, 1])
    triangles = (faces[:, 2] == faces[:, 3]).all(axis=1)
    found[triangles] = cross(faces[triangles, 1] - faces[triangles, 0], faces[triangles, 2] - faces[triangles, 0])
    sizes = np.linalg.norm(found, axis=1, keepdims=True)
    return np.asarray(found / np.where(sizes > 0.0, sizes, 1.0))


def _lit(colours: Floats, normals: Floats) -> Floats:
    """Return colours as the light makes them: what is everywhere, what falls on the face, and a little shine.

    c (a + d n.l) + s (n.h)^p
    """
    light = _LIGHT / np.linalg.norm(_LIGHT)
    half = light + np.array([0.0, 0.0, 1.0])
    half /= np.linalg.norm(half)
    falling = np.clip(normals @ light, 0.0, None)[:, None]
    shine = _SHINE * np.clip(normals @ half, 0.0, None)[:, None] ** _SHARP
    return np.asarray(np.clip(colours * (_AMBIENT + _DIFFUSE * falling) + shine, 0.0, 1.0))


__all__ = ["ISOMETRIC", "Colour", "Facet", "Seen", "best_view", "facets_of", "scale_in", "seen_from"]
