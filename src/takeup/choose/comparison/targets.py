"""The take-ups of a study by the names that their file gives them, doubles whole.     (choose/comparison/targets.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final, Literal

from takeup.choose.comparison.quantities import QUANTITIES, Quantity
from takeup.choose.rules import branches_of
from takeup.joints import WRITTEN_KINDS, JointKind, joint_rates
from takeup.line import Line, Study, TakeUp
from takeup.line.reading.read_bellows import AXIAL, GIVEN_BY_GEOMETRY
from takeup.line.reading.read_doubles import HALVES
from takeup.line.room import room_about, room_in

Origin = Literal["typed in", "computed from its geometry", "of its series"]
COMPUTED: Final = "computed from its geometry"
SAME = 1e-9  # a number that was converted there and back differs by less


@dataclass(frozen=True, kw_only=True, slots=True)
class Target:
    """A take-up as its file writes it.

    Args:
        name: as written.
        line: name of its line.
        joints: one, or both halves of a double.
        size_dn: of the pipe that it stands in; None where the pipe has no DN.
        outside: outside diameter of that pipe [m].
    """

    name: str
    line: str
    joints: tuple[TakeUp, ...]
    size_dn: float | None
    outside: float

    @property
    def kind(self) -> JointKind:
        """As written."""
        return WRITTEN_KINDS[self.joints[0].written_as]

    @property
    def middle(self) -> float:
        """Station of its middle [m]."""
        return sum(one.position.station for one in self.joints) / len(self.joints)

    def value(self, one: Quantity) -> float | None:
        """Return what it states, in SI; length and weight of a double are those of both halves."""
        joint = self.joints[0]
        holder = joint.rods if one.rods else joint.data
        if holder is None or (one.name == "effective_area" and self.is_hose):
            return None
        value: float | None = getattr(holder, one.field)
        if value is None or (value == 0.0 and one.name in AXIAL and "axial" not in self.kind.rated):
            return None  # a kind that does not move axially counts as rated for none where nobody says
        return value * (len(self.joints) if one.whole else 1)

    def beside(self, one: Quantity, certified: float | None) -> float | None:
        """Return what a certified value is held against: what the file states, in SI.

        Of a joint with both, the model takes the lateral rate that belongs to the angular one (joints/rates.py), which
        the papers print as used. A certificate that gives that one gives what is in the study already.
        """
        stated, data = self.value(one), self.joints[0].data
        if stated is None or certified is None or one.name != "lateral_rate" or data.angular_rate is None:
            return stated
        used = joint_rates(data, 0.0).lateral
        return used if math.isclose(used, certified, rel_tol=SAME, abs_tol=0.0) else stated

    def origin(self, one: Quantity) -> Origin:
        """Return where a value that it states is from."""
        joint = self.joints[0]
        if joint.bellows is not None and one.name in GIVEN_BY_GEOMETRY:
            return COMPUTED
        return "typed in" if joint.chosen is None else "of its series"

    @property
    def is_hose(self) -> bool:
        """Whether its thrust is carried by a braid, so that it has no effective area."""
        return self.kind.name == "braided hose loop"

    @property
    def stated(self) -> tuple[Quantity, ...]:
        """What it states."""
        return tuple(one for one in QUANTITIES if self.value(one) is not None)


def targets_of(study: Study) -> dict[str, Target]:
    """Return every take-up of a study by its name in the file."""
    return {one.name: one for line in study.lines for one in _of_line(line)}


def _of_line(line: Line) -> Iterator[Target]:
    found: dict[str, list[TakeUp]] = {}
    for takeup in line.takeups:
        found.setdefault(_written(takeup), []).append(takeup)
    for name, joints in found.items():
        size = line.section_at(joints[0].position.station).pipe.size
        dn = size.dn.removeprefix("DN ")
        yield Target(
            name=name,
            line=line.name,
            joints=tuple(joints),
            size_dn=float(dn) if dn.replace(".", "", 1).isdecimal() else None,
            outside=size.outside_diameter,
        )


def _written(takeup: TakeUp) -> str:
    if WRITTEN_KINDS[takeup.written_as].halves is None:
        return takeup.name
    return next(takeup.name.removesuffix(end) for end in (f", {half}" for half in HALVES) if takeup.name.endswith(end))


def with_target(study: Study, target: Target) -> Study:
    """Return a study with the joints of a target in the places of those of the same names."""
    new = {one.name: one for one in target.joints}

    def changed(line: Line) -> Line:
        return replace(line, takeups=tuple(new.get(one.name, one) for one in line.takeups))

    return replace(study, lines=tuple(changed(line) if line.name == target.line else line for line in study.lines))


def room_for(study: Study, target: Target) -> float:
    """Return the longest joint that fits in the place of a target [m]; the base of a double goes with it.

    Args:
        study: its rules not yet turned into holds, for those make room.
        target: the take-up.
    """
    line, own = study.line(target.line), {one.name for one in target.joints}
    alone = replace(
        line,
        takeups=tuple(one for one in line.takeups if one.name not in own),
        holds=tuple(one for one in line.holds if one.name != f"{target.name} base"),
    )
    leaving = [(station, station) for station in branches_of(study, line)]
    return min(room_in(alone, target.middle, besides=""), room_about(target.middle, leaving))


__all__ = ["COMPUTED", "SAME", "Target", "room_for", "targets_of", "with_target"]
