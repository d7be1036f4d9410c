"""The bellows file: columns and keys, faults with their places, and what it says.     (bellows/reading/__init__.py)

`reader` is the way in; `inputs` lists what a file may say.
"""

from takeup.bellows.reading.reader import BellowsFile, bellows_from_bytes, read_bellows

__all__ = ["BellowsFile", "bellows_from_bytes", "read_bellows"]
