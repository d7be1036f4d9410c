"""Loops, offsets and corners from their file, against energy integrals and textbook forms.     (test_loops.py)

Everything goes the whole way: text, reader, model, load on the far anchor. The material is typed in, so that E and
growth are round. What is expected is worked out here:

    energy integral     any plane line: Castigliano's second theorem, straights and arcs, E A and E I/k
    elastic centre      a loop alike on both sides: F = E I delta/I_x', the second moment of the line's length about the
                        axis through its centroid along the anchors, arcs counted k times; its moment is F times the
                        centroid's height (textbook; Spielvogel's and Kellogg's books have it, from memory)
    guided cantilever   F = 12 E I delta/L^3, two legs in series half of it; S = 3 E D delta/L^2 (general formula)
    handbook            ASHRAE, pipe chapter: L = 6.225 sqrt(D delta), H = 2 W (from memory, high)

Shear flexibility is in neither side; it would make these loops about 1 % softer (by hand, 62 (I/A)/H^2).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.builders import line_file, solve, state_number

from takeup.study import LineAnswer
from takeup.units import METRES_PER_FOOT, METRES_PER_INCH, NEWTONS_PER_LBF, PA_PER_PSI

Floats = NDArray[np.float64]
INCH, FOOT = METRES_PER_INCH, METRES_PER_FOOT
MODULUS, GROWTH, HOT = 200e9, 2.4e-3, 220.0
GROWS = 1  # place of growth among the causes
CONDITIONS = {
    "site": "{ installation: 20 °C, coldest: 20 °C, hottest: 20 °C }",
    "design": "{ pressure: 12 bar(g), temperature: 220 °C, vacuum: possible }",
    "operating": "{ pressure: 10 bar(g), temperature: 220 °C }",
    "test": "{ pressure: 18 bar(g), with: water, temperature: 20 °C }",
}
WAYS = {"east": (1.0, 0.0), "north": (0.0, 1.0), "south": (0.0, -1.0)}
Legs = tuple[tuple[float, str], ...]


@dataclass(frozen=True)
class Pipe:
    """A nominal size with its outside diameter and wall [m]; ASME B36.10M in its metric column, from memory."""

    size: str
    outside: float
    wall: float

    @property
    def inertia(self) -> float:
        """Second moment of area [m4]."""
        return math.pi / 64.0 * (self.outside**4 - (self.outside - 2.0 * self.wall) ** 4)

    @property
    def area(self) -> float:
        """Area of the wall [m2]."""
        return math.pi / 4.0 * (self.outside**2 - (self.outside - 2.0 * self.wall) ** 2)

    def characteristic(self, radius: float) -> float:
        """Return h = t R/r^2 of a bend (ASME B31.1 Appendix D, from memory)."""
        return self.wall * radius / ((self.outside - self.wall) / 2.0) ** 2

    def flexibility(self, radius: float) -> float:
        """Return k = 1.65/h, not below 1 (ASME B31.1 Appendix D, from memory); of a sharp corner it does not count."""
        return max(1.0, 1.65 / self.characteristic(radius)) if radius else 1.0


DN50, DN200, DN300 = Pipe("DN 50", 0.0603, 0.00554), Pipe("DN 200", 0.2191, 0.00818), Pipe("DN 300", 0.3238, 0.00953)
NPS6 = Pipe("NPS 6", 0.1683, 0.00711)


def steel(name: str, modulus: float, growth: float) -> list[str]:
    """Return the lines of a material of one modulus [Pa] that grows from 20 to 220 degC by `growth`."""
    rows = ", ".join(f"{{ at: {at} °C, value: {modulus / 1e9!r} GPa }}" for at in (20.0, HOT))
    return [
        f"  - name: {name}",
        f"    expansion: [ {{ at: 20 °C, total: 0 mm/m }}, {{ at: {HOT} °C, total: {growth * 1e3!r} mm/m }} ]",
        "    expansion_from: 20 °C",
        f"    modulus: [ {rows} ]",
        "    density: 7850 kg/m3",
        "    poisson: 0.3",
        "    source: invented",
    ]


def answer(pipe: Pipe, route: list[str], *, bends: str, materials: list[str]) -> LineAnswer:
    """Return the answer of a line between two anchors; its first material is that of the pipe."""
    first = materials[0].partition("name: ")[2]
    words = f"{{ size: {pipe.size}, wall: {pipe.wall * 1e3!r} mm, material: {first}, bends: {bends} }}"
    text = line_file(route, pipe=words, more="\n".join(["materials:", *materials]), **CONDITIONS)
    return solve(text.replace("{ go: { ", "{ ").replace(" } }\n      - ", " }\n      - "))


def plain(pipe: Pipe, legs: Legs, radius: float, modulus: float = MODULUS, growth: float = GROWTH) -> LineAnswer:
    """Return the answer of a line of one material with bends of one radius, or sharp corners."""
    bends = f"{radius * 1e3!r} mm" if radius else "sharp"
    route = [f"{length!r} m {way}" for length, way in legs]
    return answer(pipe, route, bends=bends, materials=steel("loop steel", modulus, growth))


def far_anchor(found: LineAnswer) -> Floats:
    """Return what growth alone puts on the structure at the far anchor, operating: F_x, F_y, M_z."""
    return np.asarray(found.holds[-1].parts[state_number(found, "operating"), GROWS][[0, 1, 5]])


def places(legs: Legs, radius: float) -> Iterator[tuple[Floats, Floats, float, bool]]:
    """Yield point, tangent, weight and whether it is on an arc, of Gauss places along a line of square corners."""
    nodes, weights = np.polynomial.legendre.leggauss(12)  # exact on straights, 1e-14 on quarter arcs
    shares, weights = (nodes + 1.0) / 2.0, weights / 2.0
    at = np.zeros(2)
    for number, (length, word) in enumerate(legs):
        way = np.array(WAYS[word])
        cut = radius if number < len(legs) - 1 else 0.0
        straight = length - cut - (radius if number else 0.0)
        for share, weight in zip(shares, weights, strict=True):
            yield at + share * straight * way, way, weight * straight, False
        at = at + straight * way
        if number == len(legs) - 1:
            continue
        after = np.array(WAYS[legs[number + 1][1]])
        if radius:
            for share, weight in zip(shares, weights, strict=True):
                sine, cosine = math.sin(share * math.pi / 2.0), math.cos(share * math.pi / 2.0)
                point = at + radius * (sine * way + (1.0 - cosine) * after)
                yield point, cosine * way + sine * after, weight * radius * math.pi / 2.0, True
        at = at + radius * (way + after)


def by_energy(pipe: Pipe, legs: Legs, radius: float, factor: float) -> Floats:
    """Return what growth puts on the structure at the far anchor, F_x, F_y, M_z, by the energy integral."""
    end = sum((length * np.array(WAYS[way]) for length, way in legs), np.zeros(2))
    flexibility = np.zeros((3, 3))
    for point, tangent, weight, on_arc in places(legs, radius):
        x, y = end - point
        moment, axial = np.array([-y, x, 1.0]), np.array([*tangent, 0.0])
        soft = factor if on_arc else 1.0
        flexibility += weight * soft * np.outer(moment, moment) / (MODULUS * pipe.inertia)
        flexibility += weight * np.outer(axial, axial) / (MODULUS * pipe.area)
    return np.linalg.solve(flexibility, GROWTH * np.array([*end, 0.0]))


def loop(run: float, height: float, width: float) -> Legs:
    """Return a loop in the middle of two equal runs."""
    return ((run, "east"), (height, "north"), (width, "east"), (height, "south"), (run, "east"))


SHAPES: dict[str, Legs] = {
    "loop, twice as high as wide": loop(20.0, 6.0, 3.0),
    "loop, as high as wide": loop(14.0, 4.0, 4.0),
    "loop, flat": loop(12.0, 2.5, 6.0),
    "loop near one anchor": ((6.0, "east"), (5.0, "north"), (3.0, "east"), (5.0, "south"), (30.0, "east")),
    "loop that does not come back": ((15.0, "east"), (5.0, "north"), (3.0, "east"), (3.0, "south"), (15.0, "east")),
    "L, equal": ((10.0, "east"), (10.0, "north")),
    "L, one to four": ((24.0, "east"), (6.0, "north")),
    "Z": ((18.0, "east"), (5.0, "north"), (12.0, "east")),
    "Z, short offset": ((9.0, "east"), (1.5, "north"), (9.0, "east")),
}


@pytest.mark.parametrize("radius", [0.0, 0.3048, 1.0])
@pytest.mark.parametrize("shape", SHAPES)
def test_anchor_loads_are_those_of_the_energy_integral(shape: str, radius: float):
    """Both are exact but for rounding of the text and of the solve: 1e-8 of the largest force and of the moment."""
    radius = min(radius, 0.7) if shape == "Z, short offset" else radius
    legs, factor = SHAPES[shape], DN200.flexibility(radius)
    found, expected = far_anchor(plain(DN200, legs, radius)), by_energy(DN200, legs, radius, factor)
    assert found[:2] == pytest.approx(expected[:2], abs=1e-8 * np.abs(expected[:2]).max())
    assert found[2] == pytest.approx(expected[2], abs=1e-8 * np.abs(expected).max())


def test_a_bend_with_a_factor_of_one_is_a_bent_pipe():
    """DN 50 x 5.54 mm bent to 300 mm: h = 2.2 by hand, so k = 1."""
    legs = loop(8.0, 2.0, 1.5)
    assert DN50.characteristic(0.3) == pytest.approx(2.2, abs=0.05)
    found = far_anchor(plain(DN50, legs, 0.3))
    assert found == pytest.approx(by_energy(DN50, legs, 0.3, 1.0), abs=1e-8 * np.abs(found).max())


def test_softer_bends_push_less():
    """By flanges: k h^(1/3) with two flanged ends, k h^(1/6) with one, k with none; k = 1 is the bare bent pipe."""
    legs, radius = loop(14.0, 4.0, 4.0), 0.3048
    thrust = [float(by_energy(DN200, legs, radius, 1.0)[0])]
    for flanges in (2, 1, 0):
        route = [f"{length!r} m {way}, flanged_ends: {flanges}" for length, way in legs[:-1]]
        found = answer(DN200, [*route, "14 m east"], bends="304.8 mm", materials=steel("loop steel", MODULUS, GROWTH))
        thrust.append(float(far_anchor(found)[0]))
    assert all(more > 1.02 * less for more, less in pairwise(thrust))  # each softer by a few per cent


@pytest.mark.parametrize(
    ("size", "outside", "wall", "inches", "k"),
    [
        ("NPS 4", 114.3, 6.02, 4, 5.272),
        ("NPS 6", 168.3, 7.11, 6, 6.590),
        ("NPS 8", 219.1, 8.18, 8, 7.360),
        ("NPS 10", 273.0, 9.27, 10, 8.126),
    ],
)
def test_long_radius_bends_have_the_factors_of_the_appendix(size, outside, wall, inches, k):
    """ASME B31.1 App. D, schedule 40, k computed apart in inches; 0.1 % for diameters rounded to a tenth of a mm."""
    pipe = Pipe(size, outside * 1e-3, wall * 1e-3)
    found = answer(pipe, ["9 m east", "9 m north"], bends="long radius", materials=steel("s", MODULUS, GROWTH))
    softened = by_energy(pipe, ((9.0, "east"), (9.0, "north")), 1.5 * inches * INCH, k)
    assert far_anchor(found) == pytest.approx(softened, rel=1e-3)


def elastic_centre(pipe: Pipe, sides: tuple[float, float, float], radius: float) -> tuple[float, float, float]:
    """Return thrust, moment and the share of axial flexibility of a loop, by its elastic centre.

    Arcs of radius R, y from their own tangent: integrals of 1, y, y^2 are R pi/2, R^2 (pi/2 - 1), R^3 (3 pi/4 - 2).
    """
    (run, height, width), k = sides, pipe.flexibility(radius)
    arc, first, second = radius * math.pi / 2.0, radius**2 * (math.pi / 2.0 - 1.0), radius**3 * (0.75 * math.pi - 2.0)
    leg = height - 2.0 * radius
    parts = [  # twice: length, its first and second moment about the line of the anchors
        (run - radius, 0.0, 0.0),
        (k * arc, k * first, k * second),
        (leg, leg * height / 2.0, leg * height**2 / 4.0 + leg**3 / 12.0),
        (k * arc, k * (height * arc - first), k * (height**2 * arc - 2.0 * height * first + second)),
        ((width / 2.0 - radius), (width / 2.0 - radius) * height, (width / 2.0 - radius) * height**2),
    ]
    length, moment, inertia = 2.0 * np.array(parts).sum(axis=0)
    about_centroid = inertia - moment**2 / length
    stretched = 2.0 * (run - radius) + width - 2.0 * radius + 4.0 * arc / 2.0  # integral of cos^2 along the line
    axial = pipe.inertia / pipe.area * stretched / about_centroid
    thrust = MODULUS * pipe.inertia * GROWTH * (2.0 * run + width) / about_centroid
    return thrust, thrust * moment / length, axial


@pytest.mark.parametrize(
    ("pipe", "sides", "radius"),
    [
        (DN200, (20.0, 6.0, 3.0), 0.3048),
        (DN200, (14.0, 4.0, 4.0), 0.3048),
        (DN300, (40.0, 9.0, 5.0), 0.4572),
        (NPS6, (10.7, 3.81, 3.05), 0.2286),
        (NPS6, (10.7, 3.81, 3.05), 0.84),
    ],
)
def test_a_loop_pushes_as_its_elastic_centre_says(pipe: Pipe, sides: tuple[float, float, float], radius: float):
    """The textbook leaves out axial flexibility: 0.1 to 0.4 % here.

    With it, the form is exact for a loop alike on both sides; 1e-8 is rounding.
    """
    thrust, moment, axial = elastic_centre(pipe, sides, radius)
    found = far_anchor(plain(pipe, loop(*sides), radius))
    assert 1e-4 < axial < 5e-3
    assert found[0] == pytest.approx(thrust, rel=1.1 * axial)
    assert [found[0], -found[2]] == pytest.approx([thrust / (1.0 + axial), moment / (1.0 + axial)], rel=1e-8)
    assert found[1] == pytest.approx(0.0, abs=1e-8 * thrust)


STIFF, SOFT = 1e12, 1e9  # Pa: the largest quotient that a typed-in modulus may have
LEG, MOVED = 20.0 * FOOT, 2.0 * INCH


def legs_alone(quotient: float, *, series: bool) -> float:
    """Return thrust over E I of an offset, or of a loop, of which only the legs are soft; the rest grows by MOVED.

    A leg's material begins and ends five millimetres from its corners.
    """
    one = ["5 mm north", "{ change: a, pipe: { material: soft } }", f"{LEG!r} m north"]
    one += ["{ change: b, pipe: { material: hard } }", "5 mm north"]
    route = [f"{LEG!r} m east", *one, f"{LEG!r} m east"]
    if series:
        back = [item.replace("change: a", "change: c").replace("change: b", "change: d") for item in one]
        route += [*(item.replace("north", "south") for item in back), f"{LEG!r} m east"]
    growth = MOVED / ((3.0 if series else 2.0) * LEG)
    materials = [*steel("hard", quotient * SOFT, growth), *steel("soft", SOFT, 1e-12)]
    return float(far_anchor(answer(NPS6, route, bends="sharp", materials=materials))[0]) / (SOFT * NPS6.inertia)


@pytest.mark.parametrize(("kind", "factor"), [("offset", 12.0), ("loop", 6.0)])
def test_the_guided_cantilever_is_the_limit_of_stiff_runs(kind: str, factor: float):
    """12 E I delta/L^3; in a loop two legs in series, half of it. Runs 10, 100, 1000 times as stiff as the leg.

    What is missing falls with the quotient: by hand 6 E I/(L K), K = 4 E I_run/L, for an offset 15 % to 0.15 %; more in
    a loop, whose stiff part turns on two legs. The growth of the millimetres is less than 0.1 %.
    """
    wanted = factor * MOVED / LEG**3
    missing = [1.0 - legs_alone(quotient, series=kind == "loop") / wanted for quotient in (1e1, 1e2, 1e3)]
    assert all(after < before / 4.0 for before, after in pairwise(missing))
    assert missing[0] > 0.1
    assert abs(missing[-1]) < 6e-3


def test_the_printed_guided_cantilever_force():
    """NPS 6 Sch 40, L 20 ft, delta 2.0 in, E 27.9e6 psi: 1363 lbf (computed apart); 0.1 % for limit and metric size.

    What is missing falls with the quotient: the limit is (10 F(1000) - F(100))/9, less than 0.01 % off (next power).
    """
    limit = (10.0 * legs_alone(1e3, series=False) - legs_alone(1e2, series=False)) / 9.0
    thrust = limit * 27.9e6 * PA_PER_PSI * NPS6.inertia
    assert thrust / NEWTONS_PER_LBF == pytest.approx(1363, rel=1e-3)


def sized_loop(pipe: Pipe, ask: tuple[float, float, float], run: float, radius: float) -> tuple[float, float]:
    """Return the greatest stress over S, and the thrust over 12 E I delta/H^3, of a loop of the handbook's proportions.

    Args:
        pipe: the pipe.
        ask: E [Pa], S [Pa], delta [m].
        run: anchor to anchor [m].
        radius: of its bends [m]; zero is sharp.
    """
    modulus, stress, moved = ask
    length = math.sqrt(3.0 * modulus * pipe.outside * moved / stress)  # L = 2 H + W, W = L/5, H = 2 W
    width, height = length / 5.0, 0.4 * length
    legs = loop((run - width) / 2.0, height, width)
    found = plain(pipe, legs, radius, modulus, moved / run)
    moments = np.linalg.norm(found.end_moments[state_number(found, "operating"), GROWS], axis=-1)
    found_stress = float(moments.max()) * pipe.outside / 2.0 / pipe.inertia
    single = 12.0 * modulus * pipe.inertia * moved / height**3
    return found_stress / stress, float(far_anchor(found)[0]) / single


@pytest.mark.parametrize(
    ("pipe", "modulus", "stress", "moved"),
    [
        (DN300, 29e6, 20_000.0, 5.4),  # 200 ft of 12 in at 400 degF (input read): L = 45.6 ft
        (DN200, 27.9e6, 15_000.0, 3.0),  # E and S of the short form L(ft) = 6.225 sqrt(D delta)
    ],
)
def test_the_handbook_sizes_a_loop_on_the_safe_side(pipe: Pipe, modulus: float, stress: float, moved: float):
    """A consistency check of a rule of thumb, so 10 %: the rule's S bounds the stress at sharp corners from above.

    With long-radius bends the stress falls, and their intensification i = 0.9/h^(2/3) brings it back to about S. One
    leg alone, 12 E I delta/H^3, overstates the thrust more than tenfold: a loop's runs and top bend with its legs.
    """
    ask = (modulus * PA_PER_PSI, stress * PA_PER_PSI, moved * INCH)
    sharp, share = sized_loop(pipe, ask, 200.0 * FOOT, 0.0)
    assert 0.9 < sharp < 1.0
    assert share < 0.1
    radius = 1.5 * {"DN 300": 12.0, "DN 200": 8.0}[pipe.size] * INCH
    bent, softer = sized_loop(pipe, ask, 200.0 * FOOT, radius)
    assert bent * 0.9 / pipe.characteristic(radius) ** (2.0 / 3.0) == pytest.approx(1.0, rel=0.1)
    assert softer < 0.6 * share


def test_the_two_sizings_of_a_loop_are_one_formula():
    """45.6 ft (computed apart) and 6.225 sqrt(D delta), both L = sqrt(3 E D delta/S): half of the last digit."""
    assert math.sqrt(3.0 * 29e6 * 12.75 * 5.4 / 20_000.0) / 12.0 == pytest.approx(45.6, abs=0.05)
    assert math.sqrt(3.0 * 27.9e6 / 15_000.0) / 12.0 == pytest.approx(6.225, abs=0.0005)
