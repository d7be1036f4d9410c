"""Designs as a document: names with units, and all that they rest on.     (bellows/design/document.py)

The sheet on a terminal is made from it alone. Numbers are rounded to what any input is known to.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from takeup import __version__
from takeup.bellows.cautions import CAUTIONS, NOT_COVERED
from takeup.bellows.design.duty import DesignDuty
from takeup.bellows.design.reading import DutyFile
from takeup.bellows.design.search import Front
from takeup.bellows.document import Json
from takeup.bellows.rating import Rated
from takeup.units import to_bar, to_deg, to_mm, to_mpa, to_n_per_mm, to_nm_per_deg

_FIGURES = 9
_NOT_COVERED = (
    "Fabrication: whether a maker has the tools for a height and a pitch; forming strain and heat treatment.",
    "Rings, tangents shorter or longer than stated, collars, ends and welds; erosion, corrosion and handling.",
)


def design_document(read: DutyFile, front: Front) -> dict[str, Json]:
    """Return designs as a document."""
    return {
        "tool": {"name": "takeup", "version": __version__},
        "input": {"file": read.file, "sha256": read.sha256},
        "name": read.name,
        "duty": _duty(read, front.duty),
        "tried": front.tried,
        "fitting": front.fitting,
        "undominated": front.undominated,
        "blocks": [
            {"criterion": one.name, "failing": one.failing, "alone": one.alone, "help": one.help}
            for one in front.blocks
        ],
        "designs": [] if front.rated is None else [_design(front, front.rated, row) for row in range(len(front))],
        "assumptions": list(read.assumptions),
        "not_covered": [*NOT_COVERED, *_NOT_COVERED],
        "cautions": list(CAUTIONS),
    }


def _duty(read: DutyFile, duty: DesignDuty) -> Mapping[str, Json]:
    return {
        "inside_diameter_mm": _number(to_mm(duty.inside_diameter)),
        "tangent_length_mm": _number(to_mm(duty.tangent_length)),
        "pressure_bar": _number(to_bar(duty.pressure)),
        "test_pressure_bar": _number(to_bar(duty.test_pressure)),
        "vacuum": duty.vacuum,
        "temperature_c": _number(duty.temperature),
        "axial_mm": _number(to_mm(duty.axial)),
        "lateral_mm": _number(to_mm(duty.lateral)),
        "angular_deg": _number(to_deg(duty.angular)),
        "cycles": _number(duty.cycles),
        "curve": duty.curve,
        "material": read.material,
        "allowable_mpa": _number(to_mpa(float(duty.metal.allowable[0]))),
        "yield_mpa": _number(to_mpa(float(duty.metal.yield_strength[0]))),
        "modulus_gpa": _number(float(duty.metal.modulus[0]) / 1e9),
        "most_outside_diameter_mm": _number(to_mm(duty.most_outside_diameter)),
        "most_length_mm": _number(to_mm(duty.most_length)),
        "ply_thicknesses_mm": [_number(to_mm(one)) for one in duty.stock.thicknesses],
        "plies": list(duty.stock.plies),
    }


def _design(front: Front, rated: Rated, row: int) -> Mapping[str, Json]:
    """Return one design: its shape, what is weighed, what holds it, and the shell beside the forms."""
    uses = {(one.name, one.source): float(one.use[row]) for one in front.criteria}
    return {
        "why": front.why[row],
        "governed_by": front.governed_by[row],
        "greatest_use": _number(max(uses.values())),
        **_shape(front, rated, row),
        "mass_kg": _number(float(front.mass[row])),
        "movement_needed_mm": _number(to_mm(float(front.needed[row]))),
        "movement_allowed_mm": _number(to_mm(float(front.allowed[row]))),
        **_rates(rated, row),
        "squirm_design_bar": _number(to_bar(float(rated.squirm_design[row]))),
        "squirm_elastic_bar": _number(to_bar(float(rated.squirm_elastic[row]))),
        "squirm_elastic_factor": _number(_factor(front.duty, float(rated.squirm_elastic[row]))),
        "shell_surface_mpa_per_bar": _number(float(rated.shell_surface_per_pressure[row]) * 0.1),
        "shell_surface_mpa_per_mm": _number(float(rated.shell_surface_per_movement[row]) / 1e9),
        "criteria": [
            {"criterion": name, "source": source, "use": _number(use)} for (name, source), use in uses.items()
        ],
        "warning": front.warnings[row],
    }


def _shape(front: Front, rated: Rated, row: int) -> Mapping[str, Json]:
    shape = rated.shape
    return {
        "inside_diameter_mm": _number(to_mm(float(shape.inside_diameter[row]))),
        "convolution_height_mm": _number(to_mm(float(shape.height[row]))),
        "pitch_mm": _number(to_mm(float(shape.pitch[row]))),
        "convolutions": int(shape.convolutions[row]),
        "plies": int(shape.plies[row]),
        "ply_thickness_mm": _number(to_mm(float(shape.ply_thickness[row]))),
        "tangent_length_mm": _number(to_mm(float(shape.tangent_length[row]))),
        "outside_diameter_mm": _number(to_mm(float(front.outside_diameter[row]))),
        "length_mm": _number(to_mm(float(front.length[row]))),
    }


def _rates(rated: Rated, row: int) -> Mapping[str, Json]:
    found: dict[str, Json] = {}
    for side in ("formula", "shell"):
        for kind, unit, size in (
            ("axial", "n_per_mm", to_n_per_mm),
            ("lateral", "n_per_mm", to_n_per_mm),
            ("angular", "nm_per_deg", to_nm_per_deg),
        ):
            found[f"{side}_{kind}_rate_{unit}"] = _number(size(float(getattr(rated, f"{side}_{kind}_rate")[row])))
    return found


def _factor(duty: DesignDuty, squirm: float) -> float:
    """Return by how many times the shell's elastic squirm is above a pressure inside; nan where there is none."""
    return squirm / duty.pressure if duty.pressure > 0.0 else math.nan


def _number(value: float) -> float | None:
    return float(f"{value:.{_FIGURES}g}") + 0.0 if math.isfinite(value) else None


__all__ = ["design_document"]
