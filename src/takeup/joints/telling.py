"""What holds a kind of joint, and what a line file says of it.     (joints/telling.py)

Made from the record of the kind, so that a new kind needs nothing here.
"""

from __future__ import annotations

from takeup.joints.kinds import JointKind, RouteKind

_PINS = {
    "hinge": "two plates with one pair of pins",
    "gimbal": "plates and a ring with two pairs of pins",
    "swing": "two bars, pinned at both ends",
}
_BESIDE = {"none": "", "optional": "; limit rods if wanted", "required": ", until its limit rods bear"}
_RODS = {"the joint": "rods across it", "each bellows": "rods across each bellows"}


def held_by(kind: JointKind | RouteKind) -> str:
    """Return what holds the two sides of a joint together against its pressure thrust."""
    if isinstance(kind, RouteKind):
        return "the pipe itself, which has no joint"
    if kind.pins != "none":
        return _PINS[kind.pins]
    if kind.balanced:
        return "a balancing bellows, tied across it"
    if kind.restrained:
        return f"tie {_RODS[kind.rods_across]}" if kind.rods == "required" else "its braid"
    return f"nothing: the anchors either side{_BESIDE[kind.rods]}" + (
        ", and an anchor base between its halves" if kind.halves is not None else ""
    )


def keys_needed(kind: JointKind | RouteKind) -> tuple[str, ...]:
    """Return the keys of a line file that this kind needs beside those of every joint."""
    if isinstance(kind, RouteKind):
        return ()
    found = [
        ("rods", kind.rods == "required"),
        ("pins", kind.pins != "none"),
        ("balance", kind.balanced),
        ("base", kind.halves is not None),
        ("ends", kind.name == "small-bore compensator"),
        ("data.centres", kind.bellows > 1),
        ("data.axial_compression", "axial" in kind.rated),
        ("data.axial_extension", "axial" in kind.rated),
        ("data.lateral_rate or data.angular_rate", kind.name == "braided hose loop"),
        *((f"data.{movement}", movement in kind.rated) for movement in ("lateral", "angular")),
    ]
    return tuple(key for key, needed in found if needed)


def keys_possible(kind: JointKind | RouteKind) -> tuple[str, ...]:
    """Return the keys that this kind may have and others may not."""
    return ("rods",) if isinstance(kind, JointKind) and kind.rods == "optional" else ()


__all__ = ["held_by", "keys_needed", "keys_possible"]
