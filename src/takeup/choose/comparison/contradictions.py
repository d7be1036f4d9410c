"""What a joint cannot be once certified values are in it.     (choose/comparison/contradictions.py)

The rules are those that a line file is held to (line/reading/check_joint.py); here each fault belongs to the cell of
one of the two numbers that contradict each other.
"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.choose.comparison.sheet import Certified
from takeup.choose.comparison.targets import SAME, Target
from takeup.joints.tables.measures import SUFFIXES, ours
from takeup.line.reading.positions import SAME_PLACE

_NEARLY = 2.0  # of the joint's own area, as in a line file: a balance that far off is a slip of the pen
_AXIAL = ("axial_compression", "axial_extension")


def impossible_values(row: Certified) -> list[tuple[str, str]]:
    """Return the certified values that a take-up of its kind cannot have: column and why."""
    target, found = row.target, []
    for name in row.values:
        if name == "centres" and target.kind.bellows == 1:
            found.append((name, f"{target.name} is {target.kind.name} and has one bellows; leave this cell empty"))
        elif name == "effective_area" and target.is_hose:
            found.append((name, f"{target.name} carries its thrust in its braid; leave this cell empty"))
        elif BY_QUANTITY[name].rods and target.joints[0].rods is None:
            found.append(
                (name, f"{target.name} has no rods in the line file; leave this cell empty, or add them there")
            )
    return found


def contradictions(row: Certified, made: Target) -> Iterator[tuple[str, str]]:
    """Yield what contradicts itself in a take-up with certified values: column and why.

    Args:
        row: what is certified.
        made: the take-up with it.
    """

    def at(*names: str) -> str | None:
        return next((name for name in names if name in row.values), None)

    for first, second, why in _pairs(made):
        place = at(first, second)
        if place is not None:
            yield place, why
    place = at(*_AXIAL)
    if place is not None and "axial" in made.kind.rated and not any(_of(made, name) for name in _AXIAL):
        yield place, "with it the joint is rated for no axial movement at all"
    for name in made.kind.rated:
        if name != "axial" and row.values.get(name) == 0.0:
            yield name, f"a take-up of the kind '{made.kind.name}' is rated for {name} movement; 0 is none"
    area, balance = row.values.get("effective_area"), made.joints[0].balance
    if area is not None and balance is not None and not 1.0 / _NEARLY < balance.effective_area / area < _NEARLY:
        yield "effective_area", "its balancing bellows balances less than half or more than double of it"


def _pairs(made: Target) -> Iterator[tuple[str, str, str]]:
    """Yield two quantities that contradict each other, and why."""
    length, live, centres = (_of(made, name) for name in ("length", "live_length", "centres"))
    assert length is not None, "a joint has a length"
    assert live is not None, "a joint has a live length"
    half = length / len(made.joints)
    if live > half + SAME_PLACE:
        whose = "half the length" if len(made.joints) > 1 else "the length"
        yield (
            "live_length",
            "length",
            f"a live length of {_said('live_length', live)} is above {whose}, {_said('length', half)}",
        )
    if centres is not None and centres <= live:
        yield (
            "centres",
            "live_length",
            (
                f"the middles of its bellows, {_said('centres', centres)} apart, are not further apart than each is "
                f"long, {_said('live_length', live)}"
            ),
        )
    elif centres is not None and centres + live > length + SAME_PLACE:
        yield (
            "centres",
            "length",
            (
                f"two bellows of {_said('live_length', live)} that stand {_said('centres', centres)} apart reach past "
                f"the faces of the joint, {_said('length', length)} long"
            ),
        )
    liner = made.joints[0].fitting.liner
    if liner is not None and liner.length is not None and liner.length > length + SAME_PLACE:
        words = f"its liner in the line file, {_said('length', liner.length)} long, is longer than the joint"
        yield "length", "length", words
    yield from _pressures(made)
    yield from _rods(made, live + (centres or 0.0 if made.kind.rods_across == "the joint" else 0.0))


def _pressures(made: Target) -> Iterator[tuple[str, str, str]]:
    rated, test, least = (_of(made, name) for name in ("pressure", "test_pressure", "minimum_pressure"))
    assert rated is not None, "a joint has a rated pressure"
    if test is not None and test < rated * (1.0 - SAME):
        said = _said("test_pressure", test)
        yield (
            "test_pressure",
            "pressure",
            f"a test pressure of {said} is below the rated pressure, {_said('pressure', rated)}",
        )
    if least is not None and least >= rated:
        said = _said("minimum_pressure", least)
        yield (
            "minimum_pressure",
            "pressure",
            f"a least pressure of {said} is not below the rated, {_said('pressure', rated)}",
        )


def _rods(made: Target, span: float) -> Iterator[tuple[str, str, str]]:
    rods = made.joints[0].rods
    if rods is None:
        return
    if "limit" in made.kind.name and rods.gap == 0.0:
        yield "rod_gap", "rod_gap", "limit rods without a gap are tie rods: the line file has another kind"
    if rods.circle - rods.diameter <= made.outside:
        pipe = _said("rod_circle", made.outside)
        yield "rod_circle", "rod_diameter", f"with it the rods stand within the pipe, {pipe} outside"
    if rods.length < span - SAME_PLACE:
        words = f"the bellows span {_said('live_length', span)}, and the rods are {_said('length', rods.length)} long"
        yield "live_length", "centres", words


def _of(made: Target, name: str) -> float | None:
    return made.value(BY_QUANTITY[name])


def _said(name: str, value: float) -> str:
    column = BY_QUANTITY[name].column
    assert column.measure is not None, "lengths and pressures have a unit"
    unit = SUFFIXES[column.measure][ours(column.measure)]
    return f"{value / unit.factor + unit.zero:.5g} {column.unit}"


__all__ = ["contradictions", "impossible_values"]
