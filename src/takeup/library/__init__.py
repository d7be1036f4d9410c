"""Facts with sources, read from data files: exact look-up or refusal.     (library/__init__.py)"""

from takeup.library.materials import expansion_table_for, expansion_tables, material
from takeup.library.media import density, saturation_temperature
from takeup.library.records import Curve, Friction, Insulation, Material, PipeSize, Source, Status, UnknownName
from takeup.library.sizes import check_wall, pipe_size, pipe_sizes, schedules, wall_source, wall_thickness
from takeup.library.surroundings import friction, friction_pairs, insulation

__all__ = [
    "Curve",
    "Friction",
    "Insulation",
    "Material",
    "PipeSize",
    "Source",
    "Status",
    "UnknownName",
    "check_wall",
    "density",
    "expansion_table_for",
    "expansion_tables",
    "friction",
    "friction_pairs",
    "insulation",
    "material",
    "pipe_size",
    "pipe_sizes",
    "saturation_temperature",
    "schedules",
    "wall_source",
    "wall_thickness",
]
