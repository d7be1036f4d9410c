"""Stress in the pipe: the range from growth, and the wall's own stress.     (checks/pipe_stress.py)

What: the expansion stress range i M_C/Z between any two states, and the greatest longitudinal stress of the wall;
each against a limit that the user states with its source. Why: a span that flexes by itself lives on the first; a
pipe held at both ends dies by the second. Source: ASME B31.1-2020 104.8.3 (from memory); first principles. Limits: no
sustained or occasional loads. Passes: 90 MPa of 205. Fails: 430 MPa in a held pipe of 240 MPa yield.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.basis import bend_intensification, flexibility_characteristic, section_modulus
from takeup.checks.outcome import CheckResult, Rule
from takeup.line import Zone, bore_area, wall_area
from takeup.study import CAUSES, LineAnswer
from takeup.study.loads import member_pressures

EXPANSION = Rule(
    name="expansion_stress",
    title="expansion stress range",
    what="i M_C/Z with M_C the resultant range of moment from growth between any two states, at every member end",
    why="repeated bending from growth cracks bends and welds",
    source="ASME B31.1-2020 104.8.3, factors of Appendix D (from memory)",
    limits="torsion and bending from growth; i = 1 on straight pipe; the allowable range is the user's",
)
_MEMORY = "from memory"  # the factors of Appendix D and the paragraph were recalled, not read
NOTHING = 0.5  # MPa: a stress that no allowable range could fail
WALL = Rule(
    name="wall_stress",
    title="longitudinal stress of the wall",
    what="axial force over the metal area plus bending over the section modulus, all causes, greatest over the states",
    why="a hot pipe held at both ends with nothing to take its growth yields or buckles",
    source="first principles",
    limits="linear; no intensification; buckling between guides is stability, which is not covered",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return both stresses, governing place of each span."""
    results = []
    for number, zone in enumerate(answer.model.zones):
        members = np.array(
            [i for i, piece in enumerate(answer.model.pieces) if piece.zone == number and piece.part in ("pipe", "arc")]
        )
        if len(members):
            results += [_expansion(answer, zone, members), _wall(answer, zone, members)]
    return results


def _intensification(answer: LineAnswer, member: int) -> float:
    """Return i of a member: that of the bend on an arc, one on straight pipe."""
    arc = member - len(answer.model.frame.straights.start)
    if arc < 0:
        return 1.0
    pipe = answer.line.pipe
    mean_radius = (pipe.size.outside_diameter - pipe.wall) / 2.0
    radius = float(answer.model.frame.arcs.radius[arc])
    return bend_intensification(flexibility_characteristic(bend_radius=radius, mean_radius=mean_radius, wall=pipe.wall))


def _expansion(answer: LineAnswer, zone: Zone, members: NDArray[np.int64]) -> CheckResult:
    pipe, limit = answer.line.pipe, answer.study.stress_range_limit
    moments = answer.end_moments[:, CAUSES.index("growth"), members]  # (states, members, 2, 3)
    ranges = np.linalg.norm(moments[:, None] - moments[None], axis=-1)  # every pair of states
    factor = np.array([_intensification(answer, int(member)) for member in members])
    stress = ranges * factor[:, None] / section_modulus(pipe.size.outside_diameter, pipe.wall)
    first, second, member, end = np.unravel_index(int(stress.argmax()), stress.shape)
    piece = answer.model.pieces[members[member]]
    station = piece.start if end == 0 else piece.end
    states = f"{answer.states[first].name} - {answer.states[second].name}"
    words = f"at {station:.2f} m on {'a bend' if piece.part == 'arc' else 'straight pipe'}, i = {factor[member]:.2f}"
    demand = float(stress[first, second, member, end]) / 1e6
    if limit is None and demand < NOTHING:
        return EXPANSION.result(zone.name, "all states", "passes", "growth bends nothing here", unit="MPa")
    if limit is None:
        return EXPANSION.judge(
            zone.name, states, demand, None, "MPa", because=f"{words}; no allowable range is stated", status=_MEMORY
        )
    because = f"{words}; limit: {limit.source}"
    return EXPANSION.judge(zone.name, states, demand, limit.value / 1e6, "MPa", because=because, status=_MEMORY)


def _wall(answer: LineAnswer, zone: Zone, members: NDArray[np.int64]) -> CheckResult:
    pipe, limit = answer.line.pipe, answer.study.yield_strength
    pressure = np.array([member_pressures(answer.model, state)[members] for state in answer.states])
    axial = answer.effective_force[:, members] + pressure * bore_area(pipe)
    moment = np.linalg.norm(answer.end_moments.sum(axis=1)[:, members], axis=-1).max(axis=-1)
    stress = np.abs(axial) / wall_area(pipe) + moment / section_modulus(pipe.size.outside_diameter, pipe.wall)
    number, member = np.unravel_index(int(stress.argmax()), stress.shape)
    piece = answer.model.pieces[members[member]]
    force = float(axial[number, member]) / 1e3
    words = (
        f"about {piece.start:.2f} m; the wall carries {abs(force):.0f} kN {'tension' if force > 0 else 'compression'}"
    )
    state, demand = answer.states[number].name, float(stress[number, member]) / 1e6
    if limit is None:
        return WALL.judge(zone.name, state, demand, None, "MPa", because=f"{words}; no yield strength is stated")
    because = f"{words}; limit: yield strength, {limit.source}"
    return WALL.judge(zone.name, state, demand, limit.value / 1e6, "MPa", because=because, status="user's data")
