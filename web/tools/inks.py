"""Write web/src/engine/inks.json: how the packet's drawings show each joint kind, for the model."""

from __future__ import annotations

import json
from pathlib import Path

from seamwright.draw.ink import KINDS

OUT = Path(__file__).resolve().parents[1] / "src" / "engine" / "inks.json"


def inks() -> dict[str, object]:
    """Return color, line width and dashes [mm], and mark of every joint kind."""
    return {
        kind: {
            "color": style.pen.color,
            "width_mm": style.pen.width,
            "dash_mm": list(style.pen.dash),
            "mark": style.mark,
        }
        for kind, style in KINDS.items()
    }


if __name__ == "__main__":
    OUT.write_text(json.dumps(inks(), indent=2) + "\n", "utf-8")
