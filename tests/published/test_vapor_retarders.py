"""Classes of vapor retarders, films and the perm."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.moisture.films import (
    RETARDER_RULES,
    STRIPS,
    permeance_of_perms,
    perms_of_sd,
    resistance_of_sd,
    retarder_class,
    retarder_rule,
    sd_of_films,
    sd_of_permeance_si,
)
from seamwright.moisture.materials import FILMS, sd_of_permeance
from seamwright.moisture.transient.curves import values_of
from seamwright.moisture.transient.materials import HYGRO


@pytest.mark.source("irc-r702-7", "definitions of the classes")
def test_classes_by_permeance() -> None:
    """Class I to 0.1 perm, II to 1, III to 10; what is above is open."""
    given = {0.05: "I", 0.1: "I", 0.11: "II", 1.0: "II", 1.01: "III", 10.0: "III", 10.1: "open"}
    assert {perms: retarder_class(perms) for perms in given} == given


@pytest.mark.source("irc-r702-7", "tables of where classes are required and what lets III serve")
def test_rules_by_zone() -> None:
    """Marine 4 and 5 to 8 want I or II inside; 1 and 2 bar them; insulation as printed, in R."""
    for zone in ("4C", "5A", "6B", "7", "8"):
        assert retarder_rule(zone).required == ("I", "II")
    for zone in ("1A", "2B", "3C", "4A"):
        assert retarder_rule(zone).required == ()
    assert retarder_rule("2A").barred == ("I", "II")
    assert retarder_rule("3A").barred == ("I",)
    printed = {"4C": (2.5, 3.75), "5": (5, 7.5), "6": (7.5, 11.25), "7": (10, 15), "8": (12.5, 20)}
    for zone, r in printed.items():
        assert [v / 0.17611 for v in RETARDER_RULES[zone].insulated] == pytest.approx(r, abs=1e-3)
    assert retarder_rule("0A") is None


@pytest.mark.source("iso-10456", "table 5, films (from memory)")
def test_films() -> None:
    """The films of ISO 10456 and the class each would be by its perms."""
    printed = {
        "polyethylene 0.15 mm": (50.0, "I"),
        "polyethylene 0.25 mm": (100.0, "I"),
        "polyester film 0.2 mm": (50.0, "I"),
        "PVC foil": (30.0, "II"),
        "aluminum foil 0.05 mm": (1500.0, "I"),
        "polyethylene 0.15 mm, stapled": (8.0, "II"),
        "bituminous paper 0.1 mm": (2.0, "III"),
        "aluminum paper 0.4 mm": (10.0, "II"),
        "breather membrane": (0.2, "open"),
        "emulsion paint": (0.1, "open"),
        "gloss paint": (3.0, "III"),
        "vinyl wallpaper": (2.0, "III"),
    }
    assert {name: (sd_of_films(name), retarder_class(perms_of_sd(FILMS[name]))) for name in FILMS} \
        == printed  # fmt: skip


@pytest.mark.source("irc-r702-7", "1 perm is 57.2 ng/(s·m²·Pa) (from memory)")
def test_perms_there_and_back() -> None:
    """A perm is 57.2 ng/(s·m²·Pa) and 3.5 m of still air; conversions undo each other."""
    assert permeance_of_perms(1.0) == pytest.approx(57.2e-12)
    assert sd_of_permeance(1.0) == pytest.approx(3.4965, abs=1e-4)
    assert perms_of_sd(sd_of_permeance(0.37)) == pytest.approx(0.37)
    assert sd_of_permeance_si(permeance_of_perms(0.37)) == pytest.approx(sd_of_permeance(0.37))
    assert resistance_of_sd(sd_of_permeance(1.0)) == pytest.approx(1.0 / 57.2e-12)


@pytest.mark.source("building-science-osb", "0.7 and 2 perm at 11 mm (from memory)")
def test_oriented_strand_board_in_perms() -> None:
    """The board's cups read back as the perms they come from, a class II and a class III."""
    dry, wet = HYGRO["osb"].vapor_factor.y[1:3]
    assert perms_of_sd(dry * 0.011) == pytest.approx(0.7, abs=0.005)
    assert perms_of_sd(wet * 0.011) == pytest.approx(2.0, abs=0.005)


@pytest.mark.source("basc-sip-seams", "strips by sort: ranges are common practice, no source")
def test_strips_lie_in_their_ranges() -> None:
    """What a run takes for a strip lies in the range of its sort; butyl is tighter than film."""
    assert all(kind.low <= kind.perms <= kind.high for kind in STRIPS.values())
    assert STRIPS["butyl"].sd > STRIPS["acrylic"].sd > STRIPS["open_acrylic"].sd


@pytest.mark.source("panel-permeability-page", "1 perm at 50 %, up to ten times that at 90 %")
def test_plywood_opens_as_it_grows_wet() -> None:
    """A 9.5 mm panel passes 1 to 2 perm at 50 % and five to ten times that at 90 %."""
    factor = values_of(HYGRO["plywood"].vapor_factor, np.array([0.5, 0.9]))
    perms = [perms_of_sd(float(mu) * 0.0095) for mu in factor]
    assert 1.0 <= perms[0] <= 2.0
    assert 5.0 <= perms[1] / perms[0] <= 10.0


@pytest.mark.source("iea-annex-24-task-3", "concrete: vapor permeability at 23 °C")
def test_concrete_in_permeability() -> None:
    """1.26, 1.4, 2.5 and 6.3e-12 kg/(m·s·Pa) at 25, 50, 75 and 95 %."""
    factor = values_of(HYGRO["concrete"].vapor_factor, np.array([0.25, 0.50, 0.75, 0.95]))
    assert 1.97e-10 / factor == pytest.approx([1.26e-12, 1.4e-12, 2.5e-12, 6.3e-12], rel=0.01)
