"""Each take-up as its file writes it, a double whole, and what is round it.     (papers/common/gathered.py)"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeup.drawing.reading import (
    Record,
    Results,
    maybe_number,
    number_of,
    pipe_at,
    record_of,
    records_of,
    text_of,
)
from takeup.joints import WRITTEN_KINDS, JointKind

_HALVES = (", first", ", second")  # as the reader of line files ends the names of the halves of a double
_INVENTED = ("demonstration", "invented", "erfunden")  # a source of demonstration data bears one of these words
_TEST = "test"


@dataclass(frozen=True, kw_only=True, slots=True)
class Half:
    """A joint of the model: a whole take-up, or half a double.

    Args:
        record: of the results.
        zone: that its middle stands in.
    """

    record: Record
    zone: Record

    @property
    def name(self) -> str:
        """Its name in the results."""
        return text_of(self.record, "name")

    @property
    def data(self) -> Record:
        """Its data as given, with the rates that the model uses."""
        return record_of(self.record, "data")

    @property
    def movements(self) -> tuple[Record, ...]:
        """Its movements, state by state; none where the line was not solved."""
        return records_of(self.record, "movements")

    def reach(self, key: str) -> float | None:
        """Return the farthest of one movement in any state of any whole scenario; None where it was not solved."""
        return maybe_number(record_of(record_of(self.record, "reach"), key), "value")

    def given(self, key: str) -> float | None:
        """Return a number of its data."""
        return maybe_number(self.data, key)

    def moves(self, key: str) -> tuple[float, ...]:
        """Return one movement in every state that tells it."""
        found = (maybe_number(move, key) for move in self.movements)
        return tuple(value for value in found if value is not None)


@dataclass(frozen=True, kw_only=True, slots=True)
class Joint:
    """A take-up.

    Args:
        results: the whole document.
        tag: its name in the line file.
        kind: as written there.
        line: that it stands in.
        pipe: at its middle.
        halves: one, or two of a double.
    """

    results: Results
    tag: str
    kind: JointKind
    line: Record
    pipe: Record
    halves: tuple[Half, ...]

    @property
    def first(self) -> Half:
        """The joint itself, or the first half of a double, whose data are those of both."""
        return self.halves[0]

    @property
    def station(self) -> float:
        """Of its middle [m]."""
        return sum(number_of(half.record, "station_m") for half in self.halves) / len(self.halves)

    @property
    def pairs(self) -> bool:
        """Whether its line has two bellows in it, whose rates and live length are those of each."""
        return self.first.given("centres_mm") is not None

    @property
    def bare(self) -> bool:
        """Whether it is one bellows alone in the flow, so that its ends see what its rates say."""
        return self.kind.bellows == 1 and not self.kind.balanced

    @property
    def invented(self) -> bool:
        """Whether its data are demonstration data."""
        record = self.first.record
        said = (text_of(record, "provenance"), text_of(record_of(record, "chosen"), "series"))
        return any(word in words.lower() for words in said for word in _INVENTED)

    @property
    def states(self) -> tuple[Record, ...]:
        """Every state, in order."""
        return records_of(self.results, "states")

    def zone_state(self, half: Half, state: str) -> Record:
        """Return what the zone of a half is at in a state."""
        found = next(one for one in self.states if text_of(one, "name") == state)
        name = text_of(half.zone, "name")
        return next(one for one in records_of(found, "zones") if text_of(one, "zone") == name)

    def names_of(self, *, test: bool) -> frozenset[str]:
        """Return the names of the states that are pressure tests, or of all others."""
        return frozenset(text_of(one, "name") for one in self.states if (text_of(one, "kind") == _TEST) == test)


def joints_of(results: Results) -> tuple[Joint, ...]:
    """Return every take-up of the results, in their order."""
    found: dict[tuple[str, str], list[Half]] = {}
    for record in records_of(results, "takeups"):
        key = text_of(record, "line"), _written(record)
        found.setdefault(key, []).append(Half(record=record, zone=_zone_of(results, record)))
    return tuple(_joint(results, line, tag, halves) for (line, tag), halves in found.items())


def _written(record: Record) -> str:
    """Return a joint's name in the line file: that of the double for its halves."""
    name = text_of(record, "name")
    if _kind_of(record).halves is None:
        return name
    return next(name.removesuffix(end) for end in _HALVES if name.endswith(end))


def _kind_of(record: Record) -> JointKind:
    """Return a joint's kind as written in the line file."""
    return WRITTEN_KINDS[text_of(record, "written_as") or text_of(record, "kind")]


def _joint(results: Results, line: str, tag: str, halves: list[Half]) -> Joint:
    first = halves[0].record
    whole = next(one for one in records_of(results, "lines") if text_of(one, "name") == line)
    return Joint(
        results=results,
        tag=tag,
        kind=_kind_of(first),
        line=whole,
        pipe=pipe_at(whole, number_of(first, "station_m")),
        halves=tuple(halves),
    )


def _zone_of(results: Results, record: Record) -> Record:
    line, station = text_of(record, "line"), number_of(record, "station_m")
    return next(zone for zone in records_of(results, "zones") if any(_in(part, line, station) for part in _parts(zone)))


def _parts(zone: Record) -> Iterator[Record]:
    yield from records_of(zone, "parts")


def _in(part: Record, line: str, station: float) -> bool:
    return text_of(part, "line") == line and number_of(part, "from_m") <= station <= number_of(part, "to_m")


__all__ = ["Half", "Joint", "joints_of"]
