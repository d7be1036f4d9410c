"""Condensate that stands in the convolutions of steam bellows.     (joints/advice/condensate.py)"""

from __future__ import annotations

from takeup.joints.advice.place import Place
from takeup.joints.advice.rule import Rule, Said, note
from takeup.units import to_mm


def _condensate(place: Place) -> Said | None:
    metal = place.made_of("300-series")
    if metal is None or not place.bare or place.medium not in ("steam", "condensate"):
        return None
    ply = "a thin ply" if place.ply is None else f"a ply of {to_mm(place.ply):g} mm"
    return note(
        f"{metal.grade} in {place.medium}: at standstill condensate stays in the convolutions, takes up oxygen and "
        f"boils dry at the next start, and what it leaves pits {ply}. Let it drain, keep the steam dry and its "
        "chlorides low; bellows with the pressure outside hold more of it than others."
    )


CONDENSATE = Rule(
    name="condensate_in_convolutions",
    title="condensate in the convolutions",
    what="a bellows of the 300-series in steam or condensate",
    why="a convolution is a pocket: it does not drain in a level line, and every start concentrates what is dissolved",
    source="common practice, no source",
    status="from memory",
    limits="wetness of the steam and slope of the line are not asked for",
    judge=_condensate,
)
