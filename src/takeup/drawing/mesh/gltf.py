"""The binary form of glTF 2.0: numbers in one buffer, and what they are in JSON before it.     (drawing/mesh/gltf.py)

Of the format (Khronos glTF 2.0, from memory) only what solids with a colour at each corner need: 4-byte floats for
places, 4-byte counts for faces, bytes for colours, each at a multiple of four. Numbers that are the same stand once.
The same meshes in the same order give the same bytes.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from takeup.drawing.mesh.solid import Faces, Floats

_FLOAT, _COUNT, _BYTE = 5126, 5125, 5121
"""Types of numbers."""
_CORNERS, _FACES = 34962, 34963
"""What a stretch of the buffer is for."""
_MAGIC, _VERSION, _JSON, _BINARY = 0x46546C67, 2, 0x4E4F534A, 0x004E4942
_WORD = 4  # bytes

Array = NDArray[np.float32] | NDArray[np.uint32] | NDArray[np.uint8]


class GltfFile:
    """A file in the making: nodes, meshes, and the numbers of both."""

    def __init__(self) -> None:
        """Begin a file that has nothing in it."""
        self._nodes: list[dict[str, object]] = []
        self._meshes: list[dict[str, object]] = []
        self._accessors: list[dict[str, object]] = []
        self._views: list[dict[str, object]] = []
        self._numbers = bytearray()
        self._known: dict[tuple[int, bytes], int] = {}

    def mesh(self, name: str, *, at: Floats, corners: Floats, faces: Faces, colours: Floats) -> int:
        """Add a solid and return its node.

        Args:
            name: of node and mesh.
            at: the place of the node, (3,) [m].
            corners: counted from there, (n, 3) [m].
            faces: triangles, (m, 3).
            colours: of the corners, (n, 3), linear, whole numbers from 0 to 255.
        """
        opaque = np.concatenate([colours, np.full((len(colours), 1), 255.0)], axis=1).astype(np.uint8)
        counts = faces.reshape(-1).astype("<u4")
        primitive = {
            "attributes": {
                "POSITION": self._accessor(corners.astype("<f4"), _FLOAT, "VEC3", _CORNERS),
                "COLOR_0": self._accessor(opaque, _BYTE, "VEC4", _CORNERS),
            },
            "indices": self._accessor(counts, _COUNT, "SCALAR", _FACES),
        }
        self._meshes.append({"name": name, "primitives": [primitive]})
        return self._node({"name": name, "mesh": len(self._meshes) - 1}, at)

    def group(self, name: str, at: Floats, nodes: Sequence[int]) -> int:
        """Add a node that holds others and return it."""
        return self._node({"name": name, "children": list(nodes)}, at)

    def bytes_of(self, roots: Sequence[int], said: Mapping[str, str]) -> bytes:
        """Return the whole file.

        Args:
            roots: the nodes that hold all others.
            said: what the file says of itself, under `extras` of its scene.
        """
        tree = {
            "asset": {"version": "2.0", "generator": "takeup"},
            "scene": 0,
            "scenes": [{"nodes": list(roots), "extras": dict(said)}],
            "nodes": self._nodes,
            "meshes": self._meshes,
            "accessors": self._accessors,
            "bufferViews": self._views,
            "buffers": [{"byteLength": len(self._numbers)}],
        }
        words = json.dumps(tree, ensure_ascii=False, separators=(",", ":")).encode()
        words += b" " * (-len(words) % _WORD)
        chunks = [
            struct.pack("<II", len(data), kind) + data
            for kind, data in ((_JSON, words), (_BINARY, bytes(self._numbers)))
        ]
        return struct.pack("<III", _MAGIC, _VERSION, 12 + sum(map(len, chunks))) + b"".join(chunks)

    def _node(self, node: dict[str, object], at: Floats) -> int:
        moved = at.any()
        self._nodes.append(node | ({"translation": at.tolist()} if moved else {}))
        return len(self._nodes) - 1

    def _accessor(self, numbers: Array, kind: int, shape: str, use: int) -> int:
        """Return the number of an array of the buffer; one whose bytes are there already is not written again."""
        data = numbers.tobytes()
        known = self._known.get((kind, data))
        if known is not None:
            return known
        self._views.append({"buffer": 0, "byteOffset": len(self._numbers), "byteLength": len(data), "target": use})
        self._numbers += data + b"\0" * (-len(data) % _WORD)
        found: dict[str, object] = {
            "bufferView": len(self._views) - 1, "componentType": kind, "count": len(numbers), "type": shape,
        }  # fmt: skip
        if shape == "VEC3":  # the format wants them of places
            found |= {"min": numbers.min(axis=0).tolist(), "max": numbers.max(axis=0).tolist()}
        if kind == _BYTE:
            found["normalized"] = True
        self._accessors.append(found)
        self._known[kind, data] = len(self._accessors) - 1
        return len(self._accessors) - 1


__all__ = ["GltfFile"]
