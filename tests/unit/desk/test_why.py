"""Why: what the quick model knows at once, what comes with the whole study, and what would change it."""

from __future__ import annotations

import json
import threading
from pathlib import Path

import pytest
from tests import example_studies
from tests.builders import hold, joint, line_file, rule
from tests.unit.desk.benches import KETTERBY, asked, bench, of_text, step_of
from tests.unit.drawing.system_fixture import SYSTEM

from takeup.desk.interface import Table, Why
from takeup.desk.seen.bench import news_of_study
from takeup.desk.seen.figures import signed, unsigned_nought
from takeup.desk.seen.kept import NoAnswer
from takeup.desk.seen.uses import checks_by_place, uses_of
from takeup.drawing.reading import maybe_number, number_of, records_of, text_of

HEADER = "LS-201/boiler house header"
J1 = "LS-201/J1"


def table(why: Why, title: str) -> Table:
    return next(one for one in why["tables"] if one["title"] == title)


def texts(one: Table) -> list[list[str]]:
    return [[cell["text"] for cell in row] for row in one["rows"]]


@pytest.fixture(scope="module")
def results():
    return example_studies.results(KETTERBY)


def test_while_the_whole_study_runs_it_is_said_what_is_still_missing():
    why = bench(KETTERBY).why(HEADER, None)
    assert "whole study" in why["waiting"]
    assert [one["title"] for one in why["tables"]] == ["Loads by state", "What would change it"]
    assert why["says"][0] == "Main anchor, at station 0.00 m of LS-201."


def test_with_the_results_all_is_there_and_nothing_is_waited_for(results):
    why = bench(KETTERBY).why(HEADER, results)
    assert why["waiting"] == ""
    titles = [one["title"] for one in why["tables"]]
    assert titles == ["Checks", "Loads by state", "What would change it", "Hand beside model", "Where it comes from"]
    assert any(words.startswith("Governs: ") for words in why["says"])
    assert json.loads(json.dumps(why, allow_nan=False)) == why


def test_loads_by_state_are_those_of_the_looks():
    one = bench(KETTERBY)
    rows = texts(table(one.why(HEADER, None), "Loads by state"))
    assert [row[0] for row in rows] == [state["name"] for state in one.states()]
    look = one.look(asked(step=step_of(one, "operating")))
    own = next(hold for hold in look["holds"] if hold["id"] == HEADER)
    row = next(row for row in rows if row[0] == "operating")
    assert row[1:4] == [f"{own['force_kn']:.2f}", signed(own["along_kn"], 2), f"{own['moment_knm']:.2f}"]


def test_checks_at_a_place_come_fullest_first(results):
    rows = texts(table(bench(KETTERBY).why(J1, results), "Checks"))
    own = checks_by_place(results)[J1]
    assert len(rows) == len(own)
    uses = [float(row[1]) for row in rows if row[1].replace(".", "").isdigit()]
    assert uses == sorted(uses, reverse=True)
    assert len(uses) > 3


def test_the_hand_stands_beside_the_model(results):
    joint_rows = texts(table(bench(KETTERBY).why(J1, results), "Hand beside model"))
    assert joint_rows, "the growth of the span that J1 is in"
    anchor = table(bench(KETTERBY).why(HEADER, results), "Hand beside model")
    told = next(row for row in records_of(results, "holds") if text_of(row, "name") == "boiler house header")
    assert len(anchor["rows"]) == len(records_of(told, "hand"))


def test_parts_by_cause_are_of_the_state_with_the_greatest_force(results):
    parts = table(bench(KETTERBY).why(HEADER, results), "Where it comes from")
    assert "under hydrostatic test" in parts["about"]
    causes = {row[0]: row for row in texts(parts)}
    # thrust of 18 bar on 46000 mm2 is 82.8 kN (by hand), to the west; pressure also stretches the pipe into the spring
    assert float(causes["pressure"][1]) == pytest.approx(-82.8, rel=0.02)


@pytest.fixture(scope="module")
def change():
    """Return what each change does, by its words: what it becomes and by how much."""
    found = texts(table(bench(KETTERBY).why(HEADER, None), "What would change it"))
    return {row[0]: row for row in found}


def test_a_bar_more_is_its_thrust(change):
    """1 bar on A_e = 46000 mm2 is 4.6 kN (by hand)."""
    row = next(row for words, row in change.items() if words.startswith("1 bar more"))
    assert float(row[2].removesuffix(" kN")) == pytest.approx(4.6, abs=0.1)  # it is told to a tenth
    assert row[3] == "under hydrostatic test"


def test_ten_kelvin_more_do_not_change_what_governs_cold(change):
    """What governs is the test, at 12 degC: no zone is warmer then than at installation."""
    row = next(row for words, row in change.items() if words.startswith("10 K warmer"))
    assert row[2] == "0.0 kN"


def test_an_end_is_not_moved_and_an_anchor_is(change):
    assert not any("the flow" in words for words in change)
    found = texts(table(bench(KETTERBY).why("LS-201/middle anchor", None), "What would change it"))
    assert [row[0] for row in found if "the flow" in row[0]] == ["1 m against the flow", "1 m along the flow"]


def test_ten_kelvin_more_shorten_a_joint_in_proportion():
    """From 12 to 195 degC is 183 K; 10 K more are 10/183 = 5.5 % of its growth at least: it grows faster hot."""
    found = texts(table(bench(KETTERBY).why(J1, None), "What would change it"))
    row = next(row for row in found if row[0].startswith("10 K warmer"))
    before, by = float(row[1].removesuffix(" mm")), float(row[2].removesuffix(" mm"))
    assert 0.055 <= by / (before - by) <= 0.07
    moved = next(row for row in found if row[0] == "1 m against the flow")
    assert moved[1] == "no answer"
    assert "has no room" in moved[3]


def test_stiffer_joints_and_a_metre_more_are_told_for_a_line_of_a_span():
    """The force k x of a joint between two anchors rises with its rate: 10 % of 95 N/mm x 90 mm, 0.86 kN (by hand)."""
    text = line_file(
        ["40 m east"],
        takeups=(joint("J1", "2 m"),),
        holds=(rule("slide guide", "spacing rule"),),
        design='{ pressure: 0.1 bar(g), temperature: 400 °F, vacuum: "not possible, because it drains" }',
        operating="{ pressure: 0.1 bar(g), temperature: 400 °F }",
        test="{ pressure: 0.2 bar(g), with: water, temperature: 70 °F }",
    )
    found = texts(table(of_text(text).why("T-1/west end", None), "What would change it"))
    row = next(row for row in found if row[0] == "every joint 10 % stiffer")
    assert float(row[2].removesuffix(" kN")) == pytest.approx(0.86, abs=0.06)  # 90 to 94 mm of growth, to a tenth


def test_an_unknown_place_is_refused():
    with pytest.raises(NoAnswer, match="there is no place LS-201/nobody"):
        bench(KETTERBY).why("LS-201/nobody", None)


def test_an_end_that_holds_nothing_says_so():
    text = line_file(["20 m east"], end="free", holds=(hold("slide guide", "10 m", slides_on="PTFE on steel"),))
    why = of_text(text).why("T-1/east end", None)
    assert any("holds nothing" in words for words in why["says"])
    assert why["tables"] == []


def test_a_line_that_nothing_holds_says_what_is_loose():
    text = line_file(
        ["20 m east"], start="free", end="free", holds=(hold("slide guide", "10 m", slides_on="PTFE on steel"),)
    )
    one = of_text(text)
    place = next(p["id"] for p in one.outline()[0]["places"] if p["what"] == "hold")
    assert any("the line" in words for words in one.why(place, None)["says"])


def test_places_of_every_line_of_several_are_told():
    one = of_text(SYSTEM)
    for line in one.outline():
        for place in (line["places"][0], line["places"][len(line["places"]) // 2]):
            why = one.why(place["id"], None)
            assert why["title"] == place["name"]
            assert json.dumps(why, allow_nan=False)


def test_use_of_a_place_is_that_of_its_fullest_check(results):
    found = {one["id"]: one for one in uses_of(results)}
    for name, own in checks_by_place(results).items():
        uses = [use for check in own if (use := maybe_number(check, "use")) is not None]
        if found[name]["outcome"] not in ("fails", "no limit given") and uses:
            assert found[name]["use"] == max(uses)
    assert {HEADER, J1} <= set(found)


def test_a_failure_without_a_number_is_before_every_number():
    row = {"rule": "r", "title": "t", "state": "s", "because": "b"}
    results = {
        "holds": [{"line": "L", "name": "A"}, {"line": "L", "name": "A, far"}],
        "takeups": [],
        "lines": [{"name": "L", "ends": []}],
        "checks": [
            {**row, "where": "A", "use": 0.95, "outcome": "close"},
            {**row, "where": "A, slack", "use": None, "outcome": "fails", "title": "rods"},
            {**row, "where": "A, far", "use": 0.5, "outcome": "passes"},
            {**row, "where": "A to B", "use": 7.0, "outcome": "fails"},
        ],
    }
    found = {one["id"]: one for one in uses_of(results)}
    assert (found["L/A"]["use"], found["L/A"]["outcome"], found["L/A"]["rule"]) == (None, "fails", "rods")
    assert found["L/A, far"]["use"] == 0.5
    assert set(found) == {"L/A", "L/A, far"}, "what is of a whole span is of no place"


def test_news_of_a_study_say_its_verdict_once_it_is_there(results):
    before = news_of_study(3, "running", "walking", None, 0.0)
    assert (before["verdict"], before["places"], before["words"]) == ("", [], "walking")
    after = news_of_study(3, "done", "", results, 2.5)
    assert after["verdict"] in ("passes", "close", "not proved", "fails")
    assert (after["revision"], after["took_s"]) == (3, 2.5)
    assert len(after["places"]) > 5


def test_the_walk_tells_its_steps_and_what_happens_on_the_way(results):
    for scenario in ("no friction", "high friction"):
        walk = bench(KETTERBY).walk(scenario)
        told = [row for row in records_of(results, "walk") if text_of(row, "scenario") == scenario]
        assert [row["step"] for row in walk["steps"]] == [int(number_of(row, "step")) - 1 for row in told]
        assert [row["state"] for row in walk["steps"]] == [text_of(row, "state") for row in told]
        assert [row["arrived"] for row in walk["steps"]] == [row["arrived"] for row in told]
        events = [row for row in records_of(results, "events") if text_of(row, "scenario") == scenario]
        assert [(row["step"], row["id"], row["what"]) for row in walk["events"]] == [
            (int(number_of(row, "step")) - 1, f"{text_of(row, 'line')}/{text_of(row, 'where')}", text_of(row, "what"))
            for row in events
        ]
    assert events, "with friction supports slip and stick"


def test_outlines_name_what_a_rule_placed_and_what_stays():
    (line,) = bench(KETTERBY).outline()
    places = {place["name"]: place for place in line["places"]}
    assert (line["name"], line["length_m"]) == ("LS-201", 159.0)  # 96 + 9 + 54 m
    assert [corner["name"] for corner in line["corners"]] == [
        "boiler house header", "roof corner", "yard corner", "laundry header",
    ]  # fmt: skip
    assert places["slide guide at 26.05 m"]["placed_by"] == "spacing rule"
    assert places["middle anchor"] == {
        "id": "LS-201/middle anchor", "name": "middle anchor", "line": "LS-201", "what": "hold",
        "kind": "intermediate anchor", "station_m": 46.5, "from_m": 46.5, "to_m": 46.5, "placed_by": "by hand",
        "stays": "",
    }  # fmt: skip
    assert (places["J1"]["from_m"], places["J1"]["to_m"]) == (pytest.approx(0.65), pytest.approx(1.75))  # 1.2 ± 0.55 m
    assert "end of the route" in places["laundry header"]["stays"]


def test_two_threads_ask_at_once_and_get_the_same():
    text = (Path(__file__).parents[3] / "examples" / f"{KETTERBY}.yaml").read_text(encoding="utf-8")
    one = of_text(text)
    found, wrong = [], []

    def ask() -> None:
        try:
            found.append([one.look(asked(step=step))["holds"] for step in (3, 40)] + [one.views()["revision"]])
        except Exception as error:  # noqa: BLE001 -- whatever it is, the test is to see it
            wrong.append(error)

    threads = [threading.Thread(target=ask) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert wrong == []
    assert all(answer == found[0] for answer in found)


def test_nought_has_no_sign_and_other_numbers_keep_theirs():
    assert [unsigned_nought(value, 1) for value in (-0.04, -0.06, 0.0, 16.54)] == ["0.0", "-0.1", "0.0", "16.5"]


def test_words_of_why_read_as_sentences():
    """Rods decide who carries the thrust of the limit-rod axial joint, so that no short formula gives its anchors."""
    one = bench("kinds/limit-rod-axial")
    found = one.why("HW-1/boiler header", example_studies.results("kinds/limit-rod-axial"))
    hand = [row[1]["text"] for row in table(found, "Hand beside model")["rows"]]
    assert "none" in hand
    assert not any(words.endswith("; ") or words.startswith("; ") for words in hand)
    assert "in under" not in table(found, "What would change it")["about"]
    assert table(found, "Where it comes from")["about"].startswith("State: under hydrostatic test, ")
