"""The desk: a page on the line, and the server that makes its every number and drawing.     (desk/__init__.py)"""

from takeup.desk.web.serving import Opened, PortTaken, WeakPassword, serve

__all__ = ["Opened", "PortTaken", "WeakPassword", "serve"]
