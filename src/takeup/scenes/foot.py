"""The foot of a strip: what its signs mean, the scale of its arrows, how many times movements are enlarged.

(scenes/foot.py) Only signs that stand on the strip are explained.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from takeup.drawing.colour import colour_of
from takeup.drawing.lettering import folded, width_of
from takeup.drawing.sheet import Circle, Item, Point, Polyline, Stroke, Text, View
from takeup.scenes.figure import Picture
from takeup.scenes.frame import Frame, from_above
from takeup.scenes.sketch import COLD, HOT, WALL
from takeup.units import to_kn

_SIZE = 2.6
_LINE = 4.6
_BOX = 4.0
_BETWEEN = 6.0
_BAR = 10.0  # mm: the arrow that the scale is told by
_USES = (0.0, 0.25, 0.5, 0.75, 1.0)
_RULE = Stroke(width=0.2, ink="pale")
_BLACK = "#000000"
_Draw = Callable[[Point], list[Item]]


def foot_view(
    pictures: Sequence[Picture], frame: Frame, newtons: float, room: tuple[float, float, float]
) -> tuple[View, float]:
    """Return the foot of a strip, and where it ends.

    Args:
        pictures: of the steps.
        frame: of the strip.
        newtons: for a millimetre of arrow.
        room: left, top and right [mm].
    """
    left, top, right = room
    items: list[Item] = [Polyline(points=((left, top), (right, top)), stroke=_RULE)]
    x, y = left, top + 5.0
    for draw, words in _entries(pictures, newtons):
        wide = _BOX * 2.0 + 1.5 + width_of(words, _SIZE)
        if x + wide > right and x > left:
            x, y = left, y + _LINE
        items += [*draw((x, y - 0.9)), Text(at=(x + _BOX * 2.0 + 1.5, y), words=words, size=_SIZE)]
        x += wide + _BETWEEN
    for line in folded(drawn_words(pictures, frame), _SIZE, right - left):
        y += _LINE
        items.append(Text(at=(left, y), words=line, size=_SIZE))
    return View(title="What the signs mean", scale=None, items=tuple(items)), y + 4.0


def drawn_words(pictures: Sequence[Picture], frame: Frame) -> str:
    """Return how things are drawn, in sentences.

    Args:
        pictures: that share a frame.
        frame: of them.
    """
    bows = any(picture.bows for picture in pictures)
    level = not from_above(pictures)
    said = ["Seen from the side; how it sags between rests is left out." if level else "Seen from above."]
    joints = any(picture.joints for picture in pictures)
    said.append("The pipe is drawn wider than it is" + (", a bellows longer." if joints else "."))
    true = [picture for picture in pictures if not picture.bows]
    most = max((float(abs(picture.movements).max()) for picture in true), default=0.0)
    if most * frame.movement < WALL.width:
        said.append("What it moves by is too little to be drawn.")
    elif round(frame.times) == 1:
        said.append("Movements are drawn to the scale of lengths.")
    else:
        said.append(f"Movements are drawn {frame.times:.0f} times larger than lengths.")
    if bows:
        said.append(
            "A shape of bowing out has no size: it is drawn as large as shows it well. What happens to the force then "
            "is not computed."
        )
    return " ".join(said)


def _entries(pictures: Sequence[Picture], newtons: float) -> list[tuple[_Draw, str]]:
    """Return the signs that stand on the strip, each with its meaning."""
    kinds = {hold.kind for picture in pictures for hold in picture.holds}
    entries: list[tuple[_Draw, str]] = []
    if any(any(picture.hot) for picture in pictures):
        entries += [(_box(COLD), "cold pipe"), (_box(HOT), "hot pipe")]
    if any("guide" in kind for kind in kinds):
        entries.append((_guide, "guide: the pipe slides along, not sideways"))
    if "rest" in kinds:
        entries.append((_rest_below if from_above(pictures) else _rest, "rest: carries weight only"))
    if "hanger" in kinds:
        entries.append((_hanger, "hanger: carries weight only"))
    if math.isfinite(newtons):
        entries.append((_arrow, f"force on an anchor: {_BAR:.0f} mm is {to_kn(newtons) * _BAR:g} kN"))
    uses = [joint.use for picture in pictures for joint in picture.joints]
    uses += [hold.use for picture in pictures for hold in picture.holds]
    if any(use is not None for use in uses):
        entries.append((_ramp, "use: 0 empty, 1 full"))
    return entries


def _box(fill: str) -> _Draw:
    """Return what draws a piece of pipe of some tint."""

    def draw(at: Point) -> list[Item]:
        return [_shape(at, ((0.5, -1.2), (_BOX * 2.0 - 0.5, -1.2), (_BOX * 2.0 - 0.5, 1.2), (0.5, 1.2)), fill)]

    return draw


def _guide(at: Point) -> list[Item]:
    return [_shape(at, ((2.4, y - 0.4), (5.6, y - 0.4), (5.6, y + 0.4), (2.4, y + 0.4)), _BLACK) for y in (-1.3, 1.3)]


def _rest(at: Point) -> list[Item]:
    return [_shape(at, ((_BOX, -1.2), (_BOX + 1.4, 1.2), (_BOX - 1.4, 1.2)), COLD)]


def _rest_below(at: Point) -> list[Item]:
    return [Circle(centre=(at[0] + _BOX, at[1]), radius=1.1, stroke=Stroke(width=0.35), fill=COLD)]


def _hanger(at: Point) -> list[Item]:
    pen = Stroke(width=0.35)
    ends = (((_BOX, 1.2), (_BOX, -1.2)), ((_BOX - 1.4, -1.2), (_BOX + 1.4, -1.2)))
    return [Polyline(points=tuple((at[0] + x, at[1] + y) for x, y in points), stroke=pen) for points in ends]


def _arrow(at: Point) -> list[Item]:
    points = ((0.0, -0.4), (5.6, -0.4), (5.6, -1.2), (8.0, 0.0), (5.6, 1.2), (5.6, 0.4), (0.0, 0.4))
    return [_shape(at, points, _BLACK)]


def _ramp(at: Point) -> list[Item]:
    """Return the colours of a use, from empty to full."""
    step = _BOX * 2.0 / len(_USES)
    return [
        _shape(at, ((k * step, -1.2), ((k + 1) * step, -1.2), ((k + 1) * step, 1.2), (k * step, 1.2)), colour_of(use))
        for k, use in enumerate(_USES)
    ]


def _shape(at: Point, points: tuple[Point, ...], fill: str) -> Polyline:
    placed = tuple((at[0] + x, at[1] + y) for x, y in points)
    return Polyline(points=placed, stroke=Stroke(width=0.2), closed=True, fill=fill)
