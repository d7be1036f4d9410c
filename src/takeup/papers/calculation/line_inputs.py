"""Section 2: what a line is made of and where it goes.     (papers/calculation/line_inputs.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    record_of,
    records_of,
    text_of,
    vector_of,
)
from takeup.edge import Units
from takeup.papers.calculation.hold_inputs import end_words
from takeup.papers.common.numerals import as_given, fixed, told, written
from takeup.papers.common.places import pipe_words
from takeup.papers.common.tables import Tree, facts, number_column, table, words_column

_WAYS = {
    (1, 0, 0): "east", (-1, 0, 0): "west", (0, 1, 0): "north", (0, -1, 0): "south", (0, 0, 1): "up", (0, 0, -1): "down",
}  # fmt: skip
_ALONG = 1e-9  # a direction is along an axis when it is off by no more than rounding


def line_inputs(results: Results, line: Record, units: Units) -> Tree:
    """Return what the papers say of one line before anything is computed."""
    several = len(records_of(results, "lines")) > 1
    return {
        "title": f"Line {text_of(line, 'name')}" if several else "Line",
        "facts": facts(_facts(results, line, units)),
        "pipes": _pipes(line, units),
        "route": _route(line, units),
        "items": _items(line, units),
        "bends": _bends(line, units),
    }


def _facts(results: Results, line: Record, units: Units) -> list[tuple[str, str]]:
    basis, pipes = record_of(results, "basis"), records_of(line, "pipes")
    length, developed = (units.length.text(number_of(line, key), 2) for key in ("length_m", "developed_length_m"))
    alone = len(pipes) == 1
    pipe, insulation = record_of(pipes[0], "pipe"), record_of(pipes[0], "insulation")
    allowance = number_of(pipe, "corrosion_allowance_mm")
    first, last = records_of(line, "ends")
    return [
        ("line", text_of(line, "name")),
        ("medium", text_of(line, "medium")),
        ("pipe", pipe_words(pipe, units) if alone else "see below, section by section"),
        ("corrosion allowance", told(allowance, units.small, 1) if alone and allowance else ""),
        ("insulation", insulation_words(insulation, units) if alone else ""),
        ("length", f"{length} between intersections; {developed} developed, along the bends"),
        ("begins at", _beginning(line, units) or end_words(first, units)),
        ("ends at", end_words(last, units)),
        ("code", f"{text_of(basis, 'code')}, edition {text_of(basis, 'edition')}"),
        ("expansion", f"{text_of(pipe, 'expansion_table')}: {text_of(pipe, 'expansion_because')}" if alone else ""),
    ]


def _beginning(line: Record, units: Units) -> str:
    """Return where a line leaves another, in words; "" where it begins by itself."""
    branch = record_of(line, "branch")
    if not branch:
        return ""
    pad = number_of(branch, "pad_mm")
    padded = f", pad {units.small.named(units.small.typed(pad))}" if pad else ""
    station = units.length.text(number_of(branch, "station_m"), 2)
    name = text_of(records_of(line, "ends")[0], "name")
    return f"{name}, leaving {text_of(branch, 'of')} at station {station}: {text_of(branch, 'tee')}{padded}"


def insulation_words(insulation: Record, units: Units) -> str:
    """Return what is round a pipe, with its sheet."""
    if not insulation:
        return "none"
    cladding = record_of(insulation, "cladding")
    said = [f"{text_of(insulation, 'kind')}, {_thick(insulation, units)}"]
    if cladding:
        said.append(f"clad in {text_of(cladding, 'kind')}, {_thick(cladding, units)}")
    return "; ".join(said)


def _thick(record: Record, units: Units) -> str:
    return units.small.named(units.small.typed(number_of(record, "thickness_mm")))


def _pipes(line: Record, units: Units) -> Tree | None:
    """Return the pipes of a line that has more than one, section by section."""
    pipes = records_of(line, "pipes")
    if len(pipes) == 1:
        return None
    rows = []
    for section in pipes:
        pipe = record_of(section, "pipe")
        rows.append(
            (
                written(number_of(section, "from_m"), units.length, 2),
                written(number_of(section, "to_m"), units.length, 2),
                pipe_words(pipe, units),
                as_given(number_of(pipe, "corrosion_allowance_mm"), units.small),
                insulation_words(record_of(section, "insulation"), units),
                (text_of(pipe, "expansion_table"), text_of(pipe, "expansion_because")),
            )
        )
    head = (
        number_column("From station", units.length.unit), number_column("To station", units.length.unit),
        words_column("Pipe", "1fr"), number_column("Corrosion allowance", units.small.unit, "19mm"),
        words_column("Insulation", "34mm"), words_column("Expansion by", "40mm"),
    )  # fmt: skip
    return table(head, rows, "Pipe and insulation, section by section")


def _items(line: Record, units: Units) -> Tree | None:
    items = records_of(line, "items")
    if not items:
        return None
    rows = [
        (
            text_of(item, "name"),
            text_of(item, "kind"),
            written(number_of(item, "from_m"), units.length, 2),
            written(number_of(item, "to_m"), units.length, 2),
            as_given(number_of(item, "weight_n"), units.weight),
            "its own cone" if text_of(item, "kind") == "reducer" else f"{number_of(item, 'stiffer'):g} times",
            "yes" if item.get("can_close") else "no",
        )
        for item in items
    ]
    head = (
        words_column("Item", "1fr"), words_column("Kind"), number_column("From station", units.length.unit),
        number_column("To station", units.length.unit), number_column("Weight", units.weight.unit),
        words_column("Stiffness, of the pipe's"), words_column("Can close"),
    )  # fmt: skip
    return table(head, rows, "Valves, flanges, reducers and other things in the line")


def _route(line: Record, units: Units) -> Tree:
    rows = [
        (
            text_of(leg, "from"),
            text_of(leg, "to"),
            way_words(vector_of(leg, "direction")),
            written(number_of(leg, "length_m"), units.length, 3),
            written(number_of(leg, "start_m"), units.length, 2),
            written(number_of(leg, "end_m"), units.length, 2),
        )
        for leg in records_of(line, "legs")
    ]
    head = (
        words_column("From", "1fr"), words_column("To", "1fr"), words_column("Way", "30mm"),
        *(number_column(words, units.length.unit) for words in ("Length", "From station", "To station")),
    )  # fmt: skip
    return table(head, rows, "Route, between intersections of centre lines")


def way_words(direction: Sequence[float]) -> str:
    """Return a direction in words where it is along an axis, else its components that are not nought."""
    whole = tuple(round(part) for part in direction)
    if max(abs(part - near) for part, near in zip(direction, whole, strict=True)) < _ALONG and whole in _WAYS:
        return _WAYS[whole]
    parts = [f"{axis} {fixed(part, 4)}" for axis, part in zip(("east", "north", "up"), direction, strict=True)]
    return ", ".join(words for words in parts if not words.endswith(" 0.0000"))


def _bends(line: Record, units: Units) -> Tree | None:
    bends = records_of(line, "bends")
    if not bends:
        return None
    rows = []
    for bend in bends:
        radius = maybe_number(bend, "radius_mm")
        rows.append(
            (
                text_of(bend, "name"),
                written(number_of(bend, "station_m"), units.length, 2),
                "sharp" if radius is None else written(radius, units.small, 1),
                fixed(number_of(bend, "angle_deg"), 2),
                written(number_of(bend, "tangent_m"), units.length, 3),
                fixed(maybe_number(bend, "flexibility_factor"), 2),
                fixed(maybe_number(bend, "intensification_factor"), 2),
            )
        )
    head = (
        words_column("Bend", "1fr"), number_column("Station", units.length.unit),
        number_column("Radius", units.small.unit), number_column("Angle", "°"),
        number_column("Tangent", units.length.unit),
        number_column("Flexibility factor"), number_column("Stress factor"),
    )  # fmt: skip
    return table(head, rows, "Bends, with the flexibility and stress intensification factors used")
