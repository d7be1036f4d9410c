"""Takeup: where a hot pipe is held, what takes up its growth, and the proof of it.     (takeup/__init__.py)

Nothing is imported here, so that `takeup --help` starts fast. Begin reading at `takeup.results.results_of`.
"""

__version__ = "0.4.0"
