"""Numbers in a story, with their units; and what several scenes say alike.     (scenes/saying.py)"""

from __future__ import annotations

from takeup.units import to_bar, to_kn, to_mm

NO_FRICTION = "friction is left out, so that one thing is seen at a time; scene 5 adds it"
SEEN = "small movements, elastic steel, one line: a true line has its own file and its own study"
NOMINAL = "the joint has its nominal spring rate; true rates scatter by a tenth and more"


def kn(force: float) -> str:
    """Return the size of a force [N] in words, such as "46.0 kN"."""
    return f"{abs(to_kn(force)):.1f} kN"


def mm(length: float) -> str:
    """Return the size of a length [m] in words, such as "28.1 mm"."""
    return f"{abs(to_mm(length)):.1f} mm"


def bar(pressure: float) -> str:
    """Return a gauge pressure [Pa] in words, such as "12.0 bar"."""
    return f"{to_bar(pressure):.1f} bar"
