"""A selection as a document: what fits in order, why the rest does not.     (choose/selection/document.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup import __version__
from takeup.choose.selection.advising import MaterialAdvice
from takeup.choose.selection.place import Floats, Place
from takeup.choose.selection.ranking import Anchored, anchored, lives
from takeup.choose.selection.screen import Screened, screen
from takeup.choose.selection.select import Selection, Tried
from takeup.joints import KINDS
from takeup.joints.tables.derate import HOW
from takeup.results.plain import Json
from takeup.units import to_bar, to_deg, to_mm

_DUTY = (
    "selected by a duty: weight, friction, guides, stability and stresses of the line are not looked at; "
    "only a study of the line with the joint in it proves it"
)
_LINE = (
    "of a line, the first in the order is proved by its own study of the whole line; for those after it the line was "
    "solved with each without friction, movements and capacities of holds looked at, and their own study was not run"
)
CAUTIONS = (
    "Data of a series are those of its owner; demonstration data are nobody's, and nothing of them can be bought.",
    "The force on anchors is thrust and spring force; friction, wind and weight of the line come on top.",
    "Not for construction until checked: the maker's certified data, local codes and a licensed engineer decide.",
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Asked:
    """Where a selection was asked from, and what was said of it beside the series.

    Args:
        file: its name.
        sha256: of the file.
        line: whether it is a line's.
        advice: on the material of the first joint.
        assumptions: in words.
    """

    file: str
    sha256: str
    line: bool
    advice: MaterialAdvice
    assumptions: tuple[str, ...] = ()


def select_document(asked: Asked, found: Selection) -> dict[str, Json]:
    """Return the document of a selection.

    Args:
        asked: where from.
        found: what the series has for the place.
    """
    table, source = found.table, found.table.provenance
    return {
        "tool": {"name": "takeup", "version": __version__},
        "input": {"file": asked.file, "sha256": asked.sha256},
        "series": {
            "name": source.series,
            "file": source.file,
            "sha256": source.sha256,
            "dated": source.dated,
            "whose": source.whose,
            "joints": len(table),
            "words": source.words,
        },
        "rank": found.rank,
        "places": [_place(kind, one.place) for kind, one in found.screened.items() if _is_asked(kind, one)],
        "counts": {
            "considered": len(table),
            "fit": len(found.fits),
            "may_fit": len(found.fits) + sum(not one.stands for one in found.tried),
            "proved": int(found.winner is not None),
            "studies_run": len(found.tried),
            "not_tried": found.exhausted,
        },
        "fits": list(_fits(found)),
        "refused": list(_refused(found)),
        "advice": _advice(asked.advice),
        "assumptions": [*asked.assumptions, _LINE if asked.line else _DUTY],
        "cautions": list(CAUTIONS),
    }


def _advice(said: MaterialAdvice) -> dict[str, Json]:
    return {
        "joint": said.joint or None,
        "material": said.material or None,
        "because": said.because or None,
        "items": [asdict(item) for item in said.items],
    }


def _is_asked(kind: str, one: Screened) -> bool:
    return not one.place.kinds or kind in one.place.kinds


def _place(kind: str, place: Place) -> dict[str, Json]:
    """Return what is asked of one kind of joint; of a line, kinds are moved differently."""
    states: list[Json] = [
        {
            "state": state,
            "test": bool(place.tests[k]),
            "pressure_bar": to_bar(float(place.pressure[k])),
            "temperature_c": float(place.temperature[k]),
            "axial_mm": to_mm(float(place.axial[k])),
            "lateral_mm": to_mm(float(place.lateral[k])),
            "angular_deg": to_deg(float(place.angular[k])),
        }
        for k, state in enumerate(place.states)
    ]
    return {
        "name": place.name,
        "kind": kind,
        "size_dn": place.size_dn,
        "size": place.size,
        "room_mm": None if math.isinf(place.room) else to_mm(place.room),
        "cycles": place.cycles,
        "preset_mm": to_mm(place.preset),
        "preset_by_rule_mm": to_mm(preset_by_rule(place)),
        "medium": place.medium or None,
        "states": states,
    }


def preset_by_rule(place: Place) -> float:
    """Return how much longer than neutral a joint would be fitted, so that it is moved alike hot and cold.

        X_pre = -(max x + min x)/2                                         (F2, first principles)

    The same as X (1/2 - (T_i - T_min)/(T_max - T_min)) (EJMA, from memory) where movement follows temperature.

    Args:
        place: x, longer above zero, in every state.

    Returns:
        X_pre [m], above zero: drawn out; below: pushed together.
    """
    return -float(place.axial.max() + place.axial.min()) / 2.0


def _fits(found: Selection) -> Iterator[Json]:
    by_row = {one.row: one for one in found.tried}
    forces: dict[int, Anchored] = {}
    life: dict[int, tuple[Floats, NDArray[np.int8]]] = {}
    own = found.table.numbers
    for number, row in enumerate(found.fits.tolist()):
        of = found.of(row)
        if id(of) not in forces:
            forces[id(of)], life[id(of)] = anchored(of), lives(of)
        force, (cycles, how) = forces[id(of)], life[id(of)]
        yield {
            "rank": number + 1,
            "joint": found.table.names[row],
            "kind": found.table.kinds[row],
            "size_dn": float(own["size_dn"][row]),
            "price_index": _or_none(own["price_index"][row]),
            "length_mm": to_mm(float(own["length"][row])),
            "rated_temperature_c": float(own["temperature"][row]),
            "weight_n": float(own["weight"][row]),
            "effective_area_mm2": float(own["effective_area"][row]) * 1e6,
            "thrust_n": float(force.thrust[row]),
            "thrust_on_anchors": not KINDS[found.table.kinds[row]].restrained,
            "anchor_force_n": float(force.force[row]),
            "anchor_force_test_n": float(force.test[row]),
            "life_cycles": _or_none(cycles[row]),
            "life_by": HOW[how[row]],
            "movement_use": float(of.movement[row]),
            "movement_share": float(of.share[row]),
            "ratings_by": of.how_words(row),
            "checks": [
                {
                    "name": one.name,
                    "demand": float(one.demand[row]),
                    "capacity": _or_none(one.capacity[row]),
                    "unit": one.unit,
                    "use": float(of.uses[k, row]),
                }
                for k, one in enumerate(of.criteria)
                if one.unit
            ],
            "study": _study(by_row.get(row)),
        }


def _study(tried: Tried | None) -> Json:
    if tried is None:
        return None
    trial = tried.trial
    return {
        "outcome": trial.verdict.outcome,
        "because": list(trial.verdict.because),
        "anchors_n": dict(trial.anchors),
        "checks": [
            {
                "rule": item.rule,
                "where": item.where,
                "state": item.state,
                "outcome": item.outcome,
                "use": _finite(item.use),
            }
            for item in trial.checks
        ],
    }


def _refused(found: Selection) -> Iterator[Json]:
    """Yield those that do not fit, the ones that stand most criteria and are nearest first."""
    fitting = set(found.fits.tolist())
    preset: dict[int, NDArray[np.bool_]] = {}
    every = [row for row in range(len(found.table)) if row not in fitting]
    for row in sorted(every, key=lambda row: (-found.of(row).nearness(row)[0], found.of(row).nearness(row)[1])):
        of = found.of(row)
        if id(of) not in preset:
            preset[id(of)] = _with_preset(of)
        would = bool(preset[id(of)][row]) and not of.fits[row]
        yield {
            "joint": found.table.names[row],
            "kind": found.table.kinds[row],
            "because": found.because(row),
            "would_fit_preset": would,
            "preset_mm": to_mm(preset_by_rule(of.place)) if would else None,
        }


def _with_preset(of: Screened) -> NDArray[np.bool_]:
    """Return which joints would fit if they were fitted with the preset by the rule, (n,)."""
    return screen(replace(of.place, preset=preset_by_rule(of.place)), of.table).fits


def _or_none(value: float) -> float | None:
    number = float(value)
    return number if math.isfinite(number) else None


def _finite(value: float | None) -> float | None:
    return None if value is None else _or_none(value)


__all__ = ["CAUTIONS", "Asked", "preset_by_rule", "select_document"]
