"""Section 6: advice on the materials of joints, which is no proof.     (papers/calculation/advice.py)

Warnings stand first. Joints of which the same is said share a row: most of a line's joints stand in one medium.
"""

from __future__ import annotations

from collections.abc import Sequence

from takeup.drawing.reading import Record, Results, maybe_number, number_of, record_of, records_of, text_of, texts_of
from takeup.edge import Units
from takeup.papers.common.numerals import told
from takeup.papers.common.places import with_line
from takeup.papers.common.tables import Cell, Tree, sentences, table, words_column

NOT_SAID = "not said"
SAID = (
    "Advice, not proof: rules of thumb for the metal of a bellows. It is no check and changes no verdict; the joint's "
    "maker and a corrosion engineer decide."
)
WORTH = "advice_only"
"""The rule that says what advice is worth: printed once, above the table."""
_LEVELS = ("warning", "note")


def advice_part(results: Results, units: Units) -> Tree | None:
    """Return what the advice goes by and what it says; None where there is no joint."""
    joints = [joint for joint in records_of(results, "takeups") if records_of(joint, "advice")]
    if not joints:
        return None
    return {"said": sentences([SAID]), "tables": [_advice_table(results, joints), _goes_by_table(joints, units)]}


def warning_lines(results: Results) -> list[str]:
    """Return a line for each joint on whose material the advice warns, for a terminal."""
    found = []
    for joint in records_of(results, "takeups"):
        count = sum(text_of(item, "level") == "warning" for item in records_of(joint, "advice"))
        if count:
            warns = f"{count} warning{'s' if count > 1 else ''} on its material"
            found.append(f"{text_of(joint, 'name')}: {warns}, see calculation {section_number(results)}")
    return ["Advice on materials, not proof:", *(f"  {line}" for line in found), ""] if found else []


def section_number(results: Results) -> str:
    """Return the number of the heading: after one for each joint that moves, and that of ends, liners and covers."""
    joints = records_of(results, "takeups")
    moving = sum(bool(records_of(joint, "movements")) for joint in joints)
    fitted = any(record_of(joint, "fitting") for joint in joints)
    return f"6.{moving + fitted + 1}"


def _advice_table(results: Results, joints: Sequence[Record]) -> Tree:
    groups: dict[tuple[str, ...], list[str]] = {}
    for joint in joints:
        for item in records_of(joint, "advice"):
            if text_of(item, "rule") != WORTH:
                said = tuple(text_of(item, key) for key in ("level", "title", "words", "reason", "source", "status"))
                groups.setdefault(said, []).append(with_line(results, joint, text_of(joint, "name")))
    in_order = sorted(groups.items(), key=lambda group: _LEVELS.index(group[0][0]))
    rows = [_row(said, names) for said, names in in_order]
    head = (
        words_column("Joint", "20mm"), words_column("Level", "30mm"), words_column("Advice", "1.5fr"),
        words_column("Why", "1fr"), words_column("Source", "30mm"),
    )  # fmt: skip
    return table(head, rows, "Advice on materials: no proof")


def _row(said: Sequence[str], names: Sequence[str]) -> tuple[Cell, ...]:
    level, title, words, reason, source, status = said
    return "; ".join(names), (level, title), _printed(words), reason, (_printed(source), status)


def _printed(words: str) -> str:
    """Return words with degrees as papers write them."""
    return words.replace(" degC", " °C")


def _goes_by_table(joints: Sequence[Record], units: Units) -> Tree:
    groups: dict[tuple[Cell, ...], list[str]] = {}
    for joint in joints:
        groups.setdefault(_goes_by(record_of(joint, "advice_goes_by"), units), []).append(text_of(joint, "name"))
    head = (
        words_column("Joint", "20mm"), words_column("Bellows of", "30mm"), words_column("In it", "1fr"),
        words_column("Round it", "1fr"), words_column("Metal between", "32mm"), words_column("Test water", "26mm"),
    )  # fmt: skip
    rows = [("; ".join(names), *cells) for cells, names in groups.items()]
    return table(head, rows, "What the advice goes by")


def _goes_by(said: Record, units: Units) -> tuple[Cell, ...]:
    """Return the cells of one joint: material, medium, surroundings, temperatures and pressure, test water."""
    heat = units.temperature
    coldest, hottest = (told(number_of(said, key), heat, 0) for key in ("coldest_c", "hottest_c"))
    least = maybe_number(said, "least_pressure_bar")
    lining, ends = text_of(said, "lining"), text_of(said, "ends_material")
    wetted = f"lining of {lining}" if lining else "no lining said: taken as wetted"
    content = _content(said, "chlorides_ppm")
    traces = [word for word in texts_of(said, "traces") if word != "chlorides" or not content]
    if said.get("traces") is None:
        traces.append(f"what else it holds: {NOT_SAID}")
    return (
        (text_of(said, "material") or NOT_SAID, f"{wetted}; ends: {ends or NOT_SAID}"),
        (text_of(said, "medium"), ", ".join(filter(None, (content, *traces)))),
        (", ".join(texts_of(said, "around")) or NOT_SAID, "insulated" if said.get("insulated") else "not insulated"),
        (f"{coldest} and {hottest}", "" if least is None else f"least pressure {told(least, units.pressure, 2)}"),
        _content(said, "test_water_chlorides_ppm") or f"chlorides {NOT_SAID}",
    )


def _content(said: Record, key: str) -> str:
    ppm = maybe_number(said, key)
    return "" if ppm is None else f"chlorides {ppm:g} ppm"


__all__ = ["advice_part", "section_number", "warning_lines"]
