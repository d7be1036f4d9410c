"""How far apart holds that carry weight may stand under a section of a line.     (line/spans.py)"""

from __future__ import annotations

from takeup.basis import Span, copper_span, support_span
from takeup.line.conditions import Medium
from takeup.line.parts import Section
from takeup.line.states import LIQUIDS

COPPER = "EN 1057"


def section_span(section: Section, medium: Medium, temperature: float) -> Span:
    """Return the suggested support span of a section that lies level.

    Args:
        section: of the line.
        medium: what flows in it; a liquid takes the water column; copper tube has one.
        temperature: design temperature [degC].

    Raises:
        OutOfRange: the table does not cover the pipe or the temperature.
    """
    size = section.pipe.size
    if size.table == COPPER:
        return copper_span(size.outside_diameter, "level", temperature=temperature)
    return support_span(size.nps_inch, "water" if medium in LIQUIDS else "gas", temperature=temperature)


def rise_span(section: Section, temperature: float) -> Span | None:
    """Return the suggested distance between fixings of a section that goes straight up; None for steel pipe.

    Of steel pipe no table is known here for what rises: its holds carry it, and `risers` says which.

    Args:
        section: of the line.
        temperature: design temperature [degC].

    Raises:
        OutOfRange: the table does not cover the tube or the temperature.
    """
    size = section.pipe.size
    if size.table != COPPER:
        return None
    return copper_span(size.outside_diameter, "upright", temperature=temperature)
