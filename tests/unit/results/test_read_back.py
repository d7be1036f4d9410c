"""results.json read back.     (tests/unit/results/test_read_back.py)"""

from __future__ import annotations

import json

import pytest
from tests.builders import joint, line_file, study_of

from takeup.errors import InputError
from takeup.reading.json_check import KNOWN
from takeup.results import results_of, write_results
from takeup.results.read_back import SCHEMA, read_results


@pytest.fixture(scope="module")
def document():
    """Real results of a small line."""
    return results_of(study_of(line_file(["20 m east"], takeups=(joint("J1", "10 m"),))))


def words_of(schema) -> set[str]:
    """The words of a schema, without the names of properties and definitions."""
    found = set(schema)
    for word, value in schema.items():
        inner = value.values() if word in {"properties", "$defs"} else [value]
        for one in inner:
            for part in one if isinstance(one, list) else [one]:
                if isinstance(part, dict):
                    found |= words_of(part)
    return found


def test_results_are_read_as_they_were_written(tmp_path, document):
    write_results(document, tmp_path / "results.json")
    assert read_results(tmp_path / "results.json") == json.loads(json.dumps(document))


def test_schema_has_only_words_that_are_understood():
    assert words_of(json.loads(SCHEMA.read_text(encoding="utf-8"))) <= KNOWN


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda it: it.pop("holds"), "'holds' is missing"),
        (lambda it: it["input"].__setitem__("project", 7), "input.project: 7 is not a text"),
        (lambda it: it["input"]["document"].__setitem__("date", "12.5.2026"), "is not a date"),
    ],
)
def test_what_is_missing_or_wrong_is_told_with_its_place(tmp_path, document, change, words):
    broken = json.loads(json.dumps(document))
    change(broken)
    path = tmp_path / "results.json"
    path.write_text(json.dumps(broken, indent=1), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_results(path)
    first = str(caught.value).splitlines()[0]
    assert first.startswith(f"{path}:")
    assert words in first
    assert int(first.removeprefix(f"{path}:").split(":")[0]) >= 1


def test_blank_date_is_none_at_all(tmp_path, document):
    blank = json.loads(json.dumps(document))
    blank["input"]["document"] = {"number": "", "revision": "", "date": ""}
    (tmp_path / "r.json").write_text(json.dumps(blank), encoding="utf-8")
    assert read_results(tmp_path / "r.json") == blank


def test_other_bytes_are_refused(tmp_path):
    (tmp_path / "r.json").write_bytes(b"\xff\xfe{}")
    with pytest.raises(InputError, match=r"not UTF-8"):
        read_results(tmp_path / "r.json")
