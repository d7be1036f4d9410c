"""A rating with numbers made up from the number of the column: what reads it needs no shell.     (fake_rating.py)"""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np

from takeup.bellows.columns import COLUMNS


def fake_rated(count, **fields):
    """Return a rating of some bellows: column k holds 1, 2, ... plus k tenths, unless `fields` says otherwise."""
    numbers = {column.field: np.arange(1.0, count + 1.0) + k / 10.0 for k, column in enumerate(COLUMNS)}
    given = {
        name: np.broadcast_to(np.asarray(value, dtype=float), (count,))
        for name, value in fields.items()
        if name != "remarks"
    }
    return SimpleNamespace(**(numbers | given), remarks=fields.get("remarks", ("",) * count))
