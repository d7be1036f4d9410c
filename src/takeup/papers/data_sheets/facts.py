"""What a joint is, where it stands and what it is made for, in short rows.     (papers/data_sheets/facts.py)"""

from __future__ import annotations

from collections.abc import Iterator

from takeup.drawing.reading import (
    maybe_number,
    nominal_size,
    number_of,
    record_of,
    records_of,
    text_of,
    texts_of,
)
from takeup.papers.common.asked import used_of
from takeup.papers.common.gathered import Half, Joint
from takeup.papers.common.numerals import as_given
from takeup.papers.data_sheets.block import Block, Fact, found, given
from takeup.papers.frame import Field, Grid, Head

_HALF = ", first half"  # as the reader of line files ends the place of half a double


def facts_block(head: Head, caption: str, facts: list[Fact]) -> Block:
    """Return facts as a block."""
    said = head.texts
    fields = (
        Field(head=said("data_sheet.what"), width=34.0),
        Field(head=said("data_sheet.value"), width=16.0),
        Field(head=said("data_sheet.unit"), width=12.0),
    )
    return Block(caption=caption, grid=Grid(fields=fields, rows=tuple(facts), caption=caption))


def identity(joint: Joint, head: Head) -> Block:
    """Return what the joint is and where it stands."""
    said, units = head.texts, head.units
    small = units.small
    pipe = joint.pipe
    diameter, wall = (as_given(number_of(pipe, key), small) for key in ("outside_diameter_mm", "wall_mm"))
    one = joint.first.record
    rows: list[Fact] = [
        (said("data_sheet.quantity_wanted"), 1.0, ""),
        (said("data_sheet.kind"), said.said(joint.kind.name), ""),
        (said("data_sheet.line"), text_of(joint.line, "name"), ""),
        (said("data_sheet.station"), found(joint.station, units.span, 3), units.span.unit),
        (said("data_sheet.place"), text_of(one, "at").removesuffix(_HALF if len(joint.halves) > 1 else ""), ""),
        (said("data_sheet.pipe"), nominal_size(pipe, units), ""),
        (said("data_sheet.pipe_size"), small.named(f"{diameter} × {wall}"), ""),
        (said("data_sheet.pipe_material"), text_of(pipe, "material"), ""),
        (said("data_sheet.medium"), said.said(text_of(joint.line, "medium")), ""),
    ]
    return facts_block(head, said("data_sheet.identity"), rows)


def purpose(joint: Joint, head: Head) -> Block:
    """Return what a kind is for, what it must never see, and who carries its thrust."""
    said, kind = head.texts, joint.kind.name
    rows = tuple(
        f"{said(f'data_sheet.{key}')}: {said(f'kinds.{kind} {key}')}." for key in ("takes", "never", "thrust", "lost")
    )
    return Block(caption=said("data_sheet.purpose"), said=rows)


def conditions(joint: Joint, head: Head) -> Block:
    """Return the conditions of the zone that it stands in; of a double those of both."""
    said, units = head.texts, head.units
    rows: list[Fact] = []
    first = record_of(joint.first.zone, "conditions")
    parted = any(record_of(half.zone, "conditions") != first for half in joint.halves)
    for number, half in enumerate(joint.halves):
        if number and not parted:
            continue
        whose = f", {text_of(half.zone, 'name')}" if parted else ""
        for key in ("design", "operating", "test"):
            own = record_of(record_of(half.zone, "conditions"), key)
            for what, measure in (("pressure_bar", units.pressure), ("temperature_c", units.temperature)):
                word = said("data_sheet.pressure" if what == "pressure_bar" else "data_sheet.temperature")
                value = given(maybe_number(own, what), measure, said("data_sheet.not_given"))
                rows.append((f"{said(f'data_sheet.{key}')}, {word}{whose}", value, measure.unit))
    rows += list(_surroundings(joint, head))
    return facts_block(head, said("data_sheet.conditions"), rows)


def _surroundings(joint: Joint, head: Head) -> Iterator[Fact]:
    said, units = head.texts, head.units
    resolved = record_of(record_of(joint.results, "input"), "resolved")
    vacuum, site = record_of(resolved, "vacuum"), record_of(resolved, "site")
    none = said("data_sheet.not_given")
    if vacuum.get("possible"):
        value = given(maybe_number(vacuum, "pressure_bar"), units.pressure, none)
        yield said("data_sheet.vacuum_down_to"), value, units.pressure.unit
    elif vacuum:
        yield said("data_sheet.vacuum"), said("data_sheet.not_possible"), ""
    for key in ("installation", "coldest", "hottest"):
        value = given(maybe_number(site, f"{key}_c"), units.temperature, none)
        yield said(f"data_sheet.{key}"), value, units.temperature.unit


def dimensions(joint: Joint, head: Head) -> Block:
    """Return its lengths, as made and as set, and how far it may stand out of line."""
    said, units = head.texts, head.units
    small, turn = units.small, units.of_check("deg")
    none, one = said("data_sheet.not_given"), joint.first.record
    rows: list[Fact] = [
        (said("data_sheet.length"), given(used_of(joint, "length"), small, none), small.unit),
        (said("data_sheet.set_length"), given(_both(joint, "set_length_mm"), small, none), small.unit),
        (said("data_sheet.preset"), given(_both(joint, "preset_mm"), small, none), small.unit),
        (said("data_sheet.live_length"), given(joint.first.given("live_length_mm"), small, none), small.unit),
    ]
    if joint.pairs:
        rows.append((said("data_sheet.centres"), given(joint.first.given("centres_mm"), small, none), small.unit))
    rows += [
        (said("data_sheet.aside"), given(maybe_number(one, "misalignment_lateral_mm"), small, none), small.unit),
        (said("data_sheet.askew"), given(maybe_number(one, "misalignment_angular_deg"), turn, none), turn.unit),
    ]
    return facts_block(head, said("data_sheet.dimensions"), rows)


def _both(joint: Joint, key: str) -> float:
    return sum(number_of(half.record, key) for half in joint.halves)


def cycles(joint: Joint, head: Head) -> Block:
    """Return how often which movement: the cycles asked for, and the whole range over all states."""
    said, units = head.texts, head.units
    resolved = record_of(record_of(joint.results, "input"), "resolved")
    rows: list[Fact] = []
    for item in records_of(resolved, "cycles"):
        start, end = (said(f"data_sheet.at_{text_of(item, key)}") for key in ("from", "to"))
        name = said("data_sheet.from_to", start=start, end=end)
        rows.append((name, number_of(item, "count"), said("data_sheet.times")))
    for half in joint.halves:
        rows += _ranges(half, f", {half.name}" if len(joint.halves) > 1 else "", head)
    rows.append(
        (said("data_sheet.rated_cycles"), given(joint.first.given("rated_cycles"), units.of_check(""),
                                                said("data_sheet.not_given")), "")
    )  # fmt: skip
    return facts_block(head, said("data_sheet.cycles"), rows)


def _ranges(half: Half, whose: str, head: Head) -> Iterator[Fact]:
    """Yield the least and the greatest of the axial movement with any friction, and the range between them."""
    shortest, longest = half.reach("shortest_mm"), half.reach("longest_mm")
    if shortest is None or longest is None:
        return
    said, small = head.texts, head.units.small
    for key, value in (("shortest", shortest), ("longest", longest), ("range", longest - shortest)):
        yield f"{said(f'data_sheet.{key}')}{whose}", found(value, small, 1), small.unit


def ends(joint: Joint, head: Head) -> Block:
    """Return ends, liner and cover, as far as they are said."""
    said, units = head.texts, head.units
    small = units.small
    fitting = record_of(joint.first.record, "fitting")
    own, liner = record_of(fitting, "ends"), record_of(fitting, "liner")
    none = said("data_sheet.not_said")
    rows: list[Fact] = [
        (said("data_sheet.ends"), said(f"data_sheet.ends_{text_of(own, 'kind')}") if own else none, ""),
        (said("data_sheet.liner"), _yes(liner.get("fitted"), head), ""),
    ]
    if liner.get("fitted"):
        rows += [
            (said(f"data_sheet.liner_{key}"), given(maybe_number(liner, f"{key}_mm"), small, none), small.unit)
            for key in ("clearance", "length")
        ]
        needed = maybe_number(liner, "clearance_needed_mm")
        if needed is not None:
            rows.append((said("data_sheet.liner_clearance_needed"), found(needed, small, 1), small.unit))
        rows.append((said("data_sheet.liner_drained"), _yes(liner.get("drained"), head), ""))
    speed = units.of_check("m/s")
    velocity = maybe_number(fitting, "velocity_m_per_s")
    rows += [
        (said("data_sheet.velocity"), given(velocity, speed, none), speed.unit),
        (said("data_sheet.cover"), _yes(fitting.get("cover_fitted"), head), ""),
    ]
    words = record_of(fitting, "said")
    notes = [f"{said(f'data_sheet.{key}')}: {said.said(text_of(words, key))}." for key in ("liner", "cover")]
    if own:
        notes += [f"{said('data_sheet.ends')}: {said.said(text_of(own, 'allows'))}; {said.said(text_of(own, 'asks'))}."]
    block = facts_block(head, said("data_sheet.fitting"), rows)
    return Block(caption=block.caption, grid=block.grid, said=tuple(notes))


def _yes(value: object, head: Head) -> str:
    said = head.texts
    if value is None:
        return said("data_sheet.not_said")
    return said("data_sheet.yes" if value else "data_sheet.no")


def materials(joint: Joint, head: Head) -> Block:
    """Return the metals as far as they are known, what the medium holds, and the advice on them."""
    said = head.texts
    goes_by = record_of(joint.first.record, "advice_goes_by")
    none = said("data_sheet.not_said")

    def words(key: str) -> str:
        return text_of(goes_by, key) or none

    def several(key: str) -> str:
        return ", ".join(said.said(one) for one in texts_of(goes_by, key)) or none

    def chlorides(key: str) -> Fact:
        value = maybe_number(goes_by, key)
        return said(f"data_sheet.{key}"), none if value is None else value, "ppm"

    rows: list[Fact] = [
        (said("data_sheet.bellows_material"), words("material"), ""),
        (said("data_sheet.ends_material"), words("ends_material"), ""),
        (said("data_sheet.traces"), several("traces"), ""),
        (said("data_sheet.around"), several("around"), ""),
        chlorides("chlorides_ppm"),
        chlorides("test_water_chlorides_ppm"),
    ]
    rows += _geometry(joint, head)
    block = facts_block(head, said("data_sheet.materials"), rows)
    return Block(caption=block.caption, grid=block.grid)


def _geometry(joint: Joint, head: Head) -> Iterator[Fact]:
    """Yield the geometry of each bellows, where it is known."""
    said, small = head.texts, head.units.small
    made = record_of(joint.first.record, "computed")
    if not made:
        return
    for key in ("inside_diameter", "convolution_height", "pitch", "ply_thickness"):
        yield said(f"data_sheet.{key}"), given(maybe_number(made, f"{key}_mm"), small, ""), small.unit
    for key in ("convolutions", "plies"):
        yield said(f"data_sheet.{key}"), number_of(made, key), ""


def hardware(joint: Joint, head: Head) -> Block | None:
    """Return rods, plates, pins and balancing bellows with their settings; None where it has none."""
    data = joint.first.data
    rods, pins, balance = (record_of(data, key) for key in ("rods", "pins", "balance"))
    if not (rods or pins or balance):
        return None
    said, units = head.texts, head.units
    none = said("data_sheet.not_given")
    sorts = {"mm": units.small, "mpa": units.stress, "n": units.force, "": units.of_check("")}
    sorts |= {"n_per_mm": units.rate, "mm2": units.area, "per_k": units.expansion}
    rows: list[Fact] = []
    for name, record, keys in (("rods", rods, _RODS), ("pins", pins, _PINS), ("balance", balance, _BALANCE)):
        for key, sort in keys if record else ():
            measure = sorts[sort]
            value = given(maybe_number(record, f"{key}_{sort}" if sort else key), measure, none)
            rows.append((said(f"data_sheet.{name}_{key}"), value, measure.unit))
    if pins:
        rows.append((said("data_sheet.pins_way"), said.said(text_of(pins, "way")), ""))
    whose = [text_of(record, "source") for record in (rods, pins, balance) if record]
    block = facts_block(head, said("data_sheet.hardware"), rows)
    return Block(caption=block.caption, grid=block.grid, said=(said("data_sheet.whose", source="; ".join(whose)),))


_RODS = (
    ("count", ""), ("diameter", "mm"), ("circle", "mm"), ("gap", "mm"), ("length", "mm"), ("modulus", "mpa"),
    ("expansion", "per_k"), ("can_carry", "n"), ("yield_strength", "mpa"),
)  # fmt: skip
_PINS = (
    ("spread", "mm"), ("diameter", "mm"), ("width", "mm"), ("thickness", "mm"), ("length", "mm"), ("modulus", "mpa"),
    ("friction_low", ""), ("friction_high", ""), ("can_carry", "n"), ("yield_strength", "mpa"),
)  # fmt: skip
_BALANCE = (("axial_rate", "n_per_mm"), ("effective_area", "mm2"), ("can_carry", "n"), ("can_be_pushed", "n"))

__all__ = [
    "conditions",
    "cycles",
    "dimensions",
    "ends",
    "facts_block",
    "hardware",
    "identity",
    "materials",
    "purpose",
]
