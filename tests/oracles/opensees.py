"""A walk of ours told to OpenSees, and what it finds as ours says it.     (tests/oracles/opensees.py)

OpenSees is an independent finite element program with a licence of its own, free for internal use: it is in no lock,
and a machine without it skips what needs it (docs/decisions/opensees-beside-the-locks.md). It is looked for in the
Python that TAKEUP_OPENSEES names, else in the one that runs the tests.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from takeup.mechanics import Frame, Gaps, Loads, Rubs

RUNNER = Path(__file__).with_name("opensees_run.py")
PYTHON = os.environ.get("TAKEUP_OPENSEES", sys.executable)
ABSENT = "OpenSees is not there: see docs/decisions/opensees-beside-the-locks.md"


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """What OpenSees finds, s steps; signs and shapes are those of `Walk` and `StepAnswers`.

    Args:
        displacements: (s, n, 6).
        reactions: of each anchor on the frame, (s, anchors, 6).
        forces: of the gap rows, (s, g).
        friction: on the frame along each tangent, (s, t, 2).
        iterations: solutions of the whole frame, in all steps.
        seconds: for the steps alone, without starting the program and reading the model.
    """

    displacements: np.ndarray
    reactions: np.ndarray
    forces: np.ndarray
    friction: np.ndarray
    iterations: int
    seconds: float


def run(words: list[str], text: str = "") -> subprocess.CompletedProcess[str]:
    """Run the script in the Python that has the program."""
    command = [PYTHON, str(RUNNER), *words]
    return subprocess.run(command, input=text, capture_output=True, text=True, check=False)


@cache
def is_there() -> bool:
    """Return whether OpenSees can be imported."""
    return run(["--check"]).returncode == 0


def opensees(
    frame: Frame, gaps: Gaps, rubs: Rubs, causes: Loads, amounts: np.ndarray, *, stiff: float, parts: int = 1
) -> Found:
    """Return the walk as OpenSees finds it, with contacts as stiff springs.

    Args:
        frame: level straight members, anchors only.
        gaps: rests (direction down) and guides along a global axis.
        rubs: along a global axis with a constant normal force, or pressed by one rest.
        causes: one a load case; force per length only down, the same on all members.
        amounts: of each cause at the end of each step, (s, c).
        stiff: of all contacts [N/m].
        parts: equal parts of a step, each solved at its end.
    """
    presses = {int(row[0]): rub for rub, row in enumerate(rubs.pressed_by) if row.size and row[0] >= 0}
    told = [_gap(gaps, row, rubs, presses.get(row)) for row in range(len(gaps.node))]
    told += [_rub(rubs, rub) for rub in range(len(rubs.node)) if rub not in presses.values()]
    model = {
        "points": frame.points.tolist(),
        "members": _members(frame),
        "anchors": frame.supports.node.tolist(),
        "contacts": told,
        "causes": [_cause(causes, number) for number in range(len(causes.strain))],
        "amounts": np.asarray(amounts).tolist(),
        "stiff": stiff,
        "parts": parts,
    }
    done = run([], json.dumps(model))
    if done.returncode:
        raise RuntimeError(done.stderr)
    found = json.loads(done.stdout.splitlines()[0])
    force, friction = _as_ours(gaps, rubs, presses, np.array(found["contact"]))
    return Found(
        displacements=np.array(found["moved"]),
        reactions=np.array(found["anchor"]),
        forces=force,
        friction=friction,
        iterations=found["iterations"],
        seconds=found["seconds"],
    )


def _members(frame: Frame) -> list[list[float]]:
    columns = (frame.straights.start, frame.straights.end)
    columns += (frame.straights.axial, frame.straights.bending, frame.straights.torsion)
    return [list(row) for row in zip(*(column.tolist() for column in columns), strict=True)]


def _gap(gaps: Gaps, row: int, rubs: Rubs, rub: int | None) -> dict[str, object]:
    node, direction = int(gaps.node[row]), gaps.direction[row]
    axis = int(np.argmax(np.abs(direction)))
    if axis == 2:
        assert direction[2] == -1.0
        assert gaps.gap_plus[row] == 0.0
        assert np.isinf(gaps.gap_minus[row])
        if rub is not None:
            return {"kind": "slider", "node": node, "mu": float(rubs.mu[rub])}
        return {"kind": "hold", "node": node, "dof": 3}
    assert gaps.gap_plus[row] == gaps.gap_minus[row]
    return {"kind": "gap", "node": node, "dof": axis + 1, "gap": float(gaps.gap_plus[row])}


def _rub(rubs: Rubs, rub: int) -> dict[str, object]:
    assert rubs.constant is not None
    assert not rubs.directions[rub, 1].any()
    axis = int(np.argmax(np.abs(rubs.directions[rub, 0])))
    limit = float(rubs.mu[rub] * rubs.constant[rub])
    return {"kind": "rub", "node": int(rubs.node[rub]), "dof": axis + 1, "limit": limit}


def _cause(causes: Loads, number: int) -> dict[str, object]:
    weight = 0.0 if causes.per_length is None else -float(causes.per_length[number, 0, 2])
    if causes.per_length is not None:
        assert np.array_equal(causes.per_length[number], np.tile([0.0, 0.0, -weight], (causes.strain.shape[1], 1)))
    nodal = [] if causes.nodal is None else enumerate(causes.nodal[number].tolist())
    return {
        "strain": causes.strain[number].tolist(),
        "weight": weight,
        "nodal": [[node, force] for node, force in nodal if any(force)],
    }


def _as_ours(gaps: Gaps, rubs: Rubs, presses: dict[int, int], contact: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return forces of gap rows and friction from the forces on the nodes, (s, contacts, 6)."""
    count = len(gaps.node)
    force = -np.einsum("sgk,gk->sg", contact[:, :count, :3], gaps.direction)
    place = {rub: row for row, rub in presses.items()}
    alone = [rub for rub in range(len(rubs.node)) if rub not in place]
    place |= {rub: count + number for number, rub in enumerate(alone)}
    rows = [place[rub] for rub in range(len(rubs.node))]
    return force, np.einsum("stk,tdk->std", contact[:, rows, :3], rubs.directions)
