"""The plant that PyNite is asked about, told twice: a line file, and plain numbers.     (tests/unit/study/plant.py)

A main with a reducer, a change of wall and one of insulation; two branches at odd angles, one of them with a valve and
a riser; a dead leg. `STRETCHES` is the pipe of `TEXT`, each stretch by its two ends; `WALKS` are some of its states.
All names are invented. Densities of water are the library's.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from takeup.library import density

Floats = NDArray[np.float64]
GRAVITY, POISSON, STEEL = 9.80665, 0.3, 7850.0  # m/s2, -, kg/m3
WOOL, SHEET = 110.0, 2700.0  # kg/m3: typed in; aluminium as the library has it

TEXT = """
takeup: 1
project: invented plant of a test
document: { number: T-4, revision: A, date: 2026-02-03 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: 15 °C, coldest: 5 °C, hottest: 35 °C }
design: { pressure: 16 bar(g), at_elevation: 6 m, temperature: 170 °C, vacuum: possible }
operating: { pressure: 14 bar(g), at_elevation: 6 m, temperature: 150 °C }
test: { pressure: 24 bar(g), gauge_elevation: 7 m, with: water, temperature: 18 °C }
cycles: [ { from: cold, to: operating, count: 1000 } ]
states:
  add:
    - name: gale and snow
      like: operating
      loads: [gale, snow, crane]
    - name: kiln shut, its branch empty
      like: operating
      closed: kiln valve
      zones: [ { zone: kiln valve to kiln with D-1, pressure: 0 bar(g), temperature: 40 °C, content: empty } ]
      loads: crane
    - name: kiln valve closed between two pressures
      like: operating
      closed: kiln valve
      zones:
        - { zone: kiln valve to kiln with D-1, pressure: 5 bar(g), at_elevation: 9 m, temperature: 90 °C }
    - { name: hangers pinned hot and the line emptied, like: emptied after the test, hangers: locked }
    - { name: hoisted, like: operating, loads: [hoist, heave, shove] }
loads:
  - { name: gale, on: B-1, from: riser foot + 0.5 m, to: riser head - 0.5 m, acts: occasional,
      force_per_length: [120 N/m, -90 N/m, 0 N/m], source: invented }
  - { name: snow, on: M-1, from: third corner + 2 m, to: far store, force_per_length: [0 N/m, 0 N/m, -300 N/m],
      acts: occasional, source: invented }
  - { name: crane, on: M-1, at: second corner + 4 m, force: [1.5 kN, -0.8 kN, -2.2 kN],
      moment: [0.6 kN·m, -0.4 kN·m, 0.9 kN·m], acts: sustained, source: invented }
  - { name: hoist, on: D-1, at: spare end, force: [0 N, 0 N, 0.6 kN], acts: occasional, source: invented }
  - { name: heave, on: B-2, at: mixer corner, force: [0 N, 0 N, 9 kN], acts: occasional, source: invented }
  - { name: shove, on: B-1, at: riser foot, force: [0 N, -2.5 kN, 0 N], acts: occasional, source: invented }
lines:
  - name: M-1
    medium: water
    pipe: { size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: sharp }
    insulation: { thickness: 80 mm, kind: mineral wool, density: { value: 110 kg/m3, source: invented },
                  cladding: { kind: aluminium, thickness: 1 mm } }
    route:
      - { start: pump house, at: [1 m, -2 m, 6 m], as: main anchor }
      - { go: 9 m east, to: first corner }
      - { go: 6.4 m north, to: before cone }
      - { reducer: cone, length: 0.36 m, weight: 0.19 kN, to_pipe: { size: DN 150, wall: 7.11 mm } }
      - { go: 3.24 m north, to: second corner }
      - { go: 6 m east, to: wall change }
      - { change: thick wall, pipe: { wall: 10.97 mm } }
      - { go: 3 m east, to: third corner }
      - { go: 2.5 m up, to: fourth corner }
      - { go: 2.1 m east, to: before strainer }
      - { item: strainer, length: 0.5 m, weight: 1.1 kN, stiffer: 3 }
      - { go: 5.4 m east, to: end of cover }
      - { change: bare pipe, insulation: none }
      - go: 4 m east
        to: far store
        as: main anchor
        stiffness: { force: [8 kN/mm, 15 kN/mm, rigid], moment: [rigid, 40 kN·m/deg, 60 kN·m/deg], source: invented }
    holds:
      - { kind: slide guide, name: G1, at: 5 m, slides_on: PTFE on steel }
      - { kind: rest, name: R1, at: first corner + 4.9 m, slides_on: PTFE on steel, hot_leg: 150 mm }
      - { kind: directional anchor, name: X1, at: second corner + 1 m, along: [0.6, 0.8, 0] }
      - { kind: spring hanger, name: S1, at: third corner - 0.75 m,
          spring: { rate: 45 N/mm, cold_load: 4 kN, least_load: 1 kN, most_load: 9 kN, source: invented } }
      - { kind: slide guide, name: G2, at: end of cover - 1 m, slides_on: PTFE on steel }
  - name: B-1
    medium: water
    pipe: { size: DN 100, wall: 6.02 mm, material: ASTM A106 B, bends: sharp }
    insulation: { thickness: 60 mm, kind: mineral wool, density: { value: 110 kg/m3, source: invented } }
    route:
      - { start: kiln tee, as: branch, of: M-1, at: first corner + 2.5 m, tee: welding tee }
      - { go: 2.6 m, along: [12, -5, 0], to: before valve }
      - { valve: kiln valve, length: 0.4 m, weight: 0.7 kN }
      - { go: 1.9 m, along: [12, -5, 0], to: bay corner }
      - { go: 5 m east, to: riser foot }
      - { go: 4.5 m up, to: riser head }
      - { go: 2.5 m, along: [3, 4, 0], to: kiln corner }
      - { go: 3 m, along: [2, -2, 1], to: kiln, as: main anchor, settlement: [2 mm, -3 mm, -5 mm] }
    holds:
      - { kind: rest, name: R2, at: before valve - 0.6 m, slides_on: PTFE on steel }
      - { kind: slide guide, name: G3, at: bay corner + 3 m, clearance: 2 mm, slides_on: PTFE on steel }
      - { kind: spring hanger, name: S2, at: kiln corner - 1 m,
          spring: { rate: 20 N/mm, cold_load: 1.5 kN, least_load: 0.5 kN, most_load: 4 kN, locked_in_test: no,
                    source: invented } }
  - name: B-2
    medium: water
    pipe: { size: DN 80, wall: 5.49 mm, material: ASTM A106 B, bends: sharp }
    insulation: none
    route:
      - { start: mixer tee, as: branch, of: M-1, at: second corner + 2.5 m, tee: unreinforced fabricated tee }
      - { go: 3 m, along: [-1, 2, 2], to: mixer corner }
      - { go: 4 m, along: [1, 1, 0], to: mixer head }
      - { go: 2 m down, to: mixer, as: equipment, growth: { movement: [1 mm, -2 mm, 3 mm], source: invented } }
    holds:
      - { kind: hanger, name: H1, at: mixer corner + 2 m }
  - name: D-1
    medium: water
    pipe: { size: DN 50, wall: 3.91 mm, material: ASTM A106 B, bends: sharp }
    insulation: none
    route:
      - { start: spare tee, as: branch, of: B-1, at: bay corner + 1.2 m, tee: welding tee }
      - { go: 1.5 m, along: [0, 3, -4], to: spare corner }
      - { go: 2.4 m, along: [1, 1, 0], to: spare end, as: blind }
    holds:
      - { kind: rest, name: R3, at: spare end - 0.4 m, slides_on: PTFE on steel }
"""


@dataclass(frozen=True)
class Pipe:
    """Outside diameter and wall [m]; cover [N/m]; how many times as stiff; weight in its place, where typed [N/m]."""

    outside: float
    wall: float
    cover: float = 0.0
    stiffer: float = 1.0
    own: float | None = None

    @property
    def bore(self) -> float:
        """Area of the bore [m2]."""
        return math.pi / 4.0 * (self.outside - 2.0 * self.wall) ** 2

    @property
    def metal(self) -> float:
        """Area of the wall [m2]."""
        return math.pi / 4.0 * self.outside**2 - self.bore

    @property
    def inertia(self) -> float:
        """Second moment of area [m4]."""
        return math.pi / 64.0 * (self.outside**4 - (self.outside - 2.0 * self.wall) ** 4)

    @property
    def dead(self) -> float:
        """Weight without content [N/m]."""
        return self.metal * STEEL * GRAVITY + self.cover if self.own is None else self.own


def ring(inner: float, thickness: float, heavy: float) -> float:
    """Return the weight of a ring [N/m]."""
    return math.pi / 4.0 * ((inner + 2.0 * thickness) ** 2 - inner**2) * heavy * GRAVITY


BIG = Pipe(0.2191, 0.00818, ring(0.2191, 0.08, WOOL) + ring(0.3791, 0.001, SHEET))
COVERED = ring(0.1683, 0.08, WOOL) + ring(0.3283, 0.001, SHEET)
MIDDLE, THICK = Pipe(0.1683, 0.00711, COVERED), Pipe(0.1683, 0.01097, COVERED)
STRAINER, BARE = Pipe(0.1683, 0.01097, stiffer=3.0, own=1100 / 0.5), Pipe(0.1683, 0.01097)
SMALL = Pipe(0.1143, 0.00602, ring(0.1143, 0.06, WOOL))
VALVE = Pipe(0.1143, 0.00602, stiffer=10.0, own=700 / 0.4)
THIN, SPARE = Pipe(0.0889, 0.00549), Pipe(0.0603, 0.00391)


def cone(at: str, beyond: str) -> list[tuple[str, str, float, float, float, Pipe, str]]:
    """Return eight pipes from DN 200 to DN 150, each of the diameter and wall in its middle, 0.36 m in all."""
    names = [at, *(f"{at} {number}" for number in range(1, 8)), beyond]
    share = [(number + 0.5) / 8.0 for number in range(8)]
    pipes = [
        Pipe(BIG.outside + s * (0.1683 - BIG.outside), BIG.wall + s * (0.00711 - BIG.wall), own=190 / 0.36)
        for s in share
    ]
    return [(names[n], names[n + 1], 0.0, 0.045, 0.0, pipes[n], "main") for n in range(8)]


STRETCHES: list[tuple[str, str, float, float, float, Pipe, str]] = [  # from, to, east, north, up [m], pipe, zone
    ("pump house", "G1", 5, 0, 0, BIG, "main"),
    ("G1", "first corner", 4, 0, 0, BIG, "main"),
    ("first corner", "kiln tee", 0, 2.5, 0, BIG, "main"),
    ("kiln tee", "R1", 0, 2.4, 0, BIG, "main"),
    ("R1", "before cone", 0, 1.5, 0, BIG, "main"),
    *cone("before cone", "after cone"),
    ("after cone", "second corner", 0, 3.24, 0, MIDDLE, "main"),
    ("second corner", "X1", 1, 0, 0, MIDDLE, "main"),
    ("X1", "mixer tee", 1.5, 0, 0, MIDDLE, "main"),
    ("mixer tee", "crane", 1.5, 0, 0, MIDDLE, "main"),
    ("crane", "wall change", 2, 0, 0, MIDDLE, "main"),
    ("wall change", "S1", 2.25, 0, 0, THICK, "main"),
    ("S1", "third corner", 0.75, 0, 0, THICK, "main"),
    ("third corner", "snow line", 0, 0, 2, THICK, "main"),
    ("snow line", "fourth corner", 0, 0, 0.5, THICK, "snowed"),
    ("fourth corner", "before strainer", 2.1, 0, 0, THICK, "snowed"),
    ("before strainer", "after strainer", 0.5, 0, 0, STRAINER, "snowed"),
    ("after strainer", "G2", 4.4, 0, 0, THICK, "snowed"),
    ("G2", "end of cover", 1, 0, 0, THICK, "snowed"),
    ("end of cover", "far store", 4, 0, 0, BARE, "snowed"),
    ("kiln tee", "R2", 2 * 12 / 13, -2 * 5 / 13, 0, SMALL, "main"),
    ("R2", "before valve", 0.6 * 12 / 13, -0.6 * 5 / 13, 0, SMALL, "main"),
    ("before valve", "valve", 0.2 * 12 / 13, -0.2 * 5 / 13, 0, VALVE, "main"),
    ("valve", "after valve", 0.2 * 12 / 13, -0.2 * 5 / 13, 0, VALVE, "kiln"),
    ("after valve", "bay corner", 1.9 * 12 / 13, -1.9 * 5 / 13, 0, SMALL, "kiln"),
    ("bay corner", "spare tee", 1.2, 0, 0, SMALL, "kiln"),
    ("spare tee", "G3", 1.8, 0, 0, SMALL, "kiln"),
    ("G3", "riser foot", 2, 0, 0, SMALL, "kiln"),
    ("riser foot", "gale low", 0, 0, 0.5, SMALL, "kiln"),
    ("gale low", "gale high", 0, 0, 3.5, SMALL, "blown"),
    ("gale high", "riser head", 0, 0, 0.5, SMALL, "kiln"),
    ("riser head", "S2", 1.5 * 0.6, 1.5 * 0.8, 0, SMALL, "kiln"),
    ("S2", "kiln corner", 0.6, 0.8, 0, SMALL, "kiln"),
    ("kiln corner", "kiln", 2, -2, 1, SMALL, "kiln"),
    ("mixer tee", "mixer corner", -1, 2, 2, THIN, "main"),
    ("mixer corner", "H1", math.sqrt(2), math.sqrt(2), 0, THIN, "main"),
    ("H1", "mixer head", math.sqrt(2), math.sqrt(2), 0, THIN, "main"),
    ("mixer head", "mixer", 0, 0, -2, THIN, "main"),
    ("spare tee", "spare corner", 0, 0.9, -1.2, SPARE, "kiln"),
    ("spare corner", "R3", math.sqrt(2), math.sqrt(2), 0, SPARE, "kiln"),
    ("R3", "spare end", 0.4 * math.sqrt(0.5), 0.4 * math.sqrt(0.5), 0, SPARE, "kiln"),
]
START = np.array([1.0, -2.0, 6.0])


@cache
def points() -> dict[str, Floats]:
    """Return every named place [m]."""
    found = {"pump house": START}
    for begin, end, *step, _, _ in STRETCHES:
        found[end] = found[begin] + np.array(step)
    return found


@dataclass(frozen=True)
class Zone:
    """Pressure [Pa] at an elevation [m], temperature [degC] and density of the content [kg/m3]."""

    pressure: float
    at: float
    temperature: float
    heavy: float

    def pressure_at(self, height: float) -> float:
        """Return the pressure at a height [Pa]."""
        return self.pressure + self.heavy * GRAVITY * (self.at - height)


def water(pressure: float, at: float, temperature: float) -> Zone:
    return Zone(pressure, at, temperature, density("water", pressure, temperature))


@dataclass(frozen=True)
class Walk:
    """One state told in plain numbers; `hot` is the share of the mixer's growth.

    `locked`: whether those springs are locked that are locked in test. `pinned`: the state before one in which all are.
    """

    main: Zone
    kiln: Zone
    hot: float = 0.0
    settled: bool = True
    locked: bool = False
    pinned: str | None = None
    loads: tuple[str, ...] = ("crane",)  # which stays, so that it acts with the weight in every state


NOTHING = Zone(0.0, 6.0, 15.0, 0.0)
RUNNING = water(14e5, 6.0, 150.0)
OPERATING = Walk(RUNNING, RUNNING, hot=1.0)
TESTED = water(24e5, 7.0, 18.0)
VACUUM = Zone(-101_325.0, 6.0, 5.0, 0.0)
BETWEEN = "kiln valve closed between two pressures"
WALKS = {
    "installed": Walk(NOTHING, NOTHING, settled=False, locked=True),
    "under hydrostatic test": Walk(TESTED, TESTED, hot=3 / 135, locked=True),
    "operating": OPERATING,
    "cooling under vacuum": Walk(VACUUM, VACUUM, hot=-10 / 135),
    "gale and snow": replace(OPERATING, loads=("gale", "snow", "crane")),
    "kiln shut, its branch empty": replace(OPERATING, kiln=Zone(0.0, 6.0, 40.0, 0.0), loads=("crane",)),
    BETWEEN: replace(OPERATING, kiln=water(5e5, 9.0, 90.0)),
    "hangers pinned hot and the line emptied": Walk(NOTHING, NOTHING, pinned=BETWEEN),
    "hoisted": replace(OPERATING, loads=("hoist", "heave", "shove", "crane")),
    "warming, hot as far as kiln valve": replace(OPERATING, kiln=water(14e5, 6.0, 15.0)),
}
SPREAD = {"gale": ("blown", np.array([120.0, -90.0, 0.0])), "snow": ("snowed", np.array([0.0, 0.0, -300.0]))}
PUSHES = {  # force and moment where the place has another name than the load
    "crane": ("crane", np.array([1500.0, -800.0, -2200.0, 600.0, -400.0, 900.0])),
    "hoist": ("spare end", np.array([0.0, 0.0, 600.0, 0.0, 0.0, 0.0])),
    "heave": ("mixer corner", np.array([0.0, 0.0, 9000.0, 0.0, 0.0, 0.0])),
    "shove": ("riser foot", np.array([0.0, -2500.0, 0.0, 0.0, 0.0, 0.0])),
}
ALL, EAST_GUIDE, UPWARD = (True,) * 6, (False, True, True, False, False, False), (False, False, True) + (False,) * 3
DEGREE = math.pi / 180.0
GIVING = {"DX": 8e6, "DY": 15e6, "RY": 40e3 / DEGREE, "RZ": 60e3 / DEGREE}  # of the far store
HELD: dict[str, tuple[bool, ...]] = {
    **dict.fromkeys(("pump house", "far store", "kiln", "mixer"), ALL),
    **dict.fromkeys(("G1", "G2", "G3"), EAST_GUIDE),
    **dict.fromkeys(("R1", "R2", "R3", "H1"), UPWARD),
}
CLEAR = {"G3": 2e-3}  # m either side, and above: of its guides, one is loose
HOT_LEG = 0.15  # m, under R1
SPRINGS = {"S1": (45e3, 4000.0, True), "S2": (20e3, 1500.0, False)}  # rate, load as set, locked in test
NAMES, FORCES = ("DX", "DY", "DZ", "RX", "RY", "RZ"), ("FX", "FY", "FZ", "MX", "MY", "MZ")
SKEWED = np.array([0.6, 0.8, 0.0])  # what the directional anchor X1 holds
