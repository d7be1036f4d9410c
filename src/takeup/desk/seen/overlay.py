"""What moves over the drawings: the line as it is moved, anchors pushed, joints, rods, guides. (desk/seen/overlay.py)

SVG in the sheet's millimetres. Classes say what is drawn and how it stands; the page gives them ink. Nothing has a
style of its own, and colour is left to the page, which has the number to put beside it.

    moved                              the pipe, moved so many times as it moves
    anchor-force [over] [unstated]     what an anchor is pushed with; its length is the use
    contact bears, contact free        a guide, rest or stop that bears, or that the pipe is clear of
    movement                           how far the pipe moves at a guide, rest or stop; the farthest with its number
    joint-moved                        a joint, longer or shorter by the share of its rating
    rod taut, rod slack                its rods
    picked                             what is in the hand
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from xml.sax.saxutils import quoteattr

import numpy as np

from takeup.desk.interface import HoldLook, Overlay, TakeupLook
from takeup.desk.seen.curves import Curve
from takeup.desk.seen.layouts import Laid, PlanSheet, SectionSheet, Spot, spot_at
from takeup.desk.seen.marks import HoldMark, JointMark
from takeup.desk.seen.strokes import SEEN, movement, off, points_text, stroke
from takeup.desk.seen.trips import Trip
from takeup.drawing.lettering import box_of
from takeup.drawing.places import is_anchor
from takeup.drawing.scale import round_down
from takeup.drawing.sheet import Text
from takeup.mechanics.frame import Floats
from takeup.units import to_mm

DRAWN = 12.0
"""About so far the greatest movement of a walk is drawn [mm]."""
MOST_TIMES = 500.0
"""More often nothing is drawn unasked: what would still not be seen is nothing that anybody measures on site."""
_FULL, _LONGEST, _UNSTATED = 10.0, 20.0, 5.0  # length of an anchor's arrow at use one, at most, and without use [mm]
_UNSEEN = 0.05  # of the force: so little of it in the plane of the sheet has no direction there
_HEAD = 1.6  # an arrow's head [mm]
_JOINT, _GIVES = 6.0, 0.5  # length of a joint's sign, and how much of it a movement as rated is drawn [mm]
_WAVES, _CREST, _ROD = 5, 1.5, 2.5
_TURNED = 0.9  # of the distance between two corners: so far one is drawn moved against the other
_BEARS, _FREE = 1.3, 2.3  # how far beside the pipe the sign of a contact stands [mm]


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Scene:
    """What is drawn of one step.

    Args:
        trip: the walk.
        step: of it.
        times: how many times movements are drawn.
        curves: of its lines.
        holds: as looked at, each with its mark.
        joints: the same.
        picked: id of what is in the hand; "" for nothing.
    """

    trip: Trip
    step: int
    times: float
    curves: tuple[Curve, ...]
    holds: tuple[tuple[HoldMark, HoldLook], ...]
    joints: tuple[tuple[JointMark, TakeupLook], ...]
    picked: str


def overlays_of(scene: Scene, laid: tuple[Laid, ...]) -> list[Overlay]:
    """Return what moves over the drawings of every line.

    Args:
        scene: what is drawn.
        laid: the lines on their sheets, in the order of the study.
    """
    found = []
    for one, curve in zip(laid, scene.curves, strict=True):
        line = one.model.line.name
        moved = curve.moved(scene.trip.moved[scene.step])
        plan, section = one.plan.spots, one.section.spots
        if scene.picked:
            plan, section = dict(plan), dict(section)
            for name, station in _stations_of(scene, line):
                if name not in plan or f"{line}/{name}" == scene.picked:
                    plan[name], section[name] = spot_at(one, station)
        found.append(Overlay(line=line, view="plan", svg="".join(_drawn(scene, one.plan, plan, curve, moved))))
        found.append(Overlay(line=line, view="section", svg="".join(_drawn(scene, one.section, section, curve, moved))))
    return found


def _stations_of(scene: Scene, line: str) -> Iterator[tuple[str, float]]:
    """Yield the name and the station of every hold and joint of a line, as it is with something in the hand."""
    for mark, _ in scene.holds:
        if mark.line == line:
            yield mark.holding.name, mark.holding.station
    for joint, _ in scene.joints:
        if joint.line == line:
            yield joint.takeup.name, joint.takeup.position.station


def _drawn(
    scene: Scene, sheet: PlanSheet | SectionSheet, spots: Mapping[str, Spot], curve: Curve, moved: Floats
) -> Iterator[str]:
    line = curve.model.line.name
    at = sheet.paper(curve.points, curve.stations) + scene.times * sheet.shifted(moved, curve.ways)
    for begin, end in curve.runs:
        yield f'<polyline class="moved" fill="none" stroke="currentColor" points="{points_text(at[begin:end])}"/>'
    own = [(mark, hold) for mark, hold in scene.holds if mark.line == line]
    yield from _growth(scene, sheet, spots, [mark for mark, _ in own if not mark.holding.kind.endswith("anchor")])
    for mark, hold in own:
        spot = spots[mark.holding.name]
        if hold["contact"]:
            yield _contact(hold, spot)
        if is_anchor(mark.holding.kind) and mark.holding.acts_in(scene.trip.way.here[scene.step]):
            yield _force(scene, mark, hold, sheet, spot)
    for joint, takeup in scene.joints:
        if joint.line == line:
            yield _joint(joint, takeup, spots[joint.takeup.name])
    if scene.picked.startswith(f"{line}/"):
        x, y = spots[scene.picked.removeprefix(f"{line}/")].at
        yield f'<circle class="picked" fill="none" stroke="currentColor" cx="{x:.2f}" cy="{y:.2f}" r="3.4"/>'


def _growth(
    scene: Scene, sheet: PlanSheet | SectionSheet, spots: Mapping[str, Spot], marks: list[HoldMark]
) -> Iterator[str]:
    """Yield how far the pipe is from where it lies at some holds; the farthest of them with its number."""
    if not marks:
        return
    moved = scene.trip.moved[scene.step, [mark.node for mark in marks], :3]
    shifts = scene.times * sheet.shifted(moved, np.stack([mark.way for mark in marks]))
    whole = np.linalg.norm(moved, axis=1)
    seen = np.flatnonzero(np.linalg.norm(shifts, axis=1) >= SEEN).tolist()
    taken = [box_of(item) for item in sheet.view.items if isinstance(item, Text)]
    most = max(seen, key=lambda number: float(whole[number]), default=-1)
    for number in seen:
        words = f"{to_mm(float(whole[number])):.0f} mm" if number == most else ""
        mark, (dx, dy) = marks[number], shifts[number].tolist()
        yield movement(mark.id, spots[mark.holding.name], (dx, dy), words, taken)


def _contact(hold: HoldLook, spot: Spot) -> str:
    """Return two strokes beside the pipe: close where a guide bears, apart where the pipe is clear of it."""
    away = _BEARS if hold["contact"] == "bears" else _FREE
    strokes = "".join(stroke(off(spot, -1.2, side), off(spot, 1.2, side)) for side in (-away, away))
    kind = f"contact {hold['contact']}"
    return f'<g class="{kind}" data-id={quoteattr(hold["id"])} stroke="currentColor">{strokes}</g>'


def _force(scene: Scene, mark: HoldMark, hold: HoldLook, sheet: PlanSheet | SectionSheet, spot: Spot) -> str:
    """Return the arrow of what an anchor is pushed with; a ring where it is pushed square to the sheet."""
    force = scene.trip.loads[scene.step, mark.support, :3]
    u, v = sheet.shifted(force, mark.way).tolist()
    seen, whole = math.hypot(u, v), math.hypot(*_unturned(sheet, force))
    use = hold["use"]
    kind = (
        "anchor-force" + ("" if use is not None else " unstated") + (" over" if use is not None and use > 1.0 else "")
    )
    head = f'<g class="{kind}" data-id={quoteattr(hold["id"])} stroke="currentColor" fill="currentColor">'
    long = _UNSTATED if use is None else min(_FULL * use, _LONGEST)
    x, y = spot.at
    if whole == 0.0 or long == 0.0:
        return ""
    if seen < _UNSEEN * whole:
        return f'{head}<circle fill="none" cx="{x:.2f}" cy="{y:.2f}" r="{long / 2.0:.2f}"/></g>'
    a, b = u / seen, v / seen
    tip, neck = (x + long * a, y + long * b), max(long - _HEAD, 0.0)
    barb = [tip] + [(x + neck * a - side * b, y + neck * b + side * a) for side in (-0.8, 0.8)]
    return f'{head}{stroke((x, y), tip)}<polygon points="{points_text(np.array(barb))}"/></g>'


def _unturned(sheet: PlanSheet | SectionSheet, force: Floats) -> tuple[float, float, float]:
    """Return a vector at the scale of a sheet, whichever way it points."""
    per_metre = 1000.0 / sheet.frame.scale
    x, y, z = (per_metre * float(part) for part in force)
    return x, y, z


def _joint(mark: JointMark, takeup: TakeupLook, spot: Spot) -> str:
    """Return a joint, longer or shorter by the share of its rating that it has moved; its rods slack or taut."""
    data = mark.takeup.data
    room = data.axial_extension if takeup["axial_mm"] > 0.0 else data.axial_compression
    share = takeup["axial_mm"] / (1e3 * room) if room else 0.0
    half = 0.5 * _JOINT * (1.0 + _GIVES * max(-1.0, min(share, 1.5)))
    waves = [
        off(spot, -half + 2.0 * half * number / (2 * _WAVES), _CREST * (-1.0) ** number * (0 < number < 2 * _WAVES))
        for number in range(2 * _WAVES + 1)
    ]
    bellows = f'<polyline class="bellows" fill="none" points="{points_text(np.array(waves))}"/>'
    rods = ""
    if takeup["rods"]:
        kind = "rod taut" if any(rod["engaged"] for rod in takeup["rods"]) else "rod slack"
        over = 0.5 if kind == "rod taut" else 1.6
        rods = "".join(
            stroke(off(spot, -half - over, side), off(spot, half + over, side), kind) for side in (-_ROD, _ROD)
        )
    return f'<g class="joint-moved" data-id={quoteattr(takeup["id"])} stroke="currentColor">{bellows}{rods}</g>'


def times_for(trip: Trip, laid: tuple[Laid, ...]) -> float:
    """Return how many times movements are drawn, of 1, 2, 5, 10, ..., so that the greatest of a walk is seen.

    Not so many that one corner of a line is drawn moved against another by the distance between them: a loop would seem
    to cross itself.

    Args:
        trip: the walk.
        laid: its lines on their sheets.
    """
    known = trip.moved[list(trip.good)]
    greatest, turned = 0.0, 0.0
    for one in laid:
        own = known[:, one.model.nodes, :3]
        ways = np.array([one.model.route.direction(float(station)) for station in one.model.stations])
        turned = max(turned, _turned(one, own))
        for sheet in (one.plan, one.section):
            greatest = max(greatest, float(np.linalg.norm(sheet.shifted(own, ways), axis=-1).max(initial=0.0)))
    if greatest == 0.0:
        return 1.0
    wanted = DRAWN / greatest if turned == 0.0 else min(DRAWN / greatest, _TURNED / turned)
    return min(max(1.0, round_down(wanted)), MOST_TIMES)


def _turned(one: Laid, moved: Floats) -> float:
    """Return the greatest movement of one corner of a line against another, over the distance between them."""
    stations = np.cumsum([0.0, *(leg.length for leg in one.model.line.legs)])
    first, second = np.triu_indices(len(stations), 1)
    points = np.array([one.model.route.point(float(station)) for station in stations])
    apart = np.linalg.norm(points[first] - points[second], axis=1)
    ends = moved[:, np.abs(one.model.stations[:, None] - stations).argmin(axis=0)]
    against = np.linalg.norm(ends[:, first] - ends[:, second], axis=-1)
    return float((against[:, apart > 0.0] / apart[apart > 0.0]).max(initial=0.0))


__all__ = ["DRAWN", "MOST_TIMES", "Scene", "overlays_of", "times_for"]
