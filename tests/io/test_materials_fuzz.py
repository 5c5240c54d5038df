"""No slip of a pen in a materials file ends in a traceback, and none gives an odd material."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from tests.io.test_weather_fuzz import outcomes, slips

from seamwright.errors import InputError
from seamwright.io.materials_file import read_materials
from seamwright.moisture.transient.tables import WATER, material_table

EXAMPLE = (Path(__file__).parents[2] / "examples" / "own_materials.yaml").read_text("utf-8")


def test_slips_in_a_materials_file_are_read_or_told() -> None:
    """Every slip is either read or told in sentences of one line; both happen."""
    told = outcomes(read_materials, EXAMPLE, 300)
    assert 30 < len([problems for problems in told if problems]) < 300 - 30
    assert not [text for problems in told for text in problems if "\n" in text]


def test_what_is_read_can_be_run() -> None:
    """A file that is accepted gives curves that a run can lay out."""
    for text in slips(EXAMPLE, 120):
        try:
            own = read_materials(text, name="f")
        except InputError:
            continue
        for material in own.materials.values():
            table = material_table(material)
            assert np.all(np.isfinite(table))
            assert np.all(np.diff(table[:, WATER]) > 0.0)
