"""Codes and published rules, one a file, each with its source and its limits.     (basis/__init__.py)"""

from takeup.basis.allowable import allowable_range, cycle_factor, equivalent_cycles
from takeup.basis.bends import bend_factors, mitre_bend_radius, mitre_factors
from takeup.basis.code_stress import (
    OCCASIONS,
    expansion_stress,
    occasional_limit,
    occasional_stress,
    sustained_stress,
)
from takeup.basis.codes import CODES, STRAIGHT_PIPE, Code, Factors, Moments, Subject, clause
from takeup.basis.cold_spring import cold_reaction, hot_reaction
from takeup.basis.computed_spans import span_by_deflection, span_by_period, span_by_stress
from takeup.basis.copper_spans import copper_span
from takeup.basis.fittings import JOINTS, Joint, joint_factors, reducer_factors
from takeup.basis.flexibility import (
    bend_flexibility_factor,
    bend_intensification,
    flexibility_characteristic,
    in_plane_intensification,
    out_of_plane_intensification,
)
from takeup.basis.guided_cantilever import cantilever_force, cantilever_length, cantilever_stress
from takeup.basis.guides import first_guide_limit, intermediate_guide_spacing, second_guide_limit
from takeup.basis.screening import SCREENING_LIMIT, Screening, screening_limit, screening_result, screening_value
from takeup.basis.spans import Span, support_span
from takeup.basis.stress import expansion_stress_range, resultant_moment, second_moment, section_modulus
from takeup.basis.tees import TEES, Tee, branch_section_modulus, tee_characteristic, tee_factors
from takeup.basis.wall import required_wall

__all__ = [
    "CODES",
    "JOINTS",
    "OCCASIONS",
    "SCREENING_LIMIT",
    "STRAIGHT_PIPE",
    "TEES",
    "Code",
    "Factors",
    "Joint",
    "Moments",
    "Screening",
    "Span",
    "Subject",
    "Tee",
    "allowable_range",
    "bend_factors",
    "bend_flexibility_factor",
    "bend_intensification",
    "branch_section_modulus",
    "cantilever_force",
    "cantilever_length",
    "cantilever_stress",
    "clause",
    "cold_reaction",
    "copper_span",
    "cycle_factor",
    "equivalent_cycles",
    "expansion_stress",
    "expansion_stress_range",
    "first_guide_limit",
    "flexibility_characteristic",
    "hot_reaction",
    "in_plane_intensification",
    "intermediate_guide_spacing",
    "joint_factors",
    "mitre_bend_radius",
    "mitre_factors",
    "occasional_limit",
    "occasional_stress",
    "out_of_plane_intensification",
    "reducer_factors",
    "required_wall",
    "resultant_moment",
    "screening_limit",
    "screening_result",
    "screening_value",
    "second_guide_limit",
    "second_moment",
    "section_modulus",
    "span_by_deflection",
    "span_by_period",
    "span_by_stress",
    "support_span",
    "sustained_stress",
    "tee_characteristic",
    "tee_factors",
]
