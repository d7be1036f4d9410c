"""The loads of one hold, state by state, in every whole scenario of friction.     (papers/loads/by_state.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from takeup.papers.common.glyphs import breakable
from takeup.papers.common.numerals import NONE
from takeup.papers.common.tables import Cell, Tree, number_column, table, words_column
from takeup.papers.loads.extent import governing_states
from takeup.papers.loads.held import Held, Load
from takeup.papers.loads.ranges import COMPONENTS, GIVING
from takeup.papers.loads.writer import Writer

_FORCES = 3  # of six components
_ACROSS = 16  # so many states at most stand side by side


def states_table(held: Held, write: Writer, *, brief: bool) -> Tree:
    """Return the loads of a hold; scenarios of one state that print the same are one row.

    Args:
        held: the hold.
        write: its language and units.
        brief: whether only the states that govern are printed.
    """
    units, kept = write.units, governing_states(held)
    shown = [load for load in held.loads if not brief or load.state in kept]
    forces = write.column([value for load in shown for value in load.force], units.force)
    moments = write.column([value for load in shown for value in load.moment], units.moment)
    printed = [
        (load, (*forces[3 * number : 3 * number + 3], *moments[3 * number : 3 * number + 3]))
        for number, load in enumerate(shown)
    ]
    rows: list[tuple[Cell, ...]] = []
    strong: list[int] = []
    for _, group in groupby(printed, key=lambda pair: pair[0].state):
        for first, (scenarios, loads, six) in enumerate(_alike(list(group), write)):
            marks = [*(write.of_state(held, loads[0]) if first == 0 else ()), *write.of_load(held, loads)]
            if loads[0].state == held.governed_by[0]:
                strong.append(len(rows))
            rows.append(((write.said(loads[0].state) if first == 0 else "", " · ".join(marks)), scenarios, *six))
    head = (
        words_column(write("state"), "1fr"), words_column(write("friction"), "34mm"),
        *(number_column(f"F{axis}", units.force.unit, "18mm") for axis in "xyz"),
        *(number_column(f"M{axis}", units.moment.unit, "18mm") for axis in "xyz"),
    )  # fmt: skip
    caption = write("governing_caption" if brief else "states_caption", name=held.name)
    return {**table(head, rows, caption, strong=strong), "together": False}


def _alike(
    rows: Sequence[tuple[Load, tuple[str, ...]]], write: Writer
) -> Iterator[tuple[str, list[Load], tuple[str, ...]]]:
    """Yield the loads of one state that print the same six numbers, with the names of their scenarios."""
    found: dict[tuple[str, ...], list[Load]] = {}
    for load, six in rows:
        found.setdefault(six, []).append(load)
    walked = sum(load.scenario != GIVING for load, _ in rows)
    for six, loads in found.items():
        here = [load for load in loads if load.scenario != GIVING]
        names = [write("any_friction")] if 1 < len(here) == walked else [write.scenario(load.scenario) for load in here]
        names += [write.scenario(GIVING)] if len(here) < len(loads) else []
        yield ", ".join(filter(None, names)), loads, six


def states_matrices(holds: Sequence[Held], write: Writer) -> list[Tree]:
    """Return all states of many holds side by side, a row a component: the value largest in size of all scenarios.

    A component that is nothing in every state has no row; a hold that carries nothing in a state has a bare 0 there.
    """
    names = list(dict.fromkeys(load.state for hold in holds for load in hold.loads))
    return [_matrix(holds, names[start : start + _ACROSS], write) for start in range(0, len(names), _ACROSS)]


def _matrix(holds: Sequence[Held], states: Sequence[str], write: Writer) -> Tree:
    rows = [row for hold in holds for row in _of_hold(hold, states, write)]
    return {
        "caption": write("matrix_caption"),
        "hold": write("hold"),
        "unit": f"{write.units.force.unit}, {write.units.moment.unit}",
        "states": [write.said(state) for state in states],
        "rows": rows,
    }


def _of_hold(hold: Held, states: Sequence[str], write: Writer) -> list[Tree]:
    there = {state: [load for load in hold.loads if load.state == state] for state in states}
    shown = [number for number in range(len(COMPONENTS)) if not hold.ranges[number].is_nothing] or [2]
    found: list[Tree] = []
    for number in shown:
        measure = write.units.force if number < _FORCES else write.units.moment
        values = [max((load.six[number] for load in loads), key=abs, default=None) for loads in there.values()]
        words = [
            _bare(hold, state, there[state]) or figures
            for state, figures in zip(states, write.column(values, measure), strict=True)
        ]
        component = ("Fx", "Fy", "Fz", "Mx", "My", "Mz")[number]
        name = breakable(hold.name) if number == shown[0] else ""
        found.append({"name": name, "component": component, "values": words, "last": number == shown[-1]})
    return found


def _bare(hold: Held, state: str, loads: Sequence[Load]) -> str:
    """Return a dash where a hold is not there in a state, a bare 0 where it carries nothing, else ""."""
    if hold.only_in is not None and state not in hold.only_in:
        return NONE
    return "0" if all(load.is_nothing for load in loads) else ""


__all__ = ["states_matrices", "states_table"]
