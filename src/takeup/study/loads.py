"""From states to load cases: what each cause does to every member, node and hold.     (study/loads.py)

Pressure is kept in the second of two equivalent books: every member carries the effective force S = N_wall - P
A_bore, which runs on through bends, reducers, branches, closed valves and closed ends; pressure enters as a strain (1 -
2 nu) P A_bore/(E A_wall) of every pipe wall and as a pair of forces P A_e at the ends of each bellows, written as the
strain P A_e/EA of its member. The whole weight of the content then belongs on the pipe.
tests/unit/study/test_pressure_books.py keeps the first book (forces wherever the fluid pushes) and finds the same
movements. Theory: docs/theory/pressure.md.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.joints import whole_live_length
from takeup.library import Curve
from takeup.line import GRAVITY, SAME_STATION, Load, State, Study, bore_area
from takeup.mechanics import Loads, pressure_strain
from takeup.study.model import LineModel, SystemModel
from takeup.study.records import CAUSES

Floats = NDArray[np.float64]
PRESSURE, GROWTH, PRESET, WEIGHT, MOVED, SUSTAINED, OCCASIONAL = range(len(CAUSES))


def load_cases(study: Study, model: SystemModel, states: tuple[State, ...]) -> Loads:
    """Return one load case for each state and cause, causes fastest, in the order of `CAUSES`.

    Args:
        study: the file.
        model: the model of its lines.
        states: s states.

    Returns:
        s x causes load cases.
    """
    shape = (len(states), len(CAUSES))
    members, nodes, supports = model.frame.member_count, len(model.frame.points), len(model.holds)
    strain, per_length = np.zeros((*shape, members)), np.zeros((*shape, members, 3))
    nodal, imposed = np.zeros((*shape, nodes, 6)), np.zeros((*shape, supports, 6))
    for number, state in enumerate(states):
        for line in model.lines:
            strain[number, PRESSURE, line.members] = _pressure_strain(line, state)
            strain[number, GROWTH, line.members] = _growth_strain(study, line, state)
            strain[number, PRESET, line.members] = _preset_strain(line)
            per_length[number, WEIGHT, line.members, 2] = -_weight(line, state)
            _lift_of_springs(nodal[number, WEIGHT], line, state)
            imposed[number, MOVED, line.supports] = _moved_feet(study, line, state)
            for load in study.loads:
                if load.line == line.line.name and (load.duration == "sustained" or load.name in state.loads):
                    cause = SUSTAINED if load.duration == "sustained" else OCCASIONAL
                    _add_load(load, line, nodal[number, cause], per_length[number, cause])
    cases = len(states) * len(CAUSES)
    return Loads(
        strain=strain.reshape(cases, members),
        per_length=per_length.reshape(cases, members, 3),
        nodal=nodal.reshape(cases, nodes, 6),
        imposed=imposed.reshape(cases, supports, 6),
    )


def piece_pressures(line: LineModel, state: State) -> Floats:
    """Return the gauge pressure in the middle of each piece of a line, (p,) [Pa]."""
    return np.array(
        [state.zones[piece.zone].pressure_at(float(z)) for piece, z in zip(line.pieces, line.elevation, strict=True)]
    )


def _pressure_strain(line: LineModel, state: State) -> Floats:
    """Return the strain by which pressure would stretch each piece, or run each bellows out, if nothing held it."""
    strains = []
    for piece, axial, pressure in zip(line.pieces, line.axial, piece_pressures(line, state), strict=True):
        if piece.part == "bellows" and piece.joint:
            area = piece.joint.data.effective_area
        else:
            area = (1.0 - 2.0 * piece.pipe.material.poisson) * bore_area(piece.pipe)
        strains.append(pressure_strain(float(pressure), area, float(axial)))
    return np.array(strains)


def _growth_strain(study: Study, line: LineModel, state: State) -> Floats:
    """Return the strain of free growth from installation; a bellows' live length is taken not to grow."""
    installed = study.site.installation
    return np.array(
        [
            0.0
            if piece.part == "bellows"
            else growth_strain(piece.pipe.material.expansion, installed, state.zones[piece.zone].temperature)
            for piece in line.pieces
        ]
    )


def growth_strain(expansion: Curve, installed: float, temperature: float) -> float:
    """Return the strain of free growth between two temperatures [degC]."""
    return expansion.at(temperature) - expansion.at(installed)


def _preset_strain(line: LineModel) -> Floats:
    """Return the strain of joints fitted longer (negative: they want to shorten) or shorter than their own length.

    Bellows of one joint are alike, so they share its preset alike.
    """
    return np.array(
        [
            -piece.joint.preset / whole_live_length(piece.joint.data)
            if piece.part == "bellows" and piece.joint
            else 0.0
            for piece in line.pieces
        ]
    )


def _weight(line: LineModel, state: State) -> Floats:
    """Return the weight of each piece with its content, (p,) [N/m]."""
    density = np.array([state.zones[piece.zone].density for piece in line.pieces])
    return np.asarray(line.dead_weight + line.content_area * density * GRAVITY)


def _lift_of_springs(nodal: Floats, line: LineModel, state: State) -> None:
    """Add the load that each spring hanger is set to, upward, to (n, 6) nodal forces."""
    for hold in line.holds:
        if hold.lift and hold.acts_in(state) and not hold.is_locked_in(state):
            nodal[line.node_at(hold.station), 2] += hold.lift


def _moved_feet(study: Study, line: LineModel, state: State) -> Floats:
    """Return how far the foot of each hold moves, in its own axes, (h, 6) [m].

    Settlement is there in every state but the first. Equipment grows in proportion to its temperature above
    installation, up to the stated movement at operating temperature; steel under a hold grows like the pipe on it.
    """
    moved = np.zeros((len(line.holds), 6))
    installed = study.site.installation
    for row, hold in enumerate(line.holds):
        here = state.at(line.line.name, hold.station)
        number = state.layout.number(line.line.name, hold.station)
        operating = state.layout.every[number].conditions.operating.temperature
        shift = np.zeros(3) if state.name == "installed" else hold.settlement.copy()
        if hold.growth.any() and abs(operating - installed) > 0.0:
            shift += hold.growth * (here.temperature - installed) / (operating - installed)
        moved[row, :3] = hold.axes @ shift
        if hold.hot_leg:
            expansion = line.line.section_at(hold.station).pipe.material.expansion
            moved[row, 2] += hold.hot_leg * growth_strain(expansion, installed, here.temperature)
    return moved


def _add_load(load: Load, line: LineModel, nodal: Floats, per_length: Floats) -> None:
    """Add a load of the user's to (n, 6) nodal forces and (members, 3) spread ones."""
    if load.end is None:
        node = line.node_at(load.start.station)
        nodal[node, :3] += load.force
        nodal[node, 3:] += load.moment
        return
    for member, piece in zip(line.members, line.pieces, strict=True):
        if load.start.station - SAME_STATION <= piece.start and piece.end <= load.end.station + SAME_STATION:
            per_length[member] += load.force
