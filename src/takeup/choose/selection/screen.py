"""All joints of a series asked at once whether they fit a place.     (choose/selection/screen.py)

The criteria, in the order in which the first reason is told: kind, size, room, rods round the pipe, temperature,
pressure at that temperature, test pressure, vacuum, cycles, movement. Each is a demand against a capacity, an array
of one value a joint; arrays of no state are longer than the states are many, so that ten thousand joints cost a few
milliseconds. Movement is the sum of uses that the check of joint movement forms (checks/joint_movement.py), with the
movements that the place says and what is left of the ratings over the cycles (joints/tables/derate.py).
Limits: the movements are those of the place, not of a line with this joint in it; only its own study proves a joint.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from takeup.checks.joint_movement import HELD, UNSEEN_ANGULAR, UNSEEN_AXIAL, UNSEEN_LATERAL
from takeup.choose.selection.place import Floats, Place
from takeup.joints import KINDS
from takeup.joints.tables import SeriesTable
from takeup.joints.tables.derate import HOW, hottest_rated, movement_share, pressure_left

ROUNDING = 1e-9  # a demand that equals its capacity to rounding is full, not over (checks/outcome.py)
NEAR = 1.05
"""A use of movement up to here may still prove good in the line's own study, where the joint moves as itself."""
_MM, _BAR = 1e3, 1e-5  # for people


@dataclass(frozen=True, kw_only=True, slots=True)
class Criterion:
    """One question to every joint, n of them.

    Args:
        name: as the document calls it.
        demand: (n,).
        capacity: (n,), NaN where a table does not say.
        unit: of both; "" for a plain number.
        words: of what fails, with places for {demand} and {capacity}.
    """

    name: str
    demand: Floats
    capacity: Floats
    unit: str
    words: str

    @property
    def use(self) -> Floats:
        """Demand over capacity, (n,); 0 where nothing is asked, infinite of no capacity, NaN where nobody says."""
        with np.errstate(divide="ignore", invalid="ignore"):
            quotient = np.where(self.capacity > 0.0, self.demand / self.capacity, np.inf)
        quotient = np.where(np.isnan(self.capacity), np.nan, quotient)
        return np.where(self.demand <= 0.0, 0.0, quotient)

    def said(self, row: int) -> str:
        """Return why a joint does not fit, with the numbers."""
        demand, capacity = float(self.demand[row]), float(self.capacity[row])
        if np.isnan(capacity):
            return f"{self.name}: {_asked(self.words, demand)}; its table does not say what it can take"
        return f"{self.name}: {self.words.format(demand=demand, capacity=capacity)}"


def _of(value: float) -> str:
    return "none rated" if np.isnan(value) else f"{value:.1f}"


def _asked(words: str, demand: float) -> str:
    return words.partition(", ")[0].format(demand=demand, capacity=float("nan"))


@dataclass(frozen=True, kw_only=True, slots=True)
class Screened:
    """What the screen found of n joints.

    Args:
        place: that asked.
        table: of the joints.
        criteria: in order.
        uses: of each criterion, (c, n); NaN where a table does not say.
        first: number of the first criterion that a joint does not stand, (n,); c where it stands all.
        movement: sum of uses in the worst state, (n,).
        worst_state: which state that is, (n,).
        share: of the rated movements that is left over the cycles wanted, (n,).
        how: number of the way in which it was found, into `derate.HOW`, (n,).
        pressure: rated, at the hottest temperature [Pa], (n,).
    """

    place: Place
    table: SeriesTable
    criteria: tuple[Criterion, ...]
    uses: Floats
    first: NDArray[np.intp]
    movement: Floats
    worst_state: NDArray[np.intp]
    share: Floats
    how: NDArray[np.int8]
    pressure: Floats

    @property
    def fits(self) -> NDArray[np.bool_]:
        """Which joints stand every question, (n,)."""
        return np.asarray(self.first == len(self.criteria))

    @property
    def may_fit(self) -> NDArray[np.bool_]:
        """Which joints stand every question, movement up to `NEAR`, (n,)."""
        most = np.array([NEAR if one.name == "movement" else 1.0 for one in self.criteria])
        return np.asarray((self.uses <= most[:, None] + ROUNDING).all(axis=0))

    def first_failed(self, row: int) -> int | None:
        """Return the number of the first criterion that a joint does not stand; None where it stands all."""
        number = int(self.first[row])
        return number if number < len(self.criteria) else None

    def because(self, row: int) -> str:
        """Return the first reason why a joint does not fit; "" where it does."""
        number = self.first_failed(row)
        if number is None:
            return ""
        criterion = self.criteria[number]
        return self._moved(row) if criterion.name == "movement" else criterion.said(row)

    def nearness(self, row: int) -> tuple[int, float]:
        """Return by which criterion a joint fails first, and how far, to put the nearest first."""
        number = self.first_failed(row)
        if number is None:
            return len(self.criteria), 0.0
        use = float(self.uses[number, row])
        return number, np.inf if np.isnan(use) else use

    def _moved(self, row: int) -> str:
        """Return which movements in which state are too much, each of what is left of its rating."""
        own, state, share = self.table.numbers, int(self.worst_state[row]), float(self.share[row])
        axial = float(self.place.axial[state]) + self.place.preset
        room = own["axial_extension" if axial > 0.0 else "axial_compression"][row]
        aside = float(self.place.lateral[state]) + self.place.misalignment[0]
        askew = float(self.place.angular[state]) + self.place.misalignment[1]
        parts = (
            f"axial {axial * _MM:+.1f} mm of {_of(room * share * _MM)}",
            f"lateral {aside * _MM:.1f} mm of {_of(own['lateral'][row] * share * _MM)}",
            f"angular {np.degrees(askew):.2f} deg of {_of(np.degrees(own['angular'][row]) * share)}",
        )
        kept = "" if share == 1.0 else f", of ratings kept to {share:.3f} over the cycles, {self.how_words(row)}"
        return f"movement: in {self.place.states[state]} {', '.join(parts)}: {self.movement[row]:.3f} of 1{kept}"

    def how_words(self, row: int) -> str:
        """Return how its movement over the cycles wanted was found."""
        return HOW[self.how[row]]


def screen(place: Place, table: SeriesTable) -> Screened:
    """Return what each joint of a series says to a place.

    Args:
        place: what is asked, in s states.
        table: n joints.
    """
    own, count = table.numbers, len(table)
    left = pressure_left(table, place.hottest)
    before = _before_movement(place, table, left)
    alive = np.flatnonzero(np.all([one.use <= 1.0 + ROUNDING for one in before], axis=0))
    share, how = np.ones(count), np.zeros(count, dtype=np.int8)
    share[alive], how[alive] = movement_share(table, place.cycles, alive)
    movement, state = np.full(count, np.nan), np.zeros(count, dtype=np.intp)
    movement[alive], state[alive] = movement_use(place, table, alive, share[alive])
    dead = np.setdiff1d(np.arange(count), alive)
    movement[dead] = 0.0  # they have a reason already
    cycles = np.full(count, 0.0 if place.cycles is None else 1.0)
    known = Criterion(
        name="cycles",
        demand=cycles,
        capacity=np.where(np.isnan(own["rated_cycles"]) & (cycles > 0.0), np.nan, 1.0),
        unit="",
        words="cycles are asked for, and none are rated",
    )
    moved = Criterion(
        name="movement",
        demand=movement,
        capacity=np.where(np.isnan(movement), np.nan, 1.0),
        unit="sum of uses",
        words="axial, lateral and angular movement together use {demand:.3f} of its ratings, over 1",
    )
    criteria = (*before, known, moved)
    uses = np.stack([one.use for one in criteria])
    stands = uses <= 1.0 + ROUNDING
    return Screened(
        place=place,
        table=table,
        criteria=criteria,
        uses=uses,
        first=np.where(stands.all(axis=0), len(criteria), stands.argmin(axis=0)),
        movement=movement,
        worst_state=state,
        share=share,
        how=how,
        pressure=left,
    )


def _before_movement(place: Place, table: SeriesTable, left: Floats) -> tuple[Criterion, ...]:
    """Return every criterion that asks of no state by state."""
    own, count = table.numbers, len(table)
    service = place.pressure[~place.tests]
    test = float(place.pressure[place.tests].max()) if place.tests.any() else 0.0
    high, low = float(service.max()), float(service.min())
    allowed = dict.fromkeys(place.kinds or table.kinds)
    right_kind = np.array([kind in allowed for kind in table.kinds])
    right_size = np.ones(count, dtype=bool) if place.size_dn is None else table.of_size(place.size_dn)
    outside = place.outside_diameter or 0.0

    def whole(name: str, demand: float, capacity: Floats, unit: str, words: str) -> Criterion:
        return Criterion(name=name, demand=np.full(count, demand), capacity=capacity, unit=unit, words=words)

    def yes(name: str, right: NDArray[np.bool_], words: str) -> Criterion:
        return whole(name, 1.0, np.where(right, 1.0, 0.0), "", words)

    return (
        yes("kind", right_kind, f"its kind is not asked for here, only {' or '.join(allowed)}"),
        yes("size", right_size, f"its size is not that of the pipe, {place.size}"),
        Criterion(
            name="room",
            demand=own["length"] * _MM,
            capacity=np.full(count, place.room * _MM),
            unit="mm",
            words="it is {demand:.5g} mm long, and there is room for {capacity:.5g} mm",
        ),
        whole("rods", outside * _MM, table.clear * _MM, "mm",
              "its rods or plates leave {capacity:.5g} mm for a pipe of {demand:.5g}"),
        _temperature(place, table),
        whole("pressure", high * _BAR, left * _BAR, "bar", f"{{demand:.5g}} bar at {place.hottest:.4g} °C, of "
              "{capacity:.5g} bar that it is rated for there"),
        whole("test pressure", test * _BAR, own["test_pressure"] * _BAR, "bar",
              "{demand:.5g} bar in the test, of {capacity:.5g} bar"),
        whole("vacuum", max(0.0, -low) * _BAR, np.maximum(-own["minimum_pressure"], 0.0) * _BAR, "bar",
              "{demand:.5g} bar below the atmosphere, of {capacity:.5g} bar"),
    )  # fmt: skip


def _temperature(place: Place, table: SeriesTable) -> Criterion:
    """Return the temperature against the highest that a joint is rated for, by its derating where it has one."""
    return Criterion(
        name="temperature",
        demand=np.full(len(table), place.hottest),
        capacity=hottest_rated(table),
        unit="degC",
        words="{demand:.4g} °C at the joint, rated to {capacity:.4g} °C",
    )


def movement_use(
    place: Place, table: SeriesTable, rows: NDArray[np.intp], share: Floats
) -> tuple[Floats, NDArray[np.intp]]:
    """Return the sum of uses of movement of some joints in their worst state, and which state that is.

        u = |x|/X + y/Y + theta/Theta   each over its rating times the share  (checks/joint_movement.py)

    The little that pins leave of what they hold needs no rating.

    Args:
        place: what is asked.
        table: of joints.
        rows: which, (k,).
        share: of the rated movements that is left, (k,).

    Returns:
        u (k,), infinite where a joint is rated for no such movement, NaN where no rating is known; states (k,).
    """
    own = {name: table.numbers[name][rows] for name in ("axial_compression", "axial_extension", "lateral", "angular")}
    axial = place.axial + place.preset
    aside, askew = place.lateral + place.misalignment[0], place.angular + place.misalignment[1]
    held = held_by_pins(table)[rows]
    total = np.zeros((len(axial), len(rows)))
    with np.errstate(divide="ignore", invalid="ignore"):
        for number in range(len(axial)):
            room = own["axial_extension"] if axial[number] > 0.0 else own["axial_compression"]
            total[number] = _use(abs(axial[number]), room * share, np.maximum(held, UNSEEN_AXIAL))
            total[number] += _use(aside[number], own["lateral"] * share, np.maximum(held, UNSEEN_LATERAL))
            total[number] += _use(askew[number], own["angular"] * share, UNSEEN_ANGULAR)
    total = np.where(np.isnan(share), np.nan, total)
    worst = np.where(np.isnan(total), np.inf, total).argmax(axis=0)
    return np.asarray(total[worst, np.arange(len(rows))]), worst


def held_by_pins(table: SeriesTable) -> Floats:
    """Return how far the bellows of each joint may move in a way that its pins hold, (n,) [m]; 0 where it has none."""
    pinned = np.array([KINDS[kind].pins != "none" for kind in table.kinds])
    count = np.array([KINDS[kind].bellows for kind in table.kinds])
    return np.where(pinned, HELD * table.numbers["live_length"] * count, 0.0)


def _use(moved: float, rating: Floats, unseen: Floats | float) -> Floats:
    """Return movement over rating; what is not seen needs none, and without any rating it is too much."""
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(rating > 0.0, moved / rating, np.where(moved <= unseen, 0.0, np.inf))


__all__ = ["NEAR", "ROUNDING", "Criterion", "Screened", "held_by_pins", "movement_use", "screen"]
