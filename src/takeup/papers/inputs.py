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
from takeup.papers.front import pipe_words
from takeup.papers.numerals import NONE, fixed, plain
from takeup.papers.tables import Tree, facts, number_column, table, words_column

_WAYS = {
    (1, 0, 0): "east", (-1, 0, 0): "west", (0, 1, 0): "north", (0, -1, 0): "south", (0, 0, 1): "up", (0, 0, -1): "down",
}  # fmt: skip
_ALONG = 1e-9  # a direction is along an axis when it is off by no more than rounding
_JOINTS_BESIDE = 4  # joints in one table: more would not fit the page


def inputs_section(results: Results) -> Tree:
    """Return section 2."""
    line, entry = records_of(results, "lines")[0], record_of(results, "input")
    resolved = record_of(entry, "resolved")
    return {
        "line": _line_facts(results, line),
        "route": _route(line),
        "bends": _bends(line),
        "conditions": _conditions(resolved),
        "site": facts(_site(resolved)),
        "holds": _holds(resolved),
        "joints": _joints(results),
        "provenance": facts(_provenance(results)),
    }


def _line_facts(results: Results, line: Record) -> Tree:
    basis, insulation = record_of(results, "basis"), record_of(line, "insulation")
    thickness = maybe_number(insulation, "thickness_mm")
    length, developed = number_of(line, "length_m"), number_of(line, "developed_length_m")
    return facts(
        [
            ("line", text_of(line, "name")),
            ("medium", text_of(line, "medium")),
            ("pipe", pipe_words(record_of(line, "pipe"))),
            ("insulation", "none" if thickness is None else f"{text_of(insulation, 'kind')}, {thickness:g} mm"),
            ("length", f"{length:.2f} m between intersections; {developed:.2f} m developed, along the bends"),
            ("code", f"{text_of(basis, 'code')}, edition {text_of(basis, 'edition')}"),
            ("expansion", f"{text_of(basis, 'expansion_table')}: {text_of(basis, 'because')}"),
        ]
    )


def _route(line: Record) -> Tree:
    rows = [
        (
            text_of(leg, "from"),
            text_of(leg, "to"),
            way_words(vector_of(leg, "direction")),
            fixed(number_of(leg, "length_m"), 3),
            fixed(number_of(leg, "start_m"), 2),
            fixed(number_of(leg, "end_m"), 2),
        )
        for leg in records_of(line, "legs")
    ]
    head = (
        words_column("From", "1fr"), words_column("To", "1fr"), words_column("Way", "30mm"),
        number_column("Length", "m"), number_column("From station", "m"), number_column("To station", "m"),
    )  # fmt: skip
    return table(head, rows, "Route, between intersections of centre lines")


def way_words(direction: Sequence[float]) -> str:
    """Return a direction in words where it is along an axis, else its components."""
    whole = tuple(round(part) for part in direction)
    if max(abs(part - near) for part, near in zip(direction, whole, strict=True)) < _ALONG and whole in _WAYS:
        return _WAYS[whole]
    return "east {}, north {}, up {}".format(*(fixed(part, 4) for part in direction))


def _bends(line: Record) -> Tree | None:
    bends = records_of(line, "bends")
    if not bends:
        return None
    rows = []
    for bend in bends:
        radius = maybe_number(bend, "radius_mm")
        rows.append(
            (
                text_of(bend, "name"),
                fixed(number_of(bend, "station_m"), 2),
                "sharp" if radius is None else fixed(radius, 1),
                fixed(number_of(bend, "angle_deg"), 2),
                fixed(number_of(bend, "tangent_m"), 3),
                fixed(maybe_number(bend, "flexibility_factor"), 2),
                fixed(maybe_number(bend, "intensification_factor"), 2),
            )
        )
    head = (
        words_column("Bend", "1fr"), number_column("Station", "m"), number_column("Radius", "mm"),
        number_column("Angle", "°"), number_column("Tangent", "m"),
        number_column("Flexibility factor"), number_column("Stress factor"),
    )  # fmt: skip
    return table(head, rows, "Bends, with the flexibility and stress intensification factors used")


def _conditions(resolved: Record) -> Tree | None:
    rows = []
    for key in ("design", "operating", "test", "vacuum"):
        condition = record_of(resolved, key)
        if not condition:
            continue
        pressure = fixed(maybe_number(condition, "pressure_bar"), 2)
        said = [f"with {text_of(condition, 'with')}"] if text_of(condition, "with") else []
        if "possible" in condition:
            said = ["possible" if condition["possible"] else f"not possible: {text_of(condition, 'because')}"]
            pressure = pressure if condition["possible"] else NONE
        rows.append((key, pressure, fixed(maybe_number(condition, "temperature_c"), 1), "; ".join(said)))
    if not rows:
        return None
    head = (
        words_column("Condition"), number_column("Pressure", "bar(g)"), number_column("Temperature", "°C"),
        words_column("Remark", "1fr"),
    )  # fmt: skip
    return table(head, rows, "Conditions, as given by the user")


def _site(resolved: Record) -> list[tuple[str, str]]:
    site = record_of(resolved, "site")
    pairs = [
        (words, f"{plain(maybe_number(site, key))} °C")
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


def _holds(resolved: Record) -> Tree | None:
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
                fixed(number_of(hold, "station_m"), 2),
                text_of(hold, "placed_by"),
                slides,
                NONE if most is None else fixed(most / 1e3, 1),
            )
        )
    head = (
        words_column("Hold", "1fr"), words_column("Kind", "30mm"), number_column("Station", "m"),
        words_column("Placed", "23mm"), words_column("Slides on, friction", "42mm"), number_column("Can carry", "kN"),
    )  # fmt: skip
    return table(head, rows, "Holds as resolved")


_DATA = (
    ("Axial rate", "N/mm", "axial_rate_n_per_mm"),
    ("Lateral rate", "N/mm", "lateral_rate_n_per_mm"),
    ("Angular rate", "N·m/°", "angular_rate_nm_per_deg"),
    ("Torsion rate", "N·m/°", "torsion_rate_nm_per_deg"),
    ("Effective area", "mm²", "effective_area_mm2"),
    ("Length, end to end", "mm", "length_mm"),
    ("Live length", "mm", "live_length_mm"),
    ("Weight", "N", "weight_n"),
    ("Rated axial compression", "mm", "axial_compression_mm"),
    ("Rated axial extension", "mm", "axial_extension_mm"),
    ("Rated lateral movement", "mm", "lateral_mm"),
    ("Rated angular movement", "°", "angular_deg"),
    ("Rated pressure", "bar(g)", "pressure_bar"),
    ("Test pressure", "bar(g)", "test_pressure_bar"),
    ("Least pressure", "bar(g)", "minimum_pressure_bar"),
    ("Rated temperature", "°C", "temperature_c"),
    ("Rated cycles", "", "rated_cycles"),
)


def _joints(results: Results) -> list[Tree]:
    """Return the joints' data, so many joints beside each other."""
    joints = records_of(results, "takeups")
    return [_data_table(joints[n : n + _JOINTS_BESIDE]) for n in range(0, len(joints), _JOINTS_BESIDE)]


def _provenance(results: Results) -> list[tuple[str, str]]:
    """Return where the joints' data come from, and the remarks on them; joints of which the same is said together."""
    said: dict[str, list[str]] = {}
    for joint in records_of(results, "takeups"):
        words = "; ".join(filter(None, (text_of(joint, "provenance"), *texts_of(joint, "remarks"))))
        said.setdefault(words, []).append(text_of(joint, "name"))
    return [(", ".join(names), words) for words, names in said.items()]


def _data_table(joints: Sequence[Record]) -> Tree:
    rows: list[tuple[str, ...]] = [
        ("Kind", "", *(text_of(joint, "kind") for joint in joints)),
        ("Station of its middle", "m", *(fixed(number_of(joint, "station_m"), 2) for joint in joints)),
        ("Set length", "mm", *(plain(maybe_number(joint, "set_length_mm")) for joint in joints)),
        ("Preset, above zero: drawn out", "mm", *(plain(maybe_number(joint, "preset_mm")) for joint in joints)),
    ]
    for words, unit, key in _DATA:
        values = [maybe_number(record_of(joint, "data"), key) for joint in joints]
        if any(value is not None for value in values):
            rows.append((words, unit, *(plain(value) if value is not None else "not given" for value in values)))
    head = (
        words_column("Datum", "38mm"), words_column("Unit", "14mm"),
        *(number_column(text_of(joint, "name"), "", "1fr") for joint in joints),
    )  # fmt: skip
    return table(head, rows, "Joints, data")
