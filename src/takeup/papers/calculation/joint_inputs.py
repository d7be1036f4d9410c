"""Section 2: the joints' data, so many beside each other.     (papers/calculation/joint_inputs.py)"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of, texts_of
from takeup.edge import Measure, Units
from takeup.papers.common.alike import from_to, names_told
from takeup.papers.common.numerals import NONE, as_given, written
from takeup.papers.common.tables import Tree, number_column, table, words_column

_APART = "centres_mm"
_OF_EACH = (
    "axial_rate_n_per_mm",
    "lateral_rate_n_per_mm",
    "angular_rate_nm_per_deg",
    "torsion_rate_nm_per_deg",
    "live_length_mm",
)  # of a joint of two bellows, those of each
_JOINTS_BESIDE = 4  # joints in one table: more would not fit the page


def _data(units: Units) -> tuple[tuple[str, Measure, str], ...]:
    """Return what is printed of a joint's data: words, measure, key."""
    return (
        ("Axial rate", units.rate, "axial_rate_n_per_mm"),
        ("Lateral rate", units.rate, "lateral_rate_n_per_mm"),
        ("Angular rate", units.angular_rate, "angular_rate_nm_per_deg"),
        ("Torsion rate", units.angular_rate, "torsion_rate_nm_per_deg"),
        ("Scatter of its rates", Measure(unit="%", size=0.01, rounded=3), "rate_scatter"),
        ("Effective area", units.area, "effective_area_mm2"),
        ("Length, end to end", units.small, "length_mm"),
        ("Live length", units.small, "live_length_mm"),
        ("Middles of two bellows", units.small, _APART),
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


def joint_tables(results: Results, units: Units) -> list[Tree]:
    """Return the joints' data, so many joints beside each other."""
    joints = records_of(results, "takeups")
    return [_data_table(joints[n : n + _JOINTS_BESIDE], units) for n in range(0, len(joints), _JOINTS_BESIDE)]


def provenance_of(results: Results) -> list[tuple[str, str]]:
    """Return where the joints' data come from, and the remarks on them; joints of which the same is said together."""
    said: dict[str, list[str]] = {}
    for joint in records_of(results, "takeups"):
        words = "; ".join(filter(None, (text_of(joint, "provenance"), *texts_of(joint, "remarks"))))
        said.setdefault(words, []).append(text_of(joint, "name"))
    order = [text_of(joint, "name") for joint in records_of(results, "takeups")]
    return [(", ".join(names_told(names, order, from_to)), words) for words, names in said.items()]


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
    pairs = any(maybe_number(record_of(joint, "data"), _APART) is not None for joint in joints)
    for words, measure, key in _data(units):
        values = [maybe_number(record_of(joint, "data"), key) for joint in joints]
        if any(value is not None for value in values):
            unsaid = NONE if key == _APART else "not given"  # a joint of one bellows has no other to stand apart from
            given = (unsaid if value is None else as_given(value, measure) for value in values)
            rows.append((f"{words}, each bellows" if key in _OF_EACH and pairs else words, measure.unit, *given))
    head = (
        words_column("Datum", "38mm"), words_column("Unit", "14mm"),
        *(number_column(text_of(joint, "name"), "", "1fr") for joint in joints),
    )  # fmt: skip
    return table(head, rows, "Joints, data")
