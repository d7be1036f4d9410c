"""What is handed over: the calculation, and the summary on a terminal.     (papers/__init__.py)"""

from __future__ import annotations

from takeup.papers.calculation.calculation import write_calculation
from takeup.papers.summary.hold_list import hold_lines
from takeup.papers.summary.summary import summary_lines

__all__ = ["hold_lines", "summary_lines", "write_calculation"]
