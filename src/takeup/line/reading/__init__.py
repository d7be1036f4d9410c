"""The line file: its format, its faults with their places, and what it says.     (line/reading/__init__.py)

`reader` is the way in; `write_back` the way back. Schemas say which keys there are, `read_*` what they mean together.
"""

from takeup.line.reading.reader import read_study, study_from_text

__all__ = ["read_study", "study_from_text"]
