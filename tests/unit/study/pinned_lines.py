"""Lines of the tests of pinned joints: one alone between what pulls at it, and hinges in L, Z and U.     (study/)"""

from __future__ import annotations

from tests.builders import joint, line_file

LENGTH, SPREAD, WIDTH, THICK = 0.6, 0.32, 0.08, 0.025  # m: of a plate
MODULUS = 200e9  # Pa
STIFF = MODULUS * WIDTH * THICK / LENGTH  # N/m: one plate along its pull, E A/L
RATE, MEAN = 600e3, 0.242  # N/m; m: mean diameter of 46 000 mm2, sqrt(4 x 0.046/pi)
BEND = RATE * 0.046 / (2.0 * 3.141592653589793)  # N m/rad: k D_m^2/8 with A_e = pi D_m^2/4
RADIUS = 0.02  # m: of a pin
COLD_WATER = {
    "medium": "air",
    "test": "{ pressure: 9 bar(g), with: water, temperature: 70 °F }",
    "design": "{ pressure: 6 bar(g), temperature: 100 °F, vacuum: possible }",
    "operating": "{ pressure: 5 bar(g), temperature: 90 °F }",
}
HINGE = {
    "axial_rate": "600 N/mm",
    "length": "0.6 m",
    "live_length": "0.12 m",
    "weight": "1 kN",
    "angular": "8 deg",
    "axial_compression": None,
    "axial_extension": None,
    "lateral": None,
    "torsion_rate": "30 kN·m/deg",
    "torque": "40 kN·m",
}
SWING = {
    **HINGE,
    "length": "1.8 m",
    "centres": "1.4 m",
    "angular": "3 deg",
    "lateral": "120 mm",
}


def pinned(
    name: str, at: str, kind: str, *, along: str = "upright", mu: tuple[float, float] = (0.0, 0.0), **data: str | None
) -> str:
    """Return one take-up with plates of E A/L = `STIFF`, or bars of 1.8 m, that stay as cold as they were."""
    values = {**(SWING if kind == "swing" else HINGE), **data}
    pins = (
        f"{{ along: {along}, spread: 320 mm, diameter: 40 mm, width: 80 mm, thickness: 25 mm, modulus: 200 GPa, "
        f"hot: no, friction: {{ low: {mu[0]}, high: {mu[1]}, source: invented for a test }}, can_carry: 300 kN, "
        "source: invented for a test }"
    )
    return joint(name, at, kind=kind, **values).replace(", data:", f", pins: {pins}, data:", 1)


STATES = """states:
  add:
    - { name: pulled, like: cold at design pressure, loads: pull }
    - { name: left alone, like: cold at design pressure }"""


def pull(words: str) -> str:
    """Return the load at the far end that acts in the state `pulled` alone."""
    return f"  - {{ name: pull, on: T-1, at: east end, {words}, acts: occasional, source: invented }}"


def pulled_at(kind: str, way: int, *, along: str = "upright", size: float = 1e3) -> str:
    """Return a cantilever of 3 m with one joint in its middle, pulled or turned one way there alone.

    The load stands at the far end, with the moment that leaves none of the force's at the middle of the joint.
    """
    force, moment = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    if way < 3:
        force[way] = size
        moment[1] = 1.5 * force[2]  # r x F = (0, -1.5 Fz, 1.5 Fy) is taken off
        moment[2] = -1.5 * force[1]
    else:
        moment[way - 3] = size
    words = ", ".join(f"{value} N" for value in force), ", ".join(f"{value} N·m" for value in moment)
    more = "\n".join(
        [
            STATES,
            "loads:",
            pull(f"force: [{words[0]}], moment: [{words[1]}]"),
        ]
    )
    return line_file(
        ["3 m east"], end="blind", takeups=(pinned("J1", "1.5 m", kind, along=along),), more=more, **COLD_WATER
    )


SOFT = {"axial_rate": "60 N/mm"}  # a tenth: pipe beside such hinges hardly bends
THREE = {
    "L": (["8 m east", "6 m north"], ("1 m", "7 m", "11 m")),
    "Z": (["8 m east", "5 m north", "8 m east"], ("5 m", "9 m", "12 m")),
    "U": (["9 m east", "4 m north", "4 m east", "4 m south", "9 m east"], ("10 m", "15 m", "20 m")),
}


def three_hinges(shape: str, turned: dict[str, str] | None = None) -> str:
    """Return an L, a Z or a U with three soft hinges between two anchors; directions may be told others."""
    legs, stations = THREE[shape]
    ways = turned or {}
    legs = [" ".join(ways.get(word, word) for word in leg.split()) for leg in legs]
    takeups = tuple(
        pinned(f"J{number}", at, "hinged", **(SOFT | {"live_length": "0.1 m"})) for number, at in enumerate(stations, 1)
    )
    return line_file(legs, takeups=takeups)


def offset_pair(kind: str, run: float = 6.0) -> str:
    """Return a Z whose leg of 6 m has two hinges or gimbals 4 m apart, or one swing joint in its middle."""
    stations = (3.0,) if kind == "swing" else (1.0, 5.0)
    takeups = tuple(pinned(f"J{number}", f"{run + at} m", kind) for number, at in enumerate(stations, 1))
    return line_file([f"{run} m east", "6 m north", f"{run} m east"], takeups=takeups)
