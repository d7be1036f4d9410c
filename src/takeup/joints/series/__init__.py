"""A demonstration series of joints that belongs to nobody.     (joints/series/__init__.py)

Its tables stand in data/, made from inputs.yaml by `takeup bellows series`; `make` makes them, this loads them.
"""

from takeup.joints.series.columns import PROVENANCE
from takeup.joints.series.entries import SeriesEntry, entries, entry

__all__ = ["PROVENANCE", "SeriesEntry", "entries", "entry"]
