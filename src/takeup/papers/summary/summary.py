"""The readable summary on a terminal, worst first.     (papers/summary/summary.py)

Plain text, no colour, so that it reads the same in a log; lines are never wrapped.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any  # the results document is JSON: what its values are is said by its schema, not by types

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import joined, nominal_size
from takeup.edge import SI, TIE, Measure, Units
from takeup.joints import KINDS
from takeup.joints.ratings import COMPUTED
from takeup.papers.calculation.advice import warning_lines
from takeup.papers.calculation.series_inputs import series_lines
from takeup.papers.calculation.stability import nearest
from takeup.papers.common.terminal import table
from takeup.papers.summary.summary_walk import record_lines, walk_lines

Results = Mapping[str, Any]
_TYPED = 9  # decimals of a millimetre that two typed lengths keep when they are added
HELD = "held"
"""What pins do with a movement that nobody rated."""


def summary_lines(results: Results, units: Units = SI) -> list[str]:
    """Return the summary of a study.

    Args:
        results: the results document.
        units: what its numbers are written in.
    """
    verdict = results["verdict"]
    lines = [
        *_heading(results, units),
        "",
        f"VERDICT: {verdict['outcome']}",
        *(f"  - {reason}" for reason in verdict["because"]),
        "",
        *_anchors(results, units),
        *_joints(results, units),
        *series_lines(results),
        *warning_lines(results),
        *walk_lines(results, units),
        *record_lines(results, units),
        *_stability(results),
        *_checks(results),
        "Forces are those on the structure. Not for construction until checked: local codes, the maker's data",
        "and a licensed engineer decide. Assumptions and what is not covered: see calculation.pdf.",
        *([units.said] if units.said else []),
        "",
    ]
    return [text.replace(TIE, " ") for text in lines]


def _heading(results: Results, units: Units) -> list[str]:
    """Return the first line, and where there are several lines of pipe a line for each."""
    pipes, code = [_pipe(line, units) for line in results["lines"]], results["basis"]
    basis, project = f"{code['code']}-{code['edition']}", results["input"]["project"]
    if len(pipes) == 1:
        return [f"{project}: line {pipes[0]}, {basis}"]
    return [f"{project}: {len(pipes)} lines, {basis}", *(f"  line {words}" for words in pipes)]


def _pipe(line: Mapping[str, Any], units: Units) -> str:
    """Return a line in words: name, sizes, length, and the line that it leaves."""
    sizes = dict.fromkeys(nominal_size(item["pipe"], units) for item in line["pipes"])
    branch = line["branch"]
    leaving = f", leaving {branch['of']} at {branch['at']}" if branch else ""
    rounded = round(line["length_m"], 3 if units.length.feet else 2)  # a centimetre is more than 1/16 in
    length = units.length.named(units.length.typed(rounded))
    return f"{line['name']}, {joined(tuple(sizes))}, {length}{leaving}"


def _anchors(results: Results, units: Units) -> list[str]:
    rows, force = [], units.force
    for hold in results["holds"]:
        if not is_anchor(hold["kind"]):
            continue
        envelope, band = hold["envelope"], hold["band"]
        added = f"; other side {hold['other_side']}" if hold["other_side"] else ""
        rows.append(
            (
                hold["name"],
                hold["line"],
                _figures(hold["station_m"], units.length, 2),
                _figures(band["low_n"], force, 1) if band else "",
                _figures(band["high_n"], force, 1) if band else "",
                _figures(envelope["friction_bound_n"], force, 1) if band else "",
                _figures(envelope["design_force_n"], force, 1),
                f"{envelope['design_state']}{added}",
            )
        )
    head = (
        "anchor", "line", units.length.named("at"), f"along {force.unit}, least", "greatest",
        f"friction (bound) {force.unit}", f"resultant {force.unit}", "in state",
    )  # fmt: skip
    caption = "Loads on anchors: least and greatest along the flow of all walks and the friction bound, and resultant:"
    return [caption, *table(*_of_lines(results, head, rows, (2, 3, 4, 5, 6))), ""] if rows else []


def _joints(results: Results, units: Units) -> list[str]:
    """Return the movements of all joints; how far they turn where one of them is there to turn about pins."""
    moving = [joint for joint in results["takeups"] if joint["reach"]]
    if not moving:
        return []
    small, turns = units.small, any(KINDS[joint["kind"]].pins != "none" for joint in moving)
    head = [
        "joint", "line", "kind", units.length.named("at"), f"shortens {small.unit}", f"lengthens {small.unit}",
        f"sideways {small.unit}", *([f"turns {units.of_check('deg').unit}"] if turns else []),
        "shortest, or most turned, in state" if turns else "shortest in state",
    ]  # fmt: skip
    rows = [_joint(joint, units, turns=turns) for joint in moving]
    preset = any(joint["preset_mm"] for joint in moving)
    left = ", of what their presets leave of their ratings from there" if preset else ""
    caption = f"Joint movements from the set length, the farthest with any friction{left}:"
    right = range(3, len(head) - 1)
    return [caption, *table(*_of_lines(results, head, rows, right)), *_one_range(results), ""]


def _joint(joint: Mapping[str, Any], units: Units, *, turns: bool) -> list[str]:
    """Return the row of a joint; what its pins hold and nobody rated is called held.

    Movements count from the set length, ratings from the neutral one: from the set length a preset leaves
    compression + preset and extension - preset.
    """
    reach, data, small = joint["reach"], joint["data"], units.small
    rated = KINDS[joint["kind"]].rated
    low, high, aside, turned = (reach[key] for key in ("shortest_mm", "longest_mm", "lateral_mm", "angular_deg"))
    told = _told_of_series if joint.get("chosen") else Measure.typed
    shorter = round(-data["axial_compression_mm"] - joint["preset_mm"], _TYPED)
    longer = round(data["axial_extension_mm"] - joint["preset_mm"], _TYPED)
    shortest = f"{_figures(low['value'], small, 1)} of {told(small, shorter)}"
    longest = f"{_signed(_figures(high['value'], small, 1))} of {_signed(told(small, longer))}"
    if "axial" not in rated and not (data["axial_compression_mm"] or data["axial_extension_mm"]):
        shortest = longest = HELD
    sideways = _most(aside["value"], data["lateral_mm"], small, 1, told)
    if rated == ("angular",) and not data["lateral_mm"]:
        sideways = HELD
    return [
        joint["name"],
        joint["line"],
        joint["kind"],
        _figures(joint["station_m"], units.length, 2),
        shortest,
        longest,
        sideways,
        *([_most(turned["value"], data["angular_deg"], units.of_check("deg"), 2, told)] if turns else []),
        (turned if rated == ("angular",) else low)["state"],
    ]


def _one_range(results: Results) -> list[str]:
    """Return which joints have rated movements that the wanted life gives: shortening and lengthening share one."""
    names = [
        joint["name"]
        for joint in results["takeups"]
        if any(note.startswith(COMPUTED) for note in (joint.get("computed") or {"notes": []})["notes"])
    ]
    if not names:
        return []
    return [
        f"  Rated movement of {joined(tuple(names))} is one range over the wanted life: shortening and lengthening",
        "  share it, in whatever parts. The check of the life of bellows counts their sum.",
    ]


def _most(most: float, rated: float | None, measure: Measure, in_si: int, told: Callable[[Measure, float], str]) -> str:
    """Return the greatest movement or angle of all states, and what is rated where the sheet says."""
    figures = _figures(most, measure, in_si)
    return figures if rated is None else f"{figures} of {told(measure, rated)}"


def _told_of_series(measure: Measure, value: float) -> str:
    """Return a rating of a joint of a series, which cycles may have made a number of many digits."""
    return _figures(value, measure, 1)


def _of_lines(
    results: Results, head: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[int]
) -> tuple[Sequence[str], Sequence[Sequence[str]], Sequence[int]]:
    """Return a table whose second column names the line, and without that column where there is one line only."""
    if len(results["lines"]) > 1:
        return head, rows, right
    kept = [[*row[:1], *row[2:]] for row in (head, *rows)]
    return kept[0], kept[1:], [number - 1 for number in right]


def _figures(value: float, measure: Measure, in_si: int) -> str:
    """Return a number without its unit, with as many decimals as show what so many do in SI."""
    return measure.figures(value, measure.decimals(in_si))


def _signed(figures: str) -> str:
    return figures if figures.startswith("-") else f"+{figures}"


def _stability(results: Results) -> list[str]:
    """Return the load factor that is nearest to what is asked, of what, and in which state; nothing where none is."""
    found = nearest(results)
    if found is None:
        return []
    return [f"Load factor nearest to its limit: {found.factor} ({found.asked} asked), {found.what}, {found.state}", ""]


def _checks(results: Results) -> list[str]:
    rows = []
    open_checks = [check for check in results["checks"] if check["outcome"] != "passes"]
    groups: dict[tuple[str, str, str], list[Mapping[str, Any]]] = {}
    for check in open_checks:
        groups.setdefault((check["title"], check["where"], check["outcome"]), []).append(check)
    for check, *others in groups.values():
        states = dict.fromkeys(item["state"] for item in others if item["state"] != check["state"])
        more = f" and {len(states)} other{'s' if len(states) > 1 else ''}" if states else ""
        use = "" if check["use"] is None else f"{check['use']:.2f}"
        outcome = check["outcome"] + (f" ({check['status']})" if check["status"] == "from memory" else "")
        rows.append((check["title"], check["where"], check["state"] + more, use, outcome))
    head = ("check", "where", "state", "use", "outcome")
    passed = len(results["checks"]) - len(open_checks)
    count = [f"  {passed} more checks pass; each stands in calculation.pdf with its numbers.", ""]
    return [*(["Checks, worst first (use 1.00 is full):", *table(head, rows, (3,))] if rows else []), *count]
