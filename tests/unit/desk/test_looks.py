"""A look says what the whole study says: forces, movements, contacts and rods, in every state of either walk."""

from __future__ import annotations

import json

import pytest
from tests import example_studies
from tests.builders import DN200, hold, joint, line_file, rule
from tests.unit.desk.benches import KETTERBY, asked, bench, of_text, step_of

from takeup.desk.interface import Look
from takeup.drawing.reading import Record, number_of, numbers_in, records_of, text_of

SCENARIOS = ("no friction", "high friction")
ROUNDING = {"rel": 1e-9, "abs": 1e-6}  # one walk, superposed in another order: a micronewton or a micrometre apart


def look_at(name: str, state: str, scenario: str) -> Look:
    one = bench(name)
    found = one.look(asked(step=step_of(one, state, scenario), scenario=scenario))
    assert found["trouble"] == ""
    return found


def size(vector: object) -> float:
    return sum(part * part for part in numbers_in(vector)) ** 0.5


@pytest.mark.parametrize("name", [KETTERBY, "orrin-bank-turbine-steam", "fell-gill-offset"])
@pytest.mark.parametrize("scenario", SCENARIOS)
def test_forces_on_holds_are_those_of_the_results_in_every_state(name, scenario):
    results = example_studies.results(name)
    for state in records_of(results, "states"):
        found = {hold["id"]: hold for hold in look_at(name, text_of(state, "name"), scenario)["holds"]}
        assert len(found) == len(records_of(results, "holds"))
        for row in records_of(results, "holds"):
            told = next(
                one
                for one in records_of(row, "scenarios")
                if (text_of(one, "scenario"), text_of(one, "state")) == (scenario, text_of(state, "name"))
            )
            own = found[f"{text_of(row, 'line')}/{text_of(row, 'name')}"]
            along = sum(a * f for a, f in zip(numbers_in(row["axes"][0]), numbers_in(told["force_n"]), strict=True))
            assert 1e3 * own["force_kn"] == pytest.approx(size(told["force_n"]), **ROUNDING)
            assert 1e3 * own["along_kn"] == pytest.approx(along, **ROUNDING)
            assert 1e3 * own["moment_knm"] == pytest.approx(size(told["moment_nm"]), **ROUNDING)


@pytest.mark.parametrize("name", [KETTERBY, "orrin-bank-turbine-steam", "fell-gill-offset"])
@pytest.mark.parametrize("scenario", SCENARIOS)
def test_contacts_bear_where_the_results_say_that_they_touch(name, scenario):
    for row in records_of(example_studies.results(name), "holds"):
        touching: dict[str, bool] = {}
        for contact in records_of(row, "contact"):
            if text_of(contact, "scenario") == scenario:
                state = text_of(contact, "state")
                touching[state] = touching.get(state, False) or text_of(contact, "status") == "touches"
        for state, touches in touching.items():
            found = {hold["id"]: hold for hold in look_at(name, state, scenario)["holds"]}
            own = found[f"{text_of(row, 'line')}/{text_of(row, 'name')}"]
            assert own["contact"] == ("bears" if touches else "free")


@pytest.mark.parametrize("name", [KETTERBY, "fell-gill-offset"])
def test_movements_of_joints_are_those_of_the_results(name):
    """The results tell them with the most friction that was walked."""
    results = example_studies.results(name)
    for row in records_of(results, "takeups"):
        for told in records_of(row, "movements"):
            found = look_at(name, text_of(told, "state"), "high friction")["takeups"]
            own = next(one for one in found if one["id"].endswith(f"/{text_of(row, 'name')}"))
            for key in ("axial_mm", "lateral_mm", "angular_deg"):
                assert own[key] == pytest.approx(number_of(told, key), **ROUNDING)
            length = number_of(row, "set_length_mm") + number_of(told, "axial_mm")
            assert own["length_mm"] == pytest.approx(length, **ROUNDING)
        assert [rod["name"] for rod in own["rods"]] == list(dict.fromkeys(_rods(row, "rod")))


def _rods(row: Record, key: str) -> list[str]:
    return [text_of(rod, key) for rod in records_of(row, "rods")]


@pytest.mark.parametrize("scenario", SCENARIOS)
def test_rods_pull_and_stand_off_as_in_the_results(scenario):
    name = "fell-gill-offset"
    told = {
        (text_of(row, "name"), text_of(rod, "rod"), text_of(rod, "state")): rod
        for row in records_of(example_studies.results(name), "takeups")
        for rod in records_of(row, "rods")
        if text_of(rod, "scenario") == scenario
    }
    assert told, "the example has rods"
    for (joint_name, rod_name, state), rod in told.items():
        found = look_at(name, state, scenario)["takeups"]
        own = next(one for one in found if one["id"].endswith(f"/{joint_name}"))
        mine = next(one for one in own["rods"] if one["name"] == rod_name)
        assert mine["engaged"] is rod["engaged"]
        assert 1e3 * mine["tension_kn"] == pytest.approx(number_of(rod, "tension_n"), **ROUNDING)
        assert mine["gap_mm"] == pytest.approx(number_of(rod, "gap_mm"), **ROUNDING)


def test_use_of_an_anchor_is_its_force_over_what_it_can_carry():
    found = look_at(KETTERBY, "operating", "no friction")["holds"]
    header = next(one for one in found if one["id"] == "LS-201/boiler house header")
    assert header["capacity_kn"] == 120.0  # the file: can_carry 120 kN
    assert header["use"] == pytest.approx(header["force_kn"] / 120.0, rel=1e-12)  # one division
    assert f"{header['force_kn']:.1f} kN of 120 kN" in header["words"]


def test_a_hold_without_a_capacity_has_no_use_and_says_so():
    found = look_at(KETTERBY, "operating", "no friction")["holds"]
    guide = next(one for one in found if "slide guide" in one["id"])
    assert guide["use"] is None
    assert guide["capacity_kn"] is None
    assert "not stated" in guide["words"] or "free" in guide["words"]


def test_use_of_a_joint_adds_its_movements_over_their_ratings_as_the_check_does():
    """J1 of the offset may be shortened by 30 mm, moved aside by 110 mm and turned by 8 degrees (its data)."""
    found = look_at("fell-gill-offset", "design pressure and temperature", "no friction")["takeups"]
    (j1,) = found
    by_hand = -j1["axial_mm"] / 30.0 + j1["lateral_mm"] / 110.0 + j1["angular_deg"] / 8.0
    assert j1["use"] == pytest.approx(by_hand, rel=1e-9)  # divisions of rounded conversions
    assert j1["use"] > j1["lateral_mm"] / 110.0 + 0.1, "together they are clearly more than the greatest"
    checks = records_of(example_studies.results("fell-gill-offset"), "checks")
    (check,) = [row for row in checks if text_of(row, "rule") == "joint_movement"]
    assert j1["use"] == pytest.approx(number_of(check, "use"), rel=1e-6)  # the check's worst is this state, no friction
    assert "of 30 mm shorter" in j1["words"]
    assert "together 0.85" in j1["words"]


def test_what_the_pins_of_a_hinge_give_asks_for_no_rating():
    """The plates grow by some tenths of a millimetre under the thrust: within 2 % of the live length it is none."""
    for own in look_at("brack-hill-hinge-pair", "design pressure and temperature", "no friction")["takeups"]:
        assert own["axial_mm"] > 0.05
        assert "no rating" not in own["words"]
        assert "of 4°" in own["words"]


def test_a_state_by_hand_is_what_the_walk_finds_there():
    """Operating of the demonstration: 10 bar and 184.5 degC everywhere, steam; the walk goes another way to it."""
    one = bench(KETTERBY)
    walked = look_at(KETTERBY, "operating", "no friction")
    by_hand = one.look(asked(hand=(10.0, 184.5)))
    assert by_hand["trouble"] == ""
    assert by_hand["words"] == "by hand: 10 bar(g) and 184.5 °C"
    for mine, theirs in zip(by_hand["holds"], walked["holds"], strict=True):
        # without friction a state does not depend on the way to it; two ways of a walk differ by its own 1e-9
        assert mine["force_kn"] == pytest.approx(theirs["force_kn"], rel=1e-7, abs=1e-6)
    for mine, theirs in zip(by_hand["takeups"], walked["takeups"], strict=True):
        assert mine["axial_mm"] == pytest.approx(theirs["axial_mm"], rel=1e-7)  # the same
    for mine, theirs in zip(by_hand["movements"], walked["movements"], strict=True):
        assert mine["movement_m"] == pytest.approx(theirs["movement_m"], abs=2e-6)  # they are rounded to micrometres


def test_pressure_by_hand_loads_the_end_anchor_by_its_thrust():
    """5 bar more on A_e = 46000 mm2 is 23.0 kN more at the end anchor: 5e5 Pa x 0.046 m2 (by hand)."""
    one = bench(KETTERBY)
    forces = []
    for pressure in (5.0, 10.0):
        found = one.look(asked(hand=(pressure, 12.0)))["holds"]
        forces.append(next(own["along_kn"] for own in found if own["id"] == "LS-201/boiler house header"))
    # the pipe beyond gives by its own stretch under pressure, some hundredths of the spring's force at most
    assert forces[0] - forces[1] == pytest.approx(23.0, rel=0.01)


def test_outside_of_the_tables_a_state_by_hand_is_refused_with_a_sentence():
    found = bench(KETTERBY).look(asked(hand=(10.0, 3000.0)))
    assert found["trouble"]
    assert "3000" in found["trouble"]
    assert (found["holds"], found["takeups"], found["overlays"], found["movements"]) == ([], [], [], [])


@pytest.mark.parametrize("step", [-1, 71, 10_000])
def test_a_step_that_is_not_there_is_told(step):
    assert "the walk has 71 steps" in bench(KETTERBY).look(asked(step=step))["trouble"]


def test_a_look_that_asks_for_nothing_is_told():
    assert "a step of the walk" in bench(KETTERBY).look(asked())["trouble"]


def test_a_look_can_be_sent_as_json_and_answers_its_own_number():
    found = bench(KETTERBY).look(asked(step=40))
    assert json.loads(json.dumps(found, allow_nan=False)) == found
    assert (found["number"], found["revision"]) == (5, 7)


def test_friction_changes_what_the_anchors_get_and_its_bound_is_in_neither():
    without, rubbed = (look_at(KETTERBY, "operating", scenario)["holds"] for scenario in SCENARIOS)
    assert any(abs(a["force_kn"] - b["force_kn"]) > 0.1 for a, b in zip(without, rubbed, strict=True))


def test_a_line_that_nothing_holds_says_so_in_every_look():
    """A joint with free ends: nothing holds the pipe along itself."""
    text = line_file(
        ["20 m east"],
        start="free",
        end="free",
        holds=(
            hold("slide guide", "5 m", slides_on="PTFE on steel"),
            hold("slide guide", "15 m", slides_on="PTFE on steel"),
        ),
    )
    one = of_text(text)
    for look in (one.look(asked(step=0)), one.look(asked(hand=(5.0, 100.0)))):
        assert "the line" in look["trouble"]
        assert look["holds"] == []
    assert one.walk("no friction")["trouble"]
    assert one.walk("no friction")["steps"] == []
    assert len(one.views()["views"]) == 2, "it is drawn all the same"
    assert one.solids()["parts"]


def test_a_line_without_joints_is_looked_at():
    text = line_file(["10 m east", "10 m north", "10 m east"], holds=(rule("rest", "support spans"),))
    one = of_text(text)
    found = one.look(asked(step=2, scenario="high friction"))
    assert found["trouble"] == ""
    assert found["takeups"] == []
    assert len(found["overlays"]) == 2


def test_a_joint_that_is_not_rated_for_its_movement_says_so():
    text = line_file(
        ["40 m east"],
        takeups=(joint("J1", "2 m", lateral=None, angular=None),),
        holds=(rule("slide guide", "spacing rule"),),
        pipe=DN200,
    )
    found = of_text(text).look(asked(hand=(10.0, 204.0)))
    (own,) = found["takeups"]
    assert "no rating for" in own["words"]
    assert own["use"] is not None, "what is rated is still told"
