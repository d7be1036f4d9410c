"""The joint seen from the side, its parts named, with the flow and its lengths; and its liner. (data_sheets/picture.py)

Pictures of kinds are the drawing's own, to no scale; here their words are put into the paper's language, and the way of
the flow and the length from face to face are added. A liner is drawn in section, where one is fitted.
"""

from __future__ import annotations

from dataclasses import replace

from takeup.drawing import Sheet, to_svg
from takeup.drawing.joint_views import VIEWS
from takeup.drawing.joint_views.parts import CENTRE, FINE, HIGH, LEFT, MIDDLE, RIGHT, TYPE, WIDE, arrow, plate
from takeup.drawing.reading import maybe_number, record_of
from takeup.drawing.sheet import Dimension, Item, Polyline, Stroke, Text, View
from takeup.papers.common.asked import used_of
from takeup.papers.common.gathered import Joint
from takeup.papers.common.tables import Tree
from takeup.papers.data_sheets.block import given, shown
from takeup.papers.frame import Head

_LARGER = 1.2  # letters of a picture that is printed smaller than it was drawn
_HOSE = "braided hose loop"
_HOSE_UP = 24.0  # how much higher the pipe of a hose loop lies than the middle line [mm]


def joint_picture(joint: Joint, head: Head) -> Tree:
    """Return the picture of a joint for the template: SVG, and words for those who cannot see it."""
    said, name = head.texts, joint.kind.name
    level = MIDDLE - _HOSE_UP if name == _HOSE else MIDDLE + 2.5
    length = shown(given(used_of(joint, "length"), head.units.small, ""), head.units)
    words = f"{said('data_sheet.length_short')} {head.units.small.named(length)}"
    items: list[Item] = [_translated(item, head) for item in VIEWS[name]()]
    items += [
        *arrow((LEFT + 3.0, level + 4.0), (LEFT + 16.0, level + 4.0)),
        Text(at=(LEFT + 3.0, level + 2.4), words=said("data_sheet.flow"), size=TYPE * _LARGER),
        Dimension(start=(LEFT, HIGH - 3.0), end=(RIGHT, HIGH - 3.0), offset=3.0, words=words, size=TYPE * _LARGER),
        Text(at=(WIDE - 2.0, 4.5), words=said("data_sheet.not_to_scale"), size=TYPE, anchor="end", ink="grey"),
    ]
    title = f"{joint.tag}, {said.said(name)}"
    view = View(title=title, scale=None, items=tuple(items))
    sheet = Sheet(width=WIDE, height=HIGH + 5.0, title=title, description=words, views=(view,))
    return {"svg": to_svg(sheet), "alt": said("data_sheet.picture_said", kind=said.said(name), length=words)}


def _translated(item: Item, head: Head) -> Item:
    """Return a thing of a picture, its words in the paper's language and larger."""
    if not isinstance(item, Text):
        return item
    return replace(item, words=head.texts(f"joint_picture.{item.words}"), size=item.size * _LARGER)


_CUT = Stroke(width=0.5)
_BORE, _ROOT, _CREST = 16.0, 18.5, 30.0  # radii of bore, roots and crests over the middle line [mm]
_TALL, _MID = 56.0, 44.0  # height of the liner's picture, and its middle line [mm]
_FIRST, _LAST, _WAVES = 45.0, 125.0, 5


def liner_picture(joint: Joint, head: Head) -> Tree | None:
    """Return the liner in section with the way of the flow; None where none is fitted."""
    liner = record_of(record_of(joint.first.record, "fitting"), "liner")
    if not liner.get("fitted"):
        return None
    said, small = head.texts, head.units.small
    sizes = []
    for key in ("clearance", "length"):
        value = given(maybe_number(liner, f"{key}_mm"), small, said("data_sheet.not_said"))
        words = shown(value, head.units)
        sizes.append(words if isinstance(value, str) else small.named(words))
    clearance, length = (f"{said(f'data_sheet.liner_{key}_short')} {words}" for key, words in
                         zip(("clearance", "length"), sizes, strict=True))  # fmt: skip
    size = TYPE * _LARGER
    items: tuple[Item, ...] = (
        plate((LEFT, _MID - _ROOT), (_FIRST, _MID - _BORE)),
        plate((_LAST, _MID - _ROOT), (RIGHT, _MID - _BORE)),
        *_waves(),
        plate((_FIRST - 8.0, _MID - 13.6), (_LAST + 6.0, _MID - 12.4)),
        Polyline(
            points=((_FIRST - 8.0, _MID - _BORE), (_FIRST - 8.0, _MID - 12.4), (_FIRST - 3.0, _MID - 13.6)),
            stroke=_CUT, closed=True, fill="#000000",
        ),
        Polyline(points=((LEFT - 4.0, _MID), (RIGHT + 4.0, _MID)), stroke=CENTRE),
        *arrow((LEFT + 2.0, _MID - 5.0), (LEFT + 30.0, _MID - 5.0)),
        Text(at=(LEFT + 2.0, _MID - 7.5), words=said("data_sheet.flow"), size=size),
        Text(at=(LEFT, 6.0), words=said("data_sheet.liner_fixed"), size=size),
        Polyline(points=((LEFT + 12.0, 7.5), (_FIRST - 7.0, _MID - 15.0)), stroke=FINE),
        Text(at=(RIGHT, 6.0), words=clearance, size=size, anchor="end"),
        Polyline(points=((RIGHT - 12.0, 7.5), (_LAST + 3.0, _MID - 14.8)), stroke=FINE),
        Dimension(start=(_FIRST - 8.0, _MID + 2.0), end=(_LAST + 6.0, _MID + 2.0), offset=4.0, words=length, size=size),
    )  # fmt: skip
    title = said("data_sheet.liner")
    sheet = Sheet(
        width=WIDE,
        height=_TALL,
        title=title,
        description=f"{clearance}, {length}",
        views=(View(title=title, scale=None, items=items),),
    )
    return {"svg": to_svg(sheet), "alt": f"{said('data_sheet.liner_picture_said')} {clearance}, {length}."}


def _waves() -> tuple[Item, ...]:
    """Return the bellows over the liner, cut open: one line through its crests and roots."""
    pitch = (_LAST - _FIRST) / _WAVES
    points = [(_FIRST, _MID - _ROOT)]
    for number in range(_WAVES):
        x = _FIRST + number * pitch
        points += [
            (x + 0.15 * pitch, _MID - _ROOT),
            (x + 0.22 * pitch, _MID - _CREST),
            (x + 0.78 * pitch, _MID - _CREST),
            (x + 0.85 * pitch, _MID - _ROOT),
        ]
    return (Polyline(points=(*points, (_LAST, _MID - _ROOT)), stroke=Stroke(width=0.7)),)


__all__ = ["joint_picture", "liner_picture"]
