"""Materials of a transient run."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from seamwright.moisture.transient.materials import HYGRO, air_layer, cup_curve
from seamwright.moisture.transient.tables import OPENNESS, PUSH, WATER, material_table
from seamwright.moisture.transient.types import HygroMaterial
from seamwright.sources import SOURCES

EACH = pytest.mark.parametrize("material", HYGRO.values(), ids=lambda m: m.id)


@EACH
def test_curves_rise_and_end_where_they_should(material: HygroMaterial) -> None:
    """Sorption rises from nothing to saturation; nothing resists vapor less than still air."""
    sorption, factor = material.sorption, material.vapor_factor
    assert (sorption.x[0], sorption.y[0], sorption.x[-1]) == (0.0, 0.0, 1.0)
    assert np.all(np.diff(sorption.x) > 0.0)
    assert np.all(np.diff(sorption.y) > 0.0)
    assert min(factor.y) >= 1.0
    assert np.all(np.diff(factor.y) <= 0.0)


@EACH
def test_liquid_moves_more_the_wetter_it_is(material: HygroMaterial) -> None:
    """Liquid conductivity is above zero, known up to saturation, and largest when wet."""
    if material.liquid is not None:
        assert min(material.liquid.y) > 0.0
        assert material.liquid.x[-1] == pytest.approx(material.sorption.y[-1])
        assert material.liquid.y[-1] > 100.0 * material.liquid.y[0]


@EACH
def test_every_material_cites_the_register(material: HygroMaterial) -> None:
    """Every material says where it comes from, and what in it was seen."""
    assert set(material.source) <= set(SOURCES)
    assert material.note != ""


@EACH
def test_pores_hold_no_more_than_there_is_room(material: HygroMaterial) -> None:
    """Saturation leaves room for the solid, whose density is at most 2,750 kg/m³."""
    solid = 1530.0 if material.id in {"osb", "osb_iso", "plywood", "softwood", "spruce"} else 2750.0
    assert material.sorption.y[-1] < 1000.0 * (1.0 - material.density / solid)


def test_oriented_strand_board_passes_its_tested_points() -> None:
    """5, 10 and 15 % at 30, 65 and 85 %, and a little less than wood beyond."""
    sorption = HYGRO["osb"].sorption
    found = np.interp([0.30, 0.65, 0.85, 0.95], sorption.x, sorption.y) / 650.0
    assert found[:3] == pytest.approx([0.05, 0.10, 0.15])
    assert found[3] == pytest.approx(0.199, abs=0.002)


def test_cups_are_kept_and_wet_wood_opens() -> None:
    """Both cups are met at their mean humidities; at saturation a board is more open still."""
    curve = cup_curve(50.0, 20.0)
    assert curve.y[1:3] == (50.0, 20.0)
    assert curve.y[3] == pytest.approx(20.0 * (20.0 / 50.0) ** 0.5)
    assert cup_curve(60.0, 60.0).y == pytest.approx((60.0,) * 4)


def test_a_wider_air_layer_conducts_more_but_insulates_more() -> None:
    """Equivalent conductivity rises with the gap, and so does the resistance."""
    narrow, wide = air_layer(0.003), air_layer(0.02)
    assert narrow.conductivity < wide.conductivity
    assert 0.003 / narrow.conductivity < 0.02 / wide.conductivity


@EACH
def test_tables_of_a_run_keep_what_the_curves_promise(material: HygroMaterial) -> None:
    """Laid out for a run, water rises, vapor flows easier when wetter, and all is finite."""
    table = material_table(material)
    assert np.all(np.isfinite(table))
    assert np.all(np.diff(table[:, WATER]) > 0.0)
    assert np.all(np.diff(table[:, OPENNESS]) >= -1e-15)
    assert np.all(np.diff(table[:, PUSH]) >= 0.0)


@EACH
def test_the_table_of_the_docs_is_that_of_the_code(material: HygroMaterial) -> None:
    """Density, conductivity, saturation and mark of each row of the page are those of a run."""
    page = (Path(__file__).parents[2] / "docs" / "materials.md").read_text("utf-8")
    row = next(line for line in page.splitlines() if line.startswith(f"| `{material.id}` |"))
    cells = [cell.strip() for cell in row.strip("|").split("|")]
    assert float(cells[2]) == material.density
    assert float(cells[3]) == pytest.approx(material.conductivity, abs=5e-4)
    assert float(cells[5].split()[0]) == pytest.approx(material.sorption.y[-1], abs=0.5)
    assert cells[7] == ("no" if material.liquid is None else "yes")
    assert cells[8] == material.flag
