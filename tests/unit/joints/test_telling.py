"""What a kind says that a line file needs is what the reader asks for; what holds it, in words.  (test_telling.py)"""

from __future__ import annotations

import pytest
from tests.builders import JOINT_DATA, hold, joint, line_file

from takeup.errors import InputError
from takeup.joints import ALL_KINDS, WRITTEN_KINDS, JointKind, RouteKind
from takeup.joints.telling import held_by, keys_needed, keys_possible
from takeup.line.reading.reader import study_from_text

HARDWARE = {
    "rods": "{ count: 4, diameter: 24 mm, circle: 400 mm, gap: 20 mm, modulus: 200 GPa, hot: no, source: invented }",
    "pins": (
        "{ along: upright, spread: 320 mm, diameter: 40 mm, width: 80 mm, thickness: 25 mm, modulus: 200 GPa, "
        "hot: no, slides_on: steel on steel, source: invented }"
    ),
    "balance": "{ axial_rate: 190 N/mm, effective_area: 46000 mm2, source: invented }",
    "base": "{ can_carry: 90 kN, source: invented }",
    "ends": "welded",
}
DATA = {"centres": "1.2 m", "lateral_rate": "20 N/mm", "live_length": "0.3 m"}
COPPER_BORE = ("small-bore compensator",)


def text_of(kind: JointKind, keys: tuple[str, ...]) -> str:
    """Return a line with one joint that has those keys of the ones that not every joint has."""
    rated = ("axial_compression", "axial_extension", "lateral", "angular")
    data = dict(JOINT_DATA) | dict.fromkeys(rated) | {"length": "1.6 m", "live_length": "0.3 m"}
    for key in (part for name in keys for part in name.split(" or ")[:1] if part.startswith("data.")):
        name = key.removeprefix("data.")
        data[name] = JOINT_DATA.get(name) or DATA[name]
    if kind.name == "braided hose loop":  # its thrust is its braid's: there is no area to be typed in
        data["effective_area"] = None
    more = "".join(f", {key}: {HARDWARE[key]}" for key in keys if key in HARDWARE)
    one = joint("J1", "corner - 1.4 m" if "elbow" in kind.name else "6 m", kind=kind.name, **data)
    pipe = "{ size: DN 65, wall: 5.16 mm, material: ASTM A106 B, bends: long radius }"
    area = "5000 mm2" if kind.name in COPPER_BORE else "46000 mm2"
    one = one.replace(", data:", f"{more}, data:", 1).replace("46000 mm2, length", f"{area}, length")
    chosen = {"pipe": pipe} if kind.name in COPPER_BORE else {}
    return line_file(
        ["12 m east, to: corner", "6 m north"], holds=(hold("slide guide", "[2 m, 14 m]"),), takeups=(one,), **chosen
    )


KINDS_AND_KEYS = [(kind, key) for kind in WRITTEN_KINDS.values() for key in keys_needed(kind)]


@pytest.mark.parametrize("kind", WRITTEN_KINDS.values(), ids=lambda kind: kind.name)
def test_keys_needed_are_enough(kind):
    study = study_from_text(text_of(kind, keys_needed(kind)), "x")
    assert study.lines[0].takeups[0].kind == (kind.halves or kind.name)


@pytest.mark.parametrize(("kind", "key"), KINDS_AND_KEYS, ids=lambda part: getattr(part, "name", part))
def test_each_key_needed_is_missed(kind, key):
    """Of the two movements along the pipe one alone is a fault too: the other has to be said, be it nought."""
    left = tuple(other for other in keys_needed(kind) if other != key)
    with pytest.raises(InputError):
        study_from_text(text_of(kind, left), "x")


@pytest.mark.parametrize("kind", WRITTEN_KINDS.values(), ids=lambda kind: kind.name)
def test_hardware_of_other_kinds_is_refused(kind):
    """Ends any joint may state; the compensator must."""
    allowed = {*keys_needed(kind), *keys_possible(kind), "ends"}
    for key in HARDWARE.keys() - allowed:
        with pytest.raises(InputError, match=key):
            study_from_text(text_of(kind, (*keys_needed(kind), key)), "x")


def test_every_kind_says_what_holds_it():
    said = {kind.name: held_by(kind) for kind in ALL_KINDS}
    assert said["tied universal"] == "tie rods across it"
    assert said["limit-rod universal"] == "nothing: the anchors either side, until its limit rods bear"
    assert said["gimbal"] == "plates and a ring with two pairs of pins"
    assert said["double"] == "nothing: the anchors either side, and an anchor base between its halves"
    assert said["braided hose loop"] == "its braid"
    assert all("the pipe itself" in said[kind.name] for kind in ALL_KINDS if isinstance(kind, RouteKind))
    restrained = {kind.name for kind in WRITTEN_KINDS.values() if kind.restrained}
    assert restrained == {name for name in WRITTEN_KINDS if not said[name].startswith("nothing")}


@pytest.mark.parametrize("kind", WRITTEN_KINDS.values(), ids=lambda kind: kind.name)
def test_stiffness_in_words_has_what_the_record_has(kind):
    """Pins rub with mu, rods add E A/L, a balance adds k_b, two bellows stand L_c apart; friction is never unsaid."""
    words = kind.stiffness
    assert "friction" in words or "nothing rubs" in words
    assert ("mu" in words) == (kind.pins != "none")
    assert ("E A/L" in words) == (kind.rods != "none" or kind.pins != "none")
    assert ("k_b" in words) == kind.balanced
    assert ("L_c" in words) == (kind.bellows > 1)
    assert ("each half" in words) == (kind.halves is not None)


@pytest.mark.parametrize("kind", WRITTEN_KINDS.values(), ids=lambda kind: kind.name)
def test_what_a_joint_is_built_of_has_what_the_record_has(kind):
    words = kind.built_of
    assert words.startswith("length")
    assert "weight: " in words
    assert ("rods" in words) == (kind.rods != "none")
    assert ("pins" in words) == (kind.pins != "none")
    assert ("housing" in words) == kind.sleeved
    assert ("balancing bellows" in words) == kind.balanced
    assert ("spool" in words) == (kind.bellows > 1 or kind.halves is not None or "in-line" in kind.name)
    assert ("base" in words) == (kind.halves is not None)
