"""What this version covers and what it does not: one list for papers and docs.     (results/coverage.py)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, kw_only=True, slots=True)
class Coverage:
    """One subject: covered, from memory, or not covered, and why or how far."""

    subject: str
    status: Literal["covered", "from memory", "not covered"]
    words: str


COVERAGE: tuple[Coverage, ...] = (
    Coverage(
        subject="straight legs and bends of any angle, one pipe size, one line",
        status="covered",
        words="exact circular arcs; bends with the flexibility factor of ASME B31.1 Appendix D, no credit for pressure",
    ),
    Coverage(
        subject="joints: single axial, externally pressurised",
        status="covered",
        words="typed-in data; six-directional members; thrust from pressure where it acts",
    ),
    Coverage(
        subject="anchors, spider and slide guides, rests",
        status="covered",
        words="rigid and bilateral: no clearance, no lift-off; no hold holds a rotation but an anchor",
    ),
    Coverage(
        subject="growth of ASTM A106 B by two editions of expansion tables",
        status="covered",
        words="ASME II-D TE-1 (2001), read; the older B31.1 table and the rows below 0 degF, from memory",
    ),
    Coverage(
        subject="guide spacing, support spans, screening",
        status="from memory",
        words="EJMA spacing rule from memory; ASME B31.1 Table 121.5 and the screening rule were read",
    ),
    Coverage(
        subject="expansion stress range",
        status="from memory",
        words="ASME B31.1 104.8.3 and Appendix D from memory; the allowable is the user's",
    ),
    Coverage(subject="stability and squirm", status="not covered", words="only the guide spacing rule is checked"),
    Coverage(
        subject="friction in the order of events",
        status="not covered",
        words="the bound sum(mu N) is added to each anchor",
    ),
    Coverage(
        subject="clearances, lift-off, tie rods, limit rods, hangers, stops, directional anchors, planar guides",
        status="not covered",
        words="refused by name in a line file",
    ),
    Coverage(
        subject="branches, reducers, valves, equipment nozzles, several lines",
        status="not covered",
        words="refused by name in a line file",
    ),
    Coverage(
        subject="sustained and occasional stress, wind, snow, earthquake, settlement",
        status="not covered",
        words="only the wall's longitudinal stress is compared with a yield strength that the user states",
    ),
    Coverage(
        subject="joint fatigue and strength",
        status="not covered",
        words="the joint's own ratings are what it is judged by",
    ),
    Coverage(subject="codes other than ASME B31.1", status="not covered", words="refused by name in a line file"),
    Coverage(
        subject=(
            "water hammer, thermal bowing and stratified warm-up, flow-induced vibration, earthquake dynamics, creep, "
            "ratcheting, buried pipe, plasticity, post-buckling"
        ),
        status="not covered",
        words="outside the method",
    ),
)
