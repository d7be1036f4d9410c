"""How fast passwords may be tried, each machine for itself.     (desk/web/tries.py)

A wrong password takes a second of the machine that sends it, and its next one waits for that; nobody waits for what
others try. A turn is taken when a try comes, not when it is answered, so that hanging up saves nothing. What is kept
is a moment for each machine that tries, until that moment has passed; past so many machines, all others share one.
"""

from __future__ import annotations

import time
from collections.abc import Callable

APART = 1.0
"""Tries of one machine are so far apart [s]."""
MOST_WAITING = 5
"""Tries of one machine that may wait; more are refused at once, so that they hold nothing."""
MOST_MACHINES = 1000
"""So many machines have turns of their own."""
_OTHERS = "all others"


class Tries:
    """The moments at which machines may try again."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._free: dict[str, float] = {}

    def turn(self, address: str) -> float | None:
        """Take the next turn of a machine.

        Args:
            address: of the machine that tries.

        Returns:
            How long it waits for it [s]; None where too many of its tries wait already.
        """
        now, machine = self._clock(), address
        if machine not in self._free and len(self._free) >= MOST_MACHINES:
            self._free = {one: free for one, free in self._free.items() if free > now}
            if len(self._free) >= MOST_MACHINES:
                machine = _OTHERS
        wait = max(self._free.get(machine, now) - now, 0.0)
        if wait > MOST_WAITING * APART:
            return None
        self._free[machine] = now + wait + APART
        return wait

    def __len__(self) -> int:
        """How many moments are kept."""
        return len(self._free)


__all__ = ["APART", "MOST_MACHINES", "MOST_WAITING", "Tries"]
