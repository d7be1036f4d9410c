"""Every broken file under files/ gives exactly the faults written in expected.txt, all of them at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.errors import InputError
from takeup.line.reading.reader import read_study, study_from_text

HERE = Path(__file__).parent
FILES = sorted((HERE / "files").glob("*.yaml"))
VALID = (HERE / "valid.yaml").read_text(encoding="utf-8")
EXPECTED = (HERE / "expected.txt").read_text(encoding="utf-8").splitlines()


def faults_of(path: Path) -> list[str]:
    with pytest.raises(InputError) as caught:
        read_study(path)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_broken_file_gives_exactly_its_faults(path, monkeypatch):
    """The messages in expected.txt were read one by one; each begins with the file as the user named it."""
    monkeypatch.chdir(path.parent)
    assert faults_of(Path(path.name)) == [line for line in EXPECTED if line.startswith(f"{path.name}:")]


def test_expected_faults_all_belong_to_a_file():
    assert {line.split(":")[0] for line in EXPECTED} == {path.name for path in FILES}


def test_fault_begins_with_the_path_as_given(tmp_path):
    path = tmp_path / "line.yaml"
    path.write_text(VALID.replace("12 bar(g)", "12 bar"), encoding="utf-8")
    assert faults_of(path)[0].startswith(f"{path}:6:21: design, pressure: ")


def test_missing_file_is_one_fault(tmp_path):
    path = tmp_path / "none.yaml"
    assert faults_of(path) == [f"{path}:1:1: the file cannot be read: no such file or directory"]


def test_directory_is_one_fault(tmp_path):
    assert faults_of(tmp_path) == [f"{tmp_path}:1:1: the file cannot be read: is a directory"]


def test_forbidden_file_is_one_fault(tmp_path, monkeypatch):
    """A superuser may read everything, so the refusal of the system is played."""

    def refuse(*_arguments, **_settings):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    path = tmp_path / "locked.yaml"
    assert faults_of(path) == [f"{path}:1:1: the file cannot be read: permission denied"]


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "1:1: the file is empty; `takeup new FILE` writes one to start from"),
        (b"\n \n", "1:1: the file is empty; `takeup new FILE` writes one to start from"),
        (b"\x7fELF\x00\x01", "1:1: this is not a text file; a line file is YAML text"),
        (b"takeup: 1\nproject: caf\xe9\n", "2:13: the byte 0xe9 is not UTF-8 text; save the file as UTF-8"),
        (b"takeup: 1\nproject: a\x07b\n", r"2:11: the character '\x07' is not allowed in a text file"),
        (b"just a sentence", "1:1: found a text, expected a mapping that begins with takeup: 1"),
        (b"[" * 5000, "1:1: the file is nested too deeply to be a line file"),
        (b"# long\n" * 300_000, "1:1: the file has more than 2000000 bytes; a line file has a few thousand"),
    ],
    ids=["empty", "blank", "binary", "latin-1", "control character", "a sentence", "nested deeply", "too long"],
)
def test_file_that_is_no_line_file_is_one_fault(content, message, tmp_path):
    path = tmp_path / "odd.yaml"
    path.write_bytes(content)
    assert faults_of(path) == [f"{path}:{message}"]


def test_valid_file_has_no_fault():
    assert study_from_text(VALID, "valid.yaml").project == "Marrow Lane dye works"
