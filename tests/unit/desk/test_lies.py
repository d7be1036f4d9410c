"""The desk does not lie: whatever is changed, and however quickly, what is shown is of the text beside it."""

from __future__ import annotations

import threading
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.builders import hold, joint, line_file, rule
from tests.line_texts import VALID, changed
from tests.unit.desk.benches import EXAMPLES, KETTERBY, asked, bench, of_text, step_of

from takeup.desk import desk as desk_module
from takeup.desk.desk import Desk
from takeup.desk.opened import changes
from takeup.desk.opened.readings import Reading, reading_of
from takeup.desk.seen.bench import Bench, bench_of
from takeup.desk.seen.uses import rank_of
from takeup.desk.work.arranging import Found, key_of
from takeup.desk.work.jobs import Progress
from takeup.desk.work.studying import Studied
from takeup.errors import TakeupError
from takeup.line.reading.reader import study_from_text

_EXAMPLES = (KETTERBY, "fell-gill-offset", "withy-beck-hot-water", "kinds/tied-universal", "kinds/gimbal")
_SUPERPOSED = 1e-6  # of a force: nodes are numbered anew, so sums go in another order


class FakeWork:
    """Work that ends when the test says, with what the test says."""

    every: list[FakeWork] = []  # noqa: RUF012 -- a test reads what the desk made

    def __init__(self, function, news, told=str):
        self.function, self._news, self.told = function, news, told
        self.progress = Progress(job="none")
        self.began: tuple[object, ...] = ()
        self.every.append(self)

    def start(self, *arguments):
        """Begin and say so."""
        self.began, self.progress = arguments, Progress(job="running")
        self._news()

    def stop(self):
        """End what runs."""
        if self.progress.job == "running":
            self.progress = Progress(job="stopped")

    def close(self):
        """End for good."""
        self.stop()

    def end(self, answer, job="done"):
        """Have an answer."""
        self.progress = Progress(job=job, share=1.0, answer=answer)
        self._news()


@pytest.fixture
def work(monkeypatch):
    monkeypatch.setattr(FakeWork, "every", [])
    monkeypatch.setattr(desk_module, "Work", FakeWork)
    return lambda name: next(one for one in FakeWork.every if one.function.__name__ == name)


def desk_on(tmp_path: Path, text: str) -> Desk:
    file = tmp_path / "line.yaml"
    file.write_text(text, encoding="utf-8")
    return Desk(file)


def moved(desk: Desk, station: float) -> int:
    revision = desk.document()["revision"]
    desk.change({"revision": revision, "change": {"do": "move", "id": "S-7/A1", "station_m": station}})
    return revision + 1


RESULTS = {"verdict": {"outcome": "passes", "because": []}, "checks": [], "holds": [], "takeups": [], "lines": []}


def test_the_results_of_a_text_that_stands_no_more_are_told_of_no_other(tmp_path, work):
    """The study of revision 1 ends at the very moment at which revision 2 is made."""
    desk = desk_on(tmp_path, VALID)
    study = work("studied")
    assert study.began[1] == 1
    study.end(Studied(revision=1, results=RESULTS, took=2.0))
    news = desk.study()
    assert (news["revision"], news["job"], news["verdict"], news["took_s"]) == (1, "done", "passes", 2.0)
    assert moved(desk, 50.0) == 2
    assert study.began[1] == 2
    assert (desk.study()["revision"], desk.study()["job"], desk.study()["verdict"]) == (2, "running", "")
    assert desk.why("S-7/A1")["waiting"]
    study.end(Studied(revision=1, results=RESULTS, took=2.0))  # too late: it bears whose it is
    assert desk.study()["revision"] == 1
    assert desk.why("S-7/A1")["revision"] == 2
    assert desk.why("S-7/A1")["waiting"], "the results of another revision explain nothing here"
    desk.close()


def test_joints_chosen_for_a_text_that_stands_no_more_are_not_put_into_another(tmp_path, work, monkeypatch):
    """The answer comes while a change is made: asked for before the lock, it would be taken for the new text's."""
    read = study_from_text(VALID, "x")
    monkeypatch.setattr(desk_module, "reading_of", lambda *_: Reading(read=read))
    desk = desk_on(tmp_path, VALID)
    choice = work("chosen")
    old = reading_of(VALID, Path("x")).resolved
    with desk._lock:
        choice.progress = Progress(job="done", answer=old)
        late = threading.Thread(target=desk._choice_news)
        late.start()
        time.sleep(0.05)
        desk.change({"revision": 1, "change": {"do": "text", "text": VALID + "# newer\n"}})
    late.join()
    document = desk.document()
    assert (document["revision"], document["readable"], document["outline_revision"]) == (2, False, 0)
    assert document["busy"]
    desk.close()


def test_what_was_searched_is_told_with_the_revision_that_was_searched(tmp_path, work):
    desk = desk_on(tmp_path, VALID)
    desk.arrange({"best": 1, "measure": "cost"})
    moved(desk, 50.0)
    assert desk.proposals()["revision"] == 1
    assert work("arranged").began[0] == VALID
    work("arranged").end(Found(rows=({"number": 1},), refused=(), words="Searched.", texts=(VALID,)))
    assert desk.proposals()["words"].startswith("These were found for an earlier text.")
    revision = desk.document()["revision"]
    taken(desk, revision, VALID)
    desk.change({"revision": revision + 1, "change": {"do": "undo"}})
    assert "gate corner - 10 m" in desk.document()["text"], "what was changed since is had back"
    desk.close()


def taken(desk: Desk, revision: int, text: str) -> None:
    desk.take_proposal({"revision": revision, "number": 1, "key": key_of(text)})


def test_no_proposal_is_taken_over_in_the_place_of_a_text_that_was_not_shown(tmp_path, work):
    """Another window changes the text between the look and the press: refused with words, and nothing is lost."""
    desk = desk_on(tmp_path, VALID)
    desk.arrange({"best": 1, "measure": "cost"})
    offered = VALID.replace("medium: ", "medium:  ")
    work("arranged").end(Found(rows=({"number": 1},), refused=(), words="", texts=(offered,)))
    revision = moved(desk, 50.0)
    text = desk.document()["text"]
    with pytest.raises(desk_module.Conflict, match="changed in another window since; proposal 1 was not taken over"):
        taken(desk, revision - 1, offered)
    assert desk.document()["text"] == text
    taken(desk, revision, offered)
    assert desk.document()["text"] == offered
    desk.close()


def test_a_search_that_goes_on_puts_no_other_proposal_in_the_place_of_the_one_pressed(tmp_path, work):
    desk = desk_on(tmp_path, VALID)
    desk.arrange({"best": 1, "measure": "cost"})
    better = VALID.replace("medium: ", "medium:  ")
    work("arranged").end(Found(rows=({"number": 1},), refused=(), words="", texts=(better,)))
    with pytest.raises(TakeupError, match="proposal 1 is another one by now"):
        taken(desk, 1, VALID)
    assert desk.document()["text"] == VALID
    desk.close()


def fresh(text: str) -> Bench | None:
    reading = reading_of(text, Path("x.yaml"))
    if reading.read is None or reading.resolved is None:
        return None
    return bench_of(reading.read, reading.resolved, 7)


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(name=st.sampled_from(_EXAMPLES), which=st.integers(0, 40), away=st.floats(-3.0, 3.0), share=st.floats(0.1, 1.0))
def test_what_is_seen_in_the_hand_is_what_the_text_gives_or_both_refuse(name, which, away, share):
    text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
    one, reading = bench(name), reading_of(text, Path("x.yaml"))
    places = [place for line in one.outline() for place in line["places"] if not place["stays"]]
    place = places[which % len(places)]
    station = round(max(0.0, place["station_m"] + away), 3)
    hot = next(state for state in one.states() if state["name"] == "operating")
    by_hand = (share * hot["pressure_bar"], 20.0 + share * (hot["temperature_c"] - 20.0))
    look = one.look(asked(hand=by_hand, moved=(place["id"], station)))
    try:
        new, _ = changes.changed(text, reading, {"do": "move", "id": place["id"], "station_m": station})
    except TakeupError:
        assert look["trouble"], "the text refuses what was seen"
        return
    after = fresh(new)
    if after is None:
        assert look["trouble"], "the text has a fault where something was seen"
        return
    found = after.look(asked(hand=by_hand))
    assert bool(found["trouble"]) == bool(look["trouble"])
    for seen, given_hold in zip(look["holds"], found["holds"], strict=True):
        assert seen["force_kn"] == pytest.approx(given_hold["force_kn"], rel=_SUPERPOSED, abs=1e-6)


def test_a_joint_tied_across_an_elbow_is_not_seen_away_from_it():
    """DN 200: at most two outside diameters, 438 mm, lie between (the file's own rule)."""
    one = bench("dene-valley-pump-nozzle")
    found = one.look(asked(step=1, moved=("PD-1/J1", 0.734)))
    assert "from the nearest bend of about 90 degrees" in found["trouble"]


@pytest.mark.parametrize("name", ["brack-hill-hinge-pair", "kinds/limit-rod-universal", "kinds/three-hinge"])
def test_a_state_by_hand_is_the_operating_state_of_examples_of_one_zone(name):
    """Without friction a state does not depend on the way to it."""
    one = bench(name)
    hot = next(state for state in one.states() if state["name"] == "operating")
    walked = one.look(asked(step=step_of(one, "operating")))
    by_hand = one.look(asked(hand=(hot["pressure_bar"], hot["temperature_c"])))
    for mine, theirs in zip(by_hand["holds"], walked["holds"], strict=True):
        assert mine["force_kn"] == pytest.approx(theirs["force_kn"], rel=_SUPERPOSED, abs=1e-5)


def test_no_pressure_below_vacuum_has_an_answer():
    """Thermal oil has a typed density: no table of a medium refuses it. -1.01325 bar(g) is nothing at all."""
    one = bench("tarn-foot-thermal-oil")
    assert "below vacuum" in one.look(asked(hand=(-1.02, 60.0)))["trouble"]
    assert one.look(asked(hand=(-1.01325, 60.0)))["trouble"] == ""


@pytest.mark.parametrize("station", [60.0, 69.0])
def test_at_the_very_corner_of_a_bend_nothing_is_seen_nor_put(station):
    """Legs of 60 m and 9 m: a file says where on a bend a hold stands, which a station alone does not."""
    text = changed(("kind: rest,", "kind: rest, name: R,"))
    reading = reading_of(text, Path("x.yaml"))
    assert "very corner of a bend" in fresh(text).look(asked(hand=(5.0, 100.0), moved=("S-7/R", station)))["trouble"]
    move = {"do": "move", "id": "S-7/R", "station_m": station}
    add = {"do": "add", "key": "hold: rest", "line": "S-7", "station_m": station, "slides_on": "steel on steel"}
    for change in (move, add):
        with pytest.raises(TakeupError, match=r"corner of the bend at .* 'on_bend'"):
            changes.changed(text, reading, change)


def check(outcome: str, use: float | None) -> dict[str, object]:
    return {"outcome": outcome, "use": use}


def test_no_passing_check_stands_before_a_failing_one():
    rows = [check("passes", 0.99), check("fails", 0.4), check("close", 0.97), check("fails", None), check("fails", 1.2)]
    found = [(row["outcome"], row["use"]) for row in sorted(rows, key=rank_of)]
    assert found == [("fails", None), ("fails", 1.2), ("fails", 0.4), ("passes", 0.99), ("close", 0.97)]


_NAMES = [
    "a/b",
    "<script>alert(1)</script>",
    "50 % & more",
    "Führung",
    "支持",
    "مرساة",
    "a, b",
    "it's",
    'a "b"',
    "#x",
    "{x}",
]


@pytest.mark.parametrize("name", _NAMES)
def test_whatever_a_hold_is_called_it_is_moved_and_taken_out_by_its_id(name):
    words = "'" + name.replace("'", "''") + "'"
    text = changed(("name: A1", f"name: {words}"))
    reading = reading_of(text, Path("x.yaml"))
    assert reading.resolved is not None, reading.faults
    new, _ = changes.changed(text, reading, {"do": "move", "id": f"S-7/{name}", "station_m": 50.0})
    (place,) = [one for one in fresh(new).outline()[0]["places"] if one["name"] == name]
    assert (place["station_m"], place["id"]) == (50.0, f"S-7/{name}")
    for drawn in fresh(new).views()["views"]:
        assert "<script" not in drawn["svg"]
    for drawn in fresh(new).look(asked(hand=(5.0, 100.0)))["overlays"]:
        assert "<script" not in drawn["svg"]
    gone, _ = changes.changed(new, reading_of(new, Path("x.yaml")), {"do": "remove", "id": f"S-7/{name}"})
    assert name not in [one["name"] for one in fresh(gone).outline()[0]["places"]]


def test_a_line_whose_name_begins_another_ones_id_takes_nothing_from_it():
    """Lines `a` and `a/b`: the place `a/b/A2` is of the second."""
    body = VALID[VALID.index("  - name: S-7") :].replace("S-7", "a/b", 1).replace("[0 m, 0 m", "[0 m, 50 m")
    for old, new in (("boiler header", "b2"), ("gate corner", "g2"), ("vat header", "v2"), ("name: A1", "name: A2")):
        body = body.replace(old, new)
    text = VALID.replace("S-7", "a", 1) + body.replace("J1", "J2")
    reading = reading_of(text, Path("x.yaml"))
    assert reading.resolved is not None, reading.faults
    new, _ = changes.changed(text, reading, {"do": "move", "id": "a/b/A2", "station_m": 50.0})
    places = {one["id"]: one["station_m"] for line in fresh(new).outline() for one in line["places"]}
    assert (places["a/b/A2"], places["a/A1"]) == (50.0, 57.0)


def test_a_joint_put_in_takes_a_name_that_nothing_has():
    """A corner may be called J1."""
    text = changed(
        ("to: gate corner", "to: J1"), ("gate corner - 3 m", "J1 - 3 m"), ("gate corner + 4.5 m", "J1 + 4.5 m")
    )
    text = text.replace("name: J1", "name: J2")
    reading = reading_of(text, Path("x.yaml"))
    assert reading.resolved is not None, reading.faults
    change = {"do": "add", "key": "takeup: single axial", "line": "S-7", "station_m": 72.0}
    keys = [piece["key"] for piece in desk_module.palette() if piece["what"] == "takeup"]
    new, _ = changes.changed(text, reading, {**change, "key": keys[0]})
    assert "name: J3" in new
    assert not any("taken already" in fault["message"] for fault in reading_of(new, Path("x.yaml")).faults)


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_a_look_limits_itself(end):
    """A look is no verdict: none of its words is one, whatever the line ends of its file."""
    text = line_file(
        ["20 m east"],
        takeups=(joint("J1", "2 m"),),
        holds=(hold("slide guide", "5 m", slides_on="PTFE on steel"), rule("slide guide", "spacing rule")),
    )
    found = of_text(text.replace("\n", end)).look(asked(hand=(5.0, 100.0)))
    said = " ".join([found["words"], *(one["words"] for one in (*found["holds"], *found["takeups"]))])
    assert said
    assert not any(word in said for word in ("passes", "fails", "safe", "acceptable", "allowed", "OK"))
