"""What a maker is asked to certify, what this line was computed with, and what it wants.  (papers/common/asked.py)

The names are those of `takeup joints compare`, so that the boxes beside them are read back. Numbers are those of the
results, each to the last digit: a value that is certified as it was used shows no difference there.

What is wanted is the duty, never what the joint used happens to be rated for: that stands beside it, for whoever reads.
A line file asks no margin on a joint's duty, so none is added but the misalignment that it allows. Data sheet and
specification both have it from here, in the same words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from takeup.choose.comparison.quantities import QUANTITIES, Quantity
from takeup.drawing.reading import maybe_number, number_of, record_of, records_of, text_of
from takeup.edge import Measure, Units
from takeup.papers.common.gathered import Half, Joint
from takeup.papers.common.joint_measures import measure_of
from takeup.papers.common.numerals import fixed, plain, to_safe_side
from takeup.papers.words import Texts

_KEYS: Final = MappingProxyType(
    {
        "axial_rate": "axial_rate_n_per_mm",
        "lateral_rate": "lateral_rate_n_per_mm",
        "angular_rate": "angular_rate_nm_per_deg",
        "torsion_rate": "torsion_rate_nm_per_deg",
        "effective_area": "effective_area_mm2",
        "length": "length_mm",
        "live_length": "live_length_mm",
        "centres": "centres_mm",
        "weight": "weight_n",
        "axial_compression": "axial_compression_mm",
        "axial_extension": "axial_extension_mm",
        "lateral": "lateral_mm",
        "angular": "angular_deg",
        "torsion_limit": "torque_nm",
        "pressure": "pressure_bar",
        "test_pressure": "test_pressure_bar",
        "minimum_pressure": "minimum_pressure_bar",
        "temperature": "temperature_c",
        "rated_cycles": "rated_cycles",
        "rod_count": "count",
        "rod_diameter": "diameter_mm",
        "rod_circle": "circle_mm",
        "rod_gap": "gap_mm",
        "rod_modulus": "modulus_mpa",
        "rod_can_carry": "can_carry_n",
    }
)
"""Where the results have each: the rods' in a record of their own."""
_NOUGHT: Final = MappingProxyType(
    {"axial_compression": 0.05, "axial_extension": 0.05, "lateral": 0.05, "angular": 0.005}
)
"""Movements up to which the duty prints nought [mm, deg]: nothing is wanted for them."""
_SMALL_TORQUE = 1.0  # [N m]; below it a check on torque calls it none to speak of
_HOSE = "braided hose loop"

Side = Literal["at_least", "at_most", "as_used", "to_state"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Want:
    """What a line wants of a quantity: on which side of which number, in the unit of the results."""

    side: Side
    value: float | None = None


_STATE: Final = Want(side="to_state")


@dataclass(frozen=True, kw_only=True, slots=True)
class Asked:
    """A quantity of one joint.

    Args:
        of: the quantity.
        measure: how it is written.
        used: what this line was computed with, in the unit of the results; None where nothing is given.
        want: what the line wants of it.
    """

    of: Quantity
    measure: Measure
    used: float | None
    want: Want


def asked_of(joint: Joint, units: Units) -> tuple[Asked, ...]:
    """Return what the maker of a joint is asked for: everything that `takeup joints compare` can take of its kind."""
    return tuple(
        Asked(
            of=one, measure=measure_of(one.column, units), used=used_of(joint, one.name), want=_wanted(joint, one.name)
        )
        for one in QUANTITIES
        if _belongs(joint, one)
    )


def used_of(joint: Joint, name: str) -> float | None:
    """Return what a line was computed with; length and weight of a double are those of both halves."""
    one = next(found for found in QUANTITIES if found.name == name)
    holder = record_of(joint.first.data, "rods") if one.rods else joint.first.data
    value = maybe_number(holder, _KEYS[name])
    return value if value is None else value * (len(joint.halves) if one.whole else 1)


def _belongs(joint: Joint, one: Quantity) -> bool:
    """Return whether a joint of this kind has it, so that it can be certified."""
    if one.rods:
        return bool(record_of(joint.first.data, "rods"))
    if one.name == "centres":
        return joint.kind.bellows > 1
    if one.name in ("axial_compression", "axial_extension"):
        return "axial" in joint.kind.rated or bool(used_of(joint, one.name))
    return not (one.name == "effective_area" and joint.kind.name == _HOSE)


def _wanted(joint: Joint, name: str) -> Want:
    """Return what the line wants of a quantity."""
    if name in _AT_LEAST:
        value = _AT_LEAST[name](joint)
        return Want(side="at_least", value=value) if value and value > _NOUGHT.get(name, 0.0) else _STATE
    used = used_of(joint, name)
    if name == "minimum_pressure":
        lowest = min((p for half in joint.halves for p in half.moves("pressure_bar")), default=None)
        return Want(side="at_most", value=lowest) if lowest is not None and lowest < 0.0 else _STATE
    if used is None or name in ("live_length", "centres", "weight"):
        return _STATE
    return Want(side="at_most" if name in _NOT_MORE else "as_used", value=used)


_NOT_MORE = ("axial_rate", "lateral_rate", "angular_rate", "torsion_rate", "effective_area")


def _greatest(joint: Joint, find: Callable[[Half], float]) -> float | None:
    """Return the greatest of both halves; None where the line was not solved."""
    return max((find(half) for half in joint.halves if half.movements), default=None)


def _sum(first: float, second: float | None) -> float:
    return first + (second or 0.0)


def _compression(half: Half) -> float:
    """Return how far a joint is pressed together from its neutral length, its preset counted [mm]."""
    return max(0.0, -(number_of(half.record, "preset_mm") + _reach(half, "shortest_mm")))


def _extension(half: Half) -> float:
    return max(0.0, number_of(half.record, "preset_mm") + _reach(half, "longest_mm"))


def _reach(half: Half, key: str) -> float:
    return half.reach(key) or 0.0


def _sideways(joint: Joint, half: Half) -> float:
    """Return how far a joint moves sideways: with any friction, or as its thrust displaces it if that is more [mm]."""
    names = text_of(half.record, "line"), text_of(half.record, "name")
    displaced = (
        maybe_number(row, "lateral_after_mm") or 0.0
        for row in records_of(joint.results, "second_order")
        if (text_of(row, "line"), text_of(row, "takeup")) == names
    )
    return max(_reach(half, "lateral_mm"), *displaced, 0.0)


def _torque(half: Half) -> float:
    found = _reach(half, "torque_nm")
    return found if found >= _SMALL_TORQUE else 0.0


def _pressure(joint: Joint, *, test: bool) -> float | None:
    names = joint.names_of(test=test)
    found = [
        number_of(move, "pressure_bar")
        for half in joint.halves
        for move in half.movements
        if text_of(move, "state") in names
    ]
    return max(found, default=None)


def _temperature(joint: Joint) -> float | None:
    found = [
        number_of(joint.zone_state(half, text_of(state, "name")), "temperature_c")
        for half in joint.halves
        for state in joint.states
    ]
    return max(found, default=None)


def _cycles(joint: Joint) -> float | None:
    resolved = record_of(record_of(joint.results, "input"), "resolved")
    return sum(number_of(cycle, "count") for cycle in records_of(resolved, "cycles"))


def _rod_pull(joint: Joint) -> float | None:
    pulls = [number_of(rod, "tension_n") for half in joint.halves for rod in records_of(half.record, "rods")]
    return max(pulls, default=None)


_AT_LEAST: Final[Mapping[str, Callable[[Joint], float | None]]] = MappingProxyType(
    {
        "axial_compression": lambda joint: _greatest(joint, _compression),
        "axial_extension": lambda joint: _greatest(joint, _extension),
        "lateral": lambda joint: _greatest(
            joint,
            lambda half: _sum(_sideways(joint, half), maybe_number(half.record, "misalignment_lateral_mm")),
        ),
        "angular": lambda joint: _greatest(
            joint,
            lambda half: _sum(_reach(half, "angular_deg"), maybe_number(half.record, "misalignment_angular_deg")),
        ),
        "torsion_limit": lambda joint: _greatest(joint, _torque),
        "pressure": lambda joint: _pressure(joint, test=False),
        "test_pressure": lambda joint: _pressure(joint, test=True),
        "temperature": _temperature,
        "rated_cycles": _cycles,
        "rod_can_carry": _rod_pull,
    }
)
"""What the states ask of a joint with any friction, sideways in the displaced equilibrium, misalignment on top."""


def decimals_of(value: float) -> int:
    """Return with how many decimals a number is shown that a person typed in: five figures at most."""
    return len(plain(value).partition(".")[2])


_DECIMALS: Final = MappingProxyType(
    {"length": 1, "angle": 2, "pressure": 2, "temperature": 1, "torque": 1, "force": 2, None: 0}
)
"""Of what the states ask, in SI; as many as the duty shows."""


def wanted_words(one: Asked, texts: Texts, units: Units) -> str:
    """Return what is wanted of a quantity, in words, without its unit."""
    key = f"data_sheet.{one.want.side}"
    return texts(key) if one.want.value is None else texts(key, value=wanted_figures(one, units))


def wanted_figures(one: Asked, units: Units) -> str:
    """Return the number that is wanted of a quantity, which has one; a limit is rounded to its safe side."""
    assert one.want.value is not None, "only where a number is wanted"
    return units.area.parted(_limit(one, one.want.value))  # of all measures the one that parts thousands in US


def _limit(one: Asked, value: float) -> str:
    number, decimals = one.measure.number(value), decimals_of(one.measure.given(value))
    if one.want.side == "at_least":
        decimals = min(decimals, one.measure.decimals(_DECIMALS.get(one.of.column.measure, 1)))
        return fixed(to_safe_side(number, decimals, "at least"), decimals)
    return fixed(to_safe_side(number, decimals, "at most") if one.want.side == "at_most" else number, decimals)


__all__ = ["Asked", "Side", "Want", "asked_of", "decimals_of", "used_of", "wanted_figures", "wanted_words"]
