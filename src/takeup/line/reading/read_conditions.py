"""Pressures and temperatures of the file, of a line, of a zone: do they agree?     (line/reading/read_conditions.py)

Design, operating and test conditions stand at the top of the file; a line or a zone may have its own, part by part.
A part is None where its form is unsound: the fault is noted already, and nothing that rests on it is judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Literal

from takeup.library import Curve
from takeup.line.conditions import AddedState, Condition, Conditions, Medium, Site
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.schema_conditions import DesignItem, OperatingItem, OwnDesignItem, TestItem
from takeup.line.states import LIQUIDS
from takeup.reading.yaml_places import Path
from takeup.units import STANDARD_GRAVITY, to_bar

TEST_WATER_DENSITY = 1000.0
"""Water, cold, as everyone counts it [kg/m3]; used only to decide whether an elevation must be stated."""

HEAD_SHARE = 0.02
"""Static head above this share of the pressure makes the elevation of the pressure a required key."""

PARTS: tuple[Literal["design", "operating", "test"], ...] = ("design", "operating", "test")


@dataclass(frozen=True, kw_only=True, slots=True)
class PlacedCondition:
    """A condition and where in the file it stands."""

    condition: Condition
    path: Path


@dataclass(frozen=True, kw_only=True, slots=True)
class ConditionSet:
    """Design, operating and test conditions of the whole, of a line or of a zone; None where unsound."""

    design: PlacedCondition | None
    operating: PlacedCondition | None
    test: PlacedCondition | None

    @property
    def conditions(self) -> Conditions | None:
        """The three conditions, where every one is sound."""
        if self.design is None or self.operating is None or self.test is None:
            return None
        return Conditions(design=self.design.condition, operating=self.operating.condition, test=self.test.condition)

    @property
    def parts(self) -> tuple[PlacedCondition, ...]:
        """Those that are sound."""
        return tuple(part for part in (self.design, self.operating, self.test) if part is not None)


NOTHING_SAID = ConditionSet(design=None, operating=None, test=None)


def read_set(book: FaultBook, base: Path, otherwise: ConditionSet = NOTHING_SAID) -> ConditionSet:
    """Read the conditions under a mapping of the file; a part that it does not say is as `otherwise`."""
    if base and not any(book.has((*base, part)) for part in PARTS):
        return otherwise
    found = ConditionSet(
        design=_part(book, (*base, "design"), otherwise.design),
        operating=_part(book, (*base, "operating"), otherwise.operating),
        test=_part(book, (*base, "test"), otherwise.test),
    )
    _compare(book, found, base)
    return found


def says_own(book: FaultBook, base: Path) -> str:
    """Return the first part of its own conditions that a line or a zone says, or nothing."""
    return next((part for part in PARTS if book.has((*base, part))), "")


def check_temperatures(book: FaultBook, temperatures: list[tuple[Path, float]], curves: tuple[Curve, ...]) -> None:
    """Note every temperature at which a material's tables have no row on one side."""
    for path, temperature in temperatures:
        what = f"{path[-2]} temperature" if path[-1] == "temperature" else f"{path[-1]} temperature"
        what = "temperature" if path[0] == "states" else what
        for curve in curves:
            if book.attempt(path, partial(curve.at, temperature, asked=what)) is None:
                break


def temperatures_of(
    site: Site | None, sets: tuple[ConditionSet, ...], added: tuple[AddedState, ...]
) -> list[tuple[Path, float]]:
    """Return every temperature that a line sees, with its place in the file."""
    found: list[tuple[Path, float]] = []
    if site is not None:
        found += [
            (("site", "installation"), site.installation),
            (("site", "coldest"), site.coldest),
            (("site", "hottest"), site.hottest),
        ]
    for one in sets:
        found += [((*part.path, "temperature"), part.condition.temperature) for part in one.parts]
    for index, state in enumerate(added):
        path: Path = ("states", "add", index)
        if state.condition is not None:
            found.append(((*path, "temperature"), state.condition.temperature))
        for number, change in enumerate(state.zones):
            if change.condition is not None:
                found.append(((*path, "zones", number, "temperature"), change.condition.temperature))
    return list(dict.fromkeys(found))


def check_heads(
    book: FaultBook,
    sets: tuple[ConditionSet, ...],
    added: tuple[AddedState, ...],
    media: set[Medium],
    reach: tuple[float, int],
) -> None:
    """Note every pressure whose elevation must be stated, because the height is not small beside it.

        rho g dz > 0.02 P                                                   (2 % is this project's own limit)

    Args:
        book: where faults go.
        sets: conditions of lines that hang together.
        added: states of the user's own.
        media: what flows in these lines; only liquids are heavy enough to count.
        reach: dz, height of the highest place above the lowest [m], and of how many lines.
    """
    rise, count = reach
    who = "the line rises" if count == 1 else "the lines rise"
    liquid = any(medium in LIQUIDS for medium in media)
    for path, key, condition in _wanted(sets, added, liquid=liquid):
        head = TEST_WATER_DENSITY * STANDARD_GRAVITY * rise
        if condition.at_elevation is None and head > HEAD_SHARE * max(condition.pressure, -condition.pressure):
            words = book.words((*path, "pressure"))
            book.add(
                (*path, "pressure"),
                f"the key '{key}' is required beside it: {who} {rise:.4g} m, {to_bar(head):.2g} bar of water, "
                f"more than 2 % of {words}",
                at_key=True,
            )


def _wanted(
    sets: tuple[ConditionSet, ...], added: tuple[AddedState, ...], *, liquid: bool
) -> Iterator[tuple[Path, str, Condition]]:
    """Yield every pressure under which a liquid stands, with the key that says where it is stated."""
    for one in sets:
        if one.test is not None:
            yield one.test.path, "gauge_elevation", one.test.condition
        for part in (one.design, one.operating):
            if liquid and part is not None:
                yield part.path, "at_elevation", part.condition
    for index, state in enumerate(added):
        place: Path = ("states", "add", index)
        changes: list[tuple[Path, Condition | None, str | None]] = [(place, state.condition, state.content)]
        for number, change in enumerate(state.zones):
            changes.append(((*place, "zones", number), change.condition, change.content or state.content))
        for path, condition, content in changes:
            if condition is not None and (content == "water" or (content in ("medium", None) and liquid)):
                yield path, "at_elevation", condition


def _part(book: FaultBook, path: Path, otherwise: PlacedCondition | None) -> PlacedCondition | None:
    if not book.has(path):
        return otherwise
    condition = _test(book, path) if path[-1] == "test" else _condition(book, path)
    return PlacedCondition(condition=condition, path=path) if condition else None


def _condition(book: FaultBook, path: Path) -> Condition | None:
    design = DesignItem if path == ("design",) else OwnDesignItem
    item = book.sound(design, path) if path[-1] == "design" else book.sound(OperatingItem, path)
    if not isinstance(item, DesignItem | OwnDesignItem | OperatingItem):
        return None
    return Condition(pressure=item.pressure, temperature=item.temperature, at_elevation=item.at_elevation)


def _test(book: FaultBook, path: Path) -> Condition | None:
    item = book.sound(TestItem, path)
    if item is None:
        return None
    return Condition(
        pressure=item.pressure,
        temperature=item.temperature,
        at_elevation=item.gauge_elevation,
        chlorides_ppm=item.chlorides,
    )


def _compare(book: FaultBook, found: ConditionSet, base: Path) -> None:
    """Note operating conditions above design, and a test below it; at the one that stands under `base`."""
    design, operating, test = found.design, found.operating, found.test
    if design is None:
        return
    if operating is not None and operating.condition.pressure > design.condition.pressure:
        _note(book, (operating, design), "pressure", ("above the design", "below the operating"), base)
    if operating is not None and operating.condition.temperature > design.condition.temperature:
        _note(book, (operating, design), "temperature", ("above the design", "below the operating"), base)
    if test is not None and test.condition.pressure < design.condition.pressure:
        _note(book, (test, design), "pressure", ("below the design", "above the test"), base)


def _note(
    book: FaultBook, pair: tuple[PlacedCondition, PlacedCondition], key: str, words: tuple[str, str], base: Path
) -> None:
    one, design = pair
    here, other, side = (one, design, words[0]) if one.path[: len(base)] == base else (design, one, words[1])
    said, than = (f"'{book.words((*part.path, key))}'" for part in (here, other))
    book.add((*here.path, key), f"{said} is {side} {key}, {than}")
