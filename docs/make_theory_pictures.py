"""Draw the picture of the theory page: ``python docs/make_theory_pictures.py``."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from seamwright.climate.moist_air import density
from seamwright.draw.curves_chart import Panel, Trace, curves_chart
from seamwright.draw.types import Drawing
from seamwright.moisture.air_ways import EXPONENT, GRAVITY

FOLDER = Path(__file__).parent / "pictures"
HEIGHT = 2.4


def loop_chart() -> Drawing:
    """Return the pressures that turn the closed loops in winter, and where room air enters."""
    z = np.linspace(0.0, HEIGHT, 241)
    room, channel, outer = (float(density(np.array([t]), np.array([p]))[0])
                            for t, p in ((20.0, 800.0), (10.0, 600.0), (0.0, 450.0)))  # fmt: skip
    above = z - HEIGHT / 2
    share = np.abs(above) / (HEIGHT / 2)
    enters = 2.0 * (EXPONENT + 1.0) * share**EXPONENT * np.sign(above)
    height = tuple(z)
    return curves_chart(
        "theory-loop", "Closed loops in winter: room 20 °C, channel 10 °C, outdoors 0 °C",
        [
            Panel(title="Channel less the air beside it", x_title="pressure [Pa]",
                  y_title="height [m]", x_range=(-0.6, 0.6), y_range=(0, HEIGHT),
                  traces=(
                      Trace(name="beside the room", y=height,
                            x=tuple(-GRAVITY * (channel - room) * above)),
                      Trace(name="beside outdoors", y=height,
                            x=tuple(GRAVITY * (outer - channel) * above)),
                  )),
            Panel(title="Room air entering, over its mean", x_title="[-], below 0 it leaves",
                  y_title="height [m]", x_range=(-4, 4), y_range=(0, HEIGHT),
                  traces=(
                      Trace(name="along the height", x=tuple(enters), y=height),
                      Trace(name="as the section takes it", x=(1.0, 1.0), y=(0.0, HEIGHT)),
                  )),
        ],
        "An open channel 2.4 m high between dams; the other line of each loop is tight.",
    )  # fmt: skip


if __name__ == "__main__":
    chart = loop_chart()
    (FOLDER / f"{chart.name}.svg").write_text(chart.svg, encoding="utf-8")
    print(chart.name)  # noqa: T201 - a script that says what it made
