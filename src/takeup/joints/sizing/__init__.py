"""Hardware of a joint, sized: rods, lugs, pins, spool, setting, anchor base, liner, cover, ends. (joints/sizing/)"""

from takeup.joints.sizing.anchor_base import Side, base_load, base_load_one_side
from takeup.joints.sizing.cover import Surroundings, cover_reasons
from takeup.joints.sizing.ends import ENDS, EndWords
from takeup.joints.sizing.liner import drain_needed, liner_clearance, liner_needed, velocity_without_liner
from takeup.joints.sizing.lugs import gusset_stress, lug_stress, lug_thickness
from takeup.joints.sizing.pins import net_stress, pin_bearing, pin_diameter, pin_shear, plate_pull, plate_stress
from takeup.joints.sizing.rods import pull_stress, rod_diameter, rod_force, rod_stress, stopping_force
from takeup.joints.sizing.setting import SHIPPING_BARS, nut_gaps, preset
from takeup.joints.sizing.spool import EachBellows, spool_length
from takeup.joints.sizing.strength import Section, pin_sections, rod_sections

__all__ = [
    "ENDS",
    "SHIPPING_BARS",
    "EachBellows",
    "EndWords",
    "Section",
    "Side",
    "Surroundings",
    "base_load",
    "base_load_one_side",
    "cover_reasons",
    "drain_needed",
    "gusset_stress",
    "liner_clearance",
    "liner_needed",
    "lug_stress",
    "lug_thickness",
    "net_stress",
    "nut_gaps",
    "pin_bearing",
    "pin_diameter",
    "pin_sections",
    "pin_shear",
    "plate_pull",
    "plate_stress",
    "preset",
    "pull_stress",
    "rod_diameter",
    "rod_force",
    "rod_sections",
    "rod_stress",
    "spool_length",
    "stopping_force",
    "velocity_without_liner",
]
