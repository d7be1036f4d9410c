"""What a joint has beside its bellows: rods, pins with plates, a balancing bellows.     (joints/hardware.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.library import Friction


@dataclass(frozen=True, kw_only=True, slots=True)
class Rods:
    """Rods from one end of a joint to the other: they pull when their nuts bear, and never push.

    Args:
        count: how many, evenly round the pipe; the first stands on the joint's second axis.
        diameter: of each, that carries [m].
        circle: diameter of the circle they stand on [m].
        gap: between nut and lug as fitted [m]: none for tie rods, some for limit rods.
        length: between the nuts [m]; of rods across each bellows, of each set.
        modulus: [Pa].
        expansion: mean coefficient of rods as hot as the pipe [1/K]; None for rods that stay as cold as they were.
        can_carry: tension of each [N]; None where not said.
        yield_strength: of their steel at the temperature it works at [Pa]; None where not said.
        source: where the data come from.
    """

    count: int
    diameter: float
    circle: float
    gap: float
    length: float
    modulus: float
    expansion: float | None
    can_carry: float | None
    yield_strength: float | None = None
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class PinsLie:
    """How the pins of a joint of a series lie where it stands: `along` and `way` as of `Pins`."""

    along: tuple[float, float]
    way: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Pins:
    """Two plates or bars, one on either side of the pipe, with pins: of a hinge, a gimbal or a swing joint.

    Args:
        along: direction of the pins in the joint's second and third axis (across, up), of length one; a gimbal has a
            second pair at right angles to it.
        way: the same in the user's words: level, upright, or a direction.
        spread: between the middles of the two plates [m].
        diameter: of a pin [m].
        width: of a plate, across its pull [m].
        thickness: of a plate [m].
        length: of a plate between what it is fastened to, or between the pins of a swing bar [m].
        modulus: of the plates [Pa].
        expansion: mean coefficient of plates as hot as the pipe [1/K]; None for plates that stay as cold as they were.
        friction: of a pin in its hole; None where pins are said to turn freely.
        can_carry: pull of both plates together [N]; None where not said.
        yield_strength: of plates and pins at the temperature they work at [Pa]; None where not said.
        source: where the data come from.
    """

    along: tuple[float, float]
    way: str
    spread: float
    diameter: float
    width: float
    thickness: float
    length: float
    modulus: float
    expansion: float | None
    friction: Friction | None
    can_carry: float | None
    yield_strength: float | None = None
    source: str

    @property
    def compliance(self) -> float:
        """What one plate gives along its pull, L/(E A) [m/N]."""
        return self.length / (self.modulus * self.width * self.thickness)


@dataclass(frozen=True, kw_only=True, slots=True)
class Balance:
    """A balancing bellows, tied across the joint so that its thrust is taken off the line's.

    Args:
        axial_rate: of the balancing bellows [N/m].
        effective_area: of the balancing bellows; that of the joint balances it wholly [m2].
        can_carry: pull of the rods that tie it, all together [N]; None where not said.
        can_be_pushed: compression that they take, all together, nuts on both sides of their lugs [N]; None where they
            only pull.
        source: where the data come from.
    """

    axial_rate: float
    effective_area: float
    can_carry: float | None
    can_be_pushed: float | None
    source: str


__all__ = ["Balance", "Pins", "PinsLie", "Rods"]
