"""Codes and published rules, one a file, each with its source and its limits.     (basis/__init__.py)"""

from takeup.basis.flexibility import (
    bend_flexibility_factor,
    bend_intensification,
    flexibility_characteristic,
    in_plane_intensification,
    out_of_plane_intensification,
)
from takeup.basis.guided_cantilever import cantilever_force, cantilever_length, cantilever_stress
from takeup.basis.guides import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.basis.screening import SCREENING_LIMIT, Screening, screening_result, screening_value
from takeup.basis.spans import Span, support_span
from takeup.basis.stress import expansion_stress_range, resultant_moment, second_moment, section_modulus

__all__ = [
    "SCREENING_LIMIT",
    "Screening",
    "Span",
    "bend_flexibility_factor",
    "bend_intensification",
    "cantilever_force",
    "cantilever_length",
    "cantilever_stress",
    "expansion_stress_range",
    "first_guide_limit",
    "flexibility_characteristic",
    "in_plane_intensification",
    "intermediate_guide_spacing",
    "out_of_plane_intensification",
    "resultant_moment",
    "screening_result",
    "screening_value",
    "second_guide_limit",
    "second_moment",
    "section_modulus",
    "support_span",
]
