"""Every broken bellows file gives exactly the faults written in bellows/expected.txt, all of them at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.bellows.reading import bellows_from_bytes, read_bellows
from takeup.errors import InputError

FOLDER = Path(__file__).parent / "bellows"
FILES = sorted(path for path in FOLDER.iterdir() if path.suffix in (".csv", ".yaml"))
EXPECTED = (FOLDER / "expected.txt").read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_broken_bellows_file_gives_exactly_its_faults(path, monkeypatch):
    """The messages in expected.txt were read one by one; each begins with the file as the user named it."""
    monkeypatch.chdir(path.parent)
    with pytest.raises(InputError) as caught:
        read_bellows(Path(path.name))
    assert [str(fault) for fault in caught.value.faults] == [
        line for line in EXPECTED if line.startswith(f"{path.name}:")
    ]


def test_expected_faults_all_belong_to_a_bellows_file():
    assert {line.split(":")[0] for line in EXPECTED} == {path.name for path in FILES}


@pytest.mark.parametrize(
    ("content", "file", "message"),
    [
        (b"", "b.csv", "1:1: the file has no rows; a table of bellows begins with the names of its columns: name,"),
        (b"", "b.yaml", "1:1: found nothing, expected a mapping that begins with takeup_bellows: 1"),
        (b"- a\n", "b.yaml", "1:1: found a list, expected a mapping that begins with takeup_bellows: 1"),
        (b"\x7fELF\x00\x01", "b.yaml", "1:1: this is not text in UTF-8; save the file as UTF-8"),
        (b"name: caf\xe9\n", "b.yaml", "1:10: the byte 0xe9 is not UTF-8 text; save the file as UTF-8"),
        (b"[" * 5000, "b.yaml", "1:1: the file is nested too deeply to be a bellows file"),
        (b"takeup_bellows: 1\nname: &a A\n", "b.yaml", "2:7: the anchor '&a' is not used in bellows files"),
    ],
    ids=["empty table", "empty text", "a list", "binary", "latin-1", "nested deeply", "an anchor"],
)
def test_file_that_is_no_bellows_file_says_so_first(content, file, message):
    with pytest.raises(InputError) as caught:
        bellows_from_bytes(content, file)
    assert any(str(fault).startswith(f"{file}:{message}") for fault in caught.value.faults), caught.value


def test_missing_bellows_file_is_one_fault(tmp_path):
    path = tmp_path / "none.csv"
    with pytest.raises(InputError) as caught:
        read_bellows(path)
    assert str(caught.value) == f"{path}:1:1: the file cannot be read: no such file or directory"
