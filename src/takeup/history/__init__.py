"""What happened in the plant: its record, read; the ranges that values went through.     (history/__init__.py)"""

from takeup.history.ranges import Range, RangeBin, range_table, ranges_of
from takeup.history.read_record import read_record, record_from_bytes
from takeup.history.thin import rows_that_turn, thinned
from takeup.history.walked import record_part, with_record

__all__ = [
    "Range",
    "RangeBin",
    "range_table",
    "ranges_of",
    "read_record",
    "record_from_bytes",
    "record_part",
    "rows_that_turn",
    "thinned",
    "with_record",
]
