"""Run every benchmark and print its table; ``--quick`` only proves that they run."""

from __future__ import annotations

import argparse
import importlib
import sys
from pathlib import Path

NAMES = ("joints", "cutting", "forecast", "hunt", "conduction", "days", "dryness", "desk", "pages")

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="small sizes, to prove that they run")
    quick = parser.parse_args().quick
    for name in NAMES:
        print(f"== {name}")
        for key, value in importlib.import_module(f"benchmarks.{name}").run(quick=quick).items():
            print(f"{key:32} {value}")
