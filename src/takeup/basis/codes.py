"""The three bases of design, what their factors are, and where each rule stands.     (basis/codes.py)

ASME B31.1 and B31.3 are meant as printed to 2018: one table of factors in Appendix D, before both went over to the
factors of ASME B31J (from memory, medium), which are not covered. EN 13480-3 is meant as of 2012 and 2017. No copy was
at hand: formulas, clauses and numbers are from memory unless a line says otherwise, and the clause numbers of
EN 13480-3 less surely than the formulas.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np
from numpy.typing import NDArray

from takeup.errors import OutOfRange
from takeup.library import Source
from takeup.library.records import Status

Code = Literal["ASME B31.1", "ASME B31.3", "EN 13480-3"]
CODES: tuple[Code, ...] = get_args(Code)

Subject = Literal[
    "bends", "mitres", "tees", "branch section", "reducers", "joints",
    "sustained", "occasional", "expansion", "allowable range", "wall", "screening",
]  # fmt: skip
SUBJECTS: tuple[Subject, ...] = get_args(Subject)

CLAUSES: dict[Code, dict[Subject, str]] = {
    "ASME B31.1": {
        "bends": "Appendix D, Table D-1",
        "mitres": "Appendix D, Table D-1",
        "tees": "Appendix D, Table D-1",
        "branch section": "104.8.4",
        "reducers": "Appendix D, Table D-1",
        "joints": "Appendix D, Table D-1",
        "sustained": "104.8.1 eq. (15), eq. (11) in older editions",
        "occasional": "104.8.2 eq. (16), eq. (12) in older editions",
        "expansion": "104.8.3 eq. (17), eq. (13) in older editions",
        "allowable range": "102.3.2(B) eq. (1A) and (1B)",
        "wall": "104.1.2 eq. (7), eq. (3) in older editions",
        "screening": "119.7",
    },
    "ASME B31.3": {
        "bends": "Appendix D, Table D300",
        "mitres": "Appendix D, Table D300",
        "tees": "Appendix D, Table D300",
        "branch section": "319.4.4(c)",
        "reducers": "Appendix D, Table D300",
        "joints": "Appendix D, Table D300",
        "sustained": "320.2 eq. (23a) to (23d)",
        "occasional": "302.3.6",
        "expansion": "319.4.4 eq. (17) to (20)",
        "allowable range": "302.3.5(d) eq. (1a) to (1c)",
        "wall": "304.1.2 eq. (3a)",
        "screening": "319.4.1(c) eq. (16)",
    },
    "EN 13480-3": {
        "bends": "Annex H, Tables H.1 and H.3",
        "mitres": "Annex H, Tables H.1 and H.3",
        "tees": "Annex H, Tables H.1 and H.3",
        "branch section": "12.3.1",
        "reducers": "Annex H, Table H.1",
        "joints": "Annex H, Table H.1",
        "sustained": "12.3.2",
        "occasional": "12.3.3",
        "expansion": "12.3.4",
        "allowable range": "12.1.3",
        "wall": "6.1",
        "screening": "12.2.10",
    },
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Factors:
    """How much softer a component is than straight pipe, and how much more each moment, and a force, stresses it [-].

    `axial` multiplies the range of axial stress in ASME B31.3: one for bends, i_o for other fittings (319.4.4 since
    about 2010; from memory, medium). `rule` is the clause and what was taken from it, `status` whether it was read or
    is from memory.
    """

    flexibility: float
    in_plane: float
    out_of_plane: float
    torsion: float
    rule: str
    status: Status
    axial: float = 1.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Moments:
    """The three components of a moment, or of its range between two states [N m], of any sign; of many, as arrays."""

    in_plane: float | NDArray[np.float64]
    out_of_plane: float | NDArray[np.float64]
    torsion: float | NDArray[np.float64]


STRAIGHT_PIPE = Factors(
    flexibility=1.0, in_plane=1.0, out_of_plane=1.0, torsion=1.0, rule="straight pipe", status="from memory"
)


def clause(code: Code, subject: Subject) -> Source:
    """Return where a rule stands in a code, and that it is from memory; the screening rule of ASME was read."""
    read = subject == "screening" and code != "EN 13480-3"
    return Source(words=f"{code} {CLAUSES[code][subject]}", status="read" if read else "from memory")


def above_zero(**values: float) -> None:
    """Refuse values that are not above zero and finite; their names are what the message says."""
    wrong = [f"{name.replace('_', ' ')} {value:g}" for name, value in values.items() if not 0.0 < value < float("inf")]
    if wrong:
        raise OutOfRange(f"{', '.join(wrong)}: must be above zero, in SI units.")


def not_below_zero(**values: float) -> None:
    """Refuse values that are below zero or not finite; their names are what the message says."""
    wrong = [f"{name.replace('_', ' ')} {value:g}" for name, value in values.items() if not 0.0 <= value < float("inf")]
    if wrong:
        raise OutOfRange(f"{', '.join(wrong)}: must not be below zero, in SI units.")
