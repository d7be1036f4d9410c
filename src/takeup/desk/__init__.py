"""The desk: a page on the line, and the server that makes its every number and drawing.     (desk/__init__.py)

What is offered here is imported when it is first asked for: work in a process of its own needs none of the server.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from takeup.desk.web.serving import Opened, PortTaken, WeakPassword, serve

__all__ = ["Opened", "PortTaken", "WeakPassword", "serve"]


def __getattr__(name: str) -> object:
    """Return what is offered under a name."""
    if name not in __all__:
        raise AttributeError(f"module 'takeup.desk' has no attribute '{name}'")
    from takeup.desk.web import serving

    return getattr(serving, name)
