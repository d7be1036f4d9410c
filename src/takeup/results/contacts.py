"""What touches and what pulls, state by state: contacts of holds, rods of joints.     (results/contacts.py)"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.results.plain import Json
from takeup.study import Solved
from takeup.study.contact_rows import Row
from takeup.units import to_mm

_NOTHING = 1e-6  # N: the force of a contact that only touches


def contact_rows(solved: Solved, line: str, name: str) -> list[Json]:
    """Return how each contact of a hold stands in every state it is there in.

    Args:
        solved: one scenario.
        line: the hold's line.
        name: of the hold.
    """
    return [
        row
        for number, contact in _contacts(solved, line, name, ("hold",))
        for row in _hold_rows(solved, number, contact)
    ]


def rod_rows(solved: Solved, line: str, name: str) -> list[Json]:
    """Return tension and gap of each rod of a joint in every state.

    Args:
        solved: one scenario.
        line: the joint's line.
        name: of the joint.
    """
    found: list[Json] = []
    walk, way = solved.run.walk, solved.run.way
    for number, row in _contacts(solved, line, name, ("rod",)):
        for state, step in zip(way.states, way.arrivals, strict=True):
            tension = float(walk.forces[step, number])
            found.append(
                {
                    "state": state.name,
                    "scenario": solved.scenario,
                    "rod": row.plus,
                    "tension_n": tension + 0.0,
                    "engaged": bool(walk.sides[step, number]),
                    "gap_mm": to_mm(max(row.gap[0] - float(walk.movements[step, number]), 0.0)) + 0.0
                    if not walk.sides[step, number]
                    else 0.0,
                }
            )
    return found


def hardware_rows(solved: Solved, line: str, name: str) -> list[Json]:
    """Return what each plate, bar, balancing bellows and its ties carry in every state; tension above zero."""
    walk, way = solved.run.walk, solved.run.way
    found: list[Json] = [
        {
            "state": state.name,
            "scenario": solved.scenario,
            "part": row.plus,
            "role": row.role,
            "force_n": float(walk.forces[step, number]) + 0.0,
        }
        for number, row in _contacts(solved, line, name, ("pin", "bar", "balance"))
        for state, step in zip(way.states, way.arrivals, strict=True)
    ]
    return found + _ties(solved, line, name)


def _ties(solved: Solved, line: str, name: str) -> list[Json]:
    """Return the pull in the ties of a balancing bellows, P A_b and its spring; nothing of other joints."""
    return [
        {
            "state": state.name,
            "scenario": solved.scenario,
            "part": "ties of the balancing bellows",
            "role": "balance",
            "force_n": float(pull) + 0.0,
        }
        for one in solved.lines
        if one.line.name == line
        for joint in one.joints
        if joint.name == name and joint.ties is not None
        for state, pull in zip(solved.states, joint.ties, strict=True)
    ]


def _contacts(solved: Solved, line: str, name: str, roles: tuple[str, ...]) -> Iterator[tuple[int, Row]]:
    for number, row in enumerate(solved.run.ground.contacts.rows):
        if row.line == line and row.owner == name and row.role in roles:
            yield number, row


def _hold_rows(solved: Solved, number: int, row: Row) -> Iterator[Json]:
    walk, way = solved.run.walk, solved.run.way
    present = way.steps.present
    for state, step in zip(way.states, way.arrivals, strict=True):
        if present is not None and not present[step, number]:
            continue
        side, moved = int(walk.sides[step, number]), float(walk.movements[step, number])
        left = {row.plus: row.gap[0] - moved, row.minus: row.gap[1] + moved}
        nearer = min((gap, words) for words, gap in left.items() if words)
        words = nearer[1] if side == 0 else (row.plus if side > 0 else row.minus)
        yield {
            "state": state.name,
            "scenario": solved.scenario,
            "side": words,
            "gap_mm": 0.0 if side else to_mm(max(nearer[0], 0.0)) + 0.0,
            "force_n": abs(float(walk.forces[step, number])) + 0.0,
            "status": "touches" if side else "open",
        }
