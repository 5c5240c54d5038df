"""The sheet of the forecast."""

from __future__ import annotations

import pytest

from seamwright.io.plan import builtin_house, read_plan
from seamwright.leakage.targets import target_for
from seamwright.report.forecast_sheet import FIGURES, MOST_PLACES, forecast_sheet
from seamwright.report.outlook import look_ahead, with_year
from seamwright.report.types import Caution, Figure, Heading, Paragraph, Quantity, Table
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house

HOUSE = seal_house(read_plan(builtin_house("first_house")).plan, default_catalog())
OUTLOOK = look_ahead(HOUSE, target=target_for("5B", "IECC 2021"), draws=2_000)
BLOCKS = forecast_sheet(OUTLOOK)


def test_the_answer_comes_first_with_its_edition() -> None:
    """The first words after the title are the result, its span, the target and its edition."""
    assert isinstance(BLOCKS[0], Heading)
    assert BLOCKS[0].level == 1
    text = BLOCKS[1].text.text
    assert "9 times in 10" in text
    assert "3.00 ACH50 (IECC 2021" in text
    assert "%" in text


def test_the_rule_of_volume_and_area_is_shown() -> None:
    """The reader sees what the flow was divided by."""
    texts = [b.text.text for b in BLOCKS if isinstance(b, Paragraph)]
    assert any(OUTLOOK.enclosure.rule in text for text in texts)


def test_every_row_of_a_table_has_all_its_cells() -> None:
    """Rows, widths and totals fit the columns."""
    for table in (b for b in BLOCKS if isinstance(b, Table)):
        assert len(table.widths) == len(table.columns)
        assert table.rows
        rows = (*table.rows, *((table.total,) if table.total is not None else ()))
        assert {len(row) for row in rows} == {len(table.columns)}


def test_every_figure_used_has_its_source() -> None:
    """The last table holds each row of the leak table used, none without a source."""
    last = BLOCKS[-1]
    assert isinstance(last, Table)
    assert len(last.rows) == len(OUTLOOK.rows)
    assert all(row[-1] for row in last.rows)


def test_the_caution_about_fresh_air_stands_on_it() -> None:
    """A forecast of a tight house says that it needs ventilation."""
    assert any(isinstance(b, Caution) and "mechanical ventilation" in b.text for b in BLOCKS)


def test_charts_can_be_left_out() -> None:
    """Without charts no figure is named."""
    assert tuple(b.name for b in BLOCKS if isinstance(b, Figure)) == FIGURES
    bare = forecast_sheet(OUTLOOK, figures=False)
    assert not any(isinstance(b, Figure) for b in bare)


def test_a_chance_is_never_certain() -> None:
    """However often the target is met, the table shows less than all and more than none."""
    table = next(b for b in BLOCKS if isinstance(b, Table) and b.columns[0] == "Work")
    chances = [row[-1] for row in table.rows]
    assert [row[0] for row in table.rows] == ["careful", "ordinary", "careless"]
    assert all(isinstance(c, Quantity) and 0 < c.value < 1 for c in chances)
    assert chances[0].value > chances[2].value


def test_without_a_target_nothing_is_promised() -> None:
    """No target, no chance and no budget, and the sheet says so."""
    outlook = look_ahead(HOUSE, draws=500)
    blocks = forecast_sheet(outlook)
    assert "no target" in blocks[1].text.text
    captions = [b.caption for b in blocks if isinstance(b, Table)]
    assert not any("budget" in caption for caption in captions)


@pytest.mark.parametrize(("index", "most"), [(0, MOST_PLACES)])
def test_places_are_listed_by_what_they_leak(index: int, most: int) -> None:
    """The worst places come first, a page of them at most."""
    table = next(b for b in BLOCKS if isinstance(b, Table) and b.columns[index] == "Place")
    flows = [row[3].value for row in table.rows]
    assert flows == sorted(flows, reverse=True)
    assert len(flows) <= most


def test_a_year_of_weather_adds_its_table_with_its_source() -> None:
    """Hours of weather give heat with a span around it, and say where they come from."""
    outlook = with_year(OUTLOOK, outdoor=[0.0] * 100, wind=[3.0] * 100, source="made up")
    table = next(
        b for b in forecast_sheet(outlook) if isinstance(b, Table) and "made up" in b.caption
    )
    assert [row[0] for row in table.rows] == ["Basic model", "Enhanced model"]
    year = outlook.year
    assert year.low < 1 < year.high
    assert year.basic.heat > 0
    assert not any("made up" in b.caption for b in BLOCKS if isinstance(b, Table))


def test_outlook_knows_how_the_house_stands() -> None:
    """One storey on a slab, no flue; more difference and wind bring more air."""
    setting = OUTLOOK.setting
    assert (setting.storeys, setting.foundation, setting.flue) == (1, "basement_or_slab", False)
    flows = [day.enhanced for day in OUTLOOK.days]
    assert flows == sorted(flows)
    assert all(day.heat > 0 for day in OUTLOOK.days)
