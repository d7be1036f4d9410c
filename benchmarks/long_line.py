"""A main of two kilometres and all its papers: how long study and papers take, and how large they are.

    PYTHONPATH=src OPENBLAS_NUM_THREADS=1 python -m benchmarks.long_line [LEGS]     (benchmarks/long_line.py)

Ten legs of 190 m between offsets of 12 m, twenty joints, some 260 guides by the spacing rule. Every name and number is
invented. Study and papers of all ten legs take minutes, of one leg seconds. Times are of the processors.
"""

from __future__ import annotations

import sys
import time

_HEAD = """takeup: 1
project: Long Moor district steam main
document: { number: LM-21, revision: A, date: 2026-07-01 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: 12 °C, coldest: -8 °C, hottest: 35 °C }
design: { pressure: 12 bar(g), temperature: 195 °C, vacuum: possible }
operating: { pressure: 10 bar(g), temperature: 184.5 °C }
test: { pressure: 18 bar(g), with: water, temperature: 12 °C }
cycles: [ { from: cold, to: operating, count: 1000 } ]
allowable:
  expansion_stress_range: { value: 155 MPa, source: invented for this demonstration }
  hot_stress: { value: 118 MPa, source: invented for this demonstration }
  yield_strength: { value: 205 MPa, source: invented for this demonstration }
design_factors: { anchors: 1.35, guides: 1.5, source: invented for this demonstration }
"""
_LINE = """lines:
  - name: LM-1
    medium: steam
    pipe: { size: DN 200, wall: 8.18 mm, material: ASTM A106 B, bends: long radius }
    insulation: { thickness: 80 mm, kind: mineral wool }
"""
_DATA = (
    "axial_rate: 95 N/mm, effective_area: 46000 mm², length: 1.1 m, live_length: 0.62 m, weight: 1.9 kN, "
    "axial_compression: 240 mm, axial_extension: 25 mm, lateral: 5 mm, angular: 1 deg, pressure: 16 bar(g), "
    "test_pressure: 24 bar(g), minimum_pressure: 0 bar(a), temperature: 300 °C, rated_cycles: 2000, "
    "source: invented for this demonstration"
)
_LEG, _OFFSET, _CLEAR = 190.0, 12.0, 3.0
"""Length of a leg and of the offset behind it; how far an anchor stands from a corner [m]."""


def line_text(legs: int) -> str:
    """Return the line file of a main of so many legs, each in two spans with a joint, the offsets held at both ends."""
    route = ["{ start: west station, at: [0 m, 0 m, 4.5 m], as: main anchor, can_carry: 120 kN }"]
    anchors: list[tuple[str, str, str, int]] = []
    joints: list[str] = []
    for leg in range(1, legs + 1):
        near, off = ("west station", 0.0) if leg == 1 else (f"corner {2 * leg - 2}", _CLEAR)
        last = leg == legs
        far = "east station, as: main anchor, can_carry: 120 kN" if last else f"corner {2 * leg - 1}"
        route.append(f"{{ go: {_LEG:g} m east, to: {far} }}")
        if off:
            anchors.append((f"anchor {leg}A", "main anchor", f"{near} + {off:g} m", 120))
        anchors.append((f"middle anchor {leg}", "intermediate anchor", f"{near} + {_LEG / 2.0:g} m", 40))
        joints += [f"{near} + {off + 1.2:g} m", f"{near} + {_LEG / 2.0 + 1.2:g} m"]
        if not last:
            anchors.append((f"anchor {leg}B", "main anchor", f"corner {2 * leg - 1} - {_CLEAR:g} m", 120))
            way = "north" if leg % 2 else "south"
            route.append(f"{{ go: {_OFFSET:g} m {way}, to: corner {2 * leg} }}")
    holds = [f"{{ kind: {kind}, name: {name}, at: {at}, can_carry: {force} kN }}" for name, kind, at, force in anchors]
    holds += [
        "{ kind: slide guide, by: spacing rule, slides_on: PTFE on steel }",
        "{ kind: rest, by: support spans, slides_on: PTFE on steel }",
    ]
    takeups = [
        f"{{ name: J{number}, kind: externally pressurised, at: {at}, data: {{ {_DATA} }} }}"
        for number, at in enumerate(joints, start=1)
    ]
    parts = (("route", route), ("holds", holds), ("takeups", takeups))
    lists = "".join(f"    {key}:\n" + "".join(f"      - {item}\n" for item in items) for key, items in parts)
    return _HEAD + _left_out([name for name, *_ in anchors]) + _LINE + lists


def _left_out(anchors: list[str]) -> str:
    """Return that pressure never stands on one side of an anchor alone."""
    states = (
        f"pressure {where}"
        for name in anchors
        for where in (f"before {name}, none beyond it", f"beyond {name}, none before it")
    )
    rows = "".join(f'    - {{ state: "{state}", because: no valve stands between the stations }}\n' for state in states)
    return f"states:\n  drop:\n{rows}"


def main(legs: int) -> None:
    """Print the times."""
    from takeup.choose import resolve
    from takeup.line.reading.reader import study_from_text
    from takeup.papers.registry import PAPERS, Options
    from takeup.results import results_of

    start = time.process_time()
    results = results_of(resolve(study_from_text(line_text(legs), "long-line.yaml")))
    print(f"study of {legs} legs {time.process_time() - start:.0f} s")
    for paper in PAPERS:
        start = time.process_time()
        files = paper.made(results, Options())
        size = sum(map(len, files.values()))
        print(f"{paper.name:15} {time.process_time() - start:6.1f} s, {len(files)} files, {size / 1e6:.1f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)
