"""Bare lines for proposals, small enough that every arrangement of them can be studied.     (tests/bare_lines.py)

DN 100 of 6.02 mm hot water, as `bare_text` says. Names, capacities and stress schedules are invented. `chance_text`
draws a line of one to four legs, places, media and temperatures from a seeded source.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace

import numpy as np

from takeup.choose.arrange.course import Course
from takeup.choose.arrange.ground import Ground, ground_of, ground_with
from takeup.choose.arrange.price_file import demonstration_prices
from takeup.choose.arrange.records import Floats, Plan
from takeup.line import Study
from takeup.line.reading.reader import study_from_text

GUIDES = "{ kind: slide guide, by: spacing rule, slides_on: PTFE on steel }"
RESTS = "{ kind: rest, by: support spans, slides_on: PTFE on steel }"
HOT = (6.0, 95.0, "water")
STEEL = "118 MPa"
FULL = 'vacuum: "not possible, because the pumps keep the main full"'
OPPOSITE = {"east": "west", "west": "east", "north": "south", "south": "north", "up": "down", "down": "up"}


def bare_text(
    *legs: str,
    ends: tuple[str, str] = ("30 kN", "30 kN"),
    may: tuple[str, ...] = ("{ at: 12 m, can_carry: { force: 25 kN } }",),
    clear: str = "",
    room: str = "{ towards: north, depth: 3 m }",
    holds: tuple[str, ...] = (GUIDES, RESTS),
    takes: tuple[float, float, str] = HOT,
    pipe: str = "{ size: DN 100, wall: 6.02 mm, material: ASTM A106 B, bends: long radius }",
    stress: str = STEEL,
    strength: str = "",
    series: str = "demonstration series",
    end_kind: str = "main anchor",
    end_more: str = "",
) -> str:
    """Return the text of a bare line between two main anchors.

    Args:
        legs: the words of each `go`; 24 m east where none is given.
        ends: what each end can carry.
        may: places that may hold.
        clear: stretches that are kept clear.
        room: for loops; none where empty.
        holds: rules, and whatever the file gives.
        takes: design pressure [bar], temperature [degC] and medium.
        pipe: the pipe's mapping.
        stress: cold and hot allowable.
        strength: at yield; not said where empty.
        series: where joints are from; none where empty.
        end_kind: what the far end is.
        end_more: further keys of the far end.
    """
    pressure, temperature, medium = takes
    whole = legs or ("24 m east",)
    first = f"{{ start: boiler header, at: [0 m, 0 m, 3 m], as: main anchor, can_carry: {ends[0]} }}"
    last = f"{{ go: {whole[-1]}, to: bath header, as: {end_kind}, can_carry: {ends[1]}{end_more} }}"
    route = [first, *(f"{{ go: {leg} }}" for leg in whole[:-1]), last]
    said = f'{{ value: {stress}, source: "invented for a test" }}'
    at_yield = f", yield_strength: {said.replace(stress, strength)}" if strength else ""
    at = "at_elevation: 3 m"
    return "\n".join(
        [
            "takeup: 1",
            "project: invented bare line of a test",
            "document: { number: T-8, revision: A, date: 2026-03-05 }",
            "basis: { code: ASME B31.1, edition: 2020 }",
            "site: { installation: 12 °C, coldest: 0 °C, hottest: 35 °C }",
            f"design: {{ pressure: {pressure:g} bar(g), {at}, temperature: {temperature:g} °C, {FULL} }}",
            f"operating: {{ pressure: {0.9 * pressure:g} bar(g), {at}, temperature: {temperature - 5:g} °C }}",
            f"test: {{ pressure: {1.5 * pressure:g} bar(g), gauge_elevation: 3 m, with: water, temperature: 12 °C }}",
            "cycles: [ { from: cold, to: operating, count: 1000 } ]",
            f"allowable: {{ cold_stress: {said}, hot_stress: {said}{at_yield} }}",
            "lines:",
            "  - name: HW-1",
            f"    medium: {medium}",
            f"    pipe: {pipe}",
            "    insulation: { thickness: 50 mm, kind: mineral wool }",
            "    route:",
            *(f"      - {item}" for item in route),
            *_listed("holds", holds),
            *_listed("may_hold", may),
            *([f"    keep_clear: {clear}"] if clear else []),
            *([f"    loop_room: [ {room} ]"] if room else []),
            *([f"    takeups_from: [ {series} ]"] if series else []),
            "",
        ]
    )


def joined_text(
    *legs: str,
    at: str = "6 m",
    may: tuple[str, ...] = (),
    main: tuple[str, ...] = ("12 m east",),
    main_may: tuple[str, ...] = ("{ at: 6 m, can_carry: { force: 25 kN } }",),
    series: str = "demonstration series",
    strength: str = "",
) -> str:
    """Return the text of a bare line and of a branch of DN 80 that leaves it and ends at a main anchor.

    Args:
        legs: the words of each `go` of the branch.
        at: where it leaves the main.
        may: places that may hold the branch.
        main: the words of each `go` of the main.
        main_may: places that may hold the main.
        series: where joints of the branch are from; none where empty.
        strength: at yield; not said where empty.
    """
    last = f"{{ go: {legs[-1]}, to: stand, as: main anchor, can_carry: 20 kN }}"
    route = [
        f"{{ start: tee, as: branch, of: HW-1, at: {at}, tee: welding tee }}",
        *(f"{{ go: {leg} }}" for leg in legs[:-1]),
    ]
    return bare_text(*main, may=main_may, room="", strength=strength) + "\n".join(
        [
            "  - name: HW-2",
            "    medium: water",
            "    pipe: { size: DN 80, wall: 5.49 mm, material: ASTM A106 B, bends: long radius }",
            "    insulation: { thickness: 50 mm, kind: mineral wool }",
            "    route:",
            *(f"      - {item}" for item in (*route, last)),
            *_listed("holds", (GUIDES, RESTS)),
            *_listed("may_hold", may),
            *([f"    takeups_from: [ {series} ]"] if series else []),
            "",
        ]
    )


def _listed(key: str, items: tuple[str, ...]) -> list[str]:
    return [f"    {key}:", *(f"      - {item}" for item in items)] if items else []


def bare_study(*legs: str, **keys: object) -> Study:
    """Return the study of `bare_text`."""
    return study_from_text(bare_text(*legs, **keys), "bare.yaml")  # type: ignore[arg-type]  # its keys by name


def ground_on(text: str) -> Ground:
    """Return what a search in lines stands on, with the demonstration prices."""
    return ground_of(study_from_text(text, "bare.yaml"), demonstration_prices())


def course_on(text: str) -> Course:
    """Return the only line of a file that is to be arranged, with the demonstration prices."""
    [course] = ground_on(text).courses
    return course


def chance_text(seed: int, *, places: int = 2, ways: tuple[str, ...] = tuple(OPPOSITE)) -> str:
    """Return the text of a line drawn at random.

    Args:
        seed: of the drawing.
        places: that may hold, at most.
        ways: that legs may go.
    """
    chance = random.Random(seed)  # noqa: S311 -- lines to try, no secret
    last, legs, length = "", [], 0
    for _ in range(chance.randint(1, 4)):
        last = chance.choice([way for way in ways if way not in (last, OPPOSITE.get(last))])
        legs.append(chance.choice([3, 4, 6, 9, 12, 15, 20]))
        length += legs[-1]
        legs[-1] = f"{legs[-1]} m {last}"
    number = min(chance.randint(0, places), max(length - 4, 0))
    may = tuple(f"{{ at: {station}.5 m }}" for station in sorted(chance.sample(range(2, length - 1), number)))
    holds = chance.choice([(RESTS,), (GUIDES, RESTS), (GUIDES, RESTS), (GUIDES,)])
    size, wall = chance.choice([("DN 50", 3.91), ("DN 100", 6.02), ("DN 200", 8.18)])
    return bare_text(
        *legs,
        ends=("500 kN", "500 kN"),
        may=may or ("{ every: 900 m }",),
        room=f"{{ towards: {chance.choice(['up', *_across(legs)])}, depth: 3 m }}",
        holds=holds,
        takes=chance.choice([(2.0, 60.0, "water"), HOT, (16.0, 130.0, "water"), (6.0, 180.0, "steam")]),
        pipe=f"{{ size: {size}, wall: {wall} mm, material: ASTM A106 B, bends: long radius }}",
    )


def _across(legs: list[str]) -> list[str]:
    """Return level ways that no leg goes."""
    gone = " ".join(legs)
    return [
        way for way, other in OPPOSITE.items() if way not in ("up", "down") and way not in gone and other not in gone
    ]


@dataclass(frozen=True)
class NamedJoint:
    """A joint of which only the name is asked."""

    name: str
    chosen: None = None


def plan_of(
    near: int, far: int, force: Floats, cost: float, joints: int | tuple[str, ...] = 0, *, alone: Floats | None = None
) -> Plan:
    """Return a plan with nothing but numbers: forces at both ends in each state, (2, s, 3); joints counted or named."""
    names = ("joint",) * joints if isinstance(joints, int) else joints
    first = force[:, 0] if alone is None else alone
    return Plan(
        concept="single axial" if joints else "no take-up",
        near=near,
        far=far,
        takeups=tuple(map(NamedJoint, names)),  # type: ignore[arg-type]  # only counted and named
        price_indices=(None,) * len(names),
        guides=0,
        cost=cost,
        forces=force,
        alone=first,
        words="",
    )


def stronger(ground: Ground, times: float) -> Ground:
    """Return a ground whose every place carries more, or less."""
    lines = []
    for line in ground.study.lines:
        start, end = (
            replace(end, can_carry=None if end.can_carry is None else end.can_carry * times)
            for end in (line.start, line.end)
        )
        lines.append(replace(line, start=start, end=end))
    study = replace(ground.study, lines=tuple(lines))
    return ground_with(study, ground.prices, ground.names).with_places(
        lambda place: place if place.fixed else replace(place, can_carry=place.can_carry * times)
    )


def resultants(force: Floats) -> Floats:
    """Return the sizes of vectors along the last axis."""
    return np.asarray(np.linalg.norm(force, axis=-1))
