"""One convolution told to CalculiX as axisymmetric solids, and what it finds.     (tests/oracles/calculix.py)

CalculiX (Debian package calculix-ccx) is a general-purpose finite element program that shares nothing with ours; it is
used in development only, and a machine without it skips what needs it (docs/decisions/calculix-as-oracle.md).

Half a convolution of one ply, thinned, from the root (z = 0) to the crest (z = q/2): CAX8R, quadratic with reduced
integration, in rows along the exact middle line and along its normals. Small displacements, linear. Two steps:

    movement  both end planes stay planes z = const and are free to breathe; the crest's moves by half of e
    pressure  both are held; 1 Pa on the inner faces of the solids, which is at t_p/2 from the middle line

CalculiX turns an axisymmetric element into a wedge of two degrees, and its reactions are those of the wedge: times 180.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from takeup.bellows.geometry import Bellows, chosen, root_middle_radius, thinned_thickness, wall

PROGRAM = "ccx"
ABSENT = "CalculiX is not there: apt-get install calculix-ccx, see docs/decisions/calculix-as-oracle.md"
WEDGES = 180.0  # of two degrees in a whole turn
GAUSS = 1.0 / np.sqrt(3.0)  # place of the two points, in half elements
FIT = 4  # degree of the stress through the thickness, fitted to its eight points and read at the surfaces
KINK = 2e-3  # of a peak: a smooth one does not rise so much between two points
MOVED = 1e-3  # movement of a convolution in the first step [m]
ALONG, THROUGH = 96, 4  # elements; test_calculix_oracle.py says what finer ones change


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


@dataclass(frozen=True, kw_only=True, slots=True)
class Printed:
    """What the program prints.

    Args:
        tables: one array each, in the order of the file.
        seconds: from its start to its end.
    """

    tables: tuple[np.ndarray, ...]
    seconds: float


def is_there() -> bool:
    """Return whether CalculiX can be started."""
    return shutil.which(PROGRAM) is not None


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


def solve(
    line: Meridian, steps: Sequence[Step], *, modulus: float, poisson: float, through: int = THROUGH
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


def run(folder: Path, told: str) -> Printed:
    """Run the program in a folder, on one core, and return the tables it prints."""
    (folder / "model.inp").write_text(told, encoding="ascii")
    command = [PROGRAM, "-i", "model"]
    environment = {**os.environ, "OMP_NUM_THREADS": "1"}
    begin = time.perf_counter()
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - begin
    printed = folder / "model.dat"
    if done.returncode or "*ERROR" in done.stdout or not printed.exists():
        raise RuntimeError(done.stdout + done.stderr)
    tables: list[list[list[float]]] = []
    for row in printed.read_text(encoding="ascii").splitlines():
        if row.strip()[:1].isalpha():
            tables.append([])
        elif row.strip():
            tables[-1].append([float(word) for word in row.split()])
    return Printed(tables=tuple(np.array(table) for table in tables), seconds=seconds)


def material(modulus: float, poisson: float) -> list[str]:
    """Return the cards of one elastic material for all elements."""
    return [
        "*MATERIAL,NAME=METAL",
        "*ELASTIC",
        f"{modulus:.12e},{poisson:.12e}",
        "*SOLID SECTION,ELSET=ALL,MATERIAL=METAL",
    ]


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
