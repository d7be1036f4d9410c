"""The model's answer: from a line to a frame, its states solved.     (study/__init__.py)"""

from takeup.study.bowing.clearance import BowedJoint, BowedRun, GuideForce, asks_for_bow, clearance_of
from takeup.study.bowing.guide_loads import GuideLoad, guide_loads
from takeup.study.bowing.second_order import SwingForce, second_order_of, swing_force
from takeup.study.bowing.stability import BellowsFactor, Mode, StateStability, stability_of
from takeup.study.bowing.whole import Bowing, bowing_of
from takeup.study.causes import CAUSES
from takeup.study.friction import friction_bounds
from takeup.study.pieces import JointSpans, joint_spans
from takeup.study.records import (
    NO_FRICTION,
    FreeMotion,
    HoldLoads,
    JointMovement,
    LineAnswer,
    Shape,
    Solved,
    Unsolved,
)
from takeup.study.scenarios import Begun, Combination, Walked, begin_walk, walk_on, walk_study
from takeup.study.solve import solve_study
from takeup.study.way import step_words

__all__ = [
    "CAUSES",
    "NO_FRICTION",
    "Begun",
    "BellowsFactor",
    "BowedJoint",
    "BowedRun",
    "Bowing",
    "Combination",
    "FreeMotion",
    "GuideForce",
    "GuideLoad",
    "HoldLoads",
    "JointMovement",
    "JointSpans",
    "LineAnswer",
    "Mode",
    "Shape",
    "Solved",
    "StateStability",
    "SwingForce",
    "Unsolved",
    "Walked",
    "asks_for_bow",
    "begin_walk",
    "bowing_of",
    "clearance_of",
    "friction_bounds",
    "guide_loads",
    "joint_spans",
    "second_order_of",
    "solve_study",
    "stability_of",
    "step_words",
    "swing_force",
    "walk_on",
    "walk_study",
]
