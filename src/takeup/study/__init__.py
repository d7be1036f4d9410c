"""The model's answer: from a line to a frame, its states solved.     (study/__init__.py)"""

from takeup.study.records import CAUSES, HoldLoads, JointMovement, Solved, Unsolved
from takeup.study.solve import solve_study

__all__ = ["CAUSES", "HoldLoads", "JointMovement", "Solved", "Unsolved", "solve_study"]
