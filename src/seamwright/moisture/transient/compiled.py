"""Compile a function of arrays to machine code, kept on disk; needs the optional package numba."""

from __future__ import annotations

from collections.abc import Callable
from importlib.util import find_spec
from typing import Any, TypeVar, cast
from zlib import crc32

import numba

_F = TypeVar("_F", bound=Callable[..., Any])

_LOOSE = {"reassoc", "contract", "arcp", "nsz"}

_TOGETHER = ("compiled", "tables", "net", "lanes", "band", "kernel", "matrix", "march")


def compiled(function: _F) -> _F:
    """Return the function compiled on its first call; it runs beside other threads.

    Sums may be taken in another order (`reassoc`), so that several numbers are worked at once;
    infinities and missing numbers keep their meaning. What is kept on disk is found by the text of
    all modules that are compiled together: a function holds those that it calls, and numba alone
    would not notice that one of another module has changed.
    """
    function.__qualname__ += f"_{_stamp():08x}"
    return cast("_F", numba.njit(cache=True, nogil=True, fastmath=_LOOSE)(function))


def _stamp() -> int:
    """Return a number that changes with the text of any module that is compiled."""
    total = 0
    for name in _TOGETHER:
        spec = find_spec(f"{__package__}.{name}")
        text = getattr(spec.loader, "get_source", str)(spec.name) if spec is not None else ""
        total = crc32((text or "").encode(), total)
    return total
