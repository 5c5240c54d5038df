"""The value of a curve given by points."""

from __future__ import annotations

import numpy as np
from scipy.interpolate import PchipInterpolator

from seamwright.moisture.transient.types import Curve
from seamwright.moisture.types import Floats

_LEAST = 1e-300


def values_of(curve: Curve, at: Floats) -> Floats:
    """Return the curve's values: monotone cubics between its points, the end values outside.

    Two points give a straight line. Source: F. N. Fritsch and R. E. Carlson, SIAM Journal on
    Numerical Analysis 17 (1980), 238 to 246 (from memory).

    >>> line = Curve(x=(0.0, 1.0), y=(2.0, 4.0))
    >>> values_of(line, np.array([-1.0, 0.5, 9.0])).tolist()
    [2.0, 3.0, 4.0]
    """
    x, y = np.array(curve.x), np.array(curve.y)
    if curve.logarithmic:
        y = np.log(np.maximum(y, _LEAST))
    inside = np.clip(at, x[0], x[-1])
    found = np.interp(inside, x, y) if len(x) < 3 else PchipInterpolator(x, y)(inside)
    return np.asarray(np.exp(found) if curve.logarithmic else found, dtype=np.float64)
