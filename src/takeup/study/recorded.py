"""A plant's record, walked: what each hold and joint went through, and what happened.     (study/recorded.py)

The walk begins where the line was installed, goes to the first row of the record in a few steps, and then from row to
row. Temporary holds and locked hangers are not there; what the file does not say of the content is the line's medium.
Loads of the user's that stay act; others do not, since a record does not tell of them. Rates are nominal. Every row is
verified like a state: contacts within 1e-9.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from takeup.line import LIQUIDS, Line, Record, State, Study, content_density, states_of, zones_of
from takeup.line.states import FIRST, Content
from takeup.mechanics import Steps, walk_whole
from takeup.study.course import Course, course_of
from takeup.study.events import Occurrence, occurrences_of
from takeup.study.model import model_of
from takeup.study.records import NO_FRICTION
from takeup.study.run import totals_of
from takeup.study.scenarios import HIGH_FRICTION
from takeup.study.solve import Ready, ready_to_walk
from takeup.study.trace import axial_of_joints

Floats = NDArray[np.float64]
FROM_INSTALLED = 8  # steps from installation to the first row


@dataclass(frozen=True, kw_only=True, slots=True)
class RecordedEvent:
    """Something that changed during the record.

    Args:
        occurrence: what and where.
        time: when [s].
        pressure: gauge in its zone [Pa].
        temperature: in its zone [degC].
    """

    occurrence: Occurrence
    time: float
    pressure: float
    temperature: float


@dataclass(frozen=True, kw_only=True, slots=True)
class RecordWalk:
    """One walk through a record of t rows.

    Args:
        scenario: with which friction.
        holds: load of each hold on the structure along its own first axis, by name, (t,) [N].
        joints: movement of each joint along itself, by name, longer positive, (t,) [m].
        events: during the record; what happened on the way to its first row is not among them.
        error: worst of contact conditions and compatibility, over the largest of their kind.
        because: why there is no answer from some row on; empty where all rows have one.
    """

    scenario: str
    holds: dict[str, Floats]
    joints: dict[str, Floats]
    events: tuple[RecordedEvent, ...]
    error: float
    because: str


def walk_record(study: Study, record: Record) -> tuple[RecordWalk, ...] | tuple[str, ...]:
    """Return a record walked without friction and, where something rubs, at high friction.

    Args:
        study: its lines resolved.
        record: over the zones of this study.

    Returns:
        The walks, or why the lines are not held.
    """
    installed = next((state for state in states_of(study) if state.name == FIRST), states_of(study)[0])
    running = replace(installed, name="", locked=False)
    ready = ready_to_walk(study, model_of(study), (running,), giving=False)
    if not isinstance(ready, Ready):
        return ready.because
    course = _course(study, running, record)
    steps = Steps(
        amounts=ready.ground.causes.of(course), feet=ready.ground.contacts.feet(study, ready.ground.model, course)
    )
    frictions = [(NO_FRICTION, np.zeros(len(ready.ground.contacts.rubs)))]
    if ready.ground.contacts.rubs:
        frictions.append((HIGH_FRICTION, np.array([rub.high for rub in ready.ground.contacts.rubs])))
    return tuple(_walked(ready, record, course, steps, friction) for friction in frictions)


def _walked(ready: Ready, record: Record, course: Course, steps: Steps, friction: tuple[str, Floats]) -> RecordWalk:
    scenario, mu = friction
    found = walk_whole(ready.problem, steps, mu=mu, increments=True)
    ground, own = ready.ground, slice(FROM_INSTALLED, None)
    totals = totals_of(ground, course, found)[own]
    known = found.converged & found.held
    return RecordWalk(
        scenario=scenario,
        holds={hold.name: totals[:, row, :3] @ hold.axes[0] for row, hold in enumerate(ground.model.holds)},
        joints={name: axial[own] for name, axial in axial_of_joints(ground, found).items()},
        events=tuple(_event(record, item) for item in occurrences_of(ground, found) if item.step > FROM_INSTALLED),
        error=float(found.error[known].max(initial=0.0)),
        because="; ".join(found.because),
    )


def _event(record: Record, item: Occurrence) -> RecordedEvent:
    row = item.step - FROM_INSTALLED

    def between(values: Floats) -> float:
        return float(values[row - 1] + (values[row] - values[row - 1]) * item.fraction)

    return RecordedEvent(
        occurrence=item,
        time=between(record.times),
        pressure=between(record.pressures[:, item.zone]),
        temperature=between(record.temperatures[:, item.zone]),
    )


def _course(study: Study, installed: State, record: Record) -> Course:
    """Return the steps to the first row, and the rows, as a course."""
    lines = [study.line(zone.parts[0].line) for zone in zones_of(study).every]
    rows, start = _rows(lines, record), course_of((installed,))
    share = (np.arange(FROM_INSTALLED) / FROM_INSTALLED)[:, None]

    def joined(first: Floats, after: Floats) -> Floats:
        return np.concatenate([first * (1.0 - share) + after[:1] * share, after])

    count = FROM_INSTALLED + len(record.times)
    return Course(
        pressure=joined(start.pressure, rows.pressure),
        elevation=np.repeat(rows.elevation[:1], count, axis=0),
        temperature=joined(start.temperature, rows.temperature),
        density=joined(start.density, rows.density),
        has_head=np.concatenate([np.repeat(rows.has_head[:1], FROM_INSTALLED, axis=0), rows.has_head]),
        settled=np.concatenate([share[:, 0], rows.settled]),
        states=("",) * count,
        loads=((),) * count,
    )


def _rows(lines: list[Line], record: Record) -> Course:
    density, head = np.zeros(record.pressures.shape), np.zeros(record.pressures.shape, dtype=bool)
    for zone, line in enumerate(lines):
        contents = np.array([row[zone] or line.medium for row in record.contents])
        density[:, zone] = _densities(line, contents, record.pressures[:, zone], record.temperatures[:, zone])
        head[:, zone] = (record.pressures[:, zone] != 0.0) | np.isin(contents, LIQUIDS)
    count = len(record.times)
    return Course(
        pressure=record.pressures,
        elevation=np.tile([line.start_at[2] for line in lines], (count, 1)),
        temperature=record.temperatures,
        density=density,
        has_head=head,
        settled=np.ones(count),
        states=("",) * count,
        loads=((),) * count,
    )


def _densities(line: Line, contents: NDArray[np.str_], pressure: Floats, temperature: Floats) -> Floats:
    """Return the density of the content of one zone, (t,) [kg/m3]; each condition is looked up once."""
    typed = None if line.medium_density is None else line.medium_density.value
    known: dict[tuple[Content, float, float], float] = {}
    found = np.empty(len(pressure))
    for row, key in enumerate(zip(contents.tolist(), pressure.tolist(), temperature.tolist(), strict=True)):
        if key not in known:
            known[key] = content_density(*key, typed=typed)
        found[row] = known[key]
    return found
