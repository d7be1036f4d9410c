"""What a played scene leaves in a folder: its strip, and its line files to go on with.     (scenes/writing.py)"""

from __future__ import annotations

from pathlib import Path

from takeup.drawing import to_svg
from takeup.scenes.played import line_text
from takeup.scenes.records import Scene
from takeup.scenes.strip import strip_sheet


def write_scene(scene: Scene, folder: Path) -> tuple[Path, ...]:
    """Write a scene's strip and line files into a folder, which is made if need be.

    Returns:
        The paths written, the strip first.
    """
    folder.mkdir(parents=True, exist_ok=True)
    texts = {f"{scene.entry.name}.svg": to_svg(strip_sheet(scene))}
    texts |= {file: line_text(file) for file in scene.entry.files}
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    return tuple(folder / name for name in texts)
