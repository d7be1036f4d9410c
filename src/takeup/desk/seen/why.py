"""Everything about one place: loads by state, hand beside model, checks, what would change it. (desk/seen/why.py)"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from takeup.desk.interface import Cell, HoldLook, Place, Scenario, Table, TakeupLook, Why
from takeup.desk.seen import sensitivity
from takeup.desk.seen.carried import parts_of
from takeup.desk.seen.figures import plain, signed, unsigned_nought
from takeup.desk.seen.from_results import CHECKS, tables_from_results
from takeup.desk.seen.kept import SCENARIOS, Kept, NoAnswer
from takeup.desk.seen.looks import holds_at, joints_at
from takeup.desk.seen.marks import HoldMark, JointMark
from takeup.desk.seen.outline import places_of_line
from takeup.desk.seen.trips import Trip
from takeup.drawing.reading import Results
from takeup.errors import TakeupError

_WAITING = "The checks, the hand calculations and the parts by cause come with the whole study, which still runs."


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Asked:
    """What is asked about.

    Args:
        kept: the study.
        elsewhere: makes the study with a place moved to a station [m].
        revision: of the document.
        known: what the quick model said of places already, by id: it does not change while this study stands.
    """

    kept: Kept
    elsewhere: Callable[[str, float], Kept]
    revision: int
    known: dict[str, tuple[list[str], list[Table]]]


def why_of(asked: Asked, place: str, results: Results | None) -> Why:
    """Return everything about one place.

    Args:
        asked: of what study.
        place: its id.
        results: the results document; None until it is there.

    Raises:
        NoAnswer: there is no such place.
    """
    one = _place(asked.kept, place)
    says, tables = [_where(one)], list[Table]()
    try:
        if place not in asked.known:
            asked.known[place] = _of_model(asked, one)
        more, own = asked.known[place]
        says, tables = says + more, tables + own
    except TakeupError as error:
        says.append(str(error))
    if results is not None:
        more, own = tables_from_results(results, one)
        first = [one for one in own if one["title"] == CHECKS]
        says, tables = says + more, first + tables + [one for one in own if one not in first]
    return Why(
        revision=asked.revision,
        id=place,
        title=one["name"],
        says=says,
        tables=tables,
        waiting=_WAITING if results is None else "",
    )


def _place(kept: Kept, place: str) -> Place:
    for line in kept.study.lines:
        for one in places_of_line(line):
            if one["id"] == place:
                return one
    raise NoAnswer(f"there is no place {place}")


def _where(one: Place) -> str:
    by = "" if one["placed_by"] == "by hand" else f", placed by {one['placed_by']}"
    return f"{one['kind'][:1].upper()}{one['kind'][1:]}, at station {one['station_m']:.2f} m of {one['line']}{by}."


def _of_model(asked: Asked, one: Place) -> tuple[list[str], list[Table]]:
    """Return what the quick model says of a place: sentences and tables."""
    marks, prepared = asked.kept.base.marks, asked.kept.base.prepared
    if not prepared.ready:
        raise NoAnswer("; ".join(prepared.because))
    every: tuple[HoldMark | JointMark, ...] = (*marks.holds, *marks.joints)
    mark = next((mark for mark in every if mark.id == one["id"]), None)
    if mark is None:
        free = "It holds nothing: the line ends here." if one["what"] == "end" else "It is in no part of the model."
        return [free], []
    trips = [(scenario, trip) for scenario in SCENARIOS if isinstance(trip := asked.kept.trip(scenario), Trip)]
    if not trips:
        missing = asked.kept.trip("no friction")
        return [missing if isinstance(missing, str) else ""], []
    if not trips[0][1].prepared.ready[0].ground.contacts.rubs:
        trips = trips[:1]
    tables = [_hold_table(trips, mark)] if isinstance(mark, HoldMark) else list(_joint_tables(trips, mark))
    says = [trip.because for _, trip in trips[:1] if trip.because]

    def elsewhere(away: float) -> Kept:
        return asked.elsewhere(one["id"], one["station_m"] + away)

    tables.append(sensitivity.table_of(asked.kept, mark, None if one["stays"] else elsewhere))
    return says, tables


def _arrivals(trip: Trip) -> list[int]:
    return [step for step in trip.way.arrivals.tolist() if trip.good[step]]


def _states(trips: list[tuple[Scenario, Trip]]) -> list[tuple[str, int]]:
    trip = trips[0][1]
    return [(trip.way.here[step].name, step) for step in _arrivals(trip)]


def _hold_table(trips: list[tuple[Scenario, Trip]], mark: HoldMark) -> Table:
    head = ["state"]
    for scenario, _ in trips:
        head += [f"force kN, {scenario}", "along kN", "moment kN m"]
    rows = []
    for name, step in _states(trips):
        row = [plain(name)]
        for _, trip in trips:
            row += _hold_cells(trip, mark, step)
        rows.append(row)
    about = "On the structure, in each state; along is with the flow. The bound of friction is not in it."
    return Table(title="Loads by state", about=about, head=head, rows=rows)


def _hold_cells(trip: Trip, mark: HoldMark, step: int) -> list[Cell]:
    if not trip.good[step]:
        return [plain("no answer"), plain(""), plain("")]
    look: HoldLook = holds_at(trip, (mark,), step)[0]
    words = f"{look['force_kn']:.2f}" if look["contact"] != "free" else "free"
    return [
        Cell(text=words, use=look["use"]),
        plain(signed(look["along_kn"], 2)),
        plain(f"{look['moment_knm']:.2f}"),
    ]


def _joint_tables(trips: list[tuple[Scenario, Trip]], mark: JointMark) -> Iterator[Table]:
    head, rows, carried = ["state"], list[list[Cell]](), list[list[Cell]]()
    for scenario, _ in trips:
        head += [f"axial mm, {scenario}", "lateral mm", "angular °", "length mm"]
    for name, step in _states(trips):
        row, parts = [plain(name)], [plain(name)]
        for _, trip in trips:
            look = joints_at(trip, (mark,), step)[0] if trip.good[step] else None
            row += _joint_cells(look)
            parts += _carried_cells(look, parts_of(mark))
        rows.append(row)
        carried.append(parts)
    about = "From its set length, longer above nought, in each state."
    yield Table(title="Movements by state", about=about, head=head, rows=rows)
    if names := parts_of(mark):
        own = [f"{name}, {scenario}" for scenario, _ in trips for name in names]
        title, about = _CARRIED[bool(mark.rods)]
        yield Table(title=title, about=about, head=["state", *own], rows=carried)


_CARRIED = {
    True: ("Rods by state", "Tension of each, or how far its nuts stand off their lugs."),
    False: ("Plates, bars and ties by state", "What they carry together; plates and bars twice what the fuller does."),
}


def _joint_cells(look: TakeupLook | None) -> list[Cell]:
    if look is None:
        return [plain("no answer"), plain(""), plain(""), plain("")]
    return [
        Cell(text=signed(look["axial_mm"], 1), use=look["use"]),
        plain(f"{look['lateral_mm']:.1f}"),
        plain(f"{look['angular_deg']:.2f}"),
        plain(f"{look['length_mm']:.1f}"),
    ]


def _carried_cells(look: TakeupLook | None, names: list[str]) -> list[Cell]:
    """Return what each rod, plates, bars or ties carry, with their use; a slack rod has nothing to be full of."""
    if look is None:
        return [plain("no answer") for _ in names]
    rods = [
        Cell(text=f"{unsigned_nought(rod['tension_kn'], 1)} kN", use=rod["use"])
        if rod["engaged"]
        else plain(f"slack by {rod['gap_mm']:.1f} mm")
        for rod in look["rods"]
    ]
    return rods + [Cell(text=f"{unsigned_nought(one['force_kn'], 1)} kN", use=one["use"]) for one in look["hardware"]]


__all__ = ["Asked", "why_of"]
