"""Write web/tests/lengths.json: lengths as the units print and read them, for the pages."""

from __future__ import annotations

import json
import random
from pathlib import Path

from seamwright.errors import InputError
from seamwright.units import format_length, format_width, parse_length

OUT = Path(__file__).resolve().parents[1] / "tests" / "lengths.json"
WRITTEN = (
    """24' 6-1/2\"""", """8'-7 7/16\"""", '103.4375"', "5 ft 3 in", "8' 7-7/16", "7.5 m", "7500 mm",
    "7,5 m", "7,500 mm", "12 cm", "-3'", '3/4"', '1 1/0"', """8' 13\"""", """2.5' 3\"""", "", "abc",
    "24′ 6½″", "10 feet", "6 inches", "1.5ft", "0.25 in", "4''", """- 2' 3\"""", "9 yd",
)  # fmt: skip


def cases() -> dict[str, list[dict[str, object]]]:
    """Return the cases: lengths [m] with their print, and texts with their value."""
    draw = random.Random(6)
    lengths = [0.0, 0.0254, 0.3048, 1.0, 0.9995, -0.1, 12.3456789, 2.4384, 0.00079375, 0.30559375]
    lengths += [draw.uniform(-1.0, 40.0) for _ in range(60)] + [
        draw.uniform(0.0, 0.6) for _ in range(60)
    ]
    lengths += [0.0254 * (k + 0.5) / 16 for k in range(20)]
    shown: list[dict[str, object]] = [
        {
            "metres": value,
            "run": {unit: format_length(value, unit) for unit in ("us", "metric")},
            "width": {unit: format_width(value, unit) for unit in ("us", "metric")},
        }
        for value in lengths
    ]
    return {"shown": shown, "read": [{"text": text, "metres": _read(text)} for text in WRITTEN]}


def _read(text: str) -> float | None:
    try:
        return float(parse_length(text))
    except InputError:
        return None


if __name__ == "__main__":
    OUT.write_text(json.dumps(cases(), indent=1, ensure_ascii=False) + "\n", "utf-8")
