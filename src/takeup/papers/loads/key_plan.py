"""The key plan: where every place of the schedule is, labelled by its name.     (papers/loads/key_plan.py)

The sheets, signs, scales and the way words are placed are those of the layout drawing. A few lines share one sheet; a
line that has more than one sheet holds is cut into parts with match lines. Under the name of an anchor stands where it
is and the greatest force that it is to be designed for; a guide stands with its name alone. Names never lie on
anything: one that finds no room is left out, and a note says how many are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from takeup.drawing.arrangement import first_good
from takeup.drawing.cut import Part, parts_of
from takeup.drawing.labels import Box, Label, LineOfWords, Taken, place_labels
from takeup.drawing.layout import view_of_all
from takeup.drawing.places import Place, places_of
from takeup.drawing.projection import Looking, centre_strokes, extent_of, single_line
from takeup.drawing.reading import Results, records_of, text_of
from takeup.drawing.sheet import Item, Point, Sheet, View
from takeup.drawing.sheets.about import About, Scribe, is_named_by_kind
from takeup.drawing.sheets.folding import name_lines
from takeup.drawing.sheets.foot import Called, foot_of, foot_views
from takeup.drawing.sheets.heading import HEIGHT
from takeup.drawing.sheets.paper import frame_view, paper_for
from takeup.drawing.sheets.pens import PIPE, TYPE
from takeup.drawing.sheets.plan import Beyond, framed, headed, looking_at, match_lines, signs, title_of
from takeup.drawing.sheets.scales import Scale, next_scale, scale_for, scales_of
from takeup.drawing.world_view import Drawn, spots_of
from takeup.papers.frame import Head
from takeup.papers.loads import sense
from takeup.papers.loads.held import Held, held_of
from takeup.papers.loads.reading_it import factor_words
from takeup.papers.loads.writer import Writer, writer_of

_MOST_PLACES, _MOST_STRONG = 52, 15  # of several lines on one sheet
_ASIDE = (30.0, 22.0)  # least room for words left and right, above and below [mm]
_WIDEST, _JOINT, _NARROW = 58.0, 30.0, 18.5  # names go on another line beyond this: of anchors, joints, guides [mm]
_TRIES = 3
_FOR_STEP = 20.0  # what a smaller scale costs [mm of leaders]
_LARGER = 1.2  # the sketch of the sense, over its own size
_PAD = 4.0
_RANK = {"anchor": 0, "guide": 1, "joint": 2, "end": 3, "branch": 3}


@dataclass(frozen=True, kw_only=True, slots=True)
class _Plan:
    """All that a sheet is made from; `short` where guides that are named by kind and place bear the place alone."""

    about: About
    scribe: Scribe
    write: Writer
    holds: Mapping[tuple[str, str], Held]
    title: str
    short: bool = False


def key_plan(results: Results, head: Head) -> tuple[Sheet, ...]:
    """Return the sheets of the key plan: A3 in SI, ANSI B in US units.

    Args:
        results: the results document.
        head: of the paper.
    """
    write = writer_of(head)
    plan = _Plan(
        about=About(
            project=head.project,
            number=head.number,
            revision=head.revision,
            day=head.day,
            tool=head.tool,
            sha256=head.sha256,
            demonstration=head.demonstration,
            cautions=(),
        ),
        scribe=Scribe(words=head.texts, units=head.units),
        write=write,
        holds={(held.line, held.name): held for held in held_of(results)},
        title=write("key_plan", lines=head.lines),
    )
    pages = _pages(results)
    return tuple(_sheet(plan, pages, number) for number in range(len(pages)))


_Page = tuple[tuple[Part, ...], Looking]


def _pages(results: Results) -> list[_Page]:
    """Return what each sheet shows: all of several lines where that is not too much, else each line in its parts."""
    lines = records_of(results, "lines")
    placed = [(line, places_of(results, line)) for line in lines]
    every = [place for _, places in placed for place in places]
    strong = sum(place.sort in {"anchor", "joint"} for place in every)
    if len(lines) > 1 and len(every) <= _MOST_PLACES and strong <= _MOST_STRONG:
        whole = tuple(Part(whole=line, line=line, places=places, start=0.0, end=0.0) for line, places in placed)
        return [(whole, view_of_all(lines))]
    return [((part,), looking_at(part.line)) for line, places in placed for part in parts_of(line, places)]


def _sheet(plan: _Plan, pages: list[_Page], number: int) -> Sheet:
    scribe, write = plan.scribe, plan.write
    paper = paper_for(scribe.units.system)
    parts, looking = pages[number]
    places = tuple(place for part in parts for place in part.places)
    notes = _notes(plan)
    foot = foot_of(paper, places, (*notes, write("plan_short"), write("plan_unnamed", count=len(places))))
    left, top, right, _ = paper.frame
    sketch = foot - _LARGER * sense.HEIGHT - _PAD
    over, beside = (left, top, right, sketch), (left + _LARGER * sense.WIDTH + 2.0 * _PAD, top, right, foot)
    room = min((over, beside), key=lambda box: _scale(parts, looking, box, scribe).ratio)
    view, missing = _view(plan, parts, looking, room, _beyond(pages, number))
    if missing:
        short = _view(replace(plan, short=True), parts, looking, room, _beyond(pages, number))
        if short[1] < missing:
            view, missing = short
            notes = (*notes[:-1], write("plan_short"), notes[-1])
    if missing:
        notes = (*notes[:-1], write("plan_unnamed", count=missing), notes[-1])
    words = {scale.ratio: scale.words for scale in scales_of(scribe.units.system)}
    scale = words.get(view.scale or 0, scribe.text("not_to_scale"))
    called = Called(title=plan.title, number=number + 1, count=len(pages), scales=scale, notes=notes)
    names = ", ".join(place.name for place in places if place.sort in {"anchor", "guide"}) or "–"
    return Sheet(
        width=paper.width,
        height=paper.height,
        title=f"{plan.title}, {plan.about.project}",
        description=write("plan_described", view=view.title, names=names),
        views=(
            frame_view(paper, foot),
            view,
            View(
                title=write("sense_title"),
                scale=None,
                items=sense.sense_items(write.texts, (left + _PAD, sketch), _LARGER),
                layer="legend",
            ),
            *foot_views(paper, (places, foot), plan.about, called, scribe),
        ),
    )


def _notes(plan: _Plan) -> tuple[str, ...]:
    anchors = [held for held in plan.holds.values() if held.anchor]
    factor = factor_words(anchors[0].factor if anchors else None, plan.write)
    design = plan.write("plan_note_design", factor=factor) if anchors else plan.write("not_solved")
    general = (plan.scribe.text(f"note_units_{plan.scribe.units.system}"), plan.scribe.text("note_signs"))
    return (plan.write("plan_note_sense"), design, *general, plan.scribe.text("note_not_released"))


def _beyond(pages: list[_Page], number: int) -> tuple[Beyond, ...]:
    """Return where the line of a sheet goes on, and on which."""
    part = pages[number][0][0]
    before = () if part.before is None else (Beyond(station=part.before, sheet=number),)
    after = () if part.beyond is None else (Beyond(station=part.beyond, sheet=number + 2),)
    return (*before, *after)


def _scale(parts: tuple[Part, ...], looking: Looking, room: Box, scribe: Scribe) -> Scale:
    """Return the largest standard scale at which some parts fit into a room with their words."""
    least, greatest = extent_of([part.line for part in parts], looking)
    wide, high = room[2] - room[0] - 2.0 * _ASIDE[0], room[3] - room[1] - HEIGHT - 2.0 * _ASIDE[1]
    return scale_for((greatest[0] - least[0], greatest[1] - least[1]), (wide, high), scribe.units.system)


def _view(
    plan: _Plan, parts: tuple[Part, ...], looking: Looking, room: Box, beyond: tuple[Beyond, ...]
) -> tuple[View, int]:
    """Return the view at the largest scale at which its names stand well, and how many have no room."""
    scales = [_scale(parts, looking, room, plan.scribe)]
    for _ in range(_TRIES - 1):
        scales.append(next_scale(scales[-1], plan.scribe.units.system))
    missing: list[int] = []

    def tried() -> Iterator[tuple[Drawn, float]]:
        for step, scale in enumerate(dict.fromkeys(scales)):
            one, lost = _drawn(plan, parts, (looking, scale), room, beyond)
            missing.append(lost)
            yield one, _FOR_STEP * step

    number, view = first_good(tried())
    return view, missing[number]


def _drawn(
    plan: _Plan, parts: tuple[Part, ...], seen: tuple[Looking, Scale], room: Box, beyond: tuple[Beyond, ...]
) -> tuple[Drawn, int]:
    """Return the view at a scale with how badly its words stand, and how many names have no room."""
    looking, scale = seen
    lines = tuple(part.line for part in parts)
    frame = framed(lines, looking, room, scale)
    title = title_of(looking, plan.scribe)
    items, taken = headed(frame, scale, room, plan.scribe, title)
    spots: dict[tuple[str, Place], Point] = {}
    for part in parts:
        taken.strokes += centre_strokes(frame, part.line)
        items += single_line(frame, part.line, PIPE)
        spots |= {
            (text_of(part.whole, "name"), place): at for place, at in spots_of(frame, part.line, part.places).items()
        }
    for part in parts[:1]:
        items += match_lines(frame, part, beyond, taken, plan.scribe)
    items += signs(frame, {place: at for (_, place), at in spots.items()}, taken)
    named = sorted((key for key in spots if key[1].sort in _RANK), key=lambda key: (_RANK[key[1].sort], key[1].station))
    labels: dict[str, list[Label]] = {sort: [] for sort in _RANK}
    for line, place in named:
        way = frame.heading(place.along)
        words = _label(plan, line, place, level=abs(way[0]) > abs(way[1]))
        labels[place.sort].append(Label(lines=words, spots=(spots[line, place],), along=way, size=TYPE))
    found, crowd = _placed(labels, taken)
    items += [item for label in found for item in label]
    view = View(title=title, scale=scale.ratio, items=tuple(items), zero=frame.paper((0.0, 0.0, 0.0)))
    return Drawn(view=view, crowd=crowd), sum(not label for label in found)


def _placed(labels: Mapping[str, list[Label]], taken: Taken) -> tuple[list[tuple[Item, ...]], float]:
    """Return labels and how badly they stand: those of holds first, and anchors before all where one has no room."""
    anchors, guides, others = labels["anchor"], labels["guide"], [*labels["joint"], *labels["end"], *labels["branch"]]
    tried = taken.copy()
    found, crowd = place_labels([*anchors, *guides], tried)
    if not all(found[: len(anchors)]):
        tried = taken.copy()
        first, badly = place_labels(anchors, tried)
        rest, crowd = place_labels(guides, tried)
        found, crowd = [*first, *rest], crowd + badly
    last, badly = place_labels(others, tried)
    return [*found, *last], crowd + badly


def _label(plan: _Plan, line: str, place: Place, *, level: bool) -> tuple[LineOfWords, ...]:
    """Return the name of a place; under that of an anchor where it is and what it is designed for.

    Args:
        plan: all of it.
        line: name of the line.
        place: on it.
        level: whether the pipe runs level on the sheet: names beside one another are then narrow.
    """
    strong = place.sort == "anchor"
    narrow = {"guide": _NARROW, "joint": _JOINT}.get(place.sort, _WIDEST) if level else _WIDEST
    name = plan.write.said(place.name) if place.sort == "branch" else place.name
    if plan.short and is_named_by_kind(place):
        name = name.removeprefix(f"{place.kind} at ")
    names = tuple((row, strong) for row in name_lines(name, TYPE, narrow))
    held = plan.holds.get((line, place.name))
    if not strong or held is None:
        return names
    east, north, up = (plan.write.coordinate(value) for value in held.at)
    where = plan.write("coordinates", east=east, north=north, up=up)
    force = plan.write("plan_design", force=plan.write.force(held.times * held.greatest))
    return (*names, (where, False), (force, False))


__all__ = ["key_plan"]
