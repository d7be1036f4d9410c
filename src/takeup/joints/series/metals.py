"""The metal of the bellows of the series at a temperature.     (joints/series/metals.py)"""

from __future__ import annotations

from takeup.bellows.duty import Metal
from takeup.bellows.reading.metals import ROOM_TEMPERATURE, StatedMetal, metal_of, together
from takeup.joints.series.inputs import SeriesInputs
from takeup.library import material, tables_for


def metal_at(inputs: SeriesInputs, temperature: float, count: int) -> Metal:
    """Return the metal of so many bellows of the series at a temperature [degC]."""
    stated = StatedMetal(
        material=inputs.material,
        annealed="yes" if inputs.annealed else "no",
        family="",
        allowable_table=inputs.allowable_table,
        temperature=temperature,
        modulus=None,
        cold_modulus=None,
        poisson=None,
        yield_strength=None,
        allowable=None,
    )
    one = metal_of(stated)
    assert not one.wrong, one.wrong
    return together([one] * count)


def density_of(inputs: SeriesInputs) -> float:
    """Return the density of that metal [kg/m3]."""
    return material(inputs.material, expansion_table=tables_for(inputs.material)[0]).density


__all__ = ["ROOM_TEMPERATURE", "density_of", "metal_at"]
