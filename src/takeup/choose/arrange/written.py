"""Proposals on disk: the document, the line files, and what these need beside them.     (choose/arrange/written.py)

A line file of a proposal names series and prices as the bare file does, so those that the project has are laid beside
it. Nothing is written half; what an earlier run left under names of ours is not touched, and told.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

from takeup.choose.arrange.document import file_name
from takeup.choose.arrange.outcome import Outcome
from takeup.choose.arrange.propose import Hunt
from takeup.choose.arrange.standing import standing_words
from takeup.joints.tables.store import FOLDER
from takeup.line.reading.named_joints import with_named_joints
from takeup.line.reading.write_proposal import Additions, proposal_text
from takeup.reading.writing import write_whole
from takeup.results.plain import Json

DOCUMENT = "proposals.json"


def proposal_texts(outcome: Outcome, file: Path) -> dict[str, str]:
    """Return the line file of every proposal, by its name.

    Args:
        outcome: of the search.
        file: the bare line file.
    """
    return texts_of(outcome, file.read_bytes().decode("utf-8"), file)


def texts_of(outcome: Outcome, text: str, file: Path) -> dict[str, str]:
    """Return the line file of every proposal, by its name, written into a text that need not be on disk.

    Args:
        outcome: of the search.
        text: of the bare line file.
        file: where it is, or would be.
    """
    return {file_name(number + 1): _text(outcome, text, file, number) for number in range(len(outcome.hunt.proposals))}


def _text(outcome: Outcome, text: str, file: Path, number: int) -> str:
    hunt = outcome.hunt
    additions = [
        Additions(line=line, holds=(*added.anchors, *added.guides), takeups=added.takeups, loops=added.loops)
        for line, added in hunt.proposals[number].whole.lines.items()
    ]
    written = proposal_text(text, str(file), additions=additions, head=head_of(outcome, number))
    mark = "\N{BYTE ORDER MARK}"
    body = with_named_joints(written.removeprefix(mark), hunt.ground.study)
    return mark + body if written.startswith(mark) else body


def head_of(outcome: Outcome, number: int) -> str:
    """Return what a proposal is, for the comment at the head of its file."""
    hunt = outcome.hunt
    proposal, prices = hunt.proposals[number], hunt.ground.prices
    verdict = proposal.found.results["verdict"]["outcome"]
    joints = f"{proposal.joints} {'joint' if proposal.joints == 1 else 'joints'}"
    return (
        f"Proposal {number + 1} of {len(hunt.proposals)} by {outcome.measure}: cost {proposal.cost:.1f} "
        f"({prices.unit}; {prices.name}), {joints}. Its own study: {verdict}.\n"
        f"{' | '.join(standing_words(hunt.ground, proposal))}\n"
        "Not for construction until checked by a licensed engineer."
    )


def json_text(document: Mapping[str, Json]) -> str:
    """Return the text of the document."""
    return json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def lay_beside(hunt: Hunt, file: Path, folder: Path) -> tuple[Path, ...]:
    """Lay beside the proposals what their files name: stored series and the price file; return where they are.

    Args:
        hunt: that found them.
        file: the bare line file.
        folder: of the proposals.
    """
    if folder.resolve() == file.parent.resolve():
        return ()
    study = hunt.ground.study
    names = {table.provenance.series for line in study.lines for table in line.allowed.series}
    names |= {item.chosen.source.series for line in study.lines for item in line.takeups if item.chosen}
    needed = [Path(FOLDER) / f"{name}{end}" for name in sorted(names) for end in (".csv", ".yaml")]
    if study.prices is not None and not Path(study.prices).is_absolute() and ".." not in Path(study.prices).parts:
        needed.append(Path(study.prices))
    found = list[Path]()
    for path in needed:
        source = file.parent / path
        if source.is_file():
            found += write_whole({path.name: source.read_bytes()}, (folder / path).parent)
    return tuple(found)


def left_over(folder: Path, names: Mapping[str, object]) -> tuple[Path, ...]:
    """Return the proposals of an earlier run that a folder holds beside those of this one."""
    return tuple(path for path in sorted(folder.glob("proposal-[0-9]*.yaml")) if path.name not in names)


__all__ = ["DOCUMENT", "head_of", "json_text", "lay_beside", "left_over", "proposal_texts", "texts_of"]
