"""A built page may link to another site, but may load nothing from one.     (extensions/no_outside_request.py)"""

from __future__ import annotations

import re
from pathlib import Path

from sphinx.application import Sphinx
from sphinx.util import logging

logger = logging.getLogger(__name__)

LOADED = re.compile(
    r"""<(?:script|img|iframe|source)[^>]*\ssrc=["'](?:https?:)?//[^>]*>"""
    r"""|<link[^>]*\shref=["'](?:https?:)?//[^>]*>"""
)
LOADED_BY_STYLE = re.compile(r"""(?:url\(\s*|@import\s+)["']?(?:https?:)?//[^)\s;]*""")


def look(app: Sphinx, exception: Exception | None) -> None:
    """Warn of everything in the built pages and styles that a browser would fetch from elsewhere."""
    if exception is not None or app.builder.format != "html":
        return
    for pattern, ending in ((LOADED, "*.html"), (LOADED_BY_STYLE, "*.css")):
        for path in Path(app.outdir).rglob(ending):
            for found in pattern.findall(path.read_text(encoding="utf-8")):
                logger.warning("%s loads from outside: %s", path.name, found)


def setup(app: Sphinx) -> dict[str, bool]:
    """Look once, at the end of the build."""
    app.connect("build-finished", look)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
