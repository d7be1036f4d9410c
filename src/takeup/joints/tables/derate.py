"""What is left of a joint's ratings hotter, and over more cycles, than it was rated for.     (joints/tables/derate.py)

Pressure: as rated up to the rated temperature; above it nothing, unless the table itself says which share is left.
No rating is raised where it is colder, or where fewer cycles are wanted: a maker certifies what stands in his table.
Movement over more cycles than rated:

    by geometry   e(N)/e(N_r) on the ASME VIII-1 App. 26 design curve with its own stresses at the rated pressure, where
                  the row gives geometry and material and the curve is for them              (from memory)
    by the table  (N_r/N)^(1/m) with the exponent m that the row states
    by the rule   (N_r/N)^(1/3.4), the exponent of EJMA's average curve                      (from memory)
    by its maker  none of a hose, for whose life no curve is known, unless its row states m

The rule's floor of the curve is left out, and the stress of pressure with it. It is on the safe side while the range
that pressure takes, 0.7 (S3 + S4), is below that floor, 372 MPa. Theory: docs/theory/selection.md.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.envelope import life_movement
from takeup.bellows.forms.life import EJMA_EXPONENT, LONGEST, SHORTEST, life_asme_design, range_asme_design
from takeup.bellows.reading.metals import OneMetal, StatedMetal, metal_of, together
from takeup.joints.tables.kinds_of_table import HOSES
from takeup.joints.tables.table import Derating, Floats, SeriesTable

AS_RATED: Final = "as rated"
BY_GEOMETRY: Final = "by geometry: ASME design curve (from memory)"
BY_TABLE: Final = "by the exponent that the table states"
BY_RULE: Final = f"by the rule: exponent {EJMA_EXPONENT:g}, of EJMA's average curve (from memory)"
UNKNOWN: Final = "not known: the table gives no rated cycles"
BY_MAKER: Final = "by its maker: no rule is known for a hose past its rated cycles, and the table states no exponent"
HOW: Final = (AS_RATED, BY_GEOMETRY, BY_TABLE, BY_RULE, UNKNOWN, BY_MAKER)
"""How a share of movement was found; `movement_share` gives its number."""

_HALFWAY = 20_000.0  # cycles: of the curve's two ends the one farther from the rated life is the second point
_OUTSIDE = ("externally pressurised", "small-bore compensator")


def hottest_rated(table: SeriesTable) -> Floats:
    """Return the highest temperature that each joint is rated for [degC], (n,): the last of its derating if it has one.

    Args:
        table: n joints.
    """
    top = table.numbers["temperature"].copy()
    for row, curve in enumerate(table.derating):
        if curve:
            top[row] = curve[-1][0]
    return top


def pressure_left(table: SeriesTable, temperature: float) -> Floats:
    """Return the pressure that each joint is rated for at a temperature.

    Args:
        table: n joints.
        temperature: of the metal [degC].

    Returns:
        [Pa], shape (n,); 0 where the joint is not rated so hot.
    """
    rated = table.numbers["pressure"]
    left = np.where(temperature <= table.numbers["temperature"], 1.0, 0.0)
    for row, curve in enumerate(table.derating):
        if curve:
            left[row] = _share_at(curve, temperature)
    return np.asarray(rated * left)


def _share_at(curve: Derating, temperature: float) -> float:
    """Return the share at a temperature, straight between the table's points; 0 above the last, the first's below."""
    temperatures, shares = zip(*curve, strict=True)
    return 0.0 if temperature > temperatures[-1] else float(np.interp(temperature, temperatures, shares))


def movement_share(
    table: SeriesTable, cycles: float | None, rows: NDArray[np.intp] | None = None
) -> tuple[Floats, NDArray[np.int8]]:
    """Return which share of its rated movements each joint keeps over so many cycles, and how that was found.

    Args:
        table: n joints.
        cycles: wanted; None where nobody says, and all stays as rated.
        rows: which are asked, (k,); all where None.

    Returns:
        Shares from 0 to 1, (k,), NaN where not known; numbers into `HOW`, (k,).
    """
    asked = np.arange(len(table)) if rows is None else rows
    rated, stated = (table.numbers[name][asked] for name in ("rated_cycles", "life_exponent"))
    share, how = np.ones(len(asked)), np.full(len(asked), HOW.index(AS_RATED), dtype=np.int8)
    if cycles is None:
        return share, how
    exponent = np.where(np.isnan(stated), EJMA_EXPONENT, stated)
    more = cycles > rated
    share[more] = (rated[more] / cycles) ** (1.0 / exponent[more])
    how[more] = np.where(np.isnan(stated[more]), HOW.index(BY_RULE), HOW.index(BY_TABLE))
    worn = more & _hoses(table, asked) & np.isnan(stated)
    share[worn], how[worn] = 0.0, HOW.index(BY_MAKER)
    share[np.isnan(rated)], how[np.isnan(rated)] = np.nan, HOW.index(UNKNOWN)
    by_shape = np.flatnonzero(more & table.has_geometry[asked])
    if len(by_shape):
        own = asked[by_shape]
        found = _share_of_curve(
            _movement(table, own, np.full(len(own), cycles)), _movement(table, own, rated[by_shape])
        )
        known = np.isfinite(found)
        share[by_shape[known]] = found[known]
        how[by_shape[known]] = HOW.index(BY_GEOMETRY)
    return share, how


def _hoses(table: SeriesTable, rows: NDArray[np.intp]) -> NDArray[np.bool_]:
    """Return which of some rows are hoses, whose life only their maker knows, (k,)."""
    return np.array([table.kinds[row] in HOSES for row in rows.tolist()], dtype=bool)


def _share_of_curve(kept: Floats, rated: Floats) -> Floats:
    """Return e(N)/e(N_r), from 0 to 1, (k,); none where pressure alone goes past the curve at the rated cycles."""
    with np.errstate(divide="ignore", invalid="ignore"):
        quotient = np.clip(kept / rated, 0.0, 1.0)
    return np.where(rated > 0.0, quotient, np.where(np.isfinite(rated) & np.isfinite(kept), 0.0, np.nan))


def cycles_at(table: SeriesTable, share: Floats) -> tuple[Floats, NDArray[np.int8]]:
    """Return how many cycles each joint is good for when it moves through a share of its rated movement.

    The same three ways as `movement_share`, turned round; at most 1e6, where the curves end, which then means "at
    least".

    Args:
        table: n joints.
        share: of the rated movement, (n,).

    Returns:
        Cycles (n,), NaN where not known; numbers into `HOW`, (n,).
    """
    rated, stated = table.numbers["rated_cycles"], table.numbers["life_exponent"]
    exponent = np.where(np.isnan(stated), EJMA_EXPONENT, stated)
    used = np.maximum(share, 1e-12)
    cycles = np.minimum(rated * used**-exponent, np.maximum(rated, LONGEST))
    how = np.where(np.isnan(stated), HOW.index(BY_RULE), HOW.index(BY_TABLE)).astype(np.int8)
    hoses = _hoses(table, np.arange(len(table))) & np.isnan(stated)
    cycles[hoses] = np.where(share[hoses] <= 1.0, rated[hoses], np.nan)
    how[hoses] = HOW.index(BY_MAKER)
    how[np.isnan(rated)] = HOW.index(UNKNOWN)
    rows = np.flatnonzero(table.has_geometry & np.isfinite(rated) & np.isfinite(share) & (share > 0.0))
    if len(rows):
        found = _life(table, rows, share[rows])
        known = np.isfinite(found)
        cycles[rows[known]], how[rows[known]] = found[known], HOW.index(BY_GEOMETRY)
    return cycles, how


def _life(table: SeriesTable, rows: NDArray[np.intp], share: Floats) -> Floats:
    """Return the life at which the movement that the curve allows is a share of that at the rated cycles, (k,).

        e(N) c = X(N) - X_p,  so  X = X_p + share (X(N_r) - X_p)           (forms/life.py, turned round)

    X_p, the range that pressure takes, follows from the movements at two lives. Where it alone goes past the curve at
    the rated cycles no more than these are left; what share a shorter life would bear is not known from it.
    """
    rated = table.numbers["rated_cycles"][rows]
    other = np.where(rated < _HALFWAY, LONGEST, SHORTEST)
    movement, beside = _movement(table, rows, rated), _movement(table, rows, other)
    whole, apart = range_asme_design(rated), range_asme_design(other)
    by_pressure = (beside * whole - movement * apart) / (beside - movement)
    found = life_asme_design(by_pressure + share * (whole - by_pressure))
    past = np.where((share <= 1.0) & np.isfinite(movement), rated, np.nan)
    return np.where(movement > 0.0, found, past)


def _movement(table: SeriesTable, rows: NDArray[np.intp], cycles: Floats) -> Floats:
    """Return the movement of one convolution that the ASME design curve allows over cycles [m], (k,)."""
    unstated = np.full(len(rows), np.nan)
    sense = np.array([-1.0 if table.kinds[row] in _OUTSIDE else 1.0 for row in rows])
    duty = Duty(
        pressure=sense * table.numbers["pressure"][rows],
        temperature=table.numbers["temperature"][rows],
        axial=unstated,
        lateral=unstated,
        angular=unstated,
        cycles=cycles,
    )
    return life_movement(table.shapes(rows), _metals(table, rows), duty, curve="ASME design")


def _metals(table: SeriesTable, rows: NDArray[np.intp]) -> Metal:
    """Return the metal of each row's bellows at its rated temperature; each is looked up once."""
    seen: dict[tuple[str, bool | None, float], OneMetal] = {}
    every = []
    for row in rows.tolist():
        key = (table.materials[row], table.annealed[row], float(table.numbers["temperature"][row]))
        if key not in seen:
            seen[key] = _metal(key)
        every.append(seen[key])
    return together(every)


def _metal(key: tuple[str, bool | None, float]) -> OneMetal:
    material, annealed, temperature = key
    stated = StatedMetal(
        material=material,
        annealed="" if annealed is None else "yes" if annealed else "no",
        family="",
        allowable_table="",
        temperature=temperature,
        modulus=None,
        cold_modulus=None,
        poisson=None,
        yield_strength=None,
        allowable=None,
    )
    return metal_of(stated) if material else OneMetal()


__all__ = [
    "AS_RATED",
    "BY_GEOMETRY",
    "BY_MAKER",
    "BY_RULE",
    "BY_TABLE",
    "HOW",
    "UNKNOWN",
    "cycles_at",
    "hottest_rated",
    "movement_share",
    "pressure_left",
]
