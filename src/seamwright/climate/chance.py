"""Seeded chance for the generated year: the same seed gives the same numbers everywhere."""

from __future__ import annotations

import numpy as np
from scipy.special import ndtr, ndtri

from seamwright.climate.arrays import Floats


class Chance:
    """A stream of numbers that depends on the seed alone.

    Only uniform numbers are drawn from the generator and turned by hand, since the library keeps
    the order of those and not that of other distributions.
    """

    def __init__(self, seed: int) -> None:
        self._bits = np.random.Generator(np.random.PCG64(seed))

    def uniform(self, count: int) -> Floats:
        """Return numbers between 0 and 1, neither reached."""
        return np.asarray(np.clip(self._bits.random(count), 1e-12, 1.0 - 1e-12), dtype=np.float64)

    def normal(self, count: int) -> Floats:
        """Return numbers of the standard normal distribution."""
        return np.asarray(ndtri(self.uniform(count)), dtype=np.float64)

    def chain(self, count: int, memory: float) -> Floats:
        """Return a standard normal series whose neighbors correlate by `memory`, closed in a ring.

        First-order autoregression; the end is led back into the beginning so that a year may be
        repeated without a jump.
        """
        lead = min(count, 64)
        kicks = self.normal(count)
        kicks = np.concatenate([kicks[-lead:], kicks])
        step = np.sqrt(1.0 - memory**2)
        series, now = np.empty(len(kicks)), 0.0
        for k, kick in enumerate(kicks.tolist()):
            now = memory * now + step * kick
            series[k] = now
        return np.asarray(series[lead:], dtype=np.float64)


def share_below(normal: Floats) -> Floats:
    """Return the part of the standard normal distribution below each value."""
    return np.asarray(ndtr(normal), dtype=np.float64)
