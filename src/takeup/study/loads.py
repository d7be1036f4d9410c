"""From states to load cases: growth, pressure, preset and weight on every member.     (study/loads.py)

Pressure is kept in the second of two equivalent books: every member carries the effective force S = N_wall - P
A_bore, which runs on through bends and closed ends; pressure enters as a strain (1 - 2 nu) P A_bore/(E A_wall) of
every pipe wall and as a pair of forces P A_e at the ends of each bellows, written as the strain P A_e/EA of its
member. The whole weight of the content then belongs on the pipe. tests/unit/study/test_pressure_books.py keeps the
first book (forces wherever the fluid pushes) and finds the same movements. Theory: docs/theory/pressure.md.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from takeup.line import State, Study, bore_area
from takeup.line.weights import GRAVITY
from takeup.mechanics import Loads, pressure_strain
from takeup.study.model import LineModel
from takeup.study.records import CAUSES

Floats = NDArray[np.float64]


def load_cases(study: Study, model: LineModel, states: tuple[State, ...]) -> Loads:
    """Return one load case for each state and cause, causes fastest, in the order of `CAUSES`.

    Args:
        study: the file.
        model: the model of its line.
        states: s states.

    Returns:
        s x 4 load cases.
    """
    members = len(model.pieces)
    strain = np.zeros((len(states), len(CAUSES), members))
    weight = np.zeros((len(states), len(CAUSES), members, 3))
    pressure, growth, preset, heavy = range(len(CAUSES))
    for number, state in enumerate(states):
        strain[number, pressure] = _pressure_strain(model, state)
        strain[number, growth] = _growth_strain(study, model, state)
        strain[number, preset] = _preset_strain(model)
        weight[number, heavy, :, 2] = -_weight(model, state)
    return Loads(strain=strain.reshape(-1, members), per_length=weight.reshape(-1, members, 3))


def member_pressures(model: LineModel, state: State) -> Floats:
    """Return the gauge pressure in the middle of each member, (m,) [Pa]."""
    return np.array(
        [state.zones[piece.zone].pressure_at(float(z)) for piece, z in zip(model.pieces, model.elevation, strict=True)]
    )


def _pressure_strain(model: LineModel, state: State) -> Floats:
    """Return the strain by which pressure would stretch each member, or run each bellows out, if nothing held it."""
    wall = (1.0 - 2.0 * model.line.pipe.material.poisson) * bore_area(model.line.pipe)
    strains = []
    for piece, axial, pressure in zip(model.pieces, model.axial, member_pressures(model, state), strict=True):
        area = piece.joint.data.effective_area if piece.part == "bellows" and piece.joint else wall
        strains.append(pressure_strain(float(pressure), area, float(axial)))
    return np.array(strains)


def _growth_strain(study: Study, model: LineModel, state: State) -> Floats:
    """Return the strain of free growth from installation; a bellows' live length is taken not to grow."""
    expansion = model.line.pipe.material.expansion
    installed = expansion.at(study.site.installation)
    by_zone = [expansion.at(zone.temperature) - installed for zone in state.zones]
    return np.array([0.0 if piece.part == "bellows" else by_zone[piece.zone] for piece in model.pieces])


def _preset_strain(model: LineModel) -> Floats:
    """Return the strain of joints fitted longer (negative: they want to shorten) or shorter than their own length."""
    return np.array(
        [
            -piece.joint.preset / piece.joint.data.live_length if piece.part == "bellows" and piece.joint else 0.0
            for piece in model.pieces
        ]
    )


def _weight(model: LineModel, state: State) -> Floats:
    """Return the weight of each member with its content, (m,) [N/m]."""
    density = np.array([state.zones[piece.zone].density for piece in model.pieces])
    return np.asarray(model.dead_weight + model.content_area * density * GRAVITY)
