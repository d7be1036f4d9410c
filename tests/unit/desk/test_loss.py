"""What could lose a change: a full disk, a desk killed at any byte, another desk, a file that is something else now."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from takeup.desk.opened.alone import Alone, OpenElsewhere
from takeup.desk.opened.disk import with_line_ends
from takeup.desk.opened.journal import Journal
from takeup.desk.opened.project import Project, SaveRefused
from takeup.errors import InputError

_FIRST = "takeup: 1\n"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "line.yaml"
    path.write_text(_FIRST, encoding="utf-8")
    return path


def full(handle: int) -> None:
    """Stand in for fsync on a full disk: part of what was written is there, then there is no room."""
    os.ftruncate(handle, max(os.fstat(handle).st_size - 5, 0))
    raise OSError(28, "No space left on device")


def test_a_full_disk_is_said_and_loses_nothing(file, monkeypatch):
    project = Project(file)
    project.change("a\n", "one")
    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        project.change("b\n", "two")
    assert project.standing.text == "b\n"
    assert "cannot be kept beside the file (no space left on device)" in project.standing.recovered
    assert Project(file).standing.text == "a\n", "what was kept before the disk was full is not torn"
    project.change("c\n", "three")  # there is room again: all of them are kept
    assert project.standing.recovered == ""
    after = Project(file)
    assert (after.standing.text, after.standing.undo) == ("c\n", "three")
    after.undo()
    assert after.standing.text == "b\n"


def test_that_nothing_can_be_kept_is_said_after_a_save_too(file, monkeypatch):
    def refused(*_arguments: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Journal, "begin", refused)
    project = Project(file)
    project.save(overwrite=False)
    assert "cannot be kept" in project.standing.recovered


def test_a_journal_that_something_took_away_is_begun_anew_with_everything(file):
    project = Project(file)
    project.change("a\n", "one")
    Journal(file).path.unlink()
    project.change("b\n", "two")
    after = Project(file)
    after.undo()
    assert after.standing.text == "a\n"


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cut=st.integers(0, 2000))
def test_a_desk_killed_at_any_byte_of_a_change_has_the_text_before_or_after_it(tmp_path, cut):
    """Typing on in one line replaces the version before: it must not be gone before the new one is there."""
    path = tmp_path / "cut.yaml"
    path.write_text(_FIRST, encoding="utf-8")
    journal = Journal(path).path
    journal.unlink(missing_ok=True)
    project = Project(path)
    project.change("t\n", "typing in line 1", typed=True)
    before = journal.stat().st_size
    project.change("ta\n", "typing in line 1", typed=True)
    whole = journal.read_bytes()
    journal.write_bytes(whole[: max(before, min(cut, len(whole)))])
    assert Project(path).standing.text in ("t\n", "ta\n")


def test_what_was_undone_can_be_done_again_after_a_kill(file):
    project = Project(file)
    project.change("work\n", "working")
    project.undo()
    after = Project(file)
    assert (after.standing.text, after.standing.redo, after.standing.recovered) == (_FIRST, "working", "")


def test_a_desk_killed_with_everything_saved_takes_the_file_as_it_is(file):
    """Another branch was checked out meanwhile: nothing was unsaved, so that is what counts, and undo reaches back."""
    project = Project(file)
    project.change("mine\n", "one")
    project.save(overwrite=False)
    file.write_text("theirs\n", encoding="utf-8")
    after = Project(file)
    assert (after.standing.text, after.standing.saved, after.standing.outside) == ("theirs\n", True, "same")
    assert after.standing.recovered == ""
    after.undo()
    assert after.standing.text == "mine\n"


def test_what_was_kept_and_is_on_the_disk_meanwhile_is_saved(file):
    """Somebody else saved just that text."""
    Project(file).change("the same\n", "one")
    file.write_text("the same\n", encoding="utf-8")
    after = Project(file)
    assert (after.standing.saved, after.standing.outside, after.standing.recovered) == (True, "same", "")


@pytest.mark.parametrize("content", [b"a\r\nb\nc\r\n", b"a\rb\rc", b"", b"\n", b"a", b"a\nb\r\n\r\nc", b"a\r\n"])
def test_line_ends_stay_whatever_they_are(file, content):
    file.write_bytes(content)
    project = Project(file)
    project.save(overwrite=False)
    assert file.read_bytes() == content


def test_of_mixed_line_ends_only_what_is_changed_takes_the_usual_one():
    before = b"one\r\ntwo\nthree\r\nfour\r\nfive\n"
    assert with_line_ends("one\ntwo\n3\nnew\nfour\nfive\n", before) == (b"one\r\ntwo\n3\r\nnew\r\nfour\r\nfive\n")


@given(
    parts=st.lists(st.tuples(st.sampled_from(["", "a", "ü"]), st.sampled_from(["\n", "\r\n", "\r"]))), end=st.text("ab")
)
def test_a_text_that_nobody_changed_keeps_every_byte(parts, end):
    words = "".join(word + mark for word, mark in parts) + end
    text = words.replace("\r\n", "\n").replace("\r", "\n")
    assert with_line_ends(text, words.encode()).decode().replace("\r\n", "\n").replace("\r", "\n") == text
    assert with_line_ends(text, words.encode()) == words.encode()


@pytest.mark.skipif(sys.platform == "win32", reason="modes are of POSIX")
def test_what_is_kept_is_for_the_owner_alone(file):
    file.chmod(0o600)
    project = Project(file)
    project.change("secret\n", "one")
    assert Journal(file).path.stat().st_mode & 0o077 == 0
    project.save(overwrite=False)
    assert file.stat().st_mode & 0o777 == 0o600


def test_a_folder_in_the_place_of_the_file_is_told_and_not_written(file):
    project = Project(file)
    project.change("mine\n", "one")
    file.unlink()
    file.mkdir()
    assert project.look_outside()
    assert project.standing.outside == "changed"
    with pytest.raises(SaveRefused):
        project.save(overwrite=False)
    with pytest.raises(OSError, match=r"(?i)directory"):
        project.save(overwrite=True)
    with pytest.raises(InputError, match="no plain file"):
        project.take_outside()
    assert project.standing.text == "mine\n"


def test_a_link_put_in_the_place_of_the_file_is_not_followed(file, tmp_path):
    other = tmp_path / "other.txt"
    other.write_text("not of this project\n", encoding="utf-8")
    project = Project(file)
    file.unlink()
    file.symlink_to(other)
    project.look_outside()
    assert project.standing.outside == "changed"
    with pytest.raises(InputError, match="no plain file"):
        project.take_outside()
    project.save(overwrite=True)
    assert not file.is_symlink()
    assert other.read_text(encoding="utf-8") == "not of this project\n"


def test_a_link_waiting_where_a_save_writes_first_is_not_followed(file, tmp_path):
    other = tmp_path / "other.txt"
    other.write_text("theirs\n", encoding="utf-8")
    (tmp_path / ".line.yaml.part").symlink_to(other)
    project = Project(file)
    project.change("mine\n", "one")
    project.save(overwrite=False)
    assert (file.read_text(encoding="utf-8"), other.read_text(encoding="utf-8")) == ("mine\n", "theirs\n")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with names are of POSIX")
def test_a_pipe_in_the_place_of_the_file_keeps_nobody_waiting(file):
    project = Project(file)
    file.unlink()
    os.mkfifo(file)
    project.look_outside()
    assert project.standing.outside == "changed"


def test_half_a_character_is_refused_before_it_can_keep_a_save_from_writing(file):
    project = Project(file)
    with pytest.raises(InputError, match="half a character"):
        project.change("a\ud800\n", "pasting")
    project.save(overwrite=False)


def test_a_second_desk_on_a_file_is_told_of_the_first(file):
    first = Alone(file)
    with pytest.raises(OpenElsewhere, match=r"line\.yaml is open on another desk"):
        Alone(file)
    first.end()
    second = Alone(file)
    second.end()
    assert [path.name for path in file.parent.iterdir()] == ["line.yaml"]


_EDITS = """
import sys
from pathlib import Path
from takeup.desk.opened.project import Project
project = Project(Path(sys.argv[1]))
number = 0
while True:
    number += 1
    project.change(f"text {number}\\n" * 50, "typing in line 1", typed=number % 3 > 0)
    print(number, flush=True)
    if number % 7 == 0:
        project.save(overwrite=False)
"""


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="a kill of POSIX")
@pytest.mark.parametrize("after", [0.0, 0.013, 0.05, 0.11])
def test_a_desk_killed_among_changes_and_saves_has_the_last_that_it_answered(file, after):
    """On a real disk, at four times that meet other writes on each machine: never a text older than the last told."""
    with subprocess.Popen([sys.executable, "-c", _EDITS, str(file)], stdout=subprocess.PIPE, text=True) as editing:
        assert editing.stdout is not None
        first = editing.stdout.readline()
        time.sleep(after)
        editing.kill()
        told = [int(line) for line in [first, *editing.stdout] if line.endswith("\n")]
    lines = Project(file).standing.text.splitlines()
    assert set(lines) in ({f"text {told[-1]}"}, {f"text {told[-1] + 1}"})
    saved = file.read_text(encoding="utf-8")
    assert saved == _FIRST or len(saved.splitlines()) == 50, "never half a file"
