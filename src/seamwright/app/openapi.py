"""The description of the interface, printed: ``python -m seamwright.app.openapi``."""

from __future__ import annotations

import json
import sys
from typing import Any

from seamwright.app.make import make_app


def description() -> dict[str, Any]:
    """Return the description of the interface (OpenAPI 3.1)."""
    return make_app(None).openapi()


if __name__ == "__main__":
    json.dump(description(), sys.stdout, indent=1, ensure_ascii=False)
    sys.stdout.write("\n")
