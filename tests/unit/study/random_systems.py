"""Lines at random, told in SI or in US units, turned, or from the other end.     (tests/unit/study/random_systems.py)

A `System` is numbers only; `text` writes its line file. Lengths are whole sixteenths of an inch, pressures whole psi,
temperatures multiples of 5 degC, so that both tellings are exact. All names are invented.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from takeup.units import NEWTONS_PER_LBF, PA_PER_PSI

Floats = NDArray[np.float64]
SIXTEENTH = 0.0254 / 16.0  # m
FOOT = 192  # sixteenths
GAUGE = 20.0 * FOOT  # elevation at which pressures are stated
GUIDES = ("slide guide", "loose guide", "rest", "hanger", "spring hanger", "planar guide", "directional anchor")


@dataclass(frozen=True)
class Told:
    """One line: directions of its legs, their lengths and the places on it in sixteenths, what its far end is.

    Args:
        name: of the line.
        ways: directions, any length, (legs, 3).
        lengths: of the legs.
        holds: kind and station of each hold.
        far: the far end.
        valve: the leg that has a valve of a foot in its middle; None where no leg has one.
        joint: station of a joint; None where there is none.
        of: the line that it leaves, and the station there; None for the first.
        near: what its start is, where it leaves no line.
        backwards: whether its holds are numbered from its far end.
    """

    name: str
    ways: tuple[tuple[float, float, float], ...]
    lengths: tuple[int, ...]
    holds: tuple[tuple[str, int], ...]
    far: str
    valve: int | None = None
    joint: int | None = None
    of: tuple[str, int] | None = None
    near: str = "main anchor"
    backwards: bool = False

    def directions(self) -> Floats:
        """Return unit directions, (legs, 3)."""
        ways = np.array(self.ways, dtype=float)
        return np.asarray(ways / np.linalg.norm(ways, axis=1)[:, None])


@dataclass(frozen=True)
class System:
    """Several lines, the second and later ones leaving earlier ones; pressures in psi, the load in pounds force."""

    lines: tuple[Told, ...]
    medium: str
    pressure: int
    load: tuple[float, float, float]
    start: tuple[float, float, float] = (0.0, 0.0, GAUGE)

    def turned(self, matrix: Floats) -> System:
        """Return the system turned by a matrix."""

        def turn(vector: tuple[float, float, float]) -> tuple[float, float, float]:
            x, y, z = matrix @ np.array(vector)
            return float(x), float(y), float(z)

        lines = tuple(replace(line, ways=tuple(turn(way) for way in line.ways)) for line in self.lines)
        return replace(self, lines=lines, load=turn(self.load), start=turn(self.start))

    def reversed(self) -> System:
        """Return a system of one line told from its other end."""
        (line,) = self.lines
        total = sum(line.lengths)
        legs = len(line.lengths)
        end = np.array(self.start) + (line.directions() * np.array(line.lengths)[:, None]).sum(axis=0)
        told = replace(
            line,
            ways=tuple((-x, -y, -z) for x, y, z in reversed(line.ways)),
            lengths=line.lengths[::-1],
            holds=tuple((kind, total - station) for kind, station in reversed(line.holds)),
            valve=None if line.valve is None else legs - 1 - line.valve,
            joint=None if line.joint is None else total - line.joint,
            near=line.far,
            far=line.near,
            backwards=True,
        )
        return replace(self, lines=(told,), start=(float(end[0]), float(end[1]), float(end[2])))


@dataclass(frozen=True)
class Units:
    """How quantities are written."""

    us: bool

    def length(self, sixteenths: float) -> str:
        """Return a length: `16 ft 6 1/16 in`, or millimetres."""
        if not self.us or sixteenths != int(sixteenths) or sixteenths < 0:
            inches = sixteenths / 16.0
            return f"{inches!r} in" if self.us else f"{sixteenths * SIXTEENTH * 1e3:.10f} mm"
        feet, rest = divmod(int(sixteenths), FOOT)
        inches, part = divmod(rest, 16)
        return f"{feet} ft {inches}{f' {Fraction(part, 16)}' if part else ''} in"

    def pressure(self, psi: float) -> str:
        """Return a gauge pressure."""
        return f"{psi!r} psig" if self.us else f"{psi * PA_PER_PSI * 1e-3!r} kPa(g)"

    def force(self, pounds: float, per: str = "") -> str:
        """Return a force, or a force per length: per `in`, `ft` or nothing."""
        if self.us:
            return f"{pounds:.12f} lbf{f'/{per}' if per else ''}"
        metres = {"": 1.0, "in": 0.0254, "ft": 0.3048}[per]
        return f"{pounds * NEWTONS_PER_LBF / metres:.12f} N{'/m' if per else ''}"

    def temperature(self, degrees: int) -> str:
        """Return a temperature."""
        return f"{degrees * 9 // 5 + 32} °F" if self.us else f"{degrees} °C"

    def area(self, square_inches: float) -> str:
        """Return an area."""
        return f"{square_inches!r} in2" if self.us else f"{square_inches * 645.16!r} mm2"

    def size(self, inches: int) -> str:
        """Return a nominal size."""
        return f"NPS {inches}" if self.us else f"DN {25 * inches}"


def text(system: System, units: Units) -> str:
    """Return the line file."""
    u = units
    at = u.length(GAUGE)
    warm = f"temperature: {u.temperature(215)}, vacuum: possible"
    hot = f"temperature: {u.temperature(205)}"  # above saturation at every pressure drawn
    cold = f"with: water, temperature: {u.temperature(20)}"
    rows = [
        "takeup: 1",
        "project: lines at random",
        "document: { number: T-9, revision: A, date: 2026-02-03 }",
        "basis: { code: ASME B31.1, edition: 2020 }",
        f"site: {{ installation: {u.temperature(15)}, coldest: {u.temperature(5)}, hottest: {u.temperature(35)} }}",
        f"design: {{ pressure: {u.pressure(system.pressure + 20)}, at_elevation: {at}, {warm} }}",
        f"operating: {{ pressure: {u.pressure(system.pressure)}, at_elevation: {at}, {hot} }}",
        f"test: {{ pressure: {u.pressure(1.5 * system.pressure)}, gauge_elevation: {at}, {cold} }}",
        "cycles: [ { from: cold, to: operating, count: 1000 } ]",
        "states: { add: [ { name: pushed, like: operating, loads: push } ] }",
        "loads:",
        *_loads(system, u),
        "lines:",
    ]
    for line in system.lines:
        rows += _line(system, line, u)
    return "\n".join([*rows, ""])


def _loads(system: System, u: Units) -> Iterator[str]:
    line = system.lines[-1]
    spread, point = (", ".join(u.force(part, per) for part in system.load) for per in ("ft", ""))
    begin = sum(line.lengths[:-1]) + 4 * FOOT
    yield (
        f"  - {{ name: push, on: {line.name}, from: {u.length(begin)}, to: {u.length(begin + FOOT)}, "
        f"force_per_length: [{spread}], acts: occasional, source: invented }}"
    )
    yield (
        f"  - {{ name: push, on: {line.name}, at: {u.length(begin)}, force: [{point}], acts: occasional, "
        f"source: invented }}"
    )


def _line(system: System, line: Told, u: Units) -> Iterator[str]:
    inches, wall = (8, 0.322) if line.of is None else (4, 0.237)
    pipe = f"size: {u.size(inches)}, wall: {u.length(wall * 16.0)}, material: ASTM A106 B, bends: long radius"
    yield f"  - name: {line.name}"
    yield f"    medium: {system.medium}"
    yield f"    pipe: {{ {pipe} }}"
    yield f"    insulation: {{ thickness: {u.length(32)}, kind: mineral wool }}"
    yield "    route:"
    if line.of is None:
        at = ", ".join(u.length(part) for part in system.start)
        yield f"      - {{ start: head, at: [{at}], as: {line.near} }}"
    else:
        yield (
            f"      - {{ start: tee {line.name}, as: branch, of: {line.of[0]}, at: {u.length(line.of[1])}, "
            "tee: welding tee }"
        )
    yield from _legs(line, u)
    if line.holds:
        yield "    holds:"
    for number, (kind, place) in enumerate(line.holds):
        name = f"{line.name} {len(line.holds) - 1 - number if line.backwards else number}"
        told = kind.replace("loose", "slide")
        yield f"      - {{ kind: {told}, name: {name}, at: {u.length(place)}{_more(kind, u)} }}"
    if line.joint is not None:
        yield "    takeups:"
        yield f"      - {{ name: J1, kind: single axial, at: {u.length(line.joint)}, data: {{ {_joint(u)} }} }}"


def _legs(line: Told, u: Units) -> Iterator[str]:
    for number, (way, length) in enumerate(zip(line.directions(), line.lengths, strict=True)):
        along = ", ".join(f"{part:.17f}" for part in way)
        last = f", to: end {line.name}, as: {line.far}" if number == len(line.lengths) - 1 else ""
        if number == line.valve:
            yield f"      - {{ go: {u.length(length / 2 - 96)}, along: [{along}] }}"
            yield f"      - {{ valve: valve {line.name}, length: {u.length(FOOT)}, weight: {u.force(150.0)} }}"
        rest = length / 2 - 96 if number == line.valve else length
        yield f"      - {{ go: {u.length(rest)}, along: [{along}]{last} }}"


def _more(kind: str, u: Units) -> str:
    if kind == "spring hanger":
        loads = f"cold_load: {u.force(300.0)}, least_load: {u.force(100.0)}, most_load: {u.force(900.0)}"
        return f", spring: {{ rate: {u.force(150.0, 'in')}, {loads}, locked_in_test: no, source: invented }}"
    if kind == "planar guide":
        return ", free_along: up, slides_on: PTFE on steel"
    if kind == "loose guide":
        return f", clearance: {u.length(2)}, slides_on: PTFE on steel"
    return ", slides_on: PTFE on steel" if kind in ("slide guide", "rest") else ""


def _joint(u: Units) -> str:
    values = {
        "axial_rate": u.force(540.0, "in"),
        "effective_area": u.area(71.0),
        "length": u.length(40 * 16),
        "live_length": u.length(22 * 16),
        "weight": u.force(420.0),
        "axial_compression": u.length(64),
        "axial_extension": u.length(16),
        "pressure": u.pressure(300.0),
        "temperature": u.temperature(300),
        "source": "invented",
    }
    return ", ".join(f"{key}: {value}" for key, value in values.items())


@st.composite
def systems(draw: st.DrawFn, *, most_branches: int = 3, holds: tuple[str, ...] = GUIDES) -> System:
    """Draw a system: a main of 2 to 8 legs at any angles, its branches and branches of them."""
    lines = [_drawn_line(draw, "M", None, holds)]
    for number in range(draw(st.integers(0, most_branches))):
        main = lines[draw(st.integers(0, len(lines) - 1))]
        leg = draw(st.integers(0, len(main.lengths) - 1))
        taken = {line.of for line in lines}
        of = (main.name, sum(main.lengths[:leg]) + (main.lengths[leg] * 2 // 5))
        if of not in taken and main.valve != leg:
            lines.append(_drawn_line(draw, f"B{number}", (of, main.ways[leg]), holds))
    return System(
        lines=tuple(lines),
        medium=draw(st.sampled_from(["water", "steam"])),
        pressure=draw(st.integers(60, 200)),
        load=draw(st.tuples(*[st.integers(-60, 60).map(float)] * 3).filter(any)),
    )


Leaves = tuple[tuple[str, int], tuple[float, float, float]] | None


def _drawn_line(draw: st.DrawFn, name: str, leaves: Leaves, kinds: tuple[str, ...]) -> Told:
    count = draw(st.integers(2, 8 if leaves is None else 3))
    ways: list[tuple[float, float, float]] = []
    before = None if leaves is None else leaves[1]
    for number in range(count):
        whole = st.integers(-3, 3).map(float)
        branching = leaves is not None and number == 0
        ways.append(draw(st.tuples(whole, whole, whole).filter(_turns(before, branching=branching))))
        before = ways[-1]
    lengths = draw(st.tuples(*[st.integers(16 * FOOT, 60 * FOOT).map(lambda n: 10 * (n // 10))] * count))
    valve = draw(st.sampled_from([None, 0, count - 1])) if count > 2 else None
    held = []
    for leg, length in enumerate(lengths):
        kind = draw(st.sampled_from([None, *kinds]))
        level = math.hypot(*ways[leg][:2]) > 0.2 * math.hypot(*ways[leg])
        upright = kind in ("hanger", "spring hanger", "planar guide", "rest") and not level
        if kind and not upright and leg != valve:
            held.append((kind, sum(lengths[:leg]) + length * 7 // 10))
    if len(lengths) > 3 and leaves is None and valve != 1 and draw(st.booleans()):
        held = [hold for hold in held if not lengths[0] < hold[1] < lengths[0] + lengths[1]]
        held.append(("intermediate anchor", lengths[0] + lengths[1] // 2))
    first = leaves is None and valve != 0 and draw(st.booleans())
    return Told(
        name=name,
        ways=tuple(ways),
        lengths=lengths,
        holds=tuple(sorted(held, key=lambda hold: hold[1])),
        far=draw(st.sampled_from(["main anchor", "blind"])),
        valve=valve,
        joint=4 * FOOT if first else None,
        of=None if leaves is None else leaves[0],
    )


def _turns(
    before: tuple[float, float, float] | None, *, branching: bool
) -> Callable[[tuple[float, float, float]], bool]:
    """Return what says whether a leg may follow another: a bend of up to 120 deg, a branch of 25 deg or more."""

    def fits(way: tuple[float, float, float]) -> bool:
        if math.hypot(*way) == 0.0 or before is None:
            return any(way)
        cosine = float(np.dot(way, before)) / math.hypot(*way) / math.hypot(*before)
        angle = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
        return 25.0 <= angle <= 155.0 if branching else angle < 1e-6 or 5.0 < angle <= 120.0

    return fits
