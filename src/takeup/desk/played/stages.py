"""The stage of a scene: its line in a state by hand, drawn as scenes are drawn.     (desk/played/stages.py)

The pictures of a scene's steps are larger in what matters than a sheet of papers: joints, rods, arrows. A state by hand
is solved as the scene's own states are, in a hundredth of a second, and drawn by the same functions.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from takeup.desk.interface import ByHand, Overlay, View
from takeup.desk.seen.by_hand import states_by_hand
from takeup.desk.seen.trips import BY_HAND
from takeup.drawing import to_svg
from takeup.line import ANCHORED_ENDS, Study, states_of
from takeup.scenes.figure import Picture, picture_of
from takeup.scenes.foot import drawn_words
from takeup.scenes.played import Played, play
from takeup.scenes.rods import rods_in
from takeup.scenes.strip import Drawn, drawn_for, picture_sheet
from takeup.study import Solved
from takeup.study.model import SystemModel, model_of
from takeup.study.solve import ready_runs, solved_by
from takeup.units import to_bar, to_mm

_SEEN = 0.05  # mm: less would be written as 0.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Reach:
    """How far a line may be pushed: the highest pressure [bar], the highest and the lowest temperature [degC]."""

    highest_bar: float
    highest_c: float
    lowest_c: float


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class _Stage:
    """A line that is pushed by hand: its model, what its pictures share, how high they are [mm], how they are drawn."""

    study: Study
    model: SystemModel
    drawn: Drawn
    size: tuple[float, float]
    words: str


def reach_of(file: str) -> Reach:
    """Return how far a scene's line may be pushed: as far as its file goes, and no further.

    Args:
        file: name of the line file.
    """
    study = play(file).study
    conditions = study.conditions
    return Reach(
        highest_bar=to_bar(max(conditions.design.pressure, conditions.operating.pressure)),
        highest_c=conditions.design.temperature,
        lowest_c=study.site.installation,
    )


def stage_view(file: str) -> View:
    """Return the view of a scene's line that is drawn as scenes are; all in it moves, so that it is empty itself.

    Args:
        file: name of the line file.
    """
    stage = _stage(file)
    (line,) = stage.study.lines
    width, height = stage.size
    return View(
        line=line.name,
        view="scene",
        title=stage.words,
        svg='<svg xmlns="http://www.w3.org/2000/svg"></svg>',
        width=width,
        height=height,
        handles=[],
        track=[],
    )


def stage_overlay(file: str, asked: ByHand) -> Overlay:
    """Return the picture of a scene's line in a state by hand; empty where that has no answer.

    Args:
        file: name of the line file.
        asked: pressure and temperature.

    Raises:
        OutOfRange: the content has no density at them.
    """
    stage = _stage(file)
    (line,) = stage.study.lines
    picture = _picture(file, stage.study, stage.model, asked)
    svg = "" if picture is None else to_svg(picture_sheet(picture, stage.drawn, line.name, stage.words))
    return Overlay(line=line.name, view="scene", svg=_inside(svg))


def _inside(svg: str) -> str:
    """Return what stands between the root's first and last word."""
    return svg[svg.find(">") + 1 : svg.rfind("</")] if svg else ""


@cache
def _stage(file: str) -> _Stage:
    """Return a line with what its pictures share: the scale in which the corners of its reach can be drawn."""
    study, reach = play(file).study, reach_of(file)
    model = model_of(study)
    corners = [
        _picture(file, study, model, ByHand(pressure_bar=pressure, temperature_c=temperature))
        for pressure in (0.0, reach.highest_bar)
        for temperature in (reach.lowest_c, reach.highest_c)
    ]
    pictures = [picture for picture in corners if picture is not None]
    drawn = drawn_for(pictures)
    sheet = picture_sheet(pictures[0], drawn, file, "")
    words = drawn_words(pictures, drawn.frame)
    return _Stage(study=study, model=model, drawn=drawn, size=(sheet.width, sheet.height), words=words)


def _picture(file: str, study: Study, model: SystemModel, asked: ByHand) -> Picture | None:
    """Return what is to be seen of a state by hand; None where the line does not stand in it."""
    ready = ready_runs(study, model, states_by_hand(study, states_of(study), asked))
    solved = solved_by(ready, "no friction", 0.0) if isinstance(ready, list) else None
    if not isinstance(solved, Solved) or not solved.verified.all():
        return None
    played = Played(file=file, study=study, solved=solved)
    joints = [item.name for item in played.answer.line.takeups if item.rods is not None]
    rods = rods_in(played, joints[0], BY_HAND).picture if joints else None
    return picture_of(played, BY_HAND, mark=_mark(played), rods=rods)


def _mark(played: Played) -> str:
    """Return how far a far end that is free has moved, for the mark beside it; "" where it is held."""
    line = played.answer.line
    if line.end.kind in ANCHORED_ENDS:
        return ""
    moved = to_mm(played.moved(float(played.answer.model.stations[-1]), BY_HAND))
    return f"{moved:.1f} mm" if abs(moved) >= _SEEN else ""


__all__ = ["Reach", "reach_of", "stage_overlay", "stage_view"]
