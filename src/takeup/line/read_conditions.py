"""Pressures, temperatures, cycles and states, and whether they agree.     (line/read_conditions.py)

Each function returns None where the form of its part is unsound: the fault is noted already, and nothing that rests
on it is judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from takeup.library import Material, expansion_table_for, expansion_tables
from takeup.line.conditions import (
    AddedState,
    Basis,
    Condition,
    Cycle,
    Document,
    DroppedState,
    Medium,
    Site,
    Vacuum,
)
from takeup.line.faultbook import FaultBook
from takeup.line.fields import nearest
from takeup.line.parts import Allowables, UserValue
from takeup.line.schema import (
    AddItem,
    AllowableItem,
    BasisItem,
    CycleItem,
    DesignItem,
    DocumentItem,
    DropItem,
    OperatingItem,
    SiteItem,
    StressItem,
    TestItem,
)
from takeup.line.yaml_places import Path
from takeup.units import STANDARD_GRAVITY, to_bar

TEST_WATER_DENSITY = 1000.0
"""Water, cold, as everyone counts it [kg/m3]; used only to decide whether an elevation must be stated."""

HEAD_SHARE = 0.02
"""Static head above this share of the pressure makes the elevation of the pressure a required key."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Head:
    """Everything the file says beside its lines; None where the form is unsound."""

    project: str
    document: Document | None
    basis: Basis | None
    site: Site | None
    design: Condition | None
    vacuum: Vacuum | None
    operating: Condition | None
    test: Condition | None
    cycles: tuple[Cycle, ...]
    expansion_table: str | None
    allowables: Allowables
    dropped: tuple[DroppedState, ...]
    added: tuple[AddedState, ...]


def read_conditions(book: FaultBook) -> Head:
    """Read everything beside the lines and note where values contradict each other."""
    design_item = book.sound(DesignItem, ("design",))
    allowable = book.sound(AllowableItem, ("allowable",))
    head = Head(
        project=book.words(("project",)),
        document=_document(book),
        basis=_basis(book),
        site=_site(book),
        design=_condition(design_item),
        vacuum=design_item.vacuum if design_item else None,
        operating=_condition(book.sound(OperatingItem, ("operating",))),
        test=_test(book),
        cycles=tuple(_cycles(book)),
        expansion_table=_expansion_table(book),
        allowables=read_allowables(allowable),
        dropped=tuple(_dropped(book)),
        added=tuple(_added(book)),
    )
    _compare(book, head)
    return head


def check_temperatures(book: FaultBook, conditions: Head, material: Material) -> None:
    """Note every temperature at which the material's tables have no row on one side."""
    for path, temperature in _temperatures(conditions):
        what = f"{path[0]} temperature" if path[-1] == "temperature" else f"{path[-1]} temperature"
        what = "temperature" if path[0] == "states" else what
        for curve in (material.expansion, material.modulus):
            if book.attempt(path, partial(curve.at, temperature, asked=what)) is None:
                break


def check_heads(book: FaultBook, conditions: Head, medium: Medium, rise: float) -> None:
    """Note every pressure whose elevation must be stated, because the line's height is not small beside it.

        rho g dz > 0.02 P                                                   (2 % is this project's own limit)

    Args:
        book: where faults go.
        conditions: what the file says.
        medium: what flows in the line; only water is heavy enough to count.
        rise: dz, height of the highest place above the lowest [m].
    """
    wanted: list[tuple[Path, str, Condition | None]] = [(("test",), "gauge_elevation", conditions.test)]
    if medium == "water":
        wanted += [
            (("design",), "at_elevation", conditions.design),
            (("operating",), "at_elevation", conditions.operating),
        ]
    for index, state in enumerate(conditions.added):
        if state.condition is None:
            continue
        if state.content == "water" or (state.content == "medium" and medium == "water"):
            wanted.append((("states", "add", index), "at_elevation", state.condition))
    for path, key, condition in wanted:
        _check_head(book, path, key, condition, rise)


def _check_head(book: FaultBook, path: Path, key: str, condition: Condition | None, rise: float) -> None:
    if condition is None or condition.at_elevation is not None:
        return
    head = TEST_WATER_DENSITY * STANDARD_GRAVITY * rise
    if head > HEAD_SHARE * max(condition.pressure, -condition.pressure):
        words = book.words((*path, "pressure"))
        book.add(
            (*path, "pressure"),
            f"the key '{key}' is required beside it: the line rises {rise:.4g} m, {to_bar(head):.2g} bar of water, "
            f"more than 2 % of {words}",
            at_key=True,
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
    if item.expansion_table not in expansion_tables():
        near = nearest(item.expansion_table, expansion_tables())
        known = ", ".join(expansion_tables())
        book.add(
            ("basis", "expansion_table"), f"unknown table '{item.expansion_table}'; expected one of: {known}{near}"
        )
    return item.expansion_table


def expansion_table(book: FaultBook, head: Head) -> tuple[str, str] | None:
    """Return the expansion table of the basis and why it is that one; None where the basis is unsound."""
    basis = head.basis
    if basis is None:
        return None
    usual = book.attempt(("basis", "edition"), lambda: expansion_table_for(basis.edition))
    if head.expansion_table is not None:
        return (head.expansion_table, "named in the line file") if head.expansion_table in expansion_tables() else None
    return usual


def read_allowables(item: AllowableItem | None) -> Allowables:
    """Return the stresses that the user answers for."""
    if item is None:
        return Allowables()
    return Allowables(
        expansion_stress_range=_user_value(item.expansion_stress_range),
        yield_strength=_user_value(item.yield_strength),
    )


def _site(book: FaultBook) -> Site | None:
    item = book.sound(SiteItem, ("site",))
    if item is None:
        return None
    if item.coldest > item.installation:
        book.add(("site", "coldest"), f"{_said(book, 'site', 'coldest')} is above the installation temperature")
    if item.hottest < item.installation:
        book.add(("site", "hottest"), f"{_said(book, 'site', 'hottest')} is below the installation temperature")
    return Site(installation=item.installation, coldest=item.coldest, hottest=item.hottest)


def _condition(item: DesignItem | OperatingItem | AddItem | None) -> Condition | None:
    if item is None:
        return None
    return Condition(pressure=item.pressure, temperature=item.temperature, at_elevation=item.at_elevation)


def _test(book: FaultBook) -> Condition | None:
    item = book.sound(TestItem, ("test",))
    if item is None:
        return None
    return Condition(pressure=item.pressure, temperature=item.temperature, at_elevation=item.gauge_elevation)


def _cycles(book: FaultBook) -> Iterator[Cycle]:
    for index in range(book.size(("cycles",))):
        item = book.sound(CycleItem, ("cycles", index))
        if item is None:
            continue
        if item.start == item.end:
            book.add(("cycles", index, "to"), f"'{item.end}' is where the cycle begins; a cycle goes somewhere else")
        yield Cycle(start=item.start, end=item.end, count=item.times)


def _user_value(item: StressItem | None) -> UserValue | None:
    return UserValue(value=item.value, source=item.source) if item else None


def _dropped(book: FaultBook) -> Iterator[DroppedState]:
    for index in range(book.size(("states", "drop"))):
        item = book.sound(DropItem, ("states", "drop", index))
        if item is not None:
            yield DroppedState(state=item.state, because=item.because)


def _added(book: FaultBook) -> Iterator[AddedState]:
    for index in range(book.size(("states", "add"))):
        item = book.sound(AddItem, ("states", "add", index))
        condition = _condition(item)
        if item is not None and condition is not None:
            yield AddedState(name=item.name, condition=condition, content=item.content)


def _compare(book: FaultBook, conditions: Head) -> None:
    design, operating, test = conditions.design, conditions.operating, conditions.test
    if design and operating and operating.pressure > design.pressure:
        _note_order(book, "operating", "pressure", "above")
    if design and operating and operating.temperature > design.temperature:
        _note_order(book, "operating", "temperature", "above")
    if design and test and test.pressure < design.pressure:
        _note_order(book, "test", "pressure", "below")


def _note_order(book: FaultBook, section: str, key: str, side: str) -> None:
    book.add((section, key), f"{_said(book, section, key)} is {side} the design {key}, {_said(book, 'design', key)}")


def _said(book: FaultBook, section: str, key: str) -> str:
    return f"'{book.words((section, key))}'"


def _temperatures(conditions: Head) -> Iterator[tuple[Path, float]]:
    if conditions.site is not None:
        yield ("site", "installation"), conditions.site.installation
        yield ("site", "coldest"), conditions.site.coldest
        yield ("site", "hottest"), conditions.site.hottest
    named = (("design", conditions.design), ("operating", conditions.operating), ("test", conditions.test))
    for section, condition in named:
        if condition is not None:
            yield (section, "temperature"), condition.temperature
    for index, state in enumerate(conditions.added):
        if state.condition is not None:
            yield ("states", "add", index, "temperature"), state.condition.temperature
