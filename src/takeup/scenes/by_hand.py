"""What the hand formulas of the scenes are fed with, and those that `takeup.hand` has not.     (scenes/by_hand.py)

Straight from the line file: sizes, material, joint data. No number of the model's goes in.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from takeup.hand import formulas
from takeup.joints import JointData
from takeup.line import Study


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """One pipe, by hand.

    Args:
        outside: D, outside diameter [m].
        wall: t [m].
        length: of the whole line [m].
        modulus: E at installation [Pa].
        hot_modulus: E at operating temperature [Pa].
        strain: eps, free growth of a length from installation to operating temperature [m/m].
        poisson: nu.
        joints: data of the joints along the flow.
    """

    outside: float
    wall: float
    length: float
    modulus: float
    hot_modulus: float
    strain: float
    poisson: float
    joints: tuple[JointData, ...]

    @property
    def metal(self) -> float:
        """A, area of the metal [m2]."""
        return formulas.pipe_wall_area(self.outside, self.wall)

    @property
    def bore(self) -> float:
        """A_i, area of the bore, pi/4 (D - 2 t)^2 [m2]."""
        return math.pi / 4.0 * (self.outside - 2.0 * self.wall) ** 2

    @property
    def axial(self) -> float:
        """E A [N]."""
        return self.modulus * self.metal

    @property
    def second_moment(self) -> float:
        """I [m4]."""
        return formulas.pipe_second_moment(self.outside, self.wall)

    @property
    def growing(self) -> float:
        """Length that grows: the line less the live length of its bellows [m]."""
        return self.length - sum(data.live_length for data in self.joints)

    def pressure_strain(self, pressure: float) -> float:
        """Return how much a closed pipe lengthens under pressure, (1 - 2 nu) P A_i/(E A) [m/m].

        Its ends pull it long by P A_i/(E A); as its wall is stretched round, it shortens by 2 nu of the same.
        """
        return (1.0 - 2.0 * self.poisson) * pressure * self.bore / self.axial


def facts_of(study: Study) -> Facts:
    """Return the facts of a study of one line with one pipe."""
    (line,) = study.lines
    pipe, cold, hot = line.pipe, study.site.installation, study.conditions.operating.temperature
    expansion = pipe.material.expansion
    return Facts(
        outside=pipe.size.outside_diameter,
        wall=pipe.wall,
        length=sum(leg.length for leg in line.legs),
        modulus=pipe.material.modulus.at(cold),
        hot_modulus=pipe.material.modulus.at(hot),
        strain=expansion.at(hot) - expansion.at(cold),
        poisson=pipe.material.poisson,
        joints=tuple(item.data for item in line.takeups),
    )


def held_compression(facts: Facts, *, thrust: float, strain: float) -> float:
    """Return the compression of a straight line with one joint between two anchors [N].

        F = (P A_e + k L (eps + s))/(1 + k L/(E A))         first principles

    The pipe's growth (eps + s) L, less its own give F L/(E A), is what the joint loses; the joint pushes back with
    P A_e + k x. The plain sum P A_e + k x of the trade leaves the pipe's give out.

    Args:
        facts: of the pipe.
        thrust: P A_e [N].
        strain: eps + s, growth by heat and by pressure [m/m].
    """
    rate, length = facts.joints[0].axial_rate, facts.growing
    return (thrust + rate * length * strain) / (1.0 + rate * length / facts.axial)


def euler(bending: float, length: float, *, ends: str) -> float:
    """Return the force at which a straight strut bows out [N].

        F = c E I/L^2,  c = pi^2 pinned, 4 pi^2 fixed, 4.4934^2 one end of each       textbook (Euler)

    Args:
        bending: E I [N m2].
        length: L [m].
        ends: "pinned", "fixed" or "one of each".
    """
    factor = {"pinned": math.pi**2, "fixed": 4.0 * math.pi**2, "one of each": FIXED_PINNED**2}[ends]
    return factor * bending / length**2


FIXED_PINNED = 4.493409457909064  # the least root of tan x = x above nought
