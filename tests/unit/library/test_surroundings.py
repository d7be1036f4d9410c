"""Insulation and friction: looked up exactly, never guessed.     (tests/unit/library/test_surroundings.py)"""

from __future__ import annotations

import pytest

from takeup.errors import OutOfRange
from takeup.library import UnknownName, friction, friction_pairs, insulation
from takeup.units import mm


@pytest.mark.parametrize(
    ("words", "low", "high"),
    [
        ("PTFE on steel", 0.05, 0.20),
        ("steel on steel", 0.3, 0.5),
        ("PTFE on stainless steel", 0.10, 0.10),
        ("PTFE on PTFE", 0.10, 0.10),
        ("graphite on stainless steel", 0.15, 0.15),
        ("steel on concrete", 0.4, 0.5),
        ("roller", 0.01, 0.05),
    ],
)
def test_friction_pairs(words: str, low: float, high: float):
    """A training article on piping supports (read); 0.05 and the weathered 0.5 are common practice (from memory)."""
    pair = friction(words)
    assert (pair.words, pair.low, pair.high) == (words, low, high)
    assert friction(words.upper()) == pair


def test_friction_is_a_range_that_rubs():
    for words in friction_pairs():
        pair = friction(words)
        assert 0 < pair.low <= pair.high < 1


def test_range_that_rests_on_memory_says_so():
    assert friction("PTFE on steel").source.status == "from memory"
    assert friction("PTFE on PTFE").source.status == "read"


def test_unknown_pair_is_refused_with_the_nearest():
    with pytest.raises(UnknownName, match="unknown friction pair 'teflon on steel'") as refusal:
        friction("teflon on steel")
    assert refusal.value.known[0] in {"steel on steel", "PTFE on steel"}


def test_insulation_of_a_kind():
    """Mineral wool pipe sections, 130 kg/m3: common practice, no source (from memory)."""
    layer = insulation("Mineral wool", mm(80))
    assert (layer.kind, layer.thickness, layer.density) == ("mineral wool", mm(80), 130.0)
    assert layer.source.status == "from memory"


def test_insulation_that_is_not_known_or_not_there_is_refused():
    with pytest.raises(UnknownName, match="unknown insulation 'rock wool'"):
        insulation("rock wool", mm(80))
    for thickness in (0.0, -0.08, float("nan")):
        with pytest.raises(OutOfRange, match="is not above zero"):
            insulation("mineral wool", thickness)
