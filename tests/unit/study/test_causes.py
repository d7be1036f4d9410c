"""Unit causes and their amounts sum to each state's loads.     (tests/unit/study/test_causes.py)

Expected: strain, weight and movements of each state written down piece by piece, from first principles, without units
and amounts. Tolerance 1e-12 of the largest: sums of the same products in another order.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.builders import hold, joint, line_file, solve_all

from takeup.line import State
from takeup.study import Solved
from takeup.study.causes import GROWTH, IMPOSED, PRESET, PRESSURE, SUSTAINED, WEIGHT
from takeup.study.model import LineModel

Floats = NDArray[np.float64]
GRAVITY, POISSON = 9.80665, 0.3
SAME = 1e-12
NEAR = joint("J1", "west end + 1.5 m", preset="10 mm extended")
WATER = {
    "medium": "water",
    "design": "{ pressure: 12 bar(g), at_elevation: 20 m, temperature: 300 °F, vacuum: possible }",
    "operating": "{ pressure: 10 bar(g), at_elevation: 20 m, temperature: 280 °F }",
    "test": "{ pressure: 18 bar(g), gauge_elevation: 7 m, with: water, temperature: 70 °F }",
}
LINES = {
    "riser full of water": line_file(["20 m up"], holds=(hold("slide guide", "[3 m, 8 m]"),), takeups=(NEAR,), **WATER),
    "two zones": line_file(
        ["30 m east", "9 m up", "8 m north"],
        end="equipment, growth: { movement: [1 mm, -2 mm, 3 mm], source: invented }",
        holds=(
            hold("intermediate anchor", "15 m", name="middle", settlement="[0 mm, 2 mm, -3 mm]"),
            hold("rest", "22 m", settlement="[0 mm, 0 mm, -1 mm]", hot_leg="200 mm"),
        ),
        takeups=(NEAR, joint("J2", "18 m", effective_area="52000 mm2")),
        test="{ pressure: 18 bar(g), gauge_elevation: 0 m, with: water, temperature: 70 °F }",
        more="loads: [ { name: snow, on: T-1, from: 20 m, to: 25 m, force_per_length: [0 N/m, 0 N/m, -200 N/m], "
        "acts: sustained, source: invented } ]",
    ),
}


def summed(solved: Solved, kind: int) -> dict[str, Floats]:
    """Return what the causes of one kind are together in every state."""
    ground, way = solved.run.ground, solved.run.way
    amounts = way.steps.amounts[way.arrivals] * (np.array(ground.causes.kinds) == kind)
    unit = ground.causes.loads
    assert unit.per_length is not None
    assert unit.nodal is not None
    assert unit.imposed is not None
    return {
        "strain": amounts @ unit.strain,
        "per_length": np.einsum("sc,cmx->smx", amounts, unit.per_length),
        "nodal": np.einsum("sc,cnx->snx", amounts, unit.nodal),
        "imposed": np.einsum("sc,chx->shx", amounts, unit.imposed),
    }


def by_piece(solved: Solved, value: object) -> Floats:
    """Return a value of state, line and piece at its member, (states, members)."""
    found = np.zeros((len(solved.states), solved.model.frame.member_count))
    assert callable(value)
    for number, state in enumerate(solved.states):
        for line in solved.model.lines:
            for place, member in enumerate(line.members):
                found[number, member] = value(state, line, place)
    return found


def bore(line: LineModel, place: int) -> float:
    pipe = line.pieces[place].pipe
    return math.pi / 4.0 * (pipe.size.outside_diameter - 2.0 * pipe.wall) ** 2


def is_bellows(line: LineModel, place: int) -> bool:
    return line.pieces[place].part == "bellows"


@pytest.fixture(scope="module", params=LINES)
def solved(request: pytest.FixtureRequest) -> Solved:
    return solve_all(LINES[request.param])


def test_pressure_is_the_strain_of_every_wall_and_the_push_of_every_bellows(solved: Solved):
    """(1 - 2 nu) P A_bore/(E A) and P A_e/(E A), P = P_0 + rho g (z_0 - z) in the middle of the piece."""

    def strain(state: State, line: LineModel, place: int) -> float:
        zone = state.zones[line.pieces[place].zone]
        pressure = zone.pressure + zone.density * GRAVITY * (zone.at_elevation - float(line.elevation[place]))
        if zone.pressure == 0.0 and zone.content not in ("water", "condensate", "thermal oil"):
            return 0.0  # what is open and holds no liquid has no head
        area = 46e-3 if is_bellows(line, place) else 0.4 * bore(line, place)
        if is_bellows(line, place) and line.pieces[place].joint is not None and line.pieces[place].joint.name == "J2":
            area = 52e-3
        return pressure * area / float(line.axial[place])

    expected = by_piece(solved, strain)
    assert np.abs(expected).max() > 1e-6
    found = summed(solved, PRESSURE)
    assert found["strain"] == pytest.approx(expected, abs=SAME * np.abs(expected).max())
    assert not any(found[key].any() for key in ("per_length", "nodal", "imposed"))


def test_growth_is_that_of_each_zone_and_a_bellows_has_none(solved: Solved):
    def strain(state: State, line: LineModel, place: int) -> float:
        piece = line.pieces[place]
        expansion = piece.pipe.material.expansion
        grown = expansion.at(state.zones[piece.zone].temperature) - expansion.at(solved.study.site.installation)
        return 0.0 if is_bellows(line, place) else grown

    expected = by_piece(solved, strain)
    assert np.abs(expected).max() > 1e-3
    assert summed(solved, GROWTH)["strain"] == pytest.approx(expected, abs=SAME * np.abs(expected).max())


def test_a_joint_fitted_longer_wants_to_shorten(solved: Solved):
    """By its preset over its live length: J1 10 mm over 0.6 m; J2 is as long as it was made."""

    def strain(_state: State, line: LineModel, place: int) -> float:
        piece = line.pieces[place]
        return -0.010 / 0.6 if is_bellows(line, place) and piece.joint is not None and piece.joint.name == "J1" else 0.0

    assert summed(solved, PRESET)["strain"] == pytest.approx(by_piece(solved, strain), abs=SAME)


def test_weight_is_that_of_steel_joint_and_content(solved: Solved):
    """42.55 kg/m of DN 200, 1.9 kN over 1.1 m of joint; rho A_bore g of content, A_e in a bellows."""
    steel = math.pi / 4.0 * (0.2191**2 - (0.2191 - 0.01636) ** 2) * 7850.0 * GRAVITY

    def weight(state: State, line: LineModel, place: int) -> float:
        piece = line.pieces[place]
        area = bore(line, place)
        if is_bellows(line, place) and piece.joint is not None:
            area = 52e-3 if piece.joint.name == "J2" else 46e-3
        own = steel if piece.joint is None else 1900.0 / 1.1
        return -own - state.zones[piece.zone].density * area * GRAVITY

    found = summed(solved, WEIGHT)["per_length"]
    expected = by_piece(solved, weight)
    assert found[..., 2] == pytest.approx(expected, rel=1e-9)  # pi/4 (a + b)(a - b) told in two ways
    assert not found[..., :2].any()


def test_what_is_moved_is_moved_and_the_users_load_stays():
    """Feet settle in all states but the first; equipment grows by its share of the way to operating temperature."""
    found = solve_all(LINES["two zones"])
    imposed, snow = summed(found, IMPOSED)["imposed"], summed(found, SUSTAINED)["per_length"]
    row = {hold.name: number for number, hold in enumerate(found.model.holds)}
    holds = {hold.name: hold for hold in found.model.holds}
    for number, state in enumerate(found.states):
        settled = imposed[number, row["middle"], :3] @ holds["middle"].axes
        assert settled == pytest.approx([0.0, 2e-3, -3e-3] if number else [0.0] * 3, abs=1e-15)
        share = (state.zones[1].temperature - (70.0 - 32.0) / 1.8) / (330.0 / 1.8)
        grown = imposed[number, row["east end"], :3] @ holds["east end"].axes
        assert grown == pytest.approx(share * np.array([1e-3, -2e-3, 3e-3]), abs=1e-12)
    line = found.model.lines[0]
    length = np.array([piece.end - piece.start for piece in line.pieces])
    assert snow[:, line.members, 2] @ length == pytest.approx(np.full(len(found.states), -1000.0), rel=1e-9)  # 5 x 200


def test_the_foot_of_a_rest_settles_and_its_hot_leg_grows():
    """1 mm down in all states but the first, and 0.2 m of steel up; a row's direction is down."""
    found = solve_all(LINES["two zones"])
    ground, way = found.run.ground, found.run.way
    (number,) = [place for place, row in enumerate(ground.contacts.rows) if row.plus == "down"]
    assert way.steps.feet is not None
    expansion = found.study.lines[0].sections[0].pipe.material.expansion
    for state, step in zip(found.states, way.arrivals, strict=True):
        grown = expansion.at(state.zones[1].temperature) - expansion.at(found.study.site.installation)
        expected = (0.0 if state.name == "installed" else 1e-3) - 0.2 * grown
        assert way.steps.feet[step, number] == pytest.approx(expected, abs=1e-12)
