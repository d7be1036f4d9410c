"""The rates of a joint, those given and those derived, each with where it came from.     (joints/rates.py)

A uniform beam cannot have an angular and a lateral rate of their own: k_y = 12 k_theta / L^2. The angular rate rules;
a lateral rate that was given and differs is said so.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from takeup.joints.data import JointData

_SAME_RATE = 0.1  # ten per cent: spring rates scatter more than that (common practice, no source)


@dataclass(frozen=True, kw_only=True, slots=True)
class Rates:
    """Rates of each bellows of a joint [N/m], [N m/rad], and remarks on those that were not given."""

    axial: float
    angular: float
    lateral: float
    torsion: float
    remarks: tuple[str, ...]

    def times(self, share: float) -> Rates:
        """Return the rates of the same bellows with so large a share of its modulus."""
        return replace(
            self,
            axial=self.axial * share,
            angular=self.angular * share,
            lateral=self.lateral * share,
            torsion=self.torsion * share,
        )


def angular_rate(axial_rate: float, effective_area: float) -> float:
    """Return the angular rate of a bellows from its axial rate.

        k_theta = k_x D_m^2 / 8,  D_m^2 = 4 A_e / pi                       (EJMA form, from memory)

    Args:
        axial_rate: k_x [N/m].
        effective_area: A_e, on the mean diameter [m2].

    Returns:
        k_theta [N m/rad].
    """
    return axial_rate * effective_area / (2.0 * math.pi)


def joint_rates(data: JointData, pipe_torsion: float) -> Rates:
    """Return the rates that the model uses.

        k_theta = k_x D_m^2 / 8,  k_y = 12 k_theta / L_b^2               (EJMA form, from memory)

    Args:
        data: the joint's data.
        pipe_torsion: G J of the pipe beside it [N m2], for a joint whose torsion rate is not given: no bellows is
            stiffer in torsion than the pipe, so the torque comes out on the safe side.
    """
    remarks = []
    angular = data.angular_rate
    if angular is None and data.lateral_rate is not None:
        angular = data.lateral_rate * data.live_length**2 / 12.0
        remarks.append("angular rate from the lateral rate given, k_theta = k_y L^2/12")
    elif angular is None:
        angular = angular_rate(data.axial_rate, data.effective_area)
        remarks.append("angular rate not given: k_theta = k_x D_m^2/8 (published form, from memory)")
    lateral = 12.0 * angular / data.live_length**2
    if data.lateral_rate is not None and abs(data.lateral_rate / lateral - 1.0) > _SAME_RATE:
        remarks.append(
            f"the lateral rate given, {data.lateral_rate / 1e3:.4g} N/mm, differs from the {lateral / 1e3:.4g} N/mm "
            "that belongs to the angular rate; the model uses the latter"
        )
    torsion = data.torsion_rate
    if torsion is None:
        torsion = pipe_torsion / data.live_length
        remarks.append("torsion rate not given: the pipe's own, an upper bound")
    return Rates(axial=data.axial_rate, angular=angular, lateral=lateral, torsion=torsion, remarks=tuple(remarks))
