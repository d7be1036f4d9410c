"""What the lines are at, moment by moment, as arrays.     (study/course.py)

States on the way, or rows of a plant's record: what every cause and every foot is reckoned from.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.library import Curve
from takeup.line import LIQUIDS, State
from takeup.line.states import FIRST

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, slots=True)
class Course:
    """Moments, k of them, in z zones.

    Args:
        pressure: gauge, at an elevation, (k, z) [Pa].
        elevation: where that pressure is stated, (k, z) [m].
        temperature: (k, z) [degC].
        density: of the content, (k, z) [kg/m3].
        has_head: whether the pressure changes with height, (k, z).
        settled: how much of their settlement feet have gone through, (k,).
        states: the name of the state of each moment; empty in a record.
        loads: names of the user's loads that act, of each moment.
    """

    pressure: Floats
    elevation: Floats
    temperature: Floats
    density: Floats
    has_head: Flags
    settled: Floats
    states: tuple[str, ...]
    loads: tuple[tuple[str, ...], ...]

    def acts(self, load: str) -> Floats:
        """Return whether a load of the user's acts, one or zero, (k,)."""
        return np.array([float(load in names) for names in self.loads])

    def is_in(self, names: tuple[str, ...]) -> Floats:
        """Return whether each moment belongs to one of some states, one or zero, (k,)."""
        return np.array([float(name in names) for name in self.states])


def course_of(states: Sequence[State]) -> Course:
    """Return states as a course; feet have settled in all but the first of a study, "installed"."""
    zones = [state.zones for state in states]
    return Course(
        pressure=np.array([[zone.pressure for zone in row] for row in zones]),
        elevation=np.array([[zone.at_elevation for zone in row] for row in zones]),
        temperature=np.array([[zone.temperature for zone in row] for row in zones]),
        density=np.array([[zone.density for zone in row] for row in zones]),
        has_head=np.array([[zone.pressure != 0.0 or zone.content in LIQUIDS for zone in row] for row in zones]),
        settled=np.array([0.0 if state.name == FIRST else 1.0 for state in states]),
        states=tuple(state.name for state in states),
        loads=tuple(state.loads for state in states),
    )


def growth_strain(expansion: Curve, installed: float, temperature: Floats) -> Floats:
    """Return the strain of free growth since installation, like `temperature`.

    Args:
        expansion: of the material.
        installed: [degC].
        temperature: any shape [degC].

    Raises:
        OutOfRange: a temperature is not in the material's table.
    """
    for end in (float(np.min(temperature)), float(np.max(temperature))):
        expansion.at(end)
    return np.asarray(np.interp(temperature, expansion.temperatures, expansion.values) - expansion.at(installed))
