"""Draw the pictures of materials and of the verdict: ``python docs/make_verdict_pictures.py``."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from seamwright.draw.curves_chart import Panel, Trace, curves_chart
from seamwright.draw.types import Drawing
from seamwright.moisture.transient.curves import values_of
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.verdict.mold import critical_humidity, mold_index

FOLDER = Path(__file__).parent / "pictures"
MONTHS = tuple((730.0 * (12 * y + m), f"{['Oct', 'Jan', 'Apr', 'Jul'][m // 3]}")
               for y in range(3) for m in (0, 3, 6, 9))  # fmt: skip


def materials_chart() -> Drawing:
    """Return what boards hold and resist over humidity."""
    boards = ("osb", "plywood", "softwood", "gypsum")
    humidity = np.linspace(0.0, 0.98, 99)
    resisting = np.linspace(0.0, 1.0, 101)
    shown = tuple(100 * float(h) for h in humidity)
    held = Panel(
        title="What they hold", x_title="relative humidity [%]",
        y_title="moisture content [% of dry mass]", x_range=(0, 100), y_range=(0, 30),
        traces=tuple(
            Trace(
                name=HYGRO[key].name.split(",")[0], x=shown,
                y=tuple(100 / HYGRO[key].density * values_of(HYGRO[key].sorption, humidity)),
            )
            for key in boards
        ),
        limits=((20.0, "20 %: fungi can live"),),
    )  # fmt: skip
    resist = Panel(
        title="How they resist vapor", x_title="relative humidity [%]",
        y_title="vapor resistance factor [-]", x_range=(0, 100), y_range=(5, 1000), log=True,
        traces=tuple(
            Trace(
                name=HYGRO[key].name, x=tuple(100 * float(h) for h in resisting),
                y=tuple(values_of(HYGRO[key].vapor_factor, resisting)),
            )
            for key in ("osb", "plywood", "softwood", "gypsum", "osb_iso")
        ),
    )  # fmt: skip
    return curves_chart("materials", "Boards over humidity", [held, resist],
                        "At 20 °C, without hysteresis.")  # fmt: skip


def mold_chart() -> Drawing:
    """Return critical humidity, and three years of a skin that is damp in winter."""
    degrees = np.linspace(0.5, 30.0, 119)
    needed = Panel(
        title="From what humidity mold grows", x_title="temperature [°C]",
        y_title="relative humidity [%]", x_range=(0, 30), y_range=(75, 100),
        traces=tuple(
            Trace(name=name, x=tuple(degrees), y=tuple(critical_humidity(degrees, least)))
            for name, least in (("boards and lumber", 80.0), ("mineral surfaces", 85.0))
        ),
    )  # fmt: skip
    hours = np.arange(3 * 8760)
    season = np.cos((hours - 2500) * 2 * np.pi / 8760)
    temperature = 11.0 - 6.0 * season
    traces = tuple(
        Trace(
            name=f"{100 * wettest:.0f} % in winter, decline {decline:g}",
            x=tuple(hours[::24].astype(float)),
            y=tuple(
                mold_index(
                    temperature, 0.70 + (wettest - 0.70) * season, "sensitive", decline
                )[0][::24]
            ),
        )
        for wettest, decline in ((0.99, 0.1), (0.96, 0.1), (0.96, 1.0), (0.92, 0.1))
    )  # fmt: skip
    years = Panel(
        title="Mold index of a skin that is damp each winter, 5 to 17 °C", x_title="",
        y_title="mold index [-]", x_range=(0, 26_280), y_range=(0, 5), traces=traces,
        limits=((3.0, "3: visible"),), x_ticks=MONTHS,
    )  # fmt: skip
    return curves_chart("mold-index", "Mold", [needed, years], "Invented skins.")


if __name__ == "__main__":
    for drawing in (materials_chart(), mold_chart()):
        (FOLDER / f"{drawing.name}.svg").write_text(drawing.svg, encoding="utf-8")
        print(drawing.name)  # noqa: T201 - a script that says what it made
