"""Cycle life: EJMA's average, the design lives of ASME VIII-1 App. 26 and EN 13445-3.     (bellows/forms/life.py)

Average and design are different things, apart by a factor of 2.5 at short lives and 40 at long ones: every name here
says which it is, and neither is ever turned into the other. A curve is used with its own standard's stresses only. All
are from memory: EJMA and ASME high, higher alloys and EN medium. Shapes are (n,) throughout.

Range: 370 to 1e6 cycles. A stress too low for the curve gives 1e6, which then means "at least"; too high gives nan.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from takeup.bellows.forms.remarks import Mask, Note, always
from takeup.bellows.geometry import Array
from takeup.units import PA_PER_PSI

SHORTEST: Final = 370.0  # cycles: EN 13445-3 and EJMA (from memory); ASME's own lower end is not in hand, so this one
LONGEST: Final = 1e6  # cycles: where every curve ends
EJMA_EXPONENT: Final = 3.4
EJMA_SCALE: Final = 1.86e6 * PA_PER_PSI
EJMA_FLOOR: Final = 54_000.0 * PA_PER_PSI
FAMILY_FACTORS: Final = {"austenitic": 1.0, "higher alloy 400/600/800": 1.25, "higher alloy 625/825": 1.45}
ASME_STEEP: Final = (5.2e6 * PA_PER_PSI, 38_300.0 * PA_PER_PSI)
ASME_FLAT: Final = (6.7e6 * PA_PER_PSI, 30_600.0 * PA_PER_PSI)
ASME_CHANGE: Final = 65_000.0 * PA_PER_PSI
EN_SCALE: Final = 24_452.0e6
EN_FLOOR: Final = 288.2e6
HOTTEST: Final = {"EJMA average": 427.0, "ASME design": 427.0, "EN design": 500.0}  # degC; from memory, medium


def family_factor(family: tuple[str, ...]) -> Array:
    """Return EJMA's factor on the constants of its curve, 1, 1.25 or 1.45 (from memory), shape (n,); nan if unknown."""
    return np.array([FAMILY_FACTORS.get(word, np.nan) for word in family])


def life_ejma_average(stress_range: Array, factor: Array) -> Array:
    """Return the average life of bellows as formed.

        N = [1.86e6 c / (S_t - 54 000 c)]^3.4, psi                         (EJMA, from memory)

    Args:
        stress_range: S_t, movement at the cold modulus [Pa], shape (n,).
        factor: c, from `family_factor`, shape (n,).

    Returns:
        N, average cycles to failure, shape (n,).
    """
    return _held(_power(EJMA_SCALE * factor, stress_range - EJMA_FLOOR * factor, EJMA_EXPONENT))


def range_ejma_average(cycles: Array, factor: Array) -> Array:
    """Return the greatest stress range of an average life, the inverse of `life_ejma_average` [Pa], shape (n,).

        S_t = 1.86e6 c / N^(1/3.4) + 54 000 c, psi                         (EJMA, from memory)

    Returns:
        S_t [Pa]; nan where N is not from 370 to 1e6.
    """
    return _asked(cycles, EJMA_SCALE * factor / cycles ** (1.0 / EJMA_EXPONENT) + EJMA_FLOOR * factor)


def range_at_cold_modulus(stress_range: Array, modulus: Array, cold_modulus: Array, reduction: float = 1.0) -> Array:
    """Return the stress with which the design curves are entered.

        X = K_g (E_o / E_b) S_t                                            (ASME VIII-1 App. 26, from memory)

    Args:
        stress_range: S_t, all of it at E_b [Pa], shape (n,).
        modulus: E_b at temperature [Pa], shape (n,).
        cold_modulus: E_o at room temperature [Pa], shape (n,).
        reduction: K_g, 1 for a smooth bellows.

    Returns:
        X [Pa], shape (n,).
    """
    return reduction * cold_modulus / modulus * stress_range


def life_asme_design(entered: Array) -> Array:
    """Return the design life.

        N = [5.2e6 / (X - 38 300)]^2, X >= 65 000 psi; [6.7e6 / (X - 30 600)]^2 below it; 1e6 below 37 300 psi

    ASME VIII-1 App. 26, austenitic Cr-Ni, N066xx and N04400, from memory; both branches give 37 927 at 448.2 MPa.

    Args:
        entered: X from `range_at_cold_modulus` [Pa], shape (n,).

    Returns:
        N, design cycles, shape (n,).
    """
    steep, flat = (_power(scale, entered - floor, 2.0) for scale, floor in (ASME_STEEP, ASME_FLAT))
    return _held(np.where(entered >= ASME_CHANGE, steep, flat))


def range_asme_design(cycles: Array) -> Array:
    """Return the greatest X of a design life, the inverse of `life_asme_design`.

        X = 5.2e6/sqrt(N) + 38 300 where that is 65 000 psi or more, else 6.7e6/sqrt(N) + 30 600

    ASME VIII-1 App. 26, from memory.

    Returns:
        X [Pa], shape (n,); nan where N is not from 370 to 1e6.
    """
    steep, flat = (scale / np.sqrt(cycles) + floor for scale, floor in (ASME_STEEP, ASME_FLAT))
    return _asked(cycles, np.where(steep >= ASME_CHANGE, steep, flat))


def life_en_design(entered: Array) -> Array:
    """Return the design life.

        N = [24 452 / ((E_o/E_b) S_eq - 288.2)]^2, MPa                     (EN 13445-3 cl. 14.5.2, from memory, medium)

    Args:
        entered: (E_o/E_b) S_eq from `range_at_cold_modulus` [Pa], shape (n,).

    Returns:
        N, design cycles, shape (n,).
    """
    return _held(_power(np.asarray(EN_SCALE), entered - EN_FLOOR, 2.0))


def range_en_design(cycles: Array) -> Array:
    """Return the greatest (E_o/E_b) S_eq of a design life, the inverse of `life_en_design` [Pa], shape (n,).

    nan where N is not from 370 to 1e6. EN 13445-3 cl. 14.5.2, from memory (medium).
    """
    return _asked(cycles, EN_SCALE / np.sqrt(cycles) + EN_FLOOR)


def covered(curve: str, family: tuple[str, ...], temperature: Array) -> Mask:
    """Return which bellows a curve is for, by family and temperature, shape (n,).

    EJMA has factors for higher alloys; ASME names N066xx and N04400 beside austenitic steel; EN is taken for austenitic
    steel alone. A temperature not stated passes, and `life_notes` says so.
    """
    known = np.array([word == "austenitic" or (bool(word) and curve != "EN design") for word in family], dtype=bool)
    return np.asarray(known & ~(temperature > HOTTEST[curve]))


def of_state(curve: str, annealed: Mask) -> Mask:
    """Return which bellows a curve is for, by how they are after forming, shape (n,).

    EJMA's average curve is of bellows as formed (from memory, high); the design curves are taken for both.
    """
    return np.asarray(~annealed if curve == "EJMA average" else np.ones_like(annealed))


def state_notes(curve: str, annealed: Mask) -> Iterator[Note]:
    """Yield which bellows a curve is not for because they are annealed."""
    yield ~of_state(curve, annealed), always(f"{curve} life: the curve is for bellows as formed, not annealed ones")


def life_notes(curve: str, life: Array, entered: Array, family: tuple[str, ...], temperature: Array) -> Iterator[Note]:
    """Yield which bellows a curve is not for, and where its ends were passed.

    Args:
        curve: "EJMA average", "ASME design" or "EN design".
        life: N, shape (n,).
        entered: the stress that the curve was entered with [Pa], shape (n,).
        family: as in `Metal`.
        temperature: of the metal [degC], shape (n,).
    """
    right, hot = covered(curve, family, temperature), temperature > HOTTEST[curve]
    stated = np.array([bool(word) for word in family], dtype=bool)
    yield (hot, lambda row: f"{curve} life: {temperature[row]:.4g} degC is above the curve's {HOTTEST[curve]:g} degC")
    yield (stated & ~right & ~hot, lambda row: f"{curve} life: the curve is not known here for {family[row]}")
    high = right & np.isnan(life) & ~np.isnan(entered)
    yield (
        high,
        lambda row: f"{curve} life: {entered[row] / 1e6:.4g} MPa is past the curve's end at {SHORTEST:g} cycles",
    )
    yield (right & (life == LONGEST), always(f"{curve} life: at least {LONGEST:g}, where the curve ends"))
    if curve == "ASME design":
        mixed = np.array([word.startswith("higher alloy") for word in family], dtype=bool) & right
        yield (mixed, always("ASME design life: the curve names N066xx and N04400, not alloys 800 and 825"))


def _power(scale: Array | float, above: Array, exponent: float) -> Array:
    """Return (scale/above)^exponent, infinite where the stress is not above the curve's floor."""
    above = np.asarray(above)
    quotient = np.divide(scale, above, out=np.full(above.shape, np.inf), where=~(above <= 0.0))
    return np.asarray(quotient**exponent)


def _held(life: Array) -> Array:
    return np.where(life < SHORTEST, np.nan, np.minimum(life, LONGEST))


def _asked(cycles: Array, stress: Array) -> Array:
    return np.where((cycles >= SHORTEST) & (cycles <= LONGEST), stress, np.nan)


__all__ = [
    "FAMILY_FACTORS",
    "HOTTEST",
    "LONGEST",
    "SHORTEST",
    "covered",
    "family_factor",
    "life_asme_design",
    "life_ejma_average",
    "life_en_design",
    "life_notes",
    "of_state",
    "range_asme_design",
    "range_at_cold_modulus",
    "range_ejma_average",
    "range_en_design",
]
