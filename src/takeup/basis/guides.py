"""Guides beside an unrestrained axial joint: how near, how far apart.     (basis/guides.py)

The trade's rule (EJMA, requirements for anchors, guides and supports; from memory, high): the first guide within four
pipe diameters of the joint, the second within fourteen of the first, then one at most every L_max. Its 0.131 is
pi/24, gives feet from psi, in4 and lbf, and hides a load factor of four on pinned Euler; here it is written in SI.
Limits: straight pipe between guides that hold it across; the force is a compression. Elsewhere the rule does not
apply.
"""

from __future__ import annotations

import math

from takeup.errors import OutOfRange

FIRST_GUIDE_DIAMETERS = 4
SECOND_GUIDE_DIAMETERS = 14


def first_guide_limit(outside_diameter: float) -> float:
    """Return the greatest distance from the joint to the first guide.

        L_1 = 4 D                                      EJMA, guides (from memory)

    Args:
        outside_diameter: D of the pipe [m].

    Returns:
        L_1 [m].
    """
    return FIRST_GUIDE_DIAMETERS * _checked(outside_diameter)


def second_guide_limit(outside_diameter: float) -> float:
    """Return the greatest distance from the first guide to the second.

        L_2 = 14 D                                     EJMA, guides (from memory)

    Args:
        outside_diameter: D of the pipe [m].

    Returns:
        L_2 [m], counted from the first guide.
    """
    return SECOND_GUIDE_DIAMETERS * _checked(outside_diameter)


def intermediate_guide_spacing(modulus: float, second_moment: float, force: float) -> float:
    """Return the greatest spacing of the guides that follow the second.

        L_max = (pi/2) sqrt(E I / F)                   EJMA, guides: L_p = 0.131 sqrt(E I/F) in feet (from memory)

    At this spacing the force is a quarter of the pinned Euler load of the pipe between two guides.

    Args:
        modulus: E of the pipe at the state's temperature [Pa].
        second_moment: I of the pipe [m4].
        force: F, compression in the pipe: thrust plus spring force [N].

    Returns:
        L_max [m].

    Raises:
        OutOfRange: The pipe is not in compression.
    """
    if not force > 0:
        raise OutOfRange(f"force {force:g} N is no compression: the rule for guide spacing does not apply.")
    if not (modulus > 0 and second_moment > 0):
        raise OutOfRange(f"modulus {modulus:g} Pa and second moment {second_moment:g} m4 must be above zero.")
    return math.pi / 2 * math.sqrt(modulus * second_moment / force)


def _checked(outside_diameter: float) -> float:
    if not outside_diameter > 0:
        raise OutOfRange(f"outside diameter {outside_diameter:g} m is not above zero.")
    return outside_diameter
