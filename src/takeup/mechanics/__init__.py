"""Structural mechanics that knows only numbers: straight members, arcs and bellows.     (mechanics/__init__.py)

Describe a `Frame`, `factorise` it once, `solve` any number of `Loads`; the answer is verified or it says why not.
What touches and rubs are `Gaps` and `Rubs`: `condense` the frame to them once, `walk` any sequence of `Steps`.
`condense_whole` and `walk_whole` do the same bay by bay, where nodes that are held whole cut a frame.
"""

from takeup.mechanics.arc import arc_angle
from takeup.mechanics.bellows import BellowsSection, bellows_section, pressure_strain
from takeup.mechanics.contact.condense import condense
from takeup.mechanics.contact.rows import GROUND, ContactProblem, Gaps, Rubs, no_gaps, no_rubs
from takeup.mechanics.contact.unique import uniqueness_shown
from takeup.mechanics.contact.walk import walk
from takeup.mechanics.contact.walk_forces import (
    StepAnswers,
    StepParts,
    answers_of,
    displacements_of,
    parts_of,
    reactions_of,
)
from takeup.mechanics.contact.walked import Event, Steps, Walk
from takeup.mechanics.contact.whole import (
    Memory,
    WholeProblem,
    WholeWalk,
    condense_whole,
    walk_whole,
    whole_answers,
    whole_displacements,
    whole_parts,
    whole_reactions,
    whole_uniqueness_shown,
)
from takeup.mechanics.frame import Answer, Arcs, Frame, Loads, NotHeld, Straights, Supports, no_arcs
from takeup.mechanics.solve import Factor, NotFactored, factorise, solve
from takeup.mechanics.stability.buckling import Modes, NotAtRisk, NotVerified, Unstable, buckling, factors_below
from takeup.mechanics.stability.geometric import Links
from takeup.mechanics.stability.second_order import SecondOrder, axial_forces, second_order

__all__ = [
    "GROUND",
    "Answer",
    "Arcs",
    "BellowsSection",
    "ContactProblem",
    "Event",
    "Factor",
    "Frame",
    "Gaps",
    "Links",
    "Loads",
    "Memory",
    "Modes",
    "NotAtRisk",
    "NotFactored",
    "NotHeld",
    "NotVerified",
    "Rubs",
    "SecondOrder",
    "StepAnswers",
    "StepParts",
    "Steps",
    "Straights",
    "Supports",
    "Unstable",
    "Walk",
    "WholeProblem",
    "WholeWalk",
    "answers_of",
    "arc_angle",
    "axial_forces",
    "bellows_section",
    "buckling",
    "condense",
    "condense_whole",
    "displacements_of",
    "factorise",
    "factors_below",
    "no_arcs",
    "no_gaps",
    "no_rubs",
    "parts_of",
    "pressure_strain",
    "reactions_of",
    "second_order",
    "solve",
    "uniqueness_shown",
    "walk",
    "walk_whole",
    "whole_answers",
    "whole_displacements",
    "whole_parts",
    "whole_reactions",
    "whole_uniqueness_shown",
]
