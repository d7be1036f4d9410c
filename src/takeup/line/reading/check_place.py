"""Whether a joint fits where it is put: room in its leg, its bend, its pipe.     (line/reading/check_place.py)

An elbow pressure balanced joint has its blind head beyond a bend, in line with its bellows, and ties across it: the
bend stands right beside one of its faces. A small-bore compensator ends at DN 80, and is sweated to copper only.
"""

from __future__ import annotations

from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.placed_holds import PlacedHold
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.records import TakeUp
from takeup.reading.yaml_places import Path
from takeup.units import to_mm

BESIDE_A_BEND = 2.0
"""Outside diameters of pipe between a face and its bend: ties across more would be no part of the joint."""
LARGEST_SMALL_BORE = 0.0889
"""Outside diameter of DN 80 [m] (ASME B36.10M, EN 10220)."""


def check_place(
    book: FaultBook, layout: Layout, holds: tuple[PlacedHold, ...], takeup: TakeUp, path: Path, *, whole: float
) -> None:
    """Note what stands in the way of a joint, and what its kind misses where it stands.

    Args:
        book: where faults go.
        layout: of its line.
        holds: of its line.
        takeup: the joint; of a double, either half at the place of the whole.
        path: of it.
        whole: face to face length, of a double that of both halves [m].
    """
    middle = takeup.position.station
    begin, finish = middle - whole / 2.0, middle + whole / 2.0
    _check_room(book, layout, (begin, finish), path)
    for other in holds:
        if begin + SAME_PLACE < other.hold.position.station < finish - SAME_PLACE:
            station = other.hold.position.station
            book.add(
                (*path, "at"),
                f"{other.hold.name} holds the line at {station:.6g} m, inside this joint, "
                f"which reaches from {begin:.6g} m to {finish:.6g} m",
            )
    if takeup.kind == "elbow pressure balanced":
        _check_bend(book, layout, (begin, finish), path)
    if takeup.kind == "small-bore compensator":
        _check_small_bore(book, layout, takeup, path)


def _check_room(book: FaultBook, layout: Layout, faces: tuple[float, float], path: Path) -> None:
    """Note a joint that reaches past the straight part of its leg, or over a fitting."""
    first, last = faces
    over = [item for item in layout.items if item.start + SAME_PLACE < last and first < item.end - SAME_PLACE]
    for item in over:
        book.add(
            (*path, "at"),
            f"this joint reaches from {first:.6g} m to {last:.6g} m, over {item.name}, "
            f"which fills the line from {item.start:.6g} m to {item.end:.6g} m",
        )
    if over:
        return
    begin, finish = layout.straight_at((first + last) / 2.0)
    if first < begin - SAME_PLACE or last > finish + SAME_PLACE:
        book.add(
            (*path, "at"),
            f"this joint reaches from {first:.6g} m to {last:.6g} m; "
            f"the straight part of its leg runs from {begin:.6g} m to {finish:.6g} m",
        )


def _check_bend(book: FaultBook, layout: Layout, faces: tuple[float, float], path: Path) -> None:
    """Note an elbow pressure balanced joint that has no bend right beside it."""
    middle = sum(faces) / 2.0
    size, leg = layout.section_at(middle).pipe.size, layout.leg_at(middle)
    begin, finish = layout.straight_at(middle)
    away = [faces[0] - begin] if leg > 0 else []
    away += [finish - faces[1]] if leg + 1 < len(layout.legs) else []
    if size is None:
        return
    most = BESIDE_A_BEND * size.outside_diameter
    if not away or min(away) > most + SAME_PLACE:
        found = f"the nearest is {min(away):.4g} m away" if away else "its leg has none"
        book.add(
            (*path, "at"),
            "an elbow pressure balanced joint stands right beside a bend, across which it is tied: at most 2 outside "
            f"diameters of pipe, {to_mm(most):.5g} mm, lie between; {found}",
        )


def _check_small_bore(book: FaultBook, layout: Layout, takeup: TakeUp, path: Path) -> None:
    pipe = layout.section_at(takeup.position.station).pipe
    if pipe.size is not None and pipe.size.outside_diameter > LARGEST_SMALL_BORE + SAME_PLACE:
        book.add(
            (*path, "kind"),
            f"a small-bore compensator ends at DN 80, {to_mm(LARGEST_SMALL_BORE):.4g} mm outside; the pipe here is "
            f"{pipe.size.dn}",
        )
    if takeup.ends == "sweat" and pipe.steel is not None and "copper" not in pipe.steel.material.name.lower():
        material = pipe.steel.material.name
        book.add((*path, "ends"), f"sweat ends are soldered or brazed to copper; the pipe here is {material}")


__all__ = ["check_place"]
