"""What the page and its server say to each other: the shape of every JSON value.     (desk/interface.py)

The page's own types are written from this file by `tools/page_types.py`, so the two cannot differ. Every number has its
unit in its name; angles are degrees, forces on holds are those on the structure, a lengthening joint is positive. A
text that a person reads comes from the server, ready to be shown.
"""

from __future__ import annotations

from typing import Literal

from typing_extensions import TypedDict

Outcome = Literal["passes", "close", "fails", "not covered", "no limit given", "not computed yet"]
ViewName = Literal["plan", "section", "scene"]
Scenario = Literal["no friction", "high friction"]
Topic = Literal["document", "study", "proposals", "papers", "outside"]
Job = Literal["none", "running", "done", "failed", "stopped"]


class Fault(TypedDict):
    """One thing wrong with the text; line and column count from one."""

    line: int
    column: int
    message: str


class Place(TypedDict):
    """A hold, a take-up or an end on a line.

    `id` is the line's name, a slash and its own name. `stays` says why it cannot be moved; empty where it can.
    `placed_by` is a rule's name, or "by hand"; moving what a rule placed first writes the rule's places into the text.
    """

    id: str
    name: str
    line: str
    what: Literal["hold", "takeup", "end"]
    kind: str
    station_m: float
    from_m: float
    to_m: float
    placed_by: str
    stays: str


class Corner(TypedDict):
    """A named place of a route."""

    name: str
    station_m: float


class LineOutline(TypedDict):
    """A line as the page needs it to move things along it."""

    name: str
    about: str
    length_m: float
    corners: list[Corner]
    places: list[Place]


class StateRow(TypedDict):
    """A state of the walk, in order; pressure and temperature are those of its hottest zone."""

    name: str
    pressure_bar: float
    temperature_c: float
    content: str


class Palette(TypedDict):
    """Something that can be put on a line. `needs` names what the user must first say, and between what to choose."""

    key: str
    what: Literal["hold", "takeup"]
    title: str
    about: str
    slides_on: list[str]


class Document(TypedDict):
    """The opened file as it stands on the desk.

    `revision` grows by one with every change. `undo` and `redo` say in words what they would do; "" where there is
    nothing. `outside`: whether the file on disk still is what was last read or saved. `recovered`: what was taken over
    from an earlier desk that ended without saving; "" where nothing was. `readable`: no fault, so that there is
    something to look at; the outline is that of the last readable revision, `outline_revision` (0: of none yet).
    `busy`: what must be worked out first, such as which joint of a series fits; "" where nothing has to.
    """

    revision: int
    file: str
    project: str
    text: str
    saved: bool
    undo: str
    redo: str
    outside: Literal["same", "changed", "gone"]
    recovered: str
    readable: bool
    outline_revision: int
    busy: str
    faults: list[Fault]
    lines: list[LineOutline]
    states: list[StateRow]
    palette: list[Palette]


class Change(TypedDict, total=False):
    """A change asked for. `do` decides what else is read.

    text: `text`. move: `id`, `station_m`. add: `key` of the palette, `line`, `station_m`, and `slides_on` where the
    palette asks for it. remove: `id`. undo, redo: nothing. outside: take the file as it is on disk now.
    """

    do: Literal["text", "move", "add", "remove", "undo", "redo", "outside"]
    text: str
    id: str
    station_m: float
    key: str
    line: str
    slides_on: str


class ChangeAsked(TypedDict):
    """A change, and the revision that it was made on; another one is refused with 409 and the document as it is."""

    revision: int
    change: Change


class Refused(TypedDict):
    """Why something was not done; the document as it stands where that helps."""

    refused: str
    document: Document | None


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
    """The rods of a joint in the state looked at; `gap_mm` is how far the nuts stand off where they are slack."""

    name: str
    tension_kn: float
    engaged: bool
    gap_mm: float


class TakeupLook(TypedDict):
    """A joint in the state looked at; `use` is the greatest of its movements over what it may, which `words` says."""

    id: str
    axial_mm: float
    lateral_mm: float
    angular_deg: float
    length_mm: float
    use: float | None
    words: str
    rods: list[RodLook]


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


class PlaceUse(TypedDict):
    """The check nearest to its limit at a place, over all states, of the whole study."""

    id: str
    use: float | None
    outcome: Outcome
    rule: str
    state: str
    words: str


class StudyNews(TypedDict):
    """The whole study, run behind: for which revision, how far, and its verdict."""

    revision: int
    job: Job
    words: str
    verdict: str
    because: list[str]
    places: list[PlaceUse]
    took_s: float


class Cell(TypedDict):
    """A cell of a table; `use` colours it."""

    text: str
    use: float | None


class Table(TypedDict):
    """A table with its head and what it says in a sentence."""

    title: str
    about: str
    head: list[str]
    rows: list[list[Cell]]


class Why(TypedDict):
    """Everything about one place: loads by state, hand beside model, checks, what would change it.

    `waiting`: parts that come with the whole study, which still runs.
    """

    revision: int
    id: str
    title: str
    says: list[str]
    tables: list[Table]
    waiting: str


class ProposalRow(TypedDict):
    """A proposal in the comparison."""

    number: int
    title: str
    cost: str
    anchor_load: str
    joints: int
    verdict: str
    reasons: list[str]
    svg: str


class RefusedConcept(TypedDict):
    """Something that was not taken, where, and its first failing check."""

    where: str
    concept: str
    because: str


class Proposals(TypedDict):
    """What was found for a revision, best first; `words` says what is going on or why nothing fits."""

    revision: int
    job: Job
    words: str
    share: float
    rows: list[ProposalRow]
    refused: list[RefusedConcept]


class ArrangeAsked(TypedDict):
    """Which proposals are wanted."""

    best: int
    measure: Literal["cost", "anchor-load", "joints"]


class PaperFile(TypedDict):
    """A file that was made; `address` is where the page finds it."""

    name: str
    title: str
    size_kb: float
    address: str


class PaperKind(TypedDict):
    """A paper that can be asked for."""

    key: str
    title: str
    about: str


class Papers(TypedDict):
    """What was made, from which revision, and what can be."""

    revision: int
    job: Job
    words: str
    kinds: list[PaperKind]
    files: list[PaperFile]


class PapersAsked(TypedDict):
    """Which papers are wanted, and how."""

    only: list[str]
    units: Literal["si", "us"]
    language: Literal["en", "de"]


class SceneRow(TypedDict):
    """One of the nine scenes."""

    name: str
    number: int
    title: str


class SceneClaim(TypedDict):
    """A claim with the model's number and the hand's."""

    text: str
    model: str
    hand: str
    formula: str
    source: str
    agrees: bool


class SceneStep(TypedDict):
    """One step of a scene, with its picture."""

    title: str
    words: str
    svg: str


class SceneFile(TypedDict):
    """A line of the scene that can be played by hand: looks are asked with its file name as `scene`."""

    file: str
    title: str
    highest_bar: float
    highest_c: float
    lowest_c: float
    outline: LineOutline
    views: list[View]
    solids: Solids


class SceneTold(TypedDict):
    """A scene, played. `signs` is a drawing of what the signs of its pictures mean."""

    name: str
    title: str
    lead: list[str]
    steps: list[SceneStep]
    signs: str
    claims: list[SceneClaim]
    leaves_out: list[str]
    files: list[SceneFile]


class News(TypedDict):
    """One message of the stream of news (`/api/news`): what has changed, so that the page asks for it."""

    what: Topic
    revision: int


class Addresses(TypedDict):
    """Every address the page asks, and what is sent and answered; for the reference and the page's client.

    GET  /api/document                       Document
    POST /api/change        ChangeAsked      Document, or 409 Refused
    POST /api/save          {overwrite}      Document, or 409 Refused: the file changed on disk, overwrite is false
    POST /api/look          LookAsked        Look
    GET  /api/walk?scenario=                 Walk
    GET  /api/views                          Views
    GET  /api/solids                         Solids
    GET  /api/study                          StudyNews
    GET  /api/why?id=                        Why
    GET  /api/proposals                      Proposals
    POST /api/proposals     ArrangeAsked     Proposals
    POST /api/proposals/stop                 Proposals
    POST /api/proposals/take {number}        Document, or 409 Refused
    GET  /api/papers                         Papers
    POST /api/papers        PapersAsked      Papers
    GET  /papers/NAME                        a file that was made
    GET  /api/scenes                         {"scenes": SceneRow[]}
    GET  /api/scenes/NAME                    SceneTold
    GET  /api/news                           server-sent events, each one News
    """
