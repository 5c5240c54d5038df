"""From material to leak limit: a plain wall through which room air leaks, with two boards."""

from __future__ import annotations

import numpy as np
import pytest
from tests.moisture.walls import graded, plain_mesh

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.transient.run import run_cases
from seamwright.moisture.transient.types import AirWay, Case, Drive, Probe
from seamwright.moisture.verdict.judge import judge_run, worst
from seamwright.moisture.verdict.leak import largest_leak
from seamwright.moisture.verdict.types import LeakLimit

OCTOBER = 6552
LEVELS = (0.005, 0.008, 0.014, 0.03, 0.06, 0.1)


def drive(years: int) -> Drive:
    """Return 21 °C and 40 % rising to 60 % inside, 3 °C on average outdoors, from October on."""
    hours = np.arange(years * 8760) + OCTOBER
    out = 3.0 - 13.0 * np.cos((hours - 400) * 2 * np.pi / 8760) + 4.0 * np.sin(hours * np.pi / 12)
    room = np.full(len(hours), 21.0)
    inside = (0.40 + 0.2 * np.clip(out / 20.0, 0.0, 1.0)) * saturation_pressure(room)
    airs = np.column_stack([room, out])
    vapor = np.column_stack([inside, 0.8 * saturation_pressure(out)])
    return Drive(temperature=airs, face=airs, vapor=vapor, rain=np.zeros((len(hours), 2)))


def limit_of(board: str, years: int = 3) -> LeakLimit:
    """Return the largest leak through a square metre of two skins and 140 mm of foam. [m³/(h·m²)]

    Half of the air goes along each of the two columns of volumes; strips and paint inside, a
    breather membrane outside.
    """
    depth = graded([0.0, 0.011, 0.151, 0.162], [5, 14, 5])
    kinds = np.array([[0] * 5 + [1] * 14 + [0] * 5])
    vapor = (0.1 / 2e-10, 0.2 / 2e-10)
    mesh = plain_mesh(np.array([0.0, 1.0]), depth, kinds, (0.13, 0.04, *vapor))
    rows, across = len(depth), mesh.points[:, 1]
    behind = (across[mesh.part_cell] > 0.15) & (across[mesh.part_cell] < 0.1535)
    probe = Probe(
        name="inside of the outer skin",
        parts=np.flatnonzero(behind & (mesh.part_material == 0)),
    )
    weather, cells = drive(years), 2 * rows
    cases = [
        Case(
            mesh=mesh,
            materials=(HYGRO[board], HYGRO["eps"]),
            drive=weather,
            ways=tuple(
                AirWay(
                    first=0,
                    last=1,
                    cells=np.arange(k * rows, (k + 1) * rows),
                    contact=np.full(rows, np.inf),
                    flow=np.full(years * 8760, level / 3600.0 * 1.2 / 2.0),
                )
                for k in (0, 1)
            ),
            temperature=np.full(cells, 15.0),
            humidity=np.full(cells, 0.7),
            probes=(probe,),
        )
        for level in LEVELS
    ]
    verdicts = [
        worst(judge_run(run, [(probe.name, True)], start=OCTOBER)) for run in run_cases(cases)
    ]
    return largest_leak(LEVELS, [v.margin for v in verdicts], "m³/(h·m²)")


@pytest.mark.slow
def test_a_tighter_board_tolerates_less_leakage() -> None:
    """Skins that dry slowly pass with a fifth of the leak that open skins pass with, or less."""
    tight, open_ = limit_of("osb"), limit_of("osb_iso")
    assert tight.case == open_.case == "crosses"
    assert tight.level == pytest.approx(0.010, abs=0.003)
    assert open_.level == pytest.approx(0.06, abs=0.015)
    assert tight.level < 0.2 * open_.level
