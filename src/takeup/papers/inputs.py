"""Section 2: what was put in, by whom.     (papers/inputs.py)"""

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
    texts_of,
    vector_of,
)
from takeup.edge import Measure, Units
from takeup.papers.front import pipe_words
from takeup.papers.numerals import NONE, as_given, fixed, plain, written
from takeup.papers.tables import Tree, facts, number_column, table, words_column

_WAYS = {
    (1, 0, 0): "east", (-1, 0, 0): "west", (0, 1, 0): "north", (0, -1, 0): "south", (0, 0, 1): "up", (0, 0, -1): "down",
}  # fmt: skip
_ALONG = 1e-9  # a direction is along an axis when it is off by no more than rounding
_JOINTS_BESIDE = 4  # joints in one table: more would not fit the page


def inputs_section(results: Results, units: Units) -> Tree:
    """Return section 2."""
    line, entry = records_of(results, "lines")[0], record_of(results, "input")
    resolved = record_of(entry, "resolved")
    return {
        "line": _line_facts(results, line, units),
        "route": _route(line, units),
        "bends": _bends(line, units),
        "conditions": _conditions(resolved, units),
        "site": facts(_site(resolved, units)),
        "holds": _holds(resolved, units),
        "joints": _joints(results, units),
        "provenance": facts(_provenance(results)),
    }


def _line_facts(results: Results, line: Record, units: Units) -> Tree:
    basis, insulation = record_of(results, "basis"), record_of(line, "insulation")
    thickness = maybe_number(insulation, "thickness_mm")
    length, developed = (units.length.text(number_of(line, key), 2) for key in ("length_m", "developed_length_m"))
    thick = "" if thickness is None else units.small.named(units.small.typed(thickness))
    return facts(
        [
            ("line", text_of(line, "name")),
            ("medium", text_of(line, "medium")),
            ("pipe", pipe_words(record_of(line, "pipe"), units)),
            ("insulation", "none" if thickness is None else f"{text_of(insulation, 'kind')}, {thick}"),
            ("length", f"{length} between intersections; {developed} developed, along the bends"),
            ("code", f"{text_of(basis, 'code')}, edition {text_of(basis, 'edition')}"),
            ("expansion", f"{text_of(basis, 'expansion_table')}: {text_of(basis, 'because')}"),
        ]
    )


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
    """Return a direction in words where it is along an axis, else its components."""
    whole = tuple(round(part) for part in direction)
    if max(abs(part - near) for part, near in zip(direction, whole, strict=True)) < _ALONG and whole in _WAYS:
        return _WAYS[whole]
    return "east {}, north {}, up {}".format(*(fixed(part, 4) for part in direction))


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


def _conditions(resolved: Record, units: Units) -> Tree | None:
    rows = []
    for key in ("design", "operating", "test", "vacuum"):
        condition = record_of(resolved, key)
        if not condition:
            continue
        pressure = written(maybe_number(condition, "pressure_bar"), units.pressure, 2)
        said = [f"with {text_of(condition, 'with')}"] if text_of(condition, "with") else []
        if "possible" in condition:
            said = ["possible" if condition["possible"] else f"not possible: {text_of(condition, 'because')}"]
            pressure = pressure if condition["possible"] else NONE
        temperature = written(maybe_number(condition, "temperature_c"), units.temperature, 1)
        rows.append((key, pressure, temperature, "; ".join(said)))
    if not rows:
        return None
    head = (
        words_column("Condition"), number_column("Pressure", units.pressure.unit),
        number_column("Temperature", units.temperature.unit), words_column("Remark", "1fr"),
    )  # fmt: skip
    return table(head, rows, "Conditions, as given by the user")


def _site(resolved: Record, units: Units) -> list[tuple[str, str]]:
    site = record_of(resolved, "site")
    pairs = [
        (words, units.temperature.named(as_given(maybe_number(site, key), units.temperature)))
        for words, key in (
            ("installation", "installation_c"), ("coldest", "coldest_c"), ("hottest", "hottest_c"),
        )
        if key in site
    ]  # fmt: skip
    cycles = [
        f"{text_of(cycle, 'count')} from {text_of(cycle, 'from')} to {text_of(cycle, 'to')}"
        for cycle in records_of(resolved, "cycles")
    ]
    return [*pairs, ("cycles", "; ".join(cycles))]


def _holds(resolved: Record, units: Units) -> Tree | None:
    holds = sorted(records_of(resolved, "holds"), key=lambda hold: number_of(hold, "station_m"))
    if not holds:
        return None
    carried = [maybe_number(hold, "can_carry_n") for hold in holds]
    rows = []
    for hold, most in zip(holds, carried, strict=True):
        low, high = maybe_number(hold, "friction_low"), maybe_number(hold, "friction_high")
        slides = "" if low is None else f"{text_of(hold, 'slides_on')}, {plain(low)} to {plain(high)}"
        rows.append(
            (
                text_of(hold, "name"),
                text_of(hold, "kind"),
                written(number_of(hold, "station_m"), units.length, 2),
                text_of(hold, "placed_by"),
                slides,
                written(most, units.force, 1),
            )
        )
    head = (
        words_column("Hold", "1fr"), words_column("Kind", "30mm"), number_column("Station", units.length.unit),
        words_column("Placed", "23mm"), words_column("Slides on, friction", "42mm"),
        number_column("Can carry", units.force.unit),
    )  # fmt: skip
    return table(head, rows, "Holds as resolved")


def _data(units: Units) -> tuple[tuple[str, Measure, str], ...]:
    """Return what is printed of a joint's data: words, measure, key."""
    return (
        ("Axial rate", units.rate, "axial_rate_n_per_mm"),
        ("Lateral rate", units.rate, "lateral_rate_n_per_mm"),
        ("Angular rate", units.angular_rate, "angular_rate_nm_per_deg"),
        ("Torsion rate", units.angular_rate, "torsion_rate_nm_per_deg"),
        ("Effective area", units.area, "effective_area_mm2"),
        ("Length, end to end", units.small, "length_mm"),
        ("Live length", units.small, "live_length_mm"),
        ("Weight", units.weight, "weight_n"),
        ("Rated axial compression", units.small, "axial_compression_mm"),
        ("Rated axial extension", units.small, "axial_extension_mm"),
        ("Rated lateral movement", units.small, "lateral_mm"),
        ("Rated angular movement", units.of_check("deg"), "angular_deg"),
        ("Rated pressure", units.pressure, "pressure_bar"),
        ("Test pressure", units.pressure, "test_pressure_bar"),
        ("Least pressure", units.pressure, "minimum_pressure_bar"),
        ("Rated temperature", units.temperature, "temperature_c"),
        ("Rated cycles", units.of_check(""), "rated_cycles"),
    )


def _joints(results: Results, units: Units) -> list[Tree]:
    """Return the joints' data, so many joints beside each other."""
    joints = records_of(results, "takeups")
    return [_data_table(joints[n : n + _JOINTS_BESIDE], units) for n in range(0, len(joints), _JOINTS_BESIDE)]


def _provenance(results: Results) -> list[tuple[str, str]]:
    """Return where the joints' data come from, and the remarks on them; joints of which the same is said together."""
    said: dict[str, list[str]] = {}
    for joint in records_of(results, "takeups"):
        words = "; ".join(filter(None, (text_of(joint, "provenance"), *texts_of(joint, "remarks"))))
        said.setdefault(words, []).append(text_of(joint, "name"))
    return [(", ".join(names), words) for words, names in said.items()]


def _data_table(joints: Sequence[Record], units: Units) -> Tree:
    rows: list[tuple[str, ...]] = [
        ("Kind", "", *(text_of(joint, "kind") for joint in joints)),
        (
            "Station of its middle",
            units.length.unit,
            *(written(number_of(joint, "station_m"), units.length, 2) for joint in joints),
        ),
    ]
    for words, key in (("Set length", "set_length_mm"), ("Preset, above zero: drawn out", "preset_mm")):
        rows.append((words, units.small.unit, *(as_given(maybe_number(joint, key), units.small) for joint in joints)))
    for words, measure, key in _data(units):
        values = [maybe_number(record_of(joint, "data"), key) for joint in joints]
        if any(value is not None for value in values):
            given = ("not given" if value is None else as_given(value, measure) for value in values)
            rows.append((words, measure.unit, *given))
    head = (
        words_column("Datum", "38mm"), words_column("Unit", "14mm"),
        *(number_column(text_of(joint, "name"), "", "1fr") for joint in joints),
    )  # fmt: skip
    return table(head, rows, "Joints, data")
