"""A bare line so short that a search of it takes seconds, and what came of it; every number is invented."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from takeup.choose.arrange.ground import ground_of
from takeup.choose.arrange.outcome import Outcome, outcome_of
from takeup.choose.arrange.price_file import demonstration_prices
from takeup.choose.arrange.propose import Hunt, hunt_of
from takeup.line.reading.reader import read_study

BARE = """\
takeup: 1
project: Sorrel Yard laundry
document: { number: B-01, revision: A, date: 2026-06-15 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: 12 °C, coldest: 0 °C, hottest: 35 °C }
design: { pressure: 6 bar(g), temperature: 95 °C, vacuum: "not possible, because the pumps keep the main full" }
operating: { pressure: 5 bar(g), temperature: 85 °C }
test: { pressure: 9 bar(g), with: water, temperature: 12 °C }
cycles: [ { from: cold, to: operating, count: 1000 } ]
allowable:
  cold_stress: { value: 118 MPa, source: invented }
  hot_stress: { value: 118 MPa, source: invented }
  yield_strength: { value: 205 MPa, source: invented }
lines:
  - name: HW-1
    medium: water
    pipe: { size: DN 100, wall: 6.02 mm, material: ASTM A106 B }
    insulation: { thickness: 50 mm, kind: mineral wool }
    route:
      - { start: boiler, at: [0 m, 0 m, 3 m], as: main anchor, can_carry: 30 kN }
      - { go: 12 m east, to: bath, as: main anchor, can_carry: 30 kN }
    holds:
      - { kind: slide guide, by: spacing rule, slides_on: PTFE on steel }
      - { kind: rest, by: support spans, slides_on: PTFE on steel }
    may_hold: [ { at: 6 m, can_carry: { force: 25 kN } } ]
    loop_room: [ { towards: north, depth: 2 m } ]
    takeups_from: [ demonstration series ]
"""
WEAK = BARE.replace("can_carry: 30 kN", "can_carry: 0.5 kN").replace(
    "    loop_room: [ { towards: north, depth: 2 m } ]\n", ""
)


def hunt_for(text: str, folder: Path) -> Hunt:
    """Return a search with nothing proved yet, of a line file that is written into a folder."""
    path = folder / "bare.yaml"
    path.write_text(text, encoding="utf-8")
    return hunt_of(ground_of(read_study(path), demonstration_prices()))


@cache
def three() -> Outcome:
    """Return the three cheapest of the bare line, with the front."""
    with tempfile.TemporaryDirectory() as folder:
        return outcome_of(hunt_for(BARE, Path(folder)), 3)


@cache
def nothing() -> Outcome:
    """Return what comes of a line whose ends are too weak for anything, with what would have to give."""
    with tempfile.TemporaryDirectory() as folder:
        return outcome_of(hunt_for(WEAK, Path(folder)), 3)
