"""Bellows that a table gives by their geometry: half given, impossible, unlikely.     (joints/tables/shapes.py)"""

from __future__ import annotations

from functools import partial

import numpy as np

from takeup.bellows.geometry import Bellows, bellows, chosen, stack_thickness, wall
from takeup.bellows.impossible import impossible
from takeup.bellows.unlikely import MOST_OF_BORE, THINNEST_OF_BORE, THINNEST_OF_HEIGHT, unlikely
from takeup.joints.tables.columns import BELLOWS, BY_NAME, GEOMETRY_NEEDED
from takeup.joints.tables.judging import Rows, of_kinds
from takeup.joints.tables.kinds_of_table import HOSES
from takeup.joints.tables.measures import in_si
from takeup.joints.tables.stated import Stated
from takeup.joints.tables.table import Floats
from takeup.reading.numbers import outside

RADII = ("crest_radius", "root_radius")
_CLOSE = 1e-6  # shapes nearer to a limit than this are asked one by one, which decides


def given(said: Stated) -> Rows:
    """Return which rows give a whole geometry, (n,)."""
    there = np.ones(said.rows, dtype=bool)
    for name in GEOMETRY_NEEDED:
        there &= ~np.isnan(said.number(name))
    return there


def geometry(said: Stated) -> dict[str, Floats]:
    """Return the arrays of `GEOMETRY` in SI, NaN throughout where a row gives none.

    A radius that is not said is a quarter of the pitch, a tangent or collar that is not said is none.
    """
    there = given(said)
    arrays = {}
    pitch = said.number("pitch")
    for column in BELLOWS:
        values = said.number(column.name)
        left_out = pitch / 4.0 if column.name in RADII else 0.0
        values = np.where(np.isnan(values) & (column.name not in GEOMETRY_NEEDED), left_out, values)
        values = values if column.measure is None else in_si(values, column.measure)
        arrays[column.field] = np.where(there, values, np.nan)
    return arrays


def radius_notes(said: Stated) -> tuple[str, ...]:
    """Return in words, for each row with a geometry, that a radius was not stated."""
    none = given(said) & (np.isnan(said.number(RADII[0])) | np.isnan(said.number(RADII[1])))
    words = "radii not stated are a quarter of the pitch"
    return tuple(words if one else "" for one in none.tolist())


def judge_shapes(said: Stated) -> None:
    """Note geometries that are half given, and bellows that cannot be made or were typed in another unit."""
    columns = [one.name for one in BELLOWS if one.name in said.numbers]
    some = np.zeros(said.rows, dtype=bool)
    for name in columns:
        some |= ~said.silent(name)
    some &= ~of_kinds(said, HOSES)  # of which none is asked
    for name in GEOMETRY_NEEDED:
        lacking = some & said.silent(name)
        said.note_rows(np.flatnonzero(lacking), name, partial(_half, BY_NAME[name].ours))
    _check_possible(said)


def _half(column: str, _: int) -> str:
    return f"half a geometry: {column} is not stated; state all of it, or none"


def _check_possible(said: Stated) -> None:
    rows = np.flatnonzero(given(said) & _within_limits(said))
    shape = bellows(**{name: values[rows] for name, values in geometry(said).items()})
    names = said.said("name")
    unsound = [name for name in ("tangent_length", "collar_thickness", "collar_length") if name in said.numbers]
    for number in np.flatnonzero(_doubtful(shape)).tolist():
        row, one = int(rows[number]), chosen(shape, slice(number, number + 1))
        for why in impossible(one, 0):
            said.note(row, "name", f"bellows of {names[row]}: {why}")
        if any(said.says(row, name) and np.isnan(said.number(name)[row]) for name in unsound):
            continue
        for column, why in unlikely(one, 0):
            said.note(row, column.removesuffix("_mm"), f"bellows of {names[row]}: {why}")


def _within_limits(said: Stated) -> Rows:
    """Return which rows have numbers that are sound one by one, (n,); others are told already."""
    sound = np.ones(said.rows, dtype=bool)
    for one in BELLOWS:
        sound &= ~outside(said.number(one.name), one)
    return sound


def _doubtful(shape: Bellows) -> Rows:
    """Return which shapes are to be asked one by one: any that is near a limit or past it, (n,)."""
    with np.errstate(all="ignore"):
        half, stack = shape.pitch / 2.0, stack_thickness(shape)
        doubt = ~(wall(shape).length > _CLOSE * half)
        for radius in (shape.crest_radius, shape.root_radius):
            doubt |= (radius <= stack / 2.0 * (1.0 + _CLOSE)) | (radius + stack / 2.0 >= half * (1.0 - _CLOSE))
        bore, ply = shape.inside_diameter * (1.0 - _CLOSE), shape.ply_thickness * (1.0 - _CLOSE)
        doubt |= (shape.height > MOST_OF_BORE * bore) | (shape.pitch > MOST_OF_BORE * bore)
        doubt |= (ply * THINNEST_OF_BORE < shape.inside_diameter) | (ply * THINNEST_OF_HEIGHT < shape.height)
        doubt |= shape.collar_length > shape.tangent_length
        doubt |= (shape.collar_thickness > 0.0) != (shape.collar_length > 0.0)
    return doubt


__all__ = ["geometry", "given", "judge_shapes", "radius_notes"]
