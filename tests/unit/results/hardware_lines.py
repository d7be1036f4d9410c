"""Lines whose joints have pins, bars or a balancing bellows, for results and papers.  (tests/unit/results/)"""

from __future__ import annotations

from tests.builders import hold, joint, line_file

PINS = (
    "pins: { along: upright, spread: 320 mm, diameter: 40 mm, width: 80 mm, thickness: 25 mm, modulus: 200 GPa, "
    "hot: no, friction: { low: 0.1, high: 0.3, source: invented }, can_carry: 200 kN, source: invented }"
)
BALANCE = "balance: { axial_rate: 190 N/mm, effective_area: 46000 mm2, can_carry: 150 kN, source: invented }"


def with_hardware(kind: str, hardware: str, **data: str) -> str:
    """Return a line with a blind end, so that no anchor takes the thrust, and one joint with its hardware."""
    one = joint("J1", "west end + 6 m", kind=kind, **data).replace(", data:", f", {hardware}, data:", 1)
    return line_file(["12 m east"], end="blind", holds=(hold("slide guide", "[2 m, 4 m, 8 m, 10 m]"),), takeups=(one,))


HINGED = with_hardware("hinged", PINS)
BALANCED = with_hardware("in-line pressure balanced", BALANCE)
