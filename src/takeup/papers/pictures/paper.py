"""Pictures among the papers: every state as SVG and PNG, and all of them as one GLB.     (papers/pictures/paper.py)

SVG holds the letters that the file has; in PNG a letter that the typeface lacks stands by its code, as in every PDF.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from takeup.drawing.mesh.glb import glb_bytes
from takeup.drawing.mesh.scene import scene_of
from takeup.drawing.mesh.stretch import extent_of
from takeup.drawing.reading import Results, records_of, text_of, vectors_of
from takeup.papers.common.glyphs import printable_tree
from takeup.papers.frame import Head, head_of
from takeup.papers.pictures.png import png_bytes
from takeup.papers.pictures.sheet import picture_svg
from takeup.papers.pictures.view import HEIGHT, WIDTH, View, view_of
from takeup.papers.registry import Options

LYING = "as they lie"
_BEHIND = 0.25  # of the extent of the lines: at least so far is one scene behind another


def make(results: Results, options: Options) -> dict[str, bytes]:
    """Return the pictures of every state, and the GLB file.

    Args:
        results: The results document.
        options: Units and language.
    """
    clean = printable_tree(results)
    assert isinstance(clean, Mapping), "the results are a record"
    head, view = head_of(results, options.units, options.language), view_of(results)
    plain = head if clean == results else head_of(clean, options.units, options.language)
    found: dict[str, bytes] = {}
    for state, printed, name in _names(results, clean):
        svg = picture_svg(results, head, view, state)
        found[f"line-{name}.svg"] = svg.encode()
        drawn = svg if plain is head else picture_svg(clean, plain, view, printed)
        found[f"line-{name}.png"] = png_bytes(drawn, (WIDTH, HEIGHT))
    found["line.glb"] = glb_of(results, head, view)
    return found


def _names(results: Results, clean: Results) -> Iterator[tuple[str, str, str]]:
    """Yield every state with a shape, the same in letters that can be printed, and its name in a file's name.

    Of lines that are not solved there is one picture, as they lie.
    """
    shaped = {text_of(shape, "state") for shape in records_of(results, "shapes")}
    taken: set[str] = set()
    pairs = zip(records_of(results, "states"), records_of(clean, "states"), strict=True)
    for number, (state, printed) in enumerate(pairs, start=1):
        if text_of(state, "name") in shaped:
            name = _file_name(text_of(state, "name"), number, taken)
            yield text_of(state, "name"), text_of(printed, "name"), name
    if not shaped:
        yield "", "", _file_name(LYING, 0, taken)


def _file_name(state: str, number: int, taken: set[str]) -> str:
    """Return a state's name as a part of a file's name: small letters, digits and hyphens; its number if need be."""
    bare = re.sub(r"[^a-z0-9]+", "-", state.lower()).strip("-")[:60].strip("-")
    name = bare if bare and bare not in taken else f"{bare or 'state'}-{number}"
    taken.add(name)
    return name


def glb_of(results: Results, head: Head, view: View) -> bytes:
    """Return the lines as they lie and in every state as GLB, true sizes, movements exaggerated as in the pictures."""
    states = list(dict.fromkeys(text_of(shape, "state") for shape in records_of(results, "shapes")))
    scenes = [(LYING, scene_of(results, "", 1.0))]
    scenes += [(state, scene_of(results, state, view.stretch)) for state in states]
    said = {
        "project": head.project,
        "document": head.number,
        "revision": head.revision,
        "date": head.day,
        "made_by": head.tool,
        "input_sha256": head.sha256,
        "movements_times": str(view.stretch),
        "demonstration": head.demonstration,
        "cautions": " ".join(head.cautions),
    }
    return glb_bytes(scenes, view.greatest, said, _apart(results))


def _apart(results: Results) -> float:
    """Return how far one scene is behind another: beyond the widest north to south that the lines lie [m]."""
    norths = [point[1] for line in records_of(results, "lines") for point in vectors_of(line, "points")]
    return round(max(norths) - min(norths) + max(_BEHIND * extent_of(results), 1.0), 3)


__all__ = ["LYING", "glb_of", "make"]
