"""How forming the convolutions hardens the strip.     (bellows/forms/forming.py)

ASME VIII-1 App. 26, editions from 2013, and EJMA alike; from memory (medium). Shapes are (n,) throughout.
"""

from __future__ import annotations

import numpy as np

from takeup.bellows.forms.remarks import Mask
from takeup.bellows.geometry import Array, Bellows, thinned_thickness

ROLLED = 1.0  # K_f: expanding mandrel or rolls
BY_PRESSURE = 0.6  # K_f: water, rubber or air in the tube; the lower one, taken where nobody says
_AUSTENITIC = (1.0, 9.94, -7.59, -2.4, 2.21)  # ascending powers of K_f eps_f
_NICKEL = (1.0, 6.8, -9.11, 9.73, -6.43)


def forming_strain(shape: Bellows) -> Array:
    """Return the strain that forms a convolution from a tube.

        eps_f = sqrt(ln(1 + 2 w/D_b)^2 + ln(1 + n t_p/(2 r_m))^2),  r_m = q/4

    ASME VIII-1 App. 26, from memory (medium).

    Returns:
        eps_f, shape (n,).
    """
    stretched = np.log1p(2.0 * shape.height / shape.inside_diameter)
    bent = np.log1p(2.0 * shape.plies * thinned_thickness(shape) / shape.pitch)
    return np.hypot(stretched, bent)


def hardening(strain: Array, family: tuple[str, ...], *, way: float = BY_PRESSURE) -> Array:
    """Return how many times the strip's yield the formed metal has.

        Y_sm = 1 + 9.94 x - 7.59 x^2 - 2.4 x^3 + 2.21 x^4, austenitic
        Y_sm = 1 + 6.8 x - 9.11 x^2 + 9.73 x^3 - 6.43 x^4, nickel alloys;  x = K_f eps_f

    Held between 1 and 2 as the code does; 1 for other families. ASME VIII-1 App. 26, from memory (medium).

    Args:
        strain: eps_f, shape (n,).
        family: as in `Metal`, one word a bellows.
        way: K_f, `ROLLED` or `BY_PRESSURE`.

    Returns:
        Y_sm, shape (n,).
    """
    x = way * strain
    austenitic = np.array([word == "austenitic" for word in family], dtype=bool)
    nickel = np.array([word.startswith("higher alloy") for word in family], dtype=bool)
    raw = np.where(
        austenitic,
        np.polynomial.polynomial.polyval(x, _AUSTENITIC),
        np.where(nickel, np.polynomial.polynomial.polyval(x, _NICKEL), 1.0),
    )
    return np.clip(raw, 1.0, 2.0)


def material_factor(shape: Bellows, annealed: Mask, family: tuple[str, ...], *, way: float = BY_PRESSURE) -> Array:
    """Return how many times the allowable stress S3 + S4 may be.

        K_m = C_m = 1.5 annealed, 1.5 Y_sm as formed         (ASME VIII-1 App. 26, EJMA; from memory, medium)

    Returns:
        K_m, shape (n,), 1.5 to 3; EN 13445-3 (from memory, medium) has 3 as formed whatever the strain.
    """
    return 1.5 * np.where(annealed, 1.0, hardening(forming_strain(shape), family, way=way))


__all__ = ["BY_PRESSURE", "ROLLED", "forming_strain", "hardening", "material_factor"]
