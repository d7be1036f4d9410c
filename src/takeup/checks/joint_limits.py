"""Joint pressure, temperature and cycles against the joint's data.     (checks/joint_limits.py)

What: greatest pressure, test pressure, least pressure, temperature and cycle count, each against its rating. Why:
beyond them the maker certifies nothing. Source: the joint's data. Limits: only joints of a series are derated with
temperature. Passes: 12 bar(g) of 16. Fails: a test at 27 bar(g) on a joint tested to 24.
"""

from __future__ import annotations

from dataclasses import replace

from takeup.checks.outcome import CheckResult, Rule
from takeup.joints import JointData
from takeup.line import TakeUp
from takeup.study import JointMovement, LineAnswer
from takeup.units import to_bar

ATMOSPHERE = 101_325.0  # Pa, standard atmosphere (ISO 2533)

PRESSURE = Rule(
    name="joint_pressure",
    title="joint pressure",
    what="the greatest and least pressure at a joint in service, and in test, against its ratings",
    why="beyond its rating a bellows may squirm, bulge or burst",
    source="the joint's data",
    limits="no derating with temperature but of a joint from a series, by its table; squirm is judged by the rating, "
    "not computed",
)
TEMPERATURE = Rule(
    name="joint_temperature",
    title="joint temperature",
    what="the highest temperature at a joint against its rating",
    why="strength and rates are certified up to a temperature",
    source="the joint's data",
    limits="metal at the temperature of the medium; of a joint from a series against the highest that its derating "
    "reaches",
)
CYCLES = Rule(
    name="joint_cycles",
    title="joint cycles",
    what="all cycles asked for, added, against the rated cycles",
    why="every cycle at up to rated movement uses up life",
    source="the joint's data",
    limits="each cycle counted as one of full rated movement, on the safe side while the movement check passes; a "
    "joint from a series that is asked for more cycles than it is rated for has its rated movements kept to what is "
    "left over them, and the movement check holds it to that",
)


def check(answer: LineAnswer) -> list[CheckResult]:
    """Return pressure, test, vacuum, temperature and cycle checks of every joint."""
    takeups = {item.name: item for item in answer.line.takeups}
    results: list[CheckResult] = []
    for joint in answer.joints:
        takeup = takeups[joint.name]
        results += _pressures(answer, joint, takeup.data)
        results += [_temperature(answer, joint, takeup), _cycles(answer, joint, takeup)]
    return results


def _pressures(answer: LineAnswer, joint: JointMovement, data: JointData) -> list[CheckResult]:
    def row(number: int, limit: float | None, words: str) -> CheckResult:
        pressure = to_bar(abs(float(joint.pressure[number])))
        capacity = None if limit is None else to_bar(abs(limit))
        return PRESSURE.judge(
            joint.name,
            answer.states[number].name,
            pressure,
            capacity,
            "bar",
            because=words,
            status="" if limit is None else "user's data",
        )

    order = range(len(answer.states))
    service = [number for number in order if answer.states[number].kind != "test"]
    tests = [number for number in order if answer.states[number].kind == "test"]
    high = max(service, key=lambda number: float(joint.pressure[number]))
    low = min(service, key=lambda number: float(joint.pressure[number]))
    results = [row(high, data.pressure, "greatest pressure in service, gauge, at the joint's elevation")]
    if tests:
        words = "test pressure at the joint's elevation"
        if data.test_pressure is None:
            words += "; the joint's data give no test pressure"
        results.append(row(max(tests, key=lambda n: float(joint.pressure[n])), data.test_pressure, words))
    if joint.pressure[low] < 0.0:
        words = "vacuum: pressure below the atmosphere's"
        if data.minimum_pressure is None:
            words += "; the joint's data give no minimum pressure"
        limit = None if data.minimum_pressure is None else min(data.minimum_pressure, 0.0)
        results.append(_full_vacuum_is_enough(row(low, limit, words), data))
    return results


def _full_vacuum_is_enough(result: CheckResult, data: JointData) -> CheckResult:
    """A joint rated for full vacuum is not close to anything: no pressure is lower."""
    full = data.minimum_pressure is not None and data.minimum_pressure <= -ATMOSPHERE * (1.0 - 1e-3)
    return replace(result, outcome="passes") if full and result.outcome == "close" else result


def _temperature(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> CheckResult:
    name = answer.line.name
    hottest = max(answer.states, key=lambda state: state.at(name, joint.station).temperature)
    temperature = hottest.at(name, joint.station).temperature
    return TEMPERATURE.judge(
        joint.name,
        hottest.name,
        temperature,
        takeup.data.temperature,
        "degC",
        because=f"hottest state of the joint's zone{_by_derating(takeup, temperature)}",
        status="user's data",
    )


def _by_derating(takeup: TakeUp, temperature: float) -> str:
    """Return that a joint of a series is used above its rated temperature, in words; nothing where it is not."""
    rated = None if takeup.chosen is None else takeup.chosen.rated_temperature
    if rated is None or not rated < temperature <= takeup.data.temperature:
        return ""
    reaches = takeup.data.temperature
    return f"; by its derating, which reaches {reaches:.4g} °C, above its rated temperature, {rated:.4g} °C"


def _cycles(answer: LineAnswer, joint: JointMovement, takeup: TakeUp) -> CheckResult:
    data, cycles = takeup.data, answer.study.cycles
    count = sum(cycle.count for cycle in cycles)
    words = ", ".join(f"{cycle.count} from {cycle.start} to {cycle.end}" for cycle in cycles) or "no cycles stated"
    share = 1.0 if takeup.chosen is None else takeup.chosen.share
    if share < 1.0:
        words += f": movements are kept to {share:.3g} of the rated ones over the {count} cycles asked"
        found = CYCLES.result(joint.name, "all states", "passes", words, unit="cycles", status="user's data")
        return replace(found, demand=float(count))
    if data.rated_cycles is None:
        words += "; the joint's data give no rated cycles"
    return CYCLES.judge(
        joint.name, "all states", float(count), data.rated_cycles, "cycles", because=words, status="user's data"
    )
