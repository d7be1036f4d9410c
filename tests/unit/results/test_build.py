"""The results document of whole lines: what it says, as plain JSON.     (tests/unit/results/test_build.py)"""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from tests.builders import hold, joint, line_file, rule, study_of

from takeup.results import results_of, write_results

GUIDED = (rule("slide guide", "spacing rule"), rule("rest", "support spans"))
RUN = line_file(["40 m east"], holds=GUIDED, takeups=(joint("J1", "west end + 1.2 m", kind="externally pressurised"),))
IN_GUIDES = hold("slide guide", "[3 m, 9 m]")
LOOSE = line_file(["12 m east"], start="free", end="free", holds=(hold("slide guide", "[3 m, 9 m]"),))


def test_a_capacity_that_nobody_stated_leaves_the_study_not_proved():
    results = results_of(study_of(RUN))
    assert results["verdict"]["outcome"] == "not proved"
    assert any("what it can carry is not stated" in reason for reason in results["verdict"]["because"])


def test_parts_in_the_document_sum_to_the_load():
    for item in results_of(study_of(RUN))["holds"]:
        for load in item["loads"]:
            for key in ("force_n", "moment_nm"):
                parts = [part[key] for part in load["parts"].values()]
                total = [sum(values) for values in zip(*parts, strict=True)]
                assert total == pytest.approx(load[key], abs=1e-6)  # N: rounding of sums of 1e6


def test_the_friction_band_is_the_load_and_the_bound_both_ways():
    """Of the walk without friction; whatever friction leaves in the walks with it lies between."""
    east = next(item for item in results_of(study_of(RUN))["holds"] if item["name"] == "east end")
    along: dict[str, list[float]] = {}
    for row in east["scenarios"]:
        along.setdefault(row["scenario"], []).append(row["force_n"][0])
    assert list(along) == ["no friction", "low friction", "high friction"]
    free, band = along["no friction"], east["band"]
    assert max(free) < band["high_n"] <= max(free) + east["envelope"]["friction_bound_n"] + 1e-6
    assert band["low_n"] < min(free)
    for forces in along.values():
        assert band["low_n"] <= min(forces)
        assert max(forces) <= band["high_n"]
    assert along["high friction"] != free


def test_loads_told_in_full_are_those_with_the_most_friction():
    east = next(item for item in results_of(study_of(RUN))["holds"] if item["name"] == "east end")
    whole = [row for row in east["scenarios"] if row["scenario"] == "high friction"]
    assert [(load["state"], load["force_n"]) for load in east["loads"]] == [
        (row["state"], row["force_n"]) for row in whole
    ]
    assert {load["scenario"] for load in east["loads"]} == {"high friction"}
    assert any(abs(load["parts"]["friction"]["force_n"][0]) > 100.0 for load in east["loads"])  # N


def test_envelope_of_every_hold_contains_every_scenario():
    for item in results_of(study_of(RUN))["holds"]:
        for key in ("force_n", "moment_nm"):
            low, high = item["envelope"][key]["min"], item["envelope"][key]["max"]
            rounding = 1e-9 * max(map(abs, (*low, *high)))  # two sums of the same numbers in another order
            for row in item["scenarios"]:
                for least, value, most in zip(low, row[key], high, strict=True):
                    assert least - rounding <= value <= most + rounding


def test_a_line_that_is_not_held_fails_with_words_and_without_numbers():
    results = results_of(study_of(LOOSE))
    assert results["verdict"]["outcome"] == "fails"
    assert "can turn freely about the direction (1, 0, 0)" in results["verdict"]["because"][0]
    assert results["holds"] == []
    assert not results["solver"]["solved"]
    assert all(not state["converged"] for state in results["states"])


def test_free_motions_have_their_shape():
    """An L on rests: all nodes move east by one, or north by one; about the vertical the farthest moves by one."""
    text = line_file(["12 m east", "8 m north"], start="free", end="free", holds=(hold("rest", "[3 m, 9 m, 17 m]"),))
    results = results_of(study_of(text))
    east, north, turned = results["not_held"]
    for motion, way in ((east, [1.0, 0.0, 0.0]), (north, [0.0, 1.0, 0.0])):
        (shape,) = motion["shape"]
        assert np.abs(np.array(shape["movement"]) - way).max() < 1e-9  # rounding of solutions over 20 m
        assert np.abs(shape["turn"]).max() < 1e-9
        assert len(shape["station_m"]) == len(shape["at_m"]) == len(shape["movement"]) > 4
    (shape,) = turned["shape"]
    moved, places, turn = (np.array(shape[key]) for key in ("movement", "at_m", "turn"))
    assert np.linalg.norm(moved, axis=1).max() == pytest.approx(1.0, abs=1e-12)  # scaled to it
    assert moved - moved[0] == pytest.approx(np.cross(turn, places - places[0]), abs=1e-9)  # rigid: v = w x r
    told = [reason.removeprefix("not solved: ") for reason in results["verdict"]["because"]]
    assert [any(reason.startswith(motion["words"]) for reason in told) for motion in (east, north, turned)] == [
        True
    ] * 3


def test_line_that_turns_about_itself_has_a_turn_and_no_movement():
    (motion,) = results_of(study_of(line_file(["12 m east"], start="free", end="blind", holds=(IN_GUIDES,))))[
        "not_held"
    ]
    (shape,) = motion["shape"]
    assert shape["turn"] == [1.0, 0.0, 0.0]
    assert not np.any(shape["movement"])


def test_line_in_guides_with_a_leg_beside_tips_about_their_axis():
    """The only free motion: not a shift and a turn about the middle, which the guides would resist one by one."""
    text = line_file(["12 m east", "3 m north"], start="free", end="free", holds=(IN_GUIDES,))
    (motion,) = results_of(study_of(text))["not_held"]
    assert "can turn freely about the direction (1, 0, 0)" in motion["words"]
    (shape,) = motion["shape"]
    moved, places = np.array(shape["movement"]), np.array(shape["at_m"])
    assert moved[:, 2] == pytest.approx(places[:, 1] / 3.0, abs=1e-9)  # the end of the leg moves by one
    assert np.abs(moved[:, :2]).max() < 1e-9


def test_held_line_has_no_free_motion():
    assert results_of(study_of(RUN))["not_held"] == []


def test_the_hand_stands_beside_the_model_on_every_anchor():
    for item in results_of(study_of(RUN))["holds"]:
        if "anchor" in item["kind"]:
            rows = [row for row in item["hand"] if row["value"] is not None and "force along" in row["what"]]
            assert rows
            assert all(abs(row["difference_percent"]) < 1.0 for row in rows)  # the pipe's give, 0.34 %


@pytest.mark.parametrize("text", [RUN, LOOSE])
def test_the_document_is_written_whole_as_plain_json(text: str, tmp_path: Path):
    results = results_of(study_of(text))
    write_results(results, tmp_path / "results.json")
    assert json.loads((tmp_path / "results.json").read_text(encoding="utf-8")) == json.loads(json.dumps(results))
    assert [path.name for path in tmp_path.iterdir()] == ["results.json"]


def test_a_document_that_cannot_be_written_leaves_nothing_behind(tmp_path: Path):
    with pytest.raises(ValueError, match="not JSON compliant"):
        write_results({"value": float("nan")}, tmp_path / "results.json")
    assert list(tmp_path.iterdir()) == []


def test_two_runs_give_the_same_document():
    assert json.dumps(results_of(study_of(RUN))) == json.dumps(results_of(study_of(RUN)))
