"""What the schedule says of each hold, from the results alone.     (papers/loads/held.py)

Read `held_of` first. Numbers are those of the results [N, N m]; a design value is one of them times the user's factor,
and is unfactored where the file gives none.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import (
    Record,
    Results,
    list_of,
    maybe_number,
    number_of,
    record_of,
    records_of,
    text_of,
    vector_of,
)
from takeup.papers.loads.ranges import GIVING, ON_THE_WAY, Range, case_of, ranges_of

Vector = tuple[float, float, float]
NOTHING = 0.5  # N or N m: less than this in every component is printed as nothing
_OF_FORCE = ("hold_capacity", "guide_design_load", "nozzle_limits")
_OF_MOMENT = ("hold_moment",)


@dataclass(frozen=True, kw_only=True, slots=True)
class Load:
    """One load on the structure [N, N m]: in which state, of which kind, in which scenario.

    `touches` tells whether any contact of the hold bears; None where it has none that could open.
    """

    state: str
    kind: str
    scenario: str
    force: Vector
    moment: Vector
    touches: bool | None

    @property
    def is_nothing(self) -> bool:
        """Whether the hold carries nothing."""
        return max(map(abs, (*self.force, *self.moment))) < NOTHING

    @property
    def six(self) -> tuple[float, ...]:
        """The three forces and the three moments."""
        return (*self.force, *self.moment)


@dataclass(frozen=True, kw_only=True, slots=True)
class Capacity:
    """What a place can carry, None where nobody said; its use by the checks, None where there is none."""

    limit: float | None
    use: float | None
    outcome: str


@dataclass(frozen=True, kw_only=True)
class Held:
    """One hold with all that the schedule says of it."""

    record: Record
    name: str
    line: str
    kind: str
    station: float
    at: Vector
    anchor: bool
    factor: float | None
    loads: tuple[Load, ...]
    ranges: tuple[Range, ...]
    guide: Record
    force: Capacity
    moment: Capacity
    only_in: tuple[str, ...] | None
    states: Mapping[str, str]

    @property
    def times(self) -> float:
        """What its envelope is multiplied by; one where no factor is given, which the schedule says."""
        return 1.0 if self.factor is None else self.factor

    @cached_property
    def design(self) -> tuple[Range, ...]:
        """The ranges times the user's factor."""
        return tuple(one.times(self.times) for one in self.ranges)

    @property
    def resultant(self) -> float:
        """The design force of the envelope, unfactored [N]."""
        return number_of(record_of(self.record, "envelope"), "design_force_n")

    @property
    def across(self) -> float | None:
        """What a guide has to be made for across the pipe, unfactored [N]; None of all else."""
        return maybe_number(self.guide, "design_n")

    @property
    def by_guide(self) -> bool:
        """Whether the load that a guide has to be made for is greater than the resultant of its envelope."""
        return self.across is not None and self.across > self.resultant

    @property
    def greatest(self) -> float:
        """The greater of both, unfactored [N]."""
        return max(self.resultant, self.across or 0.0)

    @property
    def governed_by(self) -> tuple[str, str]:
        """The state that governs, and with which friction and rates, or why a guide's load does."""
        if self.by_guide:
            return text_of(self.guide, "state"), text_of(self.guide, "because")
        envelope = record_of(self.record, "envelope")
        return text_of(envelope, "design_state"), text_of(envelope, "design_scenario")

    @property
    def of_test(self) -> bool:
        """Whether the pressure test governs."""
        return self.is_test(self.governed_by[0])

    def is_test(self, state: str) -> bool:
        """Whether a state, or the way to it, is that of the pressure test."""
        return self.states.get(state.removeprefix(ON_THE_WAY)) == "test"


def held_of(results: Results) -> tuple[Held, ...]:
    """Return every hold that has loads, line by line along the flow; none where the lines were not solved."""
    resolved = record_of(record_of(results, "input"), "resolved")
    stock = _Stock(
        states={text_of(state, "name"): text_of(state, "kind") for state in records_of(results, "states")},
        factors=record_of(resolved, "design_factors"),
        guides=_by_place(records_of(results, "guides")),
        resolved=_by_place((*records_of(resolved, "holds"), *_ends(results))),
        checks=_checks(results),
    )
    return tuple(_held(hold, stock) for hold in records_of(results, "holds"))


@dataclass(frozen=True, kw_only=True, slots=True)
class _Stock:
    """What is looked up for every hold."""

    states: Mapping[str, str]
    factors: Record
    guides: Mapping[tuple[str, str], Record]
    resolved: Mapping[tuple[str, str], Record]
    checks: Mapping[str, tuple[Record, ...]]


def _ends(results: Results) -> Iterator[Record]:
    for line in records_of(results, "lines"):
        for end in records_of(line, "ends"):
            yield {**end, "line": text_of(line, "name")}


def _by_place(rows: tuple[Record, ...]) -> dict[tuple[str, str], Record]:
    return {(text_of(row, "line"), text_of(row, "name")): row for row in rows}


def _checks(results: Results) -> dict[str, tuple[Record, ...]]:
    found: dict[str, tuple[Record, ...]] = {}
    for check in records_of(results, "checks"):
        found[text_of(check, "where")] = (*found.get(text_of(check, "where"), ()), check)
    return found


def _held(hold: Record, stock: _Stock) -> Held:
    name, line, kind = (text_of(hold, key) for key in ("name", "line", "kind"))
    anchor = is_anchor(kind)
    given = stock.resolved.get((line, name), {})
    checks = stock.checks.get(name, ())
    return Held(
        record=hold,
        name=name,
        line=line,
        kind=kind,
        station=number_of(hold, "station_m"),
        at=vector_of(hold, "at_m"),
        anchor=anchor,
        factor=maybe_number(stock.factors, "anchors" if anchor else "guides"),
        loads=tuple(_loads(hold, stock.states)),
        ranges=ranges_of(hold, tuple(stock.states)),
        guide=stock.guides.get((line, name), {}),
        force=_capacity(maybe_number(given, "can_carry_n"), checks, _OF_FORCE),
        moment=_capacity(maybe_number(given, "can_carry_moment_nm"), checks, _OF_MOMENT),
        only_in=tuple(map(str, list_of(given, "only_in"))) if given.get("only_in") is not None else None,
        states=stock.states,
    )


def _loads(hold: Record, states: Mapping[str, str]) -> Iterator[Load]:
    """Yield every whole scenario state by state, and the second set where structures give."""
    touched: dict[tuple[str, str], bool] = {}
    for row in records_of(hold, "contact"):
        key = (text_of(row, "state"), text_of(row, "scenario"))
        touched[key] = touched.get(key, False) or text_of(row, "status") == "touches"
    giving = ({**load, "scenario": GIVING} for load in records_of(hold, "giving"))
    rows = [*(records_of(hold, "scenarios") or records_of(hold, "loads")), *giving]
    order = {name: number for number, name in enumerate(states)}
    for row in sorted(rows, key=lambda row: order.get(text_of(row, "state"), len(order))):
        state, scenario = text_of(row, "state"), text_of(row, "scenario")
        yield Load(
            state=state,
            kind=states.get(state, ""),
            scenario=scenario,
            force=vector_of(row, "force_n"),
            moment=vector_of(row, "moment_nm"),
            touches=touched.get((state, scenario)),
        )


def _capacity(limit: float | None, checks: tuple[Record, ...], rules: tuple[str, ...]) -> Capacity:
    """Return a stated limit with the greatest use of the checks that hold a load against one."""
    judged = [
        (math.inf if use is None else use, text_of(check, "outcome"))
        for check in checks
        if text_of(check, "rule") in rules
        if (use := maybe_number(check, "use")) is not None or text_of(check, "outcome") == "fails"
    ]
    use, outcome = max(judged, default=(None, ""), key=lambda row: row[0])
    return Capacity(limit=limit, use=use, outcome=outcome)


def band_cases(held: Held) -> tuple[tuple[float, float], tuple[str, str], tuple[str, str]] | None:
    """Return the ends of the band along the flow, and the state and scenario of each; None of what has no band."""
    band = record_of(held.record, "band")
    if not band:
        return None
    low, high = (case_of(text_of(band, f"{side}_because"), tuple(held.states)) for side in ("low", "high"))
    ends = (number_of(band, "low_n"), number_of(band, "high_n"))
    return ends, (low.state, low.scenario), (high.state, high.scenario)


__all__ = ["NOTHING", "Capacity", "Held", "Load", "band_cases", "held_of"]
