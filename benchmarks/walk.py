"""How long a walk through contacts takes, beside what one would write first.     (benchmarks/walk.py)

    PYTHONPATH=src python -m benchmarks.walk

A line of 200 members of two metres in two legs, an axial joint in the middle of each, an anchor at each end and at the
corner; every fourth node on a support: a rest that lets go upward, a guide with two millimetres of clearance, friction
0.3 along the pipe, or in the plane of the rest. Forty steps: weight, warmed, pressure on and off, cooled, warmed again;
then the same with a wind that pushes the pipe through its clearances. A record of 100 000 steps: three times
warmed up by 80 K, held with a ripple of 0.05 K, cooled. Aims: forty steps under 10 ms after the factorisation, in
the plane under 100 ms, the record under 5 s. Peer: the first steps of the same walk, each by Newton's method on the
whole frame, dense numpy, contacts and friction as stiff springs with return mapping: what one would write first, and
not exact.

Each time is the best of several, all in one run on one machine.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from takeup.mechanics import (
    ContactProblem,
    Frame,
    Gaps,
    Loads,
    Rubs,
    Steps,
    Straights,
    Supports,
    answers_of,
    condense,
    no_arcs,
    walk,
)
from takeup.mechanics.assembly import assemble
from takeup.mechanics.model import Model, make_model
from takeup.mechanics.recover import forces_at_rest, strike_held, sums_at_nodes

MEMBERS, LENGTH, EVERY, LEG = 200, 2.0, 4, 100
AXIAL, BENDING, TORSION = 1.1e9, 6.1e6, 4.7e6  # E A [N], E I, G J [N m2]: about DN 200 in steel
JOINT, THRUST = 3.0e5, 5.0e4  # rate of a joint [N/m], force of pressure on either side of it [N]
STRAIN, WEIGHT, WIND, CLEARANCE, MU = 1.0e-3, 850.0, 120.0, 0.002, 0.3
WAYS = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
STEPS, RECORD, PEER_STEPS = 40, 100_000, 4
STIFF = 1e9  # of the peer's contacts [N/m]: some thousand times the pipe between two supports


def line() -> tuple[Frame, np.ndarray]:
    """Return the frame without its contacts, and the direction of each member."""
    number = np.arange(MEMBERS)
    direction = WAYS[(number // LEG) % 2]
    points = np.zeros((MEMBERS + 1, 3))
    points[1:] = np.cumsum(LENGTH * direction, axis=0)
    one = np.ones(MEMBERS)
    joint = (number == LEG // 2) | (number == LEG + LEG // 2)
    straights = Straights(
        start=number,
        end=number + 1,
        axial=np.where(joint, JOINT * LENGTH, AXIAL),
        bending=BENDING * one,
        torsion=TORSION * one,
    )
    supports = Supports(
        node=np.array([0, LEG, MEMBERS]),
        axes=np.tile(np.eye(3), (3, 1, 1)),
        held=np.ones((3, 6), dtype=bool),
        spring=np.zeros((3, 6)),
    )
    return Frame(points=points, straights=straights, arcs=no_arcs(), supports=supports), direction


def contacts(direction: np.ndarray, *, plane: bool) -> tuple[Gaps, Rubs]:
    """Return a rest, a guide and a rub at every fourth node."""
    nodes = np.arange(EVERY // 2, MEMBERS, EVERY)
    count, along = len(nodes), direction[nodes]
    across = along[:, [1, 0, 2]]
    down = np.tile([0.0, 0.0, -1.0], (count, 1))
    gaps = Gaps(
        node=np.concatenate([nodes, nodes]),
        direction=np.concatenate([down, across]),
        gap_plus=np.repeat([0.0, CLEARANCE], count),
        gap_minus=np.repeat([np.inf, CLEARANCE], count),
    )
    tangents = np.stack([along, across if plane else np.zeros_like(along)], axis=1)
    presses = np.arange(count)[:, None] if plane else np.stack([np.arange(count), count + np.arange(count)], axis=1)
    return gaps, Rubs(node=nodes, directions=tangents, mu=np.full(count, MU), pressed_by=presses)


def causes() -> Loads:
    """Return weight, growth, pressure in the joints, and wind, each at its full amount."""
    zero = np.zeros((MEMBERS, 3))
    nodal = np.zeros((4, MEMBERS + 1, 6))
    for node, way in ((LEG // 2, WAYS[0]), (LEG + LEG // 2, WAYS[1])):
        nodal[2, node, :3], nodal[2, node + 1, :3] = -THRUST * way, THRUST * way
    growth = np.full(MEMBERS, STRAIN)
    growth[[LEG // 2, LEG + LEG // 2]] = 0.0
    none = np.zeros(MEMBERS)
    return Loads(
        strain=np.stack([none, growth, none, none]),
        per_length=np.stack(
            [zero + np.array([0.0, 0.0, -WEIGHT]), zero, zero, zero + WIND * np.array([0.6, 0.8, 0.0])]
        ),
        nodal=nodal,
    )


def forty_steps(*, windy: bool) -> Steps:
    """Return weight, warming, pressure on and off, cooling, warming again."""
    up, down = np.linspace(0.1, 1.0, 10), np.linspace(0.9, 0.0, 10)
    heat = np.concatenate([[0.0, 0.0], up, np.ones(8), down, up])
    pressure, wind = np.zeros(STEPS), np.zeros(STEPS)
    pressure[1:16] = pressure[32:] = 1.0
    if windy:
        wind[12:20] = [0.5, 1.0, 0.5, 0.0, -0.5, -1.0, -0.5, 0.0]
    return Steps(amounts=np.stack([np.ones(STEPS), heat, pressure, wind], axis=1))


def record() -> Steps:
    """Return a long record: warmed up three times, held with a ripple, cooled; a reading a minute for ten weeks."""
    when = np.arange(RECORD) * 3.0 / RECORD % 1.0
    heat = np.clip(np.minimum(when / 0.02, (1.0 - when) / 0.05), 0.0, 1.0)
    heat += np.where(heat == 1.0, 0.0006 * np.sin(2.0 * np.pi * 300.0 * when), 0.0)
    return Steps(amounts=np.stack([np.ones(RECORD), heat, heat > 0.1, np.zeros(RECORD)], axis=1))


def best(work: Callable[[], object], repeats: int) -> float:
    """Return the shortest of several runs [s]."""
    times = []
    for _ in range(repeats):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def problem_of(*, plane: bool) -> ContactProblem:
    """Return the condensed line."""
    frame, direction = line()
    found = condense(frame, *contacts(direction, plane=plane), causes())
    assert isinstance(found, ContactProblem), found
    return found


def main() -> None:
    """Print the table."""
    for plane in (False, True):
        _print_kind(plane=plane)
    problem = problem_of(plane=False)
    few = Steps(amounts=forty_steps(windy=False).amounts[:PEER_STEPS])
    begin = time.perf_counter()
    iterations = peer(problem, few)
    print(f"peer, {PEER_STEPS} steps {(time.perf_counter() - begin) * 1e3:9.0f} ms, {iterations} solutions; ", end="")
    print(f"these steps here {best(lambda: walk(problem, few), 5) * 1e3:.1f} ms")
    steps = record()
    found = walk(problem, steps)
    print(
        f"record of {RECORD} steps {best(lambda: walk(problem, steps), 1):8.1f} s, {len(found.events)} events, ", end=""
    )
    print(f"converged {found.converged.all()}, error {found.error.max():.0e}")


def _print_kind(*, plane: bool) -> None:
    print("friction in the plane" if plane else "friction along")
    print(f"  condensed           {best(lambda: problem_of(plane=plane), 3) * 1e3:9.1f} ms")
    problem = problem_of(plane=plane)
    for windy in (False, True):
        for mu in (MU, 0.1, 0.0):
            _print_walk(problem, forty_steps(windy=windy), mu, windy=windy)
    found = walk(problem, forty_steps(windy=False))
    print(f"  member forces       {best(lambda: answers_of(found), 3) * 1e3:9.1f} ms", end="")
    print(f", residual {answers_of(found).residual.max():.0e}")


def peer(problem: ContactProblem, steps: Steps) -> int:
    """Return the iterations of a walk by Newton's method on the whole frame, contacts as stiff springs."""
    model = make_model(problem.frame)
    band, _ = assemble(model)
    size = len(band)
    stiff = np.zeros((size, size))
    for below in range(band.shape[1]):
        place = np.arange(size - below)
        stiff[place + below, place] = stiff[place, place + below] = band[: size - below, below]
    out = strike_held(model, _loads_at_nodes(problem, model)).transpose(1, 2, 0).reshape(-1, size)
    gaps, count = problem.gaps, len(problem.gaps.node)
    rows = strike_held(model, problem.rows.loads(len(problem.frame.points)).transpose(2, 0, 1))
    rows = rows.transpose(1, 2, 0).reshape(-1, size)
    normal, tangent, place = (
        rows[:count],
        rows[count : count + len(problem.rubs.node)],
        np.zeros(len(problem.rubs.node)),
    )
    u, iterations = np.zeros(size), 0
    for amounts in steps.amounts:
        for _ in range(60):
            q, slip = normal @ u, tangent @ u - place
            push = STIFF * (np.maximum(q - gaps.gap_plus, 0.0) + np.minimum(q + gaps.gap_minus, 0.0))
            most = MU * np.abs(push[problem.rubs.pressed_by]).sum(axis=1)
            friction = np.clip(STIFF * slip, -most, most)
            left = amounts @ out - stiff @ u - normal.T @ push - tangent.T @ friction
            if np.abs(left).max() < 1e-6 * np.abs(amounts @ out).max():
                break
            closed, sticks = normal[push != 0.0], tangent[np.abs(friction) < most]
            u = u + np.linalg.solve(stiff + STIFF * (closed.T @ closed + sticks.T @ sticks), left)
            iterations += 1
        place = place + slip - friction / STIFF
    return iterations


def _loads_at_nodes(problem: ContactProblem, model: Model) -> np.ndarray:
    """Return what each cause puts on the nodes while they are held, (6, c, n)."""
    nodal = np.moveaxis(problem.causes.nodal, 2, 0) if problem.causes.nodal is not None else 0.0
    return np.asarray(nodal - sums_at_nodes(model, forces_at_rest(model, problem.causes)))


def _print_walk(problem: ContactProblem, steps: Steps, mu: float, *, windy: bool) -> None:
    found = walk(problem, steps, mu=mu)
    seconds = best(lambda: walk(problem, steps, mu=mu), 1 if len(problem.rubs.plane) else 7)
    print(
        f"  forty steps{', windy' if windy else '       '} {seconds * 1e3:9.1f} ms, "
        f"mu {mu}, {len(found.events)} events, converged {found.converged.all()}, error {found.error.max():.0e}"
    )


if __name__ == "__main__":
    main()
