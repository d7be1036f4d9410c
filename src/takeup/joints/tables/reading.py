"""A table of joints from a file, all its faults at once.     (joints/tables/reading.py)

The order: bytes -> cells (cells, workbook) -> numbers and words by column (stated) -> what no joint is (judging,
shapes) -> the table in SI. What follows from a row, cold rates, torsion rate and radii, is made with the table and not
stored.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from takeup.bellows.forms.stiffness import torsion_rate
from takeup.bellows.geometry import bellows
from takeup.joints.data import JointEnds, TakeUpKind
from takeup.joints.tables.cells import Cells, csv_cells, said_above
from takeup.joints.tables.columns import BELLOWS, COLUMNS, ENDS
from takeup.joints.tables.derating import derating_of
from takeup.joints.tables.judging import judge, of_kinds
from takeup.joints.tables.kinds_of_table import HOSES, TABLE_KINDS, TIED
from takeup.joints.tables.measures import in_si
from takeup.joints.tables.metals import Metals, metals_of
from takeup.joints.tables.shapes import geometry, given, judge_shapes, radius_notes
from takeup.joints.tables.stated import Stated, stated_of
from takeup.joints.tables.table import GEOMETRY, Derating, Floats, Provenance, SeriesTable
from takeup.joints.tables.workbook import is_workbook, workbook_cells
from takeup.reading.faultlist import FaultList
from takeup.reading.fields import LONGEST_TEXT, iso_date

_KINDS: Mapping[str, TakeUpKind] = {kind: kind for kind in TABLE_KINDS}
_ENDS: Mapping[str, JointEnds] = {"threaded": "threaded", "welded": "welded", "flanged": "flanged", "sweat": "sweat"}
_STORED_BEFORE = {"derating": "derating_c"}  # stored tables had no unit there, and were all in degC
_ANNEALED = {"yes": True, "no": False}


@dataclass(frozen=True, kw_only=True, slots=True)
class ReadTable:
    """A table as read: what it states in our units, and the same in SI."""

    said: Stated
    table: SeriesTable


def read_table(
    content: bytes, file: str, *, series: str, whose: str | None = None, dated: str | None = None
) -> ReadTable:
    """Read what a maker's table holds.

    Args:
        content: of a CSV file or a workbook (.xlsx).
        file: as the user named it; faults begin with it.
        series: the name that the table is to have.
        whose: who certifies it; what the table says above its header (`# whose: ...`) where left out.
        dated: its date, year-month-day; likewise.

    Raises:
        InputError: It is no table of joints, or has faults; it carries the first of them and how many more there are.
    """
    faults = FaultList(file)
    workbook = is_workbook(content, file)
    cells = workbook_cells(content, file, faults) if workbook else csv_cells(content, file, faults)
    said = stated_of(cells, faults)
    judge(said)
    judge_shapes(said)
    metals = metals_of(said)
    provenance = Provenance(
        series=series,
        file=Path(file).name,
        sha256=hashlib.sha256(content).hexdigest(),
        dated=_dated(cells, faults) if dated is None else dated,
        whose=_whose(cells, faults) if whose is None else whose,
    )
    faults.raise_faults()
    return ReadTable(said=said, table=_table(said, metals, provenance))


def stored_table(content: bytes, file: str, provenance: Provenance) -> SeriesTable:
    """Return a table that was judged before it was stored.

    Raises:
        InputError: It cannot be read all the same.
    """
    faults = FaultList(file)
    cells = csv_cells(content, file, faults)
    cells = replace(cells, header=tuple(_STORED_BEFORE.get(name, name) for name in cells.header))
    said = stated_of(cells, faults)
    metals = metals_of(said)
    faults.raise_faults()
    return _table(said, metals, provenance)


def _whose(cells: Cells, faults: FaultList) -> str | None:
    found = said_above(cells, "whose")
    if found is not None and (len(found[0]) > LONGEST_TEXT or not found[0].isprintable()):
        faults.add(*found[1], f"whose: a name of at most {LONGEST_TEXT} letters that can be shown is expected")
    return None if found is None else found[0]


def _dated(cells: Cells, faults: FaultList) -> str | None:
    found = said_above(cells, "dated")
    if found is None:
        return None
    try:
        return iso_date(found[0])
    except ValueError as error:
        faults.add(*found[1], f"dated: {error}")
        return None


def _table(said: Stated, metals: Metals, provenance: Provenance) -> SeriesTable:
    """Return the table in SI."""
    numbers = {
        one.field: said.number(one.name) if one.measure is None else in_si(said.number(one.name), one.measure)
        for one in COLUMNS
        if one not in BELLOWS
    }
    numbers |= geometry(said)
    hoses = of_kinds(said, HOSES)
    known = ~np.isnan(metals.modulus) & ~hoses  # rates of a hose are those measured, whatever it is made of
    numbers["cold_share"] = np.where(known, metals.cold_modulus / np.where(known, metals.modulus, 1.0), 1.0)
    numbers["torsion_rate"] = _torsion(said, metals, numbers)
    numbers["effective_area"] = np.where(hoses, 0.0, numbers["effective_area"])  # a braid draws back what pressure does
    tied = of_kinds(said, TIED) & np.isnan(numbers["rod_gap"])
    numbers["rod_gap"] = np.where(tied, 0.0, numbers["rod_gap"])
    notes = zip(said.said("provenance"), radius_notes(said), strict=True)
    return SeriesTable(
        provenance=provenance,
        names=said.said("name"),
        kinds=tuple(_KINDS[kind] for kind in said.said("kind")),
        ends=tuple(_ENDS[ENDS[word]] if word else None for word in said.said("ends")),
        materials=metals.names,
        annealed=tuple(_ANNEALED.get(word) for word in said.said("annealed")),
        notes=tuple("; ".join(filter(None, both)) for both in notes),
        derating=tuple(_pairs(text, said.derating_in) for text in said.said("derating")),
        numbers=numbers,
    )


def _torsion(said: Stated, metals: Metals, numbers: Mapping[str, Floats]) -> Floats:
    """Return torsion rates at the rated temperature: those stated, else by the published form, else NaN."""
    found = numbers["torsion_rate"].copy()
    rows = np.flatnonzero(np.isnan(found) & given(said) & ~np.isnan(metals.modulus))
    shape = bellows(**{name: numbers[name][rows] for name in GEOMETRY})
    found[rows] = torsion_rate(shape, metals.modulus[rows], metals.poisson[rows])
    return found


def _pairs(text: str, suffix: str) -> Derating:
    found = derating_of(text, suffix)
    return () if isinstance(found, str) else found


__all__ = ["ReadTable", "read_table", "stored_table"]
