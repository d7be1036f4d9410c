"""Formulas as MathML, which a browser sets itself: no script, no picture, readable aloud.     (extensions/mathml.py)

The converter does not know every LaTeX environment; what it leaves unconverted is a warning, so an error of the build.
"""

from __future__ import annotations

from docutils import nodes
from latex2mathml.converter import convert
from sphinx.application import Sphinx
from sphinx.util import logging
from sphinx.writers.html5 import HTML5Translator

logger = logging.getLogger(__name__)


def formula(node: nodes.Element, *, display: str) -> str:
    """Return one formula as MathML."""
    text = node.astext()
    result = convert(text, display=display)
    if "<mi>&</mi>" in result or "<mi>\\" in result:
        logger.warning("formula cannot be set as MathML, write it without an environment: %s", text, location=node)
    return result


def visit_inline(self: HTML5Translator, node: nodes.math) -> None:
    """Write a formula inside a sentence."""
    self.body.append(formula(node, display="inline"))
    raise nodes.SkipNode


def visit_block(self: HTML5Translator, node: nodes.math_block) -> None:
    """Write a formula on a line of its own, with its number if it has one."""
    number = f'<span class="eqno">({node["number"]})</span>' if node.get("number") else ""
    self.body.append(f'<div class="math">{number}{formula(node, display="block")}</div>')
    raise nodes.SkipNode


def setup(app: Sphinx) -> dict[str, bool]:
    """Register the renderer under its name."""
    app.add_html_math_renderer("mathml", (visit_inline, None), (visit_block, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}
