"""What the page is told: of the study, reasons, proposals, papers and scenes.     (desk/interface/telling.py)"""

from __future__ import annotations

from typing import Literal

from typing_extensions import TypedDict

from takeup.desk.interface.document import LineOutline
from takeup.desk.interface.looking import Solids, View

Outcome = Literal["passes", "close", "fails", "not covered", "no limit given", "not computed yet"]
Topic = Literal["document", "study", "proposals", "papers", "outside"]
Job = Literal["none", "running", "done", "failed", "stopped"]


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
    key: str
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


class TakeAsked(TypedDict):
    """Which proposal is taken over: by its number, and its `key`, since a search that goes on may put another there.

    `revision` is that of the text that the page shows.
    """

    revision: int
    number: int
    key: str


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
    POST /api/proposals/take TakeAsked       Document, or 409 Refused
    GET  /api/papers                         Papers
    POST /api/papers        PapersAsked      Papers
    GET  /papers/NAME                        a file that was made
    GET  /api/scenes                         {"scenes": SceneRow[]}
    GET  /api/scenes/NAME                    SceneTold
    GET  /api/news                           server-sent events, each one News
    """
