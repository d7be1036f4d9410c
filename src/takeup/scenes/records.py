"""What a scene is made of: its steps, its claims, what it leaves out.     (scenes/records.py)

A claim stands or falls by two numbers: the model's answer and a hand formula's. Both are in the claim's unit, and so is
the tolerance, whose reason is told. `Entry` is a scene before it is played, `Scene` what playing it gave.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from takeup.scenes.figure import Picture

Relation = Literal["equals", "above", "below"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Claim:
    """One thing that everyone in the trade knows, told by the model and by hand.

    Args:
        text: the claim in plain words.
        unit: of all three numbers; "" for a plain quotient.
        model: the model's number.
        hand: the hand formula's, or the limit that the claim names.
        relation: how the model's number must stand to it.
        tolerance: how far apart two equal numbers may be.
        because: why the tolerance is that wide.
        formula: in symbols.
        source: where the formula comes from.
    """

    text: str
    unit: str
    model: float
    hand: float
    relation: Relation
    tolerance: float
    because: str
    formula: str
    source: str

    @property
    def agrees(self) -> bool:
        """Whether the model's number stands to the hand's as the claim says."""
        if self.relation == "equals":
            return abs(self.model - self.hand) <= self.tolerance
        return self.model > self.hand if self.relation == "above" else self.model < self.hand


@dataclass(frozen=True, kw_only=True, slots=True)
class Step:
    """One step of a scene: a title, what happens in plain words, and the true picture of it."""

    title: str
    words: str
    picture: Picture


@dataclass(frozen=True, kw_only=True, slots=True)
class Told:
    """What playing a scene gives.

    Args:
        story: how it begins.
        steps: in order.
        claims: at least three.
        moral: what to take home.
        assumptions: what was taken for granted.
        limits: what the scene does not show.
    """

    story: str
    steps: tuple[Step, ...]
    claims: tuple[Claim, ...]
    moral: str
    assumptions: tuple[str, ...]
    limits: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Entry:
    """A scene that can be played.

    Args:
        number: its place among the nine.
        name: what it is asked for by.
        title: what it says, in a sentence.
        files: names of its line files.
        play: solves the line files and tells what came of it.
    """

    number: int
    name: str
    title: str
    files: tuple[str, ...]
    play: Callable[[], Told]


@dataclass(frozen=True, kw_only=True, slots=True)
class Scene:
    """A scene, played."""

    entry: Entry
    told: Told

    @property
    def agrees(self) -> bool:
        """Whether every claim agrees."""
        return all(claim.agrees for claim in self.told.claims)
