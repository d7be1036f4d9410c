"""Bellows of a joint whose geometry is known: their rates from the shell, the forms' beside them.  (joints/computed.py)

A geometry in the place of typed-in rates. The shell's whole bellows between welded ends gives axial, lateral and
angular rate, its reaction the effective area; torsion is that of a thin tube along the true meridian. The published
forms stand beside them and go into no load. All at the cold modulus: at another temperature rates follow E.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from takeup.bellows import Bellows, Metal, bellows
from takeup.bellows.forms import factors, stiffness
from takeup.bellows.forms.remarks import remarks_of
from takeup.bellows.forms.scope import scope_notes
from takeup.bellows.geometry import Array, live_length
from takeup.bellows.reading.metals import OneMetal, StatedMetal, metal_of, together
from takeup.bellows.shell.convolution import FINE, QUICK, convolutions
from takeup.bellows.shell.harmonic import whole_rates
from takeup.bellows.shell.reference import reference
from takeup.errors import OutOfRange
from takeup.library import Material, material, tables_for

LifeCurve = Literal["ASME design", "EN design"]
"""An average curve asks for a factor of safety that no line file states."""

_CHARTS_FAR = 0.1  # a form that differs from the shell by more is worth a remark


@dataclass(frozen=True, kw_only=True, slots=True)
class JointBellows:
    """Each bellows of a joint, as stated: lengths [m], counts, what the file says of its metal.

    Args:
        inside_diameter: of tangents and roots.
        height: of a convolution, middle surface at the root to that at the crest.
        pitch: from crest to crest.
        convolutions: how many.
        plies: how many.
        ply_thickness: of one, as bought.
        crest_radius: mean.
        root_radius: mean.
        tangent_length: 0 where there is none.
        collar_thickness: 0 where there is none.
        collar_length: 0 where there is none.
        metal: as stated, at the rated temperature of the joint.
        curve: that its life is judged by; None where not said.
    """

    inside_diameter: float
    height: float
    pitch: float
    convolutions: float
    plies: float
    ply_thickness: float
    crest_radius: float
    root_radius: float
    tangent_length: float
    collar_thickness: float
    collar_length: float
    metal: StatedMetal
    curve: LifeCurve | None

    @property
    def live_length(self) -> float:
        """N q [m]."""
        return float(live_length(self.shapes(1))[0])

    def shapes(self, count: int) -> Bellows:
        """Return the same shape so many times, for as many states."""
        return bellows(**{name: np.full(count, getattr(self, name)) for name in Bellows.__dataclass_fields__})

    def metal_at(self, temperature: float) -> OneMetal:
        """Return the metal at a temperature [degC].

        Raises:
            OutOfRange: The tables of its material do not reach it.
        """
        one = metal_of(self.metal._replace(temperature=temperature))
        if one.wrong:
            raise OutOfRange(one.wrong[0].message)
        return one

    def metals_at(self, temperatures: tuple[float, ...]) -> Metal:
        """Return the metal at so many temperatures [degC]."""
        return together([self.metal_at(temperature) for temperature in temperatures])

    @property
    def library_material(self) -> Material | None:
        """The material whose modulus follows the temperature; None where the modulus is typed in."""
        if self.metal.modulus is not None:
            return None
        return material(self.metal.material, expansion_table=tables_for(self.metal.material)[0])

    def rate_share(self, temperature: float) -> float:
        """Return how stiff the bellows is at a temperature, as a share of its cold rates.

            k(T) / k_cold = E(T) / E_cold                                  (linear elasticity)

        Args:
            temperature: T [degC].

        Returns:
            The share; 1 at every temperature where the modulus is typed in, for then only one is known.

        Raises:
            OutOfRange: The modulus of the material is not tabulated there.
        """
        found = self.library_material
        if found is None:
            return 1.0
        return found.modulus.at(temperature) / self.metal_at(self.rated_temperature).cold_modulus

    @property
    def rated_temperature(self) -> float:
        """Of the joint [degC]."""
        assert self.metal.temperature is not None, "a joint has a rated temperature"
        return self.metal.temperature


@dataclass(frozen=True, kw_only=True, slots=True)
class BellowsRates:
    """Of one bellows between welded ends, cold: [N/m], [N/m], [N m/rad], [N m/rad], [m2].

    `lateral` moves an end aside without turning it; `angular` turns it while it may move aside as it likes.
    """

    axial: float
    lateral: float
    angular: float
    torsion: float
    effective_area: float


@dataclass(frozen=True, kw_only=True, slots=True)
class ComputedBellows:
    """What a geometry gives.

    Args:
        of: the geometry.
        cold_modulus: that the rates belong to [Pa].
        shell: what the model uses.
        formula: the published form's, by the same names, for comparison; None where it is outside its range.
        notes: what was assumed or looked up, and where the forms do not hold, in words.
    """

    of: JointBellows
    cold_modulus: float
    shell: BellowsRates
    formula: dict[str, float | None]
    notes: tuple[str, ...]


def computed(of: JointBellows) -> ComputedBellows:
    """Return what a geometry gives, cold.

    Args:
        of: a shape that can be (`impossible`), of a metal without a fault.
    """
    one = of.metal_at(of.rated_temperature)
    shape, modulus, poisson = of.shapes(1), np.array([one.cold_modulus]), np.array([one.poisson])
    rates = whole_rates(shape, modulus, poisson, reference(QUICK))
    torsion = stiffness.torsion_rate(shape, modulus, poisson)
    area = convolutions(shape, modulus, poisson, order=FINE).effective_area
    shell = BellowsRates(
        axial=float(rates.axial[0]),
        lateral=float(rates.lateral[0]),
        angular=float(rates.angular[0]),
        torsion=float(torsion[0]),
        effective_area=float(area[0]),
    )
    formula = _of_form(shape, modulus, poisson)
    return ComputedBellows(
        of=of,
        cold_modulus=one.cold_modulus,
        shell=shell,
        formula=formula,
        notes=(*one.notes, *_remarks(shape, shell, formula)),
    )


def _of_form(shape: Bellows, modulus: Array, poisson: Array) -> dict[str, float | None]:
    """Return the rates of ASME VIII-1 App. 26 and EN 13445-3 cl. 14 (from memory); of one bellows."""
    chart = factors.factors_of(shape)
    whole = stiffness.whole_stiffness(shape, stiffness.stiffness_pi(shape, modulus, poisson, chart.cf))
    found = {
        "axial": whole,
        "lateral": stiffness.lateral_rate(shape, whole),
        "angular": stiffness.angular_rate(shape, whole),
        "torsion": stiffness.torsion_rate_about(shape, modulus, poisson),
        "effective_area": stiffness.effective_area(shape),
    }
    return {name: None if math.isnan(value[0]) else float(value[0]) for name, value in found.items()}


def _remarks(shape: Bellows, shell: BellowsRates, formula: dict[str, float | None]) -> tuple[str, ...]:
    c1, c2 = factors.depth_ratio(shape), factors.thickness_ratio(shape)
    words = [*remarks_of(1, (*factors.factor_notes(shape, c1, c2), *scope_notes(shape)))]
    axial = formula["axial"]
    if axial is None:
        words.append("outside the published charts: rates of the shell alone")
    elif abs(shell.axial / axial - 1.0) > _CHARTS_FAR:
        words.append(f"the shell's axial rate differs from the published form's by {shell.axial / axial - 1.0:+.0%}")
    return tuple(word for word in words if word)


__all__ = ["BellowsRates", "ComputedBellows", "JointBellows", "LifeCurve", "computed"]
