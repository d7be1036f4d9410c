"""The opened file: nothing is lost, nothing is overwritten unasked, every change can be taken back."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from takeup.desk.opened.journal import Journal
from takeup.desk.opened.project import LARGEST_TEXT, Project, SaveRefused
from takeup.errors import InputError


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "line.yaml"
    path.write_text("takeup: 1\n", encoding="utf-8")
    return path


def kept_beside(file: Path) -> Path:
    return Journal(file).path


def test_a_change_is_undone_and_done_again(file):
    project = Project(file)
    project.change("takeup: 1\nproject: A\n", "typing in line 2")
    project.change("takeup: 1\nproject: A\nb: 2\n", "moving J1")
    assert (project.standing.undo, project.standing.redo) == ("moving J1", "")
    project.undo()
    assert project.standing.text == "takeup: 1\nproject: A\n"
    assert (project.standing.undo, project.standing.redo) == ("typing in line 2", "moving J1")
    project.redo()
    assert project.standing.text.endswith("b: 2\n")
    project.undo()
    project.undo()
    project.undo()  # past the first there is nothing
    assert project.standing.text == "takeup: 1\n"
    assert project.standing.saved


def test_every_change_has_a_revision_of_its_own_and_no_change_has_none(file):
    project = Project(file)
    assert project.standing.revision == 1
    project.change("a\n", "one")
    project.change("a\n", "the same")
    project.undo()
    assert project.standing.revision == 3


def test_typing_on_in_one_line_is_one_change(file):
    project = Project(file)
    for text in ("t", "ta", "tak"):
        project.change(text, "typing in line 1", typed=True)
    project.undo()
    assert project.standing.text == "takeup: 1\n"


def test_typing_after_a_save_is_a_change_of_its_own(file):
    project = Project(file)
    project.change("a\n", "typing in line 1", typed=True)
    project.save(overwrite=False)
    project.change("ab\n", "typing in line 1", typed=True)
    project.undo()
    assert (project.standing.text, project.standing.saved) == ("a\n", True)


def test_saving_is_whole_and_keeps_mode_line_ends_and_mark(file):
    file.write_bytes(b"\xef\xbb\xbftakeup: 1\r\nproject: A\r\n")
    file.chmod(0o640)
    project = Project(file)
    assert project.standing.text == "takeup: 1\nproject: A\n"
    project.change("takeup: 1\nproject: B\n", "typing in line 2")
    project.save(overwrite=False)
    assert file.read_bytes() == b"\xef\xbb\xbftakeup: 1\r\nproject: B\r\n"
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert project.standing.saved
    assert sorted(path.name for path in file.parent.iterdir()) == [".line.yaml.desk", "line.yaml"]


def test_what_something_else_changed_is_not_overwritten_unasked(file):
    project = Project(file)
    project.change("mine\n", "typing in line 1")
    file.write_text("theirs\n", encoding="utf-8")
    assert project.look_outside()
    assert not project.look_outside(), "told once"
    assert project.standing.outside == "changed"
    with pytest.raises(SaveRefused, match=r"line\.yaml was changed by something else"):
        project.save(overwrite=False)
    assert file.read_text(encoding="utf-8") == "theirs\n"
    project.save(overwrite=True)
    assert file.read_text(encoding="utf-8") == "mine\n"
    assert project.standing.outside == "same"


def test_a_change_between_two_looks_is_seen_by_saving_itself(file):
    project = Project(file)
    project.change("mine\n", "typing in line 1")
    file.write_text("theirs\n", encoding="utf-8")
    with pytest.raises(SaveRefused):
        project.save(overwrite=False)


def test_the_file_on_disk_is_taken_as_a_change_that_can_be_taken_back(file):
    project = Project(file)
    project.change("mine\n", "typing in line 1")
    file.write_text("theirs\n", encoding="utf-8")
    project.take_outside()
    assert (project.standing.text, project.standing.saved, project.standing.outside) == ("theirs\n", True, "same")
    project.undo()
    assert (project.standing.text, project.standing.saved) == ("mine\n", False)


def test_a_file_that_is_gone_is_said_and_written_anew(file):
    project = Project(file)
    file.unlink()
    project.look_outside()
    assert project.standing.outside == "gone"
    project.save(overwrite=False)
    assert file.read_text(encoding="utf-8") == "takeup: 1\n"


def test_a_desk_that_was_killed_loses_nothing(file):
    project = Project(file)
    project.change("a\n", "typing in line 1")
    project.change("a\nb\n", "moving J1")
    project.undo()
    after = Project(file)  # the first was never closed
    assert after.standing.text == "a\n"
    assert not after.standing.saved
    assert after.standing.recovered == "Taken over from an earlier desk that ended before saving: typing in line 1."
    assert (after.standing.undo, after.standing.redo) == ("typing in line 1", "moving J1")
    after.undo()
    assert after.standing.saved
    assert file.read_text(encoding="utf-8") == "takeup: 1\n", "nothing is written unasked"


def test_what_was_kept_of_another_content_says_that_the_file_changed(file):
    Project(file).change("mine\n", "typing in line 1")
    file.write_text("theirs\n", encoding="utf-8")
    after = Project(file)
    assert (after.standing.text, after.standing.outside) == ("mine\n", "changed")
    with pytest.raises(SaveRefused):
        after.save(overwrite=False)


def test_a_desk_that_is_closed_leaves_nothing_unless_something_is_unsaved(file):
    project = Project(file)
    project.change("a\n", "typing in line 1")
    assert project.close()
    assert kept_beside(file).exists()
    project = Project(file)
    project.save(overwrite=False)
    assert not project.close()
    assert not kept_beside(file).exists()


def test_half_a_line_in_the_journal_is_left_out(file):
    project = Project(file)
    project.change("a\n", "one")
    project.change("b\n", "two")
    content = kept_beside(file).read_text(encoding="utf-8")
    kept_beside(file).write_text(content[:-9], encoding="utf-8")
    assert Project(file).standing.text == "a\n"


@pytest.mark.parametrize("content", ["", "nonsense", "[1]\n", '{"format": 2, "base": "x"}\n', '{"at": 0}\n'])
def test_a_journal_that_says_nothing_is_no_journal(file, content):
    kept_beside(file).write_text(content, encoding="utf-8")
    assert Project(file).standing.recovered == ""


@given(st.lists(st.one_of(st.text(max_size=4), st.sampled_from(["undo", "redo"])), max_size=12))
def test_the_journal_gives_back_what_stood(tmp_path_factory, steps):
    file = tmp_path_factory.mktemp("journal") / "line.yaml"
    file.write_text("takeup: 1\n", encoding="utf-8")
    project = Project(file)
    for step in steps:
        if step == "undo":
            project.undo()
        elif step == "redo":
            project.redo()
        elif not any("\ud800" <= letter <= "\udfff" for letter in step):
            project.change(step, f"typing {step!r}")
    after = Project(file)
    assert after.standing.text == project.standing.text
    if after.standing.text != "takeup: 1\n":
        assert (after.standing.undo, after.standing.redo) == (project.standing.undo, project.standing.redo)


def test_a_folder_in_which_nothing_can_be_kept_is_said(file, monkeypatch):
    def refused(*_arguments: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Journal, "begin", refused)
    project = Project(file)
    assert project.standing.recovered == "Changes cannot be kept beside the file (permission denied): save often."
    project.change("a\n", "one")
    assert project.standing.text == "a\n"


def test_bad_files_are_refused_with_their_place(tmp_path):
    with pytest.raises(InputError, match=r"none\.yaml:1:1: the file cannot be read: no such file"):
        Project(tmp_path / "none.yaml")
    (tmp_path / "bytes.yaml").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputError, match=r"bytes\.yaml:1:1: this is not a text in UTF-8"):
        Project(tmp_path / "bytes.yaml")


def test_a_text_longer_than_any_line_file_is_refused(file):
    project = Project(file)
    with pytest.raises(InputError, match="more than 2000000 bytes"):
        project.change("a" * (LARGEST_TEXT + 1), "pasting")
    assert project.standing.text == "takeup: 1\n"


def test_a_failed_save_leaves_the_file_and_no_half_of_another(file, monkeypatch):
    project = Project(file)
    project.change("mine\n", "typing in line 1")

    def refused(*_arguments: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", refused)
    with pytest.raises(OSError, match="No space left"):
        project.save(overwrite=False)
    assert file.read_text(encoding="utf-8") == "takeup: 1\n"
    assert not (file.parent / ".line.yaml.part").exists()
    assert not project.standing.saved


def test_the_journal_is_lines_of_json(file):
    project = Project(file)
    project.change("Führung\n", "typing in line 1")
    lines = [json.loads(line) for line in kept_beside(file).read_text(encoding="ascii").splitlines()]
    assert [sorted(line) for line in lines] == [
        ["base", "format", "held"],
        ["text", "words"],
        ["at"],
        ["after", "text", "words"],
    ]
