"""Whether two records say the same of a line, however its places are called.     (tests/alike.py)"""

from __future__ import annotations

from dataclasses import fields, is_dataclass

from takeup.joints.tables import SeriesTable

ROUNDING = 1e-9
"""Metres, and parts of one for larger numbers: sums of a few lengths differ in the last digits of sixteen, and a
micrometre is one place."""
WORDS = frozenset({"words", "file", "sha256"})


def differences(one: object, other: object, where: str = "") -> list[str]:
    """Return what two records say differently but for words, numbers to `ROUNDING`; none where they are alike."""
    if isinstance(one, SeriesTable) and isinstance(other, SeriesTable):
        return [] if one.provenance == other.provenance else [where]
    if is_dataclass(one) and type(one) is type(other):
        names = [field.name for field in fields(one) if field.name not in WORDS]
        return [
            told for name in names for told in differences(getattr(one, name), getattr(other, name), f"{where}.{name}")
        ]
    if isinstance(one, tuple) and isinstance(other, tuple) and len(one) == len(other):
        pairs = enumerate(zip(one, other, strict=True))
        return [told for number, (a, b) in pairs for told in differences(a, b, f"{where}[{number}]")]
    if isinstance(one, float) and isinstance(other, float):
        return [] if abs(one - other) <= ROUNDING * max(1.0, abs(one)) else [f"{where}: {one!r}, {other!r}"]
    return [] if one == other else [f"{where}: {one!r}, {other!r}"]
