"""Structural mechanics that knows only numbers: straight members, arcs and bellows.     (mechanics/__init__.py)

Describe a `Frame`, `factorise` it once, `solve` any number of `Loads`; the answer is verified or it says why not.
"""

from takeup.mechanics.arc import arc_angle
from takeup.mechanics.bellows import BellowsSection, bellows_section, pressure_strain
from takeup.mechanics.frame import Answer, Arcs, Frame, Loads, NotHeld, Straights, Supports, no_arcs
from takeup.mechanics.geometric import Links
from takeup.mechanics.solve import Factor, NotFactored, factorise, solve
from takeup.mechanics.stability import Modes, NotAtRisk, NotVerified, buckling, factors_below

__all__ = [
    "Answer",
    "Arcs",
    "BellowsSection",
    "Factor",
    "Frame",
    "Links",
    "Loads",
    "Modes",
    "NotAtRisk",
    "NotFactored",
    "NotHeld",
    "NotVerified",
    "Straights",
    "Supports",
    "arc_angle",
    "bellows_section",
    "buckling",
    "factorise",
    "factors_below",
    "no_arcs",
    "pressure_strain",
    "solve",
]
