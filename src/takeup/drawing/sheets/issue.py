"""The layout drawing as sheets that can be issued.     (drawing/sheets/issue.py)

Of several lines, and of a line that needs several sheets, all of it comes first. Then each line, or each part of one:
how it lies over its stations, on one sheet or on two, and an isometric with how it moves. Read `layout_drawing` first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from takeup.drawing.cut import Part, parts_of
from takeup.drawing.labels import Box
from takeup.drawing.layout import view_of_all
from takeup.drawing.places import Place, places_of
from takeup.drawing.projection import DOWN
from takeup.drawing.reading import Record, Results, records_of, text_of
from takeup.drawing.section import unowned
from takeup.drawing.sheet import Sheet, View
from takeup.drawing.sheets.about import About, Scribe, Words
from takeup.drawing.sheets.foot import Called, foot_of, foot_views
from takeup.drawing.sheets.growth import state_shown
from takeup.drawing.sheets.isometric import isometric_view
from takeup.drawing.sheets.overview import Whole, overview
from takeup.drawing.sheets.paper import Paper, frame_view, paper_for
from takeup.drawing.sheets.plan import TURNED, Beyond, looking_at, plan_view, scale_of, title_of
from takeup.drawing.sheets.scales import scales_of, steps_between
from takeup.drawing.sheets.strip import WHOLE, height_for, room_for, strip_view
from takeup.edge import Units

_LEAST = 66.0  # height of a plan over its stations [mm]
_BESIDE = 120.0  # least width of an elevation beside its stations [mm]
_NARROWEST = 195.0  # width of stations beside a plan, with their heading [mm]
_FAR = 1  # scales by which a plan may be smaller than on a sheet of its own
_AIRY = 1.35  # of their least height


@dataclass(frozen=True, kw_only=True)
class Issue:
    """All that the sheets of a drawing are made from."""

    results: Results
    about: About
    scribe: Scribe
    paper: Paper

    @cached_property
    def lines(self) -> tuple[Record, ...]:
        """The lines of the results."""
        return records_of(self.results, "lines")

    @cached_property
    def state(self) -> str:
        """The state whose movements are drawn."""
        return state_shown(self.results)

    def room(self, places: Iterable[Place]) -> Box:
        """Return what the frame and a foot that explains the signs of some places leave free [mm]."""
        left, top, right, _ = self.paper.frame
        return left, top, right, self.foot(places)

    def foot(self, places: Iterable[Place]) -> float:
        """Return where the foot of a sheet begins that explains the signs of some places [mm]."""
        return foot_of(self.paper, places, self.longest)

    @cached_property
    def longest(self) -> tuple[str, ...]:
        """The notes of the sheet that says most: all feet of a drawing are as high."""
        sets = [(*_general(self), self.scribe.text(key), *_last(self)) for key in ("note_stations", "note_elsewhere")]
        return max(sets, key=lambda notes: sum(map(len, notes)))


@dataclass(frozen=True, kw_only=True, slots=True)
class Draft:
    """A sheet before its number is known: what it is called, what it shows and explains."""

    title: str
    views: tuple[View, ...]
    places: tuple[Place, ...]
    notes: tuple[str, ...]
    described: str
    cautions: tuple[str, ...] = ()


def layout_drawing(results: Results, about: About, words: Words, units: Units) -> tuple[Sheet, ...]:
    """Return the sheets of the layout drawing: A3 in SI, ANSI B in US units.

    Args:
        results: The results document.
        about: What the title block says.
        words: The texts of its language.
        units: Of its numbers, with the decimal mark of the language.
    """
    issue = Issue(results=results, about=about, scribe=Scribe(words=words, units=units), paper=paper_for(units.system))
    wholes = _wholes(issue)
    drafts = [*_first(issue, wholes)]
    for whole in wholes:
        for number in range(len(whole.parts)):
            drafts += _of_part(issue, whole, number)
    return tuple(_sheet(issue, draft, number, len(drafts)) for number, draft in enumerate(drafts, start=1))


def _wholes(issue: Issue) -> tuple[Whole, ...]:
    """Return the lines in parts, with the number of the sheet on which each begins."""
    several = len(issue.lines) > 1
    found: list[Whole] = []
    divided = []
    for line in issue.lines:
        places = unowned(line, places_of(issue.results, line))
        divided.append((line, places, parts_of(line, places)))
    sheet = 2 if several or any(len(parts) > 1 for _, _, parts in divided) else 1
    for line, places, parts in divided:
        sheets = []
        for part in parts:
            more = 0 if _together(issue, part) else 1
            sheets.append((sheet, sheet + more, sheet + more + 1))
            sheet += more + 2
        found.append(Whole(line=line, places=places, parts=parts, sheets=tuple(sheets)))
    return tuple(found)


def _first(issue: Issue, wholes: tuple[Whole, ...]) -> Iterator[Draft]:
    """Yield the sheet that shows all, where there is more than one sheet of lines to be found."""
    if len(wholes) == 1 and len(wholes[0].parts) == 1:
        return
    scribe = issue.scribe
    looking = view_of_all(issue.lines) if len(wholes) > 1 else looking_at(issue.lines[0])
    every = tuple(place for whole in wholes for place in whole.places)
    view, places = overview(wholes, looking, issue.room(every), scribe)
    names = ", ".join(text_of(line, "name") for line in issue.lines)
    key = "title_all" if len(wholes) > 1 else "title_whole"
    notes = (*_general(issue), scribe.text("note_elsewhere"), *_last(issue))
    yield Draft(title=scribe.text(key, names=names), views=(view,), places=places, notes=notes, described=view.title)


def _together(issue: Issue, part: Part) -> tuple[Box, Box] | None:
    """Return the rooms of the plan and of its stations, over or beside one another; None where each needs a sheet."""
    left, top, right, foot = issue.room(part.places)
    looking, scribe = looking_at(part.line), issue.scribe
    high, wide = height_for(part, right - left, scribe), max(room_for(part), _NARROWEST)
    over = ((left, top, right, foot - high), (left, foot - high, right, foot))
    beside = ((left, top, right - wide, foot), (right - wide, top, right, foot))
    alone = scale_of(part, looking, (left, top, right, foot), scribe)
    system, found = scribe.units.system, []
    for (plan, strip), most in ((over, _FAR), (beside, 0 if looking in {DOWN, TURNED} else _FAR)):
        if plan[3] - plan[1] >= _LEAST and plan[2] - plan[0] >= _BESIDE:
            steps = steps_between(alone, scale_of(part, looking, plan, scribe), system)
            found += [(steps, plan, strip)] if steps <= most else []
    return min(found, key=lambda option: option[0])[1:] if found else None


def _beyond(whole: Whole, number: int) -> tuple[tuple[Beyond, ...], ...]:
    """Return where a part goes on: for its plan, its stations and its isometric each on which sheet."""
    part, found = whole.parts[number], []
    for kind in range(3):
        before = [Beyond(station=part.start, sheet=whole.sheets[number - 1][kind])] if number else []
        after = [Beyond(station=part.end, sheet=row[kind]) for row in whole.sheets[number + 1 : number + 2]]
        found.append((*before, *after))
    return tuple(found)


def _of_part(issue: Issue, whole: Whole, number: int) -> Iterator[Draft]:
    """Yield the sheets of a part: how it lies and its stations, on one sheet or two, then its isometric."""
    part, scribe = whole.parts[number], issue.scribe
    on_plan, on_strip, on_isometric = _beyond(whole, number)
    name, looking = text_of(whole.line, "name"), looking_at(part.line)
    room, together = issue.room(part.places), _together(issue, part)
    notes = (*_general(issue), scribe.text("note_stations"), *_last(issue))
    if together is None:
        first = plan_view(part, looking, room, scribe, on_plan)
        second = strip_view(part, _upper(part, room, scribe), scribe, on_strip, WHOLE)
        for view in (first, second):
            title = scribe.text("title_part", line=name, view=view.title)
            yield Draft(
                title=title, views=(view,), places=part.places, notes=notes, described=_described(part, view, scribe)
            )
    else:
        plan, strip = together
        views = (plan_view(part, looking, plan, scribe, on_plan), strip_view(part, strip, scribe, on_strip))
        title = scribe.text("title_both", line=name, view=title_of(looking, scribe))
        yield Draft(
            title=title, views=views, places=part.places, notes=notes, described=_described(part, views[0], scribe)
        )
    view = isometric_view(issue.results, part, room, scribe, on_isometric)
    yield Draft(
        title=scribe.text("title_part", line=name, view=view.title),
        views=(view,),
        places=part.places,
        notes=(*_moved(issue), *_last(issue)),
        cautions=issue.about.cautions,
        described=_described(part, view, scribe),
    )


def _upper(part: Part, room: Box, scribe: Scribe) -> Box:
    """Return the upper part of a room, as high as stations that have it for themselves look well in."""
    left, top, right, bottom = room
    return left, top, right, min(bottom, top + _AIRY * height_for(part, right - left, scribe, WHOLE))


def _general(issue: Issue) -> tuple[str, ...]:
    """Return what every sheet says first: units, and whose signs they are."""
    system = issue.scribe.units.system
    return (issue.scribe.text(f"note_units_{system}"), issue.scribe.text("note_signs"))


def _moved(issue: Issue) -> tuple[str, ...]:
    if not issue.state:
        return (issue.scribe.text("note_no_state"),)
    return (issue.scribe.text("note_movements", state=issue.scribe.kind(issue.state)),)


def _last(issue: Issue) -> tuple[str, ...]:
    return (issue.scribe.text("note_codes"), issue.scribe.text("note_not_released"))


def _described(part: Part, view: View, scribe: Scribe) -> str:
    """Return what a sheet shows, for a reader who cannot see it."""

    def names(*sorts: str) -> str:
        return ", ".join(place.name for place in part.places if place.sort in sorts) or "–"

    guides = sum(place.sort == "guide" for place in part.places)
    return scribe.text(
        "described",
        view=view.title,
        start=scribe.length(part.start),
        end=scribe.length(part.end),
        anchors=names("anchor"),
        takeups=names("joint"),
        guides=guides,
    )


def _sheet(issue: Issue, draft: Draft, number: int, count: int) -> Sheet:
    """Return a sheet with its frame and its foot."""
    scribe = issue.scribe
    by_ratio = {scale.ratio: scale.words for scale in scales_of(scribe.units.system)}
    ratios = dict.fromkeys(view.scale for view in draft.views if view.scale is not None)
    scales = ", ".join(by_ratio[ratio] for ratio in ratios) or scribe.text("not_to_scale")
    called = Called(
        title=draft.title, number=number, count=count, scales=scales, notes=draft.notes, cautions=draft.cautions
    )
    foot = issue.foot(draft.places)
    return Sheet(
        width=issue.paper.width,
        height=issue.paper.height,
        title=f"{draft.title}, {issue.about.project}",
        description=f"{draft.described} {scribe.text('scale_is', scale=scales)}.",
        views=(
            frame_view(issue.paper, foot),
            *draft.views,
            *foot_views(issue.paper, (draft.places, foot), issue.about, called, scribe),
        ),
    )
