"""Lines in space as closed solids: one mesh maker for pictures, for other programs and for a page. (drawing/mesh/)

Only numpy is needed. `scene_of` makes the solids of every line in a state, `flat_of` draws them on paper with depth and
light, `glb_bytes` writes them as GLB. East, north and up are x, y and z, in metres.
"""

from takeup.drawing.mesh.flat import Facet, Seen, facets_of, seen_from
from takeup.drawing.mesh.glb import glb_bytes
from takeup.drawing.mesh.scene import Scene, scene_of
from takeup.drawing.mesh.solid import Solid
from takeup.drawing.mesh.stretch import greatest_movement, stretch_of

__all__ = [
    "Facet",
    "Scene",
    "Seen",
    "Solid",
    "facets_of",
    "glb_bytes",
    "greatest_movement",
    "scene_of",
    "seen_from",
    "stretch_of",
]
