"""Results of lines with joints to set, for the papers that print it.     (tests/unit/papers/setting_fixture.py)

One straight span with a limit-rod joint that is preset, one with hinges; computed once, copied for every test.
Names and data are invented.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from functools import cache

from tests.builders import hold, joint, line_file, study_of

from takeup.results import results_of

SITE = "{ installation: 12 °C, coldest: -8 °C, hottest: 35 °C }"
RODS = (
    "rods: { count: 4, diameter: 30 mm, circle: 400 mm, gap: 40 mm, modulus: 200 GPa, hot: no, "
    "can_carry: 120 kN, source: invented }"
)
_GUIDES = tuple(hold("slide guide", f"{station} m") for station in (4, 8, 16, 24, 32, 40))
_LIMITED = joint("J1", "2 m", kind="limit-rod axial", axial_extension="60 mm", preset="8 mm extended").replace(
    "data:", f"misalignment: {{ lateral: 1 mm }}, {RODS}, data:", 1
)
LIMIT_RODS = line_file(["46.5 m east"], site=SITE, holds=_GUIDES, takeups=(_LIMITED,))
NO_JOINT = line_file(["12 m east", "6 m north"], site=SITE, holds=(hold("rest", "6 m"),))


@cache
def _results(text: str) -> str:
    return json.dumps(results_of(study_of(text)))


def limit_rods() -> dict:
    """Results of a line whose joint has limit rods and a preset; free to be changed."""
    return copy.deepcopy(json.loads(_results(LIMIT_RODS)))


def no_joint() -> dict:
    """Results of a line that bends by itself; free to be changed."""
    return copy.deepcopy(json.loads(_results(NO_JOINT)))


def numbers_of(value: object) -> Iterator[float]:
    """Yield every number of a results document, those of its lists of holds, joints and checks among them."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return
    if isinstance(value, (int, float)):
        yield float(value)
        return
    for item in value.values() if isinstance(value, dict) else value:
        yield from numbers_of(item)


def shown(value: float, decimals: int) -> str:
    """A number as papers print it: a true minus, none before nought."""
    words = f"{value:.{decimals}f}"
    return words.replace("-", "" if float(words) == 0.0 else "\N{MINUS SIGN}")
