"""The cover sheet."""

from __future__ import annotations

from dataclasses import replace

from tests.hand_house import house, schedule

from seamwright.report.cautions import cautions
from seamwright.report.cover import cover, decisions_table, findings_table, unsigned_table
from seamwright.report.types import Paragraph


def test_findings_stand_gravest_first_and_like_ones_together() -> None:
    """Two stops with the same words are one line that names both joints; the note comes after."""
    rows = findings_table(schedule().findings).rows
    assert [row[0] for row in rows] == ["STOP", "Note"]
    assert rows[0][1] == "R1.1-R2.1, A.1-base"


def test_unsigned_faces_are_counted_by_kind_with_their_reason() -> None:
    """Each proposal says that it is unsigned, for how many joints of which kinds, and why."""
    (row,) = unsigned_table(house()).rows
    assert (row[0], row[1].value, row[2]) == ("inside UNSIGNED", 3, "wall spline 2, ridge 1")
    assert row[3].startswith("zone 4C")


def test_signed_decisions_show_who_and_when() -> None:
    """A decision is shown with its signature, role, date and what it covers."""
    (row,) = decisions_table(house()).rows
    assert row[:5] == ("J. Hollis", "designer", "2026-03-02", "inside", "sill")


def test_a_quiet_house_says_that_nothing_was_found() -> None:
    """Without findings, breaks or lost corrections the cover says so instead of staying silent."""
    small = house()
    quiet = replace(
        small,
        schedule=replace(small.schedule, findings=()),
        register=replace(small.register, breaks=(), lost_overrides=()),
    )
    said = [b.text.text for b in cover(quiet) if isinstance(b, Paragraph)]
    assert any(text.startswith("Nothing was found") for text in said)


def test_cautions_fit_the_house() -> None:
    """A flue brings its caution; a house without one is not warned of it; heights always are."""
    small = house()
    with_flue = {c.text.split(".")[0] for c in cautions(small)}
    without = replace(small, shell=replace(small.shell, penetrations=()))
    assert "Flues" in with_flue
    assert "Flues" not in {c.text.split(".")[0] for c in cautions(without)}
    assert {"Heights", "Lifting", "Solvents and isocyanates", "Structure", "Fire"} <= with_flue


def test_assumptions_reach_the_cover() -> None:
    """What the layout assumed and where the catalog comes from stand on the cover."""
    said = [b.text.text for b in cover(house()) if isinstance(b, Paragraph)]
    assert "The sill plate is taken as 1-1/2 in thick." in said
    assert any("common practice, no source" in text for text in said)
