"""Invented lines of many spans.     (tests/unit/drawing/long_lines.py)"""

from __future__ import annotations

from tests.unit.drawing.results_fixture import results


def main_of(spans):
    """An invented main in spans of 60 m that lie to the right and to the left by turns, with eight guides each.

    Behind every anchor stands a joint, so that of 31 spans there are 63 names to be placed.
    """
    points, holds, joints = [(0.0, 0.0, 4.5)], [("west station", "main anchor", 0.0)], []
    for number in range(spans):
        start, (x, y, z) = 60.0 * number, points[-1]
        points.append((x + 60.0, y, z) if number % 4 != 3 else (x, y + 60.0 * (1 if number % 8 == 3 else -1), z))
        holds += [(f"guide {number}.{n}", "slide guide", start + 4.0 + 6.0 * n) for n in range(1, 9)]
        joints.append((f"J{number}", "externally pressurised", start + 3.0))
        kind = "main anchor" if number == spans - 1 else "intermediate anchor"
        holds.append((f"anchor {number + 1}", kind, start + 60.0 - (0.0 if number == spans - 1 else 2.0)))
    kept = [
        points[0],
        *(b for a, b, c in zip(points, points[1:], points[2:], strict=False) if _turns(a, b, c)),
        points[-1],
    ]
    return results(kept, [305.0] * (len(kept) - 2), holds, joints)


def _turns(a, b, c):
    return (b[0] - a[0], b[1] - a[1]) != (c[0] - b[0], c[1] - b[1])


def row_of(length):
    """An anchor every 100 m and a joint behind it, to the north, with guides between."""
    count = int(length // 100.0)
    holds = [(f"pier {n}", "main anchor", 100.0 * n) for n in range(count + 1)]
    holds += [(f"guide {n}", "slide guide", 100.0 * n + 50.0) for n in range(count)]
    holds += [(f"rest {n}", "rest", 100.0 * n + 75.0) for n in range(count)]
    joints = [(f"J{n + 1}", "externally pressurised", 100.0 * n + 2.5) for n in range(count)]
    return results([(0.0, 0.0, 2.0), (0.0, length, 2.0)], [], holds, joints)
