"""What the user describes: records, centre line, zones and states, weights.     (line/__init__.py)"""

from takeup.line.records import Hold, Line, Pipe, Study, TakeUp
from takeup.line.route import SAME_STATION, Route, Turn, local_axes, route_of
from takeup.line.states import (
    State,
    Zone,
    ZoneState,
    anchor_stations,
    content_density,
    is_anchor,
    state_names,
    states_of,
    zones_of,
)
from takeup.line.weights import (
    GRAVITY,
    bore_area,
    content_weight,
    insulation_weight,
    pipe_weight,
    second_moment,
    wall_area,
)

__all__ = [
    "GRAVITY",
    "SAME_STATION",
    "Hold",
    "Line",
    "Pipe",
    "Route",
    "State",
    "Study",
    "TakeUp",
    "Turn",
    "Zone",
    "ZoneState",
    "anchor_stations",
    "bore_area",
    "content_density",
    "content_weight",
    "insulation_weight",
    "is_anchor",
    "local_axes",
    "pipe_weight",
    "route_of",
    "second_moment",
    "state_names",
    "states_of",
    "wall_area",
    "zones_of",
]
