"""The line file that `takeup new` writes.     (line/reading/template.py)

One invented line of two legs, in SI or in US units: main anchors at both ends and at the bend, where the thrust
turns, and one joint in each leg beside an anchor. Its joint data are invented too, and the file says so.
"""

from __future__ import annotations

from string import Template
from typing import Literal

UnitSystem = Literal["si", "us"]

_QUANTITIES: dict[UnitSystem, dict[str, str]] = {
    "si": {
        "units": "m, mm, kN, bar(g), °C; also ft, in, lbf, psi(g), °F",
        "cold": "15 °C",
        "coldest": "-5 °C",
        "hottest": "35 °C",
        "design": "10 bar(g), temperature: 190 °C",
        "operating": "8 bar(g), temperature: 175 °C",
        "test": "15 bar(g)",
        "vacuum": "-0.5 bar(g)",
        "stress": "200 MPa",
        "size": "DN 150, schedule: 40",
        "insulation": "60 mm",
        "start": "[0 m, 0 m, 5 m]",
        "end_carries": "80 kN",
        "corner_carries": "120 kN",
        "first_leg": "40 m",
        "second_leg": "24 m",
        "joint_on": "1.1 m",
        "axial_rate": "120 N/mm",
        "effective_area": "285 cm2",
        "length": "1000 mm",
        "live_length": "500 mm",
        "weight": "95 kg",
        "compression": "120 mm",
        "extension": "30 mm",
        "lateral": "5 mm",
        "torque": "2 kN·m",
        "pressure": "16 bar(g)",
        "test_pressure": "24 bar(g)",
        "minimum_pressure": "0 bar(a)",
        "temperature": "300 °C",
    },
    "us": {
        "units": "ft, in, lbf, psi(g), °F; also m, mm, kN, bar(g), °C",
        "cold": "60 °F",
        "coldest": "20 °F",
        "hottest": "95 °F",
        "design": "150 psi(g), temperature: 375 °F",
        "operating": "120 psi(g), temperature: 350 °F",
        "test": "225 psi(g)",
        "vacuum": "-7 psi(g)",
        "stress": "29 ksi",
        "size": "NPS 6, schedule: 40",
        "insulation": "2.5 in",
        "start": "[0 ft, 0 ft, 16 ft]",
        "end_carries": "18 kip",
        "corner_carries": "27 kip",
        "first_leg": "130 ft",
        "second_leg": "80 ft",
        "joint_on": "3 ft 9 in",
        "axial_rate": "700 lbf/in",
        "effective_area": "44 in2",
        "length": "40 in",
        "live_length": "20 in",
        "weight": "210 lb",
        "compression": "5 in",
        "extension": "1.2 in",
        "lateral": "0.2 in",
        "torque": "1500 ft·lbf",
        "pressure": "230 psi(g)",
        "test_pressure": "345 psi(g)",
        "minimum_pressure": "0 psi(a)",
        "temperature": "570 °F",
    },
}

_JOINT = """\
      - name: $name
        kind: externally pressurised
        at: $place + $joint_on         # the middle of the joint
        data:
          axial_rate: $axial_rate
          effective_area: $effective_area
          length: $length
          live_length: $live_length
          weight: $weight
          axial_compression: $compression
          axial_extension: $extension
          lateral: $lateral
          angular: 1 deg
          torque: $torque
          pressure: $pressure
          test_pressure: $test_pressure
          minimum_pressure: $minimum_pressure
          temperature: $temperature
          rated_cycles: 2000
          source: invented for this template; put in the maker's certified data
"""

_FILE = """\
# A line file. Replace what stands here; every name and number is invented.
# Each quantity has its unit: $units.
# A text that holds a comma, a colon or a # stands in quotation marks.
takeup: 1                                   # version of this file format
project: Name of the plant and of the line
document: { number: N-01, revision: A, date: 2026-01-01 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: $cold, coldest: $coldest, hottest: $hottest }

# vacuum: possible (full vacuum), a pressure such as $vacuum, or "not possible, because <reason>"
design: { pressure: $design, vacuum: possible }
operating: { pressure: $operating }
test: { pressure: $test, with: water, temperature: $cold }
cycles:
  - { from: cold, to: operating, count: 2000 }

# Limits of the material: put in your own numbers. Without them the checks that need them are not made.
# allowable:
#   expansion_stress_range: { value: $stress, source: "code, edition, table" }
#   cold_stress: { value: $stress, source: "code, edition, table, at installation temperature" }
#   hot_stress: { value: $stress, source: "code, edition, table, at design temperature" }
#   yield_strength: { value: $stress, source: "standard, table" }

# States of the default order can be left out, with a reason that is printed.
# states:
#   drop:
#     - { state: cooling under vacuum, because: a vacuum breaker opens at both ends }

lines:
  - name: L-1
    medium: steam                           # or water, condensate, air, nitrogen
    pipe: { size: $size, material: ASTM A106 B, bends: long radius }
    insulation: { thickness: $insulation, kind: mineral wool }      # or: insulation: none

    # From the start, leg by leg, between intersections of centre lines: east, north and up are x, y and z.
    route:
      - { start: supply header, at: $start, as: main anchor, can_carry: $end_carries }
      - { go: $first_leg east, to: corner post }
      - { go: $second_leg north, to: user header, as: main anchor, can_carry: $end_carries }

    # at: a name, a name plus or minus a length, or a length from the start; or by: a rule that places them.
    holds:
      - { kind: main anchor, at: corner post, on_bend: crown, name: corner anchor, can_carry: $corner_carries }
      - { kind: slide guide, by: spacing rule, slides_on: PTFE on steel }
      - { kind: rest, by: support spans, slides_on: steel on steel }

    # One joint between each two anchors, close to one of them.
    takeups:
"""


def template(units: UnitSystem = "si") -> str:
    """Return the text of a line file to start from.

    Args:
        units: the units that its quantities are written in.
    """
    quantities = _QUANTITIES[units]
    joints = [
        Template(_JOINT).substitute(quantities, name=name, place=place)
        for name, place in (("J1", "supply header"), ("J2", "corner post"))
    ]
    return Template(_FILE).substitute(quantities) + "".join(joints)
