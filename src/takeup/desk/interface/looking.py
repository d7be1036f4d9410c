"""What the page looks at: states, looks, drawings and solids.     (desk/interface/looking.py)"""

from __future__ import annotations

from typing import Literal

from typing_extensions import TypedDict

ViewName = Literal["plan", "section", "scene"]
Scenario = Literal["no friction", "high friction"]


class ByHand(TypedDict):
    """A state made by hand: from installed to this pressure and temperature in every zone, contents as in operation."""

    pressure_bar: float
    temperature_c: float


class Moved(TypedDict):
    """Something picked up and not yet put down."""

    id: str
    station_m: float


class LookAsked(TypedDict):
    """What the page wants to see: a step of the walk, or a state by hand; drawn `exaggeration` times.

    `number` comes back with the answer; `revision` is that of the outline looked at. `exaggeration` 0 lets the server
    choose. `scene`: the file name of a scene's line instead of the document; "" for the document.
    """

    number: int
    revision: int
    scene: str
    step: int | None
    by_hand: ByHand | None
    scenario: Scenario
    moved: Moved | None
    exaggeration: float


class HoldLook(TypedDict):
    """A hold in the state looked at. `use` is null where no capacity is given; `contact`: "bears", "free", or ""."""

    id: str
    force_kn: float
    along_kn: float
    moment_knm: float
    capacity_kn: float | None
    use: float | None
    contact: str
    words: str


class RodLook(TypedDict):
    """One rod of a joint in the state looked at; `gap_mm` is how far its nuts stand off where it is slack.

    `use` is its tension over what one rod can carry, null where nobody said what that is; `words` says all of it.
    """

    name: str
    tension_kn: float
    engaged: bool
    gap_mm: float
    capacity_kn: float | None
    use: float | None
    words: str


class HardwareLook(TypedDict):
    """Plates, swing bars or ties of a joint, all of a sort together, in the state looked at.

    `force_kn` is what the checks ask of them: of plates and bars twice what the more loaded one bears, of ties their
    pull, below nought where they are pushed.
    """

    name: str
    force_kn: float
    capacity_kn: float | None
    use: float | None
    words: str


class TakeupLook(TypedDict):
    """A joint in the state looked at; `use` adds its movements over what they may be, as the check does."""

    id: str
    axial_mm: float
    lateral_mm: float
    angular_deg: float
    length_mm: float
    use: float | None
    words: str
    rods: list[RodLook]
    hardware: list[HardwareLook]


class Overlay(TypedDict):
    """What moves over a view: SVG content in the view's own coordinates [mm of the sheet].

    The view "scene" is that of a scene's line, drawn as scenes are: nothing in it stands still.
    """

    line: str
    view: ViewName
    svg: str


class LineMovement(TypedDict):
    """Movements of a line's nodes, not exaggerated, x y z of one after the other [m]: for the turning view."""

    line: str
    movement_m: list[float]


class Look(TypedDict):
    """The line as asked for. `trouble` says why there is no answer, and then the lists are empty; else it is ""."""

    number: int
    revision: int
    words: str
    pressure_bar: float
    temperature_c: float
    exaggeration: float
    trouble: str
    holds: list[HoldLook]
    takeups: list[TakeupLook]
    overlays: list[Overlay]
    movements: list[LineMovement]
    server_ms: float


class WalkStep(TypedDict):
    """A step of the walk. `arrived`: the state itself, not the way to it."""

    step: int
    state: str
    arrived: bool
    pressure_bar: float
    temperature_c: float


class WalkEvent(TypedDict):
    """Something that changes on the way."""

    step: int
    id: str
    what: str
    words: str


class Walk(TypedDict):
    """The track of states: every step, and what happens on the way."""

    revision: int
    scenario: Scenario
    trouble: str
    steps: list[WalkStep]
    events: list[WalkEvent]


class Handle(TypedDict):
    """Where a place is drawn in a view [mm of the sheet]."""

    id: str
    x: float
    y: float


class TrackPoint(TypedDict):
    """A station and where it is drawn, so that the pointer finds the station nearest to it."""

    station_m: float
    x: float
    y: float


class View(TypedDict):
    """One drawing of one line: SVG, and how stations lie in it. `title` is for those who cannot see it."""

    line: str
    view: ViewName
    title: str
    svg: str
    width: float
    height: float
    handles: list[Handle]
    track: list[TrackPoint]


class Views(TypedDict):
    """Every line in plan and along its route."""

    revision: int
    views: list[View]


class Part(TypedDict):
    """A closed solid of the turning view. Arrays are base64 of little-endian float32 and uint32.

    `position`: x y z of each vertex [m]. `index`: triangles. `node`, `share`: the vertex moves with node and node + 1
    of its line, with 1 - share and share; both empty where it stands still.
    """

    id: str
    line: str
    what: Literal["pipe", "bellows", "joint", "hold", "rod"]
    tone: str
    position: str
    index: str
    node: str
    share: str


class Solids(TypedDict):
    """The lines in space, as they lie; `thick` is how many times as thick as they are all things are drawn."""

    revision: int
    thick: float
    low_m: list[float]
    high_m: list[float]
    parts: list[Part]
