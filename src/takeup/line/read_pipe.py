"""The pipe of a line and what is round it, looked up in the library or refused.     (line/read_pipe.py)"""

from __future__ import annotations

from dataclasses import dataclass

from takeup.library import (
    Insulation,
    Material,
    PipeSize,
    Source,
    check_wall,
    insulation,
    material,
    pipe_size,
    wall_thickness,
)
from takeup.line.faultbook import FaultBook
from takeup.line.parts import Pipe
from takeup.line.schema_line import InsulationItem, PipeItem
from takeup.line.sentences import Bend
from takeup.line.yaml_places import Path
from takeup.units import METRES_PER_INCH, parse, to_mm


@dataclass(frozen=True, kw_only=True, slots=True)
class PipeParts:
    """What could be read of the pipe: each part None where it is unsound; `bends` also where nothing is said."""

    size: PipeSize | None = None
    wall: float | None = None
    wall_words: str = ""
    material: Material | None = None
    bends: Bend | None = None
    table: tuple[str, str] | None = None

    @property
    def pipe(self) -> Pipe | None:
        """The whole pipe, where every part is sound."""
        if self.size is None or self.wall is None or self.material is None or self.table is None:
            return None
        return Pipe(
            size=self.size,
            wall=self.wall,
            wall_words=self.wall_words,
            material=self.material,
            expansion_table=self.table[0],
            expansion_because=self.table[1],
        )

    @property
    def nominal(self) -> float | None:
        """Nominal size as a length, which bend radii are multiples of [m]."""
        return self.size.nps_inch * METRES_PER_INCH if self.size else None


def read_pipe(book: FaultBook, path: Path, table: tuple[str, str] | None) -> PipeParts:
    """Look a pipe up; `table` (with its reason) is None where the basis is unsound: the material is then not judged."""
    item = book.sound(PipeItem, path)
    if item is None:
        return PipeParts()
    size = book.attempt((*path, "size"), lambda: pipe_size(item.size))
    steel = None
    if table is not None:
        steel = book.attempt((*path, "material"), lambda: material(item.material, expansion_table=table[0]))
    if item.bends is not None and item.bends.radius is not None:
        check_radius(book, item.bends.radius, size, (*path, "bends"))
    return PipeParts(
        size=size,
        wall=_wall(book, path, item, size),
        wall_words=item.wall or f"schedule {item.schedule}",
        material=steel,
        bends=item.bends,
        table=table,
    )


def check_radius(book: FaultBook, radius: float, size: PipeSize | None, path: Path) -> None:
    """Note a bend radius that is not above half the outside diameter: the inside of the bend would cross itself."""
    if size is not None and radius <= size.outside_diameter / 2:
        limit = to_mm(size.outside_diameter / 2)
        book.add(
            path, f"a bend radius of {to_mm(radius):.4g} mm is not above {limit:.5g} mm, half the outside diameter"
        )


def read_insulation(book: FaultBook, path: Path) -> Insulation | None:
    """Read the insulation; None for `none` and where the form is unsound."""
    item = book.sound(InsulationItem, path)
    if item is None:
        return None
    if item.density is None:
        return book.attempt((*path, "kind"), lambda: insulation(item.kind, item.thickness))
    source = Source(words=item.density.source, status="user's data")
    return Insulation(kind=item.kind, thickness=item.thickness, density=item.density.value, source=source)


def _wall(book: FaultBook, path: Path, item: PipeItem, size: PipeSize | None) -> float | None:
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
