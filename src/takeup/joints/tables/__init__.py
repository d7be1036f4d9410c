"""Series of joints as tables: the demonstration series, and those imported from their makers.     (joints/tables/)"""

from takeup.joints.tables.table import Provenance, SeriesTable

__all__ = ["Provenance", "SeriesTable"]
