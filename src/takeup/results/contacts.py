"""What touches and what pulls, state by state: contacts of holds, rods of joints.     (results/contacts.py)"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.results.plain import Json
from takeup.study import Solved
from takeup.study.contact_rows import Row
from takeup.units import to_mm

_NOTHING = 1e-6  # N: the force of a contact that only touches


def contacts_of_holds(solved: Solved) -> dict[tuple[str, str], list[Json]]:
    """Return how each contact stands in every state it is there in, by line and name of its hold.

    Args:
        solved: one scenario.
    """
    found: dict[tuple[str, str], list[Json]] = {}
    walk, way = solved.run.walk, solved.run.way
    sides, moved = walk.sides[way.arrivals].T.tolist(), walk.movements[way.arrivals].T.tolist()
    forces, present = np.abs(walk.forces[way.arrivals]).T.tolist(), way.steps.present
    for number, row in enumerate(solved.run.ground.contacts.rows):
        if row.role != "hold":
            continue
        there = [True] * len(way.states) if present is None else present[way.arrivals, number].tolist()
        found.setdefault((row.line, row.owner), []).extend(
            {"state": state.name, "scenario": solved.scenario, **_stands(row, *stand)}
            for state, is_there, *stand in zip(
                way.states, there, sides[number], moved[number], forces[number], strict=True
            )
            if is_there
        )
    return found


def _stands(row: Row, side: int, moved: float, force: float) -> dict[str, Json]:
    """Return how a contact stands: which of its sides is shut, or is nearer and how far it is from that."""
    left = ((row.gap[0] - moved, row.plus), (row.gap[1] + moved, row.minus))
    gap, words = min(one for one in left if one[1])
    shut = row.plus if side > 0 else row.minus
    return {
        "side": shut if side else words,
        "gap_mm": 0.0 if side else to_mm(max(gap, 0.0)) + 0.0,
        "force_n": force,
        "status": "touches" if side else "open",
    }


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
