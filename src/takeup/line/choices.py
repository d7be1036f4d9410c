"""A take-up whose joint is left to the tool, or named from a series; and what was chosen.     (line/choices.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from takeup.joints import JointEnds, PinsLie, TakeUpKind
from takeup.joints.tables import Provenance, SeriesTable
from takeup.line.fitting import NOTHING_SAID, Fitting
from takeup.line.parts import Position

ChosenBy = Literal["price", "thrust", "length", "life", "name"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Choice:
    """A place for a joint of a series: all that the file says of it but the joint's own data.

    Args:
        name: of the take-up.
        kind: that it is to be.
        position: of its middle.
        table: the series.
        joint: which of it, where the file names one; None where the tool is to choose.
        rank: which of those that fit stands first; None where one is named.
        room: longest face-to-face length that there is room for [m].
        preset: fitted longer than neutral [m].
        misalignment: lateral [m] and angular [rad].
        ends: how it is to be joined to its pipe; None where not said.
        fitting: how it is fitted out.
        pins: how its pins lie; None where it has none, or nobody says.
    """

    name: str
    kind: TakeUpKind
    position: Position
    table: SeriesTable
    joint: str | None
    rank: Literal["price", "thrust", "length", "life"] | None
    room: float
    preset: float = 0.0
    misalignment: tuple[float, float] = (0.0, 0.0)
    ends: JointEnds | None = None
    fitting: Fitting = NOTHING_SAID
    pins: PinsLie | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Chosen:
    """What was chosen from what, for the papers.

    Args:
        joint: its name in the series.
        source: where its series is from.
        by: the rank by which it stood first, or that the file names it.
        considered: joints of the series.
        fitting: those that fit by their data, their movements in the line and what fails at once there.
        tried: those whose own study was run until one stood it; 0 where the file names the joint.
        ratings: how its ratings were taken over the cycles and at the temperature, in words.
        material: of its bellows; "" where the series does not say.
        share: of the rated movements that its data keep over the cycles; 1 where they are as rated.
        rated_temperature: as its series states it [degC]; None where its data are not those of its series.
        refused: the few joints just before it in the order of the rank that do not fit its place, with the reason.
    """

    joint: str
    source: Provenance
    by: ChosenBy
    considered: int
    fitting: int
    tried: int
    ratings: str
    material: str
    share: float = 1.0
    rated_temperature: float | None = None
    refused: tuple[tuple[str, str], ...] = ()


__all__ = ["Choice", "Chosen", "ChosenBy"]
