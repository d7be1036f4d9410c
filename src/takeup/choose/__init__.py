"""What the file leaves to the tool: rules resolved into places.     (choose/__init__.py)"""

from takeup.choose.resolve import resolve

__all__ = ["resolve"]
