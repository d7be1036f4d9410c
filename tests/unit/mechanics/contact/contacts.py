"""Contacts for the tests of this room, in few words.     (contact/contacts.py)"""

from __future__ import annotations

import numpy as np

from takeup.mechanics import Loads
from takeup.mechanics.contact.condense import condense
from takeup.mechanics.contact.rows import GROUND, ContactProblem, Gaps, Rubs, no_rubs

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)


def gaps(*told) -> Gaps:
    """Return gap rows from dicts: node, direction, plus, minus and what else there is."""
    arms = any("arm" in row or "other_arm" in row for row in told)
    return Gaps(
        node=np.array([row["node"] for row in told], dtype=np.int64),
        direction=np.array([row["direction"] for row in told], dtype=float).reshape(-1, 3),
        gap_plus=np.array([row.get("plus", 0.0) for row in told], dtype=float),
        gap_minus=np.array([row.get("minus", np.inf) for row in told], dtype=float),
        compliance=np.array([row.get("compliance", 0.0) for row in told], dtype=float),
        other=np.array([row.get("other", GROUND) for row in told], dtype=np.int64),
        arm=np.array([row.get("arm", (0, 0, 0)) for row in told], dtype=float).reshape(-1, 3) if arms else None,
        other_arm=np.array([row.get("other_arm", (0, 0, 0)) for row in told], dtype=float).reshape(-1, 3)
        if arms
        else None,
        turns=np.array([row.get("turns", False) for row in told], dtype=bool),
    )


def rests(nodes, **more) -> list[dict]:
    """Return rests that hold upward and let go upward."""
    return [{"node": node, "direction": DOWN, "plus": 0.0, "minus": np.inf, **more} for node in nodes]


def rubs(*told) -> Rubs:
    """Return rubs from dicts: node, along, across, mu, by and what else there is."""
    if not told:
        return no_rubs()
    most = max(len(row["by"]) for row in told)
    return Rubs(
        node=np.array([row["node"] for row in told], dtype=np.int64),
        directions=np.array([[row["along"], row.get("across", (0, 0, 0))] for row in told], dtype=float),
        mu=np.array([row["mu"] for row in told], dtype=float),
        pressed_by=np.array([[*row["by"], *[-1] * (most - len(row["by"]))] for row in told], dtype=np.int64),
        lever=np.array([row.get("lever", 1.0) for row in told], dtype=float),
        constant=np.array([row.get("constant", 0.0) for row in told], dtype=float),
        turns=np.array([row.get("turns", False) for row in told], dtype=bool),
    )


def causes(*cases: Loads) -> Loads:
    """Return load cases put together, one cause each."""
    count = cases[0].strain.shape[1]
    per_length = [np.zeros((1, count, 3)) if case.per_length is None else case.per_length for case in cases]
    nodes = max((case.nodal.shape[1] for case in cases if case.nodal is not None), default=0)
    nodal = [np.zeros((1, nodes, 6)) if case.nodal is None else case.nodal for case in cases]
    return Loads(
        strain=np.concatenate([case.strain for case in cases]),
        per_length=np.concatenate(per_length),
        nodal=np.concatenate(nodal) if nodes else None,
    )


def condensed(frame, rows, rub_rows=(), *cases) -> ContactProblem:
    """Return the problem, which must be one."""
    problem = condense(frame, gaps(*rows), rubs(*rub_rows), causes(*cases))
    assert isinstance(problem, ContactProblem), problem
    return problem
