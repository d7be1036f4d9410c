"""A valid file with random damage gives faults or a study, never any other error: a thousand examples."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from takeup.errors import InputError
from takeup.line import route_of, states_of
from takeup.line.reading.reader import study_from_text

ROOT = Path(__file__).parents[2]
TEXTS = [
    (ROOT / place).read_text(encoding="utf-8")
    for place in (
        "tests/faults/valid.yaml",
        "tests/unit/line/reading/branched.yaml",
        "docs/reference/line-file-example.yaml",
    )
]
DAMAGES = ("delete", "replace", "duplicate", "swap")
VALUE = re.compile(r"(?<=: )[^{}\[\],\n#]+(?=[,}\]\n])|(?<=[\[ ])-?[0-9.]+ [a-zA-Z%°/·()0-9]+(?=[,\]])")
NONSENSE = (
    *("", "~", "yes", "none", "[1, 2]", "{ a: b }", "5", "0 m", "-1 m", "1e9 m", "1e400 m", "nan m", "1 furlong"),
    *("12 bar", "0 bar(a)", "900 °C", "-270 °C", "0.1 mm", "1/0 in", "1 in 0", "0 m east", "9 m up", "50 m west"),
    *("DN 15", "DN 500", "LS-201", "LS-202", "branch", "free", "equipment", "main reducer", "reducing valve", "rise"),
    *("air", "thermal oil", "operating", "EN 13480-3", "mitre, 3 cuts", "north", "1 m east falling 1 in 2"),
)


def judge(text: str) -> None:
    """Read a text; each fault must name its file and a place that counts from one, and a study must be whole."""
    try:
        study = study_from_text(text, "damaged.yaml")
    except InputError as error:
        found = error.faults
    else:
        assert states_of(study)
        assert all(route_of(line).length > 0.0 for line in study.lines)
        return
    assert found
    assert all(fault.line >= 1 and fault.column >= 1 and fault.message for fault in found)


@settings(max_examples=330)
@given(st.sampled_from(TEXTS), st.sampled_from(DAMAGES), st.data())
def test_damaged_line_gives_faults_or_a_study(text, damage, data):
    lines = text.splitlines(keepends=True)
    place, source = (data.draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    one, other = lines[place], lines[source]
    if damage == "swap":
        lines[source] = one
    lines[place : place + 1] = {"delete": [], "replace": [other], "duplicate": [one] * 2, "swap": [other]}[damage]
    judge("".join(lines))


@settings(max_examples=340)
@given(st.sampled_from(TEXTS), st.sampled_from(NONSENSE) | st.none(), st.data())
def test_damaged_value_gives_faults_or_a_study(text, nonsense, data):
    """A value becomes nonsense, or changes places with another one."""
    values = list(VALUE.finditer(text))
    first, last = sorted(data.draw(st.integers(0, len(values) - 1)) for _ in range(2))
    one, other = values[first], values[last]
    if nonsense is not None or first == last:
        judge(text[: one.start()] + (nonsense or "") + text[one.end() :])
    else:
        judge(text[: one.start()] + other[0] + text[one.end() : other.start()] + one[0] + text[other.end() :])


@settings(max_examples=280)
@given(st.sampled_from(TEXTS), st.sampled_from(("delete", "replace", "duplicate")), st.data())
def test_damaged_character_gives_faults_or_a_study(text, damage, data):
    place = data.draw(st.integers(0, len(text) - 1))
    other = data.draw(st.characters() | st.sampled_from(":-{}[],&*!|>'\"#%@`\t\n 0.e"))
    found = {"delete": "", "replace": other, "duplicate": text[place] * 2}[damage]
    judge(text[:place] + found + text[place + 1 :])


@settings(max_examples=50)
@given(st.text(max_size=80))
def test_any_text_gives_faults(text):
    judge(text)
