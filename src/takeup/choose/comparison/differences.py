"""What a certificate gives beside what the line file has, number by number.     (choose/comparison/differences.py)"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from takeup.choose.comparison.certified import differs
from takeup.choose.comparison.quantities import QUANTITIES, Quantity
from takeup.choose.comparison.targets import Origin, Target
from takeup.joints.tables.measures import SUFFIXES, ours
from takeup.results.plain import Json

Status = Literal["same", "differs", "not in the file", "not certified"]
Side = Literal["unsafe", "safe", "neither"]

_PER_CENT: Final = 100.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Difference:
    """One quantity of one take-up, in the unit of its column.

    Args:
        of: the quantity.
        status: how both stand to each other.
        file: what the line file has; None where nothing.
        certified: what the certificate gives; None where nothing.
        origin: where the number of the file is from; None where it has none.
        side: of the certified value; None where there are not two to compare.
        because: which way is unsafe, and why this length does not fit; "" where nothing is to be said.
    """

    of: Quantity
    status: Status
    file: float | None
    certified: float | None
    origin: Origin | None
    side: Side | None
    because: str = ""

    @property
    def percent(self) -> float | None:
        """Certified less file, of the file's size; None for temperatures, whose nought is anywhere, and of nought."""
        if self.file is None or self.certified is None or not self.file or self.of.column.measure == "temperature":
            return None
        return _PER_CENT * (self.certified - self.file) / abs(self.file)

    def as_json(self) -> Json:
        """Return it for the document; `column` ends with the unit of both numbers."""
        both = self.file is not None and self.certified is not None
        return {
            "column": self.of.column.ours,
            "quantity": self.of.words,
            "unit": self.of.column.unit,
            "status": self.status,
            "file": self.file,
            "certified": self.certified,
            "difference": (self.certified or 0.0) - (self.file or 0.0) if both else None,
            "difference_percent": self.percent,
            "side": self.side,
            "origin": self.origin,
            "because": self.because,
        }


def differences(target: Target, values: Mapping[str, float], room: float | None) -> Iterator[Difference]:
    """Yield every quantity that the file states or the certificate gives.

    Args:
        target: as in the file.
        values: certified, in SI, by name.
        room: for its length where it is longer than that; None where it fits [m].
    """
    for one in QUANTITIES:
        certified = values.get(one.name)
        file = target.beside(one, certified)
        if file is None and certified is None:
            continue
        status = _status(file, certified)
        side = _side(one, file, certified) if status == "differs" else None
        because: str = one.unsafe if side == "unsafe" else ""
        if one.name == "length" and room is not None and certified is not None:
            side, because = "unsafe", f"there is room for {_ours(one, room):.5g} {one.column.unit} only"
        yield Difference(
            of=one,
            status=status,
            file=None if file is None else _ours(one, file),
            certified=_ours(one, file if status == "same" and file is not None else certified),
            origin=None if file is None else target.origin(one),
            side=side,
            because=because,
        )


def _status(file: float | None, certified: float | None) -> Status:
    if certified is None:
        return "not certified"
    if file is None:
        return "not in the file"
    return "differs" if differs(file, certified) else "same"


def _side(one: Quantity, file: float | None, certified: float | None) -> Side:
    assert file is not None, "both are there"
    assert certified is not None, "both are there"
    if one.unsafe == "neither":
        return "neither"
    return "unsafe" if (certified > file) == (one.unsafe == "higher") else "safe"


def _ours(one: Quantity, value: float | None) -> float | None:
    """Return an SI value in the unit of its column, without the last digits, which converting adds."""
    measure = one.column.measure
    if value is None or measure is None:
        return value
    unit = SUFFIXES[measure][ours(measure)]
    return float(f"{value / unit.factor + unit.zero:.12g}")


__all__ = ["Difference", "differences"]
