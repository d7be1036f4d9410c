"""What can be put on a line from the desk.     (desk/opened/palette.py)

Nothing is taken for granted: what a support slides on is asked first, a joint is left to be selected from a series, and
what an anchor can carry stays unsaid until somebody types it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from takeup.desk.interface import Palette
from takeup.joints.tables.store import DEMONSTRATION
from takeup.library import friction_pairs
from takeup.line.holding import HoldKind


@dataclass(frozen=True, kw_only=True, slots=True)
class Piece:
    """Something on the palette.

    Args:
        what: a hold or a take-up.
        kind: of it, as the file names it.
        about: what it does, in a sentence.
        rubs: whether it must be said what it slides on.
    """

    what: Literal["hold", "takeup"]
    kind: str
    about: str
    rubs: bool = False

    @property
    def key(self) -> str:
        """What the page asks for."""
        return f"{self.what}: {self.kind}"


_HOLDS: tuple[tuple[HoldKind, str, bool], ...] = (
    ("main anchor", "holds the line in every way; feels the whole thrust of a joint on one side", False),
    ("intermediate anchor", "holds the line in every way; a claim that both sides are alike, which is checked", False),
    ("slide guide", "carries, and lets the line go along only", True),
    ("spider guide", "lets the line go along only; carries no weight", True),
    ("rest", "carries from below; the line may lift off and go aside", True),
    ("hanger", "carries from above; the line may swing", False),
)
_JOINTS = (
    ("single axial", "one bellows in the line; sets pressure thrust free"),
    ("externally pressurised", "a bellows pressed from outside; long movements; sets pressure thrust free"),
    ("universal", "two bellows and a spool; takes movement across too; sets pressure thrust free"),
)
PIECES: Final = tuple(
    [Piece(what="hold", kind=kind, about=about, rubs=rubs) for kind, about, rubs in _HOLDS]
    + [Piece(what="takeup", kind=kind, about=about) for kind, about in _JOINTS]
)
SERIES: Final = DEMONSTRATION


def palette() -> list[Palette]:
    """Return what the page shows."""
    pairs = list(friction_pairs())
    return [
        Palette(
            key=piece.key,
            what=piece.what,
            title=piece.kind,
            about=piece.about if piece.what == "hold" else f"{piece.about}; selected from the {SERIES}",
            slides_on=pairs if piece.rubs else [],
        )
        for piece in PIECES
    ]


def piece_of(key: str) -> Piece | None:
    """Return what a key asks for; None where nothing has it."""
    return next((piece for piece in PIECES if piece.key == key), None)
