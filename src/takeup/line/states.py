"""The states that a line goes through, in their order.     (line/states.py)

The default order is: installed; under hydrostatic test; emptied; cold at design pressure; warming, zone by zone along
the flow; operating; design pressure and temperature; hot, pressure lost; cooling under vacuum unless excluded; coldest
and hottest day, shut down. Everything that parts two zones (an anchor, a valve that can close) adds the other side
hot, and one side at pressure with the other at none, both ways round. The user drops states with a reason, adds
states, and puts them in another order. Pressure is stated at an elevation and everywhere else differs by the head of
the content. A line that stands full without pressure is open at the highest point of all lines joined to it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from takeup.library import density, saturation_temperature
from takeup.line.conditions import AddedState, Condition, Medium, ZoneChange
from takeup.line.records import Study
from takeup.line.route import route_of
from takeup.line.weights import GRAVITY
from takeup.line.zones import Zone, Zones, zones_of

Content = Literal["steam", "water", "condensate", "air", "nitrogen", "thermal oil", "none"]
Kind = Literal["empty", "test", "pressure", "operating", "design", "vacuum", "one side", "user"]
FIRST = "installed"  # the zero of movements and growth: nothing comes before it
FREEZING = 0.0  # degC: a line that stands at or below it is taken as drained
LIQUIDS = ("water", "condensate", "thermal oil")


@dataclass(frozen=True, kw_only=True, slots=True)
class ZoneState:
    """What one zone is at: gauge pressure [Pa] at an elevation [m], temperature [degC], content and density [kg/m3]."""

    pressure: float
    at_elevation: float
    temperature: float
    content: Content
    density: float

    def pressure_at(self, elevation: float) -> float:
        """Return the gauge pressure at an elevation, P + rho g (z_0 - z) [Pa]."""
        if self.pressure == 0.0 and self.content not in LIQUIDS:
            return 0.0
        return self.pressure + self.density * GRAVITY * (self.at_elevation - elevation)


@dataclass(frozen=True, kw_only=True, slots=True)
class State:
    """One state of the walk: `kind` says which checks look at it; `zones` are in the order of `layout`.

    Args:
        name: what is going on.
        kind: which checks look at it.
        zones: what each zone is at.
        layout: the zones themselves.
        closed: names of the valves that are closed.
        loads: names of the user's loads that act; loads that stay act in every state, named or not.
        locked: whether spring hangers are locked: from installation until the test is over, those that are in test.
    """

    name: str
    kind: Kind
    zones: tuple[ZoneState, ...]
    layout: Zones
    closed: tuple[str, ...] = ()
    loads: tuple[str, ...] = ()
    locked: bool = False

    def at(self, line: str, station: float) -> ZoneState:
        """Return what the zone at a station of a line is at."""
        return self.zones[self.layout.number(line, station)]


def states_of(study: Study) -> tuple[State, ...]:
    """Return the states of the walk: those that the user orders first, the others by default, the user's own last."""
    dropped = {item.state for item in study.dropped}
    default = _default_states(study)
    states = [state for state in default if state.name not in dropped]
    states += [_added_state(study, item, {state.name: state for state in default}) for item in study.added]
    place = {name: number for number, name in enumerate((FIRST, *study.order))}
    return tuple(sorted(states, key=lambda state: place.get(state.name, len(place))))


def state_names(study: Study) -> tuple[str, ...]:
    """Return the names of every state of the default order, dropped ones included."""
    return tuple(state.name for state in _default_states(study))


Column: TypeAlias = tuple[ZoneState, ...]
"""What every zone is at, in the order of the zones."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Filler:
    """Makes the states of a study: what each zone is at, from the conditions of each."""

    study: Study
    layout: Zones
    tops: Mapping[str, float]

    def column(self, zone: Callable[[Zone], ZoneState]) -> Column:
        """Return what every zone is at, when all of them are at the same thing."""
        return tuple(zone(item) for item in self.layout.every)

    def everywhere(self, name: str, kind: Kind, zone: Callable[[Zone], ZoneState], *, locked: bool = False) -> State:
        return State(
            name=name,
            kind=kind,
            zones=self.column(zone),
            layout=self.layout,
            locked=locked,
        )

    def medium(self, zone: Zone) -> Medium:
        return self.study.line(zone.parts[0].line).medium

    def fill(self, zone: Zone, condition: Condition, content: Content) -> ZoneState:
        """Return a zone at a condition; its reference elevation is the one stated, else the start of its line."""
        line = self.study.line(zone.parts[0].line)
        elevation = line.start_at[2] if condition.at_elevation is None else condition.at_elevation
        typed = None if line.medium_density is None else line.medium_density.value
        return ZoneState(
            pressure=condition.pressure,
            at_elevation=elevation,
            temperature=condition.temperature,
            content=content,
            density=content_density(content, condition.pressure, condition.temperature, typed=typed),
        )

    def empty(self, zone: Zone) -> ZoneState:
        return self.fill(zone, Condition(pressure=0.0, temperature=self.study.site.installation), "none")

    def hot(self, zone: Zone) -> ZoneState:
        return self.fill(zone, zone.conditions.operating, self.medium(zone))

    def cold(self, zone: Zone) -> ZoneState:
        """Operating pressure, still at the temperature of installation."""
        condition = replace(zone.conditions.operating, temperature=self.study.site.installation)
        return self.fill(zone, condition, self.medium(zone))

    def standing(self, zone: Zone, temperature: float) -> ZoneState:
        """Shut down without pressure: a liquid stays, open at the highest point it reaches, unless it would freeze."""
        medium = self.medium(zone)
        content: Content = medium if medium in LIQUIDS and temperature > FREEZING else "none"
        top = max(self.tops[part.line] for part in zone.parts)
        return self.fill(zone, Condition(pressure=0.0, temperature=temperature, at_elevation=top), content)


def _filler_of(study: Study) -> _Filler:
    return _Filler(study=study, layout=zones_of(study), tops=_tops(study))


def _tops(study: Study) -> dict[str, float]:
    """Return how high the liquid of each line reaches [m], over all lines of its medium that branches join to it.

    A valve that is not said to be closed is open, so the same water stands on both its sides.
    """
    first: dict[str, str] = {}  # the line that the others of its system leave, at last
    top: dict[str, float] = {}
    for line in study.lines:  # a branch stands after its main
        joined = line.branch is not None and study.line(line.branch.of).medium == line.medium
        first[line.name] = first[line.branch.of] if line.branch is not None and joined else line.name
        own = float(route_of(line).points[:, 2].max())
        top[first[line.name]] = max(own, top.get(first[line.name], own))
    return {name: top[origin] for name, origin in first.items()}


def _default_states(study: Study) -> list[State]:
    filler, site = _filler_of(study), study.site

    def cold_pressure(zone: Zone) -> ZoneState:
        return filler.fill(zone, replace(zone.conditions.design, temperature=site.installation), filler.medium(zone))

    states = [
        filler.everywhere(FIRST, "empty", filler.empty, locked=True),
        filler.everywhere(
            "under hydrostatic test", "test", lambda z: filler.fill(z, z.conditions.test, "water"), locked=True
        ),
        filler.everywhere("emptied after the test", "empty", filler.empty),
        filler.everywhere("cold at design pressure", "pressure", cold_pressure),
        *_warming(filler),
        filler.everywhere("operating", "operating", filler.hot),
        filler.everywhere(
            "design pressure and temperature",
            "design",
            lambda z: filler.fill(z, z.conditions.design, filler.medium(z)),
        ),
        filler.everywhere(
            "hot, pressure lost", "empty", lambda z: filler.standing(z, z.conditions.operating.temperature)
        ),
    ]
    if study.vacuum.possible:
        vacuum = Condition(pressure=study.vacuum.pressure, temperature=site.coldest)
        states.append(filler.everywhere("cooling under vacuum", "vacuum", lambda z: filler.fill(z, vacuum, "none")))
    states.append(filler.everywhere("coldest day, shut down", "empty", lambda z: filler.standing(z, site.coldest)))
    states.append(filler.everywhere("hottest day, shut down", "empty", lambda z: filler.standing(z, site.hottest)))
    return states + _one_sided(filler)


def _warming(filler: _Filler) -> list[State]:
    """Return the states in which the lines are hot as far as each bound, the rest at pressure and still cold."""
    states, seen = [], set[str]()
    hot, cold = filler.column(filler.hot), filler.column(filler.cold)
    first = {bound.next: bound for bound in reversed(filler.layout.bounds)}
    for number in range(1, len(filler.layout.every)):
        bound = first.get(number)
        words = bound.name if bound else _begin(filler, number)
        name = f"warming, hot as far as {words}"
        if name in seen:
            name = f"warming, hot up to {filler.layout.every[number].name}"
        seen.add(name)
        states.append(_split(filler, name, "operating", (frozenset(range(number)), hot, cold)))
    return states


def _begin(filler: _Filler, number: int) -> str:
    """Return the name of the place where a zone begins that no bound leads to: the start of its line."""
    return filler.study.line(filler.layout.every[number].parts[0].line).start.name


def _one_sided(filler: _Filler) -> list[State]:
    """Return the one-sided states of every bound that warming does not cover."""
    install = filler.study.site.installation

    def design(zone: Zone) -> ZoneState:
        condition = replace(zone.conditions.design, temperature=zone.conditions.operating.temperature)
        return filler.fill(zone, condition, filler.medium(zone))

    def none(zone: Zone) -> ZoneState:
        return filler.fill(zone, Condition(pressure=0.0, temperature=install), "none")

    full, empty = filler.column(design), filler.column(none)
    hot, cold = filler.column(filler.hot), filler.column(filler.cold)
    states = []
    for bound in filler.layout.bounds:
        if bound.kind == "corner":
            continue
        closed = (bound.name,) if bound.kind == "valve" else ()
        for words, before, beyond, shut in (
            (f"hot beyond {bound.name}, cold before it", cold, hot, ()),
            (f"pressure before {bound.name}, none beyond it", full, empty, closed),
            (f"pressure beyond {bound.name}, none before it", empty, full, closed),
        ):
            state = _split(filler, words, "one side", (bound.before, before, beyond))
            states.append(replace(state, closed=shut))
    return states


def _split(filler: _Filler, name: str, kind: Kind, parts: tuple[frozenset[int], Column, Column]) -> State:
    """Return a state in which some zones, by number, are at one thing and the others at another."""
    chosen, one, other = parts
    zones = tuple((one if number in chosen else other)[number] for number in range(len(one)))
    return State(name=name, kind=kind, zones=zones, layout=filler.layout)


def _added_state(study: Study, item: AddedState, default: dict[str, State]) -> State:
    filler = _filler_of(study)
    changes = {change.zone: change for change in item.zones}
    base = default[item.like] if item.like else None
    zones = []
    for number, zone in enumerate(filler.layout.every):
        before = base.zones[number] if base else None
        change = changes.get(zone.name) or ZoneChange(zone=zone.name, condition=None, content=None)
        zones.append(
            _changed(filler, zone, before, (change.condition or item.condition, change.content or item.content))
        )
    return State(
        name=item.name,
        kind="user",
        zones=tuple(zones),
        layout=filler.layout,
        closed=item.closed,
        loads=item.loads,
        locked=item.locked,
    )


def _changed(
    filler: _Filler, zone: Zone, before: ZoneState | None, change: tuple[Condition | None, str | None]
) -> ZoneState:
    """Return a zone of an added state: at its own condition and content, where it has none at those before."""
    condition, content = change
    if condition is None:
        assert before is not None, "the reader asks for a condition, or for a state to start from"
        if content is None:
            return before
        condition = Condition(
            pressure=before.pressure, temperature=before.temperature, at_elevation=before.at_elevation
        )
    filling: Content = filler.medium(zone)
    if content == "water":
        filling = "water"
    elif content == "empty":
        filling = "none"
    elif content is None and before is not None:
        filling = before.content
    return filler.fill(zone, condition, filling)


def content_density(content: Content, pressure: float, temperature: float, *, typed: float | None = None) -> float:
    """Return the density of a content [kg/m3].

    Steam colder than saturation is taken as saturated steam of its pressure: the state asks for steam there, and a
    line full of condensate is a state that the user adds. Water above saturation is taken at saturation.

    Args:
        content: what fills the zone.
        pressure: gauge [Pa].
        temperature: [degC].
        typed: the density that the user gives for a medium without one of its own.
    """
    if content == "none":
        return 0.0
    if content == "thermal oil":
        assert typed is not None, "the reader asks for the density of thermal oil"
        return typed
    if content == "steam":
        return density("steam", pressure, max(temperature, saturation_temperature(pressure)))
    if content in ("water", "condensate"):
        return density("water", pressure, min(temperature, saturation_temperature(pressure)))
    return density(content, pressure, temperature)
