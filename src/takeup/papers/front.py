"""Page one: what it is, the verdict with its reasons, the governing results.     (papers/front.py)"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import (
    FULL,
    Record,
    Results,
    joined,
    nominal_size,
    number_of,
    record_of,
    records_of,
    text_of,
    texts_of,
    use_at,
    use_words,
)
from takeup.edge import Units
from takeup.papers.design import design_of, design_outcome
from takeup.papers.numerals import NONE, written, written_column
from takeup.papers.tables import Tree, facts, number_column, sentences, table, words_column

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
        "anchors": _anchors(results, units),
        "guides": _guides(results, units),
        "joints": _joints(results, units),
        "cautions": sentences(texts_of(results, "cautions")[:_CAUTIONS]),
    }


def _more(left: int) -> str:
    """Return what is said when so many reasons find no room on page one."""
    reasons = "more reason" if left == 1 else "more reasons"
    return f"And {left} {reasons}: see the checks, section 9." if left > 0 else ""


def lines_words(results: Results) -> str:
    """Return "line A", or "lines A, B and C"."""
    names = [text_of(line, "name") for line in records_of(results, "lines")]
    return f"line{'s' if len(names) > 1 else ''} {joined(names)}"


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


def pipe_words(pipe: Record, units: Units) -> str:
    """Return a pipe in words: size, diameter and wall, material."""
    diameter, thickness = (units.small.typed(number_of(pipe, key)) for key in ("outside_diameter_mm", "wall_mm"))
    wall = units.small.named(f"{diameter} × {thickness}")
    return ", ".join(filter(None, (nominal_size(pipe, units), wall, text_of(pipe, "material"))))


def outcome_words(results: Results, name: str) -> tuple[str, str]:
    """Return the greatest use at a place and its outcome; without a use, what the checks there say."""
    use = use_at(results, name)
    if use is not None:
        return use_words(use.value), use.outcome
    said = [text_of(check, "outcome") for check in records_of(results, "checks") if text_of(check, "where") == name]
    return NONE, said[0] if said else "no check here"


def anchors_of(results: Results) -> tuple[Record, ...]:
    """Return the holds whose loads are listed one by one: anchors, stops, nozzles, ends that continue."""
    return tuple(hold for hold in records_of(results, "holds") if is_anchor(text_of(hold, "kind")))


def guides_of(results: Results) -> tuple[Record, ...]:
    """Return the other holds: guides, rests and hangers."""
    return tuple(hold for hold in records_of(results, "holds") if not is_anchor(text_of(hold, "kind")))


def with_line(results: Results, record: Record, words: str) -> str:
    """Return words, and where there are several lines the one that a hold or joint belongs to."""
    return f"{words}, line {text_of(record, 'line')}" if len(records_of(results, "lines")) > 1 else words


def holds_word(holds: Sequence[Record]) -> str:
    """Return what the holds other than anchors are called together."""
    hung = any("hanger" in text_of(hold, "kind") for hold in holds)
    return "Guides, rests and hangers" if hung else "Guides and rests"


def _anchors(results: Results, units: Units) -> Tree | None:
    holds = anchors_of(results)
    if not holds:
        return None
    names = [(text_of(hold, "name"), with_line(results, hold, text_of(hold, "kind"))) for hold in holds]
    others = any("anchor" not in text_of(hold, "kind") for hold in holds)
    return _hold_table(results, holds, names, "Anchors, stops and nozzles" if others else "Anchors", units)


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


def _hold_table(
    results: Results, holds: Sequence[Record], names: Sequence[tuple[str, str]], caption: str, units: Units
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
    return table(head, rows, f"{caption}: resultant force with the bound of friction{made_for}")


def _joints(results: Results, units: Units) -> Tree | None:
    joints = records_of(results, "takeups")
    if not joints:
        return None
    shortest, longest = (
        written_column([_extreme(joint, pick) for joint in joints], units.small, 1) for pick in (min, max)
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
    return table(head, rows, "Joints: axial movement from the set length, and the check that asks most")


def _extreme(joint: Record, pick: Callable[[Iterable[float]], float]) -> float | None:
    values = [number_of(move, "axial_mm") for move in records_of(joint, "movements")]
    return pick(values) if values else None
