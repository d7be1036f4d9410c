"""Line files from text, so that tests go the whole way of the data: text, reader, rules, model.     (tests/builders.py)

`study_of` reads a text made by `line_file`; `solve` and `checks` carry it on. Names, places and joint data are
invented. Defaults are round: installed at 70 degF, where tabulated expansion begins; operating at 400 degF (204 degC).
The last texts' answers are kept, frozen as they are, so that tests of one text share them; not in a test that changes
the program itself, by `monkeypatch` (conftest.py).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TypeVar

from takeup.checks import CheckResult, run_checks
from takeup.choose import resolve
from takeup.line import Study
from takeup.line.reading.reader import study_from_text
from takeup.study import Bowing, HoldLoads, JointMovement, LineAnswer, Solved, Unsolved, Walked, solve_study, walk_study

DN200 = "{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: long radius }"
STEAM_PTFE = "slides_on: PTFE on steel"
JOINT_DATA = {
    "axial_rate": "95 N/mm",
    "effective_area": "46000 mm2",
    "length": "1.1 m",
    "live_length": "0.6 m",
    "weight": "1.9 kN",
    "axial_compression": "140 mm",
    "axial_extension": "20 mm",
    "lateral": "5 mm",
    "angular": "1 deg",
    "pressure": "16 bar(g)",
    "test_pressure": "24 bar(g)",
    "minimum_pressure": "-1.01325 bar(g)",
    "temperature": "300 °C",
    "rated_cycles": "2000",
}


GEOMETRY = {
    "inside_diameter": "219 mm",
    "convolution_height": "30 mm",
    "pitch": "28 mm",
    "convolutions": "6",
    "plies": "2",
    "ply_thickness": "0.8 mm",
    "material": "Alloy 321",
    "annealed": "no",
    "allowable_table": "ASME BPVC II-D Table 1A",
    "life_curve": "EN design",
}
_DATA_KEYS = frozenset({*JOINT_DATA, "torsion_rate", "angular_rate", "lateral_rate", "centres", "torque"})


_OF_BOWING = ("stability", "clearance_bow", "guide_design_load")  # the rules that look at it, and no other does
_Answer = TypeVar("_Answer")
_MOST = 32  # texts: those of one test file, a few megabytes each
answers_are_kept = True


def _kept(work: Callable[[str], _Answer]) -> Callable[[str], _Answer]:
    """Keep the answers to the last texts, while they are kept at all."""
    known = lru_cache(maxsize=_MOST)(work)

    @wraps(work)
    def answer(text: str) -> _Answer:
        return known(text) if answers_are_kept else work(text)

    return answer


def joint_by_geometry(name: str, at: str, *, kind: str = "single axial", **changes: str | None) -> str:
    """Return one take-up with its bellows' geometry; `changes` are of its data or, by other keys, of `GEOMETRY`."""
    given = dict.fromkeys(("axial_rate", "effective_area", "live_length"))
    data = given | {key: value for key, value in changes.items() if key in _DATA_KEYS}
    shape = GEOMETRY | {key: value for key, value in changes.items() if key not in _DATA_KEYS}
    inner = ", ".join(f"{key}: {value}" for key, value in shape.items() if value is not None)
    return joint(name, at, kind=kind, **data).replace(", data:", f", bellows: {{ {inner} }}, data:", 1)


def joint(name: str, at: str, *, kind: str = "single axial", preset: str = "", **data: str | None) -> str:
    """Return one take-up; `data` replaces values of `JOINT_DATA`, and None leaves a key out."""
    values = {key: value for key, value in {**JOINT_DATA, **data}.items() if value is not None}
    inner = ", ".join(f"{key}: {value}" for key, value in values.items())
    extra = f", preset: {preset}" if preset else ""
    return f"{{ name: {name}, kind: {kind}, at: {at}{extra}, data: {{ {inner}, source: invented for a test }} }}"


def hold(kind: str, at: str, **keys: str) -> str:
    """Return one hold; a guide or rest slides on PTFE unless told otherwise."""
    if "anchor" not in kind and not {"slides_on", "friction"} & set(keys):
        keys["slides_on"] = "PTFE on steel"
    return f"{{ kind: {kind}, at: {at}" + "".join(f", {key}: {value}" for key, value in keys.items()) + " }"


def rule(kind: str, by: str, slides_on: str = "PTFE on steel") -> str:
    """Return a hold that a rule places."""
    return f"{{ kind: {kind}, by: {by}, slides_on: {slides_on} }}"


def line_file(
    legs: list[str],
    *,
    start: str = "main anchor",
    end: str = "main anchor",
    at: str = "[0 m, 0 m, 0 m]",
    holds: tuple[str, ...] = (),
    takeups: tuple[str, ...] = (),
    pipe: str = DN200,
    medium: str = "steam",
    insulation: str = "none",
    site: str = "{ installation: 70 °F, coldest: 70 °F, hottest: 70 °F }",
    design: str = "{ pressure: 12 bar(g), temperature: 400 °F, vacuum: possible }",
    operating: str = "{ pressure: 10 bar(g), temperature: 400 °F }",
    test: str = "{ pressure: 18 bar(g), with: water, temperature: 70 °F }",
    edition: int = 2020,
    more: str = "",
) -> str:
    """Return the text of a line file.

    Args:
        legs: each as the words of its `go`, with further keys after a comma.
        start: what the start is, with further keys after a comma.
        end: what the end is, likewise.
        at: place of the start.
        holds: made by `hold` and `rule`.
        takeups: made by `joint`.
        pipe: the pipe's mapping.
        medium: what flows.
        insulation: the answer about insulation.
        site: the site's mapping.
        design: the mapping of the design conditions.
        operating: likewise.
        test: likewise.
        edition: of the basis.
        more: further top-level keys, whole lines.
    """
    route = [f"{{ start: west end, at: {at}, as: {start} }}"]
    route += [f"{{ go: {leg} }}" for leg in legs[:-1]]
    route.append(f"{{ go: {legs[-1]}, to: east end, as: {end} }}")
    return "\n".join(
        [
            "takeup: 1",
            "project: invented line of a test",
            "document: { number: T-1, revision: A, date: 2026-02-03 }",
            f"basis: {{ code: ASME B31.1, edition: {edition} }}",
            f"site: {site}",
            f"design: {design}",
            f"operating: {operating}",
            f"test: {test}",
            "cycles: [ { from: cold, to: operating, count: 1000 } ]",
            more,
            "lines:",
            "  - name: T-1",
            f"    medium: {medium}",
            f"    pipe: {pipe}",
            f"    insulation: {insulation}",
            "    route:",
            *(f"      - {item}" for item in route),
            *_items("holds", holds),
            *_items("takeups", takeups),
            "",
        ]
    )


def _items(key: str, items: tuple[str, ...]) -> list[str]:
    return [f"    {key}:", *(f"      - {item}" for item in items)] if items else []


@_kept
def study_of(text: str) -> Study:
    """Return the study of a text, its rules turned into places."""
    return resolve(study_from_text(text, "test.yaml"))


@_kept
def solve_all(text: str) -> Solved:
    """Return the model's answer to all lines of a text that is held and solves."""
    answer = solve_study(study_of(text))
    assert isinstance(answer, Solved), answer.because
    assert answer.verified.all(), answer.because
    return answer


@_kept
def walk_all(text: str) -> Walked:
    """Return every scenario of a text that is held and solves."""
    walked = walk_study(study_of(text))
    assert isinstance(walked, Walked), walked.because
    assert walked.base.verified.all(), walked.base.because
    return walked


def solve(text: str) -> LineAnswer:
    """Return the model's answer to the one line of a text."""
    (answer,) = solve_all(text).lines
    return answer


def unsolved(text: str) -> Unsolved:
    """Return why the model has no answer to a text."""
    answer = solve_study(study_of(text))
    assert isinstance(answer, Unsolved)
    return answer


def state_number(answer: LineAnswer, name: str) -> int:
    """Return the place of a state in the order of the walk."""
    return [state.name for state in answer.states].index(name)


def hold_of(answer: LineAnswer, name: str) -> HoldLoads:
    """Return the loads of one hold."""
    return next(item for item in answer.holds if item.name == name)


def joint_of(answer: LineAnswer, name: str) -> JointMovement:
    """Return the movements of one joint."""
    return next(item for item in answer.joints if item.name == name)


def along(answer: LineAnswer, name: str, state: str) -> float:
    """Return the force on the structure along the flow at a hold in a state [N]."""
    loads = hold_of(answer, name)
    return float(loads.local(loads.total)[state_number(answer, state), 0])


def checks(text: str, rule_name: str, where: str = "") -> list[CheckResult]:
    """Return the results of one rule for a text, at one place or at all."""
    rows = _checked(text) if rule_name in _OF_BOWING else _checked_straight(text)
    return [item for item in rows if item.rule == rule_name and where in item.where]


@_kept
def _checked(text: str) -> tuple[CheckResult, ...]:
    return run_checks(walk_all(text))


@_kept
def _checked_straight(text: str) -> tuple[CheckResult, ...]:
    """Return all results but those of bowing, which take half of the time and are rows of rules of their own."""
    return run_checks(walk_all(text), Bowing(states=(), swings=(), bows=(), guides=()))
