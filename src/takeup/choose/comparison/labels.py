"""What a data sheet calls what a maker certifies, in every language.     (choose/comparison/labels.py)

The reader finds the cells of a data sheet by these words, wherever they stand, and the data sheet writes them, so they
stand here and not among the texts of the papers, which are above this room. Blanks, capitals and a colon at the end do
not matter.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from takeup.choose.comparison.quantities import QUANTITIES

HEADS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "en": {
            "tag": "Tag",
            "certificate": "Certificate no.",
            "made_from": "Made from",
            "kind": "Kind",
            "quantity": "Quantity",
            "used": "Used here",
            "wanted": "Wanted",
            "offered": "As offered",
            "certified": "As certified",
            "unit": "Unit",
        },
        "de": {
            "tag": "Kennzeichen",
            "certificate": "Bescheinigung Nr.",
            "made_from": "Erstellt aus",
            "kind": "Art",
            "quantity": "Größe",
            "used": "Hier verwendet",
            "wanted": "Gefordert",
            "offered": "Angeboten",
            "certified": "Bescheinigt",
            "unit": "Einheit",
        },
    }
)
"""Of columns, and of the cells before the joint's tag, the certificate's number, the line file and the kind."""
HASH_DIGITS: Final = 16
"""So many of a line file's SHA-256 tell it from every other."""

_GERMAN: Final = {
    "axial_rate": "axiale Federrate",
    "lateral_rate": "laterale Federrate",
    "angular_rate": "angulare Federrate",
    "torsion_rate": "Torsionsfederrate",
    "effective_area": "wirksame Fläche",
    "length": "Baulänge, Ende bis Ende",
    "live_length": "wirksame Balglänge",
    "centres": "Abstand der Balgmitten",
    "weight": "Gewicht",
    "axial_compression": "zulässiger Weg, axial zusammengedrückt",
    "axial_extension": "zulässiger Weg, axial gestreckt",
    "lateral": "zulässiger Weg, lateral",
    "angular": "zulässiger Winkel, angular",
    "torsion_limit": "größtes Torsionsmoment",
    "pressure": "Nenndruck",
    "test_pressure": "Prüfdruck",
    "minimum_pressure": "niedrigster Druck",
    "temperature": "zulässige Temperatur",
    "rated_cycles": "zulässige Lastspiele",
    "rod_count": "Anzahl der Zuganker",
    "rod_diameter": "Durchmesser eines Zugankers",
    "rod_circle": "Teilkreis der Zuganker",
    "rod_gap": "Spiel der Zuganker",
    "rod_modulus": "Elastizitätsmodul der Zuganker",
    "rod_can_carry": "Zugkraft, die ein Zuganker trägt",
}
LABELS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {"en": {one.name: one.words for one in QUANTITIES}, "de": _GERMAN}
)
"""Of every quantity, by its name."""

UNIT_WORDS: Final = MappingProxyType(
    {
        "mm": "mm", "cm": "cm", "m": "m", "in": "in", "ft": "ft",
        "bar": "bar", "bar(g)": "bar", "barg": "bar", "psi": "psi", "psi(g)": "psi", "psig": "psi",
        "kpa": "kpa", "kpa(g)": "kpa", "mpa": "mpa", "mpa(g)": "mpa", "gpa": "gpa", "ksi": "ksi",
        "°c": "c", "°f": "f", "k": "k",
        "n/mm": "n_per_mm", "kn/m": "kn_per_m", "lbf/in": "lbf_per_in",
        "n·m/°": "nm_per_deg", "n·m/rad": "nm_per_rad", "in·lbf/°": "lbf_in_per_deg", "ft·lbf/°": "lbf_ft_per_deg",
        "n·m": "nm", "in·lbf": "lbf_in", "ft·lbf": "lbf_ft",
        "mm²": "mm2", "cm²": "cm2", "m²": "m2", "in²": "in2",
        "kg": "kg", "n": "n", "lb": "lb", "kn": "kn", "lbf": "lbf",
        "°": "deg", "deg": "deg", "rad": "rad", "-": "", "": "",
    }
)  # fmt: skip
"""Units as people write them, without capitals, and how they end the name of a column."""


def plain(words: str) -> str:
    """Return words without what does not matter: capitals, blanks at their ends or doubled, a colon behind."""
    return re.sub(r"\s+", " ", words).strip(" :").casefold()


def _by_words(texts: Mapping[str, Mapping[str, str]]) -> Mapping[str, str]:
    return MappingProxyType({plain(words): name for language in texts.values() for name, words in language.items()})


ROLES: Final = _by_words(HEADS)
"""What a head or a cell before another says, by its words."""
NAMES: Final = _by_words(LABELS)
"""The name of a quantity by its words in any language."""


def input_words(project: str, number: str, revision: str, sha256: str) -> str:
    """Return which line file a data sheet was made from; the digits of its hash are what is read back."""
    document = " ".join(filter(None, (number, revision)))
    return ", ".join(filter(None, (project, document, f"SHA-256 {sha256[:HASH_DIGITS]}")))


__all__ = ["HASH_DIGITS", "HEADS", "LABELS", "NAMES", "ROLES", "UNIT_WORDS", "input_words", "plain"]
