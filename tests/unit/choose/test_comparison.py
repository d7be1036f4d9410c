"""Certified values put into a line, and what the study says then.     (tests/unit/choose/test_comparison.py)

Lines and values are invented. A sheet is a text here; the same cells as a workbook are read in test_comparison_faults.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.builders import JOINT_DATA, hold, joint, joint_by_geometry, line_file, rule

from takeup.choose.comparison import compare
from takeup.choose.comparison.certified import put_values
from takeup.choose.comparison.changes import changed_checks
from takeup.choose.comparison.differences import differences
from takeup.choose.comparison.quantities import BY_QUANTITY
from takeup.choose.comparison.targets import targets_of, with_target
from takeup.choose.resolve import choose_joints
from takeup.choose.rules import resolve_rules
from takeup.joints.ratings import COMPUTED
from takeup.line import Study
from takeup.line.reading.reader import study_from_text
from takeup.results import results_of
from takeup.study import NO_FRICTION

GUIDES = (hold("slide guide", "[2.3 m, 4.9 m, 10.9 m, 16.9 m, 22.9 m, 28.9 m, 34.9 m]"),)
TEST = "under hydrostatic test"
SAME_AS_FILE = {
    "axial_rate_n_per_mm": "95",
    "effective_area_mm2": "46000",
    "length_mm": "1100",
    "live_length_mm": "600",
    "weight_n": "1900",
    "axial_compression_mm": "140",
    "axial_extension_mm": "20",
    "lateral_mm": "5",
    "angular_deg": "1",
    "pressure_bar": "16",
    "test_pressure_bar": "24",
    "minimum_pressure_bar": "-1.01325",
    "temperature_c": "300",
    "rated_cycles": "2000",
}
"""`JOINT_DATA` of the builders as a sheet writes it."""


def straight(*takeups: str, holds: tuple[str, ...] = GUIDES, **keys: str) -> Study:
    """Return 40 m of straight DN 200 between main anchors, with joints."""
    return study_from_text(line_file(["40 m east"], holds=holds, takeups=takeups, **keys), "main.yaml")


def single(**data: str | None) -> Study:
    return straight(joint("J1", "west end + 1.2 m", kind="externally pressurised", **data))


def sheet(*rows: dict[str, str]) -> bytes:
    """Return rows as comma-separated text; cells that a row has not are empty."""
    names = list(dict.fromkeys(name for row in rows for name in row))
    lines = [",".join(names), *(",".join(f'"{row.get(name, "")}"' for name in names) for row in rows)]
    return ("\n".join(lines) + "\n").encode()


def row_of(document: dict, name: str, takeup: int = 0) -> dict:
    return next(one for one in document["takeups"][takeup]["values"] if one["column"] == name)


def along(results: dict, anchor: str, state: str = TEST) -> float:
    """Return the force of the line on an anchor along it, without friction [N]."""
    held = next(one for one in results["holds"] if one["name"] == anchor)
    return next(one for one in held["scenarios"] if (one["scenario"], one["state"]) == (NO_FRICTION, state))["force_n"][
        0
    ]


def test_sheet_equal_to_the_file_shows_nothing_and_gives_the_same_results():
    """Byte by byte but for whose the data are, which the certificate now says."""
    study = single()
    found = compare(study, sheet({"takeup": "J1", "certificate": "C-1", **SAME_AS_FILE}), "s.csv")
    assert len(SAME_AS_FILE) == len(JOINT_DATA)
    assert {one["status"] for one in found.document["takeups"][0]["values"]} == {"same"}
    assert found.document["checks"] == []
    assert all(one["before"] == one["after"] for one in (*found.document["anchors"], *found.document["joints"]))
    before, after = results_of(resolve_rules(study)), found.results
    said = after["takeups"][0].pop("provenance")
    before["takeups"][0].pop("provenance")
    assert said.startswith("certified: C-1, s.csv, SHA-256 ")
    assert "in the line file" not in said
    assert json.dumps(before) == json.dumps(after)


def test_other_units_of_the_same_values_are_the_same():
    """95 N/mm = 95/0.17512683 = 542.464 lbf/in; 1.1 m = 1100/25.4 in (exact factors of the inch and the pound)."""
    rate, length = 95.0 / (4.4482216152605 / 25.4), 1100.0 / 25.4
    cells = {
        "axial_rate_lbf_per_in": repr(rate),
        "length_in": repr(length),
        "temperature_f": "572",
        "weight_kg": repr(1900 / 9.80665),
    }
    found = compare(single(), sheet({"takeup": "J1", **cells}), "s.csv")
    assert {one["status"] for one in found.document["takeups"][0]["values"]} == {"same", "not certified"}
    assert found.document["checks"] == []


def test_fifth_more_area_loads_the_anchors_by_its_thrust():
    """P 0.2 A_e = 1.8 MPa x 0.2 x 0.046 m2 = 16 560 N in the test, by hand.

    The pipe gives under it, F L/(E A) = 16 560 x 38.8/(2.03e11 x 5.4e-3) = 0.6 mm, and the joint of 95 N/mm takes 56 N
    of it back: hence 60 N.
    """
    study = single()
    found = compare(study, sheet({"takeup": "J1", "effective_area_mm2": "55200"}), "s.csv")
    before = results_of(resolve_rules(study))
    for anchor, way in (("west end", -1.0), ("east end", 1.0)):
        assert way * (along(found.results, anchor) - along(before, anchor)) == pytest.approx(16_560.0, abs=60.0)
    row = row_of(found.document, "effective_area_mm2")
    assert (row["status"], row["side"], row["because"]) == ("differs", "unsafe", "higher")
    assert row["difference_percent"] == pytest.approx(20.0, rel=1e-9)  # 55200/46000, rounding of floats
    assert {one["rule"] for one in found.document["checks"]} >= {"stability"}
    assert "not certified: axial rate, " in found.document["takeups"][0]["source"]
    assert "in the line file: invented for a test" in found.results["takeups"][0]["provenance"]


@pytest.mark.parametrize(
    ("column", "value", "side"),
    [
        ("axial_rate_n_per_mm", "96", "unsafe"),
        ("axial_rate_n_per_mm", "94", "safe"),
        ("weight_kg", "194", "unsafe"),
        ("pressure_bar", "15.9", "unsafe"),
        ("pressure_bar", "17", "safe"),
        ("minimum_pressure_bar", "-0.5", "unsafe"),
        ("temperature_c", "290", "unsafe"),
        ("rated_cycles", "1000", "unsafe"),
        ("live_length_mm", "610", "neither"),
        ("length_mm", "1000", "neither"),
    ],
)
def test_unsafe_side_of_each(column, value, side):
    found = compare(single(), sheet({"takeup": "J1", column: value}), "s.csv")
    assert row_of(found.document, column)["side"] == side


def test_lower_rating_fails_the_study_and_the_worst_comes_first():
    """Rated 11 bar below the 12 bar of the design: use 12/11 = 1.091, by hand."""
    found = compare(single(), sheet({"takeup": "J1", "pressure_bar": "11"}), "s.csv")
    assert not found.stands
    assert found.document["verdict"]["after"]["outcome"] == "fails"
    worst = found.document["checks"][0]
    assert worst["where"] == "J1"
    assert worst["after"]["outcome"] == "fails"
    assert worst["after"]["use"] == pytest.approx(12.0 / 11.0, rel=1e-9)  # rounding of floats


def test_values_that_only_one_of_both_states_are_told():
    found = compare(single(), sheet({"takeup": "J1", "torsion_limit_nm": "900", "price_index": "7"}), "s.csv")
    assert row_of(found.document, "torsion_limit_nm")["status"] == "not in the file"
    assert row_of(found.document, "axial_rate_n_per_mm")["status"] == "not certified"
    assert found.document["sheet"]["passed_over"] == ["price_index"]
    assert found.results["takeups"][0]["data"]["torque_nm"] == 900.0


def test_certified_lateral_rate_lets_go_of_an_angular_rate_that_nobody_certified():
    """The model takes k_theta; from k_y = 12 k_theta/L^2 with 40 N/mm and 0.6 m: k_theta = 1200 N m/rad, by hand."""
    study = single(angular_rate="50 N·m/deg")
    found = compare(study, sheet({"takeup": "J1", "lateral_rate_n_per_mm": "40"}), "s.csv")
    data = found.results["takeups"][0]["data"]
    assert data["lateral_rate_n_per_mm"] == pytest.approx(40.0, rel=1e-9)
    assert data["angular_rate_nm_per_deg"] == pytest.approx(1200.0 * 3.141592653589793 / 180.0, rel=1e-9)
    assert found.document["takeups"][0]["remarks"] == [
        "the angular rate in the file is let go, for it follows from the certified lateral rate"
    ]


def test_certified_values_replace_computed_ones_and_the_geometry_stays():
    study = straight(joint_by_geometry("J1", "west end + 1.2 m", axial_compression=None, axial_extension=None))
    cells = {"takeup": "J1", "axial_rate_n_per_mm": "400", "axial_compression_mm": "30", "axial_extension_mm": "10"}
    found = compare(study, sheet(cells), "s.csv")
    took = found.results["takeups"][0]
    assert took["data"]["axial_rate_n_per_mm"] == pytest.approx(400.0, rel=1e-12)  # converted there and back
    assert took["computed"]["shell"]["axial_rate_n_per_mm"] != pytest.approx(400.0, rel=1e-3)  # still the shell's own
    assert not any(note.startswith(COMPUTED) for note in took["computed"]["notes"])
    assert row_of(found.document, "axial_rate_n_per_mm")["origin"] == "computed from its geometry"
    assert "computed from its geometry: lateral rate, angular rate, torsion rate, effective area" in took["provenance"]


def test_double_is_certified_whole():
    """Length and weight are the whole joint's, as in its file; halves meet in the middle, other data as stated."""
    takeup = joint("J1", "20 m", kind="double externally pressurised", length="2.4 m", weight="4 kN").replace(
        ", data:", ", base: { can_carry: 90 kN, source: invented for a test }, data:", 1
    )
    study = straight(takeup, holds=())
    cells = {"takeup": "J1", "length_mm": "2600", "weight_n": "4400", "axial_rate_n_per_mm": "95"}
    found = compare(study, sheet(cells), "s.csv")
    assert row_of(found.document, "length_mm")["file"] == 2400.0
    assert row_of(found.document, "weight_kg")["status"] == "differs"
    halves = {one["name"]: one for one in found.results["takeups"]}
    assert [halves[f"J1, {half}"]["data"]["length_mm"] for half in ("first", "second")] == [1300.0, 1300.0]
    assert halves["J1, first"]["to_m"] == pytest.approx(20.0, abs=1e-9)
    assert halves["J1, second"]["from_m"] == pytest.approx(20.0, abs=1e-9)
    assert halves["J1, first"]["data"]["weight_n"] == pytest.approx(2200.0, rel=1e-12)
    assert "J1 base" in {one["name"] for one in found.results["holds"]}
    assert found.document["takeups"][0]["fits"]


def test_length_that_does_not_fit_is_told_and_the_file_s_is_kept():
    """The middle is 1.2 m from the anchor: 2.4 m at most, and the first guide 1.1 m away leaves 2.2 m."""
    found = compare(single(), sheet({"takeup": "J1", "length_mm": "2300", "weight_n": "2000"}), "s.csv")
    told = found.document["takeups"][0]
    assert not told["fits"]
    assert told["room_mm"] == pytest.approx(2200.0, abs=1e-6)  # rounding of floats
    assert row_of(found.document, "length_mm")["side"] == "unsafe"
    assert not found.stands
    assert found.results["takeups"][0]["data"]["length_mm"] == 1100.0
    assert found.results["takeups"][0]["data"]["weight_n"] == pytest.approx(2000.0, rel=1e-12)


def test_two_joints_that_both_grow_longer_are_measured_with_each_other():
    """Middles 1.3 m apart, 1.1 m long each; 1.25 m each overlaps nothing, 1.4 m each does by 0.1 m."""
    study = straight(joint("J1", "20 m"), joint("J2", "21.3 m"), holds=())
    for length, fits in (("1250", True), ("1400", False)):
        rows = [{"takeup": name, "length_mm": length} for name in ("J1", "J2")]
        assert [one["fits"] for one in compare(study, sheet(*rows), "s.csv").document["takeups"]] == [fits, fits]


def test_rods_that_reach_from_face_to_face_follow_the_length():
    rods = "rods: { count: 2, diameter: 30 mm, circle: 400 mm, modulus: 200 GPa, hot: no, source: invented }, data:"
    takeup = joint("J1", "west end + 1.2 m", kind="tied axial").replace("data:", rods, 1)
    study = choose_joints(straight(takeup))
    target = targets_of(study)["J1"]
    put = put_values(target, {"length": 1.0, "rod_diameter": 0.025}, "whose")
    joint_made = put.target.joints[0]
    assert (joint_made.rods.length, joint_made.rods.diameter, joint_made.rods.count) == (1.0, 0.025, 2)
    assert joint_made.rods.source == "whose; the rest: invented"


def test_holds_by_rule_are_placed_for_each_study_by_itself():
    """Half as long again, the joint's face is 0.275 m further on, and its first guide with it."""
    study = straight(joint("J1", "20 m"), holds=(rule("slide guide", "spacing rule"),))
    found = compare(study, sheet({"takeup": "J1", "length_mm": "1650"}), "s.csv")
    before = results_of(resolve_rules(study))

    def nearest(results: dict) -> float:
        return min(abs(one["station_m"] - 20.0) for one in results["holds"] if "guide" in one["kind"])

    assert nearest(found.results) - nearest(before) == pytest.approx(0.275, abs=1e-9)


def test_joint_of_a_series_is_compared_once_it_stands_in_its_place():
    """45 257 mm2 is the row's area in the demonstration series; the certificate's 52 000 goes in, with its words."""
    words = 'joint: "pressed from outside DN 200, 20 bar, 50 mm"'
    place = f"{{ name: J1, kind: externally pressurised, at: west end + 1.5 m, from: demonstration series, {words} }}"
    found = compare(straight(place, holds=()), sheet({"takeup": "J1", "effective_area_mm2": "52000"}), "s.csv")
    row = row_of(found.document, "effective_area_mm2")
    assert (row["origin"], round(row["file"])) == ("of its series", 45_257)
    took = found.results["takeups"][0]
    assert took["data"]["effective_area_mm2"] == pytest.approx(52_000.0, rel=1e-12)  # converted there and back
    assert took["provenance"].startswith("certified: certificate without a number, s.csv, ")


def test_lateral_rate_as_the_model_took_it_is_no_difference():
    """A row of a series has both rates; the model takes k_y = 12 k_theta / L_b^2 (joints/rates.py), which papers print.

    The row's own, 241.75 N/mm hot, is 4 % more than that of its angular rate, 2.3825 N m/deg hot, over 84 mm: by hand
    12 x 2.3825 x 57.2958 / 0.084^2 = 232 156 N/m. Either one, certified, is what stands in the file.
    """
    place = 'name: J1, kind: single axial, at: west end + 1.5 m, from: demonstration series, joint: "axial DN 80, 6 bar'
    pipe = "{ size: DN 80, wall: 5.49 mm, material: ASTM A106 B }"
    study = straight(f'{{ {place}, 20 mm" }}', holds=(), pipe=pipe)
    (target,) = targets_of(choose_joints(study)).values()
    data = target.joints[0].data
    used = 12.0 * data.angular_rate / data.live_length**2
    assert data.lateral_rate / used == pytest.approx(241.75 / 232.156, rel=1e-4)  # five figures printed
    rate = BY_QUANTITY["lateral_rate"]
    for certified in (used, data.lateral_rate):
        (value,) = (one for one in differences(target, {"lateral_rate": certified}, None) if one.of is rate)
        assert (value.status, value.percent) == ("same", 0.0)
        assert put_values(target, {"lateral_rate": certified}, "s.csv").target.joints[0].data.angular_rate is not None
    (value,) = (one for one in differences(target, {"lateral_rate": 1.1 * used}, None) if one.of is rate)
    assert value.status == "differs"


def check(where: str, state: str, use: float | None, outcome: str = "passes") -> dict:
    words = {"rule": "r", "title": "t", "where": where, "unit": "N", "because": "", "demand": use, "capacity": 1.0}
    return {**words, "state": state, "use": use, "outcome": outcome}


def test_changed_checks_pair_and_order():
    """A check that another state governs afterwards is the same check; rounding is no change; the worst is first."""
    before = {
        "checks": [check("A", "hot", 0.5), check("B", "hot", 0.7), check("C", "hot", 0.3), check("D", "hot", 0.2)]
    }
    after = {
        "checks": [
            check("A", "cold", 0.6),
            check("B", "hot", 0.7 * (1.0 + 1e-9)),
            check("C", "hot", 1.2, "fails"),
            check("E", "hot", None, "not covered"),
        ]
    }
    rows = changed_checks(before, after)
    assert [
        (one["where"], one["before"] and one["before"]["use"], one["after"] and one["after"]["use"]) for one in rows
    ] == [
        ("C", 0.3, 1.2),
        ("E", None, None),
        ("A", 0.5, 0.6),
        ("D", 0.2, None),
    ]
    assert (rows[2]["before"]["state"], rows[2]["after"]["state"]) == ("hot", "cold")


def test_document_has_these_keys():
    """What `--json` prints is a contract; numbers of a row are in the unit that ends its `column`."""
    document = compare(single(), sheet({"takeup": "J1", **SAME_AS_FILE, "weight_n": "2000"}), "s.csv").document
    assert set(document) == {
        "tool", "input", "sheet", "takeups", "not_in_sheet", "verdict", "checks", "anchors", "joints", "assumptions",
        "cautions",
    }  # fmt: skip
    assert set(document["sheet"]) == {"file", "sha256", "passed_over"}
    takeup = document["takeups"][0]
    assert set(takeup) == {"name", "line", "kind", "certificate", "source", "fits", "room_mm", "remarks", "values"}
    assert all(
        set(one)
        == {
            "column", "quantity", "unit", "status", "file", "certified", "difference", "difference_percent", "side",
            "origin", "because",
        }
        for one in takeup["values"]
    )  # fmt: skip
    assert set(document["verdict"]) == {"before", "after"}
    assert document["checks"]
    for one in document["checks"]:
        assert set(one) == {"rule", "title", "where", "unit", "before", "after", "because"}
        assert set(one["after"]) == {"state", "outcome", "use", "demand", "capacity"}
    loads, moves = ({key for one in document[part] for key in one["after"]} for part in ("anchors", "joints"))
    assert loads == {"along_low_n", "along_high_n", "resultant_n", "state"}
    assert moves == {"shortest_mm", "longest_mm", "lateral_mm", "angular_deg", "torque_nm"}
    assert json.loads(json.dumps(document, allow_nan=False)) == document


SELECTED = Path(__file__).parents[3] / "examples" / "lennox-quay-selected-joint.yaml"
ASKED = 3000


@pytest.fixture(scope="module")
def derated() -> Study:
    """The example with twice its cycles: J2 is rated for 1000 and keeps 0.608 of its movements over 3000 of them."""
    text = SELECTED.read_text(encoding="utf-8").replace("count: 1500", f"count: {ASKED}")
    return choose_joints(study_from_text(text, str(SELECTED)))


def cycles_check(study: Study, **values: float) -> tuple[dict, tuple[str, ...]]:
    """The check of the cycles of J2 with certified values, and what is remarked."""
    target = targets_of(study)["J2"]
    put = put_values(target, values, "certificate 7")
    certified = with_target(study, put.target)
    checks = results_of(resolve_rules(certified))["checks"]
    return next(one for one in checks if one["title"] == "joint cycles" and one["where"] == "J2"), put.remarks


def test_cycles_of_a_derated_joint_without_certified_cycles_stay_a_statement(derated):
    """Its movements are kept to a share because of the cycles: there is no second number to hold the 3000 against.

    A certified area changes nothing of that: 3000 of 3000, which the file's derating made, would be no finding.
    """
    check, remarks = cycles_check(derated, effective_area=0.03)
    assert (check["outcome"], check["use"], check["demand"]) == ("passes", None, ASKED)
    assert "movements are kept to" in check["because"]
    assert remarks == ()


@pytest.mark.parametrize(("certified", "outcome", "use"), [(4000, "passes", 0.75), (2000, "fails", 1.5)])
def test_certified_cycles_of_a_derated_joint_are_a_check_of_their_own(derated, certified, outcome, use):
    """3000 asked of 4000 is 0.75, of 2000 is 1.5, by hand.

    The data sheet asks for 3000 cycles at the movements of the duty. What the maker certifies is then his word and no
    longer our derating, so that it is held against the cycles asked: fewer fail, though the movements of the file were
    kept small for their sake, for nobody certifies that share.
    """
    check, _ = cycles_check(derated, rated_cycles=certified)
    assert check["outcome"] == outcome
    assert check["capacity"] == certified
    assert check["use"] == pytest.approx(use, rel=1e-12)  # a quotient of whole numbers


def test_certified_movements_of_a_derated_joint_ask_for_their_cycles(derated):
    _, remarks = cycles_check(derated, axial_compression=0.04)
    assert [words for words in remarks if words.startswith("movements are certified and rated cycles are not")]
