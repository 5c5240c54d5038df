"""Draw the pictures of the docs anew from the built-in houses: ``python docs/make_pictures.py``."""

from __future__ import annotations

from pathlib import Path

from seamwright.draw.sheets import draw_sheets
from seamwright.io.plan import builtin_house, read_plan
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house

HOUSE = "heron_house"
FOLDER = Path(__file__).parent / "pictures"
KEPT = (
    "axonometric",
    "plan-1",
    "elevation-south",
    "roof-plan",
    "section-eave",
    "section-ridge",
    "section-sill",
    "section-valley",
    "section-wall_corner",
    "section-wall_spline",
)


def pictures() -> dict[str, str]:
    """Return the SVG text of each picture by its file name."""
    house = seal_house(read_plan(builtin_house(HOUSE)).plan, default_catalog())
    drawings = draw_sheets(
        house.shell,
        house.register,
        house.schedule,
        house.sections,
        system="us",
        paper="letter",
        title=house.plan.site.name,
    )
    chosen = {}
    for name in KEPT:
        first = next((key for key in drawings if key == name or key.startswith(f"{name}-")), None)
        if first is not None:
            chosen[f"{name}.svg"] = drawings[first].svg
    return chosen


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for file_name, svg in pictures().items():
        (FOLDER / file_name).write_text(svg, encoding="utf-8")
        print(file_name)  # noqa: T201 - a script that says what it made
