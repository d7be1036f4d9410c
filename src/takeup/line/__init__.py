"""What the user describes: records, centre line, zones and states, weights.     (line/__init__.py)"""

from takeup.line.conditions import Condition, Load
from takeup.line.holding import ANCHORED_ENDS, End, Hold
from takeup.line.parts import Allowables, Item, Pipe, Section
from takeup.line.record import Record
from takeup.line.records import Line, Study, TakeUp
from takeup.line.route import SAME_STATION, Route, Turn, local_axes, route_of
from takeup.line.spans import rise_span, section_span
from takeup.line.states import LIQUIDS, State, ZoneState, content_density, state_names, states_of
from takeup.line.weights import (
    GRAVITY,
    bore_area,
    content_weight,
    insulation_weight,
    pipe_weight,
    second_moment,
    wall_area,
)
from takeup.line.zones import (
    Stretch,
    Zone,
    Zones,
    anchor_stations,
    anchored_ends,
    is_anchor,
    stretches_of,
    zones_of,
)

__all__ = [
    "ANCHORED_ENDS",
    "GRAVITY",
    "LIQUIDS",
    "SAME_STATION",
    "Allowables",
    "Condition",
    "End",
    "Hold",
    "Item",
    "Line",
    "Load",
    "Pipe",
    "Record",
    "Route",
    "Section",
    "State",
    "Stretch",
    "Study",
    "TakeUp",
    "Turn",
    "Zone",
    "ZoneState",
    "Zones",
    "anchor_stations",
    "anchored_ends",
    "bore_area",
    "content_density",
    "content_weight",
    "insulation_weight",
    "is_anchor",
    "local_axes",
    "pipe_weight",
    "rise_span",
    "route_of",
    "second_moment",
    "section_span",
    "state_names",
    "states_of",
    "stretches_of",
    "wall_area",
    "zones_of",
]
