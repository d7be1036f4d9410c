"""The nine scenes in their order, and finding one by its name or number.     (scenes/the_nine.py)"""

from __future__ import annotations

import difflib

from takeup.errors import TakeupError
from takeup.scenes.records import Entry, Scene
from takeup.scenes.tales import (
    anchored,
    closed_ends,
    either_side,
    free_end,
    guides_away,
    hot_without_pressure,
    no_joint,
    offset,
    rods,
)

SCENES: tuple[Entry, ...] = (
    free_end.SCENE,
    no_joint.SCENE,
    hot_without_pressure.SCENE,
    closed_ends.SCENE,
    anchored.SCENE,
    rods.SCENE,
    offset.SCENE,
    either_side.SCENE,
    guides_away.SCENE,
)


def entry_named(name: str) -> Entry:
    """Return a scene by its name or its number.

    Raises:
        UnknownScene: none is called so; the message holds the nearest right name.
    """
    for entry in SCENES:
        if name in (entry.name, str(entry.number)):
            return entry
    names = [entry.name for entry in SCENES]
    near = difflib.get_close_matches(name, names, n=1, cutoff=0.0)
    raise UnknownScene(
        f"there is no scene '{name}'; the nearest is '{near[0]}'. All are: {', '.join(names)}; or 1 to {len(names)}."
    )


def played_scene(entry: Entry) -> Scene:
    """Return a scene, played: its lines solved and its claims judged."""
    return Scene(entry=entry, told=entry.play())


class UnknownScene(TakeupError, LookupError):
    """A name that no scene bears."""
