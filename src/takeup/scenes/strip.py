"""A scene as a strip: its steps below one another, each a true picture, with one scale for all.     (scenes/strip.py)

Read `strip_sheet` first. What is drawn larger than it is, and how many times, stands at the foot.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from takeup.drawing.lettering import folded, width_of
from takeup.drawing.sheet import Anchor, Circle, Item, Point, Polyline, Sheet, Stroke, Text, View
from takeup.scenes.figure import Picture, PicturedJoint, Zone
from takeup.scenes.foot import foot_view
from takeup.scenes.frame import BOW, Frame, frame_of, from_above
from takeup.scenes.gauges import reading_items
from takeup.scenes.holdings import LINE, SMALL, arrow_scale, end_items, hold_items, room_below
from takeup.scenes.records import Scene, Step
from takeup.scenes.sketch import HALF, pipe_items, ways_of

WIDTH = 184.0
MARGIN = 6.0
_SIDE = 34.0  # room left and right of the line, for anchors and their arrows [mm]
_HEAD = 11.0
_HEADING = 4.8
_TITLE, _WORDS, _STORY = 3.7, 3.1, 3.3
_LEADING = 4.5
_MOST_LINES = 4
_BETWEEN = 6.0  # from the words under a line to the story of the step [mm]
_FULL_PRESSURE, _FULL_TEMPERATURE = 20.0, 200.0  # of gauge and thermometer, bar and degC; more if a strip needs it
_READINGS = 4.0  # room for gauge and thermometer over a picture that stands alone [mm]
_CLEAR = 4.0  # and so far from the anchor between them [mm]
_CROWDED = 20.0  # joints nearer to each other than so are written to either side [mm]
_RULE = Stroke(width=0.2, ink="pale")


@dataclass(frozen=True, kw_only=True, slots=True)
class Drawn:
    """What pictures to one scale share.

    Args:
        frame: that all lie in.
        newtons: for a millimetre of arrow.
        full: what the full scales of gauge and thermometer are.
        above: room over the line [mm].
        below: room under it [mm].
        from_above: whether they are seen from above.
    """

    frame: Frame
    newtons: float
    full: Zone
    above: float
    below: float
    from_above: bool


def strip_sheet(scene: Scene) -> Sheet:
    """Return a scene as a sheet.

    Args:
        scene: the scene, played.
    """
    drawn = drawn_for(_pictures(scene))
    heading, y = _heading(scene)
    views = [heading]
    for number, step in enumerate(scene.told.steps, start=1):
        view, y = _step(number, step, drawn, y)
        views.append(view)
    foot, y = _foot(scene, drawn, y)
    views.append(foot)
    said = " ".join(step.words for step in scene.told.steps)
    return Sheet(width=WIDTH, height=y, title=scene.entry.title, description=said, views=tuple(views))


def step_sheets(scene: Scene) -> tuple[Sheet, ...]:
    """Return the picture of every step alone, without its words, for who sets these beside it; all to one scale.

    Args:
        scene: the scene, played.
    """
    drawn = drawn_for(_pictures(scene))
    return tuple(picture_sheet(step.picture, drawn, step.title, step.words) for step in scene.told.steps)


def signs_sheet(scene: Scene) -> Sheet:
    """Return what the signs of a scene's pictures mean, and how many times movements are enlarged.

    Args:
        scene: the scene, played.
    """
    foot, height = _foot(scene, drawn_for(_pictures(scene)), 0.0)
    words = " ".join(item.words for item in foot.items if isinstance(item, Text))
    return Sheet(width=WIDTH, height=height, title=foot.title, description=words, views=(foot,))


def picture_sheet(picture: Picture, drawn: Drawn, title: str, said: str) -> Sheet:
    """Return one picture alone.

    Args:
        picture: what is to be seen.
        drawn: what it shares with others.
        title: of it.
        said: for those who cannot see it.
    """
    up, down = _bow(picture)
    items: list[Item] = []
    if _alike(picture):
        items += reading_items(picture.zones[0], (WIDTH - MARGIN, MARGIN + 2.0), drawn.full)
    foot = MARGIN + _READINGS + max(drawn.above, up) + drawn.frame.height(picture)
    items += _picture(picture, drawn, (_SIDE, foot))
    height = foot + max(drawn.below, down) + MARGIN
    view = View(title=title, scale=None, items=tuple(items))
    return Sheet(width=WIDTH, height=height, title=title, description=said, views=(view,))


def drawn_for(pictures: Sequence[Picture]) -> Drawn:
    """Return what pictures that are to be compared share.

    Args:
        pictures: all of them, or those between which the others lie.
    """
    zones = [zone for picture in pictures for zone in picture.zones]
    return Drawn(
        frame=frame_of(pictures, WIDTH - 2.0 * _SIDE),
        newtons=arrow_scale(list(pictures)),
        full=Zone(
            name="full scale",
            pressure=max(_FULL_PRESSURE, *(zone.pressure for zone in zones)),
            temperature=max(_FULL_TEMPERATURE, *(zone.temperature for zone in zones)),
        ),
        above=max(_room_above(picture) for picture in pictures),
        below=max(room_below(picture) for picture in pictures),
        from_above=from_above(pictures),
    )


def _pictures(scene: Scene) -> list[Picture]:
    return [step.picture for step in scene.told.steps]


def _foot(scene: Scene, drawn: Drawn, top: float) -> tuple[View, float]:
    """Return what the signs mean from a height on, and where it ends."""
    return foot_view(_pictures(scene), drawn.frame, drawn.newtons, (MARGIN, top, WIDTH - MARGIN))


def _heading(scene: Scene) -> tuple[View, float]:
    title = f"{scene.entry.number}  {scene.entry.title}"
    items: list[Item] = []
    y = MARGIN + 4.0
    for line in folded(title, _HEADING, WIDTH - 2.0 * MARGIN, 2):
        items.append(Text(at=(MARGIN, y), words=line, size=_HEADING, bold=True))
        y += 6.0
    y += 0.6
    for line in folded(scene.told.story, _STORY, WIDTH - 2.0 * MARGIN, _MOST_LINES):
        items.append(Text(at=(MARGIN, y), words=line, size=_STORY))
        y += _LEADING
    return View(title=title, scale=None, items=tuple(items)), y - 1.0


def _step(number: int, step: Step, drawn: Drawn, top: float) -> tuple[View, float]:
    """Return one step below a rule, and where it ends."""
    base = top + 7.0
    items: list[Item] = [
        Polyline(points=((MARGIN, top), (WIDTH - MARGIN, top)), stroke=_RULE),
        Circle(centre=(MARGIN + 2.6, base - 1.3), radius=2.6, stroke=Stroke(width=0.5), fill="#ffffff"),
        Text(at=(MARGIN + 2.6, base), words=str(number), size=_TITLE, anchor="middle", bold=True),
    ]
    items.append(Text(at=(MARGIN + 7.2, base), words=step.title, size=_TITLE, bold=True))
    first = step.picture.zones[0]
    if _alike(step.picture):
        items += reading_items(first, (WIDTH - MARGIN, base), drawn.full)
    up, down = _bow(step.picture)
    foot = top + _HEAD + max(drawn.above, up) + drawn.frame.height(step.picture)
    items += _picture(step.picture, drawn, (_SIDE, foot))
    y = foot + max(drawn.below, down) + _BETWEEN
    for line in folded(step.words, _WORDS, WIDTH - 2.0 * MARGIN, _MOST_LINES):
        items.append(Text(at=(MARGIN, y), words=line, size=_WORDS))
        y += _LEADING
    return View(title=step.title, scale=None, items=tuple(items)), y + 0.5


def _room_above(picture: Picture) -> float:
    """Return how far over the line the words of its joints reach [mm]."""
    lines = max((len(_lines(joint)) for joint in picture.joints if not _lies_across(picture, joint)), default=0)
    return HALF + 6.0 + LINE * max(lines, 1)


def _lies_across(picture: Picture, joint: PicturedJoint) -> bool:
    """Whether a joint lies across the sheet, so that its words stand beside it."""
    first, last = (picture.points[node] for node in joint.faces)
    return bool(abs(last[1] - first[1]) > abs(last[0] - first[0]))


def _bow(picture: Picture) -> tuple[float, float]:
    """Return how far a shape of bowing out reaches over the line and under it [mm]."""
    if not picture.bows:
        return 0.0, 0.0
    aside = picture.movements[:, 1]
    return BOW * float(aside.max()) + HALF + 1.0, HALF + 1.0 - BOW * float(aside.min())


def _lines(joint: PicturedJoint) -> list[str]:
    """Return what is written beside a joint, line by line."""
    rods = "" if joint.rods is None else joint.rods.words
    words = (joint.name, joint.words, "" if joint.use is None else f"use {joint.use:.2f}", rods)
    return [line for line in words if line]


def _alike(picture: Picture) -> bool:
    return len({zone.words for zone in picture.zones}) == 1


def _picture(picture: Picture, drawn: Drawn, origin: Point) -> list[Item]:
    frame = drawn.frame
    still = frame.places(picture, origin, moved=False)
    places = frame.places(picture, origin, moved=True)
    live = {pair for joint in picture.joints for pair in joint.bellows}
    ways = ways_of(still, live)
    items = _before(still) if picture.bows else []
    items += pipe_items(picture, places, still, frame.movement)
    items += hold_items(picture, still, ways, drawn.newtons, above=drawn.from_above)
    items += end_items(picture, places, ways_of(places, live))
    items += _joint_words(picture.joints, places)
    items += [] if _alike(picture) else _zone_words(picture, still)
    return [*items, *_mark(picture, still, places)]


def _before(still: list[Point]) -> list[Item]:
    """Return the line as it lay, dashed, under the shape in which it bows."""
    return [Polyline(points=tuple(still), stroke=Stroke(width=0.2, ink="grey", dash=(2.0, 1.2)))]


def _joint_words(joints: tuple[PicturedJoint, ...], places: list[Point]) -> list[Item]:
    """Return what is written over each joint, or to the right of one that lies across the sheet."""
    items: list[Item] = []
    spots = [[places[node] for node in joint.faces] for joint in joints]
    for number, (joint, (a, b)) in enumerate(zip(joints, spots, strict=True)):
        lines = _lines(joint)
        if abs(b[1] - a[1]) > abs(b[0] - a[0]):
            at: Point = (max(a[0], b[0]) + 2.0 * HALF + 4.0, (a[1] + b[1]) / 2.0 + LINE * len(lines) / 2.0 - 2.4)
            items += _words(lines, at, "start")
            continue
        low = min(a[1], b[1]) - HALF - (5.0 if joint.rods is None else 6.4) - BOW * max(joint.bow, default=0.0)
        beside = [abs(other[0][0] - b[0]) if k > number else abs(other[1][0] - a[0]) for k, other in enumerate(spots)]
        crowded = [k for k, gap in enumerate(beside) if k != number and gap < _CROWDED]
        anchor: Anchor = "middle" if not crowded else "end" if crowded[0] > number else "start"
        x = {"middle": (a[0] + b[0]) / 2.0, "start": a[0] + _CLEAR, "end": b[0] - _CLEAR}[anchor]
        items += _words(lines, (x, low), anchor)
    return items


def _words(lines: list[str], low: Point, anchor: Anchor) -> list[Item]:
    """Return lines of small words, the last of them at a place, the first one bold."""
    count = len(lines)
    return [
        Text(at=(low[0], low[1] - LINE * (count - 1 - k)), words=line, size=SMALL, anchor=anchor, bold=k == 0)
        for k, line in enumerate(lines)
    ]


def _zone_words(picture: Picture, still: list[Point]) -> list[Item]:
    """Return what each zone of a level run is at, written in the pipe where it is longest."""
    items: list[Item] = []
    anchors = [hold.node for hold in picture.holds if hold.anchor]
    for zone, start, end in zip(picture.zones, anchors[:-1], anchors[1:], strict=True):
        faces = [node for joint in picture.joints for node in joint.faces if start <= node <= end]
        cuts = sorted({still[node][0] for node in (start, end, *faces)})
        left, right = max(pairwise(cuts), key=lambda pair: pair[1] - pair[0])
        at = ((left + right) / 2.0, still[start][1] - HALF - 5.2)
        wide = width_of(zone.words, _WORDS, bold=True)
        assert wide < right - left, "a zone is long enough for its words"
        items.append(Text(at=at, words=zone.words, size=_WORDS, anchor="middle", bold=True))
    return items


def _mark(picture: Picture, still: list[Point], places: list[Point]) -> list[Item]:
    """Return a dashed stroke where the marked end stood, and how far it has gone."""
    if picture.mark is None:
        return []
    node, words = picture.mark
    before, after = still[node], places[node]
    up, down = HALF + 3.5, HALF + 3.0
    dashed = Stroke(width=0.2, ink="grey", dash=(0.9, 0.7))
    level = before[1] - up + 0.8
    return [
        Polyline(points=((before[0], before[1] - up), (before[0], before[1] + down)), stroke=dashed),
        Polyline(points=((after[0], after[1] - up), (after[0], after[1] - HALF - 0.9)), stroke=Stroke(width=0.2)),
        Polyline(points=((before[0], level), (after[0], level)), stroke=Stroke(width=0.3)),
        Text(
            at=((before[0] + after[0]) / 2.0, level - 1.6),
            words=words,
            size=SMALL,
            anchor="middle",
            bold=True,
        ),
    ]
