"""Values that are short sentences: "long radius", "possible", "12 mm extended".     (line/reading/sentences.py)

Each function reads one such text and raises ValueError, with a sentence for the user, for anything else. How a leg
goes is read by line/going.py.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from takeup.line.conditions import Vacuum
from takeup.line.reading.going import length_above_zero
from takeup.reading.fields import check_size, nearest
from takeup.units import STANDARD_ATMOSPHERE, parse

_BECAUSE = re.compile(r"not possible\s*,\s*because\s+(\S.*)", re.DOTALL)
_MITRE = re.compile(r"mitre\s*,\s*([0-9]{1,3}) cuts?(?:\s*,\s*radius (.+))?")
_MITRE_EXAMPLE = "mitre, 3 cuts, radius 450 mm"
MOST_CUTS = 20
MOST_PRESET = 1.0
"""A preset past this [m] is a slip of its unit."""
_PRESET = re.compile(r"(.+?)\s+(extended|compressed)")


class Bend(NamedTuple):
    """The bend at a corner: a radius as a multiple of the nominal size, or as a length [m], or neither (sharp).

    `cuts` is how many mitre cuts make it; none for a smooth bend.
    """

    words: str
    nominal_sizes: float | None = None
    radius: float | None = None
    cuts: int = 0


LONG_RADIUS = Bend("long radius", nominal_sizes=1.5)
ASSUMED_BEND = LONG_RADIUS._replace(words=f"{LONG_RADIUS.words} (assumed)")
_BENDS = {
    "long radius": LONG_RADIUS,
    "short radius": Bend("short radius", nominal_sizes=1.0),
    "sharp": Bend("sharp"),
}


def read_bend(text: str) -> Bend:
    """Read "long radius", "short radius", "sharp", a radius, or a mitre such as "mitre, 3 cuts, radius 450 mm"."""
    if text in _BENDS:
        return _BENDS[text]
    if text.split(",", maxsplit=1)[0].strip() == "mitre":
        return _mitre(text)
    if not any(letter.isdigit() for letter in text):
        known = (*_BENDS, "mitre")
        expected = f'expected {", ".join(_BENDS)}, a radius such as 450 mm or "{_MITRE_EXAMPLE}"'
        raise ValueError(f"the bend '{text}' is not known; {expected}{nearest(text, known)}")
    return Bend(text, radius=length_above_zero(text, text))


def _mitre(text: str) -> Bend:
    parts = _MITRE.fullmatch(text)
    if parts is None:
        raise ValueError(
            f"'{text}' does not say how the mitre is cut; expected in quotation marks, because of the commas, "
            f'"{_MITRE_EXAMPLE}" or "mitre, 1 cut"'
        )
    cuts = int(parts[1])
    if not 1 <= cuts <= MOST_CUTS:
        raise ValueError(f"'{text}': a mitre bend has 1 to {MOST_CUTS} cuts")
    if (cuts == 1) == (parts[2] is not None):
        why = "one cut is a sharp corner and has no radius" if cuts == 1 else "more than one cut needs its radius"
        raise ValueError(f"'{text}': {why}")
    radius = None if parts[2] is None else length_above_zero(parts[2], text)
    return Bend(text, radius=radius, cuts=cuts)


def read_vacuum(text: str) -> Vacuum:
    """Read the answer to "can the line be under vacuum?": possible, a pressure below zero, or why it cannot be."""
    if text == "possible":
        return Vacuum(possible=True, pressure=-STANDARD_ATMOSPHERE, because="full vacuum")
    reason = _BECAUSE.fullmatch(text)
    if reason is not None:
        return Vacuum(possible=False, pressure=0.0, because=reason[1])
    if text.startswith("not possible"):
        raise ValueError(
            "'not possible' needs its reason in the same text, in quotation marks because of the comma: "
            '"not possible, because <reason>"'
        )
    if not any(letter.isdigit() for letter in text):
        raise ValueError(
            f"'{text}' is not an answer; expected possible, a pressure below zero such as -0.5 bar(g), "
            'or "not possible, because <reason>"'
        )
    return _vacuum_pressure(text)


def read_preset(text: str) -> float:
    """Read "12 mm extended" (above zero) or "12 mm compressed" (below zero) [m]."""
    parts = _PRESET.fullmatch(text)
    if parts is None:
        raise ValueError(f"'{text}' is not a preset; expected for example '12 mm extended' or '12 mm compressed'")
    size = length_above_zero(parts[1], text)
    check_size(text, size, MOST_PRESET, "1 m")
    return size if parts[2] == "extended" else -size


def _vacuum_pressure(text: str) -> Vacuum:
    pressure = parse(text, "pressure")
    if pressure >= 0.0:
        raise ValueError(f"'{text}' is not a vacuum; expected a gauge pressure below zero")
    return Vacuum(possible=True, pressure=pressure, because=text)
