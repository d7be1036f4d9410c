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
        subject="lines with straight legs and bends of any angle, branches, reducers, valves and other items",
        status="covered",
        words="exact arcs; branches joined rigidly on the main's centre line; pipe, material, insulation by section",
    ),
    Coverage(
        subject="zones bounded by anchors, valves and places; one side hot, one side at pressure; user's states",
        status="covered",
        words="walked in order with one modulus; static head in every state; E changing within a walk is not covered",
    ),
    Coverage(
        subject="joints: single axial, externally pressurised, tied axial, universal, tied universal",
        status="covered",
        words="typed-in data; six-directional members; thrust from pressure where it acts",
    ),
    Coverage(
        subject="anchors, guides, stops, rests, hangers, spring hangers; structures that give; settlement",
        status="covered",
        words=(
            "clearances (square), gaps, lift-off, casing stops; hangers locked from installation to test; temporary "
            "holds; loads rigid, movements with stiffness"
        ),
    ),
    Coverage(
        subject="equipment: growth, nozzle limits in the nozzle's axes",
        status="covered",
        words="limits and the way they are combined are the user's",
    ),
    Coverage(
        subject="wind, snow, earthquake, relief, momentum",
        status="covered",
        words="static forces as the user types them, at a place or along a stretch, in the states that name them",
    ),
    Coverage(
        subject="falls kept cold and hot, places that want a drain, movement and weight of risers",
        status="covered",
        words="for information; a drain counts where the file shows it; no sag between holds",
    ),
    Coverage(
        subject="materials, sizes and media of the library",
        status="from memory",
        words="each row says whether it was read; user's own rows with their source are taken as they are",
    ),
    Coverage(
        subject="guide spacing, support spans, screening",
        status="from memory",
        words="EJMA spacing rule from memory; ASME B31.1 Table 121.5 and the screening rule were read",
    ),
    Coverage(
        subject="sustained, occasional and expansion stress: ASME B31.1, ASME B31.3, EN 13480-3",
        status="from memory",
        words="formulas and factors of the editions before ASME B31J, from memory; allowable stresses are the user's",
    ),
    Coverage(
        subject="wall of straight pipe for pressure; variability of spring hangers",
        status="from memory",
        words="ASME B31.1, B31.3 and EN 13480-3, seamless, Y = 0.4, mill tolerance 12.5 %; MSS SP-58, 25 %",
    ),
    Coverage(
        subject="stability of the system and column squirm of bellows",
        status="from memory",
        words="lowest load factors of every state as eigenvalues; the factors asked for, 4 and 5.9, from memory",
    ),
    Coverage(
        subject="joints that swing under thrust, bows within the clearance of guides, design loads of guides",
        status="from memory",
        words="second order; bow of clearance and L/1000 in the lowest mode; 15 % of thrust is common practice",
    ),
    Coverage(
        subject="bellows given by their geometry: squirm, collapse, stresses of pressure, life",
        status="from memory",
        words="published forms with the metal of each state; loads use the shell's rates at one modulus for the walk",
    ),
    Coverage(
        subject="bellows by themselves: stiffness, effective area, stress, rates, elastic squirm and folding",
        status="covered",
        words="U-shapes as a shell of revolution, any radii, held against solid elements; plies in parallel, elastic",
    ),
    Coverage(
        subject="bellows by themselves: published stresses, lives, squirm, ratings, design; demonstration series",
        status="from memory",
        words="EJMA form, ASME VIII-1 App. 26, EN 13445-3 cl. 14; series of joints invented, no maker's data",
    ),
    Coverage(
        subject="ring-reinforced bellows: hoop shared with integral rings, stresses, stiffness, column",
        status="from memory",
        words="formulas alone, in Python; not in a bellows file or a line file",
    ),
    Coverage(
        subject=(
            "equalising rings, rings with fasteners, end reinforcement, life of ring-reinforced bellows; toroidal and "
            "other shapes; forming strain; yielding and out-of-roundness under outside pressure"
        ),
        status="not covered",
        words="the maker's certified data decide",
    ),
    Coverage(
        subject="in-plane squirm of bellows whose geometry is not given",
        status="not covered",
        words="the joint's rated pressure is the limit",
    ),
    Coverage(
        subject="friction in the order of events",
        status="covered",
        words="Coulomb in the plane of the support, walked; one coefficient at rest and sliding; no stick-slip",
    ),
    Coverage(
        subject="tie rods, limit rods",
        status="covered",
        words="each rod pulls after its gap and never pushes; nuts on the outside only; lugs and rings are rigid",
    ),
    Coverage(
        subject="liners, covers and ends of joints",
        status="from memory",
        words="as far as the file says; velocities of EJMA, 8th and 9th edition; vibration is not computed",
    ),
    Coverage(
        subject="joints of a series: ratings hotter and over more cycles, selection for a duty or a place in a line",
        status="from memory",
        words="the first by the rank is proved by its own study, those behind by data and movements",
    ),
    Coverage(
        subject="advice on the metal of joints: medium, temperature, surroundings, test water, lining of PTFE",
        status="from memory",
        words="rules of thumb, one condition each, most of them common practice; advice, not proof, and no check",
    ),
    Coverage(
        subject=(
            "corrosion: of the pipe, of welds, of hardware; rates, time, mixtures of causes, erosion, one acid from "
            "another, sour water, amines, hydrogen, soil"
        ),
        status="not covered",
        words="the advice on the metal of joints judges none of it and no check does; a corrosion engineer decides",
    ),
    Coverage(
        subject=(
            "swing joints, joints of two halves or elbow balanced joints out of a series; in-plane squirm, stress "
            "and life of a series' bellows in a study, whether it gives their geometry or not"
        ),
        status="not covered",
        words="such kinds are typed in; a joint of a series is judged by its maker's ratings",
    ),
    Coverage(
        subject=(
            "proposals of gimbals, swing joints and elbow balanced joints, of hinges or hoses in spans of three bends "
            "or more, of hoses where pipe rises or carries steam, of joints elsewhere than beside an anchor or a corner"
        ),
        status="not covered",
        words="such joints are typed in or named in the line file, and a proposal keeps them as given",
    ),
    Coverage(
        subject="rings, and lines whose far end joins another line",
        status="not covered",
        words="refused by name in a line file",
    ),
    Coverage(
        subject="flexibility of branch connections, factors of ASME B31J, stiffening of bends by pressure in the model",
        status="not covered",
        words="branch connections are rigid; bends have no credit for pressure",
    ),
    Coverage(
        subject="wall of bends, tees and reducers for pressure, reinforcement of openings",
        status="not covered",
        words="straight pipe alone is looked at",
    ),
    Coverage(
        subject="fatigue and strength of joints whose bellows are not given, of ends, rods, lugs and welds of all",
        status="not covered",
        words="the joint's own ratings are what it is judged by",
    ),
    Coverage(
        subject=(
            "water hammer, thermal bowing and stratified warm-up, flow-induced vibration, earthquake dynamics, creep, "
            "ratcheting, buried pipe, plasticity, post-buckling"
        ),
        status="not covered",
        words="outside the method",
    ),
)
