"""Joints: their data, their kinds, and the rates that the model uses.     (joints/__init__.py)"""

from takeup.joints.data import JointData, Rods, TakeUpKind
from takeup.joints.kinds import KINDS, JointKind
from takeup.joints.rates import Rates, angular_rate, joint_rates

__all__ = ["KINDS", "JointData", "JointKind", "Rates", "Rods", "TakeUpKind", "angular_rate", "joint_rates"]
