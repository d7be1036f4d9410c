"""Shapes that no bellows can have, and why.     (bellows/impossible.py)

Only impossible shapes are faults; a shape outside the range of a published form is computed by the shell alone.
Re-entrant walls need no rule of their own: while the arcs have a common tangent, the inner sides of a bulb stay apart
by 2 (r - n t/2) sin(phi), which is above zero, and bulbs side by side are kept apart by the radius rule.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from takeup.bellows.geometry import Bellows, chosen, stack_thickness, wall

_MM = 1e3
_ROUNDING = 1e-9  # of the pitch: sides that touch to rounding still touch


def impossible(shape: Bellows, row: int) -> tuple[str, ...]:
    """Return why bellows number `row` cannot be made, empty when it can; lengths in the reasons are in mm."""
    return tuple(_reasons(chosen(shape, slice(row, row + 1))))


def _reasons(one: Bellows) -> Iterator[str]:
    value = {name: float(getattr(one, name)[0]) for name in Bellows.__dataclass_fields__}
    broken = tuple(_not_positive(value))
    if broken:
        yield from broken
        return
    stack, half = float(stack_thickness(one)[0]), value["pitch"] / 2.0
    slack = _ROUNDING * value["pitch"]
    for name, radius in (("crest", value["crest_radius"]), ("root", value["root_radius"])):
        if radius < stack / 2.0 - slack:
            yield (
                f"{name} radius {radius * _MM:g} mm is less than half the {stack * _MM:g} mm of all plies: "
                "the inner side of the bend would have no radius"
            )
        if radius + stack / 2.0 > half + slack:
            yield (
                f"{name} radius {radius * _MM:g} mm: the walls of neighbouring {name}s cross, since their outer sides "
                f"are {(radius + stack / 2.0) * _MM:g} mm from their middles and half the pitch is {half * _MM:g} mm"
            )
    if not float(wall(one).length[0]) >= 0.0:
        both = (value["crest_radius"] + value["root_radius"]) * _MM
        yield (
            f"the radii overlap: crest and root radius, together {both:g} mm, in a height of "
            f"{value['height'] * _MM:g} mm and half a pitch of {half * _MM:g} mm leave a flat wall of negative length"
        )


def _not_positive(value: dict[str, float]) -> Iterator[str]:
    for name in ("inside_diameter", "height", "pitch", "ply_thickness", "crest_radius", "root_radius"):
        if not value[name] > 0.0:
            yield f"{name.replace('_', ' ')} is {value[name] * _MM:g} mm: it must be above zero"
    for name in ("convolutions", "plies"):
        if not (value[name] >= 1.0 and value[name] == np.floor(value[name])):
            yield f"{name} is {value[name]:g}: it must be a whole number from 1"
    for name in ("tangent_length", "collar_thickness", "collar_length"):
        if not value[name] >= 0.0:
            yield f"{name.replace('_', ' ')} is {value[name] * _MM:g} mm: it must not be below zero"


__all__ = ["impossible"]
