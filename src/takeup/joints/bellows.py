"""Where the bellows of a joint lie, and what they are together.     (joints/bellows.py)

A joint of one bellows has it in its middle. A universal joint has two, alike, each `centres`/2 from its middle, and a
spool between; in a row they are half as stiff along the pipe as one.
"""

from __future__ import annotations

from takeup.joints.data import JointData


def bellows_between(data: JointData) -> tuple[tuple[float, float], ...]:
    """Return where each bellows begins and ends, from the middle of the joint [m]."""
    half = data.live_length / 2.0
    middles = (0.0,) if data.centres is None else (-data.centres / 2.0, data.centres / 2.0)
    return tuple((middle - half, middle + half) for middle in middles)


def whole_live_length(data: JointData) -> float:
    """Return the live length of all bellows of a joint [m]."""
    return data.live_length * len(bellows_between(data))


def whole_axial_rate(data: JointData) -> float:
    """Return the axial rate of a joint from end to end.

        k = k_x / n,  n bellows alike in a row                             (first principles)

    Args:
        data: k_x is the rate of each of its bellows [N/m].

    Returns:
        k [N/m].
    """
    return data.axial_rate / len(bellows_between(data))


__all__ = ["bellows_between", "whole_axial_rate", "whole_live_length"]
