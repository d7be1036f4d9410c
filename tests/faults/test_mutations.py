"""A valid file with random damage gives faults or a study, never any other error."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from takeup.errors import InputError
from takeup.line.reader import study_from_text

ROOT = Path(__file__).parents[2]
VALID = (ROOT / "tests" / "faults" / "valid.yaml").read_text(encoding="utf-8")
EVERY_KEY = (ROOT / "docs" / "reference" / "line-file-example.yaml").read_text(encoding="utf-8")
DAMAGES = ("delete", "replace", "duplicate")


def judge(text: str) -> None:
    """Read a text; each fault must name its file and a place that counts from one."""
    try:
        study_from_text(text, "damaged.yaml")
    except InputError as error:
        found = error.faults
    else:
        return
    assert found
    assert all(fault.line >= 1 and fault.column >= 1 and fault.message for fault in found)


@settings(max_examples=150)
@given(st.sampled_from([VALID, EVERY_KEY]), st.sampled_from(DAMAGES), st.data())
def test_damaged_line_gives_faults_or_a_study(text, damage, data):
    lines = text.splitlines(keepends=True)
    place = data.draw(st.integers(0, len(lines) - 1))
    other = lines[data.draw(st.integers(0, len(lines) - 1))]
    lines[place : place + 1] = {"delete": [], "replace": [other], "duplicate": [lines[place]] * 2}[damage]
    judge("".join(lines))


@settings(max_examples=150)
@given(st.sampled_from([VALID, EVERY_KEY]), st.sampled_from(DAMAGES), st.data())
def test_damaged_character_gives_faults_or_a_study(text, damage, data):
    place = data.draw(st.integers(0, len(text) - 1))
    other = data.draw(st.characters() | st.sampled_from(":-{}[],&*!|>'\"#%@`\t\n 0.e"))
    found = {"delete": "", "replace": other, "duplicate": text[place] * 2}[damage]
    judge(text[:place] + found + text[place + 1 :])


@settings(max_examples=50)
@given(st.text(max_size=80))
def test_any_text_gives_faults(text):
    judge(text)
