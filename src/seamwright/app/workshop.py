"""Houses worked out and kept at hand, and the documents made from them, each made only once."""

from __future__ import annotations

import gzip
import hashlib
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from threading import Lock
from typing import Generic, TypeVar

from seamwright.app.built import Built, build

HOUSES_AT_HAND = 8
"""Houses kept worked out; a house of 10,000 joints takes some hundred megabytes. Our own choice."""
DOCUMENTS_AT_HAND = 400
"""Documents kept packed. Our own choice."""

_V = TypeVar("_V")


@dataclass(frozen=True, kw_only=True, slots=True)
class Packed:
    """A document ready to send: as it is, compressed, and named by its content."""

    body: bytes
    zipped: bytes
    etag: str


def pack(body: bytes) -> Packed:
    """Return a document ready to send."""
    tag = hashlib.sha256(body).hexdigest()[:24]
    return Packed(body=body, zipped=gzip.compress(body, 5, mtime=0), etag=f'"{tag}"')


class Shelf(Generic[_V]):
    """The last values made, by key; each is made once even when several ask at a time."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[Hashable, _V] = OrderedDict()
        self._making: dict[Hashable, Lock] = {}
        self._lock = Lock()

    def take(self, key: Hashable, make: Callable[[], _V]) -> _V:
        """Return the value of a key, made now if it is not held."""
        with self._lock:
            if key in self._held:
                self._held.move_to_end(key)
                return self._held[key]
            making = self._making.setdefault(key, Lock())
        with making:
            with self._lock:
                if key in self._held:
                    return self._held[key]
            try:
                value = make()
            finally:
                with self._lock:
                    self._making.pop(key, None)
            with self._lock:
                self._held[key] = value
                while len(self._held) > self._most:
                    self._held.popitem(last=False)
        return value


class Workshop:
    """Everything worked out that is still at hand."""

    def __init__(self) -> None:
        self._houses: Shelf[Built] = Shelf(HOUSES_AT_HAND)
        self._documents: Shelf[Packed] = Shelf(DOCUMENTS_AT_HAND)

    def built(self, plan_hash: str, text: Callable[[], str]) -> Built:
        """Return the house of a plan text, worked out now if it is not at hand."""
        return self._houses.take(plan_hash, lambda: build(plan_hash, text()))

    def document(self, key: Hashable, make: Callable[[], bytes]) -> Packed:
        """Return a document, made now if it is not at hand."""
        return self._documents.take(key, lambda: pack(make()))
