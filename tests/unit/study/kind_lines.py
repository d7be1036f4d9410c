"""Lines with one joint of a kind, round numbers, for closed forms.     (tests/unit/study/kind_lines.py)"""

from __future__ import annotations

from tests.builders import hold, joint, line_file

GUIDES = hold("slide guide", "[2 m, 5 m, 8 m, 12 m, 15 m, 18 m]")
RATE, AREA, BALANCE = 95e3, 46e-3, 190e3  # [N/m], [m2], [N/m]


def balance(area: str = "46000 mm2", rate: str = "190 N/mm", more: str = "can_be_pushed: 90 kN, ") -> str:
    """Return a balancing bellows."""
    return f"balance: {{ axial_rate: {rate}, effective_area: {area}, can_carry: 150 kN, {more}source: invented }}"


def rods(gap: str, count: int = 4) -> str:
    """Return limit rods, each of 24 mm, 1.1 m long."""
    return (
        f"rods: {{ count: {count}, diameter: 24 mm, circle: 420 mm, gap: {gap}, modulus: 200 GPa, hot: no, "
        "can_carry: 50 kN, source: invented }"
    )


def base(force: str = "100 kN") -> str:
    """Return the anchor base of a double."""
    return f"base: {{ can_carry: {force}, source: invented }}"


def with_joint(kind: str, *more: str, at: str = "10 m", preset: str = "", **data: str | None) -> str:
    """Return a take-up of a kind with its hardware."""
    one = joint("J1", at, kind=kind, preset=preset, **data)
    return one.replace(", data:", "".join(f", {item}" for item in more) + ", data:", 1)


def run(takeup: str, *, guides: str = GUIDES, **keys: str) -> str:
    """Return a guided run of 20 m with a joint in its middle."""
    return line_file(["20 m east"], holds=(guides,) if guides else (), takeups=(takeup,), **keys)
