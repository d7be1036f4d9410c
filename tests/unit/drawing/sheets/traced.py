"""Where every number on a sheet comes from: the results, read here by themselves.     (tests/.../sheets/traced.py)

Figures with decimals must be a station, a length, a distance between two places, an elevation or a movement of the
results, rounded as printed; whole numbers may also count, name a scale or number a sheet, a zone or a note.
"""

from __future__ import annotations

import json
import math
import re
from itertools import combinations, pairwise

from tests.unit.drawing.sheets.measured import words_of

NUMBER = re.compile(r"\d+(?:\.\d+)?")
STATION = re.compile(r"station [\d.]+ m")
MOST = 60  # guides of one kind between two anchors, sheets, zones, notes


def stations_of(document) -> list[float]:
    """All stations of places [m]."""
    found = [record["station_m"] for key in ("holds", "takeups") for record in document[key]]
    for line in document["lines"]:
        found += [0.0, *(leg["end_m"] for leg in line["legs"])]
        found += [(item["from_m"] + item["to_m"]) / 2.0 for item in line.get("items", ())]
        if line.get("branch"):
            found.append(line["branch"]["station_m"])
    return found


def decimals_of(document, cuts=()) -> set[str]:
    """Every figure with decimals that the results allow on a sheet in SI."""
    stations = sorted({round(station, 9) for station in [*stations_of(document), *cuts]})
    metres = [*stations, *(b - a for a, b in combinations(stations, 2))]
    movements, degrees = [], []
    for line in document["lines"]:
        metres += [leg["length_m"] for leg in line["legs"]]
        metres += [point[2] for point in line["points"]]
        metres += [node["at_m"][2] for node in line["nodes"]]
    for shape in document["shapes"]:
        line = next(line for line in document["lines"] if line["name"] == shape["line"])
        nodes = [node["station_m"] for node in line["nodes"]]
        movements += [
            math.hypot(*moved) for moved in interpolated(nodes, shape["displacement_mm"], stations_of(document))
        ]
    for takeup in document["takeups"]:
        for movement in takeup["movements"]:
            movements += [abs(movement["axial_mm"]), movement["lateral_mm"]]
            degrees.append(movement["angular_deg"])
    written = {f"{value:.2f}" for value in (*metres, *degrees)} | {f"{value:.1f}" for value in movements}
    return written | {"0.5", "0.2", "0.1", "0.05"}  # half a metre and less: the bar of a large scale


def interpolated(stations, moved, wanted):
    """Movements at wanted stations, linear between nodes."""
    for at in wanted:
        for (one, first), (other, second) in pairwise(zip(stations, moved, strict=True)):
            if one - 1e-6 <= at <= other + 1e-6:
                share = 0.0 if other - one < 1e-6 else (at - one) / (other - one)
                yield [(1.0 - share) * a + share * b for a, b in zip(first, second, strict=True)]
                break


def cuts_of(document, sheets) -> list[float]:
    """The stations of match lines: those that are midway between two places, as they must be [m]."""
    said = {other.words for sheet in sheets for one, other in pairwise(words_of(sheet)) if one.words == "match line"}
    stations = sorted({round(station, 9) for station in stations_of(document)})
    middles = [(one + other) / 2.0 for one, other in pairwise(stations)]
    return [middle for middle in middles if f"station {middle:.2f} m" in said]


def untraced(document, sheets, scales, also=()) -> list[str]:
    """Words with a number that nothing in the results gives."""
    known = decimals_of(document, cuts_of(document, sheets))
    given = set(NUMBER.findall(json.dumps([document["input"], document["tool"], also])))
    given |= set(NUMBER.findall(" ".join(names_of(document))))
    given |= set(NUMBER.findall(document["input"]["sha256"][:12]))  # the title block has its beginning
    radii = {f"{bend['radius_mm']:.0f}" for line in document["lines"] for bend in line["bends"] if bend["radius_mm"]}
    bars = {f"{m * 10**n:g}" for m in (1, 2, 5) for n in range(-2, 5)}
    whole = {str(n) for n in range(MOST)} | {str(scale) for scale in scales} | radii | bars | given
    whole |= {str(line["pipe"]["size"]).removeprefix("DN ") for line in document["lines"]}
    places = {f"station {station:.2f} m" for station in (*stations_of(document), *cuts_of(document, sheets))}
    texts = [text.words for sheet in sheets for text in words_of(sheet)]
    return [words for words in texts if STATION.fullmatch(words) and words not in places] + [
        words
        for words in texts
        for number in NUMBER.findall(words)
        if number not in (known | given if "." in number else whole)
    ]


def names_of(document) -> list[str]:
    """All names of places."""
    found = [record["name"] for key in ("holds", "takeups") for record in document[key]]
    for line in document["lines"]:
        found += [line["name"], *(leg["from"] for leg in line["legs"]), *(leg["to"] for leg in line["legs"])]
        found += [item["name"] for item in line.get("items", ())]
    return found
