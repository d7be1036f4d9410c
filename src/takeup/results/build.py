"""From a resolved study to its results: model, hand and checks put into one document.     (results/build.py)

Read `results_of` first. The document is plain JSON; everything that is handed over is made from it alone.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path

from takeup import __version__
from takeup.checks import Alone, CheckResult, run_checks
from takeup.line import Pipe, Study, Zone
from takeup.results.chosen import series_part
from takeup.results.coverage import COVERAGE
from takeup.results.holds import growth_rows, holds_part
from takeup.results.parts import design_of, parts_part
from takeup.results.plain import Json
from takeup.results.resolved import conditions_part, resolved_part
from takeup.results.sections import line_part, shapes_part, states_part, takeups_part
from takeup.results.stability import clearance_part, guides_part, not_held_part, second_order_part, stability_part
from takeup.results.verdict import Verdict, verdict_of
from takeup.results.walk import events_part, scenarios_part, walk_part
from takeup.results.words import CAUTIONS, assumptions_of, dropped_words
from takeup.study import Bowing, Unsolved, Walked, bowing_of, walk_study


def results_of(study: Study) -> dict[str, Json]:
    """Return the results document of a study.

    Args:
        study: its line resolved: no rule left in it.
    """
    return results_of_walk(walk_study(study))


def results_of_walk(walked: Walked | Unsolved, alone: Alone | None = None) -> dict[str, Json]:
    """Return the results document of a study that has been walked, or has no answer.

    Args:
        walked: every scenario, or why there is none.
        alone: what was looked at already without friction; None for nothing.
    """
    if isinstance(walked, Unsolved):
        return _document(walked, (), verdict_of((), tuple(f"not solved: {words}" for words in walked.because)))
    bowing = bowing_of(walked, alone.bowing if alone else None)
    checks = run_checks(walked, bowing, alone)
    return _document(walked, checks, verdict_of(checks), bowing)


def _document(
    found: Walked | Unsolved,
    checks: tuple[CheckResult, ...],
    verdict: Verdict,
    bowing: Bowing | None = None,
) -> dict[str, Json]:
    walked = found if isinstance(found, Walked) else None
    answer = found if isinstance(found, Unsolved) else found.main
    study = answer.study
    holds = holds_part(walked) if walked else []
    return {
        "tool": {"name": "takeup", "version": __version__},
        "input": {
            "file": study.file,
            "sha256": study.sha256,
            "project": study.project,
            "document": asdict(study.document),
            "resolved": resolved_part(study),
        },
        "basis": {
            "code": study.basis.code,
            "edition": study.basis.edition,
            "expansion_table": "; ".join(dict.fromkeys(pipe.expansion_table for pipe in pipes_of(study))),
            "because": "; ".join(dict.fromkeys(pipe.expansion_because for pipe in pipes_of(study))),
        },
        "verdict": {"outcome": verdict.outcome, "because": list(verdict.because)},
        "lines": [line_part(study, model) for model in answer.model.lines],
        "zones": [_zone(zone) for zone in answer.zones.every],
        "states": states_part(answer),
        "dropped_states": list(dropped_words(study)),
        "holds": holds,
        "takeups": takeups_part(answer, walked.scenarios if walked else ()),
        "parts": parts_part(answer.model.lines, design_of(holds, bowing.guides if bowing else ())),
        "growth_hand": growth_rows(walked.base) if walked else [],
        "scenarios": scenarios_part(walked) if walked else None,
        "walk": walk_part(walked) if walked else [],
        "events": events_part(walked) if walked else [],
        "record": None,
        "series": series_part(study),
        "shapes": shapes_part(walked.main) if walked else [],
        "not_held": not_held_part(answer.free if isinstance(answer, Unsolved) else ()),
        "stability": stability_part(bowing.states) if bowing else [],
        "second_order": second_order_part(bowing.swings) if bowing else [],
        "clearance": clearance_part(bowing.bows) if bowing else [],
        "guides": guides_part(bowing.guides) if bowing else [],
        "checks": [check_row(item) for item in checks],
        "solver": {"condition": walked.base.condition if walked else None, "solved": walked is not None},
        "assumptions": list(assumptions_of(answer)),
        "not_covered": [
            {"what": item.subject, "because": item.words} for item in COVERAGE if item.status == "not covered"
        ],
        "cautions": list(CAUTIONS),
    }


def _zone(zone: Zone) -> Json:
    """Return a zone: its part on the line that it is named after, all its parts, and its conditions."""
    parts: list[dict[str, Json]] = [{"line": part.line, "from_m": part.start, "to_m": part.end} for part in zone.parts]
    return {"name": zone.name, **parts[0], "parts": parts, "conditions": conditions_part(zone.conditions)}


def pipes_of(study: Study) -> list[Pipe]:
    """Return every pipe of a study, line by line."""
    return [section.pipe for line in study.lines for section in line.sections]


def check_row(item: CheckResult) -> dict[str, Json]:
    """Return a check as JSON; a use without bound (something asked of nothing) is null, and `because` says it."""
    row = asdict(item)
    if item.use is not None and item.use == float("inf"):
        row["use"] = None
    return row


def _text(results: dict[str, Json]) -> str:
    """Return the document as JSON, each part on a line of its own: quick to write, and still to be compared by line."""
    parts = (
        f"{json.dumps(key)}: {json.dumps(value, ensure_ascii=False, allow_nan=False)}" for key, value in results.items()
    )
    return "{\n" + ",\n".join(parts) + "\n}\n"


def write_results(results: dict[str, Json], path: Path) -> None:
    """Write the document whole: to a temporary name beside the target, then renamed.

    Args:
        results: the document.
        path: of results.json; its folder exists.
    """
    temporary = path.with_name(f".{path.name}.part")
    try:
        temporary.write_text(_text(results), encoding="utf-8")
        temporary.replace(path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
