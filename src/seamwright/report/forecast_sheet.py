"""The forecast as a sheet of the packet: the result to expect, what decides it, what it means."""

from __future__ import annotations

from seamwright.leakage.forecast_types import Forecast, Spread
from seamwright.leakage.infiltration import SOURCE as INFILTRATION_SOURCE
from seamwright.leakage.prior_rows import CITATIONS, LeakRow
from seamwright.leakage.ventilation import CAUTION, RATE_SOURCE
from seamwright.report.forecast_words import (
    WORK_MEANS,
    driver_word,
    lead_sentence,
    place_word,
    target_words,
    work_words,
)
from seamwright.report.outlook import Outlook, Tightness
from seamwright.report.types import (
    Block,
    Caution,
    Cell,
    Dimension,
    Figure,
    Heading,
    Paragraph,
    Quantity,
    Table,
)
from seamwright.seals.types import Sentence

MOST_PLACES = 15
"""Places listed one by one."""

_KILOWATT_HOUR = 3.6e6
"""[J]"""

FIGURES = ("forecast", "forecast-parts")
"""Names of the two charts that the sheet shows."""


def forecast_sheet(outlook: Outlook, *, figures: bool = True) -> tuple[Block, ...]:
    """Return the blocks of the forecast, from the answer to its sources.

    `figures` leaves the two charts out where nobody draws them.
    """
    result = outlook.forecast
    drawn: tuple[Block, ...] = (
        Figure(name=FIGURES[0], caption="Forecast of the fan test against the target"),
        Figure(name=FIGURES[1], caption="What the forecast is made of, and what it hangs on"),
    )
    budget = () if result.budget is None else (budget_table(result),)
    return (
        Heading(text="Forecast: the fan test before it is made", level=1),
        *(_words(text) for text in answer(outlook)),
        *(drawn[:1] if figures else ()),
        result_table(result),
        work_table(outlook),
        *budget,
        *(drawn[1:] if figures else ()),
        kind_table(result),
        place_table(result),
        *(() if figures else (driver_table(result),)),
        Heading(text="What the tightness means"),
        day_table(outlook),
        *year_tables(outlook),
        fresh_air_table(outlook),
        Caution(text=f"Fresh air. {CAUTION}"),
        Heading(text="Where the forecast's figures come from"),
        _words(_MARKS),
        row_table(outlook.rows),
    )


def answer(outlook: Outlook) -> tuple[str, ...]:
    """Return the forecast in sentences: the result, the target, what it was divided by."""
    enclosure = outlook.enclosure
    learned = (
        f"It has learned from {len(outlook.tests)} tests of finished houses."
        if outlook.tests
        else "No test of a finished house of yours is in it yet; the first few will narrow it most."
    )
    doubts = tuple(f"LOOK: {words}." for words in enclosure.warnings)
    return (lead_sentence(outlook.forecast), f"{enclosure.rule} {learned}", *doubts)


def result_table(result: Forecast) -> Table:
    """Return flow, air changes, leakage per area and leakage area, each with its spread."""
    measures: tuple[tuple[str, Spread | None, Dimension, float], ...] = (
        ("Flow at 50 Pa (Q50)", result.flow_50, "flow", 1.0),
        ("Air changes at 50 Pa (ACH50)", result.ach50, "air_change", 1.0),
        ("Leakage per shell area at 50 Pa (q50)", result.q50, "permeability", 1 / 3600.0),
        ("Effective leakage area at 4 Pa (ELA)", result.ela_4, "leak_area", 1.0),
    )
    rows: list[tuple[Cell, ...]] = []
    for name, spread, dimension, factor in measures:
        if spread is not None:
            parts = (spread.p50, spread.mean, spread.p05, spread.p10, spread.p90, spread.p95)
            cells = (Quantity(value=v * factor, dimension=dimension) for v in parts)
            rows.append((name, *cells))
    return Table(
        columns=("Result", "Half are below", "Mean", "5 % are below", "10 %", "90 %", "95 %"),
        rows=tuple(rows),
        widths=(4, 2, 2, 2, 2, 2, 2),
        right=(1, 2, 3, 4, 5, 6),
        caption=f"Forecast with {work_words(result)}",
    )


def work_table(outlook: Outlook) -> Table:
    """Return what careful, ordinary and careless work of all would give, after that of crews that
    work each in its own way.
    """
    goal = target_words(outlook.forecast.target)
    mixed = (outlook.forecast,) if outlook.forecast.crews else ()
    rows: list[tuple[Cell, ...]] = []
    for result in (*mixed, *outlook.alternatives):
        spread, size = (
            (result.flow_50, "flow") if result.ach50 is None else (result.ach50, "air_change")
        )
        dimension: Dimension = "flow" if size == "flow" else "air_change"
        values = (spread.p50, spread.p05, spread.p95)
        rows.append(
            (
                "by crew" if result.crews else result.workmanship,
                work_words(result) if result.crews else WORK_MEANS[result.workmanship],
                *(Quantity(value=value, dimension=dimension) for value in values),
                _chance(result),
            )
        )
    return Table(
        columns=("Work", "What it means", "Half are below", "5 %", "95 %", "Chance to pass"),
        rows=tuple(rows),
        widths=(1.4, 6.4, 1.8, 1.4, 1.4, 1.8),
        right=(2, 3, 4, 5),
        caption=f"How the work decides it: ACH50 and the chance to meet {goal}",
    )


def budget_table(result: Forecast) -> Table:
    """Return what the target leaves for each metre of joint, beside what is expected."""
    budget, limit = result.budget, result.target_flow
    if budget is None or limit is None:
        return Table(columns=("Budget",), rows=(), widths=(1,))
    spare = budget.allowed - budget.expected
    return Table(
        columns=("Budget", "Value"),
        rows=(
            ("Flow that the target allows", _flow(limit)),
            ("Nodes, services, windows and doors are expected to take", _flow(budget.others)),
            ("Length of all joints", Quantity(value=budget.joint_length, dimension="length")),
            ("Left for each length of joint", _rate(budget.allowed)),
            ("Expected for each length of joint", _rate(budget.expected)),
            ("To spare" if spare >= 0 else "Missing", _rate(abs(spare))),
        ),
        widths=(6, 3),
        right=(1,),
        caption="Leakage budget along the joints, at 50 Pa",
    )


def kind_table(result: Forecast) -> Table:
    """Return each kind of place with its part of the leakage."""
    return Table(
        columns=("Where", "Places", "Length", "Mean flow", "5 %", "95 %", "Share"),
        rows=tuple(
            (
                place_word(kind.kind, kind.sort),
                Quantity(value=float(kind.count), dimension="count"),
                Quantity(value=kind.length, dimension="length") if kind.length > 0 else None,
                _flow(kind.flow),
                _flow(kind.low),
                _flow(kind.high),
                _share(kind.share),
            )
            for kind in result.by_kind
        ),
        widths=(4, 1.2, 2, 2, 2, 2, 1.4),
        right=(1, 2, 3, 4, 5, 6),
        caption="Where the leakage is expected, by kind, at 50 Pa",
        total=("All", *(None,) * 2, _flow(result.flow_50.mean), _flow(result.flow_50.p05),
               _flow(result.flow_50.p95), None),
    )  # fmt: skip


def place_table(result: Forecast) -> Table:
    """Return the places that are expected to leak most."""
    return Table(
        columns=("Place", "Kind", "Length", "Mean flow", "5 %", "95 %", "Share"),
        rows=tuple(
            (
                place.id,
                place_word(place.kind, place.sort),
                Quantity(value=place.length, dimension="length") if place.length > 0 else None,
                _flow(place.flow),
                _flow(place.low),
                _flow(place.high),
                _share(place.share),
            )
            for place in result.by_place[:MOST_PLACES]
        ),
        widths=(2.6, 4, 2, 2, 2, 2, 1.4),
        right=(2, 3, 4, 5, 6),
        caption=f"The {min(MOST_PLACES, len(result.by_place))} places expected to leak most",
    )


def driver_table(result: Forecast) -> Table:
    """Return what the uncertainty hangs on, as in the chart."""
    return Table(
        columns=("What is not known", "Middle flow if low", "If high", "Share of the spread"),
        rows=tuple(
            (driver_word(d.name), _flow(d.low), _flow(d.high), _share(d.share))
            for d in result.drivers[:10]
        ),
        widths=(4, 2, 2, 2),
        right=(1, 2, 3),
        caption="What the uncertainty hangs on: each at its 10 % and 90 % value, the rest as drawn",
    )


def day_table(outlook: Outlook | Tightness) -> Table:
    """Return what the leaks of the house bring in by themselves, and the heat it takes."""
    setting = outlook.setting
    standing = (
        f"{setting.storeys} storeys counted, shelter class {setting.shelter}, "
        f"{'with' if setting.flue else 'no'} flue, {setting.foundation.replace('_', ' ')}"
    )
    return Table(
        columns=("Warmer inside by", "Wind", "Basic model", "Enhanced model", "Heat carried away"),
        rows=tuple(
            (
                f"{day.difference:.0f} K ({day.difference * 1.8:.0f} °F)",
                f"{day.wind:.0f} m/s ({day.wind / 0.44704:.0f} mph)",
                _flow(day.basic),
                _flow(day.enhanced),
                Quantity(value=day.heat, dimension="power"),
            )
            for day in outlook.days
        ),
        widths=(2, 2, 2, 2, 2),
        right=(2, 3, 4),
        caption=f"Air that comes in by itself ({standing}). {INFILTRATION_SOURCE}",
    )


def year_tables(outlook: Outlook | Tightness) -> tuple[Table, ...]:
    """Return the infiltration over a year by both models, where hours of weather were given."""
    year = outlook.year
    if year is None:
        return ()
    rows: list[tuple[Cell, ...]] = []
    for name, season in (("Basic model", year.basic), ("Enhanced model", year.enhanced)):
        heat = season.heat / _KILOWATT_HOUR
        changes = season.mean * 3600.0 / year.volume
        rows.append(
            (
                name,
                _flow(season.mean),
                Quantity(value=changes, dimension="air_change"),
                _flow(season.greatest),
                f"{heat:,.0f} kWh",
                f"{heat * year.low:,.0f} to {heat * year.high:,.0f} kWh",
            )
        )
    table = Table(
        columns=("", "Mean", "Mean air changes", "Greatest", "Heat carried away", year.span),
        rows=tuple(rows),
        widths=(2, 1.6, 1.6, 1.6, 2, 3),
        right=(1, 2, 3, 4, 5),
        caption=f"Air that comes in by itself over {year.basic.hours:,} hours, {year.whose}, "
        f"room at {year.indoor:.0f} °C. Weather: {year.source}",
    )
    return (table,)


def fresh_air_table(outlook: Outlook | Tightness) -> Table:
    """Return the outdoor air that the house must have, by number of bedrooms."""
    return Table(
        columns=("Bedrooms", "Outdoor air needed, all the time"),
        rows=tuple(
            (Quantity(value=float(n), dimension="count"), _flow(rate))
            for n, rate in outlook.fresh_air
        ),
        widths=(1, 2),
        right=(0, 1),
        caption=f"Fresh air by machine, no credit taken for leaks. {RATE_SOURCE}",
    )


def row_table(rows: tuple[LeakRow, ...]) -> Table:
    """Return the rows of the leak table that the forecast leans on, each with its source."""
    return Table(
        columns=("What", "Careful", "Ordinary", "Careless", "Source"),
        rows=tuple(
            (
                row.name,
                *(
                    Quantity(value=area, dimension="leak_line" if row.per == "m" else "leak_area")
                    for area in (row.careful, row.ordinary, row.careless)
                ),
                row.source,
            )
            for row in rows
        ),
        widths=(3, 1.4, 1.4, 1.4, 9.5),
        right=(1, 2, 3),
        caption="Effective leakage areas at 4 Pa; seals stand one behind another",
    )


_MARKS = (
    "Nobody has published leakage metre by metre for panel joints. Rows are taken from tables for "
    "framed houses where one fits, and are estimates where none does; each says which. The "
    "forecast is as good as these rows until tests of your own houses have corrected them. "
    f"{CITATIONS}"
)


def _words(text: str) -> Paragraph:
    return Paragraph(text=Sentence(text=text))


def _flow(value: float) -> Quantity:
    return Quantity(value=value, dimension="flow")


def _rate(value: float) -> Quantity:
    return Quantity(value=value, dimension="leak_rate")


def _share(value: float | None) -> Quantity | None:
    return None if value is None else Quantity(value=value, dimension="share")


def _chance(result: Forecast) -> Quantity | None:
    """Return the chance to pass, never certain: so many draws cannot tell less than one in them."""
    if result.chance is None:
        return None
    least = 1.0 / result.draws
    return _share(min(1.0 - least, max(least, result.chance)))
