"""Three codes, a clause for each rule, each from memory or read.     (tests/unit/basis/test_codes.py)"""

from __future__ import annotations

import pytest

from takeup.basis import CODES, clause
from takeup.basis.codes import CLAUSES, SUBJECTS, above_zero, not_below_zero
from takeup.errors import OutOfRange


@pytest.mark.parametrize("code", CODES)
def test_every_code_has_a_clause_for_every_subject(code):
    assert tuple(CLAUSES[code]) == SUBJECTS
    assert all(clause(code, subject).words.startswith(code) for subject in SUBJECTS)


def test_only_the_screening_rule_of_asme_was_read():
    """ASME B31.9 919.4.1 eq. (8) was read with its parallels in B31.1 and B31.3; everything else is from memory."""
    read = [(code, subject) for code in CODES for subject in SUBJECTS if clause(code, subject).status == "read"]
    assert read == [("ASME B31.1", "screening"), ("ASME B31.3", "screening")]


@pytest.mark.parametrize("value", [-1.0, float("nan"), float("inf")])
def test_refusal_names_what_is_wrong(value: float):
    with pytest.raises(OutOfRange, match=r"^mean radius (-1|nan|inf): must be above zero"):
        above_zero(wall=1.0, mean_radius=value)
    with pytest.raises(OutOfRange, match=r"^mean radius (-1|nan|inf): must not be below zero"):
        not_below_zero(wall=0.0, mean_radius=value)


def test_zero_is_not_above_zero():
    with pytest.raises(OutOfRange, match="wall 0: must be above zero"):
        above_zero(wall=0.0)
