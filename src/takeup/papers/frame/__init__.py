"""What every paper carries, and what writes it: head, PDF, workbook, CSV.     (papers/frame/__init__.py)"""

from takeup.papers.frame.csv_file import csv_bytes
from takeup.papers.frame.grid import Box, Cell, Field, Grid, Number, Sheet, Sum
from takeup.papers.frame.head import Head, head_of
from takeup.papers.frame.pdf import compile_pdf
from takeup.papers.frame.tree import frame_tree
from takeup.papers.frame.workbook import workbook_bytes

__all__ = [
    "Box",
    "Cell",
    "Field",
    "Grid",
    "Head",
    "Number",
    "Sheet",
    "Sum",
    "compile_pdf",
    "csv_bytes",
    "frame_tree",
    "head_of",
    "workbook_bytes",
]
