"""Zones, and the states that a line goes through, in their order.     (line/states.py)

A zone is bounded by anchors. The default order is: installed; under hydrostatic test; emptied; cold at design
pressure; warming, zone by zone along the flow; operating; design pressure and temperature; hot, pressure lost;
cooling under vacuum unless excluded; coldest and hottest day, shut down. Each anchor between the ends adds the other
side hot, and one side at pressure with the other at none, both ways round. The user drops states with a reason, or
adds states. Pressure is stated at an elevation and everywhere else differs by the head of the content. A line
that stands full without pressure is open at its highest point.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from takeup.library import density, saturation_temperature
from takeup.line.records import Condition, Hold, Line, Study
from takeup.line.route import route_of
from takeup.line.weights import GRAVITY

Content = Literal["steam", "water", "air", "none"]
Kind = Literal["empty", "test", "pressure", "operating", "design", "vacuum", "one side", "user"]
FREEZING = 0.0  # degC: a line that stands at or below it is taken as drained
ANCHORS = ("main anchor", "intermediate anchor")


@dataclass(frozen=True, kw_only=True, slots=True)
class Zone:
    """A stretch between two neighbouring anchors or ends, stations in metres."""

    name: str
    start: float
    end: float


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
        if self.pressure == 0.0 and self.content != "water":
            return 0.0
        return self.pressure + self.density * GRAVITY * (self.at_elevation - elevation)


@dataclass(frozen=True, kw_only=True, slots=True)
class State:
    """One state of the walk: `kind` says which checks look at it; `zones` are in the order of `zones_of`."""

    name: str
    kind: Kind
    zones: tuple[ZoneState, ...]


def anchor_stations(line: Line) -> tuple[tuple[str, float], ...]:
    """Return name and station of everything that bounds a zone: both ends and every anchor, in order."""
    inner = sorted((hold.position.station, hold.name) for hold in line.holds if is_anchor(hold))
    length = route_of(line).length
    return ((line.start.name, 0.0), *((name, station) for station, name in inner), (line.end.name, length))


def is_anchor(hold: Hold) -> bool:
    """Whether a hold holds all six directions."""
    return hold.kind in ANCHORS


def zones_of(line: Line) -> tuple[Zone, ...]:
    """Return the zones of a line, along the flow."""
    bounds = anchor_stations(line)
    return tuple(
        Zone(name=f"{first} to {second}", start=begin, end=finish)
        for (first, begin), (second, finish) in pairwise(bounds)
    )


def states_of(study: Study) -> tuple[State, ...]:
    """Return the states of the walk, dropped ones left out, the user's own at the end."""
    dropped = {item.state for item in study.dropped}
    kept = tuple(state for state in _default_states(study) if state.name not in dropped)
    return kept + tuple(_added_states(study))


def state_names(study: Study) -> tuple[str, ...]:
    """Return the names of every state of the default order, dropped ones included."""
    return tuple(state.name for state in _default_states(study))


def _default_states(study: Study) -> list[State]:
    install, test = study.site.installation, study.test
    count = len(zones_of(study.line))
    empty = _zone(study, Condition(pressure=0.0, temperature=install), "none")
    hot = _zone(study, study.operating, study.line.medium)
    standing: Content = "water" if study.line.medium == "water" else "none"

    def everywhere(name: str, kind: Kind, zone: ZoneState) -> State:
        return State(name=name, kind=kind, zones=(zone,) * count)

    cold_pressure = _zone(study, replace(study.design, temperature=install), study.line.medium)
    top = float(route_of(study.line).points[:, 2].max())  # a line without pressure stands open at its highest point
    lost = _zone(study, replace(study.operating, pressure=0.0, at_elevation=top), standing)
    states = [
        everywhere("installed", "empty", empty),
        everywhere("under hydrostatic test", "test", _zone(study, test, "water")),
        everywhere("emptied after the test", "empty", empty),
        everywhere("cold at design pressure", "pressure", cold_pressure),
        *_warming(study, hot),
        everywhere("operating", "operating", hot),
        everywhere("design pressure and temperature", "design", _zone(study, study.design, study.line.medium)),
        everywhere("hot, pressure lost", "empty", lost),
    ]
    if study.vacuum.possible:
        vacuum = Condition(pressure=study.vacuum.pressure, temperature=study.site.coldest)
        states.append(everywhere("cooling under vacuum", "vacuum", _zone(study, vacuum, "none")))
    for name, temperature in (("coldest", study.site.coldest), ("hottest", study.site.hottest)):
        content: Content = standing if temperature > FREEZING else "none"
        shut = _zone(study, Condition(pressure=0.0, temperature=temperature, at_elevation=top), content)
        states.append(everywhere(f"{name} day, shut down", "empty", shut))
    return states + _one_sided(study, hot)


def _warming(study: Study, hot: ZoneState) -> list[State]:
    """Return the states in which the line is hot as far as each anchor, the rest at pressure and still cold."""
    bounds = anchor_stations(study.line)[1:-1]
    cold = replace(hot, temperature=study.site.installation)
    count = len(bounds) + 1
    return [
        State(name=f"warming, hot as far as {name}", kind="operating", zones=(hot,) * k + (cold,) * (count - k))
        for k, (name, _) in enumerate(bounds, start=1)
    ]


def _one_sided(study: Study, hot: ZoneState) -> list[State]:
    """Return, for each anchor between the ends, the one-sided states that warming does not cover."""
    bounds = anchor_stations(study.line)[1:-1]
    count = len(bounds) + 1
    install = study.site.installation
    cold = replace(hot, temperature=install)
    none = _zone(study, Condition(pressure=0.0, temperature=install), "none")
    design = _zone(study, replace(study.design, temperature=study.operating.temperature), study.line.medium)
    states = []
    for k, (name, _) in enumerate(bounds, start=1):
        left, right = k, count - k
        for words, before, after in (
            (f"hot beyond {name}, cold before it", cold, hot),
            (f"pressure before {name}, none beyond it", design, none),
            (f"pressure beyond {name}, none before it", none, design),
        ):
            states.append(State(name=words, kind="one side", zones=(before,) * left + (after,) * right))
    return states


def _added_states(study: Study) -> list[State]:
    count = len(zones_of(study.line))
    states = []
    for item in study.added:
        content: Content = "none" if item.content == "empty" else study.line.medium
        if item.content == "water":
            content = "water"
        states.append(State(name=item.name, kind="user", zones=(_zone(study, item.condition, content),) * count))
    return states


def _zone(study: Study, condition: Condition, content: Content) -> ZoneState:
    """Return a zone at a condition; its reference elevation is the one stated, else the start of the line."""
    elevation = study.line.start_at[2] if condition.at_elevation is None else condition.at_elevation
    return ZoneState(
        pressure=condition.pressure,
        at_elevation=elevation,
        temperature=condition.temperature,
        content=content,
        density=content_density(content, condition.pressure, condition.temperature),
    )


def content_density(content: Content, pressure: float, temperature: float) -> float:
    """Return the density of a content [kg/m3].

    Steam colder than saturation is taken as saturated steam of its pressure: the state asks for steam there, and a
    line full of condensate is a state that the user adds. Water above saturation is taken at saturation.

    Args:
        content: what fills the zone.
        pressure: gauge [Pa].
        temperature: [degC].
    """
    if content == "none":
        return 0.0
    if content == "steam":
        return density("steam", pressure, max(temperature, saturation_temperature(pressure)))
    if content == "water":
        return density("water", pressure, min(temperature, saturation_temperature(pressure)))
    return density(content, pressure, temperature)
