"""A plant's record: what every zone of a study was at, time by time.     (line/record.py)

history/read_record.py reads one from a file; a study walks it as it walks its states, from row to row.
Pressures are gauge [Pa], below zero under vacuum; temperatures degrees Celsius; times seconds.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from takeup.line.states import Content

LEAST_ROWS = 2
"""A record goes from somewhere to somewhere."""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Record:
    """A record of t rows over z zones, in the order of `zones_of(study)`; its arrays cannot be written to.

    Args:
        file: name of the file that it was read from.
        sha256: of the file's bytes.
        times: rising, (t,) [s].
        pressures: gauge, (t, z) [Pa].
        temperatures: of medium and metal, (t, z) [degC].
        contents: what fills the zone, (t, z); None where the file does not say.
    """

    file: str
    sha256: str
    times: NDArray[np.float64]
    pressures: NDArray[np.float64]
    temperatures: NDArray[np.float64]
    contents: tuple[tuple[Content | None, ...], ...]

    def __post_init__(self) -> None:
        rows = self.times.size
        assert rows >= LEAST_ROWS, "a record has two rows at least"
        assert self.pressures.shape == self.temperatures.shape == (rows, len(self.contents[0])), "(t, z)"
        assert len(self.contents) == rows, "every row has its contents"
        assert (np.diff(self.times) > 0.0).all(), "times rise"
        for array in (self.times, self.pressures, self.temperatures):
            assert np.isfinite(array).all(), "every value is a number"
            array.setflags(write=False)

    @property
    def says_contents(self) -> bool:
        """Whether the file says anywhere what fills a zone."""
        return any(content is not None for content in chain.from_iterable(self.contents))
