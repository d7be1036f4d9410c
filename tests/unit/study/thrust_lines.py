"""Lines of the tests of what thrust does: tied and untied joints, moved aside by guides that settle."""

from __future__ import annotations

from tests.builders import hold, joint, line_file

COLD_AIR = {
    "medium": "air",
    "test": "{ pressure: 9 bar(g), with: water, temperature: 70 °F }",
    "design": "{ pressure: 6 bar(g), temperature: 100 °F, vacuum: possible }",
    "operating": "{ pressure: 5 bar(g), temperature: 90 °F }",
}
PIN_LIKE = {
    "centres": "1.2 m",
    "length": "1.6 m",
    "live_length": "0.02 m",
    "lateral": "60 mm",
    "angular": "8 deg",
}
UNIVERSAL = {**PIN_LIKE, "length": "2 m", "live_length": "0.25 m", "axial_rate": "400 N/mm", "lateral": "110 mm"}
TEST, COLD = "under hydrostatic test", "cold at design pressure"
ASIDE = 0.03  # m: how far the guides of `moved_aside` settle sideways


def tied(kind: str, at: str, rods: str | None, **data: str | None) -> str:
    """Return a take-up; with four rods of 30 mm, so long between their nuts, where a length is given."""
    item = joint("J1", at, kind=kind, **data)
    if rods is None:
        return item
    words = (
        f"{{ count: 4, diameter: 30 mm, circle: 420 mm, gap: 0 mm, modulus: 200 GPa, hot: no, can_carry: 60 kN, "
        f"length: {rods}, source: invented for a test }}"
    )
    return f"{item[:-2]}, rods: {words} }}"


def moved_aside(takeup: str) -> str:
    """Return a line whose far part is free to move along and moved aside by its guides; its end is blind."""
    guides = tuple(hold("slide guide", f"{at} m", settlement="[0 mm, 30 mm, 0 mm]") for at in (3.2, 4.9))
    return line_file(["5 m east"], end="blind", holds=guides, takeups=(takeup,), **COLD_AIR)
