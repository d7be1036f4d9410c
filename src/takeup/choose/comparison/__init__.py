"""Joints as certified beside joints as the line file has them.     (choose/comparison/__init__.py)"""

from takeup.choose.comparison.compare import Comparison, compare

__all__ = ["Comparison", "compare"]
