"""Section 8: the walk through the states: charts, events, contacts, hardware, loads.     (papers/calculation/walk.py)

Where nothing rubs and nothing has a gap the answer of a state does not depend on those before it; the section says so
and ends. A results document without a walk has a section of one sentence.
"""

from __future__ import annotations

from takeup.drawing.reading import Record, Results, joined, maybe_number, record_of, records_of, text_of
from takeup.edge import Units
from takeup.papers.calculation.record import record_tree
from takeup.papers.calculation.walk_chart import drawn_scenarios, states_are_named, walk_charts, zones_left_out
from takeup.papers.calculation.walk_contacts import contacts_tree, rods_trees
from takeup.papers.calculation.walk_events import Numbered, events_table, friction_table, numbered_events
from takeup.papers.calculation.walk_hardware import hardware_tables
from takeup.papers.calculation.walk_loads import scenario_loads
from takeup.papers.calculation.walked import Walked, between, in_order, runs, scenario_words, walked_of
from takeup.papers.common.numerals import scientific
from takeup.papers.common.places import anchors_of, holds_word
from takeup.papers.common.places import guides_of as others_of
from takeup.papers.common.tables import Tree, facts, number_column, sentences, table, words_column

NONE_THERE = "No walk: the lines were not solved, or the results hold none."
STRAIGHT = (
    "Nothing rubs and nothing has a gap: each state has one answer, whatever was before it. "
    "So there is nothing to walk, and the loads of section 5 are those of every scenario."
)
METHOD = (
    "The states are walked in their order, beginning with the line without loads; between two states all loads and "
    "temperatures change in proportion. Each contact that opens or closes and each rub that slips or sticks is met on "
    "the way, in its order: none is jumped over"
)
LIMITS = (
    "small displacements, no inertia; one coefficient of friction, the same at rest and sliding; modulus, friction and "
    "gaps stay the same throughout a walk"
)
_INSTALLED = {
    "none": "none: the line is set down without friction, which acts from then on",
    "locked in": "locked in: friction up to its limit may be left from the erection, in the worst sense",
}
_MODULUS = {
    "installation": "that at the installation temperature",
    "at installation": "that at the installation temperature",
    "operating": "that at the operating temperature",
    "at operating temperature": "that at the operating temperature",
}
NOT_TOLD = "not told in the results"


def walk_section(results: Results, units: Units) -> Tree:
    """Return section 8.

    `short` is what is said where there is nothing else to show; "" where there is.
    """
    record = record_tree(results, units)
    walked = walked_of(results)
    if walked is None:
        return {"short": NONE_THERE, "record": record}
    if _is_straight(results, walked):
        return {"short": STRAIGHT, "record": record}
    events = numbered_events(results, walked)
    numbers = dict(walked.numbers)
    several = len(records_of(results, "zones")) > 1
    return {
        "short": "",
        "made": facts(_facts(results, walked)),
        "charts": walk_charts(results, walked, events, units),
        "left_out": sentences(_left_out(results, walked)),
        "numbers": None if states_are_named(walked, events, units) else _numbers_table(walked),
        "unsolved": sentences(_unsolved(walked)),
        "no_events": sentences(_no_events(results, events)),
        "events": events_table(events, walked, units, zones=several),
        "friction": friction_table(results, walked),
        "contacts": contacts_tree(results, numbers, units),
        "rods": rods_trees(results, numbers, units),
        "hardware": hardware_tables(results, numbers, units),
        "loads": scenario_loads(results, units),
        "record": record,
    }


def _is_straight(results: Results, walked: Walked) -> bool:
    """Whether nothing rubs, nothing can open or close, and no joint has rods, pins or a balance to be told of."""
    return (
        walked.scenarios == ("no friction",)
        and not records_of(results, "events")
        and not any(records_of(hold, "contact") for hold in records_of(results, "holds"))
        and not any(
            records_of(joint, part) for joint in records_of(results, "takeups") for part in ("rods", "hardware")
        )
    )


def _facts(results: Results, walked: Walked) -> list[tuple[str, str]]:
    """Return method, limits, proof and assumptions of the walk."""
    options = record_of(record_of(record_of(results, "input"), "resolved"), "walk")
    installed, modulus = (text_of(options, key) for key in ("friction_at_installation", "modulus"))
    steps = ", ".join(f"{len(rows)} in {scenario}" for scenario, rows in walked.rows.items())
    return [
        ("method", f"{METHOD}. Theory: docs/theory/contact.md."),
        ("steps", steps),
        ("limits", LIMITS),
        ("friction at installation", _INSTALLED.get(installed, installed) or NOT_TOLD),
        ("modulus", _MODULUS.get(modulus, modulus) or NOT_TOLD),
        ("verified", _verified(walked)),
        ("one answer only", _unique(results)),
    ]


def _verified(walked: Walked) -> str:
    """Return the worst error of all steps that converged, with where it is."""
    found = [
        (error, scenario, row)
        for scenario, rows in walked.rows.items()
        for row in rows
        if row.get("converged") is not False and (error := maybe_number(row, "error")) is not None
    ]
    if not found:
        return NOT_TOLD
    error, scenario, row = max(found, key=lambda item: item[0])
    return (
        f"gaps, cones of friction and compatibility of every step, to {scientific(error)} of the largest force or "
        f"movement at worst ({scenario}, on the way to “{text_of(row, 'state')}”)"
    )


def _unique(results: Results) -> str:
    """Return whether it is shown that friction, at its highest, allows no second answer."""
    told = record_of(results, "scenarios").get("uniqueness")
    if told is None:
        return "nothing rubs: there is one"
    if told == "shown":
        return "shown, at the highest friction of the walk"
    return "not shown: friction may allow a second answer; none is claimed"


def _left_out(results: Results, walked: Walked) -> list[str]:
    """Return in words what the charts do not show."""
    drawn = drawn_scenarios(walked)
    said = []
    loads = [row for hold in records_of(results, "holds") for row in records_of(hold, "scenarios")]
    known = in_order([*walked.scenarios, *(text_of(row, "scenario") for row in loads)])
    undrawn = [name for name in known if name not in drawn]
    if undrawn:
        said.append(f"{scenario_words(undrawn)}, whose loads stand in the tables of this section")
    if others_of(results):
        said.append(f"the loads along the flow of {holds_word(others_of(results)).lower()}")
    drawn_names = {*walked.raw}
    absent = [
        text_of(item, "name")
        for item in (*anchors_of(results), *records_of(results, "takeups"))
        if text_of(item, "name") not in drawn_names
    ]
    if absent:
        said.append(f"{joined(absent)}, of which the walk tells nothing")
    zones = zones_left_out(walked)
    if zones:
        said.append(f"pressure and temperature of {joined(zones)}")
    words = [f"Not in the charts: {'; '.join(said)}."] if said else []
    return [*words, *(["Their numbers are in results.json."] if said else [])]


def _unsolved(walked: Walked) -> list[str]:
    """Return which steps of which scenario did not converge."""
    said = []
    for scenario, rows in walked.rows.items():
        bad = [row for row in rows if row.get("converged") is False]
        ways = dict.fromkeys(_way(row) for row in bad)
        if bad:
            steps = f"{len(bad)} step{'s' if len(bad) > 1 else ''} of {len(rows)}"
            said.append(f"In {scenario} {steps} did not converge and show no numbers: {'; '.join(ways)}.")
    return said


def _way(row: Record) -> str:
    before, after = between(row)
    return f"from “{before}” to “{after}”" if before else f"to “{after}”"


def _no_events(results: Results, events: tuple[Numbered, ...]) -> list[str]:
    """Return that nothing happened on the way, where nothing did, or nothing but friction."""
    if events:
        return []
    if records_of(results, "events"):
        return ["Nothing opens or closes on the way, and no rod takes hold or slackens; rubs slip and stick."]
    return ["No event: nothing opens or closes, slips or sticks on the way."]


def _numbers_table(walked: Walked) -> Tree:
    """Return the names of the states by number, two on a row."""
    named = [(f"{walked.numbers[name]}", name) for name in walked.places]
    half = -(-len(named) // 2)
    rows = [(*named[k], *(named[k + half] if k + half < len(named) else ("", ""))) for k in range(half)]
    head = (
        number_column("No.", "", "9mm"), words_column("State", "1fr"), number_column("No.", "", "9mm"),
        words_column("State", "1fr"),
    )  # fmt: skip
    return table(head, rows, f"States {runs([walked.numbers[name] for name in walked.places])} of the charts by number")
