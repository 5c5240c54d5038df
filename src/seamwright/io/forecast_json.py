"""The forecast as JSON, and the history of tests that it learns from as a file."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from seamwright.errors import FormatError, Problem
from seamwright.io.json_text import Json, write_json
from seamwright.leakage.forecast_types import (
    Anchor,
    Driver,
    Forecast,
    KindShare,
    PlaceShare,
    Spread,
)
from seamwright.leakage.learn import HouseTest
from seamwright.leakage.prior_rows import LeakRow
from seamwright.report.outlook import Day, Outlook, Tightness

_HOUR = 3600.0
_CFM = 60.0 / 0.3048**3
_PERCENTILES = ("mean", "p05", "p10", "p50", "p90", "p95")


def forecast_document(outlook: Outlook) -> Json:
    """Return the forecast as a document: SI with the unit in the key, flows also in cfm."""
    result, enclosure = outlook.forecast, outlook.enclosure
    return {
        **_result(result),
        "volume_m3": enclosure.volume,
        "area_m2": enclosure.area,
        "floor_area_m2": enclosure.floor_area,
        "measured_by": enclosure.rule,
        "warnings": list(enclosure.warnings),
        "learned_from": list(outlook.tests),
        "alternatives": [_result(other) for other in outlook.alternatives],
        "kinds": [_kind(kind) for kind in result.by_kind],
        "places": [_place(place) for place in result.by_place],
        "drivers": [_driver(driver) for driver in result.drivers],
        "budget": _budget(result),
        **tightness_document(outlook),
        "sources": [_row(row) for row in outlook.rows],
    }


def tightness_document(outlook: Outlook | Tightness) -> Json:
    """Return what the tightness means as data: days, the year, the fresh air needed."""
    return {
        "days": [_day(number, day) for number, day in enumerate(outlook.days, start=1)],
        "year": _year(outlook),
        "fresh_air": [
            {"id": f"bedrooms-{n}", "bedrooms": n, "flow_m3_h": rate * _HOUR}
            for n, rate in outlook.fresh_air
        ],
    }


def write_history(path: Path | str, history: Sequence[HouseTest]) -> None:
    """Write the history of tests, each with what it is compared with.

    The file is made beside the old one and then takes its place, so that a stop leaves one of them
    whole.
    """
    tests = [
        {
            "id": test.id,
            "flow_50_m3_h": test.flow_50 * _HOUR,
            "log_error": test.log_error,
            "note": test.note,
            "anchor": {
                "log_flow_50": test.anchor.log_flow,
                "scatter": test.anchor.scatter,
                "weights": dict(test.anchor.weights),
            },
        }
        for test in history
    ]
    file = Path(path)
    spare = file.with_name(f".{file.name}.part")
    write_json({"tests": tests}, spare)
    spare.replace(file)


def read_history(path: Path | str) -> tuple[HouseTest, ...]:
    """Return the history of tests in a file; a file that is not there yet holds none.

    Raises FormatError where the file is no history, naming the test and what is wrong with it.
    """
    file = Path(path)
    if not file.exists():
        return ()
    try:
        document = json.loads(file.read_text(encoding="utf-8"))
    except (json.JSONDecodeError, UnicodeDecodeError) as error:
        line = error.lineno if isinstance(error, json.JSONDecodeError) else None
        raise FormatError([_problem(file, "this is not JSON", line)]) from error
    tests = document.get("tests") if isinstance(document, dict) else None
    if not isinstance(tests, list):
        raise FormatError([_problem(file, "there is no list of tests in it")])
    return tuple(_test(file, number, test) for number, test in enumerate(tests, start=1))


def _test(file: Path, number: int, test: Any) -> HouseTest:  # noqa: ANN401 anything JSON holds
    try:
        anchor = test["anchor"]
        read = HouseTest(
            id=str(test["id"]),
            flow_50=float(test["flow_50_m3_h"]) / _HOUR,
            log_error=float(test["log_error"]),
            note=str(test.get("note", "")),
            anchor=Anchor(
                log_flow=float(anchor["log_flow_50"]),
                scatter=float(anchor["scatter"]),
                weights=tuple(sorted((str(k), float(v)) for k, v in anchor["weights"].items())),
            ),
        )
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise FormatError([_problem(file, f"test {number} lacks or garbles {error}")]) from error
    numbers = (read.flow_50, read.log_error, read.anchor.log_flow, read.anchor.scatter)
    weights = (weight for _, weight in read.anchor.weights)
    if not all(math.isfinite(n) for n in (*numbers, *weights)) or read.flow_50 <= 0.0:
        raise FormatError([_problem(file, f"test {read.id} holds a number that cannot be")])
    return read


def _problem(file: Path, what: str, line: int | None = None) -> Problem:
    return Problem(
        subject=file.name,
        sentence=f"{file.name} is no history of tests: {what}",
        remedy="name the file that an earlier forecast wrote, or a new name to begin one",
        file=str(file),
        line=line,
    )


def _result(result: Forecast) -> Json:
    target = result.target
    limits: Mapping[str, str] = {"ach50": "limit_1_h", "q50": "limit_m3_h_m2"}
    return {
        "id": f"forecast-{'by-crew' if result.crews else result.workmanship}",
        "workmanship": result.workmanship,
        "crews": [{"id": crew, "workmanship": how} for crew, how in result.crews],
        "draws": result.draws,
        "seed": result.seed,
        "flow_50_m3_h": _spread(result.flow_50, _HOUR),
        "flow_50_cfm": _spread(result.flow_50, _CFM),
        "ach50_1_h": None if result.ach50 is None else _spread(result.ach50, 1.0),
        "q50_m3_h_m2": None if result.q50 is None else _spread(result.q50, 1.0),
        "ela_4_m2": _spread(result.ela_4, 1.0),
        "target": None
        if target is None
        else {
            "measure": target.measure,
            limits.get(target.measure, "limit_m3_h"): target.limit
            * (_HOUR if target.measure == "flow_50" else 1.0),
            "source": target.source,
        },
        "target_flow_50_m3_h": None if result.target_flow is None else result.target_flow * _HOUR,
        "chance": result.chance,
    }


def _spread(spread: Spread, factor: float) -> Json:
    return {name: getattr(spread, name) * factor for name in _PERCENTILES}


def _flows(mean: float, low: float, high: float) -> Json:
    return {
        "flow_50_m3_h": mean * _HOUR,
        "low_flow_50_m3_h": low * _HOUR,
        "high_flow_50_m3_h": high * _HOUR,
    }


def _budget(result: Forecast) -> Json | None:
    budget = result.budget
    if budget is None:
        return None
    return {
        "joint_length_m": budget.joint_length,
        "others_m3_h": budget.others * _HOUR,
        "allowed_m3_h_m": budget.allowed * _HOUR,
        "expected_m3_h_m": budget.expected * _HOUR,
    }


def _kind(kind: KindShare) -> Json:
    return {
        "id": kind.kind,
        "sort": kind.sort,
        "count": kind.count,
        "length_m": kind.length,
        **_flows(kind.flow, kind.low, kind.high),
        "share": kind.share,
    }


def _place(place: PlaceShare) -> Json:
    return {
        "id": place.id,
        "sort": place.sort,
        "kind": place.kind,
        "length_m": place.length,
        **_flows(place.flow, place.low, place.high),
        "share": place.share,
    }


def _driver(driver: Driver) -> Json:
    return {
        "id": driver.name,
        "low_flow_50_m3_h": driver.low * _HOUR,
        "high_flow_50_m3_h": driver.high * _HOUR,
        "share": driver.share,
    }


def _day(number: int, day: Day) -> Json:
    return {
        "id": f"day-{number}",
        "difference_k": day.difference,
        "wind_m_s": day.wind,
        "basic_flow_m3_h": day.basic * _HOUR,
        "enhanced_flow_m3_h": day.enhanced * _HOUR,
        "heat_w": day.heat,
    }


def _year(outlook: Outlook | Tightness) -> Json | None:
    """Return the infiltration over hours of weather by both models, None without weather."""
    year = outlook.year
    if year is None:
        return None
    models = (("basic", year.basic), ("enhanced", year.enhanced))
    return {
        "id": "year",
        "weather": year.source,
        "indoor_c": year.indoor,
        **{
            name: {
                "hours_h": season.hours,
                "mean_flow_m3_h": season.mean * _HOUR,
                "greatest_flow_m3_h": season.greatest * _HOUR,
                "heat_j": season.heat,
                "gain_j": season.gain,
            }
            for name, season in models
        },
    }


def _row(row: LeakRow) -> Json:
    return {
        "id": row.name,
        "per": row.per,
        "careful_cm2": row.careful * 1e4,
        "ordinary_cm2": row.ordinary * 1e4,
        "careless_cm2": row.careless * 1e4,
        "source": row.source,
    }
