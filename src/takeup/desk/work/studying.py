"""The whole study, run beside the desk.     (desk/work/studying.py)"""

from __future__ import annotations

import time
from dataclasses import dataclass

from takeup.desk.work.jobs import Tell
from takeup.line import Study
from takeup.results import results_of
from takeup.results.plain import Json


@dataclass(frozen=True, kw_only=True, slots=True)
class Studied:
    """What a study came to; picklable.

    Args:
        revision: of the document that was studied.
        results: the results document.
        took: how long it took [s].
    """

    revision: int
    results: dict[str, Json]
    took: float


def studied(tell: Tell, resolved: Study, revision: int) -> Studied:
    """Study a line, its rules resolved and its joints chosen.

    Args:
        tell: told of what it is at.
        resolved: the study.
        revision: of the document, which the answer bears.
    """
    tell(0.1, "walking through every state")
    began = time.perf_counter()
    results = results_of(resolved)
    return Studied(revision=revision, results=results, took=time.perf_counter() - began)


__all__ = ["Studied", "studied"]
