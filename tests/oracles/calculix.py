"""One convolution told to CalculiX as axisymmetric solids, and what it finds.     (tests/oracles/calculix.py)

    found = calculix(shape, modulus=195e9, poisson=0.3)      where is_there()

Half a convolution of one ply, thinned, from the root (z = 0) to the crest (z = q/2), meshed along the exact middle line
and along its normals. Two steps:

    movement  both end planes stay planes z = const and are free to breathe; the crest's moves by half of e
    pressure  both are held; 1 Pa on the inner faces of the solids, which is at t_p/2 from the middle line
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from tests.oracles.calculix_run import ABSENT, is_there
from tests.oracles.calculix_solid import Lines, Meridian, Step, solve

from takeup.bellows.geometry import Bellows, chosen, root_middle_radius, thinned_thickness, wall

__all__ = ["ABSENT", "Found", "Peaks", "calculix", "half_convolution", "is_there"]

KINK = 2e-3  # of a peak: a smooth one does not rise so much between two points
MOVED = 1e-3  # movement of a convolution in the first step [m]
ALONG, THROUGH = 96, 4  # elements; the page of decisions says what finer ones change


@dataclass(frozen=True, kw_only=True, slots=True)
class Peaks:
    """Greatest absolute meridional stresses of a case and how far along the meridian from the root they sit.

    Args:
        bending: linearised [Pa per m of movement of a convolution, or per Pa].
        bending_at: [m].
        surface: at either face [the same].
        surface_at: [m].
    """

    bending: float
    bending_at: float
    surface: float
    surface_at: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """What CalculiX finds for one convolution of one ply.

    Args:
        axial_stiffness: force on the end planes over the movement of a whole convolution [N/m].
        effective_area: thrust over pressure: pi r^2 of the fluid at the root, r to the inner face there, less the
            pull of the metal on the held root plane per pascal [m2].
        effective_area_crest: the same at the crest; equal where the elements balance [m2].
        movement: stresses per metre of movement of a convolution, above zero when it lengthens.
        pressure: stresses per pascal.
        movement_lines: stresses along half a convolution, as `movement`.
        pressure_lines: as `pressure`.
        hoop_mean: hoop stress per pascal, mean over the metal area.
        seconds: of the program alone, both steps, from its start to its end; without writing and reading its files
            on our side.
    """

    axial_stiffness: float
    effective_area: float
    effective_area_crest: float
    movement: Peaks
    pressure: Peaks
    movement_lines: Lines
    pressure_lines: Lines
    hoop_mean: float
    seconds: float


def calculix(
    shape: Bellows, *, row: int = 0, modulus: float, poisson: float, along: int = ALONG, through: int = THROUGH
) -> Found:
    """Return one convolution of one bellows as CalculiX finds it, one ply.

    Args:
        shape: the bellows.
        row: which of them.
        modulus: E [Pa].
        poisson: nu.
        along: elements from root to crest, about. 24 by 2 find stiffness to 1 % and peaks to 2 %, but for radii near
            the thickness; the standing ones are for tests.
        through: elements through the thickness.
    """
    line = half_convolution(shape, row=row, along=along)
    steps = (
        Step(held=("START,2,2", f"END,2,2,{MOVED / 2.0:.12e}")),
        Step(held=("START,2,2", "END,2,2"), pressure=1.0),
    )
    (moved, pressed), seconds = solve(line, steps, modulus=modulus, poisson=poisson, through=through)
    per_metre = _scaled(moved.lines, 1.0 / MOVED)
    at_root, at_crest = (np.pi * (line.radius[end] - line.thickness / 2.0) ** 2 for end in (0, -1))
    return Found(
        axial_stiffness=moved.pull_end / MOVED,
        effective_area=at_root - pressed.pull_start,
        effective_area_crest=at_crest - pressed.pull_end,
        movement=_peaks(per_metre, line.arc[-1]),
        pressure=_peaks(pressed.lines, line.arc[-1]),
        movement_lines=per_metre,
        pressure_lines=pressed.lines,
        hoop_mean=pressed.lines.hoop_mean,
        seconds=seconds,
    )


def half_convolution(shape: Bellows, *, row: int, along: int) -> Meridian:
    """Return the middle line from root to crest: arc, straight wall, arc, with about so many elements."""
    one = chosen(shape, slice(row, row + 1))
    straight, crest, root = wall(one), one.crest_radius[0], one.root_radius[0]
    phi, length = straight.angle[0], straight.length[0]
    parts = np.array([root * phi, length, crest * phi])
    counts = np.maximum(np.round(along * parts / parts.sum()).astype(int), np.where(parts > 0.0, 2, 0))
    fractions = [np.linspace(0.0, 1.0, 2 * count + 1) for count in counts]
    low, high = root_middle_radius(one)[0], root_middle_radius(one)[0] + one.height[0]
    turn_root, turn_crest = phi * fractions[0], phi * (1.0 - fractions[2])
    foot = (low + root * (1.0 - np.cos(phi)), root * np.sin(phi))
    turn = [turn_root, np.full(len(fractions[1]), phi), turn_crest]
    radius = [
        low + root * (1.0 - np.cos(turn_root)),
        foot[0] + length * np.sin(phi) * fractions[1],
        high - crest * (1.0 - np.cos(turn_crest)),
    ]
    height = [
        root * np.sin(turn_root),
        foot[1] + length * np.cos(phi) * fractions[1],
        one.pitch[0] / 2.0 - crest * np.sin(turn_crest),
    ]
    arc = [start + part * share for start, part, share in zip(np.cumsum(parts) - parts, parts, fractions, strict=True)]
    joined = (np.concatenate([part[0][:1], *(some[1:] for some in part)]) for part in (arc, turn, radius, height))
    arcs, turns, radii, heights = joined
    return Meridian(arc=arcs, turn=turns, radius=radii, height=heights, thickness=float(thinned_thickness(one)[0]))


def _scaled(lines: Lines, factor: float) -> Lines:
    return Lines(**{name: factor * getattr(lines, name) if name != "arc" else lines.arc for name in Lines.__slots__})


def _peaks(lines: Lines, length: float) -> Peaks:
    bending, bending_at = _greatest(lines.arc, lines.bending, length)
    inner, outer = (_greatest(lines.arc, values, length) for values in (lines.inner, lines.outer))
    surface, surface_at = max(inner, outer)
    return Peaks(bending=bending, bending_at=bending_at, surface=surface, surface_at=surface_at)


def _greatest(arc: np.ndarray, values: np.ndarray, length: float) -> tuple[float, float]:
    """Return the greatest absolute value and its place; root and crest are planes of symmetry.

    A parabola through three points finds what lies between them, but for a kink, where the curvature jumps: it would
    go past that, and the greatest of the points stands.
    """
    arc = np.concatenate([-arc[:1], arc, 2.0 * length - arc[-1:]])
    size = np.abs(np.concatenate([values[:1], values, values[-1:]]))
    middle = int(np.clip(np.argmax(size), 1, len(size) - 2))
    near = slice(middle - 1, middle + 2)
    a, b, c = np.polyfit(arc[near] - arc[middle], size[near], 2)
    away = -b / (2.0 * a)
    if away * b / 2.0 > KINK * c:
        return float(c), float(arc[middle])
    return float(c + away * b / 2.0), float(arc[middle] + away)
