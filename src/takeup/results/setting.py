"""What a joint is set to on the day that it is fitted, and how long it then is: `takeups[].setting`.

(results/setting.py)

The length comes by hand where the joint stands alone in a straight span. Elsewhere the walk without friction tells how
the joint is moved on the coldest and on the hottest day, shut down, and between installation and either of them its
movement follows the thermal strain of the pipe. Where liquid stands in the line on such a day, nothing is told of the
days on its side of installation: a joint is fitted to empty pipe. Theory and what was measured: docs/theory/setting.md.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from takeup.hand import length_held, length_to_set
from takeup.joints import KINDS, whole_live_length
from takeup.line import LIQUIDS, Line, State, TakeUp, route_of
from takeup.results.plain import Json, numbers
from takeup.study import JointMovement, Solved, Unsolved
from takeup.units import KELVIN_PER_DEGF, to_deg, to_mm

COLDEST, HOTTEST = "coldest day, shut down", "hottest day, shut down"
BY_MODEL = "L(T) = L_set + x(day) eps(T)/eps(day)"
MODEL_SOURCE = "the walk without friction, shut down on the coldest and the hottest day; first principles between"
_STEP_C, _STEP_F = 5.0, 10.0
_FREEZING_F = 32.0
_NEAR = 1e-6  # two temperatures closer than this are one [K]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Day:
    """How the joint is moved on a day at the edge of the site's range, from installation, in the walk.

    `strain` is that of the pipe [m/m]; `longer` between the faces [m]; `offset` of the far face, x east, y north, z up
    [m]; `turn` of the far face against the near one about the joint's second and third axis [rad].
    """

    strain: float
    longer: float
    offset: np.ndarray
    turn: np.ndarray


def setting_part(
    answer: Solved | Unsolved, line: Line, item: TakeUp, moved: Sequence[tuple[str, JointMovement]]
) -> Json:
    """Return the length, offset and gap to set by temperature of the day, and the lengths of every state.

    Args:
        answer: the states, and the study.
        line: of the joint.
        item: the joint.
        moved: its movements in every whole scenario by its name, least friction first; empty where not solved.
    """
    study, site = answer.study, answer.study.site
    hand = length_to_set(study, line, item, answer.states[0], site.installation)
    days = _days(answer, line, item, moved[0][1]) if moved else {}
    by_hand, held = hand.value is not None, length_held(item)
    rows = [
        _row(answer, line, item, days, temperature)
        for temperature in temperatures_of(site.coldest, site.installation, site.hottest)
    ]
    told = by_hand or (bool(days) and not held)
    return {
        "formula": (hand.formula if by_hand else BY_MODEL) if told else "",
        "numbers": length_to_set(study, line, item, answer.states[0], site.coldest).numbers,
        "source": (hand.source if by_hand else MODEL_SOURCE) if told else "",
        "because": "; ".join(filter(None, (hand.because, "" if by_hand and not held else _filled(answer)))),
        "rows": rows,
        "faces": [
            {
                "state": state.name,
                "scenario": scenario,
                "length_mm": to_mm(length),
                "lateral_mm": to_mm(float(np.linalg.norm(joint.lateral[number]))),
                "angular_deg": to_deg(float(np.linalg.norm(joint.angular[number]))),
            }
            for scenario, joint in moved
            for number, (state, length) in enumerate(
                zip(answer.states, face_lengths(answer, line, item, joint), strict=True)
            )
        ],
    }


def temperatures_of(coldest: float, installation: float, hottest: float) -> list[float]:
    """Return the temperatures of a table: every 5 degC and every 10 degF between the extremes, and the three given."""
    low, high = min(coldest, installation), max(hottest, installation)
    found = [coldest, installation, hottest]
    found += [_STEP_C * k for k in range(math.ceil(low / _STEP_C), math.floor(high / _STEP_C) + 1)]
    first, last = (at / KELVIN_PER_DEGF + _FREEZING_F for at in (low, high))
    in_f = [_STEP_F * k for k in range(math.ceil(first / _STEP_F), math.floor(last / _STEP_F) + 1)]
    found += [(at - _FREEZING_F) * KELVIN_PER_DEGF for at in in_f]
    kept: list[float] = []
    for at in sorted(found):
        if not kept or at - kept[-1] > _NEAR:
            kept.append(at)
    return kept


def face_lengths(answer: Solved | Unsolved, line: Line, item: TakeUp, joint: JointMovement) -> Iterator[float]:
    """Yield the length of a joint from face to face in each state.

        L = L_set + x + (eps(T) - eps(T_install)) (L_own - L_live)         (first principles)

    x is what its bellows lengthen by in the walk; its ends and spools grow with the pipe, its live length does not.
    """
    steel = item.data.length - whole_live_length(item.data)
    for number, state in enumerate(answer.states):
        strain = _strain(answer, line, item, state.at(line.name, item.position.station).temperature)
        yield item.data.length + item.preset + float(joint.axial[number]) + strain * steel


def _strain(answer: Solved | Unsolved, line: Line, item: TakeUp, temperature: float) -> float:
    expansion = line.section_at(item.position.station).pipe.material.expansion
    return expansion.at(temperature) - expansion.at(answer.study.site.installation)


def _days(answer: Solved | Unsolved, line: Line, item: TakeUp, joint: JointMovement) -> dict[bool, _Day]:
    """Return the coldest day under True and the hottest under False, as far as they are among the states.

    A day on which liquid stands in the line is none: its weight moves the joint, and a joint is fitted to empty pipe.
    """
    place = {state.name: number for number, state in enumerate(answer.states)}
    lengths = list(face_lengths(answer, line, item, joint))
    axes = route_of(line).axes(item.position.station)
    found: dict[bool, _Day] = {}
    for name, cold in ((COLDEST, True), (HOTTEST, False)):
        if name not in place or _holds_liquid(answer.states[place[name]]):
            continue
        here = place[name]
        strain = _strain(answer, line, item, _temperature(answer.states[here], line, item))
        if strain:
            across = joint.lateral[here] - joint.lateral[0]
            found[cold] = _Day(
                strain=strain,
                longer=lengths[here] - lengths[0],
                offset=across @ axes[1:],
                turn=joint.angular[here] - joint.angular[0],
            )
    return found


def _holds_liquid(state: State) -> bool:
    """Whether liquid stands anywhere in the lines."""
    return any(zone.content in LIQUIDS for zone in state.zones)


def _filled(answer: Solved | Unsolved) -> str:
    """Return on which of both days what temperature alone does is not known, and why; "" where on neither."""
    full = [state.name for state in answer.states if state.name in (COLDEST, HOTTEST) and _holds_liquid(state)]
    if not full:
        return ""
    return f"liquid stands in the line on the {' and the '.join(full)}: what temperature alone does then is not told"


def _temperature(state: State, line: Line, item: TakeUp) -> float:
    return state.at(line.name, item.position.station).temperature


def _row(
    answer: Solved | Unsolved, line: Line, item: TakeUp, days: dict[bool, _Day], temperature: float
) -> dict[str, Json]:
    """Return what to set at one temperature of pipe and joint."""
    set_length = item.data.length + item.preset
    strain = _strain(answer, line, item, temperature)
    day = days.get(temperature < answer.study.site.installation)
    share = 0.0 if not strain else None if day is None else strain / day.strain
    hand = length_to_set(answer.study, line, item, answer.states[0], temperature)
    length = hand.value
    if length_held(item):
        length = set_length
    elif length is None and share is not None:
        length = set_length + (share * day.longer if day else 0.0)
    still = np.zeros(3)
    return {
        "temperature_c": temperature,
        "length_mm": None if length is None else to_mm(length),
        "offset_mm": None if share is None else numbers((share * day.offset if day else still) * 1e3),
        "turn_deg": None if share is None else to_deg(float(np.linalg.norm(share * day.turn if day else still))),
        "rod_gap_mm": None if length is None else _rod_gap(answer, item, length - set_length, temperature),
    }


def _rod_gap(answer: Solved | Unsolved, item: TakeUp, longer: float, temperature: float) -> float | None:
    """Return the gap of limit rods to leave between nut and lug on the day [mm]; None where the joint has none.

        g(T) = g + alpha L_rod (T - T_install) - (L(T) - L_set)            (first principles)

    Rods across each of two bellows see half of it each.
    """
    rods = item.rods
    if rods is None or length_held(item):
        return None
    each = KINDS[item.kind].rods_across == "each bellows"
    grown = 0.0 if rods.expansion is None else rods.expansion * rods.length
    warmer = temperature - answer.study.site.installation
    return to_mm(rods.gap + grown * warmer - longer / (2.0 if each else 1.0))


__all__ = ["BY_MODEL", "face_lengths", "setting_part", "temperatures_of"]
