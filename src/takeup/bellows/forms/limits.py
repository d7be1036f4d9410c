"""Acceptance: what is asked against what can be given, criterion by criterion.     (bellows/forms/limits.py)

Of ASME VIII-1 App. 26, with EN's and EJMA's where they differ. An average life is no limit, so none is here. Pressure
from outside is held against collapse, from inside against squirm; where one does not apply it is nan.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.forms.external import COLLAPSE_FACTOR
from takeup.bellows.forms.published import Forms
from takeup.bellows.geometry import Array

EN_AS_FORMED = 3.0  # EN 13445-3 cl. 14.5.2 (from memory, medium): multiple of f for S3 + S4 as formed
EN_ANNEALED = 1.5
COLLAPSE = "collapse, pressure from outside"


@dataclass(frozen=True, kw_only=True, slots=True)
class Limit:
    """One criterion for n bellows; demand and capacity have shape (n,), nan where it does not apply or is not stated.

    Args:
        name: of the criterion.
        unit: of demand and capacity, "Pa" or "cycles".
        demand: what is asked.
        capacity: what can be given.
        source: whose limit it is.
    """

    name: str
    unit: str
    demand: Array
    capacity: Array
    source: str

    @property
    def use(self) -> Array:
        """Return demand over capacity, shape (n,): 1 is full."""
        return np.asarray(self.demand / self.capacity)


def acceptance(forms: Forms, metal: Metal, duty: Duty, *, folding: Array | None = None) -> tuple[Limit, ...]:
    """Return every criterion.

        S1, S2, S2,E <= S;  S3 + S4 <= K_m S;  p <= p_sc, p_si;  cycles <= design life

    A stress of pressure from outside counts by its magnitude. The weld of the bellows counts as sound (factor 1).

    Args:
        forms: of the bellows, from `published`.
        metal: their metal; S, the allowable stress, at temperature.
        duty: what is asked.
        folding: pressure from outside at which the shell folds, elastic, nan where not computed [Pa], shape (n,); a
            criterion of its own beside that of the rings, and the lesser of both holds.
    """
    shell = () if folding is None else (_folded(folding, duty),)
    return (*_stresses(forms, metal), *_pressures(forms, duty), *shell, *_cycles(forms, duty))


def _folded(folding: Array, duty: Duty) -> Limit:
    return Limit(
        name=COLLAPSE,
        unit="Pa",
        demand=np.where(duty.pressure < 0.0, -duty.pressure, np.nan),
        capacity=folding / COLLAPSE_FACTOR,
        source="elastic folding of the shell, a third of it, ASME VIII-1 UG-28, from memory (medium)",
    )


def _stresses(forms: Forms, metal: Metal) -> tuple[Limit, ...]:
    asme = "ASME VIII-1 App. 26, from memory (medium)"
    bending = np.abs(forms.s3 + forms.s4)
    en = np.where(metal.annealed, EN_ANNEALED, EN_AS_FORMED) * metal.allowable
    named = (
        ("S1, end tangent", forms.s1),
        ("S2, inner convolution", forms.s2),
        ("S2, end convolution", forms.s2_end),
    )
    return (
        *(
            Limit(name=name, unit="Pa", demand=np.abs(value), capacity=metal.allowable, source=asme)
            for name, value in named
        ),
        Limit(
            name="S3 + S4, meridian",
            unit="Pa",
            demand=bending,
            capacity=forms.material_factor * metal.allowable,
            source=asme,
        ),
        Limit(
            name="S3 + S4, meridian",
            unit="Pa",
            demand=bending,
            capacity=en,
            source="EN 13445-3 cl. 14.5.2, from memory (medium)",
        ),
    )


def _pressures(forms: Forms, duty: Duty) -> tuple[Limit, ...]:
    inside = np.where(duty.pressure > 0.0, duty.pressure, np.nan)
    outside = np.where(duty.pressure < 0.0, -duty.pressure, np.nan)
    named = (
        ("column squirm", inside, forms.squirm_column, "ASME VIII-1 App. 26, EN 13445-3 cl. 14.5.2, from memory"),
        ("column squirm", inside, forms.squirm_column_ejma, "EJMA, from memory (medium)"),
        ("in-plane squirm", inside, forms.squirm_in_plane_asme, "ASME VIII-1 App. 26, from memory"),
        ("in-plane squirm", inside, forms.squirm_in_plane_ejma, "EJMA, from memory (medium)"),
        (
            COLLAPSE,
            outside,
            forms.collapse / COLLAPSE_FACTOR,
            "elastic collapse of the convolutions as rings, a third of it, ASME VIII-1 UG-28, from memory (medium)",
        ),
    )
    return tuple(
        Limit(name=name, unit="Pa", demand=demand, capacity=capacity, source=source)
        for name, demand, capacity, source in named
    )


def _cycles(forms: Forms, duty: Duty) -> tuple[Limit, ...]:
    named = (
        ("ASME VIII-1 App. 26, design, from memory", forms.life_asme_design),
        ("EN 13445-3 cl. 14.5.2, design, from memory (medium)", forms.life_en_design),
    )
    return tuple(
        Limit(name="design life", unit="cycles", demand=duty.cycles, capacity=capacity, source=source)
        for source, capacity in named
    )


__all__ = ["COLLAPSE", "Limit", "acceptance"]
