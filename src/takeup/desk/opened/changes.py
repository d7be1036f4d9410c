"""A change that the page asks for, as another text and words for it.     (desk/opened/changes.py)"""

from __future__ import annotations

from itertools import zip_longest

from takeup.desk.interface import Change
from takeup.desk.opened.palette import SERIES, piece_of
from takeup.desk.opened.readings import Reading
from takeup.errors import TakeupError
from takeup.library import friction_pairs
from takeup.line import Line, Study
from takeup.line.parts import station_words
from takeup.line.reading.edit_places import with_hold, with_moved, with_selected_joint, without
from takeup.line.reading.wording import scalar


class ChangeRefused(TakeupError):
    """A change that cannot be made; the message says why."""


def changed(text: str, reading: Reading, change: Change) -> tuple[str, str]:
    """Return the text after a change of places, and what the change did.

    Args:
        text: before it.
        reading: of that text.
        change: a move, an addition or a removal.

    Raises:
        ChangeRefused: the text has faults, or what is asked is not there.
        EditRefused: the text has no words that could be changed.
    """
    if reading.read is None or reading.resolved is None:
        raise ChangeRefused("the text has faults; mend them first, then things can be moved")
    read, resolved = reading.read, reading.resolved
    if change["do"] == "add":
        return _added(text, read, change)
    line, name = _split(resolved, change.get("id", ""))
    if change["do"] == "remove":
        return without(text, read, resolved, line=line, name=name), f"taking out {name}"
    station = _on_line(resolved, line, change)
    new = with_moved(text, read, resolved, line=line, name=name, station=station)
    return new, f"moving {name} to {station_words(station)}"


def typed_words(before: str, after: str) -> str:
    """Return what typing did: in which line of the text, so that typing on in one line is one change."""
    pairs = zip_longest(before.split("\n"), after.split("\n"))
    first = next((number for number, (old, new) in enumerate(pairs, start=1) if old != new), 1)
    return f"typing in line {first}"


def _added(text: str, read: Study, change: Change) -> tuple[str, str]:
    piece, line = piece_of(change.get("key", "")), change.get("line", "")
    if piece is None:
        raise ChangeRefused(f"there is no '{change.get('key', '')}' on the palette")
    station = _on_line(read, line, change)
    words = f"putting in a {piece.kind} at {station_words(station)}".replace("a intermediate", "an intermediate")
    if piece.what == "takeup":
        return with_selected_joint(text, read, line=line, kind=piece.kind, station=station, series=SERIES), words
    pair = change.get("slides_on", "")
    if piece.rubs and pair not in friction_pairs():
        raise ChangeRefused(f"a {piece.kind} rubs: say first what it slides on")
    said = [("slides_on", scalar(pair))] if piece.rubs else []
    return with_hold(text, read, line=line, kind=piece.kind, station=station, said=said), words


def _split(study: Study, place: str) -> tuple[str, str]:
    """Return the line and the name of a place's id; both may hold a slash: the line that has such a place counts."""
    begun = [line for line in study.lines if place.startswith(f"{line.name}/")]
    if not begun:
        raise ChangeRefused(f"there is no '{place}' any more")
    line = next((line for line in begun if place.removeprefix(f"{line.name}/") in _names(line)), begun[0])
    return line.name, place.removeprefix(f"{line.name}/")


def _names(line: Line) -> set[str]:
    return {hold.name for hold in line.holds} | {takeup.name for takeup in line.takeups}


def _on_line(study: Study, name: str, change: Change) -> float:
    line = next((line for line in study.lines if line.name == name), None)
    station = change.get("station_m")
    if line is None or station is None:
        raise ChangeRefused("a place is a line and a station on it")
    length = sum(leg.length for leg in line.legs)
    if not 0.0 <= station <= length:
        raise ChangeRefused(f"{station:g} m is beyond the line, which runs from 0 m to {length:g} m")
    return round(station, 6)


__all__ = ["ChangeRefused", "changed", "typed_words"]
