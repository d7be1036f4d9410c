"""Certified values put into a take-up.     (choose/comparison/certified.py)

A value that is the file's own to rounding leaves the file's number, to its last digit. Certified rates, area and live
length replace what was computed from a geometry; the geometry stays, for stresses, squirm and life. The model takes a
joint's angular rate, and its lateral rate only where there is no angular one (joints/rates.py): a certified lateral
rate that differs therefore lets go of an angular rate that nobody certified, and the other way round.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from takeup.choose.comparison.quantities import BY_QUANTITY, Quantity
from takeup.choose.comparison.targets import SAME, Target
from takeup.joints import JointData, Rods
from takeup.joints.ratings import COMPUTED
from takeup.line import TakeUp
from takeup.line.parts import Position
from takeup.line.reading.read_bellows import AXIAL

_Record = TypeVar("_Record", JointData, Rods)
_COUNTS = ("rated_cycles", "rod_count")
_MOVEMENTS = frozenset({"axial_compression", "axial_extension", "lateral", "angular"})
_OF_LIFE = _MOVEMENTS | {"rated_cycles"}
"""What a joint is rated for over how many cycles; of a joint of a series both may be those that are left."""
_BENDING = {"lateral_rate": "angular_rate", "angular_rate": "lateral_rate"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Put:
    """A take-up with certified values in it, and what of the file had to go or follow, in words."""

    target: Target
    remarks: tuple[str, ...]


def differs(one: float | None, other: float | None) -> bool:
    """Return whether two numbers differ by more than rounding; what is not said differs from what is."""
    if one is None or other is None:
        return one is not other
    return not math.isclose(one, other, rel_tol=SAME, abs_tol=0.0)


def put_values(target: Target, values: Mapping[str, float], source: str) -> Put:
    """Return a take-up with certified values.

    Args:
        target: as in the file.
        values: in SI, by the name of the quantity; of a double as its file states them.
        source: whose they are, for the joint's data.
    """
    changed = {name: value for name, value in values.items() if differs(target.beside(BY_QUANTITY[name], value), value)}
    let_go = [
        other
        for name, other in _BENDING.items()
        if name in changed and other not in values and target.value(BY_QUANTITY[other]) is not None
    ]
    data: dict[str, float | None] = dict.fromkeys(let_go)
    data |= {BY_QUANTITY[name].field: _share(target, name, value) for name, value in changed.items() if not _rods(name)}
    rods = {BY_QUANTITY[name].field: _share(target, name, value) for name, value in changed.items() if _rods(name)}
    joints = tuple(_joint(one, data, rods, source) for one in target.joints)
    remarks = [_gone(BY_QUANTITY[name]) for name in let_go]
    if "length" in changed and any(_follows(one) for one in target.joints):
        remarks.append("rods, plates or bars that reached from face to face are as long as certified")
    if _MOVEMENTS & set(data) and "rated_cycles" not in values and any(_is_derated(one) for one in target.joints):
        remarks.append(
            "movements are certified and rated cycles are not: those in the file belong to the movements that the "
            "series leaves over them; ask for the cycles of the certified ones"
        )
    return Put(target=replace(target, joints=_set_out(target, joints)), remarks=tuple(remarks))


def _is_derated(one: TakeUp) -> bool:
    return one.chosen is not None and one.chosen.share < 1.0


def _rods(name: str) -> bool:
    return BY_QUANTITY[name].rods


def _share(target: Target, name: str, value: float) -> float:
    """Return a value as each joint of a take-up has it; counts as whole numbers."""
    if name in _COUNTS and value == round(value):
        return int(value)
    return value / len(target.joints) if BY_QUANTITY[name].whole else value


def _gone(one: Quantity) -> str:
    kept = next(name for name, other in _BENDING.items() if other == one.name)
    return f"the {one.words} in the file is let go, for it follows from the certified {BY_QUANTITY[kept].words}"


def _follows(one: TakeUp) -> bool:
    lengths = [part.length for part in (one.rods, one.pins) if part is not None]
    return one.data.length in lengths


def _joint(one: TakeUp, data: Mapping[str, float | None], rods: Mapping[str, float], source: str) -> TakeUp:
    new = _changed(one.data, {**data, "source": source})
    made = one.bellows
    if made is not None and set(AXIAL) & set(data):  # ratings that were computed are no longer those of the joint
        made = replace(made, notes=tuple(note for note in made.notes if not note.startswith(COMPUTED)))
    hardware, plates = one.rods, one.pins
    if hardware is not None:
        length = new.length if hardware.length == one.data.length else hardware.length
        whose = f"{source}; the rest: {hardware.source}" if rods else hardware.source
        hardware = _changed(hardware, {**rods, "length": length, "source": whose})
    if plates is not None and plates.length == one.data.length:
        plates = replace(plates, length=new.length)
    chosen = one.chosen
    if chosen is not None and _OF_LIFE & set(data):  # movements are no longer those that were left over the cycles
        chosen = replace(chosen, share=1.0)
    if chosen is not None and "temperature" in data:
        chosen = replace(chosen, rated_temperature=None)
    return replace(one, data=new, bellows=made, rods=hardware, pins=plates, chosen=chosen)


def _changed(record: _Record, values: Mapping[str, object]) -> _Record:
    """Return a record with other values in the fields of these names."""
    change: Callable[..., _Record] = replace
    return change(record, **values)


def _set_out(target: Target, joints: tuple[TakeUp, ...]) -> tuple[TakeUp, ...]:
    """Return the halves of a double where their lengths put them: they meet in its middle."""
    if len(joints) == 1 or joints[0].data.length == target.joints[0].data.length:
        return joints
    return tuple(
        replace(
            one,
            position=Position(words=one.position.words, station=target.middle + sense * one.data.length / 2.0),
        )
        for one, sense in zip(joints, (-1.0, 1.0), strict=True)
    )


__all__ = ["Put", "differs", "put_values"]
