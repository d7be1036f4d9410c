"""Selection against brute force: every joint's own whole study, named in the file as a user would name it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest
from tests.builders import rule
from tests.selection_lines import ROWS, STEADY, Answered, answered, choice, first, line_text, read, stored

from takeup.checks import run_checks
from takeup.choose import resolve
from takeup.choose.selection import select
from takeup.choose.selection.asked import selection_for_takeup
from takeup.choose.selection.ranking import RANKS
from takeup.choose.selection.select import Selection
from takeup.errors import NothingFits
from takeup.joints.tables import SeriesTable
from takeup.results.verdict import verdict_of
from takeup.study import walk_study

AT = "west end + 1.0 m"
LINES: dict[str, dict[str, object]] = {
    "without friction": {},
    "with friction, anchors too weak for the widest": {"friction": "0.3", "can_carry": "88 kN"},
    "holds by rules": {"holds": (rule("slide guide", "spacing rule"), rule("rest", "support spans"))},
}


@dataclass(frozen=True, kw_only=True)
class Case:
    """A line, and what each joint of the series says in it."""

    folder: Path
    table: SeriesTable
    every: list[Answered]
    line: dict[str, object]

    def text(self, words: str) -> str:
        """Return the line file with the joint left as the words say."""
        return line_text(choice("J1", AT, words), **self.line)  # type: ignore[arg-type]  # keys of line_text by name

    def selection(self, **asked: object) -> Selection:
        """Return what is selected, every kind asked and the file's own rank where nothing else is said."""
        given = {"series": None, "kind": None, "rank": None} | asked
        study = read(self.folder, self.text("select: yes"))
        return selection_for_takeup(study, self.folder, "J1", **given)[1]  # type: ignore[arg-type]  # likewise


@pytest.fixture(scope="module", params=list(LINES))
def case(request, tmp_path_factory) -> Case:
    folder = tmp_path_factory.mktemp("series")
    table, line = stored(folder, *ROWS), LINES[request.param]
    every = [
        answered(folder, table, row, line_text(choice("J1", AT, f'joint: "{name}"', table.kinds[row]), **line))
        for row, name in enumerate(table.names)
    ]
    return Case(folder=folder, table=table, every=every, line=line)


@pytest.mark.parametrize("rank", RANKS)
def test_winner_is_the_first_that_stands_by_brute_force(case, rank):
    found = case.selection(rank=rank)
    assert found.winner is not None
    assert case.table.names[found.winner.row] == first(case.every, rank)
    assert found.winner.row == found.fits[0]
    assert found.winner.trial.verdict.outcome != "fails"


def test_every_joint_that_stands_is_among_those_that_fit(case):
    """Those behind the winner were not run and may yet fail; none that stands is refused."""
    found = case.selection()
    fits = {case.table.names[row] for row in found.fits.tolist()}
    assert {one.name for one in case.every if one.stands} <= fits
    failed = {case.table.names[one.row] for one in found.tried if not one.stands}
    assert failed <= {one.name for one in case.every if not one.stands}


def test_each_was_asked_by_its_own_movements(case):
    """Those of its own study, to rounding of the solver: a stiff joint moves less than a soft one."""
    found = case.selection()
    assert len(found.own) >= 6
    for row, one in found.own.items():
        assert tuple(one.place.axial.tolist()) == pytest.approx(case.every[row].axial, abs=1e-9)


def test_line_file_takes_the_first_of_its_kind_and_the_study_stands(case):
    """`select: yes` is for the kind that the file says; the study of the file is that of the joint named."""
    study = resolve(read(case.folder, case.text("select: yes, rank: length")))
    (takeup,) = study.lines[0].takeups
    assert takeup.chosen is not None
    assert takeup.chosen.joint == first(case.every, "length", "single axial")
    assert verdict_of(run_checks(walk_study(study))).outcome != "fails"
    assert (takeup.chosen.by, takeup.chosen.considered) == ("length", len(ROWS))
    assert study.lines[0].choices == ()


def test_first_reason_is_that_of_the_name(case):
    """Each of the first five fails by one criterion; the numbers are those of the table."""
    found = case.selection()
    reasons = {case.table.names[row]: found.because(row) for row in range(len(case.table))}
    assert reasons["too short"].startswith("movement: ")
    assert reasons["too weak"] == "pressure: 10 bar at 185 °C, of 9 bar that it is rated for there"
    assert reasons["too small"] == "size: its size is not that of the pipe, DN 200"
    assert reasons["not tested"] == "test pressure: 15 bar in the test; its table does not say what it can take"
    assert reasons["too long"].startswith("room: it is 3500 mm long, and there is room for ")
    assert reasons["limp"].startswith("its own study: stability, J1, ")


def test_anchors_that_are_too_weak_refuse_at_once(tmp_path):
    """15 bar on 62 000 mm2 is 93.0 kN on an anchor for 88 kN: the cheap wide joint needs no study of its own."""
    table = stored(tmp_path, *ROWS)
    study = read(tmp_path, line_text(choice("J1", AT, "select: yes"), can_carry="88 kN"))
    _, found = selection_for_takeup(study, tmp_path, "J1", series=None, kind=None, rank=None)
    wide = table.names.index("wide")
    assert found.because(wide).startswith("anchor and hold capacity: west end, under hydrostatic test: 92.9 kN")
    assert found.because(wide).endswith("of 88000 N")
    assert wide not in [one.row for one in found.tried]


def test_preset_that_pulls_is_not_taken_for_a_push(tmp_path):
    """Drawn out by 10 mm, a stiffer joint pulls the anchors together and eases them in the test.

    15 bar on 46 000 mm2 is 69.0 kN, less 2.0 by 200 N/mm and less 9.0 by 900 N/mm: an anchor for 66 kN refuses the soft
    joint and bears the stiff one.
    """
    soft = {"name": "soft", "price_index": "1", "axial_extension_mm": "20", **STEADY}
    stiff = soft | {"name": "stiff", "price_index": "2", "axial_rate_n_per_mm": "900"}
    table = stored(tmp_path, soft, stiff)
    text = line_text(choice("J1", AT, "select: yes, preset: 10 mm extended"), can_carry="66 kN")
    _, found = selection_for_takeup(read(tmp_path, text), tmp_path, "J1", series=None, kind=None, rank=None)
    assert found.winner is not None
    assert table.names[found.winner.row] == "stiff"


def test_nothing_fits_says_why(tmp_path):
    stored(tmp_path, *ROWS)
    text = line_text(choice("J1", AT, "select: yes"), can_carry="20 kN")
    with pytest.raises(NothingFits) as caught:
        resolve(read(tmp_path, text))
    words = str(caught.value)
    assert words.startswith("J1: no joint of trial fits; of 13:\n")
    for reason in ("anchor and hold capacity: west end", "1 by pressure, such as too weak: pressure: 10 bar at 185 °C"):
        assert reason in words


def test_a_selection_where_nothing_fits_still_tells_every_reason(tmp_path):
    """No joint of the kind of the file may stand there; another kind is asked all the same."""
    axial = {"name": "axial", "pressure_bar": "6", "test_pressure_bar": "9", **STEADY}
    stored(tmp_path, axial, ROWS[11])
    study = read(tmp_path, line_text(choice("J1", AT, "select: yes")))
    _, found = selection_for_takeup(study, tmp_path, "J1", series=None, kind=None, rank=None)
    assert found.winner is not None
    assert found.table.names[found.winner.row] == "outside"
    _, found = selection_for_takeup(study, tmp_path, "J1", series=None, kind="single axial", rank=None)
    assert found.winner is None
    assert [bool(found.because(row)) for row in range(2)] == [True, True]


TWO = {
    "legs": ["24 m east"],
    "holds": (
        rule("slide guide", "spacing rule"),
        rule("rest", "support spans"),
        "{ kind: main anchor, at: west end + 12 m, can_carry: 90 kN }",
    ),
    "can_carry": "88 kN",
}


def test_two_places_are_chosen_with_each_other_in_place(tmp_path):
    """What stands in at first is the softest, here one that is rated for half the movement and fails where it stands.

    Both then are the first by price of those whose study stands with the other as chosen, by brute force.
    """
    soft = {"name": "soft and short", "price_index": "30", "axial_compression_mm": "12", **STEADY,
            "axial_rate_n_per_mm": "20"}  # fmt: skip
    table = stored(tmp_path, soft, *(ROWS[row] for row in (0, 6, 7, 8)))
    one, other = choice("J1", AT, "select: yes"), choice("J2", "west end + 13.0 m", "select: yes, rank: length")
    study = resolve(read(tmp_path, line_text(one, other, **TWO)))
    chosen = {takeup.name: takeup.chosen.joint for takeup in study.lines[0].takeups}
    assert verdict_of(run_checks(walk_study(study))).outcome != "fails"
    for name, rank in (("J1", "price"), ("J2", "length")):
        every = []
        for row, joint in enumerate(table.names):
            named = chosen | {name: joint}
            takeups = (
                choice("J1", AT, f'joint: "{named["J1"]}"'),
                choice("J2", "west end + 13.0 m", f'joint: "{named["J2"]}"'),
            )
            every.append(answered(tmp_path, table, row, line_text(*takeups, **TWO), name))
        assert chosen[name] == first(every, rank)


def test_more_than_are_tried_is_said(tmp_path, monkeypatch):
    """Five limp joints, of which three are tried: their studies fail, and whether another stands is not known."""
    monkeypatch.setattr(select, "MOST_TRIED", 3)
    stored(tmp_path, *(ROWS[5] | {"name": f"limp {number}"} for number in range(5)))
    study = read(tmp_path, line_text(choice("J1", AT, "select: yes")))
    _, found = selection_for_takeup(study, tmp_path, "J1", series=None, kind=None, rank=None)
    assert (found.winner, found.exhausted, len(found.tried)) == (None, True, 3)
    assert len(found.fits) == 2  # not refused, not proved


def test_joints_behind_those_asked_are_judged_by_a_probe(tmp_path, monkeypatch):
    """The line is solved with the first two by price alone; the others stand by the movements of the softest."""
    monkeypatch.setattr(select, "MOST_ASKED", 2)
    table = stored(tmp_path, *ROWS)
    study = read(tmp_path, line_text(choice("J1", AT, "select: yes")))
    _, found = selection_for_takeup(study, tmp_path, "J1", series=None, kind=None, rank=None)
    assert sorted(table.names[row] for row in found.own) == ["limp", "too short"]
    assert found.winner is not None
    assert table.names[found.winner.row] == "wide"
    assert {"plain", "outside"} <= {table.names[row] for row in found.fits.tolist()}
