"""Where a record goes beyond design, the ratings of joints and the capacity of anchors."""

from __future__ import annotations

import json

import pytest
from tests.builders import hold, joint, line_file, rule, study_of

from takeup.cli import main
from takeup.history import record_from_bytes, record_part, with_record
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
