"""A state made by hand: one pressure and temperature everywhere, contents as in operation. (desk/seen/by_hand.py)"""

from __future__ import annotations

from takeup.desk.interface import ByHand
from takeup.desk.seen.trips import BY_HAND
from takeup.errors import OutOfRange
from takeup.line import State, Study, Zone, Zones, ZoneState, content_density
from takeup.line.states import FIRST
from takeup.units import STANDARD_ATMOSPHERE, bar


def states_by_hand(study: Study, states: tuple[State, ...], asked: ByHand) -> tuple[State, State]:
    """Return the way to a state made by hand: where the line was installed, then the state.

    Args:
        study: its lines resolved.
        states: of its walk.
        asked: pressure and temperature.

    Raises:
        OutOfRange: the content has no density at them, or there is no such pressure.
    """
    if bar(asked["pressure_bar"]) < -STANDARD_ATMOSPHERE:
        raise OutOfRange(f"{asked['pressure_bar']:g} bar(g) is below vacuum, -1.01325 bar(g)")
    installed = next((state for state in states if state.name == FIRST), states[0])
    layout = installed.layout
    zones = tuple(_zone_by_hand(study, zone, asked) for zone in layout.every)
    return installed, _by_hand(layout, zones)


def _by_hand(layout: Zones, zones: tuple[ZoneState, ...]) -> State:
    return State(name=BY_HAND, kind="user", zones=zones, layout=layout)


def _zone_by_hand(study: Study, zone: Zone, asked: ByHand) -> ZoneState:
    """Return a zone full of its medium, its pressure stated where that of operation is."""
    line, operating = study.line(zone.parts[0].line), zone.conditions.operating
    pressure, temperature = bar(asked["pressure_bar"]), asked["temperature_c"]
    typed = None if line.medium_density is None else line.medium_density.value
    return ZoneState(
        pressure=pressure,
        at_elevation=line.start_at[2] if operating.at_elevation is None else operating.at_elevation,
        temperature=temperature,
        content=line.medium,
        density=content_density(line.medium, pressure, temperature, typed=typed),
    )


__all__ = ["states_by_hand"]
