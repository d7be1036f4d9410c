"""The range of each component of a hold's load, for the one who designs what is behind it.     (papers/loads/ranges.py)

A range holds the envelope of the results: every state, the way between them, every combination of friction and spring
rates. It is widened in two ways, so that no number elsewhere on the schedule lies outside it. Anchors bear the bound of
friction by hand: where the pipe runs along a global axis, the ends of the results' band; where it runs askew,

    F_i = F_i(no friction) - B |a_i|  to  F_i(no friction) + B |a_i|

of every state, with B the greatest bound of all states and a the way of the pipe: safe, since no state has a greater
one. And where structures behind anchors are said to give, the loads with that are held as well.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeup.drawing.reading import (
    Record,
    maybe_number,
    number_of,
    numbers_in,
    record_of,
    records_of,
    text_of,
    vectors_of,
)

NO_FRICTION = "no friction"
GIVING = "giving"
"""What the second set of loads, with structures giving, is called among the scenarios."""
COMPONENTS = (
    ("force_n", 0), ("force_n", 1), ("force_n", 2), ("moment_nm", 0), ("moment_nm", 1), ("moment_nm", 2),
)  # fmt: skip
_ALONG = 1.0 - 1e-9  # of a unit vector: the pipe runs along this axis
_ACROSS = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """Where a value occurs: the state, and the scenario of friction and rates, in the words of the results.

    `bound` says that the bound of friction by hand is in it.
    """

    state: str
    scenario: str
    bound: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Range:
    """The least and the greatest value of one component [N or N m] and where each occurs."""

    least: float
    greatest: float
    least_in: Case
    greatest_in: Case

    def holding(self, value: float, case: Case) -> Range:
        """Return the range that holds a value as well."""
        if value < self.least:
            return Range(least=value, greatest=self.greatest, least_in=case, greatest_in=self.greatest_in)
        if value > self.greatest:
            return Range(least=self.least, greatest=value, least_in=self.least_in, greatest_in=case)
        return self

    def times(self, factor: float) -> Range:
        """Return the range multiplied by a factor above zero."""
        return Range(
            least=factor * self.least,
            greatest=factor * self.greatest,
            least_in=self.least_in,
            greatest_in=self.greatest_in,
        )

    @property
    def is_nothing(self) -> bool:
        """Whether the component is zero throughout."""
        return self.least == 0.0 == self.greatest


def ranges_of(hold: Record, states: tuple[str, ...]) -> tuple[Range, ...]:
    """Return the ranges of the three forces and the three moments of a hold, unfactored.

    Args:
        hold: of the results.
        states: the names of all states, by which the words of the band are taken apart.
    """
    found = [_enveloped(record_of(record_of(hold, "envelope"), key), axis) for key, axis in COMPONENTS]
    for number, (key, axis) in enumerate(COMPONENTS):
        if key == "force_n":
            for value, case in _with_bound(hold, axis, states):
                found[number] = found[number].holding(value, case)
        for load in records_of(hold, "giving"):
            case = Case(state=text_of(load, "state"), scenario=GIVING)
            found[number] = found[number].holding(numbers_in(load[key])[axis], case)
    return tuple(found)


def _enveloped(extremes: Record, axis: int) -> Range:
    values = [numbers_in(extremes[side])[axis] for side in ("min", "max")]
    cases = [
        Case(state=_at(extremes, f"{side}_state", axis), scenario=_at(extremes, f"{side}_scenario", axis))
        for side in ("min", "max")
    ]
    return Range(least=values[0], greatest=values[1], least_in=cases[0], greatest_in=cases[1])


def _at(record: Record, key: str, axis: int) -> str:
    """Return one of three texts, "" where they are not told."""
    row = record.get(key)
    return str(row[axis]) if isinstance(row, list) else ""


def _with_bound(hold: Record, axis: int, states: tuple[str, ...]) -> Iterator[tuple[float, Case]]:
    """Yield the forces along a global axis that the bound of friction brings, and where."""
    band, bound = record_of(hold, "band"), maybe_number(record_of(hold, "envelope"), "friction_bound_n") or 0.0
    way = vectors_of(hold, "axes")[0][axis]
    if not band or abs(way) < _ACROSS:
        return
    if abs(way) >= _ALONG:
        for side in ("low", "high"):
            yield way * number_of(band, f"{side}_n"), case_of(text_of(band, f"{side}_because"), states)
        return
    for load in records_of(hold, "scenarios"):
        if text_of(load, "scenario") == NO_FRICTION:
            case = Case(state=text_of(load, "state"), scenario=NO_FRICTION, bound=True)
            force = numbers_in(load["force_n"])[axis]
            yield force - bound * abs(way), case
            yield force + bound * abs(way), case


def case_of(words: str, states: tuple[str, ...]) -> Case:
    """Return where an end of a band occurs, from its words "state, scenario"."""
    for name in sorted(states, key=len, reverse=True):
        head, found, rest = words.partition(f"{name}, ")
        if found and head in {"", ON_THE_WAY}:
            return Case(state=head + name, scenario=rest)
    return Case(state=words, scenario="")


ON_THE_WAY = "on the way to "
"""How the results begin the name of a step between two states."""

__all__ = ["COMPONENTS", "GIVING", "NO_FRICTION", "ON_THE_WAY", "Case", "Range", "case_of", "ranges_of"]
