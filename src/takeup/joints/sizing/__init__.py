"""Hardware of a joint, sized: rods, lugs, pins, spool, setting, anchor base, liner, cover, ends. (joints/sizing/)"""

from takeup.joints.sizing.anchor_base import Side, base_load, base_load_one_side
from takeup.joints.sizing.cover import Surroundings, cover_reasons
from takeup.joints.sizing.ends import ENDS, EndWords
from takeup.joints.sizing.liner import drain_needed, liner_clearance, liner_needed, velocity_without_liner
from takeup.joints.sizing.lugs import gusset_stress, lug_stress, lug_thickness
from takeup.joints.sizing.pins import pin_bearing, pin_diameter, pin_shear, plate_pull
from takeup.joints.sizing.rods import rod_diameter, rod_force, rod_stress, stopping_force
from takeup.joints.sizing.setting import SHIPPING_BARS, nut_gaps, preset
from takeup.joints.sizing.spool import EachBellows, spool_length

__all__ = [
    "ENDS",
    "SHIPPING_BARS",
    "EachBellows",
    "EndWords",
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
    "nut_gaps",
    "pin_bearing",
    "pin_diameter",
    "pin_shear",
    "plate_pull",
    "preset",
    "rod_diameter",
    "rod_force",
    "rod_stress",
    "spool_length",
    "stopping_force",
    "velocity_without_liner",
]
