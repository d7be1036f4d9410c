"""A place moved, taken out, put in: the text says it, reading gives it back, and nothing else changes."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import unified_diff
from pathlib import Path

import pytest

from takeup.choose import resolve
from takeup.line import Study
from takeup.line.reading.edit_places import (
    EditRefused,
    place_words,
    with_hold,
    with_moved,
    with_selected_joint,
    without,
)
from takeup.line.reading.reader import study_from_text

EXAMPLES = Path(__file__).resolve().parents[4] / "examples"
QUICK = sorted(path for path in EXAMPLES.glob("*.yaml") if "selected" not in path.name)
KETTERBY = EXAMPLES / "ketterby-steam-main.yaml"


def read(text: str) -> tuple[Study, Study]:
    study = study_from_text(text, "line.yaml")
    return study, resolve(study)


def stations(study: Study) -> dict[tuple[str, str], float]:
    return {(line.name, one.name): one.position.station for line in study.lines for one in (*line.holds, *line.takeups)}


def changed_lines(before: str, after: str) -> tuple[list[str], list[str]]:
    diff = [
        line for line in unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="") if line[:2] != "@@"
    ]
    minus = [line[1:] for line in diff if line.startswith("-") and not line.startswith("---")]
    return minus, [line[1:] for line in diff if line.startswith("+") and not line.startswith("+++")]


def is_refused(resolved: Study, line: str, name: str) -> bool:
    """Return whether it stands on a bend, or is a part of a double, which has no place of its own."""
    own = resolved.line(line)
    one = next(one for one in (*own.holds, *own.takeups) if one.name == name)
    doubles = any(joint.written_as.startswith("double") for joint in own.takeups)
    return one.position.on_bend is not None or doubles


def by_hand() -> Iterator[tuple[Path, str, str]]:
    for path in QUICK:
        for line in study_from_text(path.read_text(encoding="utf-8"), path.name).lines:
            yield from ((path, line.name, one.name) for one in (*line.holds, *line.takeups))


@pytest.mark.parametrize(("path", "line", "name"), [*by_hand()], ids=lambda one: getattr(one, "stem", one))
def test_what_is_moved_is_there_and_one_line_of_text_says_so(path, line, name):
    """Tolerance: a station is written to a micrometre."""
    text = path.read_text(encoding="utf-8")
    study, resolved = read(text)
    before = stations(study)[line, name]
    try:
        new = with_moved(text, study, resolved, line=line, name=name, station=before + 0.01)
    except EditRefused:
        assert is_refused(resolved, line, name)
        return
    after = study_from_text(new, path.name)
    moved = [one for own in after.lines for one in (*own.holds, *own.takeups) if own.name == line]
    assert any(abs(one.position.station - before - 0.01) < 2e-6 for one in moved)
    minus, plus = changed_lines(text, new)
    assert len(minus) == len(plus) == 1


def test_a_place_by_name_keeps_its_name():
    text = KETTERBY.read_text(encoding="utf-8")
    study, resolved = read(text)
    new = with_moved(text, study, resolved, line="LS-201", name="roof anchor", station=91.5)
    assert "at: roof corner - 4.5 m, can_carry: 120 kN" in new
    through = with_moved(new, *read(new), line="LS-201", name="roof anchor", station=96.75)
    assert "at: roof corner + 0.75 m, can_carry" in through


def test_what_stands_by_a_moved_hold_goes_with_it():
    """J2 stands at "middle anchor + 1.2 m"; it keeps its distance, as the text says."""
    text = KETTERBY.read_text(encoding="utf-8")
    new = with_moved(text, *read(text), line="LS-201", name="middle anchor", station=47.0)
    after = stations(study_from_text(new, "line.yaml"))
    assert after["LS-201", "middle anchor"] == pytest.approx(47.0, abs=1e-6)
    assert after["LS-201", "J2"] == pytest.approx(48.2, abs=1e-6)


def test_a_hold_that_a_rule_placed_takes_all_of_its_rule_into_the_text():
    text = KETTERBY.read_text(encoding="utf-8")
    study, resolved = read(text)
    new = with_moved(text, study, resolved, line="LS-201", name="slide guide at 19.25 m", station=19.5)
    before, after = stations(resolved), stations(resolve(study_from_text(new, "line.yaml")))
    assert "by: spacing rule" not in new
    assert after.pop(("LS-201", "slide guide at 19.5 m")) == pytest.approx(19.5, abs=1e-6)
    del before["LS-201", "slide guide at 19.25 m"]
    assert after == pytest.approx(before, abs=1e-6)


@pytest.mark.parametrize(("path", "line", "name"), [*by_hand()], ids=lambda one: getattr(one, "stem", one))
def test_what_is_taken_out_is_gone_and_the_text_stays_yaml(path, line, name):
    text = path.read_text(encoding="utf-8")
    study, resolved = read(text)
    try:
        new = without(text, study, resolved, line=line, name=name)
    except EditRefused:
        return
    minus, plus = changed_lines(text, new)
    assert minus
    kept = [one for one in text.splitlines() if one.lstrip().startswith("#")]
    assert [one for one in new.splitlines() if one.lstrip().startswith("#")] == kept  # every comment that has a line
    assert len(plus) <= 1


def test_a_hold_and_a_joint_are_put_in():
    text = KETTERBY.read_text(encoding="utf-8")
    study, _ = read(text)
    new = with_hold(text, study, line="LS-201", kind="slide guide", station=97.25, said=[("slides_on", "roller")])
    assert "      - { kind: slide guide, at: roof corner + 1.25 m, slides_on: roller }\n" in new
    new = with_selected_joint(
        new, study, line="LS-201", kind="single axial", station=20.0, series="demonstration series"
    )
    after = study_from_text(new, "line.yaml")
    (choice,) = after.lines[0].choices
    assert (choice.name, choice.kind) == ("J4", "single axial")
    assert choice.position.station == pytest.approx(20.0, abs=1e-9)
    minus, plus = changed_lines(text, new)
    assert (len(minus), len(plus)) == (0, 2)


def test_lists_are_made_where_there_are_none():
    text = (EXAMPLES / "bare" / "sorrel-yard-laundry.yaml").read_text(encoding="utf-8")
    study = study_from_text(text, "line.yaml")
    line = study.lines[0]
    new = with_hold(text, study, line=line.name, kind="main anchor", station=3.0, said=[])
    assert "holds:" in new
    assert any(hold.position.station == 3.0 for hold in study_from_text(new, "line.yaml").lines[0].holds)


def test_a_name_that_nothing_bears_is_refused():
    text = KETTERBY.read_text(encoding="utf-8")
    with pytest.raises(EditRefused, match="J9 has no place of its own"):
        with_moved(text, *read(text), line="LS-201", name="J9", station=1.0)
    with pytest.raises(EditRefused, match='no line "LS-9"'):
        with_moved(text, *read(text), line="LS-9", name="J1", station=1.0)


def test_words_of_a_place():
    study, _ = read(KETTERBY.read_text(encoding="utf-8"))
    line = study.lines[0]
    assert place_words(line, 0.0) == "boiler house header"
    assert place_words(line, 96.0) == "roof corner"
    assert place_words(line, 104.5) == "roof corner + 8.5 m"
