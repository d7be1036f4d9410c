"""Section 2: what the joints have beside their bellows, in words.     (papers/calculation/hardware_inputs.py)"""

from __future__ import annotations

from collections.abc import Callable

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of
from takeup.edge import Measure, Units
from takeup.papers.common.numerals import as_given

_BY_THE_PIPE = ("level", "upright")


def hardware_of(results: Results, units: Units) -> list[tuple[str, str]]:
    """Return rods, pins and balancing bellows of each joint that has some, in words."""
    words: dict[str, Callable[[Record, Units], str]] = {"rods": _rods, "pins": _pins, "balance": _balance}
    return [
        (text_of(joint, "name"), said(given, units))
        for joint in records_of(results, "takeups")
        for key, said in words.items()
        if (given := record_of(record_of(joint, "data"), key))
    ]


def _given(record: Record, key: str, measure: Measure) -> str:
    return measure.named(as_given(number_of(record, key), measure))


def _yields(hardware: Record, units: Units) -> str:
    if maybe_number(hardware, "yield_strength_mpa") is None:
        return ""
    return f", yield strength {_given(hardware, 'yield_strength_mpa', units.stress)}"


def _rods(rods: Record, units: Units) -> str:
    hot = "that stay cold"
    if maybe_number(rods, "expansion_per_k") is not None:
        hot = f"as hot as the pipe, which grow {_given(rods, 'expansion_per_k', units.expansion)}"
    carry = "what each can carry is not given"
    if maybe_number(rods, "can_carry_n") is not None:
        carry = f"each can carry {_given(rods, 'can_carry_n', units.force)}"
    carry += _yields(rods, units)
    count = as_given(number_of(rods, "count"), Measure(unit=""))
    small = units.small
    return (
        f"{count} rods of {_given(rods, 'diameter_mm', small)} on a circle of {_given(rods, 'circle_mm', small)}, "
        f"{_given(rods, 'length_mm', small)} between the nuts, gap as fitted {_given(rods, 'gap_mm', small)}, of "
        f"modulus {_given(rods, 'modulus_mpa', units.stress)}, {hot}; {carry} ({text_of(rods, 'source')})"
    )


def _pins(pins: Record, units: Units) -> str:
    small, way = units.small, text_of(pins, "way")
    lying = f"on {way} pins" if way in _BY_THE_PIPE else f"on pins along “{way}”"
    rubs = "pins that turn freely"
    if maybe_number(pins, "friction_low") is not None:
        low, high = (as_given(number_of(pins, key), Measure(unit="")) for key in ("friction_low", "friction_high"))
        rubs = f"friction of a pin in its hole {low} to {high} ({text_of(pins, 'friction_source')})"
    carry = "what they can carry is not given"
    if maybe_number(pins, "can_carry_n") is not None:
        carry = f"together they can carry {_given(pins, 'can_carry_n', units.force)}"
    return (
        f"two plates of {_given(pins, 'width_mm', small)} by {_given(pins, 'thickness_mm', small)}, "
        f"{_given(pins, 'length_mm', small)} long, {_given(pins, 'spread_mm', small)} apart between their middles, of "
        f"modulus {_given(pins, 'modulus_mpa', units.stress)}, {lying} of "
        f"{_given(pins, 'diameter_mm', small)}, {rubs}; {carry}{_yields(pins, units)} ({text_of(pins, 'source')})"
    )


def _balance(balance: Record, units: Units) -> str:
    carry = "what its ties can carry is not given"
    if maybe_number(balance, "can_carry_n") is not None:
        carry = f"its ties together can carry {_given(balance, 'can_carry_n', units.force)}"
    pushed = "they only pull"
    if maybe_number(balance, "can_be_pushed_n") is not None:
        pushed = f"they take a push of {_given(balance, 'can_be_pushed_n', units.force)}"
    return (
        f"balancing bellows with an effective area of {_given(balance, 'effective_area_mm2', units.area)} and an axial "
        f"rate of {_given(balance, 'axial_rate_n_per_mm', units.rate)}; {carry}; {pushed} "
        f"({text_of(balance, 'source')})"
    )


__all__ = ["hardware_of"]
