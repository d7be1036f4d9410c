"""What things cost, whoever says so: joints, anchors, guides, pipe.     (choose/arrange/prices.py)

All in the unit of one price file, an index or a currency. Read from a file by price_file.py. A size or a kind without
a price raises OutOfRange. Sizes are numbers, as price_tables.py says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, overload

from takeup.choose.arrange.price_tables import Brackets, Floats, SizeTable, known

WELDS_OF_A_BEND: Final = 2


@dataclass(frozen=True, kw_only=True, slots=True)
class Pipework:
    """What a route that goes on costs.

    Args:
        pipe: a metre of it.
        insulation: a metre of it.
        bend: one, of any angle.
        weld: one, with the labour of it.
        labour: how many times their price pipe, insulation and bends cost once they are erected.
    """

    pipe: SizeTable
    insulation: SizeTable
    bend: SizeTable
    weld: SizeTable
    labour: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Prices:
    """A price file.

    Args:
        name: of it.
        source: whose prices they are, in words.
        unit: of every price, for people: "index", or a currency.
        file: its name.
        sha256: of it.
        series_factor: what one of a series' own price index is, in this file's unit.
        fitting: of a joint into the line: labour, welds or flanges.
        joints: of joints that have no index, by kind.
        anchors: by load; stops and directional anchors too.
        guides: by kind.
        supports: rests and hangers, by kind.
        pipework: of a route.
    """

    name: str
    source: str
    unit: str
    file: str
    sha256: str
    series_factor: float
    fitting: SizeTable
    joints: Mapping[str, SizeTable]
    anchors: Brackets
    guides: Mapping[str, SizeTable]
    supports: Mapping[str, SizeTable]
    pipework: Pipework

    @property
    def words(self) -> str:
        """As the papers print where they are from."""
        return f"{self.name}: {self.source}; {self.file}, SHA-256 {self.sha256[:16]}, in {self.unit}"

    def joint(self, kind: str, size_dn: float, price_index: float | None) -> float:
        """Return the price of a joint, fitted.

            f x index + fitting, else price by kind and size + fitting

        Args:
            kind: of the joint.
            size_dn: of its pipe.
            price_index: of its series; None where it has none.
        """
        of_itself = known(self.joints, kind).at(size_dn) if price_index is None else self.series_factor * price_index
        return of_itself + self.fitting.at(size_dn)

    @overload
    def anchor(self, load: float) -> float: ...

    @overload
    def anchor(self, load: Floats) -> Floats: ...

    def anchor(self, load: float | Floats) -> float | Floats:
        """Return the price of anchors, stops or directional anchors by the greatest force on each [N], any shape."""
        return self.anchors.at(load)

    def guide(self, kind: str, size_dn: float) -> float:
        """Return the price of a guide."""
        return known(self.guides, kind).at(size_dn)

    def rest(self, size_dn: float) -> float:
        """Return the price of a rest."""
        return known(self.supports, "rest").at(size_dn)

    def hanger(self, size_dn: float, kind: str = "hanger") -> float:
        """Return the price of a hanger, or of a spring hanger."""
        return known(self.supports, kind).at(size_dn)

    def hold(self, kind: str, size_dn: float) -> float:
        """Return the price of a guide, a rest or a hanger by its kind: of all that is not priced by load."""
        return known({**self.guides, **self.supports}, kind).at(size_dn)

    def pipe(self, size_dn: float, metres: float) -> float:
        """Return the price of straight pipe, erected; of less of it, below zero."""
        return self.pipework.labour * self.pipework.pipe.at(size_dn) * metres

    def insulation(self, size_dn: float, metres: float) -> float:
        """Return the price of insulation, along straights and bends, erected; of less of it, below zero."""
        return self.pipework.labour * self.pipework.insulation.at(size_dn) * metres

    def bend(self, size_dn: float) -> float:
        """Return the price of a bend, erected, without its welds."""
        return self.pipework.labour * self.pipework.bend.at(size_dn)

    def weld(self, size_dn: float) -> float:
        """Return the price of a weld; nothing multiplies it, for it is labour."""
        return self.pipework.weld.at(size_dn)

    def longer(self, size_dn: float, *, straight: float, insulated: float, bends: int) -> float:
        """Return what a route costs that is longer and turns more often, the parts that parts.py lists added up.

        Args:
            size_dn: of the pipe.
            straight: more straight pipe, without arcs [m].
            insulated: more of the length along straights and arcs, where the line is insulated [m].
            bends: more of them, each with two welds.
        """
        turning = bends * (self.bend(size_dn) + WELDS_OF_A_BEND * self.weld(size_dn))
        along = self.insulation(size_dn, insulated) if insulated else 0.0
        return self.pipe(size_dn, straight) + along + turning


__all__ = ["WELDS_OF_A_BEND", "Pipework", "Prices"]
