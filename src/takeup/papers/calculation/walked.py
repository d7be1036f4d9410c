"""The walk as the results tell it: scenarios, states, steps.     (papers/calculation/walked.py)

A place of the walk is one number: 4 is the fourth state itself, 3.25 a quarter of the way from the third to the fourth.
So scenarios that took other steps have one axis. States have the numbers of section 4.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from takeup.drawing.reading import Record, Results, joined, list_of, maybe_number, number_of, records_of, text_of
from takeup.papers.common.glyphs import printable

SCENARIOS = ("no friction", "low friction", "high friction")


@dataclass(frozen=True, kw_only=True, slots=True)
class Walked:
    """The walk: rows of each scenario in their order, the states by name with their numbers, as section 4 has them.

    `places` says where each state stands on the axis; `raw` are the names of holds and joints as the rows bear them,
    by those that are printed.
    """

    rows: Mapping[str, tuple[Record, ...]]
    numbers: Mapping[str, int]
    places: Mapping[str, int]
    raw: Mapping[str, str]

    @property
    def scenarios(self) -> tuple[str, ...]:
        """The scenarios that were walked, without friction first."""
        return tuple(self.rows)

    @property
    def governing(self) -> str:
        """The scenario whose loads the papers list: the most friction walked."""
        return self.scenarios[-1]

    def place(self, record: Record) -> float:
        """Return where a step or an event stands on the axis."""
        at = float(self.places[text_of(record, "state")])
        fraction = maybe_number(record, "fraction")
        return at if record.get("arrived") or fraction is None else at - 1.0 + fraction

    def values(self, scenario: str, key: str, name: str) -> list[tuple[float, float | None]]:
        """Return a number of a hold or a joint along the axis; None where a step did not converge."""
        found: list[tuple[float, float | None]] = []
        for row in self.rows[scenario]:
            numbers = row.get(key)
            assert isinstance(numbers, Mapping), f"{key} of a step is a record"
            told = row.get("converged") is not False
            found.append((self.place(row), maybe_number(numbers, self.raw.get(name, name)) if told else None))
        return found


def walked_of(results: Results) -> Walked | None:
    """Return the walk of the results; None where they hold none."""
    rows = records_of(results, "walk")
    if not rows:
        return None
    ordered = in_order(text_of(row, "scenario") for row in rows)
    numbers = {text_of(state, "name"): int(number_of(state, "order")) for state in records_of(results, "states")}
    gone = {text_of(row, "state") for row in (*rows, *records_of(results, "events"))}
    walked = [name for name in numbers if name in gone]
    raw: dict[str, str] = {}
    for key in ("holds", "joints"):
        told = rows[0].get(key)
        raw |= {printable(str(name)): str(name) for name in (told if isinstance(told, Mapping) else {})}
    return Walked(
        rows={name: tuple(row for row in rows if text_of(row, "scenario") == name) for name in ordered},
        numbers=numbers,
        places={name: place for place, name in enumerate(walked, start=1)},
        raw=raw,
    )


def in_order(scenarios: Iterable[str]) -> list[str]:
    """Return scenarios, each once, without friction first."""
    found = dict.fromkeys(scenarios)
    return sorted(found, key=lambda name: SCENARIOS.index(name) if name in SCENARIOS else len(SCENARIOS))


def runs(numbers: Sequence[int]) -> str:
    """Return whole numbers in rising order with those that follow one another as runs: "1, 3–5"."""
    kept: list[list[int]] = []
    for number in numbers:
        if kept and number == kept[-1][-1] + 1:
            kept[-1].append(number)
        else:
            kept.append([number])
    words = [f"{run[0]}" if len(run) == 1 else f"{run[0]}{', ' if len(run) == 2 else '–'}{run[-1]}" for run in kept]  # noqa: PLR2004  two are no run
    return ", ".join(words)


def scenario_words(names: Sequence[str]) -> str:
    """Return scenarios in words: "low and high friction", "all scenarios"."""
    if tuple(names) == SCENARIOS:
        return "all scenarios"
    if all(name in SCENARIOS for name in names):
        return f"{joined([name.removesuffix(' friction') for name in names])} friction"
    return joined(names)


def between(record: Record) -> tuple[str, str]:
    """Return the two states that a step or an event lies between; the first is empty where nothing was before."""
    told = ["" if name is None else str(name) for name in list_of(record, "between")]
    return (told[0], told[-1]) if told else ("", text_of(record, "state"))
