"""Hardware of a joint, sized: rods, lugs, pins, spool, base, liner, cover, ends; parts and weight.  (joints/sizing/)"""

from takeup.joints.sizing.anchor_base import Side, base_load, base_load_one_side
from takeup.joints.sizing.cover import Surroundings, cover_reasons
from takeup.joints.sizing.ends import ENDS, EndWords
from takeup.joints.sizing.known import KnownParts, bellows_density, known_parts, steel_density
from takeup.joints.sizing.liner import drain_needed, liner_clearance, liner_needed, velocity_without_liner
from takeup.joints.sizing.lugs import gusset_stress, lug_stress, lug_thickness
from takeup.joints.sizing.masses import (
    bellows_mass,
    housing_length,
    nut_mass,
    plate_mass,
    ring_mass,
    rod_mass,
    tube_mass,
)
from takeup.joints.sizing.parts import Metal, Part, overall_length, overall_mass
from takeup.joints.sizing.pins import net_stress, pin_bearing, pin_diameter, pin_shear, plate_pull, plate_stress
from takeup.joints.sizing.rods import (
    SET_ON_AT_ONCE,
    caught_share,
    pull_stress,
    rod_diameter,
    rod_force,
    rod_stress,
    stopping_force,
)
from takeup.joints.sizing.setting import SHIPPING_BARS, nut_gaps, preset
from takeup.joints.sizing.spool import EachBellows, spool_length
from takeup.joints.sizing.spool_wanted import SpoolWanted, spool_wanted
from takeup.joints.sizing.strength import PLAIN_STEEL, Section, pin_sections, rod_sections

__all__ = [
    "ENDS",
    "PLAIN_STEEL",
    "SET_ON_AT_ONCE",
    "SHIPPING_BARS",
    "EachBellows",
    "EndWords",
    "KnownParts",
    "Metal",
    "Part",
    "Section",
    "Side",
    "SpoolWanted",
    "Surroundings",
    "base_load",
    "base_load_one_side",
    "bellows_density",
    "bellows_mass",
    "caught_share",
    "cover_reasons",
    "drain_needed",
    "gusset_stress",
    "housing_length",
    "known_parts",
    "liner_clearance",
    "liner_needed",
    "lug_stress",
    "lug_thickness",
    "net_stress",
    "nut_gaps",
    "nut_mass",
    "overall_length",
    "overall_mass",
    "pin_bearing",
    "pin_diameter",
    "pin_sections",
    "pin_shear",
    "plate_mass",
    "plate_pull",
    "plate_stress",
    "preset",
    "pull_stress",
    "ring_mass",
    "rod_diameter",
    "rod_force",
    "rod_mass",
    "rod_sections",
    "rod_stress",
    "spool_length",
    "spool_wanted",
    "steel_density",
    "stopping_force",
    "tube_mass",
    "velocity_without_liner",
]
