"""What a metre of line weighs: pipe, insulation, content.     (line/weights.py)"""

from __future__ import annotations

import math

from takeup import basis
from takeup.library import Insulation
from takeup.line.parts import Pipe

GRAVITY = 9.80665  # standard acceleration of gravity [m/s2] (ISO 80000-3)


def bore_area(pipe: Pipe) -> float:
    """Return the area of the bore, pi/4 (D - 2 t)^2 [m2]."""
    return math.pi / 4.0 * (pipe.size.outside_diameter - 2.0 * pipe.wall) ** 2


def wall_area(pipe: Pipe) -> float:
    """Return the metal area of the pipe, pi (D - t) t [m2]."""
    return math.pi * (pipe.size.outside_diameter - pipe.wall) * pipe.wall


def second_moment(pipe: Pipe) -> float:
    """Return the second moment of area, pi/64 (D^4 - d^4) [m4]."""
    return basis.second_moment(pipe.size.outside_diameter, pipe.wall)


def pipe_weight(pipe: Pipe) -> float:
    """Return the weight of a metre of bare pipe [N/m]."""
    return wall_area(pipe) * pipe.material.density * GRAVITY


def insulation_weight(pipe: Pipe, insulation: Insulation | None) -> float:
    """Return the weight of a metre of insulation with its cladding [N/m]."""
    if insulation is None:
        return 0.0
    outside = pipe.size.outside_diameter
    weight = _ring_area(outside, insulation.thickness) * insulation.density * GRAVITY
    sheet = insulation.cladding
    if sheet is not None:
        weight += _ring_area(outside + 2.0 * insulation.thickness, sheet.thickness) * sheet.density * GRAVITY
    return weight


def _ring_area(inner: float, thickness: float) -> float:
    """Return the area of a ring by its inner diameter, pi (d + t) t [m2]."""
    return math.pi * (inner + thickness) * thickness


def content_weight(area: float, density: float) -> float:
    """Return the weight of a metre of content filling `area` [m2] at `density` [kg/m3], in [N/m]."""
    return area * density * GRAVITY
