"""What a rating does not cover, and what its reader must not overlook.     (bellows/cautions.py)

A number beyond its limit is said in words beside the rating; the rating itself is a result and no verdict.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeAlias

import numpy as np

from takeup.bellows.columns import COLUMNS, Ratings
from takeup.bellows.duty import Duty
from takeup.bellows.envelope import Curve, closing_gap, life_movement
from takeup.bellows.forms import acceptance, equivalent_movement, published
from takeup.bellows.forms.external import COLLAPSE_FACTOR
from takeup.bellows.geometry import Array
from takeup.bellows.reading.reader import BellowsFile
from takeup.units import to_bar, to_mpa

_Caution: TypeAlias = tuple[int, str]

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
    "squirm_elastic": "pressure at which the shell squirms as a column, elastic",
    "squirm_in_plane_elastic": "pressure at which the shell's convolutions go oval, elastic",
}
_LIVES = {"life_asme_design": "ASME VIII-1 Appendix 26", "life_en_design": "EN 13445-3 clause 14"}
_CURVES: dict[str, Curve] = {"life_asme_design": "ASME design", "life_en_design": "EN design"}
_ROUNDING = 1.0 + 1e-9  # a use that is full to rounding passes nothing


def cautions_of(read: BellowsFile, rated: Ratings) -> tuple[tuple[str, ...], ...]:
    """Return what goes beyond its limit, for each bellows; no caution has a semicolon."""
    found: list[list[str]] = [[] for _ in read.names]
    values = {column.field: np.asarray(getattr(rated, column.field), dtype=float) for column in COLUMNS}
    for row, words in (
        *_pressed(read.duty, values),
        *_stressed(read),
        *_lived(read.duty, values),
        *_moved(read, values),
        *_bent(read.duty, values),
        *_folded(read.duty, values),
    ):
        found[row].append(words)
    return tuple(map(tuple, found))


def _pressed(duty: Duty, values: Mapping[str, Array]) -> Iterator[_Caution]:
    """Yield where pressure inside is above a squirm pressure of the table."""
    for field, words in _PRESSURES.items():
        limit = values[field]
        for row in np.flatnonzero(duty.pressure > limit).tolist():
            yield row, f"{to_bar(duty.pressure[row]):.4g} bar is above the {words}, {to_bar(limit[row]):.4g} bar"


def _stressed(read: BellowsFile) -> Iterator[_Caution]:
    """Yield where a stress of pressure is above its limit, or pressure above a squirm pressure that EJMA alone has."""
    forms = published(read.shape, read.metal, read.duty)
    for limit in acceptance(forms, read.metal, read.duty):
        stress, squirm = limit.name.startswith("S"), "squirm" in limit.name and limit.source.startswith("EJMA")
        if not (stress or squirm):
            continue
        for row in np.flatnonzero(limit.use > _ROUNDING).tolist():
            demand, capacity = float(limit.demand[row]), float(limit.capacity[row])
            if stress:
                words = f"{limit.name}: {to_mpa(demand):.4g} MPa is above the {to_mpa(capacity):.4g} MPa allowed by"
                yield row, f"{words} {limit.source}"
            else:
                words = f"{to_bar(demand):.4g} bar is above the design pressure for {limit.name} of {limit.source}"
                yield row, f"{words}, {to_bar(capacity):.4g} bar"


def _lived(duty: Duty, values: Mapping[str, Array]) -> Iterator[_Caution]:
    for field, words in _LIVES.items():
        for row in np.flatnonzero(duty.cycles > values[field]).tolist():
            yield row, f"{duty.cycles[row]:g} cycles are wanted, and {values[field][row]:.0f} are allowed by {words}"


def _moved(read: BellowsFile, values: Mapping[str, Array]) -> Iterator[_Caution]:
    """Yield where the movement asked is beyond the gap between convolutions, or beyond the end of a life curve."""
    shape, duty = read.shape, read.duty
    needed, gap = equivalent_movement(shape, duty), closing_gap(shape)
    stated = ~(np.isnan(duty.axial) & np.isnan(duty.lateral) & np.isnan(duty.angular))
    for row in np.flatnonzero(stated & np.isnan(needed)).tolist():
        yield row, "the movement asked leaves the bellows no length"
    for row in np.flatnonzero(needed > gap * _ROUNDING).tolist():
        yield row, _asked(duty, row, float(needed[row]), float(gap[row]), "all to one side the convolutions touch at")
    for field, curve in _CURVES.items():
        allowed = life_movement(shape, read.metal, duty, curve=curve)
        for row in np.flatnonzero((needed > allowed * _ROUNDING) & ~(duty.cycles > values[field])).tolist():
            words = f"over {duty.cycles[row]:g} cycles the {curve} curve allows"
            yield row, _asked(duty, row, float(needed[row]), max(float(allowed[row]), 0.0), words)


def _asked(duty: Duty, row: int, needed: float, allowed: float, words: str) -> str:
    """Return what is asked and what is there: of the movement itself where it is alone, else of a convolution."""
    each = [
        (f"{kind} movement", float(values[row]) * size, unit)
        for kind, values, size, unit in (
            ("axial", duty.axial, 1e3, "mm"),
            ("lateral", duty.lateral, 1e3, "mm"),
            ("angular", duty.angular, 180.0 / np.pi, "°"),
        )
        if values[row] > 0.0
    ]
    if len(each) == 1:
        [(kind, value, unit)] = each
        return f"{value:.4g} {unit} of {kind} is asked, {words} {value * allowed / needed:.4g} {unit}"
    return (
        f"the movements asked take {needed * 1e3:.4g} mm of each convolution together, {words} {allowed * 1e3:.4g} mm "
        "of each"
    )


def _bent(duty: Duty, values: Mapping[str, Array]) -> Iterator[_Caution]:
    bending, printed = values["shell_bending_per_pressure"] * np.abs(duty.pressure), np.abs(values["formula_s4"])
    for row in np.flatnonzero(bending > printed).tolist():
        shell, form = to_mpa(float(bending[row])), to_mpa(float(printed[row]))
        words = f"bending stress of pressure is higher by the shell, {shell:.4g} MPa, than by the published form"
        yield row, f"{words}, {form:.4g} MPa: the life does not count that"


def _folded(duty: Duty, values: Mapping[str, Array]) -> Iterator[_Caution]:
    """Yield where pressure from outside is above a third of the lesser of both collapse pressures."""
    shell, rings = values["shell_collapse"], values["formula_collapse"]
    least = np.fmin(shell, rings)
    for row in np.flatnonzero((duty.pressure < 0.0) & (-duty.pressure * COLLAPSE_FACTOR > least)).tolist():
        whose = "of the shell" if shell[row] == least[row] else "of the convolutions as rings"
        words = f"{to_bar(-duty.pressure[row]):.4g} bar from outside is above a third of the elastic collapse pressure"
        asked = f"{to_bar(least[row]):.4g} bar: the codes ask for a factor of {COLLAPSE_FACTOR:g}"
        yield row, f"{words} {whose}, {asked}"


__all__ = ["CAUTIONS", "NOT_COVERED", "cautions_of"]
