"""A shell of revolution as axisymmetric solids in CalculiX, and its stresses.     (tests/oracles/calculix_solid.py)

CAX8R, quadratic with reduced integration, in rows along a middle line and along its normals. Small displacements,
linear. CalculiX turns an axisymmetric element into a wedge of two degrees, and its reactions are those of the wedge:
times 180. Stresses are taken where they are best, at the two by two points of each element.
"""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from tests.oracles.calculix_run import material, run

WEDGES = 180.0  # of two degrees in a whole turn
GAUSS = 1.0 / np.sqrt(3.0)  # place of the two points, in half elements
FIT = 4  # degree of the stress through the thickness, fitted to its points and read at the surfaces


@dataclass(frozen=True, kw_only=True, slots=True)
class Meridian:
    """The middle line of a shell of revolution, at the ends and the middle of each of m elements: shape (2 m + 1,).

    Args:
        arc: length from the start [m].
        turn: angle of the tangent from the axis, above zero outward [rad].
        radius: from the axis [m].
        height: along the axis [m].
        thickness: of the shell [m].
    """

    arc: np.ndarray
    turn: np.ndarray
    radius: np.ndarray
    height: np.ndarray
    thickness: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Lines:
    """Stresses along the meridian, at the two points of each of m elements: shape (2 m,).

    Args:
        arc: length from the start [m].
        membrane: mean meridional stress through the thickness [Pa].
        bending: linearised meridional stress, 6/t^2 times the integral of stress and distance, above zero where the
            outer face is pulled [Pa].
        inner: meridional stress at the inner face, above zero in tension [Pa].
        outer: at the outer face.
        hoop_mean: of hoop stress over the metal area of the whole meridian, one number [Pa].
    """

    arc: np.ndarray
    membrane: np.ndarray
    bending: np.ndarray
    inner: np.ndarray
    outer: np.ndarray
    hoop_mean: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """What one step finds.

    Args:
        pull_start: tension along the axis in the metal at the start of the meridian, all round [N].
        pull_end: at its end [N].
        lines: stresses along the meridian.
    """

    pull_start: float
    pull_end: float
    lines: Lines


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """What is done in one step.

    Args:
        held: lines of the card BOUNDARY, with the sets START, END and their middles.
        pressure: on the inner faces [Pa].
    """

    held: tuple[str, ...]
    pressure: float = 0.0


def solve(
    line: Meridian, steps: Sequence[Step], *, modulus: float, poisson: float, through: int
) -> tuple[list[Case], float]:
    """Return what CalculiX finds in each step for the solid of a middle line and its normals, and its seconds."""
    with tempfile.TemporaryDirectory() as folder:
        model = _model(line, through) + material(modulus, poisson)
        told = "\n".join([*model, *(card for step in steps for card in _step(step, line, through)), ""])
        printed = run(Path(folder), told)
    cases = []
    for number in range(len(steps)):
        start, end, stress, place = printed.tables[4 * number : 4 * number + 4]
        lines = _lines(line, stress[:, 2:], place[:, 2:], through)
        cases.append(Case(pull_start=-WEDGES * start[0, 1], pull_end=WEDGES * end[0, 1], lines=lines))
    return cases, printed.seconds


def _model(line: Meridian, through: int) -> list[str]:
    """Return nodes, elements and sets; node (i, j) is station i, place j from the inner to the outer face."""
    wide = 2 * through + 1
    across = np.linspace(-0.5, 0.5, wide) * line.thickness
    number = np.arange(1, len(line.arc) * wide + 1).reshape(-1, wide)
    radius = line.radius[:, None] + np.cos(line.turn)[:, None] * across
    height = line.height[:, None] - np.sin(line.turn)[:, None] * across
    cards = ["*NODE"]
    for i, j in np.ndindex(number.shape):
        if not (i % 2 and j % 2):
            cards.append(f"{number[i, j]},{radius[i, j]:.12e},{height[i, j]:.12e}")
    cards.append("*ELEMENT,TYPE=CAX8R,ELSET=ALL")
    ring = ((0, 0), (0, 2), (2, 2), (2, 0), (0, 1), (1, 2), (2, 1), (1, 0))  # corners, then middles of the sides
    for place, (i, j) in enumerate(np.ndindex(len(number) // 2, through), start=1):
        cards.append(f"{place}," + ",".join(str(number[2 * i + a, 2 * j + b]) for a, b in ring))
    for name, row in (("START", number[0]), ("END", number[-1])):
        cards += [f"*NSET,NSET={name}", *(f"{node}," for node in row), f"*NSET,NSET={name}MIDDLE", f"{row[through]},"]
    return cards


def _step(step: Step, line: Meridian, through: int) -> list[str]:
    faces = [f"{1 + through * place},P4,{step.pressure:.12e}" for place in range(len(line.arc) // 2)]
    loads = ["*DLOAD,OP=NEW", *faces] if step.pressure else ["*DLOAD,OP=NEW"]
    printed = [f"*NODE PRINT,NSET={name},TOTALS=ONLY\nRF" for name in ("START", "END")]
    return [
        "*STEP\n*STATIC",
        "*BOUNDARY,OP=NEW",
        *step.held,
        *loads,
        *printed,
        "*EL PRINT,ELSET=ALL\nS,COORD",
        "*END STEP",
    ]


def _lines(line: Meridian, stress: np.ndarray, place: np.ndarray, through: int) -> Lines:
    """Return stresses along the meridian from those at the eight points of each wedge.

    Args:
        line: the middle line.
        stress: xx, yy, zz, xy, xz, yz in the wedge's x outward, y along the axis, (points, 6) [Pa].
        place: of the points, (points, 3) [m].
        through: elements through the thickness.
    """
    square = np.cos(np.arctan2(place[:, 2], place[:, 0])) ** 2  # the points sit a little to both sides of the plane xy
    radial = (square * stress[:, 0] - (1.0 - square) * stress[:, 2]) / (2.0 * square - 1.0)
    hoop = stress[:, 0] + stress[:, 2] - radial
    radius = np.hypot(place[:, 0], place[:, 2])
    columns = np.stack([radial, stress[:, 1], stress[:, 3], hoop, radius], axis=-1)
    # (along, through, side, point along, point through, column) to (station, point through, column)
    grid = columns.reshape(-1, through, 2, 2, 2, 5).mean(axis=2).transpose(0, 2, 1, 3, 4).reshape(-1, 2 * through, 5)
    arc, turn = _at_points(line.arc), _at_points(line.turn)
    sine, cosine = np.sin(turn)[:, None], np.cos(turn)[:, None]
    along = sine**2 * grid[..., 0] + cosine**2 * grid[..., 1] + 2.0 * sine * cosine * grid[..., 2]
    centres = (2.0 * np.arange(through) + 1.0) / through - 1.0
    across = (centres[:, None] + np.array([-GAUSS, GAUSS]) / through).ravel()  # -1 at the inner face, 1 at the outer
    fit = np.polynomial.legendre.legfit(across, along.T, min(FIT, 2 * through - 1))
    inner, outer = np.polynomial.legendre.legval([-1.0, 1.0], fit).T
    area = _metal(line, across)
    return Lines(
        arc=arc,
        membrane=along.mean(axis=1),
        bending=3.0 * (along * across).mean(axis=1),
        inner=inner,
        outer=outer,
        hoop_mean=float((grid[..., 3] * area).sum() / area.sum()),
    )


def _at_points(values: np.ndarray) -> np.ndarray:
    """Return values at the two points of each element, from those at its ends and middle."""
    start, middle, end = values[:-2:2], values[1::2], values[2::2]
    sides = np.array([-GAUSS, GAUSS])
    change = np.outer(end - start, sides) / 2.0 + np.outer(start + end - 2.0 * middle, sides**2) / 2.0
    return (middle[:, None] + change).ravel()


def _metal(line: Meridian, across: np.ndarray) -> np.ndarray:
    """Return the share of each point in the metal's area: where the line turns outward its outer face is shorter."""
    length, turned = np.diff(line.arc[::2]), np.diff(line.turn[::2])
    return np.repeat(length[:, None] - turned[:, None] * across * line.thickness / 2.0, 2, axis=0)
