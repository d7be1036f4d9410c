"""What a duty file may say: key, kind, limits, meaning, once.     (bellows/design/keys.py)"""

from __future__ import annotations

from takeup.bellows.design.duty import DESIGN_CURVES
from takeup.bellows.reading.inputs import FAMILIES
from takeup.reading.keyed import Key, KeyedForm
from takeup.units import ABSOLUTE_ZERO

VERSION_KEY, VERSION = "takeup_duty", "1"
OTHERS = {"takeup_bellows": "a bellows file is read by `takeup bellows rate`"}


def _words(name: str, meaning: str, example: str, *, known: tuple[str, ...] = (), required: bool = False) -> Key:
    return Key(path=(name,), meaning=meaning, example=example, word=True, known=known, required=required)


def _length(*path: str, meaning: str, example: str, least: float | None = None, most: float = 20.0) -> Key:
    above = 0.0 if least is None else None
    return Key(path=path, meaning=meaning, example=example, kind="length", above=above, least=least, most=most)


def _strength(name: str, meaning: str, example: str) -> Key:
    return Key(path=(name,), meaning=meaning, example=example, kind="stress", above=0.0, most=5e9)


def _pressure(name: str, meaning: str, example: str, *, above: float | None = None, required: bool = False) -> Key:
    return Key(
        path=(name,), meaning=meaning, example=example, kind="pressure", above=above, most=5e8, required=required
    )


KEYS: tuple[Key, ...] = (
    _words("name", "its name on sheet and document", "boiler house outlet"),
    _words("size", "nominal size of the pipe, whose outside diameter the bore is taken as", "DN 200"),
    _length("inside_diameter", meaning="bore, in the place of a size", example="219.1 mm"),
    _length(
        "tangent_length", meaning="cylinder at each end; none where not said", example="20 mm", least=0.0, most=2.0
    ),
    _pressure("pressure", "design pressure inside", "10 bar(g)", required=True),
    _pressure("outside_pressure", "design pressure outside; the atmosphere where not said", "16 bar(g)"),
    _pressure("test_pressure", "of the cold test, in the sense of the design pressure", "15 bar(g)", above=0.0),
    _words("vacuum", "whether the inside may be empty of all pressure; no where not said", "no", known=("yes", "no")),
    Key(
        path=("temperature",),
        meaning="of the metal at the design pressure",
        example="195 °C",
        kind="temperature",
        above=ABSOLUTE_ZERO,
        most=2_000.0,
        required=True,
    ),
    _length("axial", meaning="range of axial movement of the whole bellows", example="30 mm", least=0.0, most=2.0),
    _length("lateral", meaning="movement of the ends across, without turning", example="5 mm", least=0.0, most=2.0),
    Key(path=("angular",), meaning="angle between the ends", example="2 deg", kind="angle", least=0.0, most=3.15),
    Key(path=("cycles",), meaning="of that movement", example="1000", required=True, above=0.0, most=1e9),
    _words("curve", "of design life", "EN design", known=DESIGN_CURVES, required=True),
    _words("material", "of the library", "Alloy 321", required=True),
    _words("annealed", "whether annealed after forming; as formed where not said", "no", known=("yes", "no")),
    _words("family", "of the life curves; the material's where not said", "austenitic", known=FAMILIES),
    _words("allowable_table", "table of the library for the allowable stress", "ASME BPVC II-D Table 1A"),
    _strength("allowable_stress", "allowable stress at the temperature, in the place of a table", "107 MPa"),
    _words("allowable_source", "whose that allowable stress is", "own data sheet 12"),
    _strength("yield_strength", "yield strength at the temperature; the library's where not said", "160 MPa"),
    _words("yield_source", "whose that yield strength is", "own data sheet 12"),
    Key(
        path=("stock", "thicknesses"),
        meaning="thicknesses of one ply to choose from; the own stock list where not said",
        example="[0.5 mm, 0.8 mm]",
        kind="length",
        above=0.0,
        most=5e-3,
        many=True,
    ),
    Key(
        path=("stock", "plies"),
        meaning="numbers of plies to choose from; one to four where not said",
        example="[1, 2, 3]",
        least=1.0,
        most=5.0,
        many=True,
        whole=True,
        too_great="it is above 5, the most of the codes",
    ),
    _length("limits", "outside_diameter", meaning="greatest outside diameter of the convolutions", example="300 mm"),
    _length("limits", "length", meaning="greatest length, tangents included", example="400 mm"),
)
"""Every key, in the order of the reference page."""

FORM = KeyedForm(what="duty file", version_key=VERSION_KEY, version=VERSION, keys=KEYS, others=OTHERS)

__all__ = ["FORM", "KEYS", "VERSION", "VERSION_KEY", "Key"]
