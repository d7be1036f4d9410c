"""The parts of results.json that describe the line and its answer; units end the names.     (results/sections.py)"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from takeup.library import Insulation
from takeup.line import Item, Line, Pipe, Study, TakeUp, Turn
from takeup.results.advice import advice_parts
from takeup.results.chosen import chosen_part
from takeup.results.computed_bellows import computed_part, provenance_words
from takeup.results.contacts import hardware_rows, rod_rows
from takeup.results.fitting import fitting_part
from takeup.results.hardware_needed import hardware_needed_part
from takeup.results.joint_data import joint_data_part
from takeup.results.joint_parts import joint_parts_part
from takeup.results.plain import Json, numbers
from takeup.results.reach import reach_part
from takeup.results.resolved import end_part
from takeup.results.setting import setting_part
from takeup.study import JointMovement, Solved, Unsolved, joint_spans
from takeup.study.fittings import bend_flexibility, bend_spot
from takeup.study.model import LineModel
from takeup.study.pieces import Piece
from takeup.units import to_bar, to_deg, to_mm


def line_part(study: Study, model: LineModel) -> Json:
    """Return one line: enough to draw."""
    line, route = model.line, model.route
    names = [line.start.name, *(leg.to.name for leg in line.legs)]
    return {
        "name": line.name,
        "medium": line.medium,
        "branch": _branch_part(line),
        "ends": [end_part(end) for end in (line.start, line.end)],
        "pipe": pipe_part(line.pipe),
        "insulation": insulation_part(line.sections[0].insulation),
        "pipes": [
            {
                "from_m": section.start,
                "to_m": section.end,
                "pipe": pipe_part(section.pipe),
                "insulation": insulation_part(section.insulation),
            }
            for section in line.sections
        ],
        "items": [_item_part(item) for item in line.items],
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
                "item": leg.item,
            }
            for k, leg in enumerate(line.legs)
        ],
        "bends": [_bend(study, line, turn) for turn in route.turns],
        "sections": [_piece_part(piece) for piece in model.pieces],
        "nodes": [
            {"station_m": float(station), "at_m": numbers(point)}
            for station, point in zip(model.stations, model.points, strict=True)
        ],
        "members": [
            {"start": number, "end": number + 1, "part": piece.part} for number, piece in enumerate(model.pieces)
        ],
    }


def _branch_part(line: Line) -> Json:
    """Return where a line leaves its main, None for one that begins by itself."""
    if line.branch is None:
        return None
    return {
        "of": line.branch.of,
        "station_m": line.branch.position.station,
        "at": line.branch.position.words,
        "tee": line.branch.tee,
        "pad_mm": to_mm(line.branch.pad),
    }


def _item_part(item: Item) -> Json:
    return {
        "name": item.name,
        "kind": item.kind,
        "from_m": item.start,
        "to_m": item.end,
        "weight_n": item.weight,
        "stiffer": item.stiffer,
        "can_close": item.can_close,
    }


def _piece_part(piece: Piece) -> Json:
    return {
        "part": piece.part,
        "start_m": piece.start,
        "end_m": piece.end,
        "joint": None if piece.joint is None else piece.joint.name,
        "item": None if piece.item is None else piece.item.name,
        "outside_diameter_mm": to_mm(piece.pipe.size.outside_diameter),
        "wall_mm": to_mm(piece.pipe.wall),
    }


def pipe_part(pipe: Pipe) -> Json:
    """Return a pipe: size, wall, material."""
    return {
        "size": pipe.size.dn,
        "nps": pipe.size.nps,
        "outside_diameter_mm": to_mm(pipe.size.outside_diameter),
        "wall_mm": to_mm(pipe.wall),
        "wall": pipe.wall_words,
        "material": pipe.material.name,
        "expansion_table": pipe.expansion_table,
        "expansion_because": pipe.expansion_because,
        "corrosion_allowance_mm": to_mm(pipe.corrosion_allowance),
    }


def insulation_part(insulation: Insulation | None) -> Json:
    """Return what is round the pipe, None for bare pipe."""
    if insulation is None:
        return None
    cladding = insulation.cladding
    return {
        "kind": insulation.kind,
        "thickness_mm": to_mm(insulation.thickness),
        "density_kg_per_m3": insulation.density,
        "source": insulation.source.words,
        "cladding": None
        if cladding is None
        else {
            "kind": cladding.kind,
            "thickness_mm": to_mm(cladding.thickness),
            "density_kg_per_m3": cladding.density,
            "source": cladding.source.words,
        },
    }


def _bend(study: Study, line: Line, turn: Turn) -> Json:
    factors = None if turn.radius is None else bend_spot(study, line, turn).factors
    return {
        "name": turn.name,
        "station_m": turn.station,
        "radius_mm": None if turn.radius is None else to_mm(turn.radius),
        "angle_deg": to_deg(turn.angle),
        "tangent_m": turn.tangent_length,
        "begin_m": turn.begin,
        "finish_m": turn.finish,
        "flexibility_factor": None if turn.radius is None else bend_flexibility(study, line, turn),
        "intensification_factor": None if factors is None else factors.in_plane,
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
                for zone, here in zip(answer.zones.every, state.zones, strict=True)
            ],
            "valves": [{"name": name, "position": "closed"} for name in state.closed],
            "loads": list(dict.fromkeys([*_staying(answer.study), *state.loads])),
            "hangers_locked": state.locked,
            "equilibrium_residual": float(answer.residual[order - 1]) if isinstance(answer, Solved) else None,
            "solved": solved,
            "converged": bool(answer.verified[order - 1]) if isinstance(answer, Solved) else False,
        }
        for order, state in enumerate(answer.states, start=1)
    ]


def _staying(study: Study) -> list[str]:
    """Return the names of the user's loads that act in every state."""
    return [load.name for load in study.loads if load.duration == "sustained"]


def takeups_part(answer: Solved | Unsolved, scenarios: Sequence[Solved] = ()) -> list[Json]:
    """Return every joint with its data and, when solved, its movements and what its rods and hardware carry.

    Args:
        answer: the scenario whose movements are told, or why there is none.
        scenarios: every whole scenario, for rods and hardware.
    """
    moved: dict[str, JointMovement] = {}
    if isinstance(answer, Solved):
        moved = {joint.name: joint for line in answer.lines for joint in line.joints}
    states = [state.name for state in answer.states]
    return [
        {
            **_takeup(answer, model, item, moved.get(item.name)),
            "reach": reach_part(states, _in_every(scenarios, model.line.name, item.name)),
            "setting": setting_part(answer, model.line, item, _in_every(scenarios, model.line.name, item.name)),
            "rods": [row for one in scenarios for row in rod_rows(one, model.line.name, item.name)],
            "hardware": [row for one in scenarios for row in hardware_rows(one, model.line.name, item.name)],
        }
        for model in answer.model.lines
        for item in sorted(model.line.takeups, key=lambda item: item.position.station)
    ]


def _in_every(scenarios: Sequence[Solved], line: str, name: str) -> list[tuple[str, JointMovement]]:
    """Return how one joint moves in every whole scenario, by its name."""
    return [
        (one.scenario, joint)
        for one in scenarios
        for answer in one.lines
        if answer.line.name == line
        for joint in answer.joints
        if joint.name == name
    ]


def _takeup(answer: Solved | Unsolved, model: LineModel, item: TakeUp, moved: JointMovement | None) -> dict[str, Json]:
    name = item.name
    rates = model.rates[name]
    spans = joint_spans(item)
    return {
        "name": name,
        "line": model.line.name,
        "kind": item.kind,
        "written_as": item.written_as,
        "station_m": item.position.station,
        "at": item.position.words,
        "from_m": spans.start,
        "to_m": spans.end,
        "live_from_m": spans.bellows[0][0],
        "live_to_m": spans.bellows[-1][1],
        "bellows": [{"from_m": start, "to_m": end} for start, end in spans.bellows],
        "movements": [] if moved is None else _movements(answer, moved),
        "hardware_needed": hardware_needed_part(answer, item, moved),
        "parts": joint_parts_part(answer, model.line, item, moved),
        "fitting": fitting_part(answer, model.line, item, moved),
        **advice_parts(answer.study, model.line, item),
        "spring_n": []
        if moved is None
        else [
            {"state": state.name, "force_n": float(force) + 0.0}
            for state, force in zip(answer.states, moved.spring, strict=True)
        ],
        "set_length_mm": to_mm(item.data.length + item.preset),
        "preset_mm": to_mm(item.preset),
        "misalignment_lateral_mm": to_mm(item.misalignment[0]),
        "misalignment_angular_deg": to_deg(item.misalignment[1]),
        "data": joint_data_part(item, rates),
        "computed": computed_part(item.bellows),
        "remarks": list(rates.remarks),
        "provenance": provenance_words(item.data.source, item.bellows, from_series=item.chosen is not None),
        "chosen": chosen_part(item),
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
    """Return the displaced shape of every line in every state, [mm] at every node."""
    return [
        {
            "state": state.name,
            "line": line.line.name,
            "displacement_mm": [numbers(row * 1e3) for row in line.displacements[k, :, :3]],
        }
        for line in solved.lines
        for k, state in enumerate(solved.states)
    ]
