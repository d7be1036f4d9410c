"""A proposal as a whole line file: the bare file with what is proposed written in. (line/reading/write_proposal.py)

The text is edited, not written anew: comments, order, spelling, style and line ends of everything else stay, and so do
the keys that say what may be proposed, which do nothing in a study. Reading the text gives the line that was meant.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ruamel.yaml.nodes import MappingNode

from takeup import __version__
from takeup.line.holding import Hold
from takeup.line.looped import LoopPlan, default_name, looped, moving, route_places
from takeup.line.parts import Position
from takeup.line.reading.positions import locate
from takeup.line.reading.reader import study_from_text
from takeup.line.reading.text_nodes import Edit, applied, items_of, line_end, root_of, value_of, with_items
from takeup.line.reading.wording import length_words
from takeup.line.reading.write_loops import Bare, changes_of, loop_edits
from takeup.line.reading.written_items import hold_item, takeup_item
from takeup.line.records import Line, Study, TakeUp
from takeup.line.route import route_of

_MARK = "\N{BYTE ORDER MARK}"
_SAME = 1e-9  # words that say a station to within the rounding of sums say all of it [m]


@dataclass(frozen=True, kw_only=True, slots=True)
class Additions:
    """What is to be written into one line.

    Args:
        line: its name.
        holds: to be added, their stations on the line with its loops; their names are taken by nothing else.
        takeups: to be added, each chosen from a series; likewise.
        loops: to be put in, their stations on the bare line; there is room for them.
    """

    line: str
    holds: Sequence[Hold] = ()
    takeups: Sequence[TakeUp] = ()
    loops: Sequence[LoopPlan] = ()


def proposal_text(text: str, file: str, *, additions: Sequence[Additions], head: str) -> str:
    """Return the text of a line file with an arrangement written into its lines.

    Args:
        text: of the bare file, with its own line ends; a byte-order mark may come first.
        file: its name, beside which its series are.
        additions: to each line.
        head: what the proposal is, for the comment that comes first.

    Raises:
        InputError: The text is no line file.
    """
    mark, bare = (_MARK, text.removeprefix(_MARK)) if text.startswith(_MARK) else ("", text)
    body, study = bare, study_from_text(bare, file)
    for added in additions:
        body = _with_line(body, file, added)
    return mark + applied(body, [(0, 0, _head(study, text, head))])


def _with_line(body: str, file: str, added: Additions) -> str:
    """Return the text of a line file with an arrangement written into one of its lines."""
    line, holds, takeups, loops = added.line, added.holds, added.takeups, added.loops
    study = study_from_text(body, file)
    root = root_of(body)
    number = next(number for number, one in enumerate(study.lines) if one.name == line)
    node, own = items_of(value_of(root, "lines"))[number], study.lines[number]
    assert isinstance(node, MappingNode), "the file was read without a fault"
    many = len(study.lines) > 1
    move = moving(own, loops, many=many)
    changes = changes_of(node, own)
    bare = Bare(text=body, root=root, node=node, line=own, move=replace(move, places={**move.places, **changes}))
    after = looped(study, line, loops).line(line)
    places = route_places(after) | {name: move.station(station) for name, station in changes.items()}
    edits: list[Edit] = list(loop_edits(bare))
    edits += _added(bare, "holds", list(_holds(after, holds, places, many=many)))
    places |= {hold.name: hold.position.station for hold in (*after.holds, *holds)}
    edits += _added(bare, "takeups", [takeup_item(one, _words(one.position, places)) for one in takeups])
    return applied(body, edits)


def _added(bare: Bare, key: str, items: list[str]) -> list[Edit]:
    """Return the edit that adds items; a list that is not there yet comes after the route, take-ups after holds."""
    after = "holds" if key == "takeups" and value_of(bare.node, "holds") is not None else "route"
    return [with_items(bare.text, bare.node, key, items, after=after)] if items else []


def _holds(line: Line, holds: Sequence[Hold], places: dict[str, float], *, many: bool) -> Iterator[str]:
    """Yield the items of holds."""
    turns = route_of(line).turns
    for hold in holds:
        on_bend = hold.position.on_bend
        if on_bend is None:
            at = _words(hold.position, places)
        else:
            ends = {"tangent start": "begin", "crown": "station", "tangent end": "finish"}[on_bend]
            at = min(turns, key=lambda turn: abs(getattr(turn, ends) - hold.position.station)).name
        yield hold_item(hold, at, on_bend, named=hold.name != default_name(hold, at, line.name, many=many))


def _words(position: Position, places: dict[str, float]) -> str:
    """Return the words of a place where they say it on the line as it is now; its station where they do not."""
    try:
        said = locate(position.words, places, max(places.values()))
    except ValueError:
        return length_words(position.station)
    return position.words if abs(said - position.station) < _SAME else length_words(position.station)


def _head(study: Study, text: str, head: str) -> str:
    """Return the comment that comes first: what the proposal is, from which file, made by what."""
    digest = hashlib.sha256(text.encode()).hexdigest()
    said = f"Proposed by takeup {__version__} from {study.file}, SHA-256 {digest}, dated {study.document.date}."
    return "".join(f"# {words}".rstrip() + line_end(text) for words in (*head.splitlines(), said)) + line_end(text)


__all__ = ["Additions", "LoopPlan", "proposal_text"]
