"""The test sheet of a fan test: verdict, figures, chart, rules, readings, cautions."""

from __future__ import annotations

from seamwright.leakage.ventilation import CAUTION
from seamwright.report.fan_cautions import FAN_CAUTIONS, FAN_DEFERRAL
from seamwright.report.fan_tables import (
    FanSheet,
    broken_rules,
    house_table,
    laws_table,
    readings_table,
    result_table,
    rules_table,
)
from seamwright.report.fan_words import METHODS, verdict_line
from seamwright.report.forecast_sheet import day_table, fresh_air_table, year_tables
from seamwright.report.outlook import Tightness
from seamwright.report.types import (
    Block,
    Caution,
    Document,
    Figure,
    Heading,
    Paragraph,
    Table,
)
from seamwright.seals.types import Sentence


def fan_document(sheet: FanSheet) -> Document:
    """Return the test sheet as a document."""
    result = sheet.result
    chart: tuple[Block, ...] = ()
    if sheet.chart is not None:
        chart = (Heading(text="Readings and fit", level=1),
                 Figure(name="fan-chart", caption=sheet.chart))  # fmt: skip
    return Document(
        title="Fan test",
        subtitle=next((value for name, value in sheet.facts if name == "House"), "House"),
        facts=(*sheet.facts, ("Standard", METHODS[result.method])),
        blocks=(
            result_table(result),
            Heading(text="Verdict"),
            *_verdict(sheet),
            Heading(text="Before the fan runs"),
            *(Caution(text=text) for text in FAN_CAUTIONS),
            *chart,
            Heading(text="Rules, readings, house", level=1),
            rules_table(result),
            laws_table(result),
            readings_table(sheet),
            house_table(sheet),
            *(Paragraph(text=Sentence(text=note)) for note in sheet.notes),
            *_meaning(sheet),
            Heading(text="What outranks this sheet"),
            Paragraph(text=Sentence(text=FAN_DEFERRAL)),
            _signatures(),
        ),
    )


def _verdict(sheet: FanSheet) -> tuple[Block, ...]:
    blocks: list[Block] = [Paragraph(text=Sentence(text=verdict_line(sheet.result)))]
    for where, check in broken_rules(sheet.result):
        word = "Rule broken" if check.required else "Advice not met"
        text = f"{word}, {where}: {check.rule}: {check.measured}, limit {check.limit}."
        blocks.append(Paragraph(text=Sentence(text=text)))
    return tuple(blocks)


def meaning_tables(meaning: Tightness) -> tuple[Table, ...]:
    """Return what a tightness means: air by itself on some days and over the year, air needed."""
    return (day_table(meaning), *year_tables(meaning), fresh_air_table(meaning))


def _meaning(sheet: FanSheet) -> tuple[Block, ...]:
    if sheet.meaning is None:
        return ()
    return (
        Heading(text="What the tightness means", level=1),
        *meaning_tables(sheet.meaning),
        Caution(text=f"Fresh air. {CAUTION}"),
    )


def _signatures() -> Table:
    rows = tuple((name, "", "") for name in ("Tester", "Sealing lead", "Seen by"))
    return Table(columns=("", "Name and signature", "Date"), rows=rows, widths=(1, 4, 1.5))
