"""A scene in words: on a terminal, and as a JSON document.     (scenes/telling.py)

The same scene gives the same bytes. Forces in newtons along the flow, on the structure; units end the names.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Sequence

from takeup import __version__
from takeup.results.plain import Json
from takeup.scenes.records import Claim, Entry, Scene, Step
from takeup.units import to_mm

_WIDTH = 100
_DIGITS = 9  # figures of a number: the answers are verified to so many, and further ones differ between machines
_WORD = {"equals": "by hand", "above": "is above", "below": "is below"}


def list_text(entries: Sequence[Entry]) -> str:
    """Return the scenes, one a line: number, name, and what it shows."""
    wide = max(len(entry.name) for entry in entries)
    return "\n".join(f"{entry.number}  {entry.name:<{wide}}  {entry.title}" for entry in entries)


def scene_lines(scene: Scene) -> Iterator[str]:
    """Yield a scene as lines for a terminal: story, steps, claims, what it leaves out."""
    told, entry = scene.told, scene.entry
    yield f"{entry.number}  {entry.name}: {entry.title}"
    yield ""
    yield from textwrap.wrap(told.story, _WIDTH)
    for number, step in enumerate(told.steps, start=1):
        zones = step.picture.zones
        alike = len({zone.words for zone in zones}) == 1
        here = zones[0].words if alike else "; ".join(f"{zone.name}: {zone.words}" for zone in zones)
        yield ""
        yield from textwrap.wrap(f"{number}. {step.title} ({here})", _WIDTH)
        yield from textwrap.wrap(step.words, _WIDTH, initial_indent="   ", subsequent_indent="   ")
    yield ""
    yield from textwrap.wrap(told.moral, _WIDTH)
    yield ""
    yield "Claims"
    for claim in told.claims:
        yield from _claim_lines(claim)
    for head, said in (("Taken for granted", told.assumptions), ("Not shown here", told.limits)):
        yield from textwrap.wrap(f"{head}: {'; '.join(said)}.", _WIDTH)


def _claim_lines(claim: Claim) -> Iterator[str]:
    outcome = "agrees:" if claim.agrees else "DOES NOT AGREE:"
    yield from textwrap.wrap(f"{outcome} {claim.text}", _WIDTH, initial_indent="  ", subsequent_indent="    ")
    unit = f" {claim.unit}" if claim.unit else ""
    numbers = f"model {figures(claim.model)}{unit}, {_WORD[claim.relation]} {figures(claim.hand)}{unit}"
    within = f", within {claim.tolerance:.1g}{unit}" if claim.relation == "equals" else ""
    words = f"{numbers}{within}; {claim.formula} ({claim.source})"
    yield from textwrap.wrap(words, _WIDTH, initial_indent="    ", subsequent_indent="    ")


def figures(value: float) -> str:
    """Return a number with four figures; none of a thousandth or less has more than it needs."""
    whole = f"{value:.4g}"
    return f"{value:.1f}" if "e+" in whole else "0" if abs(value) < 1e-6 else whole  # noqa: PLR2004 -- rounding


def document_text(scenes: Sequence[Scene]) -> str:
    """Return played scenes as a JSON document."""
    document = {"tool": {"name": "takeup", "version": __version__}, "scenes": [_scene(scene) for scene in scenes]}
    return json.dumps(document, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def list_document(entries: Sequence[Entry]) -> str:
    """Return the list of scenes as a JSON document."""
    rows: list[Json] = [{"number": entry.number, "name": entry.name, "title": entry.title} for entry in entries]
    document = {"tool": {"name": "takeup", "version": __version__}, "scenes": rows}
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _scene(scene: Scene) -> Json:
    told, entry = scene.told, scene.entry
    return {
        "number": entry.number,
        "name": entry.name,
        "title": entry.title,
        "files": list(entry.files),
        "story": told.story,
        "states": [_step(number, step) for number, step in enumerate(told.steps, start=1)],
        "moral": told.moral,
        "claims": [_claim(claim) for claim in told.claims],
        "agrees": scene.agrees,
        "assumptions": list(told.assumptions),
        "limits": list(told.limits),
    }


def _step(number: int, step: Step) -> Json:
    picture = step.picture
    return {
        "step": number,
        "title": step.title,
        "words": step.words,
        "file": picture.file,
        "state": picture.state,
        "zones": [
            {"zone": zone.name, "pressure_bar": _rounded(zone.pressure), "temperature_c": _rounded(zone.temperature)}
            for zone in picture.zones
        ],
        "anchors": [
            {"name": hold.name, "kind": hold.kind, "along_n": _newtons(hold.force), "use": _maybe(hold.use)}
            for hold in picture.holds
            if hold.force is not None
        ],
        "joints": [
            {
                "name": joint.name,
                "said": joint.words,
                "axial_mm": _millimetres(joint.axial),
                "lateral_mm": _millimetres(joint.sideways),
                "use": _maybe(joint.use),
                "rods": None if joint.rods is None else joint.rods.words,
            }
            for joint in picture.joints
        ],
    }


def _claim(claim: Claim) -> Json:
    return {
        "text": claim.text,
        "unit": claim.unit,
        "model": _rounded(claim.model),
        "hand": _rounded(claim.hand),
        "relation": claim.relation,
        "tolerance": _rounded(claim.tolerance),
        "tolerance_because": claim.because,
        "agrees": claim.agrees,
        "formula": claim.formula,
        "source": claim.source,
    }


def _rounded(value: float) -> float:
    """Return a number with as many figures as are verified; what is rounding alone is nought."""
    return 0.0 if abs(value) < 10.0**-_DIGITS else float(f"{value:.{_DIGITS}g}")


def _newtons(force: float) -> float:
    """Return a force to a hundredth of a newton: rounding of forces that cancel is no force."""
    return round(force, 2) + 0.0


def _millimetres(length: float) -> float:
    """Return a length [m] in millimetres, to a micrometre: less is rounding."""
    return round(to_mm(length), 3) + 0.0


def _maybe(value: float | None) -> float | None:
    return None if value is None else _rounded(value)
