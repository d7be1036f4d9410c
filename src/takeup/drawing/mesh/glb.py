"""Scenes as GLB (glTF 2.0) for other programs.     (drawing/mesh/glb.py)

Metres; glTF's y is up, so that east, north and up become x, -z and y. Every solid is a node of its own name, under a
node of its scene. Scenes stand one behind the other, the first in its true place: the translation of a scene's node
says how far the others are set back. Colours are those of the movement, linear as glTF wants them. The corners of a
solid count from its first one, which is the translation of its node: a file has seven figures, and lines are long.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from takeup.drawing.mesh.gltf import GltfFile
from takeup.drawing.mesh.scene import Scene
from takeup.drawing.mesh.solid import Floats
from takeup.drawing.mesh.tones import colours_of

TO_GLTF = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
"""Rows give x, y and z of glTF from east, north and up."""
_SRGB = (0.04045, 12.92, 0.055, 2.4)


def glb_bytes(scenes: Sequence[tuple[str, Scene]], greatest: float, said: Mapping[str, str], apart: float) -> bytes:
    """Return scenes as the bytes of one file.

    Args:
        scenes: each with the name of its node; names differ.
        greatest: movement that has the darkest colour [m].
        said: what the file says of itself, under `extras` of its scene.
        apart: how far each scene is set back from the one before it, to the south [m].
    """
    file, names, roots = GltfFile(), set[str](), []
    for number, (name, scene) in enumerate(scenes):
        own = _free(name, names)
        held = [
            file.mesh(
                _free(f"{name}: {solid.name}", names),
                at=TO_GLTF @ solid.vertices[0],
                corners=(solid.vertices - solid.vertices[0]) @ TO_GLTF.T,
                faces=solid.triangles,
                colours=np.round(255.0 * linear(colours_of(solid, solid.moved, greatest))),
            )
            for solid in scene.solids
        ]
        roots.append(file.group(own, TO_GLTF @ np.array([0.0, -apart * number, 0.0]), held))
    return file.bytes_of(roots, said)


def _free(name: str, taken: set[str]) -> str:
    """Return a name that no other node has."""
    found, number = name, 1
    while found in taken:
        number += 1
        found = f"{name} ({number})"
    taken.add(found)
    return found


def linear(colours: Floats) -> Floats:
    """Return colours as light: the curve of sRGB (IEC 61966-2-1, from memory)."""
    knee, slope, off, power = _SRGB
    return np.asarray(np.where(colours <= knee, colours / slope, ((colours + off) / (1.0 + off)) ** power))


__all__ = ["TO_GLTF", "glb_bytes", "linear"]
