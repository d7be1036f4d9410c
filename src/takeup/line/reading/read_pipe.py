"""The pipe of a line and what is round it, looked up in the library or refused.     (line/reading/read_pipe.py)

A line begins with a whole pipe; a reducer or a change says what is different from there on, the rest is as before.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from takeup.library import (
    Cladding,
    Insulation,
    Material,
    PipeSize,
    Source,
    check_wall,
    cladding,
    expansion_table_of,
    insulation,
    material,
    materials,
    pipe_size,
    size_tables,
    tables_for,
    wall_thickness,
)
from takeup.line.conditions import Basis
from takeup.line.parts import Allowables, Bends, Pipe, UserValue
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.positions import SAME_PLACE
from takeup.line.reading.schema_pipe import (
    AllowableItem,
    ChangedPipeItem,
    InsulationItem,
    PipeItem,
    PipeKeys,
    ReducedPipeItem,
    StressItem,
)
from takeup.line.reading.sentences import ASSUMED_BEND, Bend
from takeup.reading.fields import nearest
from takeup.reading.yaml_places import Path
from takeup.units import METRES_PER_INCH, parse, to_mm

USERS_OWN = "the material's own"


@dataclass(frozen=True, kw_only=True, slots=True)
class Stock:
    """What pipes are looked up in.

    Args:
        basis: the code and its edition; None where unsound: no material of the library is then judged.
        named: expansion table that the file names.
        hottest: highest temperature of the line [degC].
        own: materials of the user's own.
    """

    basis: Basis | None
    named: str | None = None
    hottest: float | None = None
    own: Mapping[str, Material] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True, slots=True)
class Steel:
    """A material with its expansion table, and why it is that one."""

    material: Material
    table: str
    because: str


@dataclass(frozen=True, kw_only=True, slots=True)
class PipeParts:
    """What could be read of the pipe: each part None where it is unsound; `bends` also where nothing is said."""

    size: PipeSize | None = None
    wall: float | None = None
    wall_words: str = ""
    steel: Steel | None = None
    bends: Bend | None = None
    corrosion_allowance: float = 0.0
    allowables: Allowables | None = None

    @property
    def pipe(self) -> Pipe | None:
        """The whole pipe, where every part is sound."""
        if self.size is None or self.wall is None or self.steel is None:
            return None
        return Pipe(
            size=self.size,
            wall=self.wall,
            wall_words=self.wall_words,
            material=self.steel.material,
            expansion_table=self.steel.table,
            expansion_because=self.steel.because,
            bends=self._bends(self.size),
            corrosion_allowance=self.corrosion_allowance,
            allowables=self.allowables,
        )

    @property
    def nominal(self) -> float | None:
        """Nominal size as a length, which bend radii are multiples of [m]."""
        return self.size.nps_inch * METRES_PER_INCH if self.size else None

    def _bends(self, size: PipeSize) -> Bends:
        """Return the bends of a pipe of a size; long radius, marked as assumed, where the file says nothing."""
        bend = self.bends or ASSUMED_BEND
        radius = bend.radius
        if bend.nominal_sizes is not None:
            radius = bend.nominal_sizes * size.nps_inch * METRES_PER_INCH
        return Bends(radius=radius, words=bend.words, cuts=bend.cuts)


def read_pipe(book: FaultBook, path: Path, stock: Stock) -> PipeParts:
    """Look up the pipe that a line begins with."""
    item = book.sound(PipeItem, path)
    if item is None:
        return PipeParts()
    size = _size(book, item.size, item.table, path)
    wall = _wall(book, path, item, size)
    begun = PipeParts(
        size=size,
        wall=wall,
        wall_words=item.wall or f"schedule {item.schedule}",
        steel=_steel(book, item.material, (*path, "material"), stock),
    )
    return _said(book, item, path, begun)


def read_reduced(book: FaultBook, item: ReducedPipeItem, path: Path, *, before: PipeParts, stock: Stock) -> PipeParts:
    """Look up the pipe beyond a reducer; it is read in the table of sizes of the pipe before it."""
    table = item.table or (before.size.table if before.size else None)
    size = _size(book, item.size, table, path)
    if size is not None and before.size is not None and _same_outside(size, before.size):
        book.add(
            (*path, "size"), f"this is the size of the pipe before it, {before.size.dn}; a change needs no reducer"
        )
    beyond = replace(
        before,
        size=size,
        wall=_wall(book, path, item, size),
        wall_words=item.wall or f"schedule {item.schedule}",
    )
    if item.material is not None:
        beyond = replace(beyond, steel=_steel(book, item.material, (*path, "material"), stock), allowables=None)
    return _said(book, item, path, beyond)


def read_changed(book: FaultBook, item: ChangedPipeItem, path: Path, *, before: PipeParts, stock: Stock) -> PipeParts:
    """Look up the pipe from a change on: of the same outside diameter."""
    size = before.size
    if size is not None and (item.size is not None or item.table is not None):
        words, table = item.size or size.dn, item.table or size.table
        found = _size(book, words, table, path, key="size" if item.size else "table")
        if found is not None and not _same_outside(found, size):
            book.add(
                (*path, "size" if item.size else "table"),
                f"the outside diameter would go from {to_mm(size.outside_diameter):.5g} mm to "
                f"{to_mm(found.outside_diameter):.5g} mm; a reducer is needed",
            )
        size = found
    beyond = replace(before, size=size)
    if item.wall is not None or item.schedule is not None:
        words = item.wall or f"schedule {item.schedule}"
        beyond = replace(beyond, wall=_wall(book, path, item, size), wall_words=words)
    if item.material is not None:
        beyond = replace(beyond, steel=_steel(book, item.material, (*path, "material"), stock), allowables=None)
    return _said(book, item, path, beyond)


def check_radius(book: FaultBook, radius: float, size: PipeSize | None, path: Path) -> None:
    """Note a bend radius that is not above half the outside diameter: the inside of the bend would cross itself."""
    if size is not None and radius <= size.outside_diameter / 2:
        limit = to_mm(size.outside_diameter / 2)
        book.add(
            path, f"a bend radius of {to_mm(radius):.4g} mm is not above {limit:.5g} mm, half the outside diameter"
        )


def check_edition(book: FaultBook, basis: Basis | None) -> Basis | None:
    """Return the basis, or note that its code has no such edition and return None."""
    if basis is None:
        return None
    any_material = materials()[0]
    found = book.attempt(("basis", "edition"), lambda: expansion_table_of(basis.code, basis.edition, any_material))
    return basis if found else None


def read_insulation(book: FaultBook, path: Path) -> Insulation | None:
    """Read the insulation; None for `none` and where the form is unsound."""
    item = book.sound(InsulationItem, path)
    if item is None:
        return None
    sheet = _cladding(book, item, path)
    if item.density is None:
        found = book.attempt((*path, "kind"), lambda: insulation(item.kind, item.thickness))
        return replace(found, cladding=sheet) if found else None
    source = Source(words=item.density.source, status="user's data")
    return Insulation(
        kind=item.kind, thickness=item.thickness, density=item.density.value, source=source, cladding=sheet
    )


def read_allowables(item: AllowableItem | None) -> Allowables:
    """Return the stresses that the user answers for."""
    if item is None:
        return Allowables()
    return Allowables(
        expansion_stress_range=user_value(item.expansion_stress_range),
        yield_strength=user_value(item.yield_strength),
        cold=user_value(item.cold_stress),
        hot=user_value(item.hot_stress),
    )


def user_value(item: StressItem | None) -> UserValue | None:
    """Return a stress with its source."""
    return UserValue(value=item.value, source=item.source) if item else None


def _size(book: FaultBook, words: str, table: str | None, path: Path, *, key: str = "size") -> PipeSize | None:
    """Look a size up, in a table of sizes where one is named; `key` is where a fault in the size is noted."""
    known = size_tables()
    if table is not None and table not in known:
        near = nearest(table, known)
        book.add((*path, "table"), f"unknown table of sizes '{table}'; expected one of: {', '.join(known)}{near}")
        return None
    return book.attempt((*path, key), lambda: pipe_size(words, table=table))


def _said(book: FaultBook, item: PipeKeys, path: Path, pipe: PipeParts) -> PipeParts:
    """Return the pipe with what every pipe may say beside its size."""
    if item.bends is not None:
        pipe = replace(pipe, bends=item.bends)
        if item.bends.radius is not None:
            check_radius(book, item.bends.radius, pipe.size, (*path, "bends"))
    if item.corrosion_allowance is not None:
        pipe = replace(pipe, corrosion_allowance=item.corrosion_allowance)
    if item.allowable is not None:
        pipe = replace(pipe, allowables=read_allowables(item.allowable))
    if pipe.wall is not None and pipe.corrosion_allowance >= pipe.wall:
        key = "corrosion_allowance" if item.corrosion_allowance is not None else "wall"
        book.add(
            (*path, key),
            f"the corrosion allowance, {to_mm(pipe.corrosion_allowance):.4g} mm, leaves nothing of the wall, "
            f"{to_mm(pipe.wall):.4g} mm",
        )
    return pipe


def _steel(book: FaultBook, words: str, path: Path, stock: Stock) -> Steel | None:
    """Look a material up, with the expansion table that is named or that goes with the code."""
    own = stock.own.get(words)
    if own is not None:
        return Steel(material=own, table=USERS_OWN, because="a material of the user's own")
    basis = stock.basis
    if basis is None:
        return None
    held = book.attempt(path, lambda: tables_for(words))
    if not held:
        return None
    if stock.named in held and stock.named is not None:
        table, because = stock.named, "named in the line file"
    else:
        table, because = expansion_table_of(basis.code, basis.edition, words, hottest=stock.hottest)
        because += f"; {stock.named}, named in the line file, does not hold it" if stock.named else ""
    return Steel(material=material(words, expansion_table=table), table=table, because=because)


def _wall(book: FaultBook, path: Path, item: PipeKeys, size: PipeSize | None) -> float | None:
    if (item.wall is None) == (item.schedule is None):
        which = "neither is there" if item.wall is None else "both are there"
        book.add(path, f"there must be exactly one of 'wall' and 'schedule'; {which}", at_key=True)
        return None
    if item.wall is not None:
        words = item.wall
        wall = book.attempt((*path, "wall"), lambda: parse(words, "length"))
        if wall is None or size is None:
            return wall
        return book.attempt((*path, "wall"), lambda: check_wall(size, wall))
    if size is None or item.schedule is None:
        return None
    schedule = item.schedule
    return book.attempt((*path, "schedule"), lambda: wall_thickness(size, schedule))


def _cladding(book: FaultBook, item: InsulationItem, path: Path) -> Cladding | None:
    sheet = item.cladding
    if sheet is None:
        return None
    return book.attempt((*path, "cladding", "kind"), lambda: cladding(sheet.kind, sheet.thickness))


def _same_outside(one: PipeSize, other: PipeSize) -> bool:
    return abs(one.outside_diameter - other.outside_diameter) < SAME_PLACE
