"""Lines on whose way something happens, for results.json.     (tests/unit/results/walk_lines.py)"""

from __future__ import annotations

from tests.builders import hold, joint, line_file

ROD_GAP, ROD_LENGTH, ROD_DIAMETER, ROD_MODULUS, RODS = 20e-3, 1.2, 24e-3, 200e9, 4
LIMIT_RODS = (
    "rods: { count: 4, diameter: 24 mm, circle: 400 mm, gap: 20 mm, modulus: 200 GPa, hot: no, can_carry: 60 kN, "
    "length: 1.2 m, source: invented }"
)
RUNS_OUT = line_file(  # nothing takes the thrust but limit rods
    ["20 m east"],
    end="blind",
    holds=(hold("slide guide", "[4 m, 10 m, 16 m]"),),
    takeups=(joint("J1", "west end + 1.2 m").replace(", data:", f", {LIMIT_RODS}, data:"),),
)
LIFTS = line_file(  # a riser that lifts the line off a rest, beside a stop with a gap
    ["12 m up", "12 m east"],
    end="free",
    holds=(
        hold("rest", "14 m", name="R1"),
        hold("rest", "20 m", name="R2"),
        hold("slide guide", "6 m", name="G1"),
        "{ kind: stop, at: 22 m, name: S1, against: east, gap: 4 mm, can_carry: 900 kN }",
    ),
    test="{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }",
)
