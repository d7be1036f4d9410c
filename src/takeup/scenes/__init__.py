"""The nine things everyone in the trade knows, as scenes to be played.     (scenes/__init__.py)"""

from __future__ import annotations

from takeup.scenes.played import line_text
from takeup.scenes.records import Claim, Entry, Scene, Step, Told
from takeup.scenes.strip import signs_sheet, step_sheets, strip_sheet
from takeup.scenes.telling import document_text, list_document, list_text, scene_lines
from takeup.scenes.the_nine import SCENES, entry_named, played_scene
from takeup.scenes.writing import write_scene

__all__ = [
    "SCENES",
    "Claim",
    "Entry",
    "Scene",
    "Step",
    "Told",
    "document_text",
    "entry_named",
    "line_text",
    "list_document",
    "list_text",
    "played_scene",
    "scene_lines",
    "signs_sheet",
    "step_sheets",
    "strip_sheet",
    "write_scene",
]
