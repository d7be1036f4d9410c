"""Results of invented lines, as results.json would hold them.     (tests/unit/drawing/results_fixture.py)

The numbers are consistent enough to be drawn and printed (legs add up, bends have their tangents, loads sum from
their parts); they are not computed by the tool and stand for no plant. Every name is invented.
"""

from __future__ import annotations

import math
from itertools import pairwise

STATES = ("cold and drained", "full of water, under test", "hot and at pressure", "hot at design")
BAR = (0.0, 18.0, 10.0, 12.0)
DEGC = (-8.0, 12.0, 184.0, 195.0)


def straight(guides: int = 24) -> dict:
    """A level straight run of 150 m with two joints and an anchor between them."""
    stations = [150.0 * (n + 0.7) / guides for n in range(guides)]
    holds = [
        ("boiler house header", "main anchor", 0.0),
        ("middle anchor", "intermediate anchor", 75.0),
        ("laundry header", "main anchor", 150.0),
        *((f"guide at {s:.2f} m", "slide guide", s) for s in stations),
    ]
    joints = [("J1", "single axial", 2.5), ("J2", "externally pressurised", 77.5)]
    return results([(0.0, 0.0, 4.5), (150.0, 0.0, 4.5)], [], holds, joints)


def corner() -> dict:
    """An L: 96 m east, 9 m north and 54 m east, with a rise of the last leg's guide rail left out."""
    points = [(0.0, 0.0, 4.5), (96.0, 0.0, 4.5), (96.0, 9.0, 4.5), (150.0, 9.0, 4.5)]
    holds = [
        ("boiler house header", "main anchor", 0.0),
        ("anchor before the roof corner", "intermediate anchor", 93.0),
        ("laundry header", "main anchor", 159.0),
        *((f"G{n}", "slide guide", 6.0 * n) for n in range(1, 15)),
        *((f"H{n}", "spider guide", 108.0 + 6.0 * n) for n in range(8)),
        ("rest under the offset", "rest", 100.5),
    ]
    joints = [("J1", "externally pressurised", 2.5), ("J2", "single axial", 156.0)]
    return results(points, [305.0, 305.0], holds, joints)


def riser() -> dict:
    """A riser: 4 m east, 42 m up, 5 m east."""
    points = [(0.0, 0.0, 0.5), (4.0, 0.0, 0.5), (4.0, 0.0, 42.5), (9.0, 0.0, 42.5)]
    holds = [
        ("plant room anchor", "main anchor", 0.0),
        ("foot of the riser", "main anchor", 5.0),
        ("head of the riser", "intermediate anchor", 45.0),
        ("calorifier", "main anchor", 51.0),
        *((f"shaft guide {n}", "spider guide", 5.0 + 3.6 * n) for n in range(2, 11)),
    ]
    return results(points, [305.0, None], holds, [("riser joint", "single axial", 8.0)])


def loop() -> dict:
    """A horizontal loop in a run, all in short legs, so that a pipe is wide enough to be drawn as two lines."""
    points = [(0, 0, 3), (5, 0, 3), (5, 3, 3), (8, 3, 3), (8, 0, 3), (13, 0, 3)]
    floats = [(float(x), float(y), float(z)) for x, y, z in points]
    holds = [("west anchor", "main anchor", 0.0), ("east anchor", "main anchor", 19.0), ("G1", "slide guide", 2.0)]
    return results(floats, [305.0, 305.0, 305.0, 305.0], holds, [])


def results(points, radii, holds, joints) -> dict:
    """Return a whole results document for a route and what stands on it."""
    line = line_of(points, radii)
    return {
        "tool": {"name": "takeup", "version": "0.1.0"},
        "input": {
            "file": "ketterby.yaml",
            "sha256": "9f2c" * 16,
            "project": "Ketterby laundry steam main",
            "document": {"number": "K-07", "revision": "A", "date": "2026-05-12"},
            "resolved": {
                "site": {"installation_c": 12.0, "coldest_c": -8.0, "hottest_c": 35.0},
                "design": {"pressure_bar": 12.0, "temperature_c": 195.0},
                "cycles": [{"from": "cold", "to": "operating", "count": 1000}],
            },
        },
        "basis": {
            "code": "ASME B31.1",
            "edition": 2020,
            "expansion_table": "ASME B31.1 table B-1",
            "because": "the table of the code itself",
        },
        "verdict": {
            "outcome": "fails",
            "because": [
                "The angle at the anchor is over what it can carry: use 1.13 in the state hot at design.",
                "Sustained stress was not proved: the allowable stress of the grade is not in the library.",
            ],
        },
        "lines": [line],
        "zones": [zone_of(line)],
        "states": [state_of(n) for n in range(len(STATES))],
        "dropped_states": [{"state": "under vacuum", "because": "a vacuum breaker is fitted at the header"}],
        "holds": [hold_of(line, *hold) for hold in holds],
        "takeups": [takeup_of(*joint) for joint in joints],
        "shapes": [],
        "scenarios": None,
        "walk": [],
        "events": [],
        "record": None,
        "growth_hand": [by_hand("Free growth", "ΔL = L (ε(T) − ε(T_i))", "m", 0.3375, 0.3374)],
        "checks": checks_of([hold[0] for hold in holds], [joint[0] for joint in joints]),
        "assumptions": [
            "Supports are rigid but for the given friction.",
            "The temperature is uniform over the pipe wall.",
        ],
        "not_covered": [{"what": "Water hammer", "because": "the tool does no dynamics"}],
        "cautions": ["An untied bellows pushes its anchors apart with the full pressure thrust."],
    }


def zone_of(line) -> dict:
    """Return the one zone of a line."""
    part = {"line": line["name"], "from_m": 0.0, "to_m": line["length_m"]}
    conditions = {
        "design": {"pressure_bar": 12.0, "temperature_c": 195.0},
        "operating": {"pressure_bar": 10.0, "temperature_c": 184.0},
        "test": {"pressure_bar": 18.0, "temperature_c": 12.0},
    }
    return {"name": "whole line", **part, "parts": [part], "conditions": conditions}


def line_of(points, radii) -> dict:
    """Return the line's geometry: legs, bends with tangents R tan(angle / 2), nodes every few metres."""
    legs, station = [], 0.0
    names = ["start header", *(f"corner {n}" for n in range(1, len(points) - 1)), "end header"]
    for number, (a, b) in enumerate(pairwise(points)):
        length = math.dist(a, b)
        direction = [(q - p) / length for p, q in zip(a, b, strict=True)]
        legs.append(
            {
                "from": names[number],
                "to": names[number + 1],
                "length_m": length,
                "direction": direction,
                "start_m": station,
                "end_m": station + length,
                "item": None,
            }
        )
        station += length
    bends = [bend_of(n, legs, radius) for n, radius in enumerate(radii)]
    nodes = [{"station_m": leg["start_m"], "at_m": list(point)} for leg, point in zip(legs, points, strict=False)]
    nodes.append({"station_m": station, "at_m": list(points[-1])})
    pipe = {
        "size": "DN 200",
        "nps": "NPS 8",
        "outside_diameter_mm": 219.1,
        "wall_mm": 8.18,
        "material": "ASTM A106 B",
        "expansion_table": "ASME B31.1 table B-1",
        "expansion_because": "the table of the code itself",
        "corrosion_allowance_mm": 0.0,
    }
    insulation = {"kind": "mineral wool", "thickness_mm": 80.0, "cladding": None}
    return {
        "name": "LS-201",
        "medium": "steam",
        "branch": None,
        "ends": [{"name": names[n], "kind": "free"} for n in (0, -1)],
        "pipe": pipe,
        "insulation": insulation,
        "pipes": [{"from_m": 0.0, "to_m": station, "pipe": pipe, "insulation": insulation}],
        "items": [],
        "length_m": station,
        "developed_length_m": station - 0.131 * len(radii),
        "points": [list(point) for point in points],
        "legs": legs,
        "bends": bends,
        "sections": [],
        "nodes": nodes,
        "members": [],
    }


def bend_of(number, legs, radius) -> dict:
    """Return a bend of 90 degrees: its tangent is R tan 45 = R."""
    station = legs[number]["end_m"]
    tangent = 0.0 if radius is None else radius / 1000.0
    return {
        "name": f"corner {number + 1}",
        "station_m": station,
        "radius_mm": radius,
        "angle_deg": 90.0,
        "tangent_m": tangent,
        "begin_m": station - tangent,
        "finish_m": station + tangent,
        "flexibility_factor": 7.1,
        "intensification_factor": 2.2,
    }


def place_of(line, station):
    """Return the point on the legs and the leg's direction at a station."""
    for leg, point in zip(line["legs"], line["points"], strict=False):
        if station <= leg["end_m"] + 1e-9:
            far = station - leg["start_m"]
            return [p + far * d for p, d in zip(point, leg["direction"], strict=True)], leg["direction"]
    raise AssertionError(station)


def state_of(number) -> dict:
    """Return a state of the whole line."""
    content = "water" if "water" in STATES[number] else "empty" if number == 0 else "steam"
    zone = {
        "zone": "whole line",
        "pressure_bar": BAR[number],
        "temperature_c": DEGC[number],
        "content": content,
        "density_kg_per_m3": {"water": 999.5, "empty": 0.0, "steam": 5.145}[content],
    }
    return {
        "name": STATES[number],
        "kind": "operating",
        "order": number,
        "zones": [zone],
        "valves": [],
        "loads": [],
        "hangers_locked": False,
        "equilibrium_residual": 3.1e-13,
        "solved": True,
        "converged": True,
    }


def hold_of(line, name, kind, station) -> dict:
    """Return a hold with a load in each state, made up from pressure, growth and weight."""
    at, along = place_of(line, station)
    big = "anchor" in kind
    loads = []
    for state, bar in zip(STATES, BAR, strict=True):
        parts = {
            "pressure": part(4908.7 * bar if big else 0.0, 0.0, 0.0),
            "growth": part(2140.0 * bar / 12.0 if big else 0.0, 310.0 + station, 0.0),
            "joint spring preset": part(0.0, 0.0, 0.0),
            "weight": part(0.0, 0.0, -2480.0),
        }
        total = [sum(parts[cause]["force_n"][axis] for cause in parts) for axis in range(3)]
        moment = [12.0, -740.0, 88.0]
        loads.append({"state": state, "force_n": total, "moment_nm": moment, "parts": parts})
    worst = max(range(len(loads)), key=lambda n: math.hypot(*loads[n]["force_n"]))
    limits = [[pick(load["force_n"][axis] for load in loads) for axis in range(3)] for pick in (min, max)]
    sideways = [0.0, 1.0, 0.0] if abs(along[1]) < 0.5 else [1.0, 0.0, 0.0]
    return {
        "name": name,
        "line": line["name"],
        "other_side": None,
        "giving": None,
        "kind": kind,
        "station_m": station,
        "at_m": at,
        "axes": [list(along), sideways, [0.0, 0.0, 1.0]],
        "placed_by": "by hand" if big else "by spacing rule",
        "loads": loads,
        "envelope": {
            "force_n": {
                "min": limits[0],
                "max": limits[1],
                "min_state": [STATES[0]] * 3,
                "max_state": [STATES[worst]] * 3,
            },
            "moment_nm": {
                "min": [0.0] * 3,
                "max": [12.0, 740.0, 88.0],
                "min_state": [STATES[0]] * 3,
                "max_state": [STATES[3]] * 3,
            },
            "friction_bound_n": 2200.0 if big else 0.0,
            "design_force_n": math.hypot(*loads[worst]["force_n"]) + (2200.0 if big else 0.0),
            "design_state": STATES[worst],
        },
        "band": {"low_n": 90_000.0, "high_n": 96_500.0, "because": "friction of the guides between 0.05 and 0.10"}
        if big
        else None,
        "contact": [],
        "hand": [by_hand("Pressure thrust", "F_p = p A_e", "N", 88_360.0, 88_360.0)] if big else [],
    }


def part(x, y, z) -> dict:
    """Return one cause's share of a load."""
    return {"force_n": [x, y, z], "moment_nm": [0.0, 0.0, 0.0]}


def by_hand(what, formula, unit, value, model) -> dict:
    """Return a hand calculation beside the model's number."""
    return {
        "what": what,
        "formula": formula,
        "numbers": "18.0 bar × 490.9 cm²",
        "source": "first principles",
        "value": value,
        "unit": unit,
        "model": model,
        "difference_percent": 100.0 * (model - value) / value,
        "because": "the same area and pressure",
        "span": "boiler house header to middle anchor",
        "line": "LS-201",
    }


def reach_of(**farthest) -> dict:
    """Return how far a joint goes, as if all were in one state."""
    where = {"state": STATES[-1], "scenario": "no friction"}
    return {key: {"value": value, **where} for key, value in farthest.items()}


def takeup_of(name, kind, station) -> dict:
    """Return a joint with its movements and certified data."""
    return {
        "name": name,
        "line": "LS-201",
        "kind": kind,
        "station_m": station,
        "from_m": station - 0.4,
        "to_m": station + 0.4,
        "live_from_m": station - 0.25,
        "live_to_m": station + 0.25,
        "bellows": [{"from_m": station - 0.25, "to_m": station + 0.25}],
        "movements": [
            {
                "state": state,
                "axial_mm": -0.75 * (t - 12.0) / 2.0,
                "lateral_mm": 0.4,
                "lateral_vector_mm": [0.4, 0.0],
                "angular_deg": 0.02,
                "torsion_deg": 0.0,
                "pressure_bar": bar,
            }
            for state, bar, t in zip(STATES, BAR, DEGC, strict=True)
        ],
        "reach": reach_of(
            shortest_mm=-0.75 * (max(DEGC) - 12.0) / 2.0,
            longest_mm=-0.75 * (min(DEGC) - 12.0) / 2.0,
            lateral_mm=0.4,
            angular_deg=0.02,
            torque_nm=0.0,
        ),
        "rods": [],
        "spring_n": [
            {"state": state, "force_n": 31.0 * 0.75 * (t - 12.0)} for state, t in zip(STATES, DEGC, strict=True)
        ],
        "set_length_mm": 835.0,
        "preset_mm": 35.0,
        "data": {
            "axial_rate_n_per_mm": 62.0,
            "angular_rate_nm_per_deg": 41.0,
            "effective_area_mm2": 49087.0,
            "length_mm": 800.0,
            "live_length_mm": 500.0,
            "weight_n": 680.0,
            "axial_compression_mm": 90.0,
            "axial_extension_mm": 20.0,
            "pressure_bar": 16.0,
            "temperature_c": 300.0,
            "rated_cycles": 2000.0,
            "lateral_mm": None,
        },
        "remarks": ["Anchor both ends; guide at 4 and 14 diameters."],
        "provenance": "typed in by the user from data sheet Q-118",
    }


def checks_of(holds, joints) -> list:
    """Return one check for each place, some failing, some not covered."""
    found = []
    for number, where in enumerate([*holds, *joints]):
        use = 0.12 + 0.29 * (number % 4)
        outcome = "close" if use > 0.9 else "passes"
        found.append(check("hold-capacity", "Load within what the hold can carry", where, use, outcome))
    found.append(check("hold-capacity", "Load within what the hold can carry", holds[0], 1.13, "fails"))
    found.append(
        {
            **check("sustained-stress", "Sustained stress of the pipe", "LS-201", None, "not covered"),
            "demand": None,
            "capacity": None,
            "status": "",
            "because": "no allowable stress is given for the grade",
        }
    )
    return found


def check(rule, title, where, use, outcome) -> dict:
    """Return one check."""
    capacity = 100_000.0
    return {
        "rule": rule,
        "title": title,
        "where": where,
        "state": STATES[3],
        "demand": None if use is None else use * capacity,
        "capacity": capacity,
        "unit": "N",
        "use": use,
        "outcome": outcome,
        "because": "the resultant with friction is compared with the stated capacity",
        "source": "structural engineer's letter 14",
        "status": "from memory",
    }
