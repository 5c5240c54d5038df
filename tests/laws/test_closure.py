"""No ray from inside a closed house escapes, and one does where a panel is missing."""

from __future__ import annotations

from dataclasses import replace

from tests.rays import directions, escaping
from tests.samples import HEIGHT, LENGTH, WIDTH, gable_box

MIDDLE = (LENGTH / 2 + 0.11, WIDTH / 2 + 0.07, HEIGHT / 2)


def test_no_ray_escapes_the_sample_house() -> None:
    """The hand-made house closes to the width of its seams."""
    assert len(escaping(gable_box(), MIDDLE, directions(20_000), slack=0.005)) == 0


def test_rays_escape_where_a_panel_is_missing() -> None:
    """Without one roof panel the sky shows, and only there."""
    shell = gable_box()
    panels = tuple(panel for panel in shell.panels if panel.id != "R1.2")
    ways = escaping(replace(shell, panels=panels), MIDDLE, directions(20_000), slack=0.005)
    assert len(ways) > 1_000
    assert (ways[:, 2] > 0).all()
    assert (ways[:, 0] > -0.2).all()
