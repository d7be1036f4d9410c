"""Bellows from the shell up: stiffness, stress, life, squirm and ratings of U-shapes.     (bellows/__init__.py)"""

from __future__ import annotations

from takeup.bellows.duty import Duty, Metal
from takeup.bellows.geometry import Bellows, bellows
from takeup.bellows.impossible import impossible

__all__ = ["Bellows", "Duty", "Metal", "bellows", "impossible"]
