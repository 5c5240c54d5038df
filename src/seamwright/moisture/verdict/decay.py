r"""Decay of wood by brown rot: how far it is activated and the mass it has cost.

After Viitanen, Toratti et al. (2010). Above 0 °C and 95 % relative humidity activation rises by
:math:`dt / t_{crit}`, else it falls to nothing in two years. At full activation wood loses mass.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.moisture.types import Floats

_HOURS_OF_MONTH = 720.0
_RECOVERY = 17_520.0
_WARMEST = 30.0
_ALL = 100.0


@dataclass(frozen=True, kw_only=True, slots=True)
class DecayState:
    """What decay carries on: activation from 0 to 1 [-] and the mass lost [%]."""

    activation: float = 0.0
    loss: float = 0.0


def critical_time(temperature: Floats | float, humidity: Floats | float) -> Floats:
    """Return how long these conditions must last before wood loses mass. [h] Infinite where never.

    `temperature` [°C], counted as 30 °C above it, where the tests ended; relative humidity [-].

    >>> round(float(critical_time(20.0, 0.97)), 1)
    575.0
    """
    t, rh = _tested(temperature, humidity)
    above = 2.3 * t + 0.035 * rh - 0.024 * t * rh
    below = -42.9 + 0.14 * t + 0.45 * rh
    active = (t > 0.0) & (rh > 95.0) & (below > 0.0) & (above > 0.0)
    ratio = np.divide(above, below, out=np.full(np.shape(below), np.inf), where=active)
    return np.asarray(_HOURS_OF_MONTH * ratio)


def loss_rate(temperature: Floats | float, humidity: Floats | float) -> Floats:
    """Return the mass that activated wood loses. [% of dry mass per hour]"""
    t, rh = _tested(temperature, humidity)
    rate = np.maximum(-5.96e-2 + 1.96e-4 * t + 6.25e-4 * rh, 0.0)
    return np.where((t > 0.0) & (rh > 95.0), rate, 0.0)


def wood_decay(
    temperature: Floats, humidity: Floats, state: DecayState | None = None
) -> tuple[Floats, Floats, DecayState]:
    """Return activation [-] and mass lost [%] at the end of every hour, and the state at the end.

    `temperature` [°C] and relative `humidity` [-] are (hours,).
    """
    begin = DecayState() if state is None else state
    step = 1.0 / critical_time(temperature, humidity)
    rate = loss_rate(temperature, humidity)
    if begin.activation == 0.0 and not np.any(step > 0.0):
        flat = np.full(len(step), begin.loss)
        return np.zeros(len(step)), flat, begin
    activation, loss = begin.activation, begin.loss
    active, lost = [], []
    for rise, eaten in zip(step.tolist(), rate.tolist(), strict=True):
        if rise > 0.0:
            spare = activation + rise - 1.0
            if spare > 0.0:
                loss = min(loss + eaten * min(spare / rise, 1.0), _ALL)
            activation = min(activation + rise, 1.0)
        else:
            activation = max(activation - 1.0 / _RECOVERY, 0.0)
        active.append(activation)
        lost.append(loss)
    return np.array(active), np.array(lost), DecayState(activation=activation, loss=loss)


def _tested(temperature: Floats | float, humidity: Floats | float) -> tuple[Floats, Floats]:
    t = np.minimum(np.asarray(temperature, dtype=float), _WARMEST)
    return t, 100.0 * np.minimum(np.asarray(humidity, dtype=float), 1.0)
