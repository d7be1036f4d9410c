"""A system of three lines that meet at branches, as text and as results.     (tests/unit/drawing/system_fixture.py)

It holds one of everything that a drawing has a sign for. Every name and number in it is invented.
"""

from __future__ import annotations

import copy
from functools import cache

from tests.shared import once

from takeup.choose import resolve
from takeup.line.reading.reader import study_from_text
from takeup.results import results_of

_INVENTED = "invented for a test"
_DATA = (
    "axial_rate: 95 N/mm, effective_area: 46000 mm2, length: 1.1 m, live_length: 0.6 m, weight: 1.9 kN, "
    "axial_compression: 140 mm, axial_extension: 20 mm, lateral: 5 mm, angular: 1 deg, pressure: 16 bar(g), "
    "test_pressure: 24 bar(g), minimum_pressure: -1.01325 bar(g), temperature: 300 °C, rated_cycles: 2000, "
    "source: invented for a test"
)
_SMALL = _DATA.replace("46000", "13000").replace("length: 1.1 m", "length: 0.8 m")
_SPRING = "{ rate: 40 N/mm, cold_load: 2.2 kN, least_load: 1 kN, most_load: 4 kN, source: invented for a test }"
SYSTEM = f"""\
takeup: 1
project: Tarnwick dairy steam system
document: {{ number: T-12, revision: B, date: 2026-03-04 }}
basis: {{ code: ASME B31.1, edition: 2020 }}
site: {{ installation: 12 °C, coldest: -8 °C, hottest: 35 °C }}
design: {{ pressure: 12 bar(g), temperature: 195 °C, vacuum: possible }}
operating: {{ pressure: 10 bar(g), temperature: 184.5 °C }}
test: {{ pressure: 18 bar(g), with: water, temperature: 12 °C }}
cycles:
  - {{ from: cold, to: operating, count: 1000 }}
allowable:
  expansion_stress_range: {{ value: 155 MPa, source: invented for a test }}
  yield_strength: {{ value: 205 MPa, source: invented for a test }}
states:
  add:
    - {{ name: churn branch shut, like: operating, closed: churn valve, loads: gust }}
loads:
  - {{ name: gust, on: DS-1, from: 60 m, to: 80 m, force_per_length: [0 N/m, 90 N/m, 0 N/m], acts: occasional,
      source: invented for a test }}
lines:
  - name: DS-1
    medium: steam
    pipe: {{ size: DN 200, wall: 8.18 mm, material: ASTM A106 B }}
    insulation: {{ thickness: 80 mm, kind: mineral wool, cladding: {{ kind: aluminium, thickness: 0.8 mm }} }}
    route:
      - {{ start: boiler header, at: [0 m, 0 m, 4.5 m], as: main anchor, can_carry: 120 kN }}
      - {{ go: 3 m east }}
      - {{ flange: header flange, length: 0.3 m, weight: 0.6 kN }}
      - {{ go: 66.7 m east, to: yard corner }}
      - {{ go: 12 m north, to: dairy corner }}
      - {{ go: 20 m east }}
      - {{ reducer: size change, length: 0.4 m, weight: 0.3 kN, to_pipe: {{ size: DN 150, wall: 7.11 mm }} }}
      - {{ go: 16 m east }}
      - {{ item: end strainer, length: 0.6 m, weight: 0.9 kN, stiffer: 3 }}
      - {{ go: 3 m east, to: dairy header, as: main anchor, can_carry: 120 kN,
          stiffness: {{ force: [80 kN/mm, rigid, rigid], moment: [rigid, rigid, rigid], source: {_INVENTED} }} }}
    holds:
      - {{ kind: main anchor, name: yard anchor, at: yard corner - 4 m, can_carry: 120 kN }}
      - {{ kind: main anchor, name: dairy anchor, at: dairy corner + 4 m, can_carry: 120 kN }}
      - {{ kind: slide guide, by: spacing rule, slides_on: PTFE on steel }}
      - {{ kind: rest, by: support spans, slides_on: PTFE on steel }}
    takeups:
      - {{ name: J1, kind: externally pressurised, at: 5 m, data: {{ {_DATA} }} }}
      - {{ name: J2, kind: single axial, at: dairy corner + 6 m, data: {{ {_DATA} }} }}
  - name: DS-2
    medium: steam
    pipe: {{ size: DN 100, wall: 6.02 mm, material: ASTM A106 B }}
    insulation: {{ thickness: 60 mm, kind: mineral wool }}
    route:
      - {{ start: churn branch, as: branch, of: DS-1, at: 40 m, tee: reinforced fabricated tee, pad: 8 mm }}
      - {{ go: 2 m south }}
      - {{ valve: churn valve, length: 0.5 m, weight: 0.8 kN }}
      - {{ go: 7.5 m south, to: churn corner }}
      - {{ go: 9 m east, to: churn drop }}
      - {{ go: 2.5 m down, to: churn nozzle, as: equipment,
          growth: {{ movement: [0 mm, 0 mm, 6 mm], source: invented for a test }},
          nozzle: {{ force: [4 kN, 4 kN, 4 kN], moment: [3 kN·m, 3 kN·m, 3 kN·m], rule: each component,
                    source: invented for a test }} }}
    holds:
      - {{ kind: spring hanger, name: churn spring, at: churn corner - 2 m, spring: {_SPRING} }}
      - {{ kind: hanger, name: churn hanger, at: churn corner + 3 m }}
      - {{ kind: planar guide, name: churn plane, at: churn corner + 6 m, free_along: north, slides_on: PTFE on steel }}
  - name: DS-3
    medium: steam
    pipe: {{ size: DN 100, wall: 6.02 mm, material: ASTM A106 B }}
    insulation: none
    route:
      - {{ start: curd branch, as: branch, of: DS-1, at: dairy corner + 13 m, tee: welding tee }}
      - {{ go: 18 m north, to: curd corner }}
      - {{ go: 30 m west, to: old works boundary, as: continues }}
    holds:
      - {{ kind: directional anchor, name: curd line stop, at: curd corner - 5 m, can_carry: 30 kN, along: east }}
      - {{ kind: stop, name: curd stop, at: curd corner - 8 m, against: west, can_carry: 20 kN }}
      - {{ kind: intermediate anchor, name: curd anchor, at: curd corner + 4 m, can_carry: 60 kN }}
      - {{ kind: spider guide, at: [curd corner + 8 m, curd corner + 14 m, curd corner + 20 m], name: curd guide,
          slides_on: steel on steel }}
    takeups:
      - {{ name: J3, kind: single axial, at: curd corner + 6 m, data: {{ {_SMALL} }} }}
"""


@cache
def _results() -> dict:
    return once("tarnwick", lambda: results_of(resolve(study_from_text(SYSTEM, "tarnwick.yaml"))))


def system() -> dict:
    """The results of the three lines."""
    return copy.deepcopy(_results())
