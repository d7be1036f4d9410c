"""The whole study, run beside the desk.     (desk/work/studying.py)"""

from __future__ import annotations

from takeup.desk.work.jobs import Tell
from takeup.line import Study
from takeup.results import results_of
from takeup.results.plain import Json


def studied(tell: Tell, resolved: Study) -> dict[str, Json]:
    """Return the results document of a study, its rules resolved and its joints chosen."""
    tell(0.1, "walking through every state")
    return results_of(resolved)


__all__ = ["studied"]
