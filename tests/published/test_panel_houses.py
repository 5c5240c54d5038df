"""Whether forecasts are of the right size: fan tests of panel houses that people have reported.

Two plots of one builder in the United Kingdom came to 0.47 and 0.61 1/h with a membrane inside and
before windows, a house in the north of England to 0.69 m³/(h·m²). The pages do not give the houses,
so only this can be asked: does careful work on houses of like size hold these figures in its span?
"""

from __future__ import annotations

import pytest

from seamwright.io.plan import builtin_house, read_plan
from seamwright.report.outlook import look_ahead
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house


@pytest.mark.source("panel-house-reports", "results at 50 Pa")
@pytest.mark.parametrize("name", ["heron_house", "cypress_house"])
def test_careful_work_spans_the_reported_results(name: str) -> None:
    """Nine in ten careful houses of this size lie around what was measured elsewhere."""
    house = seal_house(read_plan(builtin_house(name)).plan, default_catalog())
    result = look_ahead(house, workmanship="careful", draws=4_000).forecast
    assert result.ach50.p05 < 0.47
    assert result.ach50.p95 > 0.61
    assert result.q50.p05 < 0.69 < result.q50.p95
