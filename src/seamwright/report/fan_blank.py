"""The test sheet for the site, still blank: the house's numbers, what to write down, cautions."""

from __future__ import annotations

from seamwright.errors import InputError
from seamwright.joints.enclosure import Enclosure
from seamwright.leakage.targets import target_for
from seamwright.leakage.types import Target
from seamwright.report.fan_cautions import FAN_CAUTIONS, FAN_DEFERRAL
from seamwright.report.fan_words import FLOW, in_units, target_text
from seamwright.report.house import SealedHouse
from seamwright.report.types import Block, Caution, Cell, Heading, Paragraph, Quantity, Table
from seamwright.seals.types import Sentence

AIMS = (10, 17, 24, 31, 38, 45, 52, 60)
"""Pressures to hold. [Pa] Eight in steps of 7 or 8 from 10 to 60, within what ISO 9972 and ASTM
E779 ask for (five at least, steps of about 10; from memory)."""

_LINE = "..............."
_HOW = (
    "Fan off and covered: write the baseline. Draw air out: hold each pressure until the gauge "
    "rests, then write pressure and flow together, indoor minus outdoor, as the gauge shows. Fan "
    "off and covered: the baseline again. Then the same blowing in. Type the rows into a .csv file "
    "with the columns direction, phase, pressure, flow, range, and run: seamwright fan FILE --plan "
    "PLAN."
)


def blank_fan_sheet(house: SealedHouse, enclosure: Enclosure) -> tuple[Block, ...]:
    """Return the sheet on which a fan test of this house is written down."""
    return (
        Heading(text="Fan test", level=1),
        *(Caution(text=text) for text in FAN_CAUTIONS),
        house_numbers(enclosure, plan_target(house)),
        Paragraph(text=Sentence(text=_HOW)),
        Paragraph(text=Sentence(text=FAN_DEFERRAL)),
        Heading(text="Fan test: readings", level=1),
        _conditions(),
        readings_form(),
    )


def plan_target(house: SealedHouse) -> Target | None:
    """Return the limit of the plan's edition in its climate zone, None where it names none."""
    site = house.plan.site
    if site.zone_edition is None:
        return None
    try:
        return target_for(site.climate_zone, site.zone_edition)
    except InputError:
        return None


def house_numbers(enclosure: Enclosure, target: Target | None) -> Table:
    """Return what the result is divided by and held against, with the flow that meets it."""
    size = {"ach50": enclosure.volume, "q50": enclosure.area, "flow_50": 3600.0}
    rows: list[tuple[Cell, ...]] = [
        ("Volume", Quantity(value=enclosure.volume, dimension="volume")),
        ("Area of the shell with its floor", Quantity(value=enclosure.area, dimension="area")),
        ("Floor area", Quantity(value=enclosure.floor_area, dimension="area")),
        ("Measured by this rule", enclosure.rule),
    ]
    if target is not None:
        allowed = target.limit * size[target.measure] / 3600.0
        rows.append(("Target", target_text(target)))
        rows.append(("Flow at 50 Pa that meets it", in_units(FLOW, allowed)))
    return Table(
        columns=("House", ""), rows=tuple(rows), widths=(1.6, 5), caption="Numbers of the house"
    )


def readings_form() -> Table:
    """Return the table to fill in: both baselines and eight pressures in both directions."""
    aims = ("baseline before", *(f"{aim} Pa" for aim in AIMS), "baseline after")
    rows = tuple(
        (aim, _LINE, _flow(aim), _flow(aim), _LINE, _flow(aim), _flow(aim)) for aim in aims
    )
    return Table(
        columns=(
            "Aim for",
            "Drawing out: pressure",
            "flow",
            "range",
            "Blowing in: pressure",
            "flow",
            "range",
        ),
        rows=rows,
        widths=(1.3, 1.6, 1.2, 1, 1.6, 1.2, 1),
        caption="Readings; write the unit of the flow",
        form=True,
    )


def _flow(aim: str) -> str:
    return "fan off" if aim.startswith("baseline") else _LINE


def _conditions() -> Table:
    rows = (
        ("Date, time", _LINE, "Tester", _LINE),
        ("Indoor temperature, humidity", _LINE, "Outdoor temperature, humidity", _LINE),
        ("Barometric pressure", _LINE, "Wind", _LINE),
        ("Fan and its calibration date", _LINE, "Gauge and its calibration date", _LINE),
        ("Appliances off and tagged by", _LINE, "Put back and checked by", _LINE),
        ("Openings closed, and how", _LINE, "Stage of the work", _LINE),
    )
    return Table(
        columns=("To write down", "", "", ""),
        rows=rows,
        widths=(1.7, 2, 1.8, 2),
        caption="The test",
        form=True,
    )
