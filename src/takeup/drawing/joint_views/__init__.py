"""Each kind of take-up by itself, seen from the side, its parts named.     (drawing/joint_views/__init__.py)"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from takeup.drawing.joint_views.held import at_an_elbow, gimbal, hinged, hose_loop, in_line_balanced, swing
from takeup.drawing.joint_views.housed import double_externally_pressurised, externally_pressurised, small_bore
from takeup.drawing.joint_views.parts import HIGH, WIDE, Items
from takeup.drawing.joint_views.routes import l_bend, loop, z_bend
from takeup.drawing.joint_views.straight import double, rodded, single, universal
from takeup.drawing.sheet import Item, Sheet, Text, View

_GAP = 3.0
VIEWS: dict[str, Callable[[], Items]] = {
    "single axial": single,
    "tied axial": partial(rodded, 0.0),
    "limit-rod axial": partial(rodded, _GAP),
    "universal": universal,
    "tied universal": partial(universal, across="the joint"),
    "limit-rod universal": partial(universal, across="each bellows", gap=_GAP),
    "swing": swing,
    "hinged": hinged,
    "gimbal": gimbal,
    "externally pressurised": externally_pressurised,
    "small-bore compensator": small_bore,
    "in-line pressure balanced": in_line_balanced,
    "elbow pressure balanced": at_an_elbow,
    "braided hose loop": hose_loop,
    "double": double,
    "double externally pressurised": double_externally_pressurised,
    "pipe loop": loop,
    "Z": z_bend,
    "L": l_bend,
}
"""What draws each kind, by its name."""


def joint_view(name: str, thrust: str) -> Sheet:
    """Return the picture of a kind of take-up.

    Args:
        name: of the kind, as the line file spells it.
        thrust: one short sentence on its thrust, under the picture.
    """
    title = f"{name[0].upper()}{name[1:]}"
    words: list[Item] = [
        Text(at=(4.0, 6.0), words=title, size=4.0, bold=True),
        Text(at=(WIDE - 4.0, 6.0), words="not to scale", size=2.6, anchor="end", ink="grey"),
        Text(at=(4.0, HIGH - 2.5), words=thrust, size=2.9, ink="grey"),
    ]
    return Sheet(
        width=WIDE,
        height=HIGH,
        title=title,
        description=f"{title} from the side, its parts named. {thrust}",
        views=(View(title=title, scale=None, items=(*VIEWS[name](), *words)),),
    )


__all__ = ["VIEWS", "joint_view"]
