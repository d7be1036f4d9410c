"""A line in its study as it lies, with what is asked of both again and again.     (choose/laid.py)"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from takeup.line import Line, Route, State, Study, route_of, section_span, states_of

TEE = 0.3
"""From the centre of a branch to what stands beside it: its tee and a weld [m] (common practice, no source)."""

SupportSpan = tuple[float, float, float]
"""Of a section, the stations where it begins and ends, and the greatest distance between holds that carry [m]."""


@dataclass(frozen=True, kw_only=True)
class Laid:
    """A line in its study.

    Args:
        study: the file.
        line: one of its lines, or one like it.
    """

    study: Study
    line: Line

    @cached_property
    def route(self) -> Route:
        """The centre line."""
        return route_of(self.line)

    @cached_property
    def states(self) -> tuple[State, ...]:
        """What the study goes through."""
        return states_of(self.study)

    @cached_property
    def spans(self) -> list[SupportSpan]:
        """The support span of each section.

        Raises:
            OutOfRange: the table does not cover the pipe or temperature.
        """
        temperature = self.study.conditions_of(self.line).design.temperature
        return [
            (item.start, item.end, section_span(item, self.line.medium, temperature).length)
            for item in self.line.sections
        ]

    def hottest_at(self, station: float) -> float:
        """Return the highest temperature of any state at a place of the line [degC]."""
        return max(state.at(self.line.name, station).temperature for state in self.states)


__all__ = ["TEE", "Laid", "SupportSpan"]
