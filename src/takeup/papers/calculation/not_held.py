"""Behind the drawing, where the lines are not held: how they can move.     (papers/calculation/not_held.py)"""

from __future__ import annotations

from takeup.drawing import to_svg
from takeup.drawing.free_view import free_sheets
from takeup.drawing.reading import Results, records_of
from takeup.edge import Units
from takeup.papers.common.tables import Tree

SHOWN = 3  # motions that are drawn
_SAID = (
    "Nothing that is in the model without friction resists what is drawn here, so there is no answer: no load and no "
    "movement is printed. Friction is not counted on to hold a line."
)


def not_held_section(results: Results, units: Units) -> Tree | None:
    """Return the drawings of the first free motions; None where all is held, or something else stands in the way."""
    motions = records_of(results, "not_held")
    if not motions:
        return None
    left = len(motions) - SHOWN
    more = "" if left <= 0 else f"{left} more motion{'' if left == 1 else 's'} in words: see the verdict."
    return {
        "said": _SAID,
        "drawn": [
            {
                "svg": to_svg(sheet),
                "alt": f"{sheet.title}. {sheet.description}",
                "caption": sheet.title,
                "width": f"{sheet.width:g}",
            }
            for sheet in free_sheets(results, units)[:SHOWN]
        ],
        "more": more,
    }
