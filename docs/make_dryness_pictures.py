"""Draw the pictures of dryness, minutes each: ``python docs/make_dryness_pictures.py``."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

PROGRAM = str(Path(sys.executable).with_name("seamwright"))
FOLDER = Path(__file__).parent / "pictures"
SHOWN = (
    ("heron_house", "ridge", "heron-ridge"),
    ("heron_house", "wall_spline", "heron-wall"),
    ("cypress_house", "wall_spline", "cypress-wall"),
    ("cypress_house", "roof_spline", "cypress-roof"),
)
"""House, kind of joint and name of the picture: the joint high in the house."""

if __name__ == "__main__":
    for house, kind, name in SHOWN:
        with TemporaryDirectory() as folder:
            words = ["dryness", house, "--joint", kind, "--units", "metric", "--out", folder]
            subprocess.run([PROGRAM, *words], check=False)  # noqa: S603 our own words; status 1 is a verdict
            svg = (Path(folder) / "dryness-j1-high.svg").read_text(encoding="utf-8")
        (FOLDER / f"dryness-{name}.svg").write_text(svg, encoding="utf-8")
        print(name)  # noqa: T201 - a script that says what it made
