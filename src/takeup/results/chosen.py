"""Joints taken from a series: what was chosen from what, and whose the series are.     (results/chosen.py)"""

from __future__ import annotations

from dataclasses import asdict

from takeup.line import Line, Study, TakeUp
from takeup.line.choices import Chosen
from takeup.results.plain import Json


def chosen_part(item: TakeUp) -> Json:
    """Return what was chosen from what; None of a joint whose data are typed in."""
    found = item.chosen
    if found is None:
        return None
    return {
        "joint": found.joint,
        "series": found.source.series,
        "by": found.by,
        "considered": found.considered,
        "fitting": found.fitting,
        "tried": found.tried,
        "ratings": found.ratings,
        "material": found.material or None,
        "refused": [{"joint": joint, "because": because} for joint, because in found.refused],
    }


def series_part(study: Study) -> list[Json]:
    """Return where each series is from of which a joint is taken, in the order of the joints, each once."""
    sources = {chosen.source: None for _, _, chosen in _from_series(study)}
    return [{**asdict(source), "words": source.words} for source in sources]


def resolved_joints(study: Study) -> list[Json]:
    """Return the joint that stands in every place which the file leaves to a series."""
    return [
        {
            "name": item.name,
            "line": line.name,
            "kind": item.kind,
            "station_m": item.position.station,
            "at": item.position.words,
            "series": chosen.source.series,
            "joint": chosen.joint,
            "by": chosen.by,
        }
        for line, item, chosen in _from_series(study)
    ]


def _from_series(study: Study) -> list[tuple[Line, TakeUp, Chosen]]:
    return [
        (line, item, item.chosen)
        for line in study.lines
        for item in sorted(line.takeups, key=lambda item: item.position.station)
        if item.chosen is not None
    ]


__all__ = ["chosen_part", "resolved_joints", "series_part"]
