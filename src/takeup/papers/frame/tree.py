"""The head of a paper as its template reads it.     (papers/frame/tree.py)"""

from __future__ import annotations

from takeup.papers.common.tables import Tree, facts, sentences
from takeup.papers.frame.head import Head
from takeup.papers.words import ENGLISH, Language, texts

_REGIONS = {"en": "GB", "de": "DE"}


def frame_tree(head: Head, title: str) -> Tree:
    """Return what `frame.typ` sets round a paper: put it under the key `frame` of the template's data.

    Args:
        head: of the paper.
        title: of the paper, which its title block and the file's own title bear.
    """
    said = head.texts
    return {
        **page_tree(title, head.project, head.running, head.language),
        "facts": facts(head.facts),
        "loud": sentences([head.demonstration] if head.demonstration else []),
        "cautions": {"head": said("frame.cautions"), "items": sentences(head.cautions)},
        "not_covered": {"head": said("frame.not_covered"), "items": sentences(head.not_covered)},
        "remarks": {"head": said("frame.notes"), "items": sentences(head.remarks)},
    }


def page_tree(title: str, project: str, running: str, language: Language = ENGLISH) -> Tree:
    """Return what the pages alone need: of a paper that is not made from results.

    Args:
        title: of the paper.
        project: whose it is.
        running: what stands at the head of every page.
        language: what it is written in.
    """
    said = texts(language)
    return {
        "title": title,
        "project": project,
        "running": running,
        "language": language,
        "region": _REGIONS[language],
        "page": said("frame.page"),
        "of": said("frame.of"),
        "outside": said("frame.outside"),
    }


__all__ = ["frame_tree", "page_tree"]
