"""The kinds of array the climate room takes and gives."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]
Values: TypeAlias = float | Floats
"""A number or an array of numbers; shapes follow numpy's broadcasting."""

Flags: TypeAlias = npt.NDArray[np.bool_]
