"""The command that plays scenes.     (cli/scenes.py)"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from takeup.cli.saying import BAD_INPUT, NOT_PROVED, PROVED, print_out, say


def scene(
    name: str | None = None,
    *,
    every: Annotated[bool, Parameter(name="--all", negative=())] = False,
    as_json: Annotated[bool, Parameter(name="--json", negative=())] = False,
    out: Annotated[Path | None, Parameter(help="Folder for the pictures and line files.")] = None,
) -> int:
    """Play one of nine scenes that show what pressure and heat do to a line; without a name, list them.

    Parameters
    ----------
    name
        Name or number of a scene.
    every
        Play them all.
    as_json
        Print a JSON document instead; then nothing is written unless `--out` says where.
    out
        Folder for a picture of each scene (SVG) and its line files; `scenes.out` when left out.
    """
    from takeup.scenes import (
        SCENES,
        document_text,
        entry_named,
        list_document,
        list_text,
        played_scene,
        scene_lines,
        write_scene,
    )

    if name is not None and every:
        say("takeup: a scene's name and --all are two answers: give one of them")
        return BAD_INPUT
    if name is None and not every:
        print_out(list_document(SCENES).rstrip() if as_json else list_text(SCENES))
        return PROVED
    scenes = [played_scene(entry) for entry in (SCENES if name is None else (entry_named(name),))]
    if as_json:
        print_out(document_text(scenes).rstrip())
    folder = out if out is not None or as_json else Path("scenes.out")
    for one in scenes:
        if not as_json:
            print_out("\n".join(scene_lines(one)))
        for path in write_scene(one, folder) if folder is not None else ():
            (say if as_json else print_out)(str(path))
        if not as_json:
            print_out("")
    return PROVED if all(one.agrees for one in scenes) else NOT_PROVED
