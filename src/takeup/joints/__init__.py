"""Joints: their data, their kinds, their bellows, and the rates that the model uses.     (joints/__init__.py)"""

from takeup.joints.bellows import bellows_between, whole_axial_rate, whole_live_length
from takeup.joints.computed import BellowsRates, ComputedBellows, JointBellows, LifeCurve, computed
from takeup.joints.data import DoubleKind, JointData, JointEnds, TakeUpKind
from takeup.joints.hardware import Balance, Pins, PinsLie, Rods
from takeup.joints.kinds import ALL_KINDS, KINDS, WRITTEN_KINDS, JointKind, RouteKind
from takeup.joints.links import Hardware, Link, PinRub, links_of, rubs_of_pins
from takeup.joints.rates import Rates, angular_rate, joint_rates
from takeup.joints.ratings import RatedMovements, RatingDuty, rated_movements

__all__ = [
    "ALL_KINDS",
    "KINDS",
    "WRITTEN_KINDS",
    "Balance",
    "BellowsRates",
    "ComputedBellows",
    "DoubleKind",
    "Hardware",
    "JointBellows",
    "JointData",
    "JointEnds",
    "JointKind",
    "LifeCurve",
    "Link",
    "PinRub",
    "Pins",
    "PinsLie",
    "RatedMovements",
    "Rates",
    "RatingDuty",
    "Rods",
    "RouteKind",
    "TakeUpKind",
    "angular_rate",
    "bellows_between",
    "computed",
    "joint_rates",
    "links_of",
    "rated_movements",
    "rubs_of_pins",
    "whole_axial_rate",
    "whole_live_length",
]
