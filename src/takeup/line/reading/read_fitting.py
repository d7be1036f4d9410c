"""Liner, velocity, surroundings, cover, ends and words of a joint as read.     (line/reading/read_fitting.py)

Threaded and sweat ends are those of small bores, of joints that carry neither rods, pins nor ties: lugs are welded to
the ends of a joint, and a joint that is screwed on comes to rest where its thread is tight, so that no plane of pins
can be set (common practice, no source).
"""

from __future__ import annotations

from takeup.joints import WRITTEN_KINDS
from takeup.joints.advice import NOTHING
from takeup.line.fitting import Fitting, Liner
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import SectionParts
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.read_pipe import PipeParts
from takeup.line.reading.schema_choices import ChoiceItem
from takeup.line.reading.schema_fitting import LinerItem
from takeup.line.reading.schema_takeups import TakeUpItem
from takeup.reading.yaml_places import Path
from takeup.units import to_mm

LARGEST_SMALL_BORE = 0.0889
"""Outside diameter of DN 80 [m] (ASME B36.10M, EN 10220)."""
SMALL_BORE_ENDS = ("threaded", "sweat")
OF_ADVICE = ("bellows_material", "ends_material")
"""What the data of a joint say for the advice on materials alone."""
_BESIDE_NOTHING = ("insulated", "walked by", "welded near")
"""What may lie round a joint, round which nothing harmful is."""


def read_fitting(item: TakeUpItem | ChoiceItem) -> Fitting:
    """Return how a joint is fitted out; what is not said stays so. The same word twice is once."""
    liner = item.liner
    around, traces = item.surroundings, item.traces
    data = item.data if isinstance(item, TakeUpItem) else None
    return Fitting(
        velocity=item.velocity,
        liner=None
        if liner is None
        else Liner(
            fitted=liner.fitted,
            clearance=liner.clearance,
            length=liner.length,
            drained=liner.drained,
            source=liner.source or "",
        ),
        surroundings=None if around is None else tuple(dict.fromkeys(around)),
        cover=None if item.cover is None else item.cover.fitted,
        traces=None if traces is None else tuple(dict.fromkeys(traces)),
        chlorides_ppm=item.chlorides,
        lining=item.lining,
        bellows_material=None if data is None else data.bellows_material,
        ends_material=None if data is None else data.ends_material,
    )


def check_words(book: FaultBook, item: TakeUpItem | ChoiceItem, path: Path) -> None:
    """Note words for the advice on materials that contradict each other, and a material that is said twice.

    Args:
        book: where faults go.
        item: the take-up.
        path: of it.
    """
    for key, words in (("traces", item.traces), ("surroundings", item.surroundings)):
        others = [word for word in words or () if word not in (NOTHING, *_BESIDE_NOTHING)]
        if words and NOTHING in words and others:
            book.add((*path, key), f"'{NOTHING}' stands beside '{others[0]}'; leave one of them out", at_key=True)
    if isinstance(item, TakeUpItem) and item.bellows is not None and item.bellows.material is not None:
        place = (*path, "data", "bellows_material")
        if book.has(place):
            book.add(place, "two answers: 'material' under 'bellows' says it; leave this key out", at_key=True)


def check_liner(book: FaultBook, liner: LinerItem | None, length: float, path: Path) -> None:
    """Note a liner that contradicts itself or the joint.

    Args:
        book: where faults go.
        liner: of it.
        length: of the joint, of a double of each half [m].
        path: of the liner.
    """
    if liner is None:
        return
    if not liner.fitted:
        for key in ("clearance", "length", "drained", "source"):
            if book.has((*path, key)):
                book.add((*path, key), "no liner is fitted; leave this key out", at_key=True)
        return
    if (liner.clearance is not None or liner.length is not None) and liner.source is None:
        book.add(path, "the key 'source' is required: where clearance and length come from", at_key=True)
    if liner.length is not None and liner.length > length + SAME_PLACE:
        said = book.words((*path, "length"))
        book.add((*path, "length"), f"'{said}' is longer than the joint from face to face, {to_mm(length):.5g} mm")


def check_ends(book: FaultBook, item: TakeUpItem, section: SectionParts, path: Path) -> None:
    """Note ends that the kind of joint, its pipe's size or its material do not go with.

    Args:
        book: where faults go.
        item: the take-up.
        section: of the line, where it stands.
        path: of the take-up.
    """
    if item.ends is None:
        return
    kind, pipe, place = WRITTEN_KINDS[item.kind], section.pipe, (*path, "ends")
    small_bore = item.ends in SMALL_BORE_ENDS
    if small_bore and (kind.rods == "required" or kind.pins != "none" or kind.balanced):
        what = "rods" if kind.rods == "required" else "pins" if kind.pins != "none" else "ties"
        book.add(place, f"a joint with {what} has welded or flanged ends: its lugs are fast to them")
    elif small_bore and kind.name != "small-bore compensator" and _is_large(pipe):
        limit, found = f"DN 80, {to_mm(LARGEST_SMALL_BORE):.4g} mm outside", pipe.size.dn if pipe.size else ""
        book.add(place, f"{item.ends} ends are those of pipe up to {limit}; the pipe here is {found}")
    if item.ends == "sweat" and pipe.steel is not None and "copper" not in pipe.steel.material.name.lower():
        material = pipe.steel.material.name
        book.add(place, f"sweat ends are soldered or brazed to copper; the pipe here is {material}")


def _is_large(pipe: PipeParts) -> bool:
    return pipe.size is not None and pipe.size.outside_diameter > LARGEST_SMALL_BORE + SAME_PLACE


__all__ = ["LARGEST_SMALL_BORE", "OF_ADVICE", "check_ends", "check_liner", "check_words", "read_fitting"]
