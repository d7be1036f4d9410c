"""What the demonstration series is made from, read from inputs.yaml.     (joints/series/inputs.py)

Every choice that makes the series what it is stands in that file, in words with units. The file is our own: a fault in
it is a fault of ours, so it is read without the ceremony of a user's file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Final, Literal, cast, get_args

from ruamel.yaml import YAML

from takeup.bellows.design import Grid, Stock
from takeup.bellows.design.duty import DESIGN_CURVES, DesignCurve
from takeup.units import parse

SeriesKind = Literal[
    "single axial",
    "externally pressurised",
    "universal",
    "small-bore compensator",
    "hinged",
    "in-line pressure balanced",
]
OUTSIDE: Final[tuple[SeriesKind, ...]] = ("externally pressurised", "small-bore compensator")
"""Kinds whose bellows stand round an inner pipe in a housing, pressed from outside."""
INPUTS_FILE: Final = "inputs.yaml"
SERIES_KINDS: Final[tuple[SeriesKind, ...]] = get_args(SeriesKind)


@dataclass(frozen=True, kw_only=True, slots=True)
class PressureClass:
    """A class of the series: its word, gauge pressure [Pa], temperature [degC]."""

    word: str
    pressure: float
    temperature: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PipeEnds:
    """What the ends are of: table of sizes, name of the least wall, steel, allowable stress [Pa], allowance [m]."""

    table: str
    least_wall: str
    steel: str
    allowable_stress: float
    corrosion: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Travels:
    """Travels of sizes from `first` to `last` DN [m]; of hinges, angles [rad]."""

    first: int
    last: int
    travel: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class HingeSteel:
    """Of plates and pins: yield strength, modulus [Pa]; friction, least and greatest; rated pull over test's thrust."""

    yield_strength: float
    modulus: float
    friction: tuple[float, float]
    rated: float


@dataclass(frozen=True, kw_only=True, slots=True)
class TieSteel:
    """Of ties: yield strength [Pa], how many, rated pull over the test's thrust, and push that they take over that."""

    yield_strength: float
    count: int
    rated: float
    pushed: float


@dataclass(frozen=True, kw_only=True, slots=True)
class HoseLoops:
    """Loops of braided hose: sizes DN, wall of their ends at least, movements along and across [m], angle [rad].

    `rated_cycles` are those of the rated movement.
    """

    sizes: tuple[int, ...]
    least_wall: str
    travel: tuple[float, ...]
    angle: float
    rated_cycles: float


@dataclass(frozen=True, kw_only=True, slots=True)
class SeriesInputs:
    """All of it.

    Args:
        material: of the bellows, as formed or annealed.
        annealed: whether annealed after forming.
        allowable_table: of the library, for the material.
        curve: of life.
        rated_cycles: at the rated movements.
        extension_share: of the compression that a joint may extend at least.
        classes: of pressure.
        test_factor: test pressure over that of the class.
        stock: of the bellows.
        grid: how finely the designer searches.
        fewest_convolutions: of a bellows.
        spools: between the bellows of universals, of the pipe's outside diameter.
        pipe: of the ends, spools and housings.
        sizes: DN.
        travels: by kind.
        hinge: what plates and pins of hinges are sized by.
        ties: what the ties of balancing bellows are sized by.
        hoses: loops of braided hose.
    """

    material: str
    annealed: bool
    allowable_table: str
    curve: DesignCurve
    rated_cycles: float
    extension_share: float
    classes: tuple[PressureClass, ...]
    test_factor: float
    stock: Stock
    grid: Grid
    fewest_convolutions: int
    spools: tuple[float, ...]
    pipe: PipeEnds
    sizes: tuple[int, ...]
    travels: Mapping[SeriesKind, tuple[Travels, ...]]
    hinge: HingeSteel
    ties: TieSteel
    hoses: HoseLoops

    def travels_of(self, kind: SeriesKind, size: int) -> tuple[float, ...]:
        """Return the travels that a kind has in a size [m]; of hinges, angles [rad]."""
        return tuple(way for row in self.travels[kind] if row.first <= size <= row.last for way in row.travel)


def inputs_text() -> str:
    """Return what stands in inputs.yaml."""
    return files("takeup.joints.series").joinpath(INPUTS_FILE).read_text(encoding="utf-8")


@cache
def series_inputs() -> SeriesInputs:
    """Return the inputs of the series."""
    said = cast("dict[str, Any]", YAML(typ="safe", pure=True).load(inputs_text()))
    of = said["bellows"]
    assert of["curve"] in DESIGN_CURVES, "the curve is one of design life"
    assert isinstance(of["annealed"], bool), "annealed is true or false: YAML 1.2 takes yes and no for words"
    return SeriesInputs(
        material=of["material"],
        annealed=of["annealed"],
        allowable_table=of["allowable_table"],
        curve=of["curve"],
        rated_cycles=float(of["rated_cycles"]),
        extension_share=float(of["extension_share"]),
        classes=tuple(map(_pressure_class, said["classes"])),
        test_factor=float(said["test_factor"]),
        stock=_stock(said["stock"]),
        grid=_grid(said["stock"]),
        fewest_convolutions=said["stock"]["fewest_convolutions"],
        spools=tuple(map(float, said["stock"]["spools"])),
        pipe=_pipe(said["pipe"]),
        sizes=tuple(said["sizes"]),
        travels={
            kind: tuple(_travels(one, "angle" if kind == "hinged" else "length") for one in said["travels"][kind])
            for kind in SERIES_KINDS
        },
        hinge=_hinge(said["hinge"]),
        ties=_ties(said["ties"]),
        hoses=_hoses(said["hoses"]),
    )


def _lengths(words: list[str]) -> tuple[float, ...]:
    return tuple(parse(word, "length") for word in words)


def _pressure_class(said: dict[str, str]) -> PressureClass:
    return PressureClass(
        word=said["word"],
        pressure=parse(said["pressure"], "pressure"),
        temperature=parse(said["temperature"], "temperature"),
    )


def _stock(said: dict[str, Any]) -> Stock:
    return Stock(
        thicknesses=_lengths(said["ply_thickness"]),
        plies=tuple(said["plies"]),
        words="thicknesses and plies of the demonstration series: invented",
    )


def _grid(said: dict[str, Any]) -> Grid:
    return Grid(
        heights=said["heights"],
        lowest=float(said["lowest"]),
        highest=float(said["highest"]),
        pitches=tuple(map(float, said["pitches"])),
        convolutions=said["most_convolutions"],
    )


def _pipe(said: dict[str, str]) -> PipeEnds:
    return PipeEnds(
        table=said["table"],
        least_wall=said["least_wall"],
        steel=said["steel"],
        allowable_stress=parse(said["allowable_stress"], "stress"),
        corrosion=parse(said["corrosion"], "length"),
    )


def _travels(said: dict[str, Any], kind: Literal["length", "angle"]) -> Travels:
    return Travels(first=said["from"], last=said["to"], travel=tuple(parse(word, kind) for word in said["travel"]))


def _hinge(said: dict[str, Any]) -> HingeSteel:
    low, high = said["friction"]
    return HingeSteel(
        yield_strength=parse(said["yield_strength"], "stress"),
        modulus=parse(said["modulus"], "stress"),
        friction=(float(low), float(high)),
        rated=float(said["rated"]),
    )


def _ties(said: dict[str, Any]) -> TieSteel:
    return TieSteel(
        yield_strength=parse(said["yield_strength"], "stress"),
        count=said["count"],
        rated=float(said["rated"]),
        pushed=float(said["pushed"]),
    )


def _hoses(said: dict[str, Any]) -> HoseLoops:
    return HoseLoops(
        sizes=tuple(said["sizes"]),
        least_wall=said["least_wall"],
        travel=_lengths(said["travel"]),
        angle=parse(said["angle"], "angle"),
        rated_cycles=float(said["rated_cycles"]),
    )


__all__ = [
    "INPUTS_FILE",
    "OUTSIDE",
    "SERIES_KINDS",
    "HingeSteel",
    "HoseLoops",
    "PipeEnds",
    "PressureClass",
    "SeriesInputs",
    "SeriesKind",
    "TieSteel",
    "Travels",
    "inputs_text",
    "series_inputs",
]
