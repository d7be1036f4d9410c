"""Section 2: what was put in, by whom.     (papers/calculation/inputs.py)"""

from __future__ import annotations

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    numbers_in,
    record_of,
    records_of,
    text_of,
)
from takeup.edge import Measure, Units
from takeup.papers.calculation.bellows_inputs import computed_tables, geometry_of
from takeup.papers.calculation.hardware_inputs import hardware_of
from takeup.papers.calculation.hold_inputs import hold_facts, holds_table
from takeup.papers.calculation.joint_inputs import joint_tables, provenance_of
from takeup.papers.calculation.line_inputs import line_inputs
from takeup.papers.calculation.series_inputs import series_tables
from takeup.papers.common.numerals import NONE, as_given, column, written
from takeup.papers.common.tables import Tree, facts, number_column, table, words_column


def inputs_section(results: Results, units: Units) -> Tree:
    """Return section 2."""
    resolved = record_of(record_of(results, "input"), "resolved")
    lines = records_of(results, "lines")
    return {
        "lines": [line_inputs(results, line, units) for line in lines],
        "conditions": _conditions(results, resolved, units),
        "site": facts(_site(resolved, units)),
        "loads": _loads(resolved, units),
        "holds": holds_table(results, units),
        "hold_facts": facts(hold_facts(resolved, units)),
        "joints": [*joint_tables(results, units), *computed_tables(results, units)],
        "series": series_tables(results),
        "provenance": facts([*hardware_of(results, units), *geometry_of(results, units), *provenance_of(results)]),
    }


def _conditions(results: Results, resolved: Record, units: Units) -> Tree | None:
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
    more = "; those of each zone stand in section 4" if len(records_of(results, "zones")) > 1 else ""
    return table(head, rows, f"Conditions, as given by the user{more}")


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
    return [*pairs, ("cycles", "; ".join(cycles)), ("walk", _walk(record_of(resolved, "walk")))]


def _walk(walk: Record) -> str:
    """Return how the states are walked; nothing where the results do not say."""
    if not walk:
        return ""
    friction = text_of(walk, "friction_at_installation")
    return f"moduli {text_of(walk, 'modulus')}; friction at installation: {friction}"


def _loads(resolved: Record, units: Units) -> Tree | None:
    """Return the loads of the user's own: at a place, or along a stretch."""
    loads = records_of(resolved, "loads")
    if not loads:
        return None
    rows = []
    for load in loads:
        start, end = (written(number_of(load, key), units.length, 2) for key in ("from_m", "to_m"))
        spread = load.get("force_n") is None
        force = units.line_load if spread else units.force
        rows.append(
            (
                (text_of(load, "name"), text_of(load, "source")),
                text_of(load, "line"),
                start,
                end if spread else NONE,
                _three(load["force_n_per_m" if spread else "force_n"], force, units),
                NONE if spread else _three(load["moment_nm"], units.moment, units),
                text_of(load, "duration"),
            )
        )
    head = (
        words_column("Load", "1fr"), words_column("Line"), number_column("From station", units.length.unit),
        number_column("To station", units.length.unit), words_column("Force x, y, z"), words_column("Moment x, y, z"),
        words_column("Duration"),
    )  # fmt: skip
    return table(head, rows, "Loads of the user's own, in global axes")


def _three(values: object, measure: Measure, units: Units) -> str:
    """Return three numbers with their unit: as they were given in SI, converted to three figures of the largest."""
    given = numbers_in(values)
    if units.system == "si":
        return measure.named(", ".join(as_given(value, measure) for value in given))
    figures = column([measure.number(value) for value in given], figures=3)
    shown = [measure.parted(words) if value else "0" for value, words in zip(given, figures, strict=True)]
    return measure.named(", ".join(shown))
