"""The inputs' part of results.json: conditions, ends, holds and loads as resolved.     (results/resolved.py)

Everything here is what the user typed, or what a rule made of it, in the units that end the names.
"""

from __future__ import annotations

from dataclasses import asdict

from takeup.line import Condition, End, Hold, Line, Load, Study
from takeup.line.conditions import Conditions
from takeup.line.holding import Growth, Nozzle, Spring, Stiffness
from takeup.line.parts import Vector
from takeup.results.chosen import resolved_joints
from takeup.results.plain import Json
from takeup.units import to_bar, to_mm, to_n_per_mm, to_nm_per_deg


def resolved_part(study: Study) -> Json:
    """Return the conditions, every hold after the rules were turned into places, and the user's loads."""
    return {
        "site": {f"{key}_c": value for key, value in asdict(study.site).items()},
        "design": condition_part(study.conditions.design),
        "operating": condition_part(study.conditions.operating),
        "test": {
            **condition_part(study.conditions.test),
            "with": study.test_medium,
            "chlorides_ppm": study.conditions.test.chlorides_ppm,
        },
        "vacuum": {
            "possible": study.vacuum.possible,
            "pressure_bar": to_bar(study.vacuum.pressure),
            "because": study.vacuum.because,
        },
        "cycles": [{"from": cycle.start, "to": cycle.end, "count": cycle.count} for cycle in study.cycles],
        "walk": {
            "modulus": "at operating temperature" if study.walk.modulus == "operating" else "at installation",
            "friction_at_installation": "locked in" if study.walk.locked_in else "none",
        },
        "design_factors": None if study.design_factors is None else asdict(study.design_factors),
        "holds": [_hold(line, hold) for line in study.lines for hold in line.holds],
        "loads": [_load(load) for load in study.loads],
        "joints": resolved_joints(study),
    }


def condition_part(condition: Condition) -> dict[str, Json]:
    """Return a pressure and a temperature."""
    return {"pressure_bar": to_bar(condition.pressure), "temperature_c": condition.temperature}


def conditions_part(conditions: Conditions) -> Json:
    """Return the design, operating and test conditions of a zone."""
    return {
        "design": condition_part(conditions.design),
        "operating": condition_part(conditions.operating),
        "test": condition_part(conditions.test),
    }


def end_part(end: End) -> Json:
    """Return one end of a line: what it is, and what the user said of what holds it."""
    return {
        "name": end.name,
        "kind": end.kind,
        "can_carry_n": end.can_carry,
        "can_carry_moment_nm": end.can_carry_moment,
        "stiffness": _stiffness(end.stiffness),
        "settlement_mm": _movement(end.settlement),
        "growth": _growth(end.growth),
        "nozzle": _nozzle(end.nozzle),
    }


def _hold(line: Line, hold: Hold) -> Json:
    friction = hold.friction
    return {
        "name": hold.name,
        "line": line.name,
        "kind": hold.kind,
        "station_m": hold.position.station,
        "at": hold.position.words,
        "placed_by": hold.placed_by,
        "can_carry_n": hold.can_carry,
        "can_carry_moment_nm": hold.can_carry_moment,
        "slides_on": None if friction is None else friction.words,
        "friction_low": None if friction is None else friction.low,
        "friction_high": None if friction is None else friction.high,
        "along": None if hold.along is None else list(hold.along),
        "sense": hold.sense if hold.kind == "stop" else None,
        "spring": spring_part(hold.spring),
        "stiffness": _stiffness(hold.stiffness),
        "settlement_mm": _movement(hold.settlement),
        "hot_leg_mm": to_mm(hold.hot_leg),
        "clearance_mm": to_mm(hold.clearance) if "guide" in hold.kind else None,
        "gap_mm": to_mm(hold.gap) if hold.kind == "stop" else None,
        "only_in": None if hold.only_in is None else list(hold.only_in),
    }


def _load(load: Load) -> Json:
    spread = load.end is not None
    return {
        "name": load.name,
        "line": load.line,
        "from_m": load.start.station,
        "to_m": load.start.station if load.end is None else load.end.station,
        "force_n": None if spread else list(load.force),
        "force_n_per_m": list(load.force) if spread else None,
        "moment_nm": None if spread else list(load.moment),
        "duration": load.duration,
        "source": load.source,
    }


def _movement(movement: Vector | None) -> Json:
    return None if movement is None else [to_mm(value) for value in movement]


def _stiffness(stiffness: Stiffness | None) -> Json:
    """Return how far a structure gives in three translations and three rotations; null is rigid."""
    if stiffness is None:
        return None
    return {
        "force_n_per_mm": [None if rate is None else to_n_per_mm(rate) for rate in stiffness.force],
        "moment_nm_per_deg": [None if rate is None else to_nm_per_deg(rate) for rate in stiffness.moment],
        "source": stiffness.source,
    }


def _growth(growth: Growth | None) -> Json:
    return None if growth is None else {"movement_mm": _movement(growth.movement), "source": growth.source}


def _nozzle(nozzle: Nozzle | None) -> Json:
    if nozzle is None:
        return None
    return {
        "force_n": list(nozzle.force),
        "moment_nm": list(nozzle.moment),
        "up": None if nozzle.up is None else list(nozzle.up),
        "rule": nozzle.rule,
        "limit": nozzle.limit,
        "source": nozzle.source,
    }


def spring_part(spring: Spring | None) -> Json:
    """Return the spring of a spring hanger; None of any other hold."""
    if spring is None:
        return None
    return {
        "rate_n_per_mm": to_n_per_mm(spring.rate),
        "cold_load_n": spring.cold_load,
        "least_n": spring.least,
        "most_n": spring.most,
        "locked_in_test": spring.locked_in_test,
        "stop_up_mm": None if spring.stop_up is None else to_mm(spring.stop_up),
        "stop_down_mm": None if spring.stop_down is None else to_mm(spring.stop_down),
        "source": spring.source,
    }
