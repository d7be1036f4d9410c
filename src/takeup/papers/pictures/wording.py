"""What stands on a picture beside the lines: head, what is drawn how, scale of colours, foot. (papers/pictures/)"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from takeup.drawing.labels import Box
from takeup.drawing.lettering import box_of, folded, shortened
from takeup.drawing.mesh.scene import Scene
from takeup.drawing.mesh.tones import tone_of
from takeup.drawing.reading import Record, Results, number_of, records_of, text_of
from takeup.drawing.sheet import Anchor, Item, Point, Polyline, Stroke, Text
from takeup.edge import Measure
from takeup.papers.common.numerals import as_given, told
from takeup.papers.frame import Head
from takeup.papers.pictures.view import HEIGHT, WIDTH, View

EDGE = 12.0
"""Of the sheet [mm]."""
_BAR = (62.0, 3.4, 48)  # the scale of colours: width and height [mm], steps
_FOOT = 18.5  # the foot begins so far above the lower edge [mm]
_SMALL, _TINY = 2.3, 2.1
_CAUTIONS = 4  # lines of them
_ZONES = 3  # that the head tells of
_WHOLE, _TENTHS = 20.0, 2.0  # greatest movements from which the scale has no decimals, and one [mm]
_HAIR = Stroke(width=0.15, ink="grey")
_TIP, _TAIL, _HALF, _NOTCH = 8.0, -4.0, 3.2, -1.8  # of the arrow to the north [mm]
TENTHS = 1
"""Decimals of a movement in millimetres."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Wording:
    """Words of one picture.

    Args:
        results: the results document.
        head: of the paper.
        view: how the lines are looked at.
        scene: the state.
    """

    results: Results
    head: Head
    view: View
    scene: Scene

    @property
    def state(self) -> str:
        """The state in the language of the paper."""
        said = self.head.texts
        return said.said(self.scene.state) if self.scene.state else said("pictures.lying")

    @property
    def title(self) -> str:
        """Of the picture."""
        return self.head.texts("pictures.title", lines=capital(self.head.lines), state=self.state)

    @property
    def stretched(self) -> str:
        """How many times larger movements are drawn."""
        said, factor = self.head.texts, self.view.stretch
        return said("pictures.unstretched") if factor == 1 else said("pictures.stretched", factor=factor)

    @property
    def greatest(self) -> float:
        """The greatest movement of a node in this state [m]."""
        lines = self.scene.lines
        return max((float(line.moved(line.movement.stations).max(initial=0.0)) for line in lines), default=0.0)

    @property
    def alternative(self) -> str:
        """The picture in words, for those who cannot see it."""
        said, lines = self.head.texts, capital(self.head.lines)
        if not self.scene.state:
            return said("pictures.alt_lying", lines=lines)
        by = told(self.greatest * 1e3, self.head.units.small, TENTHS)
        return said("pictures.alt", lines=lines, state=self.state, stretched=self.stretched, by=by)

    def items(self) -> list[Item]:
        """Return everything."""
        scale = self._scale() if self.scene.state else ()
        return [*self._heading(), *self._legend(), *scale, *self._north(), *self._foot()]

    def boxes(self) -> list[Box]:
        """Return the boxes that it fills on the sheet."""
        found = [box_of(item) for item in self.items() if isinstance(item, Text)]
        tips = [point for item in self._north() if isinstance(item, Polyline) for point in item.points]
        return [
            *found,
            (min(x for x, _ in tips), min(y for _, y in tips), max(x for x, _ in tips), max(y for _, y in tips)),
        ]

    def _heading(self) -> Iterator[Item]:
        head, wide = self.head, WIDTH - 2.0 * EDGE
        belongs = " · ".join(filter(None, (head.project, head.running, head.day)))
        yield Text(at=(EDGE, 13.5), words=shortened(self.title, 5.6, 0.95 * wide), size=5.6, bold=True)
        yield Text(at=(EDGE, 19.5), words=shortened(belongs, 3.0, wide), size=3.0, ink="grey")
        conditions = self._conditions()
        if conditions:
            yield Text(at=(EDGE, 26.0), words=shortened(conditions, 3.4, wide), size=3.4)
        if head.demonstration:
            yield Text(at=(EDGE, 31.2), words=shortened(head.demonstration, 2.6, 0.9 * wide), size=2.6, bold=True)

    def _conditions(self) -> str:
        """Return pressure and temperature of a state: once where all zones are alike, else zone by zone."""
        states = [one for one in records_of(self.results, "states") if text_of(one, "name") == self.scene.state]
        zones = [zone for one in states for zone in records_of(one, "zones")]
        said = self.head.texts
        words = [self._condition(zone) for zone in zones]
        if not words:
            return ""
        if len(set(words)) == 1:
            return said("pictures.everywhere", pressure=words[0][0], temperature=words[0][1])
        each = [
            said("pictures.zone", zone=text_of(zone, "zone"), pressure=pressure, temperature=temperature)
            for zone, (pressure, temperature) in zip(zones, words, strict=True)
        ]
        more = len(each) - _ZONES
        return "; ".join([*each[:_ZONES], *([said("pictures.more_zones", count=more)] if more > 0 else [])])

    def _condition(self, zone: Record) -> tuple[str, str]:
        units = self.head.units
        pressure = units.pressure.named(as_given(number_of(zone, "pressure_bar"), units.pressure))
        return pressure, units.temperature.named(as_given(number_of(zone, "temperature_c"), units.temperature))

    def _legend(self) -> Iterator[Item]:
        """Yield what is drawn how, at the bottom left."""
        said, view = self.head.texts, self.view
        moved = bool(self.scene.state)
        lines = [
            said("pictures.isometric" if view.seen.isometric else "pictures.axonometric"),
            self.stretched if moved else said("pictures.not_solved"),
            *([said("pictures.thicker", factor=view.thick)] if view.thick > 1 else []),
            *([said("pictures.behind")] if moved else []),
            *([said("pictures.few_holds")] if view.crowded else []),
        ]
        top = HEIGHT - _FOOT - 4.5 - 3.6 * (len(lines) - 1) - 1.6
        for number, words in enumerate(lines):
            yield Text(at=(EDGE, top + 3.6 * number), words=capital(words), size=2.7, bold=number == 1)

    def _scale(self) -> Iterator[Item]:
        """Yield the scale of colours with its figures."""
        (wide, high, steps), small = _BAR, self.head.units.small
        left, top = WIDTH - EDGE - wide, HEIGHT - _FOOT - 13.5
        for step in range(steps):
            tone = tone_of(np.array([(step + 0.5) / steps]))[0]
            x, end = left + wide * step / steps, left + wide  # to the end, so that the next one lies on it
            corners = ((x, top), (end, top), (end, top + high), (x, top + high))
            yield Polyline(points=corners, stroke=None, closed=True, fill=hex_of(tuple(float(part) for part in tone)))
        frame = ((left, top), (left + wide, top), (left + wide, top + high), (left, top + high))
        yield Polyline(points=frame, stroke=_HAIR, closed=True)
        words = f"{capital(self.head.texts('pictures.bar'))}, {small.unit}"
        yield Text(at=(left, top - 1.8), words=words, size=2.7)
        places: tuple[tuple[float, Anchor], ...] = ((0.0, "start"), (0.5, "middle"), (1.0, "end"))
        for share, anchor in places:
            figures = _figures(small, share * self.view.greatest * 1e3, self.view.greatest * 1e3)
            yield Text(at=(left + share * wide, top + high + 3.6), words=figures, size=2.7, anchor=anchor)

    def _north(self) -> Iterator[Item]:
        """Yield an arrow to the north, lying on the ground as it is seen."""
        at = (WIDTH - EDGE - 9.0, 24.0)
        east, north = (self.view.seen.flat(np.array([way]))[0, :2] for way in ([1.0, 0.0, 0.0], [0.0, 1.0, 0.0]))

        def placed(x: float, y: float) -> Point:
            u, v = x * east + y * north
            return at[0] + float(u), at[1] - float(v)

        for side, fill in ((-1.0, "#000000"), (1.0, "#ffffff")):
            points = (placed(0.0, _TIP), placed(side * _HALF, _TAIL), placed(0.0, _NOTCH))
            yield Polyline(points=points, stroke=Stroke(width=0.2), closed=True, fill=fill)
        tip = placed(0.0, _TIP + 3.0)
        yield Text(
            at=(tip[0], tip[1] + 1.2), words=self.head.texts("layout.north"), size=3.4, anchor="middle", bold=True
        )

    def _foot(self) -> Iterator[Item]:
        """Yield the cautions, and what the picture comes from."""
        head, wide, y = self.head, WIDTH - 2.0 * EDGE, HEIGHT - _FOOT
        words = head.texts("pictures.cautions", words=" ".join(head.cautions)) if head.cautions else ""
        yield Polyline(points=((EDGE, y - 3.2), (WIDTH - EDGE, y - 3.2)), stroke=Stroke(width=0.15, ink="pale"))
        for number, line in enumerate(folded(words, _SMALL, wide, _CAUTIONS)):
            yield Text(at=(EDGE, y + 3.0 * number), words=line, size=_SMALL)
        made = f"{head.tool} · {head.file} · SHA-256 {head.sha256} · {head.texts('frame.outside')}"
        yield Text(at=(EDGE, HEIGHT - 5.6), words=shortened(made, _TINY, wide), size=_TINY, ink="grey")


def capital(words: str) -> str:
    """Return words that begin with a capital."""
    return words[:1].upper() + words[1:]


def hex_of(colour: tuple[float, ...]) -> str:
    """Return a colour from 0 to 1 as "#rrggbb"."""
    return "#" + "".join(f"{round(255.0 * part):02x}" for part in colour)


def _figures(small: Measure, value: float, greatest: float) -> str:
    """Return a movement [mm] with as many figures as the greatest needs."""
    decimals = 0 if greatest >= _WHOLE or value == 0.0 else 1 if greatest >= _TENTHS else 2
    return small.figures(value, small.decimals(decimals))


__all__ = ["EDGE", "TENTHS", "Wording", "capital", "hex_of"]
