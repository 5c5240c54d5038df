"""Can we tape now? GO, WAIT or STOP from what was read at the seam, with the reason."""

from __future__ import annotations

import math
from statistics import NormalDist

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.face import FaceHours
from seamwright.climate.moist_air import condensation_point, vapor_pressure
from seamwright.schedule.tape_checks import condensation, site_checks
from seamwright.schedule.tape_types import (
    Check,
    CheckState,
    Reading,
    TapeAnswer,
    TapeProduct,
    TapeReadings,
    Told,
    Verdict,
)
from seamwright.schedule.window import RAIN, board_dry, usable_hours

FADING = 6.0
"""Hours over which the difference between a reading and the forecast fades to 1/e. [h]
Our own estimate: a skin in shade today may be in sun in the afternoon."""

_SIGMAS = 2.0
"""Standard deviations that an instrument's ± is taken for. Our own reading of data sheets."""

_ORDER: tuple[CheckState, ...] = ("fail", "open", "unknown", "caution", "pass")
_SCALE: dict[str | None, float] = {
    "difference": 1.0,
    "share": 0.02,
    "days": 10.0,
    "hours": 4.0,
    None: 1.0,
}
"""How much of each measure counts as equally near to a limit, to name the nearest."""


def judge_tape(
    readings: TapeReadings,
    product: TapeProduct,
    outlook: FaceHours | None = None,
    *,
    board: Floats | None = None,
) -> TapeAnswer:
    """Return whether the product may be used on this skin now, and why.

    GO when every check holds everywhere in the uncertainty of the readings. STOP when a hard one
    fails everywhere in it (frost, water, a temperature out of the product's range, a skin below
    the dew point, a soaked board, a worn strip), unless all such failures are weather and the
    forecast shows an hour that suits: then, and in every other case, WAIT.

    `outlook` is the face hour by hour from now on; its hour 0 is the hour of the readings. `board`
    is the water of its board at the end of each hour, where a run tells it [kg/kg]; without it the
    film of water alone says how long the skin is wet.
    """
    checks = [*site_checks(readings, product)]
    turns_at = None
    if outlook is not None:
        checks += _ahead(readings, product, outlook)
        turns_at = _turn(readings, product, outlook, board)
    elif readings.exposed:
        checks.append(_no_forecast(product))
    answer = _verdict(checks, turns_at)
    return TapeAnswer(
        answer=answer,
        checks=tuple(checks),
        binding=min(checks, key=_urgency),
        chance=_chance(readings, product, checks),
        turns_at=None if answer == "GO" else turns_at,
        board_dry_at=None if board is None else _board_dry(product, board),
    )


def _verdict(checks: list[Check], turns_at: int | None) -> Verdict:
    hard = [check for check in checks if check.state == "fail" and check.hard]
    if hard and not (turns_at is not None and all(check.weather for check in hard)):
        return "STOP"
    held = all(check.state in {"pass", "caution"} for check in checks)
    return "GO" if held else "WAIT"


def _urgency(check: Check) -> tuple[bool, int, bool, float]:
    """Return a key that puts what binds first.

    Hard failures, then what failed and only the weather can mend, then what is nearest its limit.
    """
    is_hard_failure = check.hard and check.state == "fail"
    unmeasured = math.inf if check.state == "pass" else -math.inf
    margin = unmeasured if check.low is None else check.low / _SCALE[check.measure]
    is_to_mend = check.state != "pass" and not check.weather
    return not is_hard_failure, _ORDER.index(check.state), is_to_mend, margin


def _ahead(readings: TapeReadings, product: TapeProduct, outlook: FaceHours) -> list[Check]:
    """Return the checks of the hours after: rain before it is dry, cold before it bonds."""
    checks = []
    if readings.exposed:
        checks.append(_rain_ahead(product, outlook))
    if product.surface_min is not None:
        until = outlook.surface[: math.ceil(product.cure_hours)]
        low = float(np.min(until)) - product.surface_min if len(until) else 0.0
        checks.append(
            Check(
                id="cold_ahead",
                state="pass" if low >= 0.0 else "caution",
                hard=False,
                weather=True,
                found=Told(
                    text="the skin is forecast to go down to {value} before the bond is full in "
                    "{hours}",
                    figures={
                        "value": (low + product.surface_min, "temperature"),
                        "hours": (product.cure_hours, "hours"),
                    },
                ),
                way_out=Told(text="" if low >= 0.0 else "roll it again when the skin has warmed"),
                source=product.source_of("cure_hours"),
                low=low,
                high=low,
                measure="difference",
            )
        )
    return checks


def _rain_ahead(product: TapeProduct, outlook: FaceHours) -> Check:
    needed = math.ceil(product.dry_hours) + 1
    rain = outlook.weather.rain[:needed]
    falls = np.flatnonzero(rain >= RAIN)
    first = float(falls[0]) if len(falls) else float(len(rain))
    if len(falls):
        told, state = "rain is forecast in {first}, and {needed} must stay dry", "fail"
    elif len(rain) < needed:
        told, state = "the forecast ends in {first}, and {needed} must stay dry", "unknown"
    else:
        told, state = "no rain is forecast for {first}, and {needed} must stay dry", "pass"
    figures = {"first": (first, "hours"), "needed": (product.dry_hours, "hours")}
    return Check(
        id="rain_ahead",
        state=state,  # type: ignore[arg-type]
        hard=False,
        weather=True,
        found=Told(text=told, figures=figures),  # type: ignore[arg-type]
        way_out=Told(text="" if state == "pass" else "cover the seam first, or wait for a dry run"),
        source=product.source_of("dry_hours"),
        low=first - product.dry_hours,
        high=first - product.dry_hours,
        measure="hours",
    )


def _no_forecast(product: TapeProduct) -> Check:
    return Check(
        id="rain_ahead",
        state="caution",
        hard=False,
        weather=True,
        found=Told(
            text="rain can reach it, and no forecast was given; {needed} must stay dry",
            figures={"needed": (product.dry_hours, "hours")},
        ),
        way_out=Told(text="look at a forecast, or cover the seam as soon as it is rolled"),
        source=product.source_of("dry_hours"),
    )


def _board_dry(product: TapeProduct, board: Floats) -> int | None:
    found = np.flatnonzero(board_dry(board, product.board_hold))
    return int(found[0]) if len(found) else None


def _turn(
    readings: TapeReadings, product: TapeProduct, outlook: FaceHours, board: Floats | None
) -> int | None:
    """Return the first hour of the forecast that suits, drawn toward what was read just now."""
    hours = outlook.weather.hours
    if not hours:
        return None
    fading = np.exp(-np.arange(hours) / FADING)
    surface = outlook.surface + fading * _off(readings.surface, outlook.surface)
    air = outlook.weather.air + fading * _off(readings.air, outlook.weather.air)
    dew = outlook.condensation
    if readings.air is not None and readings.humidity is not None:
        now = condensation(readings.air.value, readings.humidity.value)
        dew = dew + fading * (now - dew[0])
    suits = usable_hours(
        outlook, product, surface=surface, air=air, condensation=dew, board=board
    )  # fmt: skip
    suits[0] = False
    found = np.flatnonzero(suits)
    return int(found[0]) if len(found) else None


def _off(reading: Reading | None, forecast: Floats) -> float:
    return 0.0 if reading is None else reading.value - float(forecast[0])


def _chance(readings: TapeReadings, product: TapeProduct, checks: list[Check]) -> float | None:
    """Return the probability that all measured limits are kept, errors being independent."""
    if any(check.state == "unknown" for check in checks):
        return None
    if any(check.state == "fail" and check.low is None for check in checks):
        return 0.0
    board = readings.board
    share = 1.0 if board is None else _below(board, product.board_hold)
    joint = _chance_of_skin(readings, product)
    return None if joint is None else share * joint


def _chance_of_skin(readings: TapeReadings, product: TapeProduct) -> float | None:
    surface, air, humidity = readings.surface, readings.air, readings.humidity
    if surface is None or air is None or humidity is None:
        return None
    s, t, h = (_spread(reading) for reading in (surface, air, humidity))
    pressure = vapor_pressure(t[:, None], np.clip(h, 0.0, 1.0)[None, :], over_water=True)
    needed = condensation_point(pressure) + product.dew_margin
    holds = s[:, None, None] >= needed[None, :, :]
    for axis, least, most in (
        (s[:, None, None], product.surface_min, product.surface_max),
        (t[None, :, None], product.air_min, product.air_max),
    ):
        holds = holds & (axis >= (-math.inf if least is None else least))
        holds = holds & (axis <= (math.inf if most is None else most))
    return float(np.mean(holds))


def _spread(reading: Reading, points: int = 41) -> Floats:
    """Return equally likely values of what was read."""
    normal = NormalDist()
    middle = [normal.inv_cdf((k + 0.5) / points) for k in range(points)]
    return reading.value + reading.within / _SIGMAS * np.asarray(middle, dtype=np.float64)


def _below(reading: Reading, limit: float) -> float:
    if reading.within == 0.0:
        return 1.0 if reading.value <= limit else 0.0
    return NormalDist(reading.value, reading.within / _SIGMAS).cdf(limit)
