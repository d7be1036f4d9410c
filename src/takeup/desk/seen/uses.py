"""How full every place is by the checks of the whole study, and what the study says.     (desk/seen/uses.py)"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from takeup.desk.interface import Job, Outcome, PlaceUse, StudyNews
from takeup.desk.seen.marks import place_id
from takeup.drawing.reading import Record, Results, maybe_number, record_of, records_of, text_of, texts_of

_OUTCOMES: Mapping[str, Outcome] = {
    "passes": "passes",
    "close": "close",
    "fails": "fails",
    "not covered": "not covered",
    "no limit given": "no limit given",
}
_RANK = ("fails", "no limit given", "close", "passes", "not covered")


def news_of_study(revision: int, job: Job, words: str, results: Results | None, took_s: float) -> StudyNews:
    """Return how far the whole study is, and what it says once it is done.

    Args:
        revision: of the document that it is of.
        job: how far it is.
        words: what it is at, or why it failed.
        results: the results document; None until it is there.
        took_s: how long it took.
    """
    verdict = {} if results is None else record_of(results, "verdict")
    return StudyNews(
        revision=revision,
        job=job,
        words=words,
        verdict=text_of(verdict, "outcome"),
        because=list(texts_of(verdict, "because")),
        places=[] if results is None else uses_of(results),
        took_s=took_s,
    )


def uses_of(results: Results) -> list[PlaceUse]:
    """Return of every hold, end and joint the check that is nearest to its limit.

    Args:
        results: the results document.
    """
    found = []
    for name, own in checks_by_place(results).items():
        worst = min(own, key=rank_of)
        found.append(
            PlaceUse(
                id=name,
                use=maybe_number(worst, "use"),
                outcome=outcome_of(worst),
                rule=text_of(worst, "title"),
                state=text_of(worst, "state"),
                words=text_of(worst, "because"),
            )
        )
    return found


def rank_of(check: Record) -> tuple[bool, float, int]:
    """Return a key that sorts checks: what fails first, then by use, the greatest first.

    A check that fails is never behind one that passes, however full that is; without a number it is before all.
    """
    use, outcome = maybe_number(check, "use"), text_of(check, "outcome")
    size = use if use is not None else math.inf if outcome == "fails" else -1.0
    return outcome != "fails", -size, _RANK.index(outcome)


def outcome_of(check: Record) -> Outcome:
    """Return the outcome of a check."""
    return _OUTCOMES[text_of(check, "outcome")]


def checks_by_place(results: Results) -> dict[str, list[Record]]:
    """Return the checks of every place, by its id; a check of more than a place, such as a span, is left out."""
    places = sorted(_places(results), key=lambda one: len(one[1]), reverse=True)
    found: dict[str, list[Record]] = {}
    for check in records_of(results, "checks"):
        where = text_of(check, "where")
        own = next(
            (place_id(line, name) for line, name in places if where == name or where.startswith(f"{name}, ")), None
        )
        if own is not None:
            found.setdefault(own, []).append(check)
    return found


def _places(results: Results) -> Iterator[tuple[str, str]]:
    """Yield the line and the name of everything that a check may be at."""
    for key in ("holds", "takeups"):
        for row in records_of(results, key):
            yield text_of(row, "line"), text_of(row, "name")
    for line in records_of(results, "lines"):
        for end in records_of(line, "ends"):
            yield text_of(line, "name"), text_of(end, "name")


__all__ = ["checks_by_place", "news_of_study", "outcome_of", "rank_of", "uses_of"]
