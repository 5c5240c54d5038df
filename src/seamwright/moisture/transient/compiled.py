"""Compile a function of arrays to machine code, kept on disk; needs the optional package numba."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

_F = TypeVar("_F", bound=Callable[..., Any])

_LOOSE = {"reassoc", "contract", "arcp", "nsz"}


def compiled(function: _F) -> _F:
    """Return the function compiled on its first call; it runs beside other threads.

    Sums may be taken in another order (`reassoc`), so that several numbers are worked at once;
    infinities and missing numbers keep their meaning.
    """
    return cast("_F", numba.njit(cache=True, nogil=True, fastmath=_LOOSE)(function))
