"""Insulation and friction: looked up exactly, never guessed.     (tests/unit/library/test_surroundings.py)"""

from __future__ import annotations

from dataclasses import replace

import pytest

from takeup.errors import OutOfRange
from takeup.library import (
    UnknownName,
    cladding,
    cladding_kinds,
    friction,
    friction_pairs,
    insulation,
    insulation_kinds,
)
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
        ("steel on sand", 0.4, 0.4),
        ("corroded steel on steel", 0.5, 0.8),
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


@pytest.mark.parametrize(
    ("kind", "density"),
    [("calcium silicate", 240), ("cellular glass", 120), ("PIR foam", 40), ("PUR foam", 80), ("mineral wool", 130)],
)
def test_every_kind_of_insulation(kind: str, density: float):
    """Densities are common practice, no source (from memory), and say so."""
    layer = insulation(kind.upper(), mm(50))
    assert (layer.kind, layer.density, layer.cladding) == (kind, density, None)
    assert "no source" in layer.source.words
    assert kind in insulation_kinds()


@pytest.mark.parametrize(
    ("kind", "density"), [("aluminium", 2700), ("galvanised steel", 7850), ("stainless steel", 7900)]
)
def test_cladding_goes_round_the_insulation(kind: str, density: float):
    """Handbook densities of the metals, kg/m3 (from memory); the thickness is what was asked for."""
    sheet = cladding(kind.title(), mm(0.8))
    assert (sheet.kind, sheet.thickness, sheet.density) == (kind, mm(0.8), density)
    assert kind in cladding_kinds()
    assert replace(insulation("mineral wool", mm(80)), cladding=sheet).cladding == sheet


def test_cladding_that_is_not_known_or_not_there_is_refused():
    with pytest.raises(UnknownName, match="unknown cladding 'aluminum': did you mean aluminium"):
        cladding("aluminum", mm(0.8))
    for thickness in (0.0, -0.001, float("nan")):
        with pytest.raises(OutOfRange, match="is not above zero"):
            cladding("aluminium", thickness)
