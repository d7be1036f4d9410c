"""What the parts of a file say of each other.     (line/reading/check_study.py)

`check_conditions` judges what can be judged of unsound lines too; `check_study` needs every part to be sound.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from takeup.errors import OutOfRange
from takeup.library import density
from takeup.line.conditions import AddedState
from takeup.line.reading.faultbook import FaultBook
from takeup.line.reading.layout import Layout
from takeup.line.reading.read_conditions import ConditionSet, check_heads, check_temperatures, says_own, temperatures_of
from takeup.line.reading.read_head import ADDED, Head
from takeup.line.reading.read_holds import check_only_in
from takeup.line.reading.read_line import LINES, ReadLine
from takeup.line.reading.read_loads import LOADS
from takeup.line.records import Line, Study
from takeup.line.spans import section_span
from takeup.line.states import FIRST, state_names, states_of
from takeup.line.zones import Zones, zones_of
from takeup.reading.fields import listed, nearest
from takeup.reading.yaml_places import Path


def check_conditions(book: FaultBook, head: Head, read: tuple[ReadLine, ...]) -> None:
    """Note temperatures that a material's tables do not reach, and pressures that need their elevation."""
    seen: dict[str, tuple[ConditionSet, ...]] = {}
    for one in read:
        branch = one.main.layout.branch if one.main else None
        seen[one.name] = (*one.sets, *(seen[branch.of] if branch else ()))  # a branch may be one zone with its main
        temperatures = temperatures_of(head.site, seen[one.name], head.added)
        for material in one.materials:
            check_temperatures(book, temperatures, (material.expansion, material.modulus))
        for material in one.bellows:
            check_temperatures(book, temperatures, (material.modulus,))
        if one.medium == "steam":
            _check_steam(book, one.sets)
    for together in _connected(read):
        layouts = [one.main.layout for one in together if one.main is not None]
        sets: tuple[ConditionSet, ...] = tuple(dict.fromkeys(item for one in together for item in one.sets))
        media = {one.medium for one in together if one.medium is not None}
        if layouts and media:
            check_heads(book, sets, head.added, media, (_rise(layouts), len(layouts)))


def _check_steam(book: FaultBook, sets: tuple[ConditionSet, ...]) -> None:
    """Note steam that would be water: operating or design temperature below saturation at its own pressure."""
    for found in sets:
        for part in (found.design, found.operating):
            if part is not None:
                here = part.condition
                book.attempt((*part.path, "temperature"), partial(density, "steam", here.pressure, here.temperature))


def check_study(book: FaultBook, study: Study) -> None:
    """Note states, zones, valves and loads that there are not, conditions that never apply, rules without a table."""
    zones = zones_of(study)
    _check_apply(book, study, zones)
    _check_rules(book, study)
    known = book.attempt((*LINES, 0, "medium"), lambda: state_names(study))
    if known is None:
        return
    for index, dropped in enumerate(study.dropped):
        _check_known(book, ("states", "drop", index, "state"), dropped.state, known, "state of this line")
    taken = set(known)
    for index, added in enumerate(study.added):
        path = (*ADDED, index)
        if added.name in taken:
            book.add((*path, "name"), f"there is a state '{added.name}' already; give this one its own name")
        taken.add(added.name)
        _check_added(book, study, zones, added, (path, known))
    _check_idle(book, study)
    states = tuple(dict.fromkeys((*known, *(added.name for added in study.added))))
    _check_order(book, study, states)
    for number in range(len(study.lines)):
        check_only_in(book, (*LINES, number, "holds"), states)


def _check_order(book: FaultBook, study: Study, states: tuple[str, ...]) -> None:
    """Note states in the order that there are not, that were left out, or that come twice; and what comes first."""
    dropped = {item.state for item in study.dropped}
    several = book.size(("states", "order")) > 0
    for number, name in enumerate(study.order):
        path: Path = ("states", "order", number) if several else ("states", "order")
        if not _check_known(book, path, name, states, "state of this line"):
            continue
        if name in dropped:
            book.add(path, f"'{name}' is left out under drop")
        elif name in study.order[:number]:
            book.add(path, f"'{name}' comes twice; add a state like it to go through it again")
        elif name == FIRST:
            book.add(path, f"'{name}' is where every walk begins; leave it out here")


def _connected(read: tuple[ReadLine, ...]) -> list[list[ReadLine]]:
    """Return the lines that hang together by branches."""
    groups: list[list[ReadLine]] = []
    for one in read:
        branch = one.main.layout.branch if one.main else None
        home = next((group for group in groups if branch and any(other.name == branch.of for other in group)), None)
        if home is None:
            groups.append([one])
        else:
            home.append(one)
    return groups


def _rise(layouts: list[Layout]) -> float:
    """Return the height of the highest place above the lowest [m]."""
    heights = [layout.points[:, 2] for layout in layouts]
    return max(float(height.max()) for height in heights) - min(float(height.min()) for height in heights)


def _check_known(book: FaultBook, path: Path, name: str, known: tuple[str, ...], what: str) -> bool:
    if name in known:
        return True
    book.add(path, f"'{name}' is no {what}; {listed(known, apart='; ')}{nearest(name, known)}")
    return False


def _check_added(
    book: FaultBook, study: Study, zones: Zones, added: AddedState, places: tuple[Path, tuple[str, ...]]
) -> None:
    """Note zones, valves and loads of an added state that there are not; `places` is its own and the states known.

    A state that names only what there is is made, for what its contents refuse.
    """
    path, states = places
    valves = tuple(item.name for line in study.lines for item in line.items if item.can_close)
    loads = tuple(dict.fromkeys(load.name for load in study.loads))
    named = tuple(zone.name for zone in zones.every)
    found = [
        _check_known(book, (*path, "zones", number, "zone"), change.zone, named, "zone of these lines")
        for number, change in enumerate(added.zones)
    ]
    for key, names, known, what in (
        ("closed", added.closed, valves, "valve that can close"),
        ("loads", added.loads, loads, "load of this file"),
    ):
        several = book.size((*path, key)) > 0
        found += [
            _check_known(book, (*path, key, number) if several else (*path, key), name, known, what)
            for number, name in enumerate(names)
        ]
    if added.like is not None:
        found.append(_check_known(book, (*path, "like"), added.like, states, "state of the default order"))
    if all(found):
        book.attempt(path, lambda: states_of(replace(study, dropped=(), added=(added,))))


def _check_idle(book: FaultBook, study: Study) -> None:
    """Note occasional loads that no state names: nothing would ever come of them."""
    acting = {name for added in study.added for name in added.loads}
    for number, load in enumerate(study.loads):
        if load.duration == "occasional" and load.name not in acting:
            acting.add(load.name)  # loads that share a name act together: one fault is enough
            book.add((*LOADS, number, "name"), "no state lets it act: name it under states, add, loads")


def _check_apply(book: FaultBook, study: Study, zones: Zones) -> None:
    """Note conditions or a medium of a branch's own, where the branch is one zone with the line that it leaves."""
    own = {zone.parts[0].line for zone in zones.every}
    for number, line in enumerate(study.lines):
        if line.branch is None or line.name in own:
            continue
        path, main = (*LINES, number), study.line(line.branch.of)
        why = f"nothing parts it from {main.name}: no anchor, no valve that can close, no zone of its own"
        said = says_own(book, path)
        if said:
            book.add((*path, said), f"the conditions of {line.name} never apply: {why}", at_key=True)
        if line.medium != main.medium:
            book.add((*path, "medium"), f"{main.name} holds {main.medium}, and {why}")


def _check_rules(book: FaultBook, study: Study) -> None:
    """Note rules that place holds by a support span, where its table does not cover the pipe or the temperature."""
    for number, line in enumerate(study.lines):
        holds: Path = (*LINES, number, "holds")
        for index in range(book.size(holds)):
            path = (*holds, index)
            if not book.has((*path, "by")):
                continue
            kind, by = book.words((*path, "kind")), book.words((*path, "by"))
            if by == "support spans" or kind == "slide guide":
                _check_span(book, study, line, (*path, "by"), f"{kind}s by {by}")


def _check_span(book: FaultBook, study: Study, line: Line, path: Path, what: str) -> None:
    temperature = study.conditions_of(line).design.temperature
    for section in line.sections:
        try:
            section_span(section, line.medium, temperature)
        except OutOfRange as reason:
            book.add(path, f"{what} need a support span: {reason} Place them by hand.")
