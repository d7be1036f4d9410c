"""What a rule of the advice is, and what it says of a place.     (joints/advice/rule.py)"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from takeup.joints.advice.place import Place
from takeup.library import Status

Level = Literal["warning", "note"]
COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True, kw_only=True, slots=True)
class Advice:
    """One piece of advice on one joint: never a proof and never a verdict.

    Args:
        rule: name of the rule.
        title: the rule in a few words.
        level: a warning is about what may break the joint; a note is about what to know or what is not said.
        words: what was found, with the numbers, and what to do.
        reason: why it matters.
        source: whose rule it is.
        status: whether the number was read there or is from memory.
    """

    rule: str
    title: str
    level: Level
    words: str
    reason: str
    source: str
    status: Status


@dataclass(frozen=True, kw_only=True, slots=True)
class Said:
    """What a rule says of a place: how loudly, and the words with the numbers."""

    level: Level
    words: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Rule:
    """What a rule says of itself, and the function that judges a place; the docs page is made from it."""

    name: str
    title: str
    what: str
    why: str
    source: str
    status: Status
    limits: str
    judge: Callable[[Place], Said | None]

    def advise(self, place: Place) -> Advice | None:
        """Return the rule's advice on a place; None where it has nothing to say."""
        said = self.judge(place)
        if said is None:
            return None
        return Advice(
            rule=self.name,
            title=self.title,
            level=said.level,
            words=said.words,
            reason=self.why,
            source=self.source,
            status=self.status,
        )


def warning(words: str) -> Said:
    """Return words as a warning."""
    return Said(level="warning", words=words)


def note(words: str) -> Said:
    """Return words as a note."""
    return Said(level="note", words=words)
