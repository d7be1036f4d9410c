"""What is handed over: the calculation, and the summary on a terminal.     (papers/__init__.py)"""

from __future__ import annotations

from takeup.papers.calculation import write_calculation
from takeup.papers.summary import summary_lines

__all__ = ["summary_lines", "write_calculation"]
