"""What the published rules as a whole are written for, and what was not stated.     (bellows/forms/scope.py)"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms.remarks import Note, always
from takeup.bellows.geometry import Array, Bellows, live_length, stack_thickness

# ASME VIII-1 App. 26 and EN 13445-3 cl. 14.5.2, scope; from memory, medium.
MOST_PLIES = 5
THICKEST_STACK = 5e-3  # m
LONGEST_TO_BORE = 3.0
HIGHEST_TO_BORE = 1.0 / 3.0
_ROUNDING = 1.0 + 1e-9


def scope_notes(shape: Bellows) -> Iterator[Note]:
    """Yield which bellows lie outside the scope of ASME VIII-1 App. 26 and EN 13445-3 cl. 14.5.2."""
    stack, bore = stack_thickness(shape), shape.inside_diameter
    long, high = live_length(shape) / bore, shape.height / bore
    where = "outside the scope of ASME VIII-1 App. 26 and EN 13445-3"
    yield (shape.plies > MOST_PLIES, lambda row: f"{where}: {shape.plies[row]:g} plies, more than {MOST_PLIES}")
    yield (
        stack > THICKEST_STACK * _ROUNDING,
        lambda row: f"{where}: {stack[row] * 1e3:.3g} mm of plies, more than {THICKEST_STACK * 1e3:g} mm",
    )
    yield (
        long > LONGEST_TO_BORE * _ROUNDING,
        lambda row: f"{where}: {long[row]:.3g} bores long, more than {LONGEST_TO_BORE:g}",
    )
    yield (
        high > HIGHEST_TO_BORE * _ROUNDING,
        lambda row: f"{where}: height {high[row]:.3g} of the bore, more than a third",
    )


def stated_notes(metal: Metal, duty: Duty, movement: Array) -> Iterator[Note]:
    """Yield what was not stated, so that what needs it is left empty."""
    count = movement.shape[0]
    missing: list[list[str]] = [[] for _ in range(count)]
    unnamed = np.array([not word for word in metal.family], dtype=bool)
    unmoved = np.isnan(duty.axial) & np.isnan(duty.lateral) & np.isnan(duty.angular)
    for mask, word in (
        (np.isnan(duty.pressure), "pressure"),
        (unmoved, "movement"),
        (np.isnan(metal.yield_strength), "yield strength"),
        (np.isnan(metal.allowable), "allowable stress"),
        (np.isnan(duty.cycles), "cycles"),
        (unnamed, "family of metals for the life curves"),
    ):
        for row in np.flatnonzero(mask):
            missing[row].append(word)
    some = np.array([bool(words) for words in missing])
    yield (some, lambda row: f"not stated: {', '.join(missing[row])}; what needs {_them(missing[row])} is left empty")
    yield (
        ~unmoved & np.isnan(movement),
        always("the movement leaves the bellows no length, so no stress of movement"),
    )
    lived = ~np.isnan(duty.pressure) & ~unmoved & ~unnamed
    yield (
        np.isnan(duty.temperature) & lived,
        always("temperature not stated: whether it is too hot for the life curves was not looked at"),
    )


def _them(words: list[str]) -> str:
    return "it" if len(words) == 1 else "them"


__all__ = ["scope_notes", "stated_notes"]
