"""A riser full of water, up or down, by itself or off a main, its bellows at foot or head.     (test_risers.py)

The riser is a straight bar between two places that cannot move up or down. Its loads follow by hand, in the first book:

    wall        N grows upward by the weight of pipe and joint alone; the water stands on nothing but what closes its
                ends. A wall stretches by (N - 2 nu P A_bore)/(E A) and grows with temperature
    bellows     its ends are pushed apart by P (A_e - A_bore), each with the pressure of its own height; the spring
                stretches by the mean force over its rate, and does not grow
    ends        a closed end is pushed outward by P A_bore, a main by the same against its branch

What the wall lacks is found from the length that must stay. E, expansion and densities from the library.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import pytest
from tests.builders import hold_of, joint, line_file, solve, solve_all, state_number

from takeup.library import density, material
from takeup.study import LineAnswer

GRAVITY = 9.80665  # m/s2, standard
OUTSIDE, WALL, HEIGHT, GAUGE = 0.2191, 0.00818, 18.0, 10.0  # m
BORE = math.pi / 4.0 * (OUTSIDE - 2.0 * WALL) ** 2
METAL = math.pi / 4.0 * OUTSIDE**2 - BORE
EFFECTIVE, RATE, JOINT, LIVE, JOINT_WEIGHT = 0.046, 95e3, 1.1, 0.6, 1900.0  # of the builders' joint
STEEL = material("ASTM A106 B", expansion_table="ASME BPVC II-D Table TE-1 (2001)")
MODULUS = STEEL.modulus.at(15.0)
STATES = {  # pressure [Pa] at the gauge, temperature [degC]
    "under hydrostatic test": (18e5, 20.0),
    "cold at design pressure": (12e5, 15.0),
    "operating": (10e5, 120.0),
}
LOW = 4.0  # m: elevation of the foot of a riser by itself
SAME = 1e-8  # of the largest: rounding of the text and the solve
CONDITIONS = {
    "medium": "water",
    "site": "{ installation: 15 °C, coldest: 5 °C, hottest: 35 °C }",
    "design": f"{{ pressure: 12 bar(g), at_elevation: {GAUGE} m, temperature: 130 °C, vacuum: possible }}",
    "operating": f"{{ pressure: 10 bar(g), at_elevation: {GAUGE} m, temperature: 120 °C }}",
    "test": f"{{ pressure: 18 bar(g), gauge_elevation: {GAUGE} m, with: water, temperature: 20 °C }}",
}
PIPE = "{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: long radius }"
GUIDES = "{ kind: slide guide, at: [6 m, 12 m], slides_on: PTFE on steel }"


@dataclass(frozen=True)
class Column:
    """A riser in one state: heights from its foot [m], the foot's elevation [m], pressure, temperature, density.

    `bellows` is the height of the joint's middle.
    """

    bellows: float
    foot: float
    pressure: float
    temperature: float
    heavy: float

    def pressure_at(self, height: float) -> float:
        """Return the pressure at a height above the foot [Pa]."""
        return self.pressure + self.heavy * GRAVITY * (GAUGE - self.foot - height)

    def walls(self, foot: float) -> tuple[float, float]:
        """Return how much the riser lengthens [m], and N at its head, for a force N in the wall at its foot [N]."""
        lower, upper = self.bellows - LIVE / 2.0, self.bellows + LIVE / 2.0
        force, longer = foot, 0.0
        grows = STEEL.expansion.at(self.temperature) - STEEL.expansion.at(15.0)
        cuts = [0.0, self.bellows - JOINT / 2.0, lower, upper, self.bellows + JOINT / 2.0, HEIGHT]
        for number, (begin, end) in enumerate(pairwise(cuts)):
            heavy = METAL * 7850.0 * GRAVITY if number in (0, 4) else JOINT_WEIGHT / JOINT
            length = end - begin
            middle = force + heavy * length / 2.0
            if number == 2:
                annulus = EFFECTIVE - BORE
                stretched = middle + self.pressure_at(begin) * annulus
                longer += stretched / RATE
                force += heavy * length + (self.pressure_at(begin) - self.pressure_at(end)) * annulus
            else:
                pressure = self.pressure_at((begin + end) / 2.0)
                longer += length * ((middle - 0.6 * pressure * BORE) / (MODULUS * METAL) + grows)
                force += heavy * length
        return longer, force

    def ends(self) -> tuple[float, float]:
        """Return the upward load on what holds the foot and the head [N]."""
        slack, per_newton = self.walls(0.0)[0], self.walls(1.0)[0] - self.walls(0.0)[0]
        foot = -slack / per_newton
        head = self.walls(foot)[1]
        return foot - self.pressure_at(0.0) * BORE, self.pressure_at(HEIGHT) * BORE - head


def column(name: str, bellows: float, foot: float) -> Column:
    pressure, temperature = STATES[name]
    return Column(bellows, foot, pressure, temperature, density("water", pressure, temperature))


def place(way: str, end: str) -> tuple[float, float]:
    """Return the station of a joint 1.5 m from foot or head, and its height above the foot."""
    height = 1.5 if end == "foot" else HEIGHT - 1.5
    return (height if way == "up" else HEIGHT - height), height


def riser(way: str, end: str) -> LineAnswer:
    """Return the answer of a riser by itself."""
    text = line_file(
        [f"{HEIGHT} m {way}"],
        at=f"[0 m, 0 m, {LOW if way == 'up' else LOW + HEIGHT} m]",
        pipe=PIPE,
        holds=(GUIDES,),
        takeups=(joint("J1", f"{place(way, end)[0]} m"),),
        **CONDITIONS,
    )
    return solve(text)


@pytest.mark.parametrize("end", ["foot", "head"])
@pytest.mark.parametrize("way", ["up", "down"])
def test_both_anchors_of_a_riser_carry_what_the_first_book_says(way: str, end: str):
    height = place(way, end)[1]
    answer = riser(way, end)
    foot, head = ("west end", "east end") if way == "up" else ("east end", "west end")
    for name in STATES:
        expected = column(name, height, LOW).ends()
        state = state_number(answer, name)
        found = [hold_of(answer, hold).total[state, 2] for hold in (foot, head)]
        assert found == pytest.approx(expected, abs=SAME * np.abs(expected).max())


MAIN = 12.0  # m
BRANCHED = """  - name: R-1
    medium: water
    pipe: {pipe}
    insulation: none
    route:
      - {{ start: riser tee, as: branch, of: T-1, at: 6 m, tee: welding tee }}
      - {{ go: 18 m {way}, to: far end, as: main anchor }}
    holds:
      - {guides}
    takeups:
      - {joint}
"""


@pytest.mark.parametrize("end", ["foot", "head"])
@pytest.mark.parametrize("way", ["up", "down"])
def test_a_riser_off_a_main_pushes_main_and_anchor_as_the_first_book_says(way: str, end: str):
    """The main is held up at the tee and stands still there; its halves are beams with both ends fixed, by symmetry.

    So the tee carries q L/2 of the main's own weight, L the whole main, and its ends q L/4 each.
    """
    station, height = place(way, end)
    level = 7.0
    low = level if way == "up" else level - HEIGHT
    text = line_file(
        [f"{MAIN} m east"],
        at=f"[0 m, 0 m, {level} m]",
        pipe=PIPE,
        holds=("{ kind: directional anchor, name: prop, at: 6 m, along: up }",),
        **CONDITIONS,
    )
    text += BRANCHED.format(pipe=PIPE, way=way, guides=GUIDES, joint=joint("J1", f"{station} m"))
    main, riser = solve_all(text).lines
    for name in STATES:
        state = state_number(main, name)
        one = column(name, height, low)
        foot, head = one.ends()
        at_tee, at_end = (foot, head) if way == "up" else (head, foot)
        own = (METAL * 7850.0 + BORE * one.heavy) * GRAVITY * MAIN
        largest = max(abs(foot), abs(head))
        assert hold_of(riser, "far end").total[state, 2] == pytest.approx(at_end, abs=SAME * largest)
        assert hold_of(main, "prop").total[state, 2] == pytest.approx(at_tee - own / 2.0, abs=SAME * largest)
        sides = hold_of(main, "prop").sides[state, :, :, 2].sum(axis=0)  # before, beyond, and the riser
        assert sides == pytest.approx([-own / 4.0, -own / 4.0, at_tee], abs=SAME * largest)
        ends = [hold_of(main, hold).total[state, 2] for hold in ("west end", "east end")]
        assert ends == pytest.approx([-own / 4.0] * 2, abs=SAME * largest)


@pytest.mark.parametrize("end", ["foot", "head"])
def test_the_upper_anchor_feels_the_pressure_at_the_bellows_over_the_effective_area(end: str):
    """By hand, test: (P + rho g (z_gauge - z_bellows)) A_e lifts it; steel and water above hang on it.

    1.5 %: the joint's own weight, and the spring, which the riser's stretch under pressure and weight moves by a
    millimetre or two, are not in it.
    """
    height = place("up", end)[1]
    one = column("under hydrostatic test", height, LOW)
    weight = (HEIGHT - height) * (METAL * 7850.0 + BORE * one.heavy) * GRAVITY
    answer = riser("up", end)
    found = hold_of(answer, "east end").total[state_number(answer, "under hydrostatic test"), 2]
    assert found == pytest.approx(one.pressure_at(height) * EFFECTIVE - weight, rel=0.015)
