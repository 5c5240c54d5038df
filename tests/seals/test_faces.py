"""Proposals of faces by climate zone."""

from __future__ import annotations

import pytest

from seamwright.seals.face_table import ROWS, row_for


@pytest.mark.parametrize(
    ("zone", "face", "roof_lines"),
    [
        ("8", "inner", "inner"),
        ("7", "inner", "inner"),
        ("4C", "inner", "inner"),
        ("5C", "inner", "inner"),
        ("6B", "inner", "inner"),
        ("5A", "inner", "inner"),
        ("4A", "inner", "inner"),
        ("1A", "outer", "both"),
        ("2A", "outer", "both"),
        ("2B", "inner", "inner"),
        ("zone 2a", "outer", "both"),
    ],
)
def test_faces_by_zone(zone: str, face: str, roof_lines: str) -> None:
    """Cold, marine, mixed and dry zones propose inner; warm humid ones outer."""
    row = row_for(zone)
    assert row is not None
    assert (row.face, row.roof_lines) == (face, roof_lines)


@pytest.mark.parametrize("zone", ["9", "4D", "", "cold", "4", None])
def test_an_unknown_zone_has_no_row(zone: str | None) -> None:
    """A zone that is none of the standard's gets no guess."""
    assert row_for(zone) is None


def test_every_zone_stands_in_one_row() -> None:
    """No zone is listed twice, and every row says why and where from."""
    zones = [zone for row in ROWS for zone in row.zones]
    assert len(zones) == len(set(zones))
    assert all(row.reason and row.source for row in ROWS)
