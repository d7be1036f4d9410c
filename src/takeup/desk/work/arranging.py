"""Proposals beside the desk: searched for in a process of their own, shown as they come.     (desk/work/arranging.py)

`arranged` is what `Work` runs. Whatever is proved is told on the way, so that a stop keeps it. The front of the command
line is left out here: it runs as many studies again, and the page compares what it has.
"""

from __future__ import annotations

import hashlib
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from takeup.choose.arrange.document import DEMONSTRATED, is_demonstration, searched_part, spans_told
from takeup.choose.arrange.front import undominated
from takeup.choose.arrange.ground import ground_of
from takeup.choose.arrange.outcome import Outcome, Stopped
from takeup.choose.arrange.price_file import demonstration_prices
from takeup.choose.arrange.propose import Hunt, Proposal, hunt_of, measured, propose
from takeup.choose.arrange.reasons import concepts_refused, reasons_of, refused_in, span_words
from takeup.choose.arrange.relax import Relaxation, relaxations
from takeup.choose.arrange.search import Bounds
from takeup.choose.arrange.standing import plan_words, standing_words
from takeup.choose.arrange.written import texts_of
from takeup.desk.interface import ArrangeAsked, ProposalRow, Proposals, RefusedConcept
from takeup.desk.work.jobs import Progress, Tell
from takeup.desk.work.within import prices_within
from takeup.drawing import to_svg
from takeup.drawing.proposal_view import proposal_sheets
from takeup.errors import TakeupError
from takeup.line.reading.reader import study_from_text
from takeup.units import to_kn

_EVERY, _TIMES = 1.5, 4.0  # what there is so far is told no more often [s], nor than so many times what telling it took
_BEGUN, _SEARCHED = 0.04, 0.9  # of the way: the ways of every span are known; the search has ended
_PROVED = 0.7  # of the way to a proposal that is the next best for certain
_PASSIVE = ("no take-up", "as given")
_MOST_REFUSED = 40  # arrangements that a page lists; the proposals of the command line hold them all


@dataclass(frozen=True, kw_only=True, slots=True)
class Found:
    """What a search has come to; picklable.

    Args:
        rows: the proposals, best first.
        refused: what was not taken.
        words: how far the search went, or what would make something fit.
        texts: the line file of each proposal, in the order of the rows.
    """

    rows: tuple[ProposalRow, ...]
    refused: tuple[RefusedConcept, ...]
    words: str
    texts: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Asked:
    """What was asked for, and of which text."""

    text: str
    path: Path
    asked: ArrangeAsked


def arranged(tell: Tell, text: str, file: str, folder: str, asked: ArrangeAsked) -> Found:
    """Search for the best arrangements of a text.

    Args:
        tell: told of every study, and of what is proved by then.
        text: of the line file as it stands on the desk.
        file: its name.
        folder: that it is in, with its series and its prices.
        asked: how many are wanted, and by which measure.

    Raises:
        TakeupError: The text has faults, or no line of it says what may be proposed.
    """
    of = _Asked(text=text, path=Path(folder) / file, asked=asked)
    tell(0.0, "the ways to take up the growth of every span")
    study = study_from_text(text, str(of.path))
    hunt = hunt_of(ground_of(study, prices_within(study, of.path.parent) or demonstration_prices()))
    news = _News(tell, of)
    propose(hunt, asked["best"], measure=asked["measure"], progress=news.study)
    stopped: Stopped = "most studies run" if hunt.exhausted else ""
    if hunt.exhausted:
        hunt = _so_far(hunt, asked)
    given: tuple[Relaxation, ...] = ()
    if not hunt.proposals:
        given = relaxations(hunt, lambda _, words: tell(_SEARCHED, f"nothing fits; what would: {words}"))
    return _found(_outcome(hunt, asked, stopped, given), of)


class _News:
    """Tells of the studies of a search, and now and then of what is proved."""

    def __init__(self, tell: Tell, of: _Asked) -> None:
        self._tell, self._of = tell, of
        self._next = time.monotonic() + _EVERY
        self._known = 0

    def study(self, hunt: Hunt, words: str) -> None:
        """Tell of a study that begins."""
        asked = self._of.asked
        said = f"study {hunt.studies}: {words}"
        proved = sum(one is not None for one in hunt.proved.values())
        share = _share(len(hunt.proposals), proved, asked["best"])
        began = time.monotonic()
        if proved == self._known or began < self._next:
            self._tell(share, said)
            return
        so_far = _outcome(_so_far(hunt, asked), asked, "interrupted", ())
        self._tell(share, said, _found(so_far, self._of))
        ended = time.monotonic()
        self._known, self._next = proved, ended + max(_EVERY, _TIMES * (ended - began))


def _share(found: int, proved: int, best: int) -> float:
    """Return how far a search is, as far as that can be said: what is proved is most of the way to being found.

    Args:
        found: proposals that are the next best for certain.
        proved: arrangements whose own study stands.
        best: how many are wanted.
    """
    way = max(found / best, _PROVED * min(proved / best, 1.0))
    return _BEGUN + (_SEARCHED - _BEGUN) * min(way, 1.0)


def _so_far(hunt: Hunt, asked: ArrangeAsked) -> Hunt:
    """Return a search with all that it has proved as its proposals, put in order."""
    proved = [one for one in hunt.proved.values() if one is not None]
    best = sorted(proved, key=lambda one: (measured(one, asked["measure"]), one.path))[: asked["best"]]
    return replace(hunt, proposals=best)


def _outcome(hunt: Hunt, asked: ArrangeAsked, stopped: Stopped, given: tuple[Relaxation, ...]) -> Outcome:
    return Outcome(
        hunt=hunt,
        measure=asked["measure"],
        asked=asked["best"],
        bounds=Bounds(),
        front=undominated([one for one in hunt.proved.values() if one is not None]),
        front_whole=False,
        relaxations=given,
        stopped=stopped,
    )


def _found(outcome: Outcome, of: _Asked) -> Found:
    hunt = outcome.hunt
    sheets = proposal_sheets([one.found.results for one in hunt.proposals], hunt.ground.names)
    texts = tuple(texts_of(outcome, of.text, of.path).values())
    return Found(
        rows=tuple(_row(hunt, number, to_svg(sheet), texts[number]) for number, sheet in enumerate(sheets)),
        refused=tuple(_refused(hunt)),
        words=_words(outcome),
        texts=texts,
    )


def key_of(text: str) -> str:
    """Return what tells a proposal from every other, by its line file."""
    return hashlib.sha256(text.encode(errors="surrogatepass")).hexdigest()


def _row(hunt: Hunt, number: int, svg: str, text: str) -> ProposalRow:
    proposal, prices = hunt.proposals[number], hunt.ground.prices
    place, load = proposal.greatest_load
    return ProposalRow(
        number=number + 1,
        key=key_of(text),
        title=_title(proposal),
        cost=f"{proposal.cost:.1f} {prices.unit}",
        anchor_load=f"{to_kn(load):.1f} kN at {hunt.ground.places[place].name}",
        joints=proposal.joints,
        verdict=str(proposal.found.results["verdict"]["outcome"]),
        reasons=[" | ".join(standing_words(hunt.ground, proposal)), *_reasons(hunt, number)],
        svg=svg,
    )


def _reasons(hunt: Hunt, number: int) -> Iterator[str]:
    """Yield the reasons of a proposal without what was refused, which the page lists once for all of them."""
    refused = {words for plan in hunt.proposals[number].path for words in refused_in(hunt, hunt.plans[plan])}
    return (words[:1].upper() + words[1:] for words in reasons_of(hunt, number) if words not in refused)


def _title(proposal: Proposal) -> str:
    """Return what takes up the growth of a proposal, in short: each concept once, with how many spans have it."""
    counts = Counter(plan.concept for plan in proposal.whole.plans)
    active = {concept: count for concept, count in counts.items() if concept not in _PASSIVE} or dict(counts)
    words = ", ".join(concept if count == 1 else f"{count} × {concept}" for concept, count in active.items())
    return words[:1].upper() + words[1:]


def _refused(hunt: Hunt) -> Iterator[RefusedConcept]:
    """Yield what was refused: concepts span by span, then arrangements whose own study fails."""
    for near, far in spans_told(hunt):
        for concept, because in concepts_refused(hunt, near, far).items():
            yield RefusedConcept(where=span_words(hunt.ground, near, far), concept=concept, because=_sentence(because))
    for one in hunt.refused[:_MOST_REFUSED]:
        where = ", ".join(dict.fromkeys(plan_words(plan) for plan in one.plans))
        yield RefusedConcept(where="the whole", concept=where, because=_sentence(one.because))


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:].rstrip(".") + "."


def _words(outcome: Outcome) -> str:
    """Return how far a search went; where nothing fits, what would make something fit; whose prices they are."""
    hunt = outcome.hunt
    said = [str(searched_part(outcome)["words"])]
    said += [f"Something would fit {one.words}, at {one.proposal.cost:.1f}." for one in outcome.relaxations]
    said += [DEMONSTRATED] if is_demonstration(hunt.ground.prices) else []
    return " ".join(said)


def text_of(found: Found, number: int) -> str:
    """Return the line file of a proposal.

    Args:
        found: what a search came to.
        number: of the proposal, from one.

    Raises:
        TakeupError: There is no proposal of this number.
    """
    if not 1 <= number <= len(found.texts):
        raise TakeupError(f"there is no proposal {number}: found were {len(found.texts)}")
    return found.texts[number - 1]


def proposals_of(revision: int, progress: Progress[Found]) -> Proposals:
    """Return what the page is told of a search.

    Args:
        revision: of the text that is searched.
        progress: how far it is.
    """
    found = progress.answer
    said = [progress.words if progress.job in ("running", "failed") else ""]
    said += ["Stopped: these are the best of those proved by then." if progress.job == "stopped" else ""]
    said += [found.words if found is not None and progress.job == "done" else ""]
    return Proposals(
        revision=revision,
        job=progress.job,
        words=" ".join(filter(None, said)),
        share=progress.share,
        rows=[] if found is None else list(found.rows),
        refused=[] if found is None else list(found.refused),
    )
