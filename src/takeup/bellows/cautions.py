"""What a rating does not cover, and what its reader must not overlook.     (bellows/cautions.py)

A number beyond its limit is said in words beside the rating; the rating itself is a result and no verdict.
"""

from __future__ import annotations

import numpy as np

from takeup.bellows.columns import COLUMNS, Ratings
from takeup.bellows.forms.external import COLLAPSE_FACTOR
from takeup.bellows.reading.reader import BellowsFile
from takeup.units import to_bar, to_mpa

NOT_COVERED: tuple[str, ...] = (
    "Reinforcing and equalising rings, toroidal and other shapes than U.",
    "Pressure from outside on tangents and ends; plasticity and imperfection in collapse, whose numbers are elastic.",
    "Creep, ratcheting, plastic instability, and life above the temperatures of the life curves.",
    "Vibration, resonance, water hammer, corrosion and erosion.",
    "Welds, and the ends beyond tangents and collars.",
)
CAUTIONS: tuple[str, ...] = (
    "A rating is of the shape and metal as stated: tolerances of thickness, height and pitch are not in it.",
    "Average life and design life are different things; a design life has its standard's margin, an average life none.",
    "Local codes, the maker's certified data and a licensed engineer decide; this document does not replace them.",
)
_PRESSURES = {
    "squirm_design": "design pressure for column squirm",
    "in_plane_squirm": "design pressure for in-plane squirm",
}
_LIVES = {"life_asme_design": "ASME VIII-1 Appendix 26", "life_en_design": "EN 13445-3 clause 14"}


def cautions_of(read: BellowsFile, rated: Ratings) -> tuple[tuple[str, ...], ...]:
    """Return what goes beyond its limit, for each bellows."""
    found: list[list[str]] = [[] for _ in read.names]
    pressure, cycles = read.duty.pressure, read.duty.cycles
    values = {column.field: np.asarray(getattr(rated, column.field), dtype=float) for column in COLUMNS}
    for field, words in _PRESSURES.items():
        limit = values[field]
        for row in np.flatnonzero(pressure > limit).tolist():
            found[row].append(f"{to_bar(pressure[row]):.4g} bar is above the {words}, {to_bar(limit[row]):.4g} bar")
    for field, words in _LIVES.items():
        for row in np.flatnonzero(cycles > values[field]).tolist():
            found[row].append(f"{cycles[row]:g} cycles are wanted, and {values[field][row]:.0f} are allowed by {words}")
    bending, printed = values["shell_bending_per_pressure"] * np.abs(pressure), np.abs(values["formula_s4"])
    for row in np.flatnonzero(bending > printed).tolist():
        found[row].append(
            f"bending stress of pressure is higher by the shell, {to_mpa(bending[row]):.4g} MPa, than by the published "
            f"form, {to_mpa(printed[row]):.4g} MPa: the life does not count that"
        )
    least = np.fmin(values["shell_collapse"], values["formula_collapse"])
    for row in np.flatnonzero((pressure < 0.0) & (-pressure * COLLAPSE_FACTOR > least)).tolist():
        found[row].append(
            f"{to_bar(-pressure[row]):.4g} bar from outside is above a third of the elastic collapse pressure, "
            f"{to_bar(least[row]):.4g} bar: the codes ask for a factor of {COLLAPSE_FACTOR:g}"
        )
    return tuple(map(tuple, found))


__all__ = ["CAUTIONS", "NOT_COVERED", "cautions_of"]
