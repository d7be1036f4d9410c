"""Every part of every line, counted: what is to be bought and made.     (results/parts.py)

Pipe is what is left of the developed length between bends, joints and items; it runs to the intersection of centre
lines at a tee and a sharp corner. Insulation is measured along pipe and bends; what is round joints and items is
theirs. Alike parts are one row; a hold is a row of its own, because it is made for its own load. Prices are put in by
those who know them (choose/costs.py); without them `price` is null.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from takeup.joints import KINDS
from takeup.joints.bellows import bellows_between
from takeup.joints.sizing.parts import PLATES
from takeup.line import Hold, Line, Route, TakeUp, Turn
from takeup.line.parts import Corner
from takeup.results.part_rows import Found, Sort, rows_of
from takeup.results.plain import Json
from takeup.study import GuideLoad
from takeup.study.model import LineModel
from takeup.study.pieces import Piece
from takeup.units import to_deg, to_mm

Design = Mapping[tuple[str, str], tuple[float, str]]
"""What each hold is to be made for, and the state that governs it, by line and name [N]."""
_BEYOND = 1e-6  # a size is asked for a micrometre beyond a face [m]
_FIGURES = 6  # of an angle in degrees and a length in millimetres, by which parts are alike


def parts_part(models: Sequence[LineModel], design: Design) -> Json:
    """Return the list of parts, not priced.

    Args:
        models: of every line, in order.
        design: of every hold; empty where the lines were not solved.
    """
    lines = {model.line.name: model.line for model in models}
    found = [one for model in models for one in _of_line(model, lines, design)]
    return {"rows": rows_of(found), "prices": None, "total": None}


def design_of(holds: Sequence[Json], guides: Sequence[GuideLoad]) -> Design:
    """Return what each hold is to be made for: of a guide the load that its own row says, else that of its envelope.

    Args:
        holds: the part of the results.
        guides: what each guide has to be made for.
    """
    found: dict[tuple[str, str], tuple[float, str]] = {}
    for hold in holds:
        assert isinstance(hold, Mapping), "a hold is a record"
        envelope = hold["envelope"]
        assert isinstance(envelope, Mapping), "an envelope is a record"
        force = envelope["design_force_n"]
        assert isinstance(force, float), "a force is a number"
        found[str(hold["line"]), str(hold["name"])] = (force, str(envelope["design_state"]))
    return found | {(one.line, one.name): (one.design, one.state) for one in guides}


def _of_line(model: LineModel, lines: Mapping[str, Line], design: Design) -> Iterator[Found]:
    line, route = model.line, model.route
    yield from (_pipe(line, piece) for piece in model.pieces if piece.part == "pipe")
    yield from (_bend(line, route, turn) for turn in route.turns)
    yield from _items(line)
    yield from _tee(line, lines)
    yield from (
        _cover(line, route, piece) for piece in model.pieces if piece.part in ("pipe", "arc") and _covered(piece)
    )
    for takeup in sorted(line.takeups, key=lambda item: item.position.station):
        yield _joint(line, takeup)
        yield from _hardware(line, takeup)
    yield from _ends(line, design)
    yield from (_hold(line, hold, design) for hold in sorted(line.holds, key=lambda hold: hold.position.station))


def _pipe(line: Line, piece: Piece) -> Found:
    pipe = piece.section.pipe
    sort = Sort(
        line=line.name,
        group="pipe",
        what="pipe",
        size=pipe.size,
        wall_mm=_alike(pipe.wall),
        material=pipe.material.name,
    )
    return Found(sort=sort, amount=piece.end - piece.start)


def _bend(line: Line, route: Route, turn: Turn) -> Found:
    pipe, corner = line.section_at(turn.station).pipe, _corner_at(line, route, turn)
    cuts = 0 if corner.mitre is None else corner.mitre.cuts
    sort = Sort(
        line=line.name,
        group="bend",
        what="sharp corner" if turn.radius is None else "mitre bend" if cuts else "bend",
        size=pipe.size,
        wall_mm=_alike(pipe.wall),
        material=pipe.material.name,
        radius_mm=None if turn.radius is None else _alike(turn.radius),
        angle_deg=round(to_deg(turn.angle), _FIGURES),
        cuts=cuts or None,
        flanged_ends=corner.flanges,
    )
    return Found(sort=sort, amount=1.0, name=turn.name)


def _corner_at(line: Line, route: Route, turn: Turn) -> Corner:
    away = [abs(float(station) - turn.station) for station in route.corners[1:]]
    return line.legs[away.index(min(away))].to


def _items(line: Line) -> Iterator[Found]:
    for item in line.items:
        before, beyond = line.section_at(item.start), line.section_at(item.end + _BEYOND)
        sort = Sort(
            line=line.name,
            group="item",
            what=item.kind,
            size=before.pipe.size,
            to_size=beyond.pipe.size if item.kind == "reducer" else None,
            wall_mm=_alike(before.pipe.wall),
            length_mm=_alike(item.end - item.start),
            weight_n=item.weight,
        )
        yield Found(sort=sort, amount=1.0, name=item.name)


def _tee(line: Line, lines: Mapping[str, Line]) -> Iterator[Found]:
    """Yield the tee at which a line leaves another: a part of the other one, named after the line that leaves."""
    if line.branch is None:
        return
    main = lines[line.branch.of]
    pipe = main.section_at(line.branch.position.station).pipe
    sort = Sort(
        line=main.name,
        group="tee",
        what=line.branch.tee,
        size=pipe.size,
        to_size=line.pipe.size,
        wall_mm=_alike(pipe.wall),
        material=pipe.material.name,
        thickness_mm=_alike(line.branch.pad) or None,
    )
    yield Found(sort=sort, amount=1.0, name=line.name)


def _covered(piece: Piece) -> bool:
    return piece.part in ("pipe", "arc") and piece.section.insulation is not None


def _cover(line: Line, route: Route, piece: Piece) -> Found:
    """Return the insulation of a piece of pipe, or of a bend along its arc."""
    insulation, turn = piece.section.insulation, route.turn_at(piece.middle)
    assert insulation is not None, "the caller has looked"
    sheet = insulation.cladding
    share = 1.0 if turn is None else turn.arc_length / (2.0 * turn.tangent_length)
    sort = Sort(
        line=line.name,
        group="insulation",
        what=insulation.kind,
        size=piece.section.pipe.size,
        thickness_mm=_alike(insulation.thickness),
        cladding=None if sheet is None else sheet.kind,
        cladding_mm=None if sheet is None else _alike(sheet.thickness),
    )
    return Found(sort=sort, amount=(piece.end - piece.start) * share)


def _joint(line: Line, takeup: TakeUp) -> Found:
    chosen = takeup.chosen
    sort = Sort(
        line=line.name,
        group="take-up",
        what=takeup.kind if takeup.written_as == takeup.kind else f"half of {takeup.written_as}",
        size=line.section_at(takeup.position.station).pipe.size,
        series=None if chosen is None else chosen.source.series,
        joint=None if chosen is None else chosen.joint,
        ends=takeup.ends,
        length_mm=_alike(takeup.data.length),
        weight_n=takeup.data.weight,
    )
    return Found(sort=sort, amount=1.0, name=takeup.name)


def _hardware(line: Line, takeup: TakeUp) -> Iterator[Found]:
    """Yield rods, and plates or bars, as they are given: parts of the joint that names them."""
    size = line.section_at(takeup.position.station).pipe.size
    rods, pins, kind = takeup.rods, takeup.pins, KINDS[takeup.kind]
    if rods is not None:
        sets = len(bellows_between(takeup.data)) if kind.rods_across == "each bellows" else 1
        sort = Sort(
            line=line.name, group="hardware", what="rod", size=size, diameter_mm=_alike(rods.diameter),
            length_mm=_alike(rods.length),
        )  # fmt: skip
        yield Found(sort=sort, amount=float(sets * rods.count), name=takeup.name)
    if pins is not None:
        sort = Sort(
            line=line.name, group="hardware", what="bar" if kind.pins == "swing" else "plate", size=size,
            diameter_mm=_alike(pins.diameter), length_mm=_alike(pins.length), thickness_mm=_alike(pins.thickness),
        )  # fmt: skip
        yield Found(sort=sort, amount=float(PLATES), name=takeup.name)


def _ends(line: Line, design: Design) -> Iterator[Found]:
    """Yield the main anchors at the ends of a line; equipment, and where a line goes on, are no parts of it."""
    for end, section in ((line.start, line.sections[0]), (line.end, line.sections[-1])):
        if end.kind == "main anchor":
            load, state = design.get((line.name, end.name), (None, None))
            sort = Sort(
                line=line.name, group="hold", what=end.kind, size=section.pipe.size, alone=end.name, design_n=load,
                design_state=state,
            )  # fmt: skip
            yield Found(sort=sort, amount=1.0, name=end.name)


def _hold(line: Line, hold: Hold, design: Design) -> Found:
    load, state = design.get((line.name, hold.name), (None, None))
    sort = Sort(
        line=line.name,
        group="hold",
        what=hold.kind,
        size=line.section_at(hold.position.station).pipe.size,
        spring=hold.spring,
        only_in=hold.only_in,
        alone=hold.name,
        design_n=load,
        design_state=state,
    )
    return Found(sort=sort, amount=1.0, name=hold.name)


def _alike(metres: float) -> float:
    """Return a length in millimetres, without the rounding of sums, so that alike parts are one."""
    return round(to_mm(metres), _FIGURES)


__all__ = ["Design", "design_of", "parts_part"]
