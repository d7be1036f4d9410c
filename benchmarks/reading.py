"""How long a large line file takes to read, beside the bare parsing of its YAML.     (benchmarks/reading.py)

A file of two lines with a thousand legs in all: a main with bends, valves, reducers and guides, and a branch. Printed:
the time of `read_study` from the text to the record, the time that ruamel.yaml alone takes to compose the same text,
and their ratio; best of several runs of both, taken in turn.
Run it with `python -m benchmarks.reading`. The aim is half a second for the whole.
"""

from __future__ import annotations

import time

from ruamel.yaml import YAML

from takeup.line.reading.reader import study_from_text

LEGS = 1000
REPEATS = 7
AIM = 0.5  # s, for a thousand legs
_HEAD = """\
takeup: 1
project: Holm Fen works, pipe bridge
document: { number: H-40, revision: A, date: 2026-04-02 }
basis: { code: ASME B31.1, edition: 2020 }
site: { installation: 12 °C, coldest: -8 °C, hottest: 35 °C }
design: { pressure: 12 bar(g), temperature: 195 °C, vacuum: possible }
operating: { pressure: 10 bar(g), temperature: 184.5 °C }
test: { pressure: 18 bar(g), with: water, temperature: 12 °C }
cycles: [ { from: cold, to: operating, count: 1000 } ]
lines:
"""
_LINE = """\
  - name: LS-{number}
    medium: steam
    pipe: {{ size: DN 200, schedule: 40, material: ASTM A106 B }}
    insulation: {{ thickness: 80 mm, kind: mineral wool }}
    route:
"""


def large_file(legs: int) -> str:
    """Return the text of a line file with about so many legs."""
    parts = [_HEAD]
    for number, first in (
        (1, "      - { start: header, at: [0 m, 0 m, 4.5 m], as: main anchor }\n"),
        (2, "      - { start: tee, as: branch, of: LS-1, at: P1-2 + 3 m, tee: welding tee }\n"),
    ):
        parts += [_LINE.format(number=number), first, *_legs(number, legs // 2), "    holds:\n"]
        parts += [
            f"      - {{ kind: slide guide, at: P{number}-{leg} + 2 m, slides_on: PTFE on steel }}\n"
            for leg in range(0, legs // 2, 5)
            if leg
        ]
    return "".join(parts)


def _legs(number: int, legs: int) -> list[str]:
    """Return a route in steps to the north and to the east, with a valve every fifty legs."""
    ways = ("north", "east")
    found = [f"      - {{ go: 6.25 m {ways[leg % 2]}, to: P{number}-{leg} }}\n" for leg in range(legs - 1)]
    for leg in range(49, legs - 1, 50):
        way = ways[leg % 2]
        found[leg] = (
            f"      - {{ go: 3 m {way} }}\n"
            f"      - {{ valve: V{number}-{leg}, length: 0.6 m, weight: 1.2 kN, can_close: no }}\n"
            f"      - {{ go: 3 m {way}, to: P{number}-{leg} }}\n"
        )
    return [*found, f"      - {{ go: 6 m {ways[(legs - 1) % 2]}, to: end {number}, as: main anchor }}\n"]


def measure(text: str, repeats: int) -> tuple[float, float]:
    """Return the best times of reading the text and of composing its YAML alone [s]."""
    whole, bare = [], []
    for _ in range(repeats):
        begin = time.perf_counter()
        study_from_text(text, "large.yaml")
        middle = time.perf_counter()
        YAML(typ="base", pure=True).compose(text)
        whole.append(middle - begin)
        bare.append(time.perf_counter() - middle)
    return min(whole), min(bare)


def main() -> None:
    """Print the table."""
    print(f"{'legs':>6} {'bytes':>8} {'read s':>8} {'YAML s':>8} {'ratio':>6}")
    for legs in (30, 100, LEGS):
        text = large_file(legs)
        whole, bare = measure(text, REPEATS)
        print(f"{legs:6} {len(text.encode()):8} {whole:8.3f} {bare:8.3f} {whole / bare:6.2f}", flush=True)
    print(f"aim: {AIM} s for {LEGS} legs")


if __name__ == "__main__":
    main()
