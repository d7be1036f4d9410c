"""The walk step by step, and what happened on it, as results.json carries them.     (results/walk.py)"""

from __future__ import annotations

from takeup.results.plain import Json
from takeup.study import Walked
from takeup.study.events import Happening, happenings_of
from takeup.study.trace import Trace, trace_of
from takeup.units import to_bar, to_mm


def walk_part(walked: Walked) -> list[Json]:
    """Return every step of the walk without friction and, where something rubs, of that with the most."""
    told = [walked.base] if walked.main is walked.base else [walked.base, walked.main]
    lengths = {item.name: item.data.length + item.preset for line in walked.base.study.lines for item in line.takeups}
    return [row for one in told for row in _steps(trace_of(one), lengths)]


def _steps(trace: Trace, lengths: dict[str, float]) -> list[Json]:
    way, rows = trace.way, list[Json]()
    for step, here in enumerate(way.here):
        number = int(way.to[step])
        zones: list[dict[str, Json]] = [
            {"zone": zone.name, "pressure_bar": to_bar(at.pressure), "temperature_c": at.temperature}
            for zone, at in zip(here.layout.every, here.zones, strict=True)
        ]
        rows.append(
            {
                "step": step + 1,
                "scenario": trace.scenario,
                "state": way.states[number].name,
                "arrived": bool(way.fraction[step] == 1.0),
                "between": [way.states[number - 1].name if number else None, way.states[number].name],
                "fraction": float(way.fraction[step]),
                "pressure_bar": zones[0]["pressure_bar"],
                "temperature_c": zones[0]["temperature_c"],
                "zones": zones,
                "holds": {name: float(force[step]) + 0.0 for name, force in trace.holds.items()},
                "joints": {name: to_mm(lengths[name] + float(axial[step])) for name, axial in trace.joints.items()},
                "converged": bool(trace.converged[step]),
                "error": float(trace.error[step]),
            }
        )
    return rows


def events_part(walked: Walked) -> list[Json]:
    """Return what happened in the walk without friction and, where something rubs, in that with the most."""
    told = [walked.base] if walked.main is walked.base else [walked.base, walked.main]
    return [_event(item) for one in told for item in happenings_of(one)]


def _event(item: Happening) -> Json:
    return {
        "step": item.occurrence.step + 1,
        "scenario": item.scenario,
        "kind": item.occurrence.kind,
        "what": item.occurrence.what,
        "where": item.occurrence.where,
        "line": item.occurrence.line,
        "words": item.occurrence.words,
        "between": [item.before or None, item.after],
        "state": item.after,
        "fraction": item.fraction,
        "zone": item.zone,
        "pressure_bar": to_bar(item.pressure),
        "temperature_c": item.temperature,
        "above_installation_k": item.above_installation,
    }


def scenarios_part(walked: Walked) -> Json:
    """Return what was walked, and how well: whole scenarios, combinations, uniqueness, what has no answer."""
    return {
        "whole": [
            {"scenario": one.scenario, "condition": one.condition, "residual": float(one.residual.max())}
            for one in walked.scenarios
        ],
        "combinations": [{"words": one.words, "because": one.because} for one in walked.combinations],
        "steps": len(walked.way.to),
        "error": max(float(one.run.walk.error.max(initial=0.0)) for one in walked.scenarios),
        "uniqueness": None if walked.unique is None else "shown" if walked.unique else "not shown",
        "because": list(walked.because),
    }
