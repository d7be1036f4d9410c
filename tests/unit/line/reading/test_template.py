"""The file that `takeup new` writes is valid as it stands, in both systems of units."""

from __future__ import annotations

import re

import pytest

from takeup.line.reading.reader import study_from_text
from takeup.line.reading.template import template
from takeup.reading.yaml_places import read_places


@pytest.mark.parametrize("units", ["si", "us"])
def test_template_is_a_valid_arrangement(units):
    line = study_from_text(template(units), "new.yaml").lines[0]
    assert [end.kind for end in (line.start, line.end)] == ["main anchor", "main anchor"]
    assert [hold.kind for hold in line.holds] == ["main anchor"]
    assert len(line.takeups) == 2


@pytest.mark.parametrize("units", ["si", "us"])
def test_template_has_one_joint_between_each_two_anchors(units):
    line = study_from_text(template(units), "new.yaml").lines[0]
    anchor = line.holds[0].position.station
    first, second = (takeup.position.station for takeup in line.takeups)
    assert 0.0 < first < anchor < second


@pytest.mark.parametrize("units", ["si", "us"])
def test_comments_of_the_template_are_valid_keys(units):
    """The keys shown as comments are read too, once their marks are taken away."""
    text = re.sub(r"^# (?=allowable:|states:|  )", "", template(units), flags=re.MULTILINE)
    study = study_from_text(text, "new.yaml")
    assert study.allowables.yield_strength is not None
    assert [state.state for state in study.dropped] == ["cooling under vacuum"]


def test_templates_have_the_same_keys_on_the_same_lines():
    keys = [read_places(template(units), "new.yaml").keys for units in ("si", "us")]
    assert list(keys[0]) == list(keys[1])
    assert [place.line for place in keys[0].values()] == [place.line for place in keys[1].values()]
