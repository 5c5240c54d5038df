"""Each check of “can we tape now?”, with its margin over the uncertainty of the readings."""

from __future__ import annotations

from collections.abc import Iterator

from seamwright.climate.moist_air import condensation_point, vapor_pressure
from seamwright.schedule.tape_types import (
    Check,
    CheckState,
    Measure,
    Reading,
    TapeProduct,
    TapeReadings,
    Told,
)

SEEN = "seen on site"
_MEASURED = "readings on site"
_ROUNDING = 1e-9
"""A reading on the limit keeps it, in whatever unit it was written."""


def condensation(air: float, humidity: float) -> float:
    """Return the temperature of a surface that first grows wet or white. [°C]

    `humidity` as an instrument reads it, over water at every temperature, held to 0 to 1.
    """
    held = min(max(humidity, 0.0), 1.0)
    return float(condensation_point(vapor_pressure(air, held, over_water=True)))


def site_checks(readings: TapeReadings, product: TapeProduct) -> Iterator[Check]:
    """Yield every check that needs no forecast."""
    yield from _seen(readings, product)
    yield from _temperatures(readings, product)
    yield from _condensing(readings, product)
    yield from _board(readings, product)
    yield from _sun(readings, product)
    if readings.humidity is not None:
        yield _humidity(readings.humidity, product)


def bounded(
    low: float, high: float, *, otherwise: CheckState = "open", wholly: CheckState = "fail"
) -> CheckState:
    """Return the state of a margin that lies between `low` and `high`."""
    if low >= -_ROUNDING:
        return "pass"
    return wholly if high < -_ROUNDING else otherwise


def _seen(readings: TapeReadings, product: TapeProduct) -> Iterator[Check]:
    yield _flag(
        "frost",
        readings.frost,
        "frost, ice or snow on the skin",
        "no frost seen",
        "let it thaw, dry the skin, then measure again; never tape over ice",
        hard=True,
        weather=True,
    )
    yield _flag(
        "wet",
        readings.wet and not product.wet_ok,
        "the skin is wet, and wiping alone seldom dries a porous board",
        "no water seen",
        "cover it from rain, move air over it and warm it; then the paper towel must stay dry",
        hard=True,
        weather=True,
    )
    yield _flag(
        "dust",
        readings.dust,
        "dust or sawdust lies on the skin",
        "no dust seen",
        "brush, vacuum and wipe both lands; prime where the data sheet says",
    )
    needed = _primer_needed(readings, product)
    yield _flag(
        "primer",
        needed and not readings.primed,
        "this skin needs primer first",
        "primed" if readings.primed else "no primer needed",
        "prime both lands and wait until it is tacky and leaves nothing on a glove",
        source=product.source_of("primer"),
    )


def _flag(
    name: str,
    wrong: bool,  # noqa: FBT001 the one thing the flag says
    bad: str,
    good: str,
    way_out: str,
    *,
    hard: bool = False,
    weather: bool = False,
    source: str = SEEN,
) -> Check:
    return Check(
        id=name,
        state="fail" if wrong else "pass",
        hard=hard,
        weather=weather,
        found=Told(text=bad if wrong else good),
        way_out=Told(text=way_out if wrong else ""),
        source=source,
    )


def _primer_needed(readings: TapeReadings, product: TapeProduct) -> bool:
    rule, limit, surface = product.primer, product.primer_below, readings.surface
    is_cold = limit is not None and surface is not None and surface.low < limit
    return (
        rule == "always"
        or (rule in {"rough", "rough_or_cold"} and readings.rough)
        or (rule in {"cold", "rough_or_cold"} and is_cold)
    )


def _temperatures(readings: TapeReadings, product: TapeProduct) -> Iterator[Check]:
    yield from _range("surface", "the skin", readings.surface, product)
    yield from _range("air", "the air", readings.air, product)


def _range(name: str, what: str, reading: Reading | None, product: TapeProduct) -> Iterator[Check]:
    least, most = (
        (product.surface_min, product.surface_max)
        if name == "surface"
        else (product.air_min, product.air_max)
    )
    if least is None and most is None:
        return
    if reading is None:
        yield _unknown(f"{name}_temperature", f"the temperature of {what} was not read")
        return
    if least is not None:
        yield _limit(
            f"{name}_cold",
            margin=(reading.low - least, reading.high - least),
            found=f"{what} is at {{value}} ± {{within}}, the product asks for {{limit}} or more",
            temperatures={"value": reading.value, "limit": least},
            within=reading.within,
            way_out="wait for warmth, or warm the skin without an open flame; then measure again",
            source=product.source_of(f"{name}_min"),
        )
    if most is not None:
        yield _limit(
            f"{name}_hot",
            margin=(most - reading.high, most - reading.low),
            found=f"{what} is at {{value}} ± {{within}}, the product allows {{limit}} at most",
            temperatures={"value": reading.value, "limit": most},
            within=reading.within,
            way_out="shade it or work in the cool of the day",
            source=product.source_of(f"{name}_max"),
        )


def _limit(
    name: str,
    *,
    margin: tuple[float, float],
    found: str,
    temperatures: dict[str, float],
    within: float,
    way_out: str,
    source: str,
) -> Check:
    figures: dict[str, tuple[float, Measure]] = {
        key: (value, "temperature") for key, value in temperatures.items()
    }
    state = bounded(*margin)
    return Check(
        id=name,
        state=state,
        hard=True,
        weather=True,
        found=Told(text=found, figures={**figures, "within": (within, "difference")}),
        way_out=Told(text="" if state == "pass" else way_out),
        source=source,
        low=margin[0],
        high=margin[1],
        measure="difference",
    )


def _condensing(readings: TapeReadings, product: TapeProduct) -> Iterator[Check]:
    surface, air, humidity = readings.surface, readings.air, readings.humidity
    if surface is None or air is None or humidity is None:
        missing = [
            word
            for word, reading in (("skin", surface), ("air", air), ("humidity", humidity))
            if reading is None
        ]
        told = f"the dew point cannot be judged without a reading of {' and '.join(missing)}"
        yield _unknown("dew_margin", told)
        return
    dew = condensation(air.value, humidity.value)
    low = surface.low - condensation(air.high, humidity.high)
    high = surface.high - condensation(air.low, humidity.low)
    figures: dict[str, tuple[float, Measure]] = {
        "dew": (dew, "temperature"),
        "above": (surface.value - dew, "difference"),
        "below": (dew - surface.value, "difference"),
        "limit": (product.dew_margin, "difference"),
        "least": (low, "difference"),
        "most": (high, "difference"),
    }
    wets = "frosts over" if dew < 0.0 else "grows wet"
    if high < 0.0:
        told = f"a skin {wets} at {{dew}}, and this one is {{below}} colder: water is settling"
        yield _dew("condensing", (low, high), told, figures, product, hard=not product.wet_ok)
        return
    place = "{above} above it" if surface.value >= dew else "{below} below it"
    told = (
        f"a skin {wets} at {{dew}}; this one is {place} ({{least}} to {{most}} with the "
        "instruments' errors), and {limit} is asked for"
    )
    margin = (low - product.dew_margin, high - product.dew_margin)
    yield _dew("dew_margin", margin, told, figures, product, hard=False)


def _dew(
    name: str,
    margin: tuple[float, float],
    found: str,
    figures: dict[str, tuple[float, Measure]],
    product: TapeProduct,
    *,
    hard: bool,
) -> Check:
    state = bounded(*margin)
    way_out = "wait until the skin warms or the air dries; inside, heat and dry the air"
    return Check(
        id=name,
        state=state,
        hard=hard,
        weather=True,
        found=Told(text=found, figures=figures),
        way_out=Told(text="" if state == "pass" else way_out),
        source=product.source_of("dew_margin"),
        low=margin[0],
        high=margin[1],
        measure="difference",
    )


def _board(readings: TapeReadings, product: TapeProduct) -> Iterator[Check]:
    board = readings.board
    if board is None:
        yield _unknown("board_moisture", "the moisture of the board was not read")
        return
    low, high = product.board_hold - board.high, product.board_hold - board.low
    is_soaked = board.low > product.board_stop + _ROUNDING
    limit = product.board_stop if is_soaked else product.board_hold
    state = bounded(low, high)
    yield Check(
        id="board_moisture",
        state=state,
        hard=is_soaked,
        weather=False,
        found=Told(
            text="the board holds {value} ± {within}, and {limit} is the most"
            + (" that may ever be closed in" if is_soaked else ""),
            figures={
                "value": (board.value, "share"),
                "within": (board.within, "share"),
                "limit": (limit, "share"),
            },
        ),
        way_out=Told(
            text=""
            if state == "pass"
            else "dry it and read again at edge and field, several places, away from glue; a strip "
            "over a wet board keeps the water in"
        ),
        source=product.source_of("board_stop" if is_soaked else "board_hold"),
        low=limit - board.high,
        high=limit - board.low,
        measure="share",
    )


def _sun(readings: TapeReadings, product: TapeProduct) -> Iterator[Check]:
    days, caution, stop = readings.sun_days, product.sun_caution, product.sun_stop
    if days is None or (caution is None and stop is None):
        return
    limit = stop if stop is not None else caution
    if limit is None:
        return
    state: CheckState = "pass"
    if stop is not None and days > stop:
        state = "fail"
    elif caution is not None and days > caution:
        state = "caution"
    yield Check(
        id="sun",
        state=state,
        hard=True,
        weather=False,
        found=Told(
            text="it has been in the sun for {value}; {limit} is the most",
            figures={"value": (days, "days"), "limit": (limit, "days")},
        ),
        way_out=Told(
            text={
                "fail": "replace what the sun has worn, or ask its maker; cover it sooner",
                "caution": "cover it soon",
            }.get(state, "")
        ),
        source=product.source_of("sun_stop"),
        low=limit - days,
        high=limit - days,
        measure="days",
    )


def _humidity(humidity: Reading, product: TapeProduct) -> Check:
    damp = humidity.high > product.humidity_caution
    return Check(
        id="humidity",
        state="caution" if damp else "pass",
        hard=False,
        weather=True,
        found=Told(
            text="the air is at {value} ± {within}; above {limit} look for dew as you work",
            figures={
                "value": (humidity.value, "share"),
                "within": (humidity.within, "share"),
                "limit": (product.humidity_caution, "share"),
            },
        ),
        way_out=Told(text="measure the skin again every half hour" if damp else ""),
        source=product.source_of("humidity_caution"),
        low=product.humidity_caution - humidity.high,
        high=product.humidity_caution - humidity.low,
        measure="share",
    )


def _unknown(name: str, found: str) -> Check:
    return Check(
        id=name,
        state="unknown",
        hard=False,
        weather=False,
        found=Told(text=found),
        way_out=Told(text="read it at the seam, then ask again"),
        source=_MEASURED,
    )
