"""Benches for the tests of the desk's quick answers, and how a look is asked for.     (tests/unit/desk/benches.py)"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from takeup.choose import resolve
from takeup.desk.interface import ByHand, LookAsked, Moved, Scenario
from takeup.desk.seen.bench import Bench, bench_of
from takeup.line.reading.reader import study_from_text

EXAMPLES = Path(__file__).parents[3] / "examples"
KETTERBY = "ketterby-steam-main"


@cache
def bench(name: str = KETTERBY) -> Bench:
    """Return an example on the bench, one for all tests of a process."""
    return of_text((EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8"), str(EXAMPLES / f"{name}.yaml"))


def of_text(text: str, file: str = "x.yaml") -> Bench:
    """Return a text on the bench, revision 7."""
    read = study_from_text(text, file)
    return bench_of(read, resolve(read), 7)


def asked(
    *,
    step: int | None = None,
    hand: tuple[float, float] | None = None,
    scenario: Scenario = "no friction",
    moved: tuple[str, float] | None = None,
    exaggeration: float = 0.0,
) -> LookAsked:
    """Return a look asked for; by hand: pressure [bar] and temperature [degC]; moved: id and station [m]."""
    return LookAsked(
        number=5,
        revision=7,
        scene="",
        step=step,
        by_hand=None if hand is None else ByHand(pressure_bar=hand[0], temperature_c=hand[1]),
        scenario=scenario,
        moved=None if moved is None else Moved(id=moved[0], station_m=moved[1]),
        exaggeration=exaggeration,
    )


def step_of(one: Bench, state: str, scenario: Scenario = "no friction") -> int:
    """Return the step that reaches a state."""
    return next(row["step"] for row in one.walk(scenario)["steps"] if row["state"] == state and row["arrived"])
