"""The answer to `select`, in whichever of the words a file may use."""

from __future__ import annotations

from pathlib import Path

import pytest

from takeup.errors import InputError
from takeup.line.reading.reader import study_from_text

EXAMPLE = Path(__file__).parents[4] / "examples" / "lennox-quay-selected-joint.yaml"
TEXT = EXAMPLE.read_text(encoding="utf-8")


@pytest.mark.parametrize("word", ["yes", "true"])
def test_joint_is_left_to_its_series(word):
    study = study_from_text(TEXT.replace("select: yes", f"select: {word}"), str(EXAMPLE))
    assert [choice.rank for choice in study.lines[0].choices if choice.joint is None] == ["price"]


@pytest.mark.parametrize("word", ["no", "false"])
def test_no_leaves_the_joint_open_and_is_a_fault_that_repeats_it(word):
    with pytest.raises(InputError, match=f"select: '{word}' leaves the joint open"):
        study_from_text(TEXT.replace("select: yes", f"select: {word}"), str(EXAMPLE))


def test_another_word_is_a_fault():
    with pytest.raises(InputError, match="found 'maybe', expected yes or no, or true or false"):
        study_from_text(TEXT.replace("select: yes", "select: maybe"), str(EXAMPLE))
