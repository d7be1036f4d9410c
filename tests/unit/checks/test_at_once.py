"""What fails without friction fails in the whole study.     (checks/test_at_once.py)"""

from __future__ import annotations

import pytest
from tests.bare_lines import bare_text

from takeup.checks import Alone, failing_at_once, run_checks
from takeup.choose import resolve
from takeup.line.reading.reader import study_from_text
from takeup.study import begin_walk, walk_on

LINES = {
    "straight and long": bare_text("16 m east", may=(), ends=("900 kN", "900 kN")),  # bows out
    "weak ends": bare_text("6 m east", "5 m north", may=(), ends=("0.5 kN", "0.5 kN")),  # an anchor cannot bear it
    "short legs": bare_text("12 m east", "1 m north", "12 m east", may=(), ends=("90 kN", "90 kN"), stress="30 MPa"),
    "sound": bare_text("6 m east", "5 m north", may=(), ends=("30 kN", "30 kN")),
}


@pytest.mark.parametrize("name", LINES)
def test_what_fails_without_friction_fails_in_the_whole_study(name):
    begun = begin_walk(resolve(study_from_text(LINES[name], "bare.yaml")))
    first, second = failing_at_once(Alone(begun.alone))
    at_once = {(row.rule, row.where) for row in (*first, *second)}
    whole = {(row.rule, row.where) for row in run_checks(walk_on(begun)) if row.outcome == "fails"}
    assert at_once <= whole
    assert bool(at_once) is (name != "sound")
