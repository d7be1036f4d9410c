"""Series of joints as tables: the demonstration series, and those imported from their makers.     (joints/tables/)"""

from takeup.joints.tables.store import DEMONSTRATION, TableRefused, import_table, load_table, names_of
from takeup.joints.tables.table import Provenance, SeriesTable

__all__ = [
    "DEMONSTRATION",
    "Provenance",
    "SeriesTable",
    "TableRefused",
    "import_table",
    "load_table",
    "names_of",
]
