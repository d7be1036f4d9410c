"""How the documentation is built: from Markdown, offline, with every warning an error.     (docs/conf.py)"""

from __future__ import annotations

import re
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE / "extensions"))

project = "Takeup"
author = "the Takeup developers"
release = re.search(r'__version__ = "(.+)"', (HERE.parent / "src/takeup/__init__.py").read_text(encoding="utf-8"))[1]
version = release

extensions = ["myst_parser", "mathml", "no_outside_request"]
exclude_patterns = ["_build"]
nitpicky = True
myst_enable_extensions = ["colon_fence", "deflist", "dollarmath"]
myst_heading_anchors = 3
html_math_renderer = "mathml"

html_theme = "furo"
html_title = f"Takeup {release}"
html_copy_source = False
html_show_sourcelink = False
