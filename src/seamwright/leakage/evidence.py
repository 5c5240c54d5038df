"""How likely it is that a searcher finds a leak of a given size, and rates it as he did."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from seamwright.leakage.hunt_types import Detection, HuntModel, Look
from seamwright.leakage.places import Place

Floats = NDArray[np.float64]

STRONGEST = 5
"""Steps of the scale on which finds are rated, our own: 1 a whisper, 5 a gale."""


def spot_share(place: Place, model: HuntModel) -> float:
    """Return the share of a spread-out leak that a searcher senses at once. [-]

    A defect leaks at one spot and is sensed whole; a leak spread along a joint is sensed only
    over `model.spot` of it.
    """
    return min(1.0, model.spot / place.length) if place.length > 0.0 else 1.0


def chance_found(log_flow: Floats, detection: Detection) -> Floats:
    r"""Return the chance that a search finds a leak.

    .. math:: p = p_0 + (p_1 - p_0)\,\Phi\bigl((\ln q - \ln q_{50}) / s\bigr)

    Parameters
    ----------
    log_flow : (...) float
        Logarithm of the flow at one spot, at the pressure held during the search. [ln m³/s]

    Source
    ------
    Shape and constants are `common practice, no source`.
    """
    span = detection.at_best - detection.false_alarm
    away = (log_flow - np.log(detection.flow)) / detection.spread
    return np.asarray(detection.false_alarm + span * ndtr(away), dtype=float)


def chance_of_strength(log_flow: Floats, strength: int, model: HuntModel) -> Floats:
    """Return the chance that a found leak is rated `strength`, 1 to 5.

    A rating is the nearest step of a scale on which each step is `strength_step` times the flow
    of the one below, read with a normal error.
    """
    steps = 1.0 + (log_flow - np.log(model.whisper)) / np.log(model.strength_step)
    upper = 1.0 if strength >= STRONGEST else ndtr((strength + 0.5 - steps) / model.strength_spread)
    lower = 0.0 if strength <= 1 else ndtr((strength - 0.5 - steps) / model.strength_spread)
    return np.asarray(upper - lower, dtype=float)


def log_chance(look: Look, log_flow: Floats, model: HuntModel) -> Floats:
    """Return the logarithm of the chance of what a look saw, for flows at one spot at 50 Pa."""
    held = log_flow + model.exponent * np.log(look.pressure / 50.0)
    found = chance_found(held, model.detections[look.method])
    if not look.found:
        return np.asarray(np.log1p(-found), dtype=float)
    if look.strength is None:
        return np.asarray(np.log(found), dtype=float)
    rated = chance_of_strength(held, look.strength, model)
    return np.asarray(np.log(found) + np.log(np.maximum(rated, 1e-12)), dtype=float)
