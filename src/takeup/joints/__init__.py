"""Joints: their data, their kinds, their bellows, and the rates that the model uses.     (joints/__init__.py)"""

from takeup.joints.bellows import bellows_between, whole_axial_rate, whole_live_length
from takeup.joints.data import JointData, Rods, TakeUpKind
from takeup.joints.kinds import KINDS, JointKind
from takeup.joints.rates import Rates, angular_rate, joint_rates

__all__ = [
    "KINDS",
    "JointData",
    "JointKind",
    "Rates",
    "Rods",
    "TakeUpKind",
    "angular_rate",
    "bellows_between",
    "joint_rates",
    "whole_axial_rate",
    "whole_live_length",
]
