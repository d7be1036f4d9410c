"""The walk and the record in the terminal's summary.     (papers/summary/summary_walk.py)"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any  # the results document is JSON: what its values are is said by its schema, not by types

from takeup.edge import Units

Results = Mapping[str, Any]
_SAME = 0.05  # K
_MOST = 12  # events printed; the rest stand in the calculation


def walk_lines(results: Results, units: Units) -> list[str]:
    """Return what was walked and what happened on the way, friction apart, which is counted.

    Args:
        results: the results document.
        units: what its numbers are written in.
    """
    scenarios = results["scenarios"]
    if scenarios is None:
        return []
    names = ", ".join(one["scenario"] for one in scenarios["whole"])
    walked = f"Walked through {len(results['states'])} states in {scenarios['steps']} steps: {names}; "
    lines = [f"{walked}{len(scenarios['combinations'])} combinations of friction and spring rates in the envelope."]
    first = scenarios["whole"][0]["scenario"]
    told = [
        event
        for event in results["events"]
        if event["scenario"] == first and event["kind"] != "friction" and event["between"][0] is not None
    ]
    if told:
        lines.append(f"On the way, in the walk {'without friction' if first == 'no friction' else f'with {first}'}:")
    lines += [f"  {_event(event, units)}" for event in told[:_MOST]]
    if len(told) > _MOST:
        lines.append(f"  ... and {len(told) - _MOST} more; each stands in calculation.pdf.")
    return [*lines, ""]


def _event(event: Mapping[str, Any], units: Units) -> str:
    warmer = event["above_installation_k"]
    where = f"{units.temperature_difference.text(abs(warmer), 1)} {'below' if warmer < 0.0 else 'above'} installation"
    if abs(warmer) < _SAME:
        where = "installation temperature"
    pressure = units.pressure.text(event["pressure_bar"], 2)
    return f"{event['words']} at {where}, {pressure}, on the way to {event['state']}"


def record_lines(results: Results, units: Units) -> list[str]:
    """Return what a record brought: nothing where none was walked.

    Args:
        results: the results document.
        units: what its numbers are written in.
    """
    record = results["record"]
    if record is None:
        return []
    lines = [f"Record {record['file']}: {record['rows']} rows walked in {record['steps']} steps."]
    lines += [f"  not walked to its end: {reason}" for reason in record["because"]]
    lines += [f"  beyond: {one['words'].removeprefix('record, ')}" for one in record["beyond"]]
    for name, joint in record["envelopes"]["joints"].items():
        ranges: Sequence[Mapping[str, Any]] = joint["ranges"]
        largest = f"; largest range {units.small.text(ranges[0]['range_mm'], 1)}" if ranges else ""
        lengths = f"{units.small.text(joint['min_mm'], 1)} to {units.small.text(joint['max_mm'], 1)} long"
        lines.append(f"  {name}: {lengths}{largest}")
    return [*lines, ""]
