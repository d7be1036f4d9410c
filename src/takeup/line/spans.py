"""How far apart holds that carry weight may stand under a section of a line.     (line/spans.py)"""

from __future__ import annotations

from takeup.basis import Span, support_span
from takeup.errors import OutOfRange
from takeup.line.conditions import Medium
from takeup.line.parts import Section
from takeup.line.states import LIQUIDS

COPPER = "EN 1057"


def section_span(section: Section, medium: Medium, temperature: float) -> Span:
    """Return the suggested support span of a section.

    Args:
        section: of the line.
        medium: what flows in it; a liquid takes the water column.
        temperature: design temperature [degC].

    Raises:
        OutOfRange: the table does not cover the pipe or the temperature.
    """
    pipe = section.pipe
    if pipe.size.table == COPPER:
        raise OutOfRange(f"support spans are tabulated for steel pipe, and {pipe.size.dn} is copper.")
    return support_span(pipe.size.nps_inch, "water" if medium in LIQUIDS else "gas", temperature=temperature)
