"""Parts of a joint seen from the side: pipe, bellows, rods, plates, pins, labels.     (drawing/joint_views/parts.py)

All along a level middle line; x to the right with the flow, sizes in millimetres on paper and to no scale. A part is
filled, so that what is drawn later lies before it. Grey says only which parts are bellows and which are hardware.
"""

from __future__ import annotations

import math

from takeup.drawing.sheet import Circle, Item, Point, Polyline, Stroke, Text

Items = tuple[Item, ...]
WIDE, HIGH, MIDDLE = 180.0, 92.0, 46.0  # of a picture, and its middle line [mm]
PIPE, CREST = 9.0, 13.5  # radius of pipe and of crests [mm]
LEFT, RIGHT = 14.0, WIDE - 14.0  # where the pipe is cut off
TYPE = 3.1
WHITE, BELLOWS, STEEL, DARK = "#ffffff", "#ececec", "#d2d2d2", "#8c8c8c"
LINE, FINE, BOLD = Stroke(width=0.35), Stroke(width=0.18), Stroke(width=0.6)
CENTRE = Stroke(width=0.18, ink="grey", dash=(6.0, 1.0, 1.0, 1.0))
GONE = Stroke(width=0.25, ink="grey", dash=(1.6, 1.0))
_ROUND = 6  # strokes of a quarter of a crest


def plate(start: Point, end: Point, fill: str = STEEL, pen: Stroke | None = LINE) -> Polyline:
    """Return a filled box between two corners, on the sheet."""
    (x, y), (x_end, y_end) = start, end
    return Polyline(points=((x, y), (x_end, y), (x_end, y_end), (x, y_end)), stroke=pen, closed=True, fill=fill)


def about(x: float, x_end: float, radius: float, fill: str = WHITE) -> Polyline:
    """Return something round about the middle line, from the side."""
    return plate((x, MIDDLE - radius), (x_end, MIDDLE + radius), fill)


def pipe(x: float, x_end: float, radius: float = PIPE) -> Items:
    """Return a stretch of pipe."""
    return (about(x, x_end, radius),)


def bellows(x: float, x_end: float, count: int = 6, radii: tuple[float, float] = (PIPE, CREST)) -> Items:
    """Return a bellows between its collars: a root, and so many round crests that stand before it."""
    root, crest = radii
    pitch = (x_end - x) / count
    lobes = tuple(_lobe(x + (n + 0.5) * pitch, 0.36 * pitch, crest) for n in range(count))
    return (about(x, x_end, root, BELLOWS), *lobes)


def _lobe(middle: float, half: float, crest: float) -> Polyline:
    angles = [math.pi * n / (2 * _ROUND) for n in range(2 * _ROUND + 1)]
    above = tuple((middle - half * math.cos(a), MIDDLE - (crest - half) - half * math.sin(a)) for a in angles)
    below = tuple((x, 2.0 * MIDDLE - y) for x, y in reversed(above))
    return Polyline(points=(*above, *below), stroke=LINE, closed=True, fill=BELLOWS)


def ring(x: float, radius: float, thick: float = 2.4, fill: str = STEEL) -> Items:
    """Return a ring or a flange round the pipe, with its middle at x."""
    return (about(x - thick / 2.0, x + thick / 2.0, radius, fill),)


def rods(x: float, x_end: float, away: float = 18.5, gap: float = 0.0) -> Items:
    """Return two rods between rings at x and x_end, their nuts outside the rings, set back by a gap.

    Args:
        x: middle of the first ring.
        x_end: of the last.
        away: of the rods from the middle line.
        gap: between ring and nut.
    """
    found: list[Item] = []
    for y in (MIDDLE - away, MIDDLE + away):
        reach = gap + 1.2 + 3.4
        found.append(plate((x - reach, y - 0.8), (x_end + reach, y + 0.8), WHITE))
        found += [plate((at - 1.2, y - 3.0), (at + 1.2, y + 3.0), STEEL) for at in (x, x_end)]
        found += [plate((out - 1.1, y - 2.0), (out + 1.1, y + 2.0), DARK) for out in (x - gap - 2.3, x_end + gap + 2.3)]
    return tuple(found)


def pin(x: float, y: float, radius: float = 1.9) -> Items:
    """Return a pin seen from its end."""
    return (
        Circle(centre=(x, y), radius=radius, stroke=LINE, fill=WHITE),
        Circle(centre=(x, y), radius=0.55 * radius, stroke=None, fill="#000000"),
    )


def bar(x: float, x_end: float, y: float, half: float = 2.6, fill: str = STEEL) -> Polyline:
    """Return a bar with round ends along the joint, its ends about x and x_end."""
    angles = [math.pi / 2.0 - math.pi * n / (2 * _ROUND) for n in range(2 * _ROUND + 1)]
    right = tuple((x_end + half * math.cos(a), y + half * math.sin(a)) for a in angles)
    left = tuple((x + x_end - px, 2.0 * y - py) for px, py in right)
    return Polyline(points=(*right, *left), stroke=LINE, closed=True, fill=fill)


def base(x: float, top: float) -> Items:
    """Return an anchor base: a foot from the joint to the ground, with the ground's hatching."""
    ground = 2.0 * MIDDLE - 22.0
    foot = ((x - 4.0, top), (x + 4.0, top), (x + 9.0, ground), (x - 9.0, ground))
    hatch = tuple(stroke((at, ground), (at - 2.5, ground + 2.5), FINE) for at in (x - 9.0 + 3.0 * n for n in range(8)))
    return (
        Polyline(points=foot, stroke=LINE, closed=True, fill=STEEL),
        stroke((x - 13.0, ground), (x + 13.0, ground), BOLD),
        *hatch,
    )


def stroke(start: Point, end: Point, pen: Stroke = LINE) -> Polyline:
    """Return a straight stroke."""
    return Polyline(points=(start, end), stroke=pen)


def arrow(start: Point, end: Point, pen: Stroke = BOLD) -> Items:
    """Return an arrow with a filled head."""
    (x, y), (x_end, y_end) = start, end
    long = math.dist(start, end)
    a, b = (x_end - x) / long, (y_end - y) / long
    foot = (x_end - 3.0 * a, y_end - 3.0 * b)
    head = (end, (foot[0] - 1.1 * b, foot[1] + 1.1 * a), (foot[0] + 1.1 * b, foot[1] - 1.1 * a))
    return (stroke(start, foot, pen), Polyline(points=head, stroke=None, closed=True, fill="#000000"))


def thrust() -> Items:
    """Return the arrows of what goes out to the anchors, either side."""
    return (
        *arrow((LEFT - 1.0, MIDDLE), (LEFT - 12.0, MIDDLE)),
        *arrow((RIGHT + 1.0, MIDDLE), (RIGHT + 12.0, MIDDLE)),
    )


def axis(x: float = LEFT - 4.0, x_end: float = RIGHT + 4.0) -> Items:
    """Return the middle line."""
    return (stroke((x, MIDDLE), (x_end, MIDDLE), CENTRE),)


def label(words: str, at: Point, to: Point) -> Items:
    """Return words with a fine line to the part that they name, and a dot on it."""
    down = to[1] > at[1]
    begin = (at[0], at[1] + 1.0 if down else at[1] - TYPE)
    return (
        Text(at=at, words=words, size=TYPE, anchor="middle"),
        stroke(begin, to, FINE),
        Circle(centre=to, radius=0.5, stroke=None, fill="#000000"),
    )


ABOVE, BELOW = 14.0, HIGH - 11.0  # base lines of labels over and under the joint
