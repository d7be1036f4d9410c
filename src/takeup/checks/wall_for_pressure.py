"""The wall of straight pipe against what its pressure asks for.     (checks/wall_for_pressure.py)

What: the wall that the code asks of each section at its greatest pressure in service, allowance included, against the
nominal wall less the mill's tolerance. Why: a pipe too thin bursts, whatever else is right about it. Source: ASME B31.1
104.1.2, ASME B31.3 304.1.2, EN 13480-3 6.1; 12.5 % mill tolerance of seamless pipe, common practice for EN too, from
memory. Limits: straight seamless pipe (weld factor 1.0), Y = 0.4 to 482 degC, pressure inside; bends, tees and reducers
are not looked at. Passes: DN 200 of 8.18 mm at 12 bar(g). Fails: the same pipe at 120 bar(g) and S_h = 118 MPa.
"""

from __future__ import annotations

import numpy as np

from takeup.basis import required_wall
from takeup.checks.outcome import CheckResult, Rule
from takeup.checks.stress_points import allowables_of
from takeup.errors import OutOfRange
from takeup.line import Section
from takeup.line.parts import UserValue
from takeup.study import LineAnswer
from takeup.study.causes import piece_pressures

RULE = Rule(
    name="wall_for_pressure",
    title="wall for pressure",
    what="wall asked for by the greatest pressure in service, allowance included, against nominal less 12.5 %",
    why="a pipe too thin for its pressure bursts",
    source="ASME B31.1 104.1.2, ASME B31.3 304.1.2, EN 13480-3 6.1; mill tolerance 12.5 % (from memory)",
    limits="straight seamless pipe, weld factor 1.0, Y = 0.4 to 482 degC; bends, tees and reducers not looked at",
)
MILL_TOLERANCE = 0.125
WELD_FACTOR = 1.0
COEFFICIENT = 0.4  # Y of ferritic and austenitic steel below the creep range, Table 104.1.2(A) (from memory)
HOTTEST = 482.0  # degC: 900 degF, where Y begins to rise
_MEMORY = "from memory"


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each section."""
    sections = answer.line.sections
    results = []
    for section in sections:
        where = answer.line.name
        if len(sections) > 1:
            where += f", {section.start:.2f} m to {section.end:.2f} m"
        results.append(_of_section(answer, section, where))
    return results


def _of_section(answer: LineAnswer, section: Section, where: str) -> CheckResult:
    pressure, state = _greatest(answer, section)
    pipe = section.pipe
    room = pipe.wall * (1.0 - MILL_TOLERANCE)
    words = f"{pressure / 1e5:.2f} bar(g); nominal wall {pipe.wall * 1e3:.2f} mm less {MILL_TOLERANCE:.1%}"
    limit = allowables_of(answer, pipe).hot
    if limit is None:
        return RULE.result(
            where, state, "no limit given", f"{words}; no hot allowable stress is stated", unit="mm", status=_MEMORY
        )
    try:
        wall = _required(answer, section, pressure, limit)
    except OutOfRange as reason:
        return RULE.result(where, state, "not covered", str(reason), unit="mm", status=_MEMORY)
    words += f"; S_h = {limit.value / 1e6:.1f} MPa, {limit.source}; weld factor 1.0, seamless"
    return RULE.judge(where, state, wall * 1e3, room * 1e3, "mm", because=words, status=_MEMORY)


def _required(answer: LineAnswer, section: Section, pressure: float, limit: UserValue) -> float:
    """Return the wall that the code asks for, allowance included [m]."""
    code, pipe = answer.study.basis.code, section.pipe
    zones = {answer.model.pieces[number].zone for number in _pieces(answer, section)}
    hottest = max(state.zones[zone].temperature for state in answer.states for zone in zones)
    if code != "EN 13480-3" and hottest > HOTTEST:
        raise OutOfRange(f"{hottest:g} degC is above {HOTTEST:g} degC, to which Y = 0.4 holds: not covered.")
    return required_wall(
        code,
        pressure=pressure,
        outside_diameter=pipe.size.outside_diameter,
        allowable=limit.value,
        weld_factor=WELD_FACTOR,
        allowance=pipe.corrosion_allowance,
        coefficient=None if code == "EN 13480-3" else COEFFICIENT,
    )


def _greatest(answer: LineAnswer, section: Section) -> tuple[float, str]:
    """Return the greatest pressure in a section outside the test [Pa], and the state or condition it belongs to."""
    here = _pieces(answer, section)
    layout = answer.states[0].layout
    found = [
        (float(np.max(piece_pressures(answer.model, state)[here])), state.name)
        for state in answer.states
        if state.kind != "test"
    ]
    zones = {answer.model.pieces[number].zone for number in here}
    found += [(layout.every[zone].conditions.design.pressure, "all states") for zone in zones]
    pressure, state = max(found, key=lambda item: item[0])
    return max(pressure, 0.0), state


def _pieces(answer: LineAnswer, section: Section) -> list[int]:
    """Return the numbers of the pieces of a section."""
    return [number for number, piece in enumerate(answer.model.pieces) if section.start < piece.middle < section.end]
