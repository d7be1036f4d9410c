"""Names on a picture: anchors, joints with what they do, the place that moves most.     (papers/pictures/names.py)"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

import numpy as np

from takeup.drawing.labels import Box, Label, LineOfWords, Taken, place_labels
from takeup.drawing.lettering import folded, shortened
from takeup.drawing.places import is_anchor
from takeup.drawing.reading import Record, number_of, records_of, text_of
from takeup.drawing.sheet import Item, Polyline, Stroke, Text
from takeup.papers.common.numerals import told
from takeup.papers.pictures.details import Shown, leader_of
from takeup.papers.pictures.view import HEIGHT, WIDTH, spots_of
from takeup.papers.pictures.wording import EDGE, TENTHS, Wording

_NAMES = 24  # labels at most: of more, none would be found
_LEAST = 0.05  # a joint that moves less is at rest [mm], [deg]
_ROOM = (EDGE, 33.0, WIDTH - EDGE, HEIGHT - 23.0)
_TYPE, _SMALLER = 2.7, 2.4
_LEADER = Stroke(width=0.25, ink="grey")


def named(wording: Wording, details: Sequence[Shown], faces: Sequence[Box]) -> list[Item]:
    """Return the names, and what stands over each detail.

    Args:
        wording: of the picture.
        details: that stand on it.
        faces: boxes of everything that is drawn, which names keep off.
    """
    view, scene = wording.view, wording.scene
    taken = Taken(room=_ROOM, signs=[*faces, *(detail.box for detail in details)], words=wording.boxes())
    for line in scene.lines:
        points = view.paper(line.at(np.linspace(0.0, line.centre.length, 97)))
        taken.strokes += list(pairwise(points))
    leaders = [leader_of(detail.box, detail.at) for detail in details]
    taken.strokes += [leader for leader in leaders if leader is not None]
    labels = [*_peak(wording), *_things(wording, {_key(detail.takeup) for detail in details})][:_NAMES]
    placed, _ = place_labels(labels, taken)
    led = [Polyline(points=leader, stroke=_LEADER) for leader in leaders if leader is not None]
    return [*led, *(item for items in placed for item in items), *_over(wording, details)]


def _key(row: Record) -> tuple[str, str]:
    return text_of(row, "line"), text_of(row, "name")


def _things(wording: Wording, said: Collection[tuple[str, str]]) -> Iterator[Label]:
    """Yield the names of joints and anchors, but for those that a detail tells; first those at the ends of lines.

    Of a long line there is no room for all: where it begins and where it ends has to be told.
    """
    results = wording.results
    spots = spots_of(wording.view, wording.scene, results)
    ends = {
        (text_of(line, "name"), text_of(end, "name"))
        for line in records_of(results, "lines")
        for end in records_of(line, "ends")
    }
    rows = (*records_of(results, "takeups"), *records_of(results, "holds"))
    for row in sorted(rows, key=lambda row: _key(row) not in ends):
        at = spots.get(_key(row))
        if at is None or _key(row) in said:
            continue
        if "bellows" in row or is_anchor(text_of(row, "kind")):
            yield Label(lines=((text_of(row, "name"), True), *_moves(wording, row)), spots=(at,), size=_TYPE)


def _moves(wording: Wording, row: Record) -> tuple[LineOfWords, ...]:
    """Return what a joint does in the state; nothing of a hold, or of a joint at rest."""
    words = _moves_words(wording, row)
    return ((words, False),) if words else ()


def _moves_words(wording: Wording, row: Record) -> str:
    """Return how much a joint is shorter or longer, moved aside and turned in the state; "" of a joint at rest."""
    found = [one for one in records_of(row, "movements") if text_of(one, "state") == wording.scene.state]
    said, small = wording.head.texts, wording.head.units.small
    words = []
    for one in found:
        axial, aside, turned = (number_of(one, key) for key in ("axial_mm", "lateral_mm", "angular_deg"))
        if abs(axial) >= _LEAST:
            key = "layout.shorter" if axial < 0.0 else "layout.longer"
            words.append(said(key, by=told(abs(axial), small, TENTHS)))
        if aside >= _LEAST:
            words.append(said("layout.aside", by=told(aside, small, TENTHS)))
        if turned >= _LEAST:
            words.append(said("layout.turned", by=said.figures(f"{turned:.1f}°")))
    return ", ".join(words)


def _peak(wording: Wording) -> Iterator[Label]:
    """Yield the label of the place that moves most in the state."""
    scene, head = wording.scene, wording.head
    if not scene.state or wording.greatest * 1e3 < _LEAST:
        return
    most = max(scene.lines, key=lambda line: float(line.moved(line.movement.stations).max(initial=0.0)))
    stations = most.movement.stations
    moved = most.moved(stations)
    number = int(np.argmax(moved))
    at = wording.view.paper(most.at(stations[[number]]))[0]
    words = head.texts("pictures.peak", by=told(float(moved[number]) * 1e3, head.units.small, TENTHS))
    yield Label(lines=((words, True),), spots=(at,), size=_TYPE)


def _over(wording: Wording, details: Sequence[Shown]) -> Iterator[Item]:
    """Yield what stands over each detail: the joint's name, and what it does."""
    for detail in details:
        left, top, right, _ = detail.box
        room = right - left - 5.0
        name = shortened(text_of(detail.takeup, "name"), 3.0, room)
        yield Text(at=(left + 2.5, top + 4.6), words=name, size=3.0, bold=True)
        for number, words in enumerate(folded(_moves_words(wording, detail.takeup), _SMALLER, room, 2)):
            yield Text(at=(left + 2.5, top + 8.4 + 3.2 * number), words=words, size=_SMALLER)


__all__ = ["named"]
