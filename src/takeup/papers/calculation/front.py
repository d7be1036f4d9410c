"""Page one: what it is, the verdict with its reasons, the governing results.     (papers/calculation/front.py)"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from takeup.drawing.reading import (
    FULL,
    Record,
    Results,
    maybe_number,
    number_of,
    record_of,
    records_of,
    text_of,
    texts_of,
    use_at,
)
from takeup.edge import Units
from takeup.papers.calculation.cover import conditions_table, foremost, of_all
from takeup.papers.common.design import design_of, design_outcome
from takeup.papers.common.numerals import NONE, written, written_column
from takeup.papers.common.places import (
    anchors_of,
    guides_of,
    holds_word,
    lines_words,
    outcome_words,
    pipe_words,
    with_line,
)
from takeup.papers.common.tables import Tree, facts, number_column, sentences, table, words_column

_REASONS = 10
_CAUTIONS = 4
_OUTCOMES = (
    ("fails", "fail"), ("not covered", "not covered"), ("no limit given", "without a limit given"), ("close", "close"),
    ("passes", "pass"),
)  # fmt: skip


def front_page(results: Results, units: Units) -> Tree:
    """Return page one."""
    entry, basis = record_of(results, "input"), record_of(results, "basis")
    document = record_of(entry, "document")
    reasons = texts_of(record_of(results, "verdict"), "because")
    return {
        "title": f"Calculation of {lines_words(results)}",
        "project": text_of(entry, "project"),
        "about": facts(
            [
                ("document no.", text_of(document, "number")),
                _about_lines(results, units),
                ("revision", text_of(document, "revision")),
                ("pipe", "; ".join(_pipes(results, units))),
                ("date", text_of(document, "date")),
                ("basis", f"{text_of(basis, 'code')}, edition {text_of(basis, 'edition')}"),
            ]
        ),
        "verdict": text_of(record_of(results, "verdict"), "outcome"),
        "because": sentences(reasons[:_REASONS]),
        "more": [_more(len(reasons) - shown) for shown in range(_REASONS + 1)],
        "counted": _held_words(results) or counted_words(results),
        "units": units.said,
        "conditions": conditions_table(results, units),
        "anchors": _anchors(results, units),
        "guides": _guides(results, units),
        "joints": _joints(results, units),
        "cautions": sentences(texts_of(results, "cautions")[:_CAUTIONS]),
    }


def _more(left: int) -> str:
    """Return what is said when so many reasons find no room on page one."""
    reasons = "more reason" if left == 1 else "more reasons"
    return f"And {left} {reasons}: see the checks, section 9." if left > 0 else ""


def _about_lines(results: Results, units: Units) -> tuple[str, str]:
    lines = records_of(results, "lines")
    said = [
        f"{text_of(line, 'name')}, {text_of(line, 'medium')}, {units.length.text(number_of(line, 'length_m'), 2)}"
        for line in lines
    ]
    return "line" if len(lines) == 1 else "lines", "; ".join(said)


def _pipes(results: Results, units: Units) -> list[str]:
    """Return every pipe of the lines in words, each once."""
    pipes = [item for line in records_of(results, "lines") for item in records_of(line, "pipes")]
    return list(dict.fromkeys(pipe_words(record_of(item, "pipe"), units) for item in pipes))


def _held_words(results: Results) -> str:
    """Return that the lines are not held; "" where they are, or something else stands in the way."""
    return (
        "Not held: free motions are drawn in the part “Not held”, behind the drawing."
        if records_of(results, "not_held")
        else ""
    )


def counted_words(results: Results) -> str:
    """Return how many checks came out how, and on how many the limit is from memory; "" where none was made."""
    checks = records_of(results, "checks")
    if not checks:
        return ""
    found = Counter(text_of(check, "outcome") for check in checks)
    said = ", ".join(f"{found[outcome]} {words}" for outcome, words in _OUTCOMES if found[outcome])
    recalled = sum(text_of(check, "status") == "from memory" for check in checks)
    memory = f" {recalled} rest on a number from memory." if recalled else ""
    return f"{len(checks)} checks in section 9: {said}.{memory}"


def _anchors(results: Results, units: Units) -> Tree | None:
    every = anchors_of(results)
    if not every:
        return None
    holds = foremost(every, lambda hold: _asked_of(results, hold))
    names = [(text_of(hold, "name"), with_line(results, hold, text_of(hold, "kind"))) for hold in holds]
    others = any("anchor" not in text_of(hold, "kind") for hold in holds)
    called = "Anchors, stops and nozzles" if others else "Anchors"
    return _hold_table(results, holds, names, called, units, left=of_all(len(holds), len(every), 5))


def _guides(results: Results, units: Units) -> Tree | None:
    """Return the most loaded guide or rest of each kind."""
    kinds: dict[str, list[Record]] = {}
    for hold in guides_of(results):
        kinds.setdefault(text_of(hold, "kind"), []).append(hold)
    if not kinds:
        return None
    worst = [max(group, key=lambda hold: _weight(results, hold)) for group in kinds.values()]
    names = [
        (text_of(hold, "name"), with_line(results, hold, f"the most loaded of {len(group)}: {kind}"))
        for hold, (kind, group) in zip(worst, kinds.items(), strict=True)
    ]
    return _hold_table(results, worst, names, f"{holds_word(guides_of(results))}, the most loaded of each kind", units)


def _weight(results: Results, hold: Record) -> tuple[float, float]:
    """Return what makes one hold of a kind the most loaded: its use where that is past full, then its design force."""
    design = design_of(results, hold)
    return max(design.use or 0.0, FULL), design.force


def _asked_of(results: Results, hold: Record) -> tuple[float, float]:
    """Return the greatest use at a hold, nought where it has none, and its design force."""
    use = use_at(results, text_of(hold, "name"))
    return 0.0 if use is None else use.value, design_of(results, hold).force


def _hold_table(
    results: Results,
    holds: Sequence[Record],
    names: Sequence[tuple[str, str]],
    caption: str,
    units: Units,
    *,
    left: str = "",
) -> Tree:
    designs = [design_of(results, hold) for hold in holds]
    forces = written_column([design.force for design in designs], units.force, 2)
    rows = []
    for hold, name, force, design in zip(holds, names, forces, designs, strict=True):
        use, outcome = design_outcome(results, text_of(hold, "name"), design)
        rows.append((name, written(number_of(hold, "station_m"), units.length, 2), force, design.where, use, outcome))
    head = (
        words_column("Hold", "1fr"),
        number_column("Station", units.length.unit),
        number_column("Design force", units.force.unit),
        words_column("In state", "45mm"),
        number_column("Use"),
        words_column("Outcome", "30mm"),
    )
    made_for = ", of guides the load to make them for where that is greater" if any(d.of_guide for d in designs) else ""
    return table(head, rows, f"{caption}: resultant force with the bound of friction{made_for}{left}")


def _joints(results: Results, units: Units) -> Tree | None:
    every = records_of(results, "takeups")
    if not every:
        return None
    joints = foremost(every, lambda joint: _used(results, joint))
    shortest, longest = (
        written_column([_farthest(joint, key) for joint in joints], units.small, 1)
        for key in ("shortest_mm", "longest_mm")
    )
    rows = []
    for joint, short, long in zip(joints, shortest, longest, strict=True):
        use = use_at(results, text_of(joint, "name"))
        said, outcome = outcome_words(results, text_of(joint, "name"))
        name = (text_of(joint, "name"), with_line(results, joint, text_of(joint, "kind")))
        asked = NONE if use is None else use.title
        station = written(number_of(joint, "station_m"), units.length, 2)
        rows.append((name, station, short, long, asked, said, outcome))
    head = (
        words_column("Joint", "1fr"),
        number_column("Station", units.length.unit),
        number_column("Shortest", units.small.unit),
        number_column("Longest", units.small.unit),
        words_column("Governed by", "37mm"),
        number_column("Use"),
        words_column("Outcome", "23mm"),
    )
    caption = "Joints: axial movement from the set length with any friction, and the check that asks most"
    return table(head, rows, f"{caption}{of_all(len(joints), len(every), 6)}")


def _used(results: Results, joint: Record) -> tuple[float, float]:
    """Return the greatest use of a joint, nought where it has none, and how far it is pressed together [mm]."""
    use = use_at(results, text_of(joint, "name"))
    return 0.0 if use is None else use.value, -(_farthest(joint, "shortest_mm") or 0.0)


def _farthest(joint: Record, key: str) -> float | None:
    return maybe_number(record_of(record_of(joint, "reach"), key), "value")
