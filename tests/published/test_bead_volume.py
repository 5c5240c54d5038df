"""Sealant per metre of round bead, and metres per pack, against a table of the usual sizes.

Inches are exact and a US fluid ounce is 29.57353 mL in NIST Special Publication 811, appendix B.8.
The table gives millilitres per metre and metres per pack as packs print them, whole or to one
place; a bead is taken as a round bar, π d²/4.
"""

from __future__ import annotations

import math

import pytest

from seamwright.seals.catalog import default_catalog
from seamwright.seals.tables import BEAD, BEAD_ROUGH

FLUID_OUNCE = 29.57353e-6

TABLE = [
    # diameter m, ml per m, metres per 300 ml, per 600 ml, per 28 fl oz, tolerance on ml
    (0.00635, 32, 9.5, 18.9, 26),
    (0.0079375, 49, 6.1, 12.1, 16.8),
    (0.009525, 71, 4.2, 8.4, 11.6),
    (0.0127, 127, 2.4, 4.7, 6.6),
]


@pytest.mark.source("nist-sp811", "appendix B.8, volume")
@pytest.mark.parametrize(("d", "ml", "m300", "m600", "m28oz"), TABLE)
def test_bead_volume(d: float, ml: float, m300: float, m600: float, m28oz: float) -> None:
    """A round bead takes π d²/4 per metre and a pack its label's volume: the printed table."""
    area = math.pi * d**2 / 4
    assert area * 1e6 == pytest.approx(ml, abs=0.6)
    packs = {stock.pack: stock.volume for stock in default_catalog().sealants}
    assert packs["cartridge"] / area == pytest.approx(m300, abs=0.06)
    assert packs["sausage"] / area == pytest.approx(m600, abs=0.06)
    assert 28 * FLUID_OUNCE / area == pytest.approx(m28oz, abs=0.5)


@pytest.mark.source("nist-sp811", "appendix B.8, length")
def test_default_beads_are_sizes_of_the_table() -> None:
    """The default diameters stand in the table."""
    sizes = [row[0] for row in TABLE]
    assert BEAD in [pytest.approx(d) for d in sizes]
    assert BEAD_ROUGH in [pytest.approx(d) for d in sizes]


@pytest.mark.source("basc-sip-seams", "5,000 linear feet of bead in a 1,200 square foot house")
def test_the_published_house_takes_a_drum_of_sealant() -> None:
    """5,000 ft of 3/8 in bead is 109 litres, some 180 sausages."""
    volume = 5000 * 0.3048 * math.pi * BEAD**2 / 4
    assert volume == pytest.approx(0.109, abs=0.0005)
    packs = {stock.pack: stock.volume for stock in default_catalog().sealants}
    assert volume / packs["sausage"] == pytest.approx(181, abs=1)
