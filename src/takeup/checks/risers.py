"""What risers do: how they move at their holds, and which hold carries them.     (checks/risers.py)

What: for each vertical run longer than 2 m, the movement of the pipe at every hold on it, and the share of its weight
that one hold on it or next to it carries. Why: a guide that is passed in a floor has to let the pipe by, and a riser
whose weight lies on nobody's hold hangs on its elbows. Source: first principles; 80 % is common practice. Limits:
information; weight as it is shared by what touches in the state. Passes: an anchor at the foot that carries 95 %.
Says: where no hold carries 80 %, no limit is given: nobody has said which is meant to.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.checks.outcome import CheckResult, Outcome, Rule, governing
from takeup.checks.support_span import UPRIGHT
from takeup.line import GRAVITY, SAME_STATION
from takeup.study import CAUSES, HoldLoads, LineAnswer

RULE = Rule(
    name="risers",
    title="risers: movement and dead weight",
    what="movement of the pipe at every hold of a vertical run above 2 m, and which hold carries its weight",
    why="a floor has to let the pipe by; a riser that no hold is meant to carry hangs on its elbows",
    source="first principles; 80 %: common practice, no source",
    limits="for information; weight as it is shared by what touches in the state",
    mandatory=False,
)
SHORTEST = 2.0  # m: a shorter vertical run is an offset (common practice, no source)
ENOUGH = 0.8

Floats = NDArray[np.float64]


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return one result for each riser."""
    return [_of_riser(answer, low, high) for low, high in risers_of(answer)]


def risers_of(answer: LineAnswer) -> list[tuple[float, float]]:
    """Return the stations between which the line runs vertically for more than 2 m, legs that follow joined."""
    route = answer.model.route
    runs: list[tuple[float, float, float]] = []
    for number, direction in enumerate(route.directions):
        sense = float(np.sign(direction[2]))
        if abs(float(direction[2])) <= UPRIGHT:
            continue
        low, high = float(route.corners[number]), float(route.corners[number + 1])
        if runs and runs[-1][2] == sense and abs(runs[-1][1] - low) < SAME_STATION:
            low = runs.pop()[0]
        runs.append((low, high, sense))
    return [(low, high) for low, high, _ in runs if high - low > SHORTEST]


def _of_riser(answer: LineAnswer, low: float, high: float) -> CheckResult:
    before = [hold for hold in answer.holds if hold.station < low - SAME_STATION][-1:]
    on = [hold for hold in answer.holds if low - SAME_STATION <= hold.station <= high + SAME_STATION]
    beyond = [hold for hold in answer.holds if hold.station > high + SAME_STATION][:1]
    places = [(hold.station, f"at {hold.name}") for hold in on] or [(high, "with no hold on it, at its far end")]
    moved = [_movement(answer, station, words) for station, words in places]
    _, number, _ = max(moved, key=lambda item: item[0])
    carried, enough = _carried(answer, (low, high), [*before, *on, *beyond])
    outcome: Outcome = "passes" if enough else "no limit given"
    where = f"{answer.line.name}, the riser from {low:.2f} m to {high:.2f} m"
    because = "; ".join([carried, *(words for _, _, words in moved)])
    return RULE.result(where, answer.states[number].name, outcome, because)


def _movement(answer: LineAnswer, station: float, where: str) -> tuple[float, int, str]:
    """Return the greatest movement of the pipe at a station [m], its state, and both in words."""
    place = int(np.argmin(np.abs(answer.model.stations - station)))
    moved = answer.displacements[:, place, :3]
    sizes = np.linalg.norm(moved, axis=1)
    number = governing(sizes)
    up, sideways = moved[number, 2] * 1e3, float(np.linalg.norm(moved[number, :2])) * 1e3
    words = f"{where} the pipe moves {up:+.1f} mm up, {sideways:.1f} mm sideways ({answer.states[number].name})"
    return float(sizes[number]), number, words


def _carried(answer: LineAnswer, riser: tuple[float, float], holds: list[HoldLoads]) -> tuple[str, bool]:
    """Return which hold carries the riser, in the state of service in which it is heaviest, and whether enough."""
    weights = _weights(answer, riser)
    number = governing(weights)
    own = float(weights[number])
    if not holds:
        return f"it weighs {own / 1e3:.1f} kN, and no hold stands on it or beside it", False
    weight = CAUSES.index("weight")
    loads = [-float(hold.parts[number, weight, 2]) for hold in holds]
    most = int(np.argmax(loads))
    words = (
        f"it weighs {own / 1e3:.1f} kN ({answer.states[number].name}); {holds[most].name} carries most weight there, "
        f"{loads[most] / 1e3:.1f} kN"
    )
    if loads[most] >= ENOUGH * own:
        return words, True
    return f"{words}: no hold carries 80 % of it, say which one is meant to", False


def _weights(answer: LineAnswer, riser: tuple[float, float]) -> Floats:
    """Return the weight of a riser with its content in each state, zero in the test, (states,) [N]."""
    low, high = riser
    model = answer.model
    inside = np.array([low < piece.middle < high for piece in model.pieces])
    density = np.array([[state.zones[piece.zone].density for piece in model.pieces] for state in answer.states])
    per_length = model.dead_weight + model.content_area * density * GRAVITY
    in_service = np.array([state.kind != "test" for state in answer.states])
    return np.asarray((per_length * model.length)[:, inside].sum(axis=1) * in_service)
