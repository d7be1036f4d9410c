"""What the load schedule multiplies by: read from the file with its source, told in the results, never made up."""

from __future__ import annotations

import pytest
from tests.line_texts import VALID, changed

from takeup.errors import InputError
from takeup.line.reading.reader import study_from_text
from takeup.results.resolved import resolved_part


def with_factors(words: str) -> str:
    return changed(("lines:\n", f"design_factors: {words}\nlines:\n"))


def test_factors_stand_in_the_results_as_typed():
    study = study_from_text(with_factors("{ anchors: 1.35, guides: 1.5, source: office rule 7 }"), "x")
    typed = {"anchors": 1.35, "guides": 1.5, "source": "office rule 7"}
    assert resolved_part(study)["design_factors"] == typed  # the numbers typed above, untouched


def test_a_file_without_factors_has_none():
    assert resolved_part(study_from_text(VALID, "x"))["design_factors"] is None


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("{ anchors: 0.9, guides: 1.5, source: office rule 7 }", "'0.9' must not be below 1"),
        ("{ anchors: 1.35, guides: 1.5 }", "'source' is required"),
        ("{ anchors: 1.35, source: office rule 7 }", "'guides' is required"),
    ],
)
def test_factors_without_a_source_or_below_one_are_refused(words, said):
    with pytest.raises(InputError, match=said):
        study_from_text(with_factors(words), "x")
