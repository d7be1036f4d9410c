"""What was worked out once for a bay, kept by its whole content.     (mechanics/contact/memory.py)

Two lines that share a stretch between the same anchors ask the same of it: the same members, holds, causes, gaps and
rubs, the same steps and friction. A key is a digest of all the numbers that go into an answer, bit by bit, so what is
found under it is the answer that would be worked out again, to the last bit. What was asked for longest ago is
forgotten once all that is kept is larger than `limit`.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, fields, is_dataclass
from hashlib import blake2b
from typing import Generic, TypeVar

import numpy as np

Kept = TypeVar("Kept")
Key = bytes


@dataclass(kw_only=True)
class Shelf(Generic[Kept]):
    """Answers of one kind, by key, the last asked for at the end.

    Args:
        limit: bytes of all that is kept, at most.
        size: bytes of one.
    """

    limit: int
    size: Callable[[Kept], int]
    known: OrderedDict[Key, Kept] = field(default_factory=OrderedDict)
    held: int = 0
    asked: int = 0
    found: int = 0

    def get(self, key: Key, make: Callable[[], Kept]) -> Kept:
        """Return what is kept under a key; what is made for it where nothing is.

        Args:
            key: of all that goes into it.
            make: it anew.
        """
        self.asked += 1
        if key in self.known:
            self.found += 1
            self.known.move_to_end(key)
            return self.known[key]
        made = self.known[key] = make()
        self.held += self.size(made)
        while self.held > self.limit and len(self.known) > 1:
            _, gone = self.known.popitem(last=False)
            self.held -= self.size(gone)
        return made


def key_of(*parts: object) -> Key:
    """Return a digest of numbers, arrays, words, and records of these, in their order.

    Args:
        parts: of which the key is.
    """
    digest = blake2b(digest_size=20)
    for part in parts:
        for piece in _pieces(part):
            digest.update(len(piece).to_bytes(8, "big"))
            digest.update(piece)
    return digest.digest()


def _pieces(part: object) -> Iterable[bytes]:
    """Yield the bytes of one part; an array with its kind and shape, so that no two differ and look alike."""
    if isinstance(part, np.ndarray):
        yield f"{part.dtype.str} {part.shape}".encode()
        yield np.ascontiguousarray(part).tobytes()
    elif is_dataclass(part):
        yield type(part).__name__.encode()
        for one in fields(part):
            yield from _pieces(getattr(part, one.name))
    elif isinstance(part, bytes):
        yield part
    else:
        yield repr(part).encode()


def bytes_of(part: object) -> int:
    """Return how much the arrays of a record of records hold, together [bytes]."""
    if isinstance(part, np.ndarray):
        return int(part.nbytes)
    if is_dataclass(part):
        return sum(bytes_of(getattr(part, one.name)) for one in fields(part))
    if isinstance(part, tuple):
        return sum(bytes_of(one) for one in part)
    return 0


__all__ = ["Key", "Shelf", "bytes_of", "key_of"]
