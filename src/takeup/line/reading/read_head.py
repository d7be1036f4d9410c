"""Everything a line file says beside its lines.     (line/reading/read_head.py)"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from takeup.library import expansion_tables
from takeup.line.conditions import (
    COLD_WALK,
    AddedState,
    Basis,
    Condition,
    Cycle,
    DesignFactors,
    Document,
    DroppedState,
    Site,
    Vacuum,
    WalkOptions,
    Warming,
    ZoneChange,
)
from takeup.line.parts import Allowables
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.read_conditions import ConditionSet, read_set
from takeup.line.reading.read_pipe import check_edition, read_allowables
from takeup.line.reading.schema import BasisItem, DocumentItem
from takeup.line.reading.schema_conditions import (
    AddItem,
    CycleItem,
    DesignFactorsItem,
    DesignItem,
    DropItem,
    SiteItem,
    StateKeys,
    StatesItem,
    WalkItem,
    ZoneChangeItem,
)
from takeup.line.reading.schema_pipe import AllowableItem
from takeup.reading.fields import nearest
from takeup.reading.yaml_places import Path

ADDED: Path = ("states", "add")


@dataclass(frozen=True, kw_only=True, slots=True)
class Head:
    """Everything the file says beside its lines; None where the form is unsound."""

    project: str
    document: Document | None
    basis: Basis | None
    expansion_table: str | None
    site: Site | None
    conditions: ConditionSet
    vacuum: Vacuum | None
    cycles: tuple[Cycle, ...]
    allowables: Allowables
    dropped: tuple[DroppedState, ...]
    added: tuple[AddedState, ...]
    order: tuple[str, ...]
    warming: Warming
    walk: WalkOptions
    design_factors: DesignFactors | None
    prices: str | None


def read_head(book: FaultBook) -> Head:
    """Read everything beside the lines and note where values contradict each other."""
    design = book.sound(DesignItem, ("design",))
    return Head(
        project=book.words(("project",)),
        document=_document(book),
        basis=check_edition(book, _basis(book)),
        expansion_table=_expansion_table(book),
        site=_site(book),
        conditions=read_set(book, ()),
        vacuum=design.vacuum if design else None,
        cycles=tuple(_cycles(book)),
        allowables=read_allowables(book.sound(AllowableItem, ("allowable",))),
        dropped=tuple(_dropped(book)),
        added=tuple(_added(book)),
        order=_order(book),
        warming=_warming(book),
        walk=_walk(book),
        design_factors=_design_factors(book),
        prices=book.words(("prices",)) or None,
    )


def _document(book: FaultBook) -> Document | None:
    item = book.sound(DocumentItem, ("document",))
    return Document(number=item.number, revision=item.revision, date=item.date) if item else None


def _basis(book: FaultBook) -> Basis | None:
    item = book.sound(BasisItem, ("basis",))
    return Basis(code=item.code, edition=item.edition) if item else None


def _expansion_table(book: FaultBook) -> str | None:
    """Return the expansion table that the file names; None where it leaves the choice to code, edition and material."""
    item = book.sound(BasisItem, ("basis",))
    if item is None or item.expansion_table is None:
        return None
    known = expansion_tables()
    if item.expansion_table in known:
        return item.expansion_table
    book.add(
        ("basis", "expansion_table"),
        f"unknown table '{item.expansion_table}'; expected one of: {', '.join(known)}"
        f"{nearest(item.expansion_table, known)}",
    )
    return None


def _site(book: FaultBook) -> Site | None:
    item = book.sound(SiteItem, ("site",))
    if item is None:
        return None
    if item.coldest > item.installation:
        said = book.words(("site", "coldest"))
        book.add(("site", "coldest"), f"'{said}' is above the installation temperature")
    if item.hottest < item.installation:
        said = book.words(("site", "hottest"))
        book.add(("site", "hottest"), f"'{said}' is below the installation temperature")
    return Site(installation=item.installation, coldest=item.coldest, hottest=item.hottest)


def _cycles(book: FaultBook) -> Iterator[Cycle]:
    for index in range(book.size(("cycles",))):
        item = book.sound(CycleItem, ("cycles", index))
        if item is None:
            continue
        if item.start == item.end:
            book.add(("cycles", index, "to"), f"'{item.end}' is where the cycle begins; a cycle goes somewhere else")
        yield Cycle(start=item.start, end=item.end, count=item.times)


def _warming(book: FaultBook) -> Warming:
    item = book.sound(StatesItem, ("states",))
    return item.warming if item is not None and item.warming is not None else "zone by zone"


def _order(book: FaultBook) -> tuple[str, ...]:
    item = book.sound(StatesItem, ("states",))
    return item.order or () if item is not None else ()


def _walk(book: FaultBook) -> WalkOptions:
    item = book.sound(WalkItem, ("walk",))
    if item is None:
        return COLD_WALK
    return WalkOptions(
        modulus="operating" if item.modulus == "at operating temperature" else "installation",
        locked_in=item.friction_at_installation == "locked in",
    )


def _design_factors(book: FaultBook) -> DesignFactors | None:
    item = book.sound(DesignFactorsItem, ("design_factors",))
    return DesignFactors(anchors=item.anchors, guides=item.guides, source=item.source) if item is not None else None


def _dropped(book: FaultBook) -> Iterator[DroppedState]:
    for index in range(book.size(("states", "drop"))):
        item = book.sound(DropItem, ("states", "drop", index))
        if item is not None:
            yield DroppedState(state=item.state, because=item.because)


def _added(book: FaultBook) -> Iterator[AddedState]:
    """Yield the added states, every one of them when the file has no fault of form."""
    for index in range(book.size(ADDED)):
        path = (*ADDED, index)
        item = book.sound(AddItem, path)
        if item is None:
            continue
        if item.like is None:
            for key in ("pressure", "temperature", "content"):
                if not book.has((*path, key)):
                    book.add(path, f"the key '{key}' is required, or 'like': the state that this one starts from")
        yield AddedState(
            name=item.name,
            condition=_condition(book, item, path),
            content=item.content,
            like=item.like,
            zones=tuple(_changes(book, path)),
            closed=item.closed or (),
            loads=item.loads or (),
            locked=item.hangers is not None,
        )


def _changes(book: FaultBook, path: Path) -> Iterator[ZoneChange]:
    for number in range(book.size((*path, "zones"))):
        place = (*path, "zones", number)
        item = book.sound(ZoneChangeItem, place)
        if item is not None:
            if item.pressure is None and item.content is None and item.temperature is None:
                book.add(place, "this zone is at nothing else: say 'pressure' and 'temperature', 'content' or both")
            yield ZoneChange(zone=item.zone, condition=_condition(book, item, place), content=item.content)


def _condition(book: FaultBook, item: StateKeys, path: Path) -> Condition | None:
    """Return the condition of a state or a zone in it; pressure and temperature stand together or not at all."""
    if item.pressure is None or item.temperature is None:
        for key, other in (("pressure", "temperature"), ("temperature", "pressure"), ("at_elevation", "pressure")):
            if book.has((*path, key)) and not book.has((*path, other)):
                book.add((*path, key), f"this key stands beside '{other}', which is not there", at_key=True)
        return None
    return Condition(pressure=item.pressure, temperature=item.temperature, at_elevation=item.at_elevation)
