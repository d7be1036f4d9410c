"""What to measure cold and hot, what is expected, and boxes for what is read.     (papers/card/readings.py)"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from takeup.drawing.places import is_anchor
from takeup.drawing.reading import Record, maybe_number, number_of, of_line, records_of, text_of, vectors_of
from takeup.edge import Measure
from takeup.papers.card.parts import Big, Box, Cell, card_table
from takeup.papers.common.numerals import NONE
from takeup.papers.common.printer import Printer
from takeup.papers.common.setting import INSTALLED, OPERATING, faces_in, limits_of, rod_gaps, stands_in, zone_state_at
from takeup.papers.common.tables import Tree

_LEAST_TURN, _LEAST_ASIDE = 0.05, 0.5  # degrees and mm: less is not read on site
_LEAST_MOVE = 0.5  # mm
_LEAST_CHANGE = 0.05  # mm: less is not seen in one decimal
_PER = 10.0  # K


@dataclass(frozen=True, kw_only=True, slots=True)
class _Reading:
    """One thing to measure: least and greatest expected, cold and hot; `bounds` is what it must never pass."""

    what: str
    measure: Measure
    decimals: int
    cold: tuple[float, float] | None
    hot: tuple[float, float] | None
    bounds: tuple[float, float] | None = None


def readings(printer: Printer, joints: Sequence[Record]) -> Tree | None:
    """Return the table of what to measure at the joints of a line; None where there is nothing to expect.

    Args:
        printer: of the paper.
        joints: in it, along the flow.
    """
    rows: list[list[Cell]] = []
    for joint in joints:
        for number, reading in enumerate(_of_joint(printer, joint)):
            name: Cell = Big(words=text_of(joint, "name")) if number == 0 else ""
            cells = [_range(printer, reading, reading.cold), _range(printer, reading, reading.hot)]
            rows.append([name, reading.what, *cells, _bounds(printer, reading), Box(), Box()])
    if not rows:
        return None
    heads = [printer.say(key) for key in ("joint_short", "what", "cold", "hot", "never", "read_cold", "read_hot")]
    widths = ["1fr", "1.05fr", "1.3fr", "1.4fr", "1.2fr", "0.9fr", "0.9fr"]
    return card_table(printer.say("readings"), heads, rows, widths=widths)


def _of_joint(printer: Printer, joint: Record) -> Iterator[_Reading]:
    """Yield length, gap of rods, turn and offset of a joint, as far as the study tells them."""
    units = printer.units
    small, angle = units.small, units.of_check("deg")
    cold, hot = faces_in(joint, INSTALLED), faces_in(joint, OPERATING)
    if cold is not None:
        yield _Reading(
            what=printer.say("face_to_face", unit=small.unit),
            measure=small,
            decimals=0,
            cold=(cold.least, cold.greatest),
            hot=None if hot is None else (hot.least, hot.greatest),
            bounds=limits_of(joint),
        )
    gaps = {state: list(rod_gaps(joint, state)) for state in (INSTALLED, OPERATING)}
    if gaps[INSTALLED]:
        now, then = ((min(found), max(found)) if found else None for found in gaps.values())
        yield _Reading(what=printer.say("nut_gap", unit=small.unit), measure=small, decimals=1, cold=now, hot=then)
    for key, words, measure, decimals, least in (
        ("lateral_mm", "aside", small, 0, _LEAST_ASIDE),
        ("angular_deg", "turned", angle, 1, _LEAST_TURN),
    ):
        found, before = (stands_in(joint, state, key) for state in (OPERATING, INSTALLED))
        found += _displaced(printer, joint) if found and key == "lateral_mm" else []
        if found and max(abs(one - min(before, default=0.0)) for one in found) >= least:
            yield _Reading(
                what=printer.say(words, unit=measure.unit),
                measure=measure,
                decimals=decimals,
                cold=(min(before), max(before)) if before else None,
                hot=(min(found), max(found)),
            )


def _displaced(printer: Printer, joint: Record) -> list[float]:
    """Return how far aside the thrust displaces a joint, hot; nothing where it does not [mm]."""
    own = text_of(joint, "line"), text_of(joint, "name"), OPERATING
    rows = records_of(printer.results, "second_order")
    told = [row for row in rows if (text_of(row, "line"), text_of(row, "takeup"), text_of(row, "state")) == own]
    return [after for row in told if (after := maybe_number(row, "lateral_after_mm")) is not None]


def _range(printer: Printer, reading: _Reading, found: tuple[float, float] | None) -> Cell:
    """Return "from to" in the decimals of the reading; one number where both are alike in them."""
    if found is None:
        return NONE
    least, greatest = (printer.number(value, reading.measure, reading.decimals) for value in found)
    return Big(words=least if least == greatest else printer.say("from_to", least=least, greatest=greatest))


def _bounds(printer: Printer, reading: _Reading) -> Cell:
    if reading.bounds is None:
        return NONE
    least, greatest = (printer.number(value, reading.measure, reading.decimals) for value in reading.bounds)
    return printer.say("below_above", least=least, greatest=greatest)


def reading_notes(printer: Printer, joints: Sequence[Record]) -> Iterator[str]:
    """Yield at which temperatures these are, and how much lengths change with every ten degrees."""

    def named(names: list[str]) -> str:
        return printer.names_of(text_of(joints[0], "line"), names)

    found: dict[tuple[str, str], dict[str, list[str]]] = {}
    for joint in joints:
        cold, hot = faces_in(joint, INSTALLED), faces_in(joint, OPERATING)
        near = maybe_number(zone_state_at(printer.results, joint, INSTALLED), "temperature_c")
        far = maybe_number(zone_state_at(printer.results, joint, OPERATING), "temperature_c")
        if cold is None or hot is None or near is None or far is None or near == far:
            continue
        by = abs((hot.least + hot.greatest) / 2.0 - cold.least) / abs(far - near) * _step(printer)
        if by < _LEAST_CHANGE:
            continue
        at = tuple(printer.told(value, printer.units.temperature, 1) for value in (near, far))
        told = printer.told(by, printer.units.small, 1)
        found.setdefault((at[0], at[1]), {}).setdefault(told, []).append(text_of(joint, "name"))
    step = printer.told(_step(printer), printer.units.temperature_difference, 0)
    for (near_words, far_words), changes in found.items():
        said = ("; " if any(len(names) > 1 for names in changes.values()) else ", ").join(
            printer.say("changes_by", joint=named(names), by=by) for by, names in changes.items()
        )
        yield printer.say("per_step", cold=near_words, hot=far_words, step=step, changes=said)
    if found:
        yield printer.say("band_words")
    sagging = [text_of(joint, "name") for joint in joints if _sags(joint)]
    if sagging:
        yield printer.say("sag_words", joints=named(sagging))


def _sags(joint: Record) -> bool:
    """Tell whether a joint shows an offset, a turn or unlike gaps before anything is warm."""
    cold = next((row for row in records_of(joint, "movements") if text_of(row, "state") == INSTALLED), {})
    aside, turned = (abs(maybe_number(cold, key) or 0.0) for key in ("lateral_mm", "angular_deg"))
    gaps = list(rod_gaps(joint, INSTALLED))
    unlike = bool(gaps) and max(gaps) - min(gaps) >= _LEAST_CHANGE
    return aside >= _LEAST_ASIDE or turned >= _LEAST_TURN or unlike


def _step(printer: Printer) -> float:
    """Return ten degrees of the scale, in kelvin."""
    return _PER / printer.units.temperature_difference.number(1.0)


def positions(printer: Printer, line: Record, joints: Sequence[Record]) -> Tree | None:
    """Return where the pipe is to move at bends and at the holds beside joints; None where it was not solved.

    Args:
        printer: of the paper.
        line: the line.
        joints: in it.
    """
    shapes = {text_of(shape, "state"): shape for shape in of_line(printer.results, "shapes", line)}
    if INSTALLED not in shapes or OPERATING not in shapes:
        return None
    stations = [number_of(node, "station_m") for node in records_of(line, "nodes")]
    cold, hot = (vectors_of(shapes[state], "displacement_mm") for state in (INSTALLED, OPERATING))
    small = printer.units.small
    rows: list[list[Cell]] = []
    for name, station in _places(printer, line, joints):
        node = min(range(len(stations)), key=lambda number: abs(stations[number] - station))
        moved = [far - near for near, far in zip(cold[node], hot[node], strict=True)]
        if max(map(abs, moved)) < _LEAST_MOVE:
            continue
        cells = [Big(words=printer.number(value, small, 0)) for value in moved]
        rows.append([name, printer.number(station, printer.units.length, 2), *cells, Box()])
    if not rows:
        return None
    heads = [
        printer.say("place"),
        printer.headed("station", printer.units.length),
        *(printer.headed(key, small) for key in ("east", "north", "up")),
        printer.headed("read_move", small),
    ]
    return card_table(printer.say("positions"), heads, rows, widths=["1.6fr", "auto", "auto", "auto", "auto", "1fr"])


def _places(printer: Printer, line: Record, joints: Sequence[Record]) -> list[tuple[str, float]]:
    """Return the corners of a line and the hold on either side of each joint that is no anchor, along the flow."""
    found = {(number_of(bend, "station_m"), text_of(bend, "name")) for bend in records_of(line, "bends")}
    holds = sorted(
        (number_of(hold, "station_m"), text_of(hold, "name"))
        for hold in of_line(printer.results, "holds", line)
        if not is_anchor(text_of(hold, "kind"))
    )
    for joint in joints:
        before = [place for place in holds if place[0] <= number_of(joint, "from_m")]
        beyond = [place for place in holds if place[0] >= number_of(joint, "to_m")]
        found |= {*before[-1:], *beyond[:1]}
    return [(name, station) for station, name in sorted(found)]


__all__ = ["positions", "reading_notes", "readings"]
