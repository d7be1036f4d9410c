"""A document with a walk, made by hand: straight ways between states, friction that lags, one event of each sort.

Numbers are made for the eye and for counting; no mechanics is in them. What a test expects it reads from here.
"""

from __future__ import annotations

import math

SCENARIOS = ("no friction", "low friction", "high friction")
SHARES = {"no friction": 0.0, "low friction": 0.4, "high friction": 1.0}
STEPS = 4


def along(hold, load):
    """The force along the hold's first axis."""
    return sum(a * f for a, f in zip(hold["axes"][0], load["force_n"], strict=True))


def mixed(before, after, share):
    """A number on the straight way between two."""
    return before + share * (after - before)


def walk_rows(document, scenarios=SCENARIOS):
    """Steps from state to state; friction adds to the load in proportion to the change on the way."""
    rows = []
    states = document["states"]
    for scenario in scenarios:
        for k in range(len(states)):
            shares = [1.0] if k == 0 else [(n + 1) / STEPS for n in range(STEPS)]
            rows += [_row(document, scenario, k, share, len(rows) + n) for n, share in enumerate(shares)]
    return rows


def _row(document, scenario, k, share, step):
    states = document["states"]
    state, before = states[k], states[max(k - 1, 0)]
    zones = [
        {
            "zone": b["zone"],
            "pressure_bar": mixed(a["pressure_bar"], b["pressure_bar"], share),
            "temperature_c": mixed(a["temperature_c"], b["temperature_c"], share),
        }
        for a, b in zip(before["zones"], state["zones"], strict=True)
    ]
    rise = state["zones"][0]["temperature_c"] - before["zones"][0]["temperature_c"]
    rubbed = SHARES[scenario] * math.copysign(min(abs(rise) * 40.0, 6000.0), rise) * (1.0 - math.exp(-3.0 * share))
    holds = {}
    for hold in document["holds"]:
        loads = hold["loads"]
        holds[hold["name"]] = mixed(along(hold, loads[max(k - 1, 0)]), along(hold, loads[k]), share) - rubbed
    joints = {}
    for joint in document["takeups"]:
        moves = joint["movements"]
        moved = mixed(moves[max(k - 1, 0)]["axial_mm"], moves[k]["axial_mm"], share)
        joints[joint["name"]] = joint["set_length_mm"] + moved + 2e-4 * rubbed
    return {
        "step": step,
        "scenario": scenario,
        "state": state["name"],
        "arrived": share == 1.0,
        "between": [None if k == 0 else before["name"], state["name"]],
        "fraction": share,
        "pressure_bar": zones[0]["pressure_bar"],
        "temperature_c": zones[0]["temperature_c"],
        "zones": zones,
        "holds": holds,
        "joints": joints,
        "converged": True,
        "error": 3.2e-12 if (scenario, k, share) == (scenarios_last(), 1, 1.0) else 4e-13,
    }


def scenarios_last():
    """The scenario in which the worst error is."""
    return SCENARIOS[-1]


def event(document, way, what, where, kind, *, scenario, words=""):
    """An event on the way to state k, at a share of it: `way` is both."""
    k, share = way
    states = document["states"]
    before, after = (states[n]["zones"][0] for n in (k - 1, k))
    temperature = mixed(before["temperature_c"], after["temperature_c"], share)
    return {
        "step": k,
        "scenario": scenario,
        "what": what,
        "where": where,
        "kind": kind,
        "words": words,
        "between": [states[k - 1]["name"], states[k]["name"]],
        "state": states[k]["name"],
        "fraction": share,
        "zone": after["zone"],
        "pressure_bar": mixed(before["pressure_bar"], after["pressure_bar"], share),
        "temperature_c": temperature,
        "above_installation_k": temperature - document["input"]["resolved"]["site"]["installation_c"],
    }


def events(document, *, rubs):
    """A rest that lifts and touches, rods that slacken, and so many rubs that slip and stick in each rough scenario."""
    names = [hold["name"] for hold in document["holds"] if "anchor" not in hold["kind"]]
    joint = document["takeups"][0]["name"]
    found = []
    for scenario in SCENARIOS:
        late = 0.02 * SHARES[scenario]
        found += [
            event(document, (1, 0.3 + late), "leaves", names[0], "hold", scenario=scenario, words="its side down"),
            event(document, (1, 0.8), "rods slacken", joint, "rods", scenario=scenario),
            event(document, (2, 0.5), "touches", names[0], "hold", scenario=scenario, words="its side down"),
        ]
        for n in range(rubs if SHARES[scenario] else 0):
            k, what = 1 + n % (len(document["states"]) - 1), ("slips", "sticks")[n % 2]
            found.append(
                event(document, (k, 0.1 + 0.8 * n / rubs), what, names[n % len(names)], "friction", scenario=scenario)
            )
    return found


def contacts(document):
    """What bears: the first rest lifts in the second state, the second always bears, its left side never does."""
    names = [hold["name"] for hold in document["holds"] if "anchor" not in hold["kind"]]
    for hold in document["holds"]:
        hold["contact"] = []
        if hold["name"] not in names:
            continue
        for scenario in SCENARIOS:
            for k, state in enumerate(document["states"]):
                lifted = hold["name"] == names[0] and k == 1
                base = {"state": state["name"], "scenario": scenario}
                gap, force = (3.25 + SHARES[scenario], 0.0) if lifted else (0.0, 1500.0 + 100.0 * k)
                status = "open" if lifted else "touches"
                hold["contact"] += [
                    {**base, "side": "down", "gap_mm": gap, "force_n": force, "status": status},
                    {**base, "side": "left", "gap_mm": 2.0, "force_n": 0.0, "status": "open"},
                ]


def rods(document):
    """Four rods of the first joint, slack in the second state."""
    document["takeups"][0]["rods"] = [
        {
            "state": state["name"],
            "scenario": scenario,
            "rod": rod,
            "tension_n": 0.0 if k == 1 else 10_000.0 + 1_000.0 * rod,
            "engaged": k != 1,
            "gap_mm": 1.5 if k == 1 else 0.0,
        }
        for scenario in SCENARIOS
        for k, state in enumerate(document["states"])
        for rod in range(1, 5)
    ]


def scenario_loads(document):
    """Whole scenarios; the envelope and the band with the combination that gives each end."""
    for hold in document["holds"]:
        hold["scenarios"] = [
            {
                "scenario": scenario,
                "state": load["state"],
                "force_n": [
                    f - SHARES[scenario] * 2_000.0 * a for f, a in zip(load["force_n"], hold["axes"][0], strict=True)
                ],
                "moment_nm": load["moment_nm"],
            }
            for scenario in SCENARIOS
            for load in hold["loads"]
        ]
        combination = "friction high, spring rates high"
        envelope = hold["envelope"]
        envelope["design_scenario"] = combination
        for key in ("force_n", "moment_nm"):
            envelope[key] = {
                **envelope[key],
                "min_scenario": ["friction high, spring rates low"] * 3,
                "max_scenario": [combination] * 3,
            }
        if hold["band"]:
            hold["band"] |= {
                "low_because": "under hydrostatic test, friction high, spring rates high",
                "high_because": "bound of friction by hand",
            }


def record(document):
    """A record of a week: extremes, three events, and the ranges of each joint."""
    anchors = [hold["name"] for hold in document["holds"] if "anchor" in hold["kind"]]
    happened = [("leaves", 90_000.0, 60.0), ("touches", 200_000.0, 58.0), ("leaves", 400_000.0, 66.0)]
    rest = next(hold["name"] for hold in document["holds"] if "anchor" not in hold["kind"])
    return {
        "file": "boiler-week.csv",
        "sha256": "ab" * 32,
        "rows": 10_080,
        "steps": 1_204,
        "from_s": 0.0,
        "to_s": 604_800.0,
        "events": [
            {
                **event(document, (1, 0.5), what, rest, "hold", scenario="high friction"),
                "time_s": time,
                "temperature_c": temperature,
            }
            for what, time, temperature in happened
        ],
        "envelopes": {
            "holds": {
                name: {"min_n": -60_000.0 - n, "max_n": 4_000.0, "min_at_s": 302_400.0, "max_at_s": 1_800.0}
                for n, name in enumerate(anchors)
            }
        },
        "joints": {
            joint["name"]: {
                "min_mm": 1_004.0,
                "max_mm": 1_101.5,
                "min_at_s": 302_400.0,
                "max_at_s": 60.0,
                "ranges": [
                    {"range_mm": 97.5, "count": 0.5, "low_mm": 1_004.0, "high_mm": 1_101.5},
                    {"range_mm": 12.0, "count": 7.0, "low_mm": 1_004.0, "high_mm": 1_018.0},
                ],
            }
            for joint in document["takeups"]
        },
    }


def with_walk(document, *, rubs=20):
    """The document with everything that the walk adds to it; its states are numbered from one."""
    for number, state in enumerate(document["states"], start=1):
        state["order"] = number
    document["walk"] = walk_rows(document)
    document["events"] = events(document, rubs=rubs)
    contacts(document)
    if document["takeups"]:
        rods(document)
    scenario_loads(document)
    document["input"]["resolved"]["walk"] = {
        "modulus": "installation",
        "friction_at_installation": "none",
    }
    document["scenarios"] = {"uniqueness": "not shown"}
    return document
