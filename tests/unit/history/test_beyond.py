"""Where a record goes beyond design, the ratings of joints and the capacity of anchors."""

from __future__ import annotations

import json

import numpy as np
import pytest
from tests.builders import hold, joint, line_file, rule, study_of

from takeup.cli import main
from takeup.history import record_from_bytes, record_part, with_record
from takeup.history.beyond import _worst
from takeup.results import results_of

GUIDED = (rule("slide guide", "spacing rule"), hold("rest", "30 m"))
TEXT = line_file(
    ["40 m east"],
    start="main anchor, can_carry: 60 kN",
    holds=GUIDED,
    takeups=(joint("J1", "west end + 1.2 m", kind="externally pressurised"),),
)


def part(*rows: str) -> dict:
    study = study_of(TEXT)
    text = "time_s,pressure_bar,temperature_c\n" + "\n".join(rows) + "\n"
    found = record_part(study, record_from_bytes(text.encode(), "r.csv", study))
    assert isinstance(found, dict)
    return found


def test_a_record_within_everything_passes_no_limit():
    """Operating is 10 bar and 204.4 degC; design 12 bar."""
    assert part("0,0,21.2", "100,10,200", "200,0,21.2")["beyond"] == []


def test_pressure_above_design_loads_the_anchor_beyond_its_capacity():
    """15 bar x 46 000 mm2 = 69 kN and the spring: above 60 kN; above 12 bar; not above the joint's 16 bar."""
    beyond = {(one["where"], one["what"]): one for one in part("0,0,21.2", "100,15,150", "200,0,21.2")["beyond"]}
    assert set(beyond) == {
        ("west end to east end", "pressure above design"),
        ("west end", "force along it above what it can carry"),
    }
    force = beyond["west end", "force along it above what it can carry"]
    assert force["value"] > 69e3 * 0.99  # the pipe's own give takes a third of a per cent
    assert (force["limit"], force["unit"], force["at_s"]) == (60e3, "N", 100.0)
    pressure = beyond["west end to east end", "pressure above design"]
    assert (pressure["value"], pressure["limit"]) == (pytest.approx(15.0), pytest.approx(12.0))


def test_vacuum_below_the_joint_and_heat_beyond_its_travel_are_told():
    """350 degC: 39.4 m x 4.2 mm/m is more than 140 mm; the joint is rated for 300 degC."""
    whats = {one["what"] for one in part("0,0,21.2", "100,5,350", "200,0,21.2")["beyond"] if one["where"] == "J1"}
    assert whats == {"temperature above its rating", "shorter than it is rated for"}


def test_a_study_with_a_record_beyond_a_limit_fails_and_says_so():
    results = results_of(study_of(TEXT))
    verdict = with_record(results, part("0,0,21.2", "100,15,150", "200,0,21.2"))["verdict"]
    assert verdict["outcome"] == "fails"
    assert any(reason.startswith("record, west end: force along it") for reason in verdict["because"])
    same = with_record(results, part("0,0,21.2", "100,10,200", "200,0,21.2"))
    assert same["verdict"] == results["verdict"]


def test_the_command_fails_by_a_record(tmp_path, capsys):
    (tmp_path / "l.yaml").write_text(TEXT, encoding="utf-8")
    (tmp_path / "r.csv").write_text("time_s,pressure_bar,temperature_c\n0,0,21.2\n9,15,150\n", encoding="utf-8")
    with pytest.raises(SystemExit) as ended:
        main(["study", str(tmp_path / "l.yaml"), "--record", str(tmp_path / "r.csv")])
    assert ended.value.code == 1
    assert "beyond: west end: force along it above what it can carry" in capsys.readouterr().out
    written = json.loads((tmp_path / "l.out" / "results.json").read_text(encoding="utf-8"))
    assert written["record"]["beyond"]


def of_joint(joint_text: str, *rows: str) -> dict[str, dict]:
    """Return what the joint is beyond in a record, by what it is."""
    study = study_of(line_file(["40 m east"], holds=GUIDED, takeups=(joint_text,)))
    text = "time_s,pressure_bar,temperature_c\n" + "\n".join(rows) + "\n"
    found = record_part(study, record_from_bytes(text.encode(), "r.csv", study))
    assert isinstance(found, dict)
    return {one["what"]: one for one in found["beyond"] if one["where"] == "J1"}


@pytest.mark.parametrize(("sense", "rated"), [("extended", 20.0), ("compressed", 140.0)])
def test_movement_of_a_preset_joint_is_counted_from_its_neutral_length(sense: str, rated: float):
    """Cold, it stands as it was fitted: 150 mm long of 20 mm, or 150 mm short of 140 mm; never the other."""
    found = of_joint(joint("J1", "west end + 1.2 m", preset=f"150 mm {sense}"), "0,0,21.2", "9,0,21.2")
    (what,) = found
    assert what == f"{'longer' if sense == 'extended' else 'shorter'} than it is rated for"
    assert found[what]["value"] == pytest.approx(150.0, abs=1.0)  # mm; 14 kN of spring press 0.5 mm out of 39 m of pipe
    assert found[what]["limit"] == pytest.approx(rated)


@pytest.mark.parametrize("lowest", ["-0.3 bar(g)", None])
def test_the_lowest_pressure_of_a_joint_is_a_limit_below(lowest: str | None):
    """-0.5 bar is below -0.3 bar, and below nothing where the sheet says no vacuum; -0.2 bar is not below -0.3 bar."""
    text = joint("J1", "west end + 1.2 m", minimum_pressure=lowest)
    found = of_joint(text, "0,0,21.2", "9,-0.5,21.2", "12,0,21.2")["pressure below its lowest"]
    limit = 0.0 if lowest is None else -0.3
    assert (found["value"], found["limit"], found["at_s"]) == (pytest.approx(-0.5), pytest.approx(limit), 9.0)
    within = of_joint(text, "0,0,21.2", "9,-0.2,21.2", "12,0,21.2")
    assert ("pressure below its lowest" in within) == (lowest is None)


def test_a_limit_that_is_reached_is_not_passed_and_a_thousandth_above_is():
    """At design, 12 bar told as such, nothing is beyond; 12.012 bar is."""
    for pressure, told in (("12", False), ("12.012", True)):
        whats = [one["what"] for one in part("0,0,21.2", f"100,{pressure},150", "200,0,21.2")["beyond"]]
        assert ("pressure above design" in whats) == told


@pytest.mark.parametrize(("above", "count"), [(1e-12, 0), (1e-6, 1)])
def test_rounding_passes_no_limit(above: float, count: int):
    """A value above its limit by the last bits of a sum is at it; a millionth above is beyond."""
    study = study_of(TEXT)
    record = record_from_bytes(b"time_s,pressure_bar,temperature_c\n0,0,21.2\n9,10,21.2\n", "r.csv", study)
    found = list(_worst(record, np.array([0.0, 12.0 * (1.0 + above)]), 12.0, ("pressure", "here", "bar")))
    assert len(found) == count
