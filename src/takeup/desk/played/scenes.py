"""The nine scenes as the page shows them: told, and as lines that are played by hand.     (desk/played/scenes.py)

What a scene says and draws comes from `takeup.scenes`; here it is only put into the shapes of the page.
"""

from __future__ import annotations

from functools import cache

from takeup.desk.interface import Look, LookAsked, SceneClaim, SceneFile, SceneRow, SceneStep, SceneTold
from takeup.desk.played.stages import reach_of, stage_overlay, stage_view
from takeup.desk.seen.bench import Bench, bench_of
from takeup.drawing import to_svg
from takeup.errors import TakeupError
from takeup.line.reading.reader import study_from_text
from takeup.scenes import SCENES, Claim, Scene, entry_named, line_text, played_scene, signs_sheet, step_sheets
from takeup.scenes.played import play
from takeup.scenes.telling import figures

_RELATION = {"equals": "", "above": "above ", "below": "below "}


def scene_rows() -> list[SceneRow]:
    """Return the scenes in their order."""
    return [SceneRow(name=entry.name, number=entry.number, title=entry.title) for entry in SCENES]


@cache
def scene_told(name: str) -> SceneTold:
    """Return a scene, played.

    Args:
        name: of the scene, or its number.

    Raises:
        UnknownScene: None is called so.
    """
    scene = played_scene(entry_named(name))
    told, entry = scene.told, scene.entry
    return SceneTold(
        name=entry.name,
        title=entry.title,
        lead=[told.story, told.moral],
        steps=_steps(scene),
        signs=to_svg(signs_sheet(scene)),
        claims=[_claim(claim) for claim in told.claims],
        leaves_out=[_sentence(words) for words in (*told.assumptions, *told.limits)],
        files=[_file(file) for file in entry.files],
    )


@cache
def scene_bench(file: str) -> Bench:
    """Return the bench of a line of the scenes, on which looks are asked for.

    Args:
        file: its name, such as `anchored.yaml`.

    Raises:
        UnknownLine: No scene has a line of this name.
    """
    if all(file not in entry.files for entry in SCENES):
        raise UnknownLine(f"no scene has a line '{file}'")
    return bench_of(study_from_text(line_text(file), file), play(file).study, 0)


def scene_look(asked: LookAsked) -> Look:
    """Return a scene's line as asked for; where that is a state by hand, with the picture that scenes draw of it.

    Args:
        asked: its `scene` is the line's file name.

    Raises:
        UnknownLine: No scene has a line of this name.
    """
    look, hand = scene_bench(asked["scene"]).look(asked), asked["by_hand"]
    if hand is None or look["trouble"]:
        return look
    return Look(**{**look, "overlays": [*look["overlays"], stage_overlay(asked["scene"], hand)]})


class UnknownLine(TakeupError, LookupError):
    """A name that is none of a scene's lines."""


def _steps(scene: Scene) -> list[SceneStep]:
    return [
        SceneStep(title=step.title, words=step.words, svg=to_svg(sheet))
        for step, sheet in zip(scene.told.steps, step_sheets(scene), strict=True)
    ]


def _claim(claim: Claim) -> SceneClaim:
    return SceneClaim(
        text=_sentence(claim.text),
        model=_number(claim.model, claim.unit),
        hand=_RELATION[claim.relation] + _number(claim.hand, claim.unit),
        formula=claim.formula,
        source=claim.source,
        agrees=claim.agrees,
    )


def _number(value: float, unit: str) -> str:
    """Return a claim's number with its unit, as the scenes write it."""
    return f"{figures(value)} {unit}".rstrip()


def _sentence(words: str) -> str:
    """Return words that begin as a sentence does."""
    return words[:1].upper() + words[1:]


def _file(file: str) -> SceneFile:
    """Return a line that is played by hand."""
    bench, reach = scene_bench(file), reach_of(file)
    (outline,) = bench.outline()
    return SceneFile(
        file=file,
        title=_titled(file),
        highest_bar=reach.highest_bar,
        highest_c=reach.highest_c,
        lowest_c=reach.lowest_c,
        outline=outline,
        views=[stage_view(file), *bench.views()["views"]],
        solids=bench.solids(),
    )


def _titled(file: str) -> str:
    """Return what a line of a scene is, as its first comment says it: after the scene's number, one sentence."""
    first = line_text(file).splitlines()[0]
    return _sentence(first.partition(": ")[2].partition(". ")[0].removesuffix("."))
