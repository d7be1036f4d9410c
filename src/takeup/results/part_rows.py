"""Rows of the list of parts: alike parts are one row, with their names.     (results/part_rows.py)"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from takeup.library import PipeSize
from takeup.line.holding import Spring
from takeup.results.plain import Json
from takeup.results.resolved import spring_part
from takeup.units import to_mm

Group = Literal["pipe", "bend", "item", "tee", "insulation", "take-up", "hardware", "hold"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Sort:
    """What a part is, but for its name: parts that are alike in all of this are one row.

    Args:
        line: name of its line.
        group: of the list.
        what: it is.
        size: of its pipe.
        to_size: the other size of a reducer, that of the branch of a tee.
        wall_mm: nominal.
        material: of pipe and bends.
        radius_mm: of a bend's centre line.
        angle_deg: that a bend turns through.
        cuts: of a mitre bend.
        flanged_ends: of a bend.
        thickness_mm: of insulation; of a tee's pad; of a plate.
        cladding: metal of the sheet round insulation.
        cladding_mm: its thickness.
        series: that a joint is of.
        joint: its name there.
        ends: how a joint is joined to its pipe.
        diameter_mm: of a rod or a pin.
        length_mm: of one, face to face; of a rod between its nuts, of a plate.
        weight_n: of one, as stated.
        spring: of a spring hanger.
        only_in: states in which a temporary hold exists.
        alone: the name of a part that is no other's like: a hold, made for its own load.
        design_n: load to make a hold for.
        design_state: that governs it.
    """

    line: str
    group: Group
    what: str
    size: PipeSize
    to_size: PipeSize | None = None
    wall_mm: float | None = None
    material: str | None = None
    radius_mm: float | None = None
    angle_deg: float | None = None
    cuts: int | None = None
    flanged_ends: int | None = None
    thickness_mm: float | None = None
    cladding: str | None = None
    cladding_mm: float | None = None
    series: str | None = None
    joint: str | None = None
    ends: str | None = None
    diameter_mm: float | None = None
    length_mm: float | None = None
    weight_n: float | None = None
    spring: Spring | None = None
    only_in: tuple[str, ...] | None = None
    alone: str = ""
    design_n: float | None = None
    design_state: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """Some of a sort: how many, or how long [m], and the name of the part, "" where it has none."""

    sort: Sort
    amount: float
    name: str = ""


def rows_of(found: Iterable[Found]) -> list[Json]:
    """Return a row for each sort of parts, in the order of their first."""
    alike: dict[Sort, list[Found]] = {}
    for one in found:
        alike.setdefault(one.sort, []).append(one)
    return [_row(sort, every) for sort, every in alike.items()]


def _row(sort: Sort, every: list[Found]) -> Json:
    measured = sort.group in ("pipe", "insulation")
    to_size = sort.to_size
    return {
        "line": sort.line,
        "group": sort.group,
        "what": sort.what,
        "size": sort.size.dn,
        "nps": sort.size.nps,
        "to_size": None if to_size is None else to_size.dn,
        "to_nps": None if to_size is None else to_size.nps,
        "outside_diameter_mm": to_mm(sort.size.outside_diameter),
        "wall_mm": sort.wall_mm,
        "material": sort.material,
        "radius_mm": sort.radius_mm,
        "angle_deg": sort.angle_deg,
        "cuts": sort.cuts,
        "flanged_ends": sort.flanged_ends,
        "thickness_mm": sort.thickness_mm,
        "cladding": sort.cladding,
        "cladding_mm": sort.cladding_mm,
        "series": sort.series,
        "joint": sort.joint,
        "ends": sort.ends,
        "diameter_mm": sort.diameter_mm,
        "length_mm": sort.length_mm,
        "weight_n": sort.weight_n,
        "spring": spring_part(sort.spring),
        "only_in": None if sort.only_in is None else list(sort.only_in),
        "design_n": sort.design_n,
        "design_state": sort.design_state,
        "count": math.fsum(one.amount for one in every),
        "unit": "m" if measured else "piece",
        "names": list(dict.fromkeys(one.name for one in every if one.name)),
        "price": None,
    }


__all__ = ["Found", "Group", "Sort", "rows_of"]
