"""The parts of results.json that describe the line and its answer; units end the names.     (results/sections.py)"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from takeup.basis import bend_intensification, flexibility_characteristic
from takeup.line import Pipe, Study, TakeUp, Turn
from takeup.study import JointMovement, Solved, Unsolved, joint_cuts
from takeup.study.model import bend_factor
from takeup.units import to_bar, to_deg, to_mm, to_mm2, to_n_per_mm, to_nm_per_deg

Json: TypeAlias = "Mapping[str, Json] | Sequence[Json] | str | float | int | bool | None"
Floats = NDArray[np.float64]


def numbers(values: Floats) -> list[float]:
    """Return a flat array as plain numbers, negative zeros made zeros."""
    return [float(value) + 0.0 for value in values]


def line_part(answer: Solved | Unsolved) -> Json:
    """Return the line: enough to draw."""
    line, route, model = answer.study.line, answer.model.route, answer.model
    names = [line.start.name, *(leg.to.name for leg in line.legs)]
    insulation = line.insulation
    order = np.concatenate([model.frame.straights.start, model.frame.arcs.start])
    in_order = sorted(zip(order, model.pieces, strict=True), key=lambda item: int(item[0]))
    return {
        "name": line.name,
        "medium": line.medium,
        "pipe": {
            "size": line.pipe.size.dn,
            "nps": line.pipe.size.nps,
            "outside_diameter_mm": to_mm(line.pipe.size.outside_diameter),
            "wall_mm": to_mm(line.pipe.wall),
            "wall": line.pipe.wall_words,
            "material": line.pipe.material.name,
        },
        "insulation": None
        if insulation is None
        else {
            "kind": insulation.kind,
            "thickness_mm": to_mm(insulation.thickness),
            "density_kg_per_m3": insulation.density,
            "source": insulation.source.words,
        },
        "length_m": route.length,
        "developed_length_m": route.developed_length,
        "points": [numbers(point) for point in route.points],
        "legs": [
            {
                "from": names[k],
                "to": names[k + 1],
                "length_m": leg.length,
                "direction": list(leg.direction),
                "start_m": float(route.corners[k]),
                "end_m": float(route.corners[k + 1]),
            }
            for k, leg in enumerate(line.legs)
        ],
        "bends": [_bend(line.pipe, turn) for turn in route.turns],
        "sections": [
            {
                "part": piece.part,
                "start_m": piece.start,
                "end_m": piece.end,
                "joint": None if piece.joint is None else piece.joint.name,
            }
            for _, piece in in_order
        ],
        "nodes": [
            {"station_m": float(station), "at_m": numbers(point)}
            for station, point in zip(model.stations, model.frame.points, strict=True)
        ],
        "members": [{"start": int(node), "end": int(node) + 1, "part": piece.part} for node, piece in in_order],
    }


def _bend(pipe: Pipe, turn: Turn) -> Json:
    factors: dict[str, Json] = {"flexibility_factor": None, "intensification_factor": None}
    if turn.radius is not None:
        mean_radius = (pipe.size.outside_diameter - pipe.wall) / 2.0
        h = flexibility_characteristic(bend_radius=turn.radius, mean_radius=mean_radius, wall=pipe.wall)
        factors = {
            "flexibility_factor": bend_factor(pipe, turn.radius),
            "intensification_factor": bend_intensification(h),
        }
    return {
        "name": turn.name,
        "station_m": turn.station,
        "radius_mm": None if turn.radius is None else to_mm(turn.radius),
        "angle_deg": to_deg(turn.angle),
        "tangent_m": turn.tangent_length,
        "begin_m": turn.begin,
        "finish_m": turn.finish,
        **factors,
    }


def states_part(answer: Solved | Unsolved) -> list[Json]:
    """Return the states with their zones, and whether each was solved and verified."""
    solved = isinstance(answer, Solved)
    return [
        {
            "name": state.name,
            "kind": state.kind,
            "order": order,
            "zones": [
                {
                    "zone": zone.name,
                    "pressure_bar": to_bar(here.pressure),
                    "at_elevation_m": here.at_elevation,
                    "temperature_c": here.temperature,
                    "content": here.content,
                    "density_kg_per_m3": here.density,
                }
                for zone, here in zip(answer.model.zones, state.zones, strict=True)
            ],
            "valves": [],
            "equilibrium_residual": float(answer.residual[order - 1]) if isinstance(answer, Solved) else None,
            "solved": solved,
            "converged": bool(answer.verified[order - 1]) if isinstance(answer, Solved) else False,
        }
        for order, state in enumerate(answer.states, start=1)
    ]


def takeups_part(answer: Solved | Unsolved) -> list[Json]:
    """Return every joint with its data and, when solved, its movements."""
    moved = {joint.name: joint for joint in answer.joints} if isinstance(answer, Solved) else {}
    return [_takeup(answer, item.name, moved.get(item.name)) for item in _in_order(answer.study)]


def _in_order(study: Study) -> list[TakeUp]:
    return sorted(study.line.takeups, key=lambda item: item.position.station)


def _takeup(answer: Solved | Unsolved, name: str, moved: JointMovement | None) -> Json:
    item = next(takeup for takeup in answer.study.line.takeups if takeup.name == name)
    rates, data = answer.model.rates[name], item.data
    first, live_first, live_last, last = joint_cuts(item)
    return {
        "name": name,
        "kind": item.kind,
        "station_m": item.position.station,
        "at": item.position.words,
        "from_m": first,
        "to_m": last,
        "live_from_m": live_first,
        "live_to_m": live_last,
        "movements": [] if moved is None else _movements(answer, moved),
        "rods": [],
        "spring_n": []
        if moved is None
        else [
            {"state": state.name, "force_n": float(force) + 0.0}
            for state, force in zip(answer.states, moved.spring, strict=True)
        ],
        "set_length_mm": to_mm(data.length + item.preset),
        "preset_mm": to_mm(item.preset),
        "data": {
            "axial_rate_n_per_mm": to_n_per_mm(rates.axial),
            "lateral_rate_n_per_mm": to_n_per_mm(rates.lateral),
            "angular_rate_nm_per_deg": to_nm_per_deg(rates.angular),
            "torsion_rate_nm_per_deg": to_nm_per_deg(rates.torsion),
            "effective_area_mm2": to_mm2(data.effective_area),
            "length_mm": to_mm(data.length),
            "live_length_mm": to_mm(data.live_length),
            "weight_n": data.weight,
            "axial_compression_mm": to_mm(data.axial_compression),
            "axial_extension_mm": to_mm(data.axial_extension),
            "lateral_mm": None if data.lateral is None else to_mm(data.lateral),
            "angular_deg": None if data.angular is None else to_deg(data.angular),
            "pressure_bar": to_bar(data.pressure),
            "test_pressure_bar": None if data.test_pressure is None else to_bar(data.test_pressure),
            "minimum_pressure_bar": None if data.minimum_pressure is None else to_bar(data.minimum_pressure),
            "temperature_c": data.temperature,
            "rated_cycles": data.rated_cycles,
        },
        "remarks": list(rates.remarks),
        "provenance": f"user's data: {data.source}",
    }


def _movements(answer: Solved | Unsolved, moved: JointMovement) -> list[Json]:
    return [
        {
            "state": state.name,
            "axial_mm": to_mm(float(moved.axial[k])) + 0.0,
            "lateral_mm": to_mm(float(np.linalg.norm(moved.lateral[k]))),
            "lateral_vector_mm": [to_mm(float(value)) + 0.0 for value in moved.lateral[k]],
            "angular_deg": to_deg(float(np.linalg.norm(moved.angular[k]))),
            "torsion_deg": to_deg(float(moved.torsion[k])) + 0.0,
            "torque_nm": float(moved.torque[k]) + 0.0,
            "pressure_bar": to_bar(float(moved.pressure[k])),
        }
        for k, state in enumerate(answer.states)
    ]


def shapes_part(solved: Solved) -> list[Json]:
    """Return the displaced shape of every state, [mm] at every node."""
    return [
        {"state": state.name, "displacement_mm": [numbers(row * 1e3) for row in solved.displacements[k, :, :3]]}
        for k, state in enumerate(solved.states)
    ]
