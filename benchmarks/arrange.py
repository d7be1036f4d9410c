"""Proposals for a long line: plans of all spans, paths over two hundred places, ten best verified.

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.arrange [--search-only]     (benchmarks/arrange.py)

First the bare search: 200 places, of each of its spans up to eight places long three plans with forces drawn at random
from a fixed seed; the web and its first ten paths. Aim: 50 ms. Then a line of 1 km with 20 bends and 200 places: its
plans, and its ten best with their studies, stopped after `LIMIT` seconds. Aim: 10 s.

Each time is of one run on one machine; the search's is the best of five.
"""

from __future__ import annotations

import itertools
import math
import sys
import time
from dataclasses import dataclass

import numpy as np

from takeup.choose.arrange.ground import ground_of
from takeup.choose.arrange.hands import hands_for
from takeup.choose.arrange.price_file import demonstration_prices
from takeup.choose.arrange.prices import Prices
from takeup.choose.arrange.propose import Hunt, hunt_of, propose
from takeup.choose.arrange.records import Place, Plan
from takeup.choose.arrange.search import paths_in_order, web_of
from takeup.line.reading.reader import study_from_text

PLACES, NEXT, EACH, BEST, SEED, LIMIT = 200, 8, 3, 10, 7, 120.0
LEGS, LEG = 21, 48


def random_plans() -> tuple[tuple[Place, ...], tuple[Plan, ...]]:
    """Return two hundred places, and plans between near ones."""
    chance = np.random.default_rng(SEED)
    places = tuple(
        Place(
            name=f"place {number}",
            line="L-1",
            station=5.0 * number,
            fixed=number in (0, PLACES - 1),
            held=True,
            can_carry=float(chance.uniform(2e4, 8e4)),
            can_carry_moment=None,
        )
        for number in range(PLACES)
    )
    plans = []
    for near in range(PLACES - 1):
        for far, number in itertools.product(range(near + 1, min(near + NEXT, PLACES - 1) + 1), range(EACH)):
            forces = chance.normal(0.0, 1e4, (2, 12, 3))
            plans.append(
                Plan(
                    concept="no take-up",
                    near=near,
                    far=far,
                    takeups=(),
                    price_indices=(),
                    guides=0,
                    cost=float(chance.uniform(20.0, 60.0)) * math.sqrt(far - near) + number,
                    forces=forces,
                    alone=forces[:, 0],
                    words="",
                )
            )
    return places, tuple(plans)


def search(places: tuple[Place, ...], plans: tuple[Plan, ...], prices: Prices) -> None:
    """Print how long the web and the first ten paths take."""
    times = []
    for _ in range(5):
        begin = time.perf_counter()
        web = web_of(places, plans, prices)
        middle = time.perf_counter()
        found = list(itertools.islice(paths_in_order(web), BEST))
        times.append((time.perf_counter() - begin, middle - begin))
    whole, built = min(times)
    print(
        f"bare search, {len(places)} places, {len(plans)} plans: web {built * 1e3:.0f} ms, with the {len(found)} best "
        f"paths {whole * 1e3:.0f} ms (aim 50 ms)"
    )


def long_text(count: int = LEGS) -> str:
    """Return a line of a kilometre with twenty bends, in steps to the east and the north."""
    legs = [f"{LEG} m {'east' if number % 2 == 0 else 'north'}" for number in range(count)]
    route = ["{ start: west end, at: [0 m, 0 m, 4 m], as: main anchor, can_carry: 120 kN }"]
    route += [f"{{ go: {leg} }}" for leg in legs[:-1]]
    route.append(f"{{ go: {legs[-1]}, to: east end, as: main anchor, can_carry: 120 kN }}")
    corners = [number * LEG for number in range(1, count)]
    stations = [5.0 * number for number in range(1, PLACES + 1) if 5.0 * number < count * LEG]
    stations = [place for place in stations if min(abs(place - corner) for corner in corners) > 1.0]
    stress = '{ value: 118 MPa, source: "invented for a benchmark" }'
    return "\n".join(
        [
            "takeup: 1",
            "project: invented line of a benchmark",
            "document: { number: B-8, revision: A, date: 2026-06-15 }",
            "basis: { code: ASME B31.1, edition: 2020 }",
            "site: { installation: 12 °C, coldest: 0 °C, hottest: 35 °C }",
            'design: { pressure: 6 bar(g), temperature: 95 °C, vacuum: "not possible, because it is kept full" }',
            "operating: { pressure: 5 bar(g), temperature: 85 °C }",
            "test: { pressure: 9 bar(g), with: water, temperature: 12 °C }",
            "cycles: [ { from: cold, to: operating, count: 1000 } ]",
            f"allowable: {{ cold_stress: {stress}, hot_stress: {stress} }}",
            "lines:",
            "  - name: B-1",
            "    medium: water",
            "    pipe: { size: DN 100, wall: 6.02 mm, material: ASTM A106 B, bends: long radius }",
            "    insulation: { thickness: 50 mm, kind: mineral wool }",
            "    route:",
            *(f"      - {item}" for item in route),
            "    holds:",
            "      - { kind: slide guide, by: spacing rule, slides_on: PTFE on steel }",
            "      - { kind: rest, by: support spans, slides_on: PTFE on steel }",
            "    may_hold:",
            *(f"      - {{ at: {station:g} m, can_carry: {{ force: 40 kN }} }}" for station in stations),
            "    loop_room: [ { towards: south, depth: 3 m } ]",
            "    takeups_from: [ demonstration series ]",
            "",
        ]
    )


@dataclass
class Clock:
    """Stops a search that has gone on for long enough.

    Args:
        begun: when it began [s].
    """

    begun: float

    def __call__(self, hunt: Hunt, _words: str) -> None:
        """Let the search end after this study where its time is over."""
        if time.perf_counter() - self.begun > LIMIT:
            hunt.most = hunt.studies


def main() -> None:
    """Print the times."""
    prices = demonstration_prices()
    search(*random_plans(), prices)
    if "--search-only" in sys.argv:
        return
    begin = time.perf_counter()
    ground = ground_of(study_from_text(long_text(), "long.yaml"), prices)
    with hands_for(ground) as hands:
        hunt = hunt_of(ground, hands)
        planned = time.perf_counter() - begin
        print(
            f"1 km, 20 bends, {len(ground.places)} places: {len(hunt.plans)} plans of all spans in {planned:.1f} s "
            f"by {hands.count if hands else 1} processes"
        )
        search(ground.places, hunt.plans, prices)
        begin = time.perf_counter()
        propose(hunt, BEST, progress=Clock(begun=begin))
        proved = time.perf_counter() - begin
    print(
        f"{len(hunt.proposals)} proposals after {hunt.studies} studies in {proved:.1f} s"
        f"{', more not tried' if hunt.exhausted else ''}; with the plans {planned + proved:.1f} s (aim 10 s)"
    )


if __name__ == "__main__":
    main()
