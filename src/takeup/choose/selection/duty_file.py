"""A joint's duty as a file: what a place asks, without a line.     (choose/selection/duty_file.py)

Two states in service, hot and cold, and a test; the cold one is left out where nothing lengthens the joint then.
"""

from __future__ import annotations

import hashlib
import math
from dataclasses import dataclass
from pathlib import Path
from typing import Final, get_args

import numpy as np

from takeup.choose.selection.place import Place
from takeup.choose.selection.ranking import RANKS, Rank
from takeup.joints import TakeUpKind
from takeup.library import MEDIA, PipeSize, UnknownName, pipe_size, size_number
from takeup.reading.keyed import Key, KeyedForm, Said, read_keyed
from takeup.reading.sheet import read_bytes
from takeup.units import ABSOLUTE_ZERO, Kind

ANY: Final = "any"
ROOM_TEMPERATURE: Final = 20.0  # degC, of the water of a test: nothing is rated so low that it would matter

_STATES: Final = (
    "three states: the test, as set; hot, shortened and moved aside at the greatest pressure; the coldest day, drawn "
    "out at the least pressure"
)


def _length(name: str, meaning: str, example: str) -> Key:
    return Key(path=(name,), meaning=meaning, example=example, kind="length", least=0.0, most=5.0)


def _value(name: str, meaning: str, example: str, kind: Kind, *, required: bool = False) -> Key:
    return Key(path=(name,), meaning=meaning, example=example, kind=kind, most=5e8, required=required)


KEYS: Final = (
    Key(path=("name",), meaning="of the place, on sheet and document", example="boiler house outlet", word=True),
    Key(path=("series",), meaning="to choose from", example="demonstration series", word=True, required=True),
    Key(
        path=("kind",),
        meaning="of joint that may stand there; `any` for all of the series",
        example="single axial",
        word=True,
        known=(ANY, *get_args(TakeUpKind)),
        required=True,
    ),
    Key(path=("size",), meaning="nominal size of the pipe", example="DN 200", word=True, required=True),
    _value("pressure", "greatest in service", "10 bar(g)", "pressure", required=True),
    _value("minimum_pressure", "least in service, below the atmosphere's; the atmosphere where not said", "-1 bar(g)",
           "pressure"),
    Key(path=("test_pressure",), meaning="of the cold test, at the joint", example="15 bar(g)", kind="pressure",
        least=0.0, most=5e8, required=True),
    Key(path=("temperature",), meaning="hottest, of the metal", example="184 °C", kind="temperature",
        above=ABSOLUTE_ZERO, most=2_000.0, required=True),
    _length("compression", "by which it is shortened, hot, from as set", "42 mm"),
    _length("extension", "by which it is drawn out, on the coldest day, from as set", "6 mm"),
    _length("lateral", "movement of its ends across", "2 mm"),
    Key(path=("angular",), meaning="angle between its ends", example="0.5 deg", kind="angle", least=0.0, most=1.6),
    _length("preset", "by which it is fitted longer than neutral; none where not said", "15 mm"),
    Key(path=("cycles",), meaning="of that movement", example="2000", least=1.0, most=1e9, whole=True, required=True),
    _length("room", "greatest face-to-face length; any where not said", "900 mm"),
    Key(path=("medium",), meaning="what flows through it, for the advice on materials; no advice where not said",
        example="steam", word=True, known=MEDIA),
    Key(path=("rank",), meaning="which of those that fit stands first; by price where not said", example="thrust",
        word=True, known=RANKS),
)  # fmt: skip
"""Every key, in the order of the reference page."""

FORM: Final = KeyedForm(
    what="joint duty file",
    version_key="takeup_joint_duty",
    version="1",
    keys=KEYS,
    others={"takeup_duty": "a duty of bellows is read by `takeup bellows design`"},
)


@dataclass(frozen=True, kw_only=True, slots=True)
class JointDuty:
    """What a duty file says: its name and hash, the place, the series and the rank, what was assumed in words."""

    file: str
    sha256: str
    place: Place
    series: str
    rank: Rank
    assumptions: tuple[str, ...]


def read_joint_duty(path: Path) -> JointDuty:
    """Read a joint's duty file.

    Raises:
        InputError: The file cannot be read, is no duty file, or has faults.
    """
    content = read_bytes(path)
    said, faults = read_keyed(FORM, content, str(path))
    size = _size(said)
    if not any((name,) in said.values for name in ("compression", "extension", "lateral", "angular")):
        said.missing("a movement is required: compression, extension, lateral or angular")
    if said.number("minimum_pressure") > said.number("pressure"):
        said.fault(("minimum_pressure",), "it is above the greatest pressure")
    if said.number("test_pressure") < said.number("pressure"):
        said.fault(("test_pressure",), "it is below the greatest pressure in service")
    faults.raise_faults()
    assert size is not None, "an unknown size is a fault"
    return JointDuty(
        file=path.name,
        sha256=hashlib.sha256(content).hexdigest(),
        place=_place(said, size),
        series=said.word("series"),
        rank=next((one for one in RANKS if one == said.word("rank")), "price"),
        assumptions=tuple(_assumed(said)),
    )


def _size(said: Said) -> PipeSize | None:
    """Return the size of the pipe; None, and a fault, where the library has no such size."""
    word = said.word("size")
    if not word:
        return None
    try:
        return pipe_size(word)
    except UnknownName as error:
        said.fault(("size",), str(error))
        return None


def _place(said: Said, size: PipeSize) -> Place:
    def number(name: str) -> float:
        value = said.number(name)
        return 0.0 if math.isnan(value) else value

    shortened, longer, lateral, angular = (number(name) for name in ("compression", "extension", "lateral", "angular"))
    room, kind = said.number("room"), said.word("kind")
    hot, high = said.number("temperature"), said.number("pressure")
    return Place(
        name=said.word("name") or "the place",
        kinds=() if kind == ANY else tuple(one for one in get_args(TakeUpKind) if one == kind),
        size_dn=size_number(size),
        size_words=size.dn,
        outside_diameter=size.outside_diameter,
        states=("test", "hot", "coldest day"),
        tests=np.array([True, False, False]),
        pressure=np.array([said.number("test_pressure"), high, min(number("minimum_pressure"), high)]),
        temperature=np.array([min(ROOM_TEMPERATURE, hot), hot, min(ROOM_TEMPERATURE, hot)]),
        axial=np.array([0.0, -shortened, longer]),
        lateral=np.array([0.0, lateral, 0.0]),
        angular=np.array([0.0, angular, 0.0]),
        preset=number("preset"),
        cycles=said.number("cycles"),
        room=math.inf if math.isnan(room) else room,
        medium=said.word("medium"),
    )


def _assumed(said: Said) -> list[str]:
    words = [_STATES]
    if math.isnan(said.number("minimum_pressure")):
        words.append("no vacuum: no minimum pressure is stated")
    if math.isnan(said.number("room")):
        words.append("room for any length: none is stated")
    return words


__all__ = ["FORM", "KEYS", "JointDuty", "read_joint_duty"]
