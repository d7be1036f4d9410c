"""The length to set a joint to on the day that it is fitted, by hand.     (hand/setting.py)

A joint is meant to have its set length at the installation temperature. On a colder day the pipe on either side is
shorter and the room between its ends longer, so the joint is set longer; on a hotter day shorter.
Source: first principles. Limits: one joint in a straight span between two anchors that stand still, whose length no
rods or pins hold. Theory: docs/theory/setting.md.
"""

from __future__ import annotations

from takeup.hand import formulas
from takeup.hand.records import HandResult, no_formula
from takeup.hand.spans import Cell, Span, growing_length_of, span_of
from takeup.joints import KINDS, whole_live_length
from takeup.line import Line, State, Study, TakeUp, stretches_of

FORMULA = "L(T) = L_set - sum of (eps(T) - eps(T_install)) L_pipe"
HELD = "its rods, pins or bars hold its length: the pipe is fitted to it"
_UNIT = "m"


def length_held(item: TakeUp) -> bool:
    """Tell whether the hardware of a joint holds its length on every day: tie rods, plates with pins, bars."""
    kind = KINDS[item.kind]
    return kind.pins != "none" or (kind.rods == "required" and kind.restrained)


def span_around(study: Study, line: Line, item: TakeUp, state: State) -> Span:
    """Return the span between anchors in which a joint stands."""
    at = item.position.station
    number = next(k for k, stretch in enumerate(stretches_of(line)) if stretch.start < at < stretch.end)
    return span_of(study, line, number, state)


def pipe_outside(span: Span, item: TakeUp, cell: Cell) -> float:
    """Return the length of pipe in a cell that stands outside the faces of the joint of its span [m]."""
    own = item.data.length - whole_live_length(item.data) if cell.start < item.position.station <= cell.end else 0.0
    return growing_length_of(span, cell) - own


def length_to_set(study: Study, line: Line, item: TakeUp, state: State, temperature: float) -> HandResult:
    """Return the face-to-face length to set a joint to.

        L(T) = L_set - sum of (eps(T) - eps(T_install)) L_pipe             (first principles)

    Args:
        study: the file.
        line: the line.
        item: the joint; L_set is its own length and its preset.
        state: in which the line is fitted.
        temperature: T of pipe and joint on the day [degC].

    Returns:
        L(T) [m]; none where the span is not a straight one with this joint alone, with the reason.
    """
    span = span_around(study, line, item, state)
    what = f"length of {item.name} to set at {temperature:g} degC"
    because = _no_short_formula(span, item)
    if because:
        return no_formula(what, _UNIT, because)
    strains = [_strain(study, cell, temperature) for cell in span.cells]
    lengths = [pipe_outside(span, item, cell) for cell in span.cells]
    growth = sum(formulas.free_growth(strain, length) for strain, length in zip(strains, lengths, strict=True))
    numbers = " + ".join(f"{e * 1e3:.4f} mm/m x {far:.3f} m" for e, far in zip(strains, lengths, strict=True))
    set_length = item.data.length + item.preset
    return HandResult(
        what=what,
        formula=FORMULA,
        numbers=f"{set_length * 1e3:.1f} mm - ({numbers})",
        source=formulas.TEXTBOOK,
        value=set_length - growth,
        unit=_UNIT,
    )


def _no_short_formula(span: Span, item: TakeUp) -> str:
    """Return why the length is not that of a straight span alone, or nothing."""
    if length_held(item):
        return HELD
    if span.puzzle:
        return span.puzzle
    if span.open_end:
        return "the span has an open end: nothing holds the room between the pipe's ends"
    if len(span.joints) > 1:
        return "two joints in one span share the movement in no fixed way"
    if span.turns:
        return "the span turns: its legs bend, and only the model gives the joint's share"
    return ""


def _strain(study: Study, cell: Cell, temperature: float) -> float:
    expansion = cell.section.pipe.material.expansion
    return expansion.at(temperature) - expansion.at(study.site.installation)


__all__ = ["FORMULA", "HELD", "length_held", "length_to_set", "pipe_outside", "span_around"]
