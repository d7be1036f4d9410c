"""A record that was walked, as results.json carries it.     (history/walked.py)"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from takeup.history.beyond import HELD_AGAINST, Beyond, beyond_of
from takeup.history.ranges import ranges_of
from takeup.history.thin import thinned
from takeup.line import Record, Study, Zones, zones_of
from takeup.results.plain import Json
from takeup.study.recorded import RecordedEvent, RecordWalk, walk_record
from takeup.units import to_bar, to_mm

Floats = NDArray[np.float64]
_POINTS = 400  # of the course drawn; extremes and ranges are of every row
_SMALLEST = 0.05  # mm: a range below it is the ripple of a record


def record_part(study: Study, whole: Record) -> Json:
    """Return what a record brought: extremes of holds and joints, ranges of joints, events, its course.

    Rows that lie on a straight line between their neighbours are not walked: nothing changes by it.

    Args:
        study: its lines resolved.
        whole: as read.
    """
    record = thinned(whole)
    walks = walk_record(study, record)
    head: dict[str, Json] = {
        "file": record.file,
        "sha256": record.sha256,
        "rows": len(whole.times),
        "steps": len(record.times),
        "from_s": float(record.times[0]),
        "to_s": float(record.times[-1]),
    }
    told = [one for one in walks if isinstance(one, RecordWalk)]
    if len(told) < len(walks):
        return {**head, "because": [str(one) for one in walks], **_nothing()}
    lengths = {item.name: item.data.length + item.preset for line in study.lines for item in line.takeups}
    joints = {name: lengths[name] + axial for name, axial in told[0].joints.items()}
    zones = zones_of(study)
    return {
        **head,
        "because": [f"{one.scenario}: {one.because}" for one in told if one.because],
        "held_against": HELD_AGAINST,
        "beyond": [_beyond(one) for one in beyond_of(study, record, told)],
        "error": max(one.error for one in told),
        "envelopes": {
            "holds": {name: _hold(record.times, told, name) for name in told[0].holds},
            "joints": {name: _joint(record.times, length, told[0].scenario) for name, length in joints.items()},
        },
        "events": [_event(one.scenario, event, zones) for one in told for event in one.events],
        "series": _series(record, told[-1], joints),
    }


def _beyond(one: Beyond) -> Json:
    return {
        "what": one.what,
        "where": one.where,
        "value": one.value,
        "limit": one.limit,
        "unit": one.unit,
        "at_s": one.time,
        "words": one.words,
    }


def with_record(results: Mapping[str, Json], part: Json) -> dict[str, Json]:
    """Return results with a record in them: where it goes beyond a limit, or was not walked to its end, they fail.

    Args:
        results: of the study.
        part: what the record brought.
    """
    assert isinstance(part, Mapping), "a record is a mapping"
    verdict = results["verdict"]
    assert isinstance(verdict, Mapping), "a verdict is a mapping"
    beyond, lost = part["beyond"], part["because"]
    assert isinstance(beyond, list), "a list"
    assert isinstance(lost, list), "a list"
    reasons = [str(one["words"]) for one in beyond if isinstance(one, Mapping)]
    reasons += [f"record, not walked to its end: {reason}" for reason in lost]
    if not reasons:
        return {**results, "record": part}
    told = verdict["because"]
    assert isinstance(told, list), "a list"
    before = told if verdict["outcome"] != "close" else []
    return {**results, "verdict": {"outcome": "fails", "because": [*before, *reasons]}, "record": part}


def _hold(times: Floats, walks: list[RecordWalk], name: str) -> Json:
    """Return the least and greatest force of a hold along its first axis, over both walks, and when they were."""
    along = np.array([one.holds[name] for one in walks])
    low, high = (np.unravel_index(int(pick(along)), along.shape) for pick in (np.nanargmin, np.nanargmax))
    return {
        "min_n": float(along[low]) + 0.0,
        "max_n": float(along[high]) + 0.0,
        "min_at_s": float(times[low[1]]),
        "max_at_s": float(times[high[1]]),
        "min_scenario": walks[int(low[0])].scenario,
        "max_scenario": walks[int(high[0])].scenario,
    }


def _joint(times: Floats, length: Floats, scenario: str) -> Json:
    """Return the least and greatest length of a joint, and the ranges that it went through, largest first."""
    known = ~np.isnan(length)
    mm, at = to_mm(1.0) * length[known], times[known]
    low, high = int(mm.argmin()), int(mm.argmax())
    return {
        "scenario": scenario,
        "min_mm": float(mm[low]),
        "max_mm": float(mm[high]),
        "min_at_s": float(at[low]),
        "max_at_s": float(at[high]),
        "ranges": _counted(mm),
    }


def _counted(mm: Floats) -> list[Json]:
    """Return the ranges of a history to a tenth of a millimetre, largest first, those that are alike together."""
    alike: dict[float, list[tuple[float, float, float]]] = {}
    for one in ranges_of(mm):
        if one.size >= _SMALLEST:
            alike.setdefault(round(one.size, 1), []).append((one.count, one.low, one.high))
    return [
        {
            "range_mm": size,
            "count": sum(count for count, _, _ in found),
            "low_mm": min(low for _, low, _ in found),
            "high_mm": max(high for _, _, high in found),
        }
        for size, found in sorted(alike.items(), reverse=True)
    ]


def _event(scenario: str, event: RecordedEvent, zones: Zones) -> Json:
    item = event.occurrence
    return {
        "time_s": event.time,
        "scenario": scenario,
        "kind": item.kind,
        "what": item.what,
        "where": item.where,
        "line": item.line,
        "words": item.words,
        "zone": zones.every[item.zone].name,
        "pressure_bar": to_bar(event.pressure),
        "temperature_c": event.temperature,
    }


def _series(record: Record, walk: RecordWalk, joints: dict[str, Floats]) -> list[Json]:
    """Return the course of the record in a few hundred points, for a drawing; forces are those with most friction."""
    rows = np.unique(np.linspace(0, len(record.times) - 1, min(_POINTS, len(record.times))).astype(int))
    return [
        {
            "time_s": float(record.times[row]),
            "pressure_bar": to_bar(float(record.pressures[row, 0])),
            "temperature_c": float(record.temperatures[row, 0]),
            "holds": {name: float(along[row]) + 0.0 for name, along in walk.holds.items()},
            "joints": {name: to_mm(float(length[row])) for name, length in joints.items()},
        }
        for row in rows.tolist()
        if not np.isnan(next(iter(walk.holds.values()))[row])
    ]


def _nothing() -> dict[str, Json]:
    return {
        "held_against": HELD_AGAINST,
        "beyond": [],
        "error": None,
        "envelopes": {"holds": {}, "joints": {}},
        "events": [],
        "series": [],
    }
