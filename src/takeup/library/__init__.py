"""Facts with sources, read from data files: exact look-up or refusal.     (library/__init__.py)"""

from takeup.library.expansion import expansion_table_for, expansion_table_of, expansion_tables, tables_for
from takeup.library.materials import material, materials, user_material
from takeup.library.media import MEDIA, Medium, density, is_liquid, saturation_temperature
from takeup.library.records import (
    Cladding,
    Curve,
    Friction,
    Insulation,
    Material,
    PipeSize,
    Source,
    Status,
    UnknownName,
)
from takeup.library.sizes import (
    check_wall,
    pipe_size,
    pipe_sizes,
    schedules,
    size_tables,
    wall_source,
    wall_thickness,
)
from takeup.library.strengths import (
    EN_ALLOWABLE,
    allowable_stress,
    allowable_tables,
    fatigue_family,
    proof_strength,
    yield_strength,
)
from takeup.library.surroundings import (
    cladding,
    cladding_kinds,
    friction,
    friction_pairs,
    insulation,
    insulation_kinds,
)

__all__ = [
    "EN_ALLOWABLE",
    "MEDIA",
    "Cladding",
    "Curve",
    "Friction",
    "Insulation",
    "Material",
    "Medium",
    "PipeSize",
    "Source",
    "Status",
    "UnknownName",
    "allowable_stress",
    "allowable_tables",
    "check_wall",
    "cladding",
    "cladding_kinds",
    "density",
    "expansion_table_for",
    "expansion_table_of",
    "expansion_tables",
    "fatigue_family",
    "friction",
    "friction_pairs",
    "insulation",
    "insulation_kinds",
    "is_liquid",
    "material",
    "materials",
    "pipe_size",
    "pipe_sizes",
    "proof_strength",
    "saturation_temperature",
    "schedules",
    "size_tables",
    "tables_for",
    "user_material",
    "wall_source",
    "wall_thickness",
    "yield_strength",
]
