"""How long a walk through contacts takes, beside OpenSees on the same line.     (benchmarks/walk_peer.py)

    PYTHONPATH=src python -m benchmarks.walk_peer

The line and the forty steps of `benchmarks.walk`, without wind: 200 members, fifty rests and guides. Friction along the
pipe, with the normal force of the weight on a span; then in the plane of the rests, with the normal force found.
OpenSees has springs for contacts, of the stiffness told; its time is that of the steps alone, in a process of its own.
Ours is exact along the pipe: OpenSees with more parts a step comes nearer. Where OpenSees is absent, one line says so.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from tests.oracles.opensees import ABSENT, is_there, opensees

from benchmarks.walk import EVERY, LENGTH, WEIGHT, best, causes, contacts, forty_steps, line
from takeup.mechanics import ContactProblem, Gaps, Loads, Rubs, Steps, Walk, condense, walk

STIFF = 1e9  # N/m
CAUSES = 3  # weight, growth, pressure: OpenSees is told no wind


def case(*, plane: bool) -> tuple[Gaps, Rubs, Loads, np.ndarray]:
    """Return contacts, causes and their amounts; along the pipe with a constant normal force."""
    _, direction = line()
    gaps, rubs = contacts(direction, plane=plane)
    if not plane:
        count = len(rubs.node)
        none = np.zeros((count, 0), dtype=np.int64)
        rubs = replace(rubs, pressed_by=none, constant=np.full(count, WEIGHT * EVERY * LENGTH))
    every = causes()
    assert every.per_length is not None
    assert every.nodal is not None
    some = Loads(strain=every.strain[:CAUSES], per_length=every.per_length[:CAUSES], nodal=every.nodal[:CAUSES])
    return gaps, rubs, some, forty_steps(windy=False).amounts[:, :CAUSES]


def main() -> None:
    """Print the table."""
    if not is_there():
        print(ABSENT)
        return
    for plane in (False, True):
        print("friction in the plane" if plane else "friction along")
        _print_case(*case(plane=plane))


def _print_case(gaps: Gaps, rubs: Rubs, loads: Loads, amounts: np.ndarray) -> None:
    frame, _ = line()
    problem = condense(frame, gaps, rubs, loads)
    assert isinstance(problem, ContactProblem), problem
    steps = Steps(amounts=amounts)
    found = walk(problem, steps)
    condensed, walked = best(lambda: condense(frame, gaps, rubs, loads), 3), best(lambda: walk(problem, steps), 5)
    print(f"  ours              {condensed * 1e3:8.1f} ms condensed, {walked * 1e3:8.1f} ms walked", end="")
    print(f", {len(found.events)} events, converged {found.converged.all()}")
    for parts in (1, 8):
        _print_peer(found, amounts, parts)


def _print_peer(found: Walk, amounts: np.ndarray, parts: int) -> None:
    problem = found.problem
    told = (problem.frame, problem.gaps, problem.rubs, problem.causes, amounts)
    try:
        peer = opensees(*told, stiff=STIFF, parts=parts)
    except RuntimeError as error:
        print(f"  OpenSees, parts {parts}: {str(error).strip().splitlines()[-2]}")
        return
    away = np.abs(peer.friction - found.friction).max()
    print(f"  OpenSees, parts {parts} {peer.seconds * 1e3:8.1f} ms", end="")
    print(f", {peer.iterations} iterations, friction apart by {away:.1f} N of {np.abs(found.friction).max():.0f} N")


if __name__ == "__main__":
    main()
