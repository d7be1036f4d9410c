"""The model's answer: from a line to a frame, its states solved.     (study/__init__.py)"""

from takeup.study.causes import CAUSES
from takeup.study.friction import friction_bounds
from takeup.study.pieces import JointSpans, joint_spans
from takeup.study.records import NO_FRICTION, HoldLoads, JointMovement, LineAnswer, Solved, Unsolved
from takeup.study.scenarios import Combination, Walked, walk_study
from takeup.study.solve import solve_study
from takeup.study.stability import BellowsFactor, Mode, StateStability, stability_of
from takeup.study.way import step_words

__all__ = [
    "CAUSES",
    "NO_FRICTION",
    "BellowsFactor",
    "Combination",
    "HoldLoads",
    "JointMovement",
    "JointSpans",
    "LineAnswer",
    "Mode",
    "Solved",
    "StateStability",
    "Unsolved",
    "Walked",
    "friction_bounds",
    "joint_spans",
    "solve_study",
    "stability_of",
    "step_words",
    "walk_study",
]
