"""The page of the nine scenes, and their strips, from the scenes as they are played.     (pages/scenes.py)"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from tools.pages import page, table

from takeup.drawing import to_svg
from takeup.scenes import SCENES, Claim, Scene, played_scene, strip_sheet
from takeup.scenes.telling import figures

PAGE = Path("docs") / "tutorial" / "nine-scenes.md"
PICTURES = Path("docs") / "pictures" / "scenes"
_HOW = {"equals": "", "above": "above ", "below": "below "}


@cache
def _played() -> tuple[Scene, ...]:
    return tuple(played_scene(entry) for entry in SCENES)


def scene_pages() -> dict[Path, str]:
    """Return the page and the strips by their path from the top folder."""
    strips = {PICTURES / f"{scene.entry.name}.svg": to_svg(strip_sheet(scene)) for scene in _played()}
    return {PAGE: _page(), **strips}


def _page() -> str:
    lines = [
        "# Nine scenes: what heat and pressure do to a line",
        "",
        "Nine things that everyone in the trade knows, each played on the real solver with a line file of its own.",
        "Under each strip stands what is claimed: the model's number, the number of a hand formula, and how far apart",
        "they may be. Nothing is typed into a story or a picture; change a line file and they change with it.",
        "",
        "`takeup scene` lists the scenes, `takeup scene anchored` or `takeup scene 5` plays one, `takeup scene --all`",
        "all of them. The strip and the line files are written into `scenes.out`, or where `--out` says; the line",
        "files are good for `takeup study` too. With `--json` the same comes as a JSON document. The exit code is 1 if",
        "a claim does not agree.",
    ]
    for scene in _played():
        lines += ["", *_scene(scene)]
    return page(*lines)


def _scene(scene: Scene) -> list[str]:
    told, entry = scene.told, scene.entry
    files = ", ".join(f"`{name}`" for name in entry.files)
    return [
        f"## {entry.number}. {entry.title}",
        "",
        f"`takeup scene {entry.name}`, from {files}.",
        "",
        told.story,
        "",
        f"![{entry.title}: {len(told.steps)} steps](../pictures/scenes/{entry.name}.svg)",
        "",
        *(f"{number}. {step.title}. {step.words}" for number, step in enumerate(told.steps, start=1)),
        "",
        f"**{told.moral}**",
        "",
        *table(("claim", "model", "by hand", "within", "formula", "source"), [_claim(claim) for claim in told.claims]),
        "",
        f"Taken for granted: {'; '.join(told.assumptions)}. Not shown: {'; '.join(told.limits)}.",
    ]


def _claim(claim: Claim) -> tuple[str, ...]:
    unit = f" {claim.unit}" if claim.unit else ""
    within = f"{claim.tolerance:.1g}{unit}: {claim.because}" if claim.relation == "equals" else ""
    return (
        claim.text,
        f"{figures(claim.model)}{unit}",
        f"{_HOW[claim.relation]}{figures(claim.hand)}{unit}",
        within,
        f"`{claim.formula}`",
        claim.source,
    )
