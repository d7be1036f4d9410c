"""Shells of revolution assembled whole, with nothing taken out, for tests of the element.     (tests/shells.py)

The product condenses elements to their ends and convolutions to their roots; here every node stays and the matrices are
full, so that closed forms hold the element alone, and so that what the product condenses has something to agree with.
Nodes are numbered along the meridian.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from takeup.bellows.geometry import Bellows
from takeup.bellows.shell.axisymmetric import HalfConvolution
from takeup.bellows.shell.element import pressure_load, stiffness
from takeup.bellows.shell.meridian import Places, Segments, places
from takeup.bellows.shell.prestress import pressure_stiffness, stress_stiffness
from takeup.bellows.shell.reference import Reference, reference
from takeup.bellows.shell.strains import B, U, W
from takeup.bellows.shell.stresses import Stresses, stresses
from takeup.bellows.shell.whole import meridian

AXIAL_THINGS, ROUND_THINGS = 3, 5


def straight(*, angle: float, length: float, radius: float, thickness: float, parts: int = 1) -> Segments:
    """Return a cylinder (angle 0), a cone or a flat ring (a right angle) from a radius on, cut in parts."""
    along = np.arange(parts) * length / parts
    return Segments(
        radius=radius + along * np.sin(angle),
        axial=along * np.cos(angle),
        angle=np.full(parts, angle),
        turn=np.zeros(parts),
        length=np.full(parts, length / parts),
        thickness=np.full(parts, thickness),
        plies=np.ones(parts),
    )


def arc(*, start: float, end: float, radius: float, thickness: float, parts: int, ring: float = 0.0) -> Segments:
    """Return an arc round a circle at `ring` from the axis, seen from whose middle the normal points away.

    Args:
        start: place on the circle, measured from the outward radius towards the axis [rad].
        end: the same, above start.
        radius: of the circle [m].
        thickness: [m].
        parts: segments.
        ring: 0 for a sphere, the middle radius of a torus.
    """
    place = np.linspace(start, end, parts + 1)[:-1]
    return Segments(
        radius=ring + radius * np.cos(place),
        axial=radius * np.sin(place),
        angle=-place,
        turn=np.full(parts, -1.0 / radius),
        length=np.full(parts, radius * (end - start) / parts),
        thickness=np.full(parts, thickness),
        plies=np.ones(parts),
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Shell:
    """One shell, e elements of one order in a row, of one metal.

    Args:
        segments: shape (e,).
        of: the element of reference.
        modulus: E [Pa].
        poisson: nu.
    """

    segments: Segments
    of: Reference
    modulus: float
    poisson: float

    @property
    def nodes(self) -> int:
        """Return how many nodes there are."""
        return len(self.segments.length) * self.of.order + 1

    def stiffness(self, harmonic: int) -> np.ndarray:
        """Return the elastic matrix of a harmonic."""
        parts = stiffness(self.segments, self._all(self.modulus), self._all(self.poisson), harmonic, self.of)
        return self._whole(parts)

    def pressed(self, *, outside: bool = False) -> np.ndarray:
        """Return the forces of a unit pressure, axisymmetric."""
        parts = pressure_load(self.segments, self._all(self.poisson), self.of, outside=outside)
        whole = np.zeros(self.nodes * AXIAL_THINGS)
        for part, places_of in zip(parts, self._numbers(AXIAL_THINGS), strict=True):
            whole[places_of] += part
        return whole

    def by_stress(self, moved: np.ndarray, harmonic: int) -> np.ndarray:
        """Return what the stress of an axisymmetric state (nodes * 3) under unit pressure adds to a harmonic."""
        nodal = np.stack([moved.reshape(-1, AXIAL_THINGS)[row] for row in self._rows()])
        all_of = (self._all(self.modulus), self._all(self.poisson))
        return self._whole(stress_stiffness(self.segments, nodal, *all_of, harmonic=harmonic, of=self.of))

    def by_pressure(self, harmonic: int, *, outside: bool = False) -> np.ndarray:
        """Return what a unit pressure that follows the wall adds to a harmonic."""
        return self._whole(pressure_stiffness(self.segments, harmonic, self.of, outside=outside))

    def at_nodes(self) -> Places:
        """Return where the nodes lie, shape (nodes,) each."""
        at = places(self.segments, self.of.nodes)
        answer = {name: np.empty(self.nodes) for name in Places.__dataclass_fields__}
        for number, row in enumerate(self._rows()):
            for name, values in answer.items():
                values[row] = getattr(at, name)[number]
        return Places(**answer)

    def _all(self, value: float) -> np.ndarray:
        return np.full(len(self.segments.length), value)

    def _rows(self) -> list[np.ndarray]:
        """Return the numbers of each element's nodes, its two ends first."""
        order = self.of.order
        first = order * np.arange(len(self.segments.length))
        return [np.array([0, order, *range(1, order)]) + start for start in first]

    def _numbers(self, count: int) -> list[np.ndarray]:
        return [(row[:, None] * count + np.arange(count)).ravel() for row in self._rows()]

    def _whole(self, parts: np.ndarray) -> np.ndarray:
        count = parts.shape[1] // (self.of.order + 1)
        whole = np.zeros((self.nodes * count,) * 2)
        for part, places_of in zip(parts, self._numbers(count), strict=True):
            whole[np.ix_(places_of, places_of)] += part
        return whole

    def stresses(
        self, *, moved: np.ndarray | None = None, pressed: np.ndarray | None = None, outside: bool = False
    ) -> Stresses:
        """Return the stresses of states (nodes * 3), one row of elements, in the product's two cases."""
        nothing = np.zeros(self.nodes * AXIAL_THINGS)
        both = np.stack([nothing if case is None else case for case in (moved, pressed)], axis=-1)
        nodal = np.stack([both.reshape(self.nodes, AXIAL_THINGS, 2)[row] for row in self._rows()])[None]
        half = HalfConvolution(
            segments=self.segments.reshaped(1, -1),
            nodal=nodal,
            axial_stiffness=np.full(1, np.nan),
            held_thrust=np.full(1, np.nan),
            outside=outside,
        )
        return stresses(half, np.array([self.modulus]), np.array([self.poisson]), self.of)


def shell(segments: Segments, *, order: int = 8, modulus: float = 1.0, poisson: float = 0.3) -> Shell:
    return Shell(segments=segments, of=reference(order), modulus=modulus, poisson=poisson)


def whole_shell(shape: Bellows, *, order: int, modulus: float = 195e9, poisson: float = 0.3) -> Shell:
    """Return a whole bellows, ends and tangents and all."""
    return shell(meridian(shape).segments.reshaped(-1), order=order, modulus=modulus, poisson=poisson)


def moved_by(matrix: np.ndarray, force: np.ndarray, held: Mapping[int, float]) -> np.ndarray:
    """Return what moves where some movements, by number, are imposed and forces act on the others."""
    moved = np.zeros(len(matrix))
    moved[list(held)] = list(held.values())
    free = np.setdiff1d(np.arange(len(matrix)), list(held))
    moved[free] = np.linalg.solve(matrix[np.ix_(free, free)], (force - matrix @ moved)[free])
    return moved


def least_pressure(elastic: np.ndarray, by_pressure: np.ndarray, held: list[int]) -> float:
    """Return the least p above zero with (K + p K_p) x = 0; infinite where there is none."""
    from scipy.linalg import eigh

    free = np.setdiff1d(np.arange(len(elastic)), held)
    some = np.ix_(free, free)
    most = float(eigh(-by_pressure[some], elastic[some], eigvals_only=True)[-1])
    return 1.0 / most if most > 0.0 else float("inf")


def at(node: int, thing: int, count: int = AXIAL_THINGS) -> int:
    """Return the number of what moves at a node."""
    return node * count + thing


def ends_free_to_breathe(some: Shell) -> dict[int, float]:
    """Return an axisymmetric hold: planes of symmetry at both ends, which stay and do not turn."""
    last = some.nodes - 1
    return {at(node, thing): 0.0 for node in (0, last) for thing in (W, B)}


__all__ = [
    "AXIAL_THINGS",
    "ROUND_THINGS",
    "B",
    "Shell",
    "U",
    "W",
    "arc",
    "at",
    "ends_free_to_breathe",
    "least_pressure",
    "moved_by",
    "shell",
    "straight",
    "whole_shell",
]
