"""What the sections of a joint's rods, plates and pins may take, and what no steel takes.   (joints/sizing/strength.py)

Shares of the yield strength are those of AISC, Specification for Structural Steel Buildings, Allowable Stress Design,
9th edition 1989, D1, D3.1, F4 and J8, from memory. A section's force is the pull of one rod, or of one of both plates
or bars with its pin. The hole of a pin is taken as wide as the pin.

Where nobody gives the yield strength, plain structural steel is what a stress may be looked at by, to ask for it: 235
MPa (EN 10025-2, S235, up to 16 mm thick, from memory).

What no steel takes is there to find a slip of the pen, not to size anything: the strongest bolts yield at about
1100 MPa (ISO 898-1, class 12.9, from memory), so that no working capacity reaches 1000 MPa of tension; in shear steel
yields at 0.58 of that (von Mises), about 600 MPa; a pin presses its hole at most with about twice the tension.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from takeup.joints.sizing.pins import net_stress, pin_bearing, pin_shear, plate_stress
from takeup.joints.sizing.rods import pull_stress

TENSION = 0.60  # of the yield strength, on the area that carries: AISC ASD D1
PIN_NET = 0.45  # across the hole of a pin: D3.1
SHEAR = 0.40  # F4
BEARING = 0.90  # of a pin on its hole: J8
PLAIN_STEEL = 235e6  # Pa: yield strength of S235, EN 10025-2, from memory
NO_STEEL_TENSION = 1000e6  # Pa
NO_STEEL_SHEAR = 600e6  # Pa
NO_STEEL_BEARING = 2000e6  # Pa


@dataclass(frozen=True, kw_only=True, slots=True)
class Section:
    """One section of a rod, a plate or a pin.

    Args:
        name: of it.
        words: what stress it is, after a number.
        formula: of the stress, in symbols.
        stress: of a force [N], [Pa].
        share: of the yield strength that it may take.
        clause: of AISC ASD that gives the share.
        no_steel: stress that no steel takes there [Pa].
    """

    name: str
    words: str
    formula: str
    stress: Callable[[float], float]
    share: float
    clause: str
    no_steel: float


def rod_sections(diameter: float) -> tuple[Section, ...]:
    """Return the section of one rod.

    Args:
        diameter: d that carries: of the thread's root where threaded [m].
    """
    return (
        Section(
            name="rod tension",
            words="of tension in each rod",
            formula="F / (pi d^2/4)",
            stress=lambda force: pull_stress(force, diameter),
            share=TENSION,
            clause="D1",
            no_steel=NO_STEEL_TENSION,
        ),
    )


def pin_sections(diameter: float, width: float, thickness: float) -> tuple[Section, ...]:
    """Return the sections of one plate or bar with its pin.

    Args:
        diameter: d of the pin, and of its hole [m].
        width: w of the plate, across its pull [m].
        thickness: t of the plate [m].
    """
    return (
        Section(
            name="pin shear",
            words="of shear in two sections of each pin",
            formula="F / (2 pi d^2/4)",
            stress=lambda force: pin_shear(force, diameter),
            share=SHEAR,
            clause="F4",
            no_steel=NO_STEEL_SHEAR,
        ),
        Section(
            name="pin bearing",
            words="of pressure of each pin on its hole",
            formula="F / (d t)",
            stress=lambda force: pin_bearing(force, diameter, thickness),
            share=BEARING,
            clause="J8",
            no_steel=NO_STEEL_BEARING,
        ),
        Section(
            name="gross section",
            words="of tension in each plate",
            formula="F / (w t)",
            stress=lambda force: plate_stress(force, width, thickness),
            share=TENSION,
            clause="D1",
            no_steel=NO_STEEL_TENSION,
        ),
        Section(
            name="net section",
            words="of tension beside the hole of each pin",
            formula="F / ((w - d) t)",
            stress=lambda force: net_stress(force, width, thickness, diameter),
            share=PIN_NET,
            clause="D3.1",
            no_steel=NO_STEEL_TENSION,
        ),
    )


__all__ = [
    "BEARING", "NO_STEEL_BEARING", "NO_STEEL_SHEAR", "NO_STEEL_TENSION", "PIN_NET", "PLAIN_STEEL", "SHEAR", "TENSION",
    "Section", "pin_sections", "rod_sections",
]  # fmt: skip
