"""Given panels with an outer outline of their own, and openings they are already notched for."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from seamwright.errors import InputError
from seamwright.shell.build import build_shell
from seamwright.shell.plan import GivenPanel, OpeningSpec, PanelType, Plan, Site

KIND = PanelType(
    id="P", skin_inner=Fraction(11, 1000), core=Fraction(143, 1000), skin_outer=Fraction(11, 1000),
    max_width=Fraction(3), max_length=Fraction(8), spline="surface",
    spline_width=Fraction(76, 1000), edge_gap=Fraction(3, 1000),
)  # fmt: skip
Ring = tuple[tuple[Fraction, Fraction], ...]


def ring(*points: tuple[float, float]) -> Ring:
    """Return exact points held to 1/1000 mm."""
    return tuple(
        (Fraction(round(u * 10**6), 10**6), Fraction(round(v * 10**6), 10**6)) for u, v in points
    )


PLAIN = ring((0, 0), (2, 0), (2, 2.5), (0, 2.5))
PANEL = GivenPanel(
    id="A.1", panel_type="P", role="wall", origin=(Fraction(0), Fraction(0), Fraction(0)),
    along=(1.0, 0.0, 0.0), up=(0.0, 0.0, 1.0), outline=PLAIN, plane="A",
)  # fmt: skip
WINDOW = OpeningSpec(
    id="W1", kind="window", host="A.1", along=Fraction(3, 2), up=Fraction(1),
    width=Fraction(1, 2), height=Fraction(1),
)  # fmt: skip


def plan(panel: GivenPanel, *openings: OpeningSpec) -> Plan:
    """Return a plan of one given panel."""
    return Plan(site=Site(name="x"), panel_types=(KIND,), panels=(panel,), openings=openings)


def test_an_outer_outline_is_taken_as_it_is() -> None:
    """The outer face has the corners given, each beside its partner on the inner face."""
    outer = ring((0, 0), (2, 0), (2, 2.4), (0, 2.4))
    (panel,) = build_shell(plan(replace(PANEL, outer_outline=outer))).panels
    pairs = set(zip(panel.inner, panel.outer, strict=True))
    assert pairs == {
        ((0.0, 0.0), (0.0, 0.0)),
        ((2.0, 0.0), (2.0, 0.0)),
        ((2.0, 2.5), (2.0, 2.4)),
        ((0.0, 2.5), (0.0, 2.4)),
    }


def test_a_clockwise_panel_keeps_its_pairs() -> None:
    """Turned around, inner and outer corners still belong together."""
    outer = ring((0, 0), (2, 0), (2, 2.4), (0, 2.4))
    turned = replace(PANEL, outline=PLAIN[::-1], outer_outline=outer[::-1])
    (panel,) = build_shell(plan(turned)).panels
    assert dict(zip(panel.inner, panel.outer, strict=True))[2.0, 2.5] == (2.0, 2.4)


def test_outlines_that_do_not_match_are_refused() -> None:
    """Three corners cannot stand beside four."""
    with pytest.raises(InputError, match=r"A\.1 does not match its inner outline"):
        build_shell(plan(replace(PANEL, outer_outline=PLAIN[:3])))


def test_an_opening_the_panel_is_notched_for_is_recorded() -> None:
    """A notch already cut, true to a hair, is left alone, and the opening stands in it."""
    notch = ring(
        (0, 0), (2, 0), (2, 1), (1.500001, 1), (1.500001, 2), (2, 2), (2, 2.5), (0, 2.5)
    )  # fmt: skip
    shell = build_shell(plan(replace(PANEL, outline=notch), WINDOW))
    assert [opening.id for opening in shell.openings] == ["W1"]
    assert shell.panels[0].holes == ()
    assert len(shell.panels[0].inner) == 8


def test_an_opening_beside_a_panel_is_still_refused() -> None:
    """An opening that misses its panel altogether is a mistake, not a notch."""
    away = replace(WINDOW, along=Fraction(5))
    with pytest.raises(InputError, match="W1"):
        build_shell(plan(PANEL, away))
